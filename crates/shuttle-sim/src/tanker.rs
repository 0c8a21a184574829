//! What a tanker does, step by step: the rules of the cycle.

use crate::draws::Purpose;
use crate::engine::Shuttle;
use crate::moment::{Moment, Ticks};
use crate::one_lane::Way;
use crate::phase::{Held, Phase};
use crate::plan::Brought;
use crate::road::Stretch;
use crate::sampler::Sampler;
use crate::scene::{Pump, SAME_LEVEL};
use crate::timers::Turn;

impl Shuttle {
    /// Ends what the tanker did and begins something else.
    // Inlined, the questions about the phase are answered when it is compiled.
    #[inline(always)]
    pub(crate) fn enter(&mut self, tanker: usize, phase: Phase) {
        self.tankers[tanker].enter(phase, self.now);
        self.note_tanker(tanker, phase);
    }

    /// Enters a phase that takes a drawn time.
    #[inline(always)]
    pub(crate) fn enter_for(&mut self, tanker: usize, phase: Phase, time: Ticks) {
        self.enter(tanker, phase);
        let turn = match phase {
            Phase::FillDisconnect { .. } => Turn::LeavesSite,
            Phase::LaneCross { .. } => Turn::LeavesLane,
            Phase::NurseDisconnect | Phase::DumpClear { .. } => Turn::Frees,
            _ => Turn::GoesOn,
        };
        self.timers.schedule_tanker(self.now + time, turn, tanker);
    }

    /// Draws a time of this tanker for its present trip.
    #[inline(always)]
    pub(crate) fn draw(&self, tanker: usize, time: &Sampler, purpose: Purpose) -> Ticks {
        let state = &self.tankers[tanker];
        state.draws.time(time, &self.ready.tables, purpose, state.trips)
    }

    /// The time of its present phase is over.
    pub(crate) fn tanker_is_done(&mut self, tanker: usize) {
        match self.tankers[tanker].phase {
            Phase::Responding => {
                self.join_scene_queue(tanker);
                self.unit_arrived(&Brought::ByTanker(tanker));
            }
            Phase::TravelBack { .. } if self.lanes.is_empty() => self.join_scene_queue(tanker),
            Phase::TravelOut { site } if self.lanes.is_empty() => self.arrive_at_site(tanker, site),
            Phase::TravelBack { site } => self.travel_from(tanker, Way::Back, site, Stretch::Road),
            Phase::TravelOut { site } => self.travel_from(tanker, Way::Out, site, Stretch::Road),
            Phase::LaneCross { lane, way, site } => self.crossed(tanker, lane, way, site),
            Phase::NurseConnect => self.begin_pump_off(tanker),
            Phase::DumpPosition { tank } => self.begin_dump(tanker, tank),
            Phase::NurseDisconnect => {
                self.release_held(tanker);
                self.free_intakes += 1;
                self.places_moved = true;
                self.trip_done(tanker);
            }
            Phase::DumpClear { tank } => {
                self.release_held(tanker);
                self.scene.tanks[tank].free_positions += 1;
                self.places_moved = true;
                self.trip_done(tanker);
            }
            Phase::Repair => {
                self.out_of_service -= 1;
                self.leave_for_site(tanker);
            }
            Phase::StandBy => {
                self.out_of_service -= 1;
                self.leave_for_site(tanker);
            }
            Phase::FillConnect { site } => self.begin_fill(tanker, site),
            Phase::FillDisconnect { site } => {
                self.release_held(tanker);
                self.sites[site].free_positions += 1;
                self.places_moved = true;
                self.sites[site].ahead -= 1;
                self.travel(tanker, Way::Back, site, Stretch::First);
            }
            Phase::SceneQueue
            | Phase::Nursing
            | Phase::Dumping { .. }
            | Phase::OutOfService
            | Phase::LaneWait { .. }
            | Phase::FillQueue { .. }
            | Phase::Filling { .. } => {
                unreachable!("tanker {tanker} finished what has no set time")
            }
        }
    }

    pub(crate) fn join_scene_queue(&mut self, tanker: usize) {
        self.enter(tanker, Phase::SceneQueue);
        let state = &self.tankers[tanker];
        self.result.arrived += state.load + state.waste;
        self.scene_queue.push_back(tanker);
        self.places_moved = true;
    }

