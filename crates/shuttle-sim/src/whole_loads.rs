//! Load after load, while nothing else happens.
//!
//! In most plans, most of the time, tankers only come to the fill site and to the only dump position,
//! and each visit is known whole when the tanker comes. Then one arrival follows the other here, without
//! the round of all that an instant may bring. Whatever is not known whole is left, untouched, to the
//! plain way in `engine`; the bits are the same (`tests/laws/known_ahead.rs`).

use crate::engine::Shuttle;
use crate::moment::Moment;
use crate::phase::Phase;
use crate::results::Part;
use crate::scene::Evenly;

impl Shuttle {
    /// Goes from load to load until something else is next.
    #[inline(never)]
    pub(crate) fn take_loads_whole(&mut self) {
        let nobody_nurses = self.free_intakes == self.plan.facts().attack_engine.intakes;
        if !nobody_nurses || self.trace.is_some() {
            return;
        }
        debug_assert!(!self.places_moved, "queues are served before");
        let Some(mut even) = self.scene.runs_evenly() else { return };
        let until = self.end.min(self.sites_next).min(self.timers.next_of_equipment());
        // Whoever has the place comes first, then who stands in line for it, then who is on the road.
        if self.only_place.next_dump < Moment::NEVER {
            if !self.take_waiting_load_whole(self.only_place.next_tanker, &mut even, until) {
                return;
            }
            self.only_place.next_dump = Moment::NEVER;
            self.scene.tanks[0].free_positions += 1;
        }
        while let Some(tanker) = self.scene_queue.front() {
            if !self.take_waiting_load_whole(*tanker, &mut even, until) {
                return self.serve_left_place();
            }
            self.scene_queue.pop_front();
        }
        while let Some((now, tanker)) = self.timers.next_of_tankers(until.min(self.scene.next)) {
            match self.tankers[tanker].phase {
                Phase::TravelOut { site } => {
                    self.result.events += 1;
                    self.visit_here(tanker, site, now);
                }
                Phase::TravelBack { .. } => {
                    if !self.take_load_whole(tanker, now, &mut even, until) {
                        return;
                    }
                }
                _ => return,
            }
        }
    }

    /// The place may have been left ahead of its time.
    #[cold]
    fn serve_left_place(&mut self) {
        self.serve_queues();
    }

    /// The same as [`Self::take_load_whole`] for the few that wait already.
    #[inline(never)]
    fn take_waiting_load_whole(&mut self, tanker: usize, even: &mut Evenly, until: Moment) -> bool {
        self.take_load_whole(tanker, self.now, even, until)
    }

    /// All that a tanker does until it drives off, once it has come to the scene.
    ///
    /// - Returns: whether all of it was known; if not, nothing is done.
    // Nearly all loads come through one place: there, without a call.
    #[inline(always)]
    fn take_load_whole(
        &mut self,
        tanker: usize,
        now: Moment,
        even: &mut Evenly,
        until: Moment,
    ) -> bool {
        let state = &mut self.tankers[tanker];
        let ready = &self.ready.tankers[tanker];
        let Some(site) = ready.fill_site else { return false };
        let (comes, has_place) = match state.phase {
            Phase::TravelBack { .. } => (true, false),
            Phase::SceneQueue => (false, false),
            Phase::DumpPosition { .. } => (false, true),
            _ => return false,
        };
        let is_free = has_place || self.scene.tanks[0].free_positions > 0;
        if !is_free || state.breaks_down(ready) {
            return false;
        }
        let (site_ready, tables) = (&self.ready.sites[site], &self.ready.tables);
        let times = state.dump_times(ready, site_ready, tables);
        let begins = if has_place { state.held_since } else { now.max(self.only_place.free_at) };
        let dumps = begins + times.position;
        let (load, pour) = (state.load, ready.pour);
        let Some(gone) = self.scene.dump_ahead(even, dumps, load, pour, until, times.clear) else {
            return false;
        };
        let clear = gone + times.clear;

        // Where it has been, then all of this.
        let cycle = &mut state.cycle;
        let came = if comes { now } else { state.since };
        if comes {
            cycle.add_for_good(Part::TravelBack, came.since(state.since));
            self.result.arrived += state.load + state.waste;
            self.result.events += 1;
        }
        if has_place {
            cycle.add_for_good(Part::DumpPosition, dumps.since(came));
        } else {
            cycle.add_for_good(Part::SceneWait, begins.since(came));
            cycle.add_for_good(Part::DumpPosition, times.position);
        }
        cycle.add_for_good(Part::Dump, gone.since(dumps));
        cycle.add_for_good(Part::DumpClear, times.clear);
        let record = &mut self.result.tankers[tanker];
        record.cycles += u32::from(cycle.end_cycle());
        record.delivered += state.load;
        self.result.spilled += state.waste;
        // It begins to dump, is empty and is clear.
        self.result.events += 3;
        (state.load, state.waste) = (0.0, 0.0);
        state.trips += 1;
        state.begin(Phase::TravelOut { site }, clear);
        let arrives = clear + times.out;
        self.timers.put_off(arrives, tanker);
        if arrives < self.end {
            state.draw_road_times(ready, site_ready, tables);
        }
        self.sites[site].ahead += 1;
        self.only_place.free_at = clear;
        let held = self.watched(begins, clear);
        self.dump_held[0] += held;
        true
    }
}
