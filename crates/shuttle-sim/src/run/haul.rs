//! The haul: which fill site, the road out and back, and filling. Rules 6 to 8 of the model.

use crate::luck::Purpose;
use crate::road::Way;
use crate::run::boss::Outlook;
use crate::run::calendar::Event;
use crate::run::prepared::PreparedFill;
use crate::run::shuttle::{Absence, Shuttle};
use crate::run::tanker::Phase;
use crate::scene::{LEAST_TURN, SAME_LEVEL};
use crate::story::Happening;
use crate::time::Moment;

/// Expected times closer than this are the same, minutes.
const SAME_TIME: f64 = 1e-9;

/// Which fill site a tanker goes to.
enum Choice {
    Site(usize),
    /// It stands by, and looks again after so many minutes.
    StandBy(f64),
}

impl Shuttle {
    /// The trip counts; a breakdown may take the tanker out; else it is ready to leave.
    pub(crate) fn trip_done(&mut self, tanker: usize) {
        let state = &self.tankers[tanker];
        let (trip, prepared) = (state.trips, &self.prepared.tankers[tanker]);
        let breaks_down =
            state.draws.happens(prepared.breakdown_per_trip, Purpose::Breakdown, trip);
        self.enter(tanker, Phase::Leaving);
        let state = &mut self.tankers[tanker];
        state.end_cycle();
        state.trips += 1;
        if let Some(absence) = self.is_taken_out(tanker) {
            self.absences[tanker] = Some(Absence { is_over: true, ..absence });
            match absence.time {
                None => self.enter(tanker, Phase::OutOfService),
                Some(time) => self.enter_for(tanker, Phase::Repair, time),
            }
            return;
        }
        if !breaks_down {
            return self.will_leave(tanker);
        }
        let prepared = &self.prepared.tankers[tanker];
        match &prepared.repair {
            None => self.enter(tanker, Phase::OutOfService),
            Some(repair) => {
                let time = self.draw_of(prepared.call.key, repair, Purpose::Repair, trip);
                self.enter_for(tanker, Phase::Repair, time);
            }
        }
    }

    pub(crate) fn repaired(&mut self, tanker: usize) {
        self.enter(tanker, Phase::Leaving);
        self.will_leave(tanker);
    }

    fn will_leave(&mut self, tanker: usize) {
        let place = self.leaving.partition_point(|other| *other < tanker);
        self.leaving.insert(place, tanker);
    }

    /// Whoever stands by looks again, the longest first; then everyone who is ready leaves, as listed.
    ///
    /// - Returns: whether anyone left while others stand by, who then look again.
    pub(crate) fn tankers_leave(&mut self) -> bool {
        let mut anyone = !self.leaving.is_empty();
        for place in 0..self.standing_by.len() {
            anyone |= self.leave(self.standing_by[place]);
        }
        self.standing_by.retain(|tanker| self.tankers[*tanker].phase == Phase::StandBy);
        for place in 0..self.leaving.len() {
            self.leave(self.leaving[place]);
        }
        self.leaving.clear();
        anyone && !self.standing_by.is_empty()
    }

    /// - Returns: whether it left, rather than stand by.
    fn leave(&mut self, tanker: usize) -> bool {
        match self.choose_site(tanker) {
            Choice::Site(site) => {
                self.tally.result.carried_away += self.tankers[tanker].load;
                if self.tankers[tanker].phase == Phase::StandBy {
                    self.calendar.take_off(Event::Tanker(tanker));
                }
                self.travel(tanker, Way::Out, site);
                true
            }
            Choice::StandBy(minutes) => {
                if self.tankers[tanker].phase == Phase::StandBy {
                    self.calendar.take_off(Event::Tanker(tanker));
                } else {
                    self.enter(tanker, Phase::StandBy);
                    self.standing_by.push(tanker);
                    let tankers = &self.tankers;
                    self.standing_by.sort_unstable_by_key(|one| (tankers[*one].since, *one));
                }
                self.calendar.set(Event::Tanker(tanker), self.now.after(minutes.max(LEAST_TURN)));
                false
            }
        }
    }

