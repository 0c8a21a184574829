//! Times drawn one step before they are needed.
//!
//! What a tanker does next depends on the time it takes, and to draw one takes longer than anything
//! else between two events. Where the next step is known, its times are drawn while nobody waits for
//! them. A draw is found by its key, so when it is made changes nothing.

use crate::draws::Purpose;
use crate::engine::Shuttle;
use crate::moment::Ticks;

/// The times of one visit to a fill site and of the road back from it.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct RoadTimes {
    /// The trip they are of, counted from 1; 0 for none.
    of_trip: u32,
    pub fill_connect: Ticks,
    pub fill_disconnect: Ticks,
    pub back: Ticks,
}

/// The times of one dump at the only place and of the road out from it.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct DumpTimes {
    /// The trip they are of, counted from 1; 0 for none.
    of_trip: u32,
    pub position: Ticks,
    pub clear: Ticks,
    pub out: Ticks,
}

impl Shuttle {
    /// The times of this tanker's visit to this fill site on its present trip.
    #[inline]
    pub(crate) fn road_times(&mut self, tanker: usize, site: usize) -> RoadTimes {
        let state = &self.tankers[tanker];
        if state.road.of_trip != state.trips + 1 {
            self.draw_road_times(tanker, site);
        }
        self.tankers[tanker].road
    }

    /// Draws the times of the visit that a tanker drives to.
    pub(crate) fn draw_road_times(&mut self, tanker: usize, site: usize) {
        let (state, ready) = (&mut self.tankers[tanker], &self.ready.tankers[tanker]);
        let (draws, trip, tables) = (state.draws, state.trips, &self.ready.tables);
        // Field by field: what is written so is soon read again.
        let road = &mut state.road;
        road.of_trip = trip + 1;
        road.fill_connect = draws.time(&ready.fill_connect, tables, Purpose::FillConnect, trip);
        road.fill_disconnect =
            draws.time(&ready.fill_disconnect, tables, Purpose::FillDisconnect, trip);
        road.back = draws.time(&self.ready.sites[site].back, tables, Purpose::TravelBack, trip);
    }

    /// The times of this tanker's dump on its present trip, and of its way out to this fill site after.
    #[inline]
    pub(crate) fn dump_times(&mut self, tanker: usize, site: usize) -> DumpTimes {
        let state = &self.tankers[tanker];
        if state.dump.of_trip != state.trips + 1 {
            self.draw_dump_times(tanker, site);
        }
        self.tankers[tanker].dump
    }

    /// Draws the times of the dump that a tanker drives to, and of its way out to this fill site after.
    pub(crate) fn draw_dump_times(&mut self, tanker: usize, site: usize) {
        let (state, ready) = (&mut self.tankers[tanker], &self.ready.tankers[tanker]);
        let (draws, trip, tables) = (state.draws, state.trips, &self.ready.tables);
        let dump = &mut state.dump;
        dump.of_trip = trip + 1;
        dump.position = draws.time(&ready.dump_position, tables, Purpose::DumpPosition, trip);
        dump.clear = draws.time(&ready.dump_clear, tables, Purpose::DumpClear, trip);
        let out = &self.ready.sites[site].out;
        dump.out = draws.time(out, tables, Purpose::TravelOut, trip + 1);
    }

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
}
