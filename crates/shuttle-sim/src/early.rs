//! Times drawn one step before they are needed.
//!
//! What a tanker does next depends on the time it takes, and to draw one takes longer than anything
//! else between two events. Where the next step is known, its times are drawn while nobody waits for
//! them. A draw is found by its key, so when it is made changes nothing.

use crate::draws::Purpose;
use crate::engine::Shuttle;
use crate::moment::Ticks;
use crate::phase::TankerState;
use crate::ready::{ReadySite, ReadyTanker};
use crate::sampler::Tables;

/// The times of one visit to a fill site and of the road back from it.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct RoadTimes {
    /// The trip they are of, counted from 1; 0 for none.
    of_trip: u32,
    pub fill_connect: Ticks,
    pub fill_disconnect: Ticks,
    pub back: Ticks,
}

/// The times of one dump and of the road out after it.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct DumpTimes {
    /// The trip they are of, counted from 1; 0 for none.
    of_trip: u32,
    pub position: Ticks,
    pub clear: Ticks,
    pub out: Ticks,
}

impl TankerState {
    /// The times of its visit to this fill site on its present trip.
    #[inline]
    pub fn road_times(
        &mut self,
        ready: &ReadyTanker,
        site: &ReadySite,
        tables: &Tables,
    ) -> RoadTimes {
        if self.road.of_trip != self.trips + 1 {
            self.draw_road_times_apart(ready, site, tables);
        }
        self.road
    }

    /// Draws the times of the visit that it drives to.
    #[inline(always)]
    pub fn draw_road_times(&mut self, ready: &ReadyTanker, site: &ReadySite, tables: &Tables) {
        let trip = self.trips;
        let draw = |time, purpose| self.draws.time_here(time, tables, purpose, trip);
        self.road = RoadTimes {
            of_trip: trip + 1,
            fill_connect: draw(&ready.fill_connect, Purpose::FillConnect),
            fill_disconnect: draw(&ready.fill_disconnect, Purpose::FillDisconnect),
            back: draw(&site.back, Purpose::TravelBack),
        };
    }

    /// The times of its dump on its present trip, and of its way out to this fill site after.
    #[inline]
    pub fn dump_times(
        &mut self,
        ready: &ReadyTanker,
        site: &ReadySite,
        tables: &Tables,
    ) -> DumpTimes {
        if self.dump.of_trip != self.trips + 1 {
            self.draw_dump_times_apart(ready, site, tables);
        }
        self.dump
    }

    /// Draws the times of the dump that it drives to, and of its way out to this fill site after.
    #[inline(always)]
    pub fn draw_dump_times(&mut self, ready: &ReadyTanker, site: &ReadySite, tables: &Tables) {
        let trip = self.trips;
        let draw = |time, purpose, trip| self.draws.time_here(time, tables, purpose, trip);
        self.dump = DumpTimes {
            of_trip: trip + 1,
            position: draw(&ready.dump_position, Purpose::DumpPosition, trip),
            clear: draw(&ready.dump_clear, Purpose::DumpClear, trip),
            out: draw(&site.out, Purpose::TravelOut, trip + 1),
        };
    }
}

/// Kept out of the code of those who seldom draw.
impl TankerState {
    #[inline(never)]
    pub fn draw_road_times_apart(
        &mut self,
        ready: &ReadyTanker,
        site: &ReadySite,
        tables: &Tables,
    ) {
        self.draw_road_times(ready, site, tables);
    }

    #[inline(never)]
    fn draw_dump_times_apart(&mut self, ready: &ReadyTanker, site: &ReadySite, tables: &Tables) {
        self.draw_dump_times(ready, site, tables);
    }
}

impl Shuttle {
    /// How long it takes this tanker to get into place at a drop tank on its present trip.
    #[inline]
    pub(crate) fn dump_position_time(&self, tanker: usize) -> Ticks {
        let state = &self.tankers[tanker];
        if state.dump.of_trip == state.trips + 1 {
            return state.dump.position;
        }
        self.draw(tanker, &self.ready.tankers[tanker].dump_position, Purpose::DumpPosition)
    }

    /// How long it takes this tanker to pull clear of a drop tank on its present trip.
    #[inline]
    pub(crate) fn dump_clear_time(&self, tanker: usize) -> Ticks {
        let state = &self.tankers[tanker];
        if state.dump.of_trip == state.trips + 1 {
            return state.dump.clear;
        }
        self.draw(tanker, &self.ready.tankers[tanker].dump_clear, Purpose::DumpClear)
    }

    /// How long it takes this tanker to drive out to this fill site on its present trip. The dump before
    /// counted as a trip, so its times are those of the trip before this.
    #[inline]
    pub(crate) fn out_time(&self, tanker: usize, site: usize) -> Ticks {
        let state = &self.tankers[tanker];
        debug_assert!(state.trips > 0, "it drives out once it has been at the scene");
        if state.dump.of_trip == state.trips {
            debug_assert_eq!(
                self.ready.tankers[tanker].fill_site,
                Some(site),
                "it goes to one site"
            );
            return state.dump.out;
        }
        self.draw(tanker, &self.ready.sites[site].out, Purpose::TravelOut)
    }
}