    /// The site it is assigned to, else the one from which it should be back first; none that cannot give
    /// half its capacity beyond what those ahead still take.
    fn choose_site(&self, tanker: usize) -> Choice {
        let (mut best, mut look_again) = (None, f64::INFINITY);
        let assigned = self.prepared.tankers[tanker].fill_site;
        let sites = assigned.map_or(0..self.sites.len(), |site| site..site + 1);
        let only_one = sites.len() == 1;
        for site in sites {
            if self.is_closed_to(site, tanker) {
                continue;
            }
            let lacks = self.water_lacking_at(site, tanker);
            if lacks > SAME_LEVEL {
                look_again = look_again.min(self.sites[site].minutes_to_gain(lacks));
                continue;
            }
            if only_one {
                return Choice::Site(site);
            }
            let back_at = self.outlook(tanker, site).back_at();
            if best.is_none_or(|(least, _)| back_at < least - SAME_TIME) {
                best = Some((back_at, site));
            }
        }
        best.map_or(Choice::StandBy(look_again), |(_, site)| Choice::Site(site))
    }

    /// Nothing will be had there: it has failed for good, or its pump stays away. Who fills itself needs neither.
    fn is_closed_to(&self, site: usize, tanker: usize) -> bool {
        let gives_nothing = self.sites[site].is_without_pump
            || self.site_should_be_repaired(site) == Some(Moment::NEVER);
        gives_nothing && !self.prepared.tankers[tanker].fills[site].itself
    }

    /// When a site should serve a tanker, by means, minutes after the alarm; not before now.
    fn opens(&self, site: usize, tanker: usize) -> f64 {
        let (now, state) = (self.now.minutes(), &self.sites[site]);
        if self.prepared.tankers[tanker].fills[site].itself {
            return now;
        }
        let ready = if state.is_ready { now } else { now.max(self.ready_by_means(site)) };
        self.site_should_be_repaired(site).map_or(ready, |it| ready.max(it.minutes()))
    }

    /// When a site should be ready, by means, minutes after the alarm: where a pump is brought, once it is set up.
    fn ready_by_means(&self, site: usize) -> f64 {
        let prepared = &self.prepared.sites[site];
        match &prepared.pump {
            None => prepared.ready.mean,
            Some(pump) => self.call_of(self.brings_pump(site)).expected() + pump.setup.mean,
        }
    }

    /// What a site lacks of half the tanker's capacity, once those ahead have taken what they need, gal.
    fn water_lacking_at(&self, site: usize, tanker: usize) -> f64 {
        let Some(left) = self.sites[site].water_left(self.now) else { return 0.0 };
        let taken: f64 = self.ahead_at(site, tanker).map(|other| self.still_to_fill(other)).sum();
        0.5 * self.prepared.tankers[tanker].capacity - (left - taken)
    }

    /// All others on the way to this site, or at it until they have disconnected.
    fn ahead_at(&self, site: usize, tanker: usize) -> impl Iterator<Item = usize> {
        self.sites[site].expected.iter().copied().filter(move |other| *other != tanker)
    }

    /// What a fill takes, gal: with a rest aboard so much less.
    fn whole_fill(&self, tanker: usize) -> f64 {
        let prepared = &self.prepared.tankers[tanker];
        prepared.fill * (1.0 - self.tankers[tanker].load / prepared.full_load)
    }

    /// What a tanker on the way to a site, or at it, still has to fill, gal.
    fn still_to_fill(&self, tanker: usize) -> f64 {
        match self.tankers[tanker].phase {
            Phase::Filling(site) => self.sites[site].still_needs(tanker, self.now),
            Phase::FillDisconnect(_) => 0.0,
            _ => self.whole_fill(tanker),
        }
    }

