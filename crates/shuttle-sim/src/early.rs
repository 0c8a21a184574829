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
    pub(crate) fn road_times(&self, tanker: usize, site: usize) -> RoadTimes {
        let state = &self.tankers[tanker];
        if state.road.of_trip == state.trips + 1 {
            return state.road;
        }
        self.draw_road_times(tanker, site)
    }

    /// Draws the times of the visit that a tanker now drives to.
    #[inline]
    pub(crate) fn draw_road_times_early(&mut self, tanker: usize, site: usize) {
        if self.known_ahead.visits[site] {
            self.tankers[tanker].road = self.draw_road_times(tanker, site);
        }
    }

    fn draw_road_times(&self, tanker: usize, site: usize) -> RoadTimes {
        let (state, ready) = (&self.tankers[tanker], &self.ready.tankers[tanker]);
        let (trip, tables) = (state.trips, &self.ready.tables);
        let draw = |time, purpose| state.draws.time(time, tables, purpose, trip);
        RoadTimes {
            of_trip: trip + 1,
            fill_connect: draw(&ready.fill_connect, Purpose::FillConnect),
            fill_disconnect: draw(&ready.fill_disconnect, Purpose::FillDisconnect),
            back: draw(&self.ready.sites[site].back, Purpose::TravelBack),
        }
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

    /// The time of this tanker's way to its fill site on its next trip.
    #[inline]
    pub(crate) fn next_out_time(&self, tanker: usize, site: usize) -> Ticks {
        let state = &self.tankers[tanker];
        if state.dump.of_trip == state.trips + 1 {
            return state.dump.out;
        }
        let out = &self.ready.sites[site].out;
        state.draws.time(out, &self.ready.tables, Purpose::TravelOut, state.trips + 1)
    }

    /// The times of this tanker's dump on its present trip, and of its way out after.
    #[inline]
    pub(crate) fn dump_times(&self, tanker: usize, site: usize) -> DumpTimes {
        let state = &self.tankers[tanker];
        if state.dump.of_trip == state.trips + 1 {
            return state.dump;
        }
        self.draw_dump_times(tanker, site)
    }

    /// Draws the times of the dump that a tanker now drives to, and of its way out after.
    #[inline]
    pub(crate) fn draw_dump_times_early(&mut self, tanker: usize) {
        if let (true, Some(site)) =
            (self.known_ahead.clearing, self.ready.tankers[tanker].fill_site)
        {
            self.tankers[tanker].dump = self.draw_dump_times(tanker, site);
        }
    }

    fn draw_dump_times(&self, tanker: usize, site: usize) -> DumpTimes {
        let (state, ready) = (&self.tankers[tanker], &self.ready.tankers[tanker]);
        let (trip, tables) = (state.trips, &self.ready.tables);
        let draw = |time, purpose, trip| state.draws.time(time, tables, purpose, trip);
        DumpTimes {
            of_trip: trip + 1,
            position: draw(&ready.dump_position, Purpose::DumpPosition, trip),
            clear: draw(&ready.dump_clear, Purpose::DumpClear, trip),
            out: draw(&self.ready.sites[site].out, Purpose::TravelOut, trip + 1),
        }
    }
}
