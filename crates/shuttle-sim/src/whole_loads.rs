//! Load after load, while nothing else happens.
//!
//! In most plans, most of the time, tankers only come to the fill site and to the only dump position,
//! and each visit is known whole when the tanker comes. Then one arrival follows the other here, without
//! the round of all that an instant may bring. Whatever is not known whole is left, untouched, to the
//! plain way in `engine`; the bits are the same (`tests/laws/known_ahead.rs`).

use crate::engine::Shuttle;
use crate::moment::Moment;
use crate::phase::Phase;

impl Shuttle {
    /// Goes from load to load until something else is next.
    pub(crate) fn take_loads_whole(&mut self) {
        if !self.known_ahead.loads || self.places_moved || self.trace.is_some() {
            return;
        }
        let until = self.end.min(self.sites_next).min(self.timers.next_of_equipment());
        // Whoever has the place comes first, then who stands in line for it, then who is on the road.
        if self.only_place.next_dump < Moment::NEVER {
            if !self.take_load_whole(self.only_place.next_tanker, self.now, until) {
                return;
            }
            self.only_place.next_dump = Moment::NEVER;
            self.scene.tanks[0].free_positions += 1;
        }
        while let Some(tanker) = self.scene_queue.front() {
            if !self.take_load_whole(*tanker, self.now, until) {
                return;
            }
            self.scene_queue.pop_front();
        }
        while let Some((now, tanker)) = self.timers.next_of_tankers(until.min(self.scene.next)) {
            match self.tankers[tanker].phase {
                Phase::TravelOut { site } => {
                    self.timers.unset_tanker(tanker);
                    self.result.events += 1;
                    self.now = now;
                    self.visit(tanker, site);
                }
                Phase::TravelBack { .. } => {
                    if !self.take_load_whole(tanker, now, until) {
                        return;
                    }
                }
                _ => return,
            }
        }
    }

    /// All that a tanker does until it drives off, once it has come to the scene.
    ///
    /// - Returns: whether all of it was known; if not, nothing is done.
    fn take_load_whole(&mut self, tanker: usize, now: Moment, until: Moment) -> bool {
        let state = &self.tankers[tanker];
        let Some(site) = self.ready.tankers[tanker].fill_site else { return false };
        let (load, waste) = (state.load, state.waste);
        let (comes, has_place) = match state.phase {
            Phase::TravelBack { .. } => (true, false),
            Phase::SceneQueue => (false, false),
            Phase::DumpPosition { .. } => (false, true),
            _ => return false,
        };
        let is_free = has_place || self.scene.tanks[0].free_positions > 0;
        if !is_free || load <= 0.0 || self.breaks_down(tanker) {
            return false;
        }
        let held_since = state.held_since;
        let times = self.dump_times(tanker, site);
        let begins = if has_place { held_since } else { now.max(self.only_place.free_at) };
        let dumps = begins + times.position;
        let pour = self.ready.tankers[tanker].pour;
        let Some(gone) = self.scene.dump_ahead(dumps, load, pour, until, times.clear) else {
            return false;
        };
        let clear = gone + times.clear;

        let state = &mut self.tankers[tanker];
        if comes {
            state.enter(Phase::SceneQueue, now);
            self.result.arrived += load + waste;
            self.result.events += 1;
            self.timers.unset_tanker(tanker);
        }
        if !has_place {
            state.enter(Phase::DumpPosition { tank: 0 }, begins);
            self.only_place.begins_at = begins;
        }
        state.enter(Phase::Dumping { tank: 0 }, dumps);
        state.enter(Phase::DumpClear { tank: 0 }, gone);
        (state.load, state.waste) = (0.0, 0.0);
        self.result.spilled += waste;
        self.result.tankers[tanker].delivered += load;
        // It begins to dump, is empty and is clear.
        self.result.events += 3;
        let held = self.watched(begins, clear);
        self.dump_held[0] += held;
        self.only_place.free_at = clear;
        let before = std::mem::replace(&mut self.now, clear);
        self.settle_trip(tanker);
        self.sites[site].ahead += 1;
        self.enter_for(tanker, Phase::TravelOut { site }, times.out);
        self.now = before;
        self.draw_road_times(tanker, site);
        true
    }
}
