//! What is known ahead of its time, and so needs no event of its own.
//!
//! A visit to a fill site is known whole when the tanker comes, where nobody who comes later can change
//! it: whoever comes first is served first, the water has no end, and each takes its own rate whoever
//! fills beside it. So is pulling clear of the only dump position, and who goes there next; and whoever
//! joins the line at the scene while no place is open changes nothing for others. The plain way, event by
//! event, stays for all other plans and whenever the story of a run is told; times are whole ticks, so
//! both ways give the same bits (`tests/laws/known_ahead.rs` holds them to it).

use std::collections::VecDeque;

use crate::engine::Shuttle;
use crate::moment::{Moment, Ticks};
use crate::phase::Phase;
use crate::plan::{FillOrder, Plan};
use crate::results::Part;
use crate::scene::TankState;

/// Which visits are known ahead.
#[derive(Debug)]
pub(crate) struct KnownAhead {
    /// For each fill site, whether visits to it are.
    pub visits: Vec<bool>,
    /// Whether any of them is.
    pub some_visits: bool,
    /// Whether pulling clear of the drop tank is.
    pub clearing: bool,
    /// Whether the next dump needs no timer of its own: there is one place, and the plan has no nursing.
    pub dumping: bool,
    /// Whether the times of a dump and of the way out after it are drawn while the tanker drives to it:
    /// where all know beforehand which fill site they go to.
    pub dump_times: bool,
    /// Whether loads are, one after the other, while nothing else happens.
    pub loads: bool,
    /// Whether a tanker chooses among fill sites, by who is ahead of it.
    pub someone_chooses: bool,
}

impl KnownAhead {
    pub fn new(plan: &Plan) -> KnownAhead {
        let facts = plan.facts();
        // On a one-lane stretch everyone waits for everyone.
        let open_road = facts.one_lanes.is_empty();
        let visits = facts.fill_sites.iter().map(|site| {
            let each_its_own = match site.fill_order {
                _ if site.positions == 1 => true,
                FillOrder::Shared => {
                    let share = site.flow / f64::from(site.positions);
                    facts.tankers.iter().all(|tanker| tanker.fill_limit <= share)
                }
                FillOrder::OneByOne => false,
            };
            open_road && site.volume.is_none() && each_its_own
        });
        let all_assigned = facts.tankers.iter().all(|tanker| tanker.fill_site.is_some());
        let one_endless_site = facts.fill_sites.len() == 1 && facts.fill_sites[0].volume.is_none();
        let one_place = matches!(&facts.drop_tanks[..], [only] if only.dump_positions == 1);
        let visits: Vec<bool> = visits.collect();
        let clearing = open_road && one_place && (all_assigned || one_endless_site);
        KnownAhead {
            loads: clearing && visits.iter().all(|known| *known),
            some_visits: visits.contains(&true),
            visits,
            clearing,
            dump_times: !facts.drop_tanks.is_empty() && (all_assigned || one_endless_site),
            dumping: one_place && !facts.supply.nurse,
            someone_chooses: !all_assigned && !one_endless_site,
        }
    }
}

/// Who is served when, where visits are known ahead.
#[derive(Debug)]
pub(crate) struct Places {
    /// When the next becomes free.
    next_free: Moment,
    /// When each of the others does, the earliest first. Whoever takes one leaves it mostly among the
    /// last.
    others_free: VecDeque<Moment>,
    /// When the last of those who came begins to be served.
    last_begins: Moment,
    /// When those who came leave, where someone asks how many are still there.
    leaving: Vec<Moment>,
}

impl Places {
    pub fn new(places: usize, tankers: usize) -> Places {
        let others = places.min(tankers).saturating_sub(1);
        Places {
            next_free: Moment::ALARM,
            others_free: vec![Moment::ALARM; others].into(),
            last_begins: Moment::ALARM,
            leaving: Vec::with_capacity(tankers),
        }
    }

    /// All are free from `ready` on.
    pub fn reset(&mut self, ready: Moment) {
        self.next_free = ready;
        self.others_free.iter_mut().for_each(|free| *free = ready);
        self.last_begins = Moment::ALARM;
        self.leaving.clear();
    }