    /// Whether tankers nurse the attack engine, as long as it has a free intake.
    pub(crate) fn nursing_is_open(&self) -> bool {
        let may = self.plan.facts().supply.nurse && self.scene.pump == Pump::NotHookedUp;
        may || self.scene.tanks.is_empty()
    }

    /// Gives free places to the heads of the queues.
    pub(crate) fn serve_queues(&mut self) {
        while let Some(&tanker) = self.scene_queue.front() {
            if self.nursing_is_open() && self.scene.engine_is_here && self.free_intakes > 0 {
                self.scene_queue.pop_front();
                self.free_intakes -= 1;
                let time = self.draw(
                    tanker,
                    &self.ready.tankers[tanker].nurse_connect,
                    Purpose::NurseConnect,
                );
                self.enter_for(tanker, Phase::NurseConnect, time);
            } else if let Some(tank) = self.open_dump_position(self.tankers[tanker].load) {
                self.scene_queue.pop_front();
                self.scene.tanks[tank].free_positions -= 1;
                let position = &self.ready.tankers[tanker].dump_position;
                let time = self.draw(tanker, position, Purpose::DumpPosition);
                self.enter_for(tanker, Phase::DumpPosition { tank }, time);
            } else {
                break;
            }
        }
        if self.waiting_to_fill == 0 {
            return;
        }
        for site in 0..self.sites.len() {
            while self.sites[site].is_ready && self.sites[site].free_positions > 0 {
                let Some(tanker) = self.sites[site].queue.pop_front() else {
                    break;
                };
                self.sites[site].free_positions -= 1;
                self.waiting_to_fill -= 1;
                let time = self.draw(
                    tanker,
                    &self.ready.tankers[tanker].fill_connect,
                    Purpose::FillConnect,
                );
                self.enter_for(tanker, Phase::FillConnect { site }, time);
            }
        }
    }

    /// The drop tank to dump into: of those with a free position the first with room for the whole
    /// load now, else the one with most room.
    fn open_dump_position(&mut self, load: f64) -> Option<usize> {
        let tanks = 0..self.scene.tanks.len();
        let mut places = tanks.filter(|tank| self.scene.tanks[*tank].is_open());
        let only = places.next()?;
        if places.next().is_none() {
            // Whatever its room: the level need not be known.
            return Some(only);
        }
        self.scene.touch(self.now);
        let mut most: Option<usize> = None;
        for (place, tank) in self.scene.tanks.iter().enumerate().filter(|(_, tank)| tank.is_open())
        {
            if tank.room() >= load - SAME_LEVEL {
                return Some(place);
            }
            if most.is_none_or(|other| tank.room() > self.scene.tanks[other].room() + SAME_LEVEL) {
                most = Some(place);
            }
        }
        most
    }

    fn begin_pump_off(&mut self, tanker: usize) {
        self.enter(tanker, Phase::Nursing);
        let load = self.spill_and_pour(tanker);
        let pump_off = self.ready.tankers[tanker].pump_off;
        if self.scene.tanks.is_empty() {
            self.supply_established();
        }
        if load <= 0.0 {
            // Back from a dry site: it has nothing to pump off, and this instant goes on.
            return self.pumped_off(tanker);
        }
        self.scene.begin_nurse(self.now, tanker, load, pump_off);
    }

    #[inline]
    pub(crate) fn begin_dump(&mut self, tanker: usize, tank: usize) {
        self.enter(tanker, Phase::Dumping { tank });
        let load = self.spill_and_pour(tanker);
        if load <= 0.0 {
            return self.dumped(tanker);
        }
        let pour = self.ready.tankers[tanker].pour;
        self.scene.begin_dump(self.now, tank, tanker, load, pour);
    }

    /// What is spilled is spilled at once; the load begins to move.
    pub(crate) fn spill_and_pour(&mut self, tanker: usize) -> f64 {
        let state = &mut self.tankers[tanker];
        self.result.spilled += state.waste;
        state.waste = 0.0;
        state.emptying = state.load;
        std::mem::take(&mut state.load)
    }

    pub(crate) fn pumped_off(&mut self, tanker: usize) {
        self.emptied(tanker);
        let time = self.draw(
            tanker,
            &self.ready.tankers[tanker].nurse_disconnect,
            Purpose::NurseDisconnect,
        );
        self.enter_for(tanker, Phase::NurseDisconnect, time);
    }