    /// What a site promises this tanker, by means.
    fn outlook(&self, tanker: usize, site: usize) -> Outlook {
        let (now, prepared) = (self.now.minutes(), &self.prepared.sites[site]);
        let rate = |tanker: usize| self.prepared.tankers[tanker].fills[site].rate;
        let mut work_ahead = 0.0;
        for other in self.ahead_at(site, tanker) {
            work_ahead += self.still_to_fill(other) / rate(other);
            if prepared.positions == 1 {
                let handling = &self.prepared.tankers[other];
                let phase = self.tankers[other].phase;
                if !matches!(phase, Phase::Filling(_) | Phase::FillDisconnect(_)) {
                    work_ahead += handling.fill_connect.mean;
                }
                work_ahead += handling.fill_disconnect.mean;
            }
        }
        let handling = &self.prepared.tankers[tanker];
        let fill = self.whole_fill(tanker) / rate(tanker);
        let [out, back] = self.prepared.road(tanker, site);
        Outlook {
            now,
            out: out.mean,
            back: back.mean,
            open: self.opens(site, tanker),
            work_ahead,
            service: handling.fill_connect.mean + fill + handling.fill_disconnect.mean,
        }
    }

    /// Sets out for a site, or back from it: over a one-lane stretch at the near end, if there is one.
    pub(crate) fn travel(&mut self, tanker: usize, way: Way, site: usize) {
        let lane = match way {
            Way::Out => {
                self.sites[site].expect(tanker);
                self.prepared.scene_lane
            }
            Way::Back => {
                self.sites[site].expected.retain(|other| *other != tanker);
                self.prepared.sites[site].lane
            }
        };
        match lane {
            Some(lane) => self.wait_for_lane(tanker, lane, way, site),
            None => self.drive(tanker, way, site),
        }
    }

    /// Takes the open road.
    fn drive(&mut self, tanker: usize, way: Way, site: usize) {
        let [out, back] = self.prepared.road(tanker, site);
        let (time, purpose, phase) = match way {
            Way::Out => (out, Purpose::TravelOut, Phase::TravelOut(site)),
            Way::Back => (back, Purpose::TravelBack, Phase::TravelBack(site)),
        };
        let time = self.draw(tanker, time, purpose);
        self.enter_for(tanker, phase, time);
    }

    /// It has driven the open road: a one-lane stretch at the far end, if there is one, is still to cross.
    pub(crate) fn drove(&mut self, tanker: usize, way: Way, site: usize) {
        let lane = match way {
            Way::Out => self.prepared.sites[site].lane,
            Way::Back => self.prepared.scene_lane,
        };
        match lane {
            Some(lane) => self.wait_for_lane(tanker, lane, way, site),
            None => self.arrive(tanker, way, site),
        }
    }

    fn arrive(&mut self, tanker: usize, way: Way, site: usize) {
        match way {
            Way::Out => self.arrive_at_site(tanker, site),
            Way::Back => self.join_line(tanker),
        }
    }

    fn wait_for_lane(&mut self, tanker: usize, lane: usize, way: Way, site: usize) {
        self.enter(tanker, Phase::LaneWait { lane, way, site });
        self.lanes[lane].join(tanker, way, self.now);
        self.may_enter_a_lane = true;
    }

    /// Whoever may enter a one-lane stretch does.
    pub(crate) fn serve_lanes(&mut self) {
        for lane in 0..self.lanes.len() {
            while let Some(tanker) = self.lanes[lane].next_in() {
                let Phase::LaneWait { way, site, .. } = self.tankers[tanker].phase else {
                    unreachable!("tanker {tanker} stood in line for a road it did not wait for");
                };
                let purpose = match (way, self.prepared.scene_lane == Some(lane)) {
                    (Way::Out, true) => Purpose::CrossSceneOut,
                    (Way::Out, false) => Purpose::CrossSiteOut,
                    (Way::Back, false) => Purpose::CrossSiteBack,
                    (Way::Back, true) => Purpose::CrossSceneBack,
                };
                let time = self.draw(tanker, &self.prepared.lanes[lane], purpose);
                self.enter_for(tanker, Phase::LaneCross { lane, way, site }, time);
            }
        }
    }