    /// Whether someone waits at this moment, all of it applied.
    pub fn someone_waits(&self, now: Moment) -> bool {
        self.last_begins > now
    }

    /// When one who comes now will be served.
    fn next_begins(&mut self, now: Moment) -> Moment {
        self.last_begins = now.max(self.next_free);
        self.last_begins
    }

    /// The place that is free next is taken until then.
    #[inline(always)]
    fn take_until(&mut self, leaves: Moment) {
        self.next_free = leaves;
        if !self.others_free.is_empty() {
            self.put_back(leaves);
        }
    }

    /// Another may be free before.
    #[inline(never)]
    fn put_back(&mut self, leaves: Moment) {
        if self.others_free.front().is_none_or(|free| *free >= leaves) {
            return;
        }
        if let Some(next) = self.others_free.pop_front() {
            self.next_free = next;
            let before = self.others_free.iter().rposition(|free| *free <= leaves);
            self.others_free.insert(before.map_or(0, |before| before + 1), leaves);
        }
    }

    /// Notes when one who comes now leaves. Where there is no more room for it, those who have left are
    /// counted now.
    ///
    /// - Returns: how many are.
    #[inline(never)]
    fn note_leaving(&mut self, now: Moment, leaves: Moment) -> u32 {
        let is_full = self.leaving.len() == self.leaving.capacity();
        let left = if is_full { self.take_left(now) } else { 0 };
        self.leaving.push(leaves);
        left
    }

    /// How many have left since this was asked last.
    pub fn take_left(&mut self, now: Moment) -> u32 {
        let before = self.leaving.len();
        self.leaving.retain(|leaves| *leaves > now);
        (before - self.leaving.len()) as u32
    }
}

/// The only dump position, where there is one alone.
#[derive(Debug, Clone, Copy)]
pub(crate) struct OnlyPlace {
    /// When it becomes free, where pulling clear of it is known ahead; else never later than now.
    pub free_at: Moment,
    /// When the last tanker that was given it begins to use it; of loads taken whole it is not noted, as
    /// nothing is judged before they are done.
    pub begins_at: Moment,
    /// When the next dump begins, where that needs no timer, and whose it is.
    pub next_dump: Moment,
    pub next_tanker: usize,
}

impl OnlyPlace {
    pub const FREE: OnlyPlace = OnlyPlace {
        free_at: Moment::ALARM,
        begins_at: Moment::ALARM,
        next_dump: Moment::NEVER,
        next_tanker: 0,
    };
}

impl Shuttle {
    /// Until anything else happens, whoever comes to a fill site where visits are known ahead is served
    /// there, and whoever comes to the scene while no place is open stands in line: neither changes
    /// anything else.
    pub(crate) fn let_tankers_come(&mut self) {
        if self.trace.is_some() {
            return;
        }
        debug_assert!(!self.places_moved, "queues are served before");
        debug_assert!(self.lanes.is_empty(), "visits are known on the open road");
        let until = self.end.min(self.timers.next_of_equipment()).min(self.sites_next);
        let until = until.min(self.scene.next).min(self.only_place.next_dump);
        while let Some((now, tanker)) = self.timers.next_of_tankers(until) {
            match self.tankers[tanker].phase {
                Phase::TravelOut { site } if self.known_ahead.visits[site] => {
                    self.visit(tanker, site, now);
                }
                Phase::TravelBack { .. } if !self.may_be_served_at_once() => {
                    self.now = now;
                    self.join_scene_queue(tanker);
                    self.places_moved = false;
                    self.timers.put_off(Moment::NEVER, tanker);
                }
                _ => return,
            }
            self.result.events += 1;
        }
    }

    /// Whether whoever ends its drive to the scene may be given a place at once.
    fn may_be_served_at_once(&self) -> bool {
        self.nursing_is_open() || self.scene.tanks.iter().any(TankState::is_open)
    }

    /// The whole visit to a fill site of a tanker that comes at this moment, and its leaving for the
    /// scene; its timer is set to when it gets there.
    #[inline(never)]
    pub(crate) fn visit(&mut self, tanker: usize, site: usize, comes: Moment) {
        self.visit_here(tanker, site, comes);
    }