    pub(crate) fn dumped(&mut self, tanker: usize) {
        let Phase::Dumping { tank } = self.tankers[tanker].phase else {
            unreachable!("tanker {tanker} finished a dump it had not started");
        };
        self.emptied(tanker);
        let time = self.draw(tanker, &self.ready.tankers[tanker].dump_clear, Purpose::DumpClear);
        self.enter_for(tanker, Phase::DumpClear { tank }, time);
    }

    fn emptied(&mut self, tanker: usize) {
        let delivered = std::mem::take(&mut self.tankers[tanker].emptying);
        self.result.tankers[tanker].delivered += delivered;
    }

    /// Whether its present trip ends in a breakdown.
    pub(crate) fn breaks_down(&self, tanker: usize) -> bool {
        self.tankers[tanker].breaks_down(&self.ready.tankers[tanker])
    }

    /// The trip counts; a breakdown may take the tanker out; else it leaves.
    pub(crate) fn trip_done(&mut self, tanker: usize) {
        let (trip, breaks_down) = (self.tankers[tanker].trips, self.breaks_down(tanker));
        self.settle_trip(tanker);
        if !breaks_down {
            return self.leave_for_site(tanker);
        }
        let ready = &self.ready.tankers[tanker];
        self.out_of_service += 1;
        match ready.repair {
            None => self.enter(tanker, Phase::OutOfService),
            Some(repair) => {
                let time = self.time(&repair, ready.call.key, Purpose::Repair, trip);
                self.enter_for(tanker, Phase::Repair, time);
            }
        }
    }

    #[inline]
    pub(crate) fn settle_trip(&mut self, tanker: usize) {
        let state = &mut self.tankers[tanker];
        // The clearing that ends here belongs to the cycle.
        state.cycle.add(state.part, self.now.since(state.since));
        state.since = self.now;
        self.result.tankers[tanker].cycles += u32::from(state.cycle.end_cycle());
        state.trips += 1;
    }

    fn begin_fill(&mut self, tanker: usize, site: usize) {
        self.enter(tanker, Phase::Filling { site });
        let ready = &self.ready.tankers[tanker];
        self.sites_touched = true;
        self.sites[site].begin_fill(self.now, tanker, ready.fill, ready.fill_limit);
    }

    pub(crate) fn filled(&mut self, tanker: usize, site: usize, taken: f64) {
        let ready = &self.ready.tankers[tanker];
        let disconnect = ready.fill_disconnect;
        self.take_on(tanker, site, taken);
        let time = self.draw(tanker, &disconnect, Purpose::FillDisconnect);
        self.enter_for(tanker, Phase::FillDisconnect { site }, time);
    }

    /// Carries what it has taken.
    pub(crate) fn take_on(&mut self, tanker: usize, site: usize, taken: f64) {
        let load = taken * (1.0 - self.ready.tankers[tanker].waste);
        self.taken[site] += millionths(taken);
        self.tankers[tanker].load = load;
        self.tankers[tanker].waste = taken - load;
    }

    /// How much of the time between these moments falls into the watch.
    fn watched(&self, from: Moment, to: Moment) -> Ticks {
        to.min(self.end).since(from.max(self.first_water))
    }

    /// Counts the time a place was held, within the watch.
    pub(crate) fn release_held(&mut self, tanker: usize) {
        let state = &self.tankers[tanker];
        let Some(held) = state.phase.held() else {
            return;
        };
        let time = self.watched(state.held_since, self.now);
        match held {
            Held::Intake => self.intake_held += time,
            Held::DumpPosition(tank) => self.dump_held[tank] += time,
            Held::FillPosition(site) => self.fill_held[site] += time,
        }
    }

    /// What those that are still dumping or pumping off have delivered so far.
    pub(crate) fn settle_part_loads(&mut self) {
        let dumping = self.scene.tanks.iter().flat_map(|tank| tank.pouring.loads());
        let nursing = self.scene.nurses.iter().map(|nurse| (nurse.tanker, nurse.load));
        for (tanker, left) in dumping.chain(nursing) {
            let delivered = self.tankers[tanker].emptying - left;
            self.result.tankers[tanker].delivered += delivered;
        }
    }
}

/// Whole millionths of a gallon.
#[inline]
pub(crate) fn millionths(gallons: f64) -> u64 {
    (gallons * 1e6 + 0.5) as u64
}