    /// It has left a one-lane stretch.
    pub(crate) fn crossed(&mut self, tanker: usize, lane: usize, way: Way, site: usize) {
        self.lanes[lane].leave();
        self.may_enter_a_lane = true;
        let by_scene = self.prepared.scene_lane == Some(lane);
        if by_scene == (way == Way::Out) {
            self.drive(tanker, way, site);
        } else {
            self.arrive(tanker, way, site);
        }
    }

    fn arrive_at_site(&mut self, tanker: usize, site: usize) {
        if self.is_taken_out(tanker).is_some_and(|absence| absence.time.is_none()) {
            return self.enter(tanker, Phase::OutOfService);
        }
        if self.sites[site].is_dry_for_good() {
            return self.travel(tanker, Way::Back, site);
        }
        self.enter(tanker, Phase::FillQueue(site));
        self.sites[site].queue.push(tanker);
        self.may_begin_to_fill = true;
    }

    /// Free fill positions go to whoever came first, once the site is ready; before, to whoever fills itself.
    pub(crate) fn serve_fill_sites(&mut self) {
        for site in 0..self.sites.len() {
            loop {
                let state = &mut self.sites[site];
                if state.queue.is_empty() || state.free_positions == 0 {
                    break;
                }
                let tankers = &self.prepared.tankers;
                let may = |tanker: &usize| state.is_ready || tankers[*tanker].fills[site].itself;
                let Some(first) = state.queue.iter().position(may) else { break };
                let tanker = state.queue.remove(first);
                state.free_positions -= 1;
                self.enter_drawn(tanker, Phase::FillConnect(site), Purpose::FillConnect);
            }
        }
    }

    pub(crate) fn begin_filling(&mut self, tanker: usize, site: usize) {
        self.enter(tanker, Phase::Filling(site));
        let PreparedFill { limit, itself, .. } = self.prepared.tankers[tanker].fills[site];
        let fill = self.whole_fill(tanker);
        self.sites[site].begin_fill(self.now, tanker, fill, limit, itself);
    }

    /// Every fill that ends at this instant: the tanker is full, or the site has gone dry for good.
    pub(crate) fn end_fills(&mut self) {
        for site in 0..self.sites.len() {
            if self.sites[site].next > self.now {
                continue;
            }
            let was_dry = self.sites[site].is_dry();
            self.sites[site].settle(self.now);
            while let Some(filling) = self.sites[site].take_finished(self.now) {
                self.tally.result.events += 1;
                self.filled(filling.tanker, site, filling.taken());
            }
            if self.sites[site].is_dry() && !was_dry {
                self.note(Happening::FillSiteDry(site));
            }
            if self.sites[site].is_dry_for_good() {
                while !self.sites[site].queue.is_empty() {
                    let tanker = self.sites[site].queue.remove(0);
                    self.travel(tanker, Way::Back, site);
                }
            }
        }
    }

    /// It carries what it has taken beside its rest, and disconnects.
    fn filled(&mut self, tanker: usize, site: usize, taken: f64) {
        let load = taken * (1.0 - self.prepared.tankers[tanker].waste);
        self.tally.result.taken[site] += taken;
        self.tankers[tanker].load += load;
        self.tankers[tanker].waste = taken - load;
        self.enter_drawn(tanker, Phase::FillDisconnect(site), Purpose::FillDisconnect);
    }

    pub(crate) fn left_fill_position(&mut self, tanker: usize, site: usize) {
        self.sites[site].free_positions += 1;
        self.may_begin_to_fill = true;
        self.travel(tanker, Way::Back, site);
    }
}