    /// The same without a call, for the one place where most visits are made.
    #[inline(always)]
    pub(crate) fn visit_here(&mut self, tanker: usize, site: usize, comes: Moment) {
        let state = &mut self.tankers[tanker];
        let ready = &self.ready.tankers[tanker];
        let places = &mut self.sites[site].places;
        let begins = places.next_begins(comes);
        if begins >= self.end {
            // It is still in line when the watch ends.
            state.enter(Phase::FillQueue { site }, comes);
            return self.timers.put_off(Moment::NEVER, tanker);
        }
        let road = state.road_times(ready, &self.ready.sites[site], &self.ready.tables);
        let connected = begins + road.fill_connect;
        let full = connected + ready.expects[site].fills_for;
        let leaves = full + road.fill_disconnect;
        places.take_until(leaves);
        if self.known_ahead.someone_chooses {
            self.sites[site].ahead -= self.sites[site].places.note_leaving(comes, leaves);
        }
        let arrives = leaves + road.back;
        self.timers.put_off(arrives, tanker);

        state.cycle.begin_next();
        debug_assert_eq!(state.part, Part::TravelOut as usize, "it comes by the open road");
        state.cycle.add_for_good(Part::TravelOut, comes.since(state.since));
        state.cycle.add_for_good(Part::FillWait, begins.since(comes));
        state.cycle.add_for_good(Part::FillConnect, road.fill_connect);
        state.cycle.add_for_good(Part::Fill, full.since(connected));
        state.cycle.add_for_good(Part::FillDisconnect, road.fill_disconnect);
        state.begin(Phase::TravelBack { site }, leaves);
        if self.known_ahead.dump_times && arrives < self.end {
            state.draw_dump_times(ready, &self.ready.sites[site], &self.ready.tables);
        }
        if full < self.end {
            (state.load, state.waste) = (ready.load, ready.spills);
            self.taken[site] += ready.fill_millionths;
        }
        self.result.events += if leaves < self.end {
            3
        } else {
            u64::from(connected < self.end) + u64::from(full < self.end)
        };
        let held = self.watched(begins, leaves);
        self.fill_held[site] += held;
    }

    /// How much of the time between these moments falls into the watch.
    pub(crate) fn watched(&self, from: Moment, to: Moment) -> Ticks {
        to.min(self.end).since(from.max(self.first_water))
    }

    /// Pulls clear after this time and leaves, and the place can be given to the next in line, if all
    /// this is known now.
    ///
    /// - Returns: whether it was.
    pub(crate) fn clears_ahead(&mut self, tanker: usize, time: Ticks) -> bool {
        let (now, clear) = (self.now, self.now + time);
        if !self.known_ahead.clearing
            || self.trace.is_some()
            || self.nursing_is_open()
            || clear >= self.end
            || self.breaks_down(tanker)
        {
            return false;
        }
        let Some(site) = self.ready.tankers[tanker].fill_site else { return false };
        self.result.events += 1;
        let held = self.watched(self.tankers[tanker].held_since, clear);
        self.dump_held[0] += held;
        self.now = clear;
        self.settle_trip(tanker);
        self.sites[site].ahead += 1;
        self.drive_out(tanker, site);
        self.only_place.free_at = clear;
        self.scene.tanks[0].free_positions += 1;
        self.places_moved = true;
        self.now = now;
        true
    }

    /// The next dump at the only place begins.
    #[inline]
    pub(crate) fn begin_next_dump(&mut self) {
        self.only_place.next_dump = Moment::NEVER;
        self.result.events += 1;
        self.begin_dump(self.only_place.next_tanker, 0);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn of_many_visits_that_nobody_counts_only_those_who_are_there_are_kept() {
        let mut places = Places::new(1, 3);
        places.reset(Moment::ALARM);
        let room = places.leaving.capacity();
        let mut left = 0;
        for visit in 0..100 {
            let comes = Moment::ALARM.after(f64::from(visit));
            left += places.note_leaving(comes, comes.after(2.5));
        }
        assert_eq!(places.leaving.capacity(), room);
        // Of the last three two are still there a minute after the last came.
        left += places.take_left(Moment::ALARM.after(100.0));
        assert_eq!((left, places.leaving.len()), (98, 2));
    }
}
