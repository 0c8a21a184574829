//! How a run begins, and what is counted when the watch ends.

use crate::draws::{Draws, Luck, Purpose};
use crate::engine::Shuttle;
use crate::fill_site::SiteState;
use crate::moment::{Moment, Ticks};
use crate::one_lane::LaneState;
use crate::phase::TankerState;
use crate::plan::Plan;
use crate::ready::ReadyCall;
use crate::results::RunResult;
use crate::sampler::Sampler;
use crate::timers::{Once, Turn};
use crate::trace::Happening;

impl Shuttle {
    pub(crate) fn begin(&mut self, luck: Luck) {
        self.draws = Draws::new(luck);
        self.now = Moment::ALARM;
        self.timers.clear();
        self.scene.reset();
        self.sites.iter_mut().for_each(SiteState::reset);
        self.sites_next = Moment::NEVER;
        self.sites_touched = false;
        self.places_moved = false;
        self.lanes.iter_mut().for_each(LaneState::reset);
        self.scene_queue.clear();
        self.free_intakes = self.plan.facts().attack_engine.intakes;
        self.supply_engine_is_here = false;
        self.not_arrived = 1;
        self.out_of_service = 0;
        self.waiting_to_fill = 0;
        self.hook_up_scheduled = false;
        self.primes_lost = 0;
        self.established = None;
        self.shortfall = None;
        self.taken.fill(0);
        self.fill_held.fill(Ticks::NONE);
        self.dump_held.fill(Ticks::NONE);
        self.intake_held = Ticks::NONE;
        self.result.reset(&self.plan);
        self.schedule_calls();
    }

    fn schedule_calls(&mut self) {
        let arrives = self.arrival(&self.ready.attack_engine);
        let attack_key = self.ready.attack_engine.key;
        self.first_water =
            arrives + self.time(&self.ready.water_on, attack_key, Purpose::WaterOn, 0);
        self.end = self.first_water.after(self.plan.facts().incident.duration);
        self.timers.schedule(arrives, Once::AttackEngineArrives);
        self.timers.schedule(self.first_water, Once::FirstWater);
        for step in 0..self.plan.facts().incident.attack_flow.len() {
            let from = self.plan.facts().incident.attack_flow[step].from;
            let timer = Once::AttackFlowSteps(step as u32);
            self.timers.schedule(self.first_water.after(from), timer);
        }
        if let Some(call) = &self.ready.supply_engine {
            let arrives = self.arrival(call);
            self.not_arrived += 1;
            self.timers.schedule(arrives, Once::SupplyEngineArrives);
        }
        for tank in 0..self.ready.tanks.len() {
            if let Some(call) = &self.ready.tanks[tank].call {
                let arrives = self.arrival(call);
                self.not_arrived += 1;
                self.timers.schedule(arrives, Once::DropTankArrives(tank as u32));
            }
        }
        for site in 0..self.sites.len() {
            let ready = &self.ready.sites[site];
            let ready = Moment::ALARM + self.time(&ready.ready, ready.key, Purpose::Ready, 0);
            self.timers.schedule(ready, Once::FillSiteReady(site as u32));
        }
        for tanker in 0..self.tankers.len() {
            let ready = &self.ready.tankers[tanker];
            let (arrives, load, waste) = (self.arrival(&ready.call), ready.load, ready.spills);
            self.not_arrived += 1;
            let draws = self.draws.of(ready.call.key);
            self.tankers[tanker] = TankerState::responding(draws, load, waste);
            self.timers.schedule_tanker(arrives, Turn::GoesOn, tanker);
        }
        self.result.first_water = self.first_water.minutes();
        self.result.end = self.end.minutes();
        if self.keeps_levels {
            self.scene.record.start_marks(self.first_water, self.end);
        }
    }

    fn arrival(&self, call: &ReadyCall) -> Moment {
        let response = self.time(&call.response, call.key, Purpose::Response, 0);
        Moment::ALARM.after(call.requested_at) + response
    }

    pub(crate) fn time(&self, time: &Sampler, who: u64, purpose: Purpose, trip: u32) -> Ticks {
        self.draws.of(who).time(time, &self.ready.tables, purpose, trip)
    }

    pub(crate) fn finish(&mut self) {
        let end = self.end;
        self.now = end;
        self.scene.touch(end);
        if let Some(began) = self.shortfall {
            self.close_shortfall(began);
        }
        for tanker in 0..self.tankers.len() {
            self.release_held(tanker);
        }
        self.settle_part_loads();
        for site in 0..self.sites.len() {
            self.sites[site].advance(end);
        }
        let scene = &self.scene;
        let result = &mut self.result;
        result.remaining = scene.water_held();
        result.remaining += scene
            .tanks
            .iter()
            .flat_map(|tank| tank.pouring.loads())
            .map(|(_, load)| load)
            .sum::<f64>();
        result.remaining += scene.nurses.iter().map(|nurse| nurse.load).sum::<f64>();
        for tanker in &self.tankers {
            if tanker.phase.holds_water_at_scene() {
                result.remaining += tanker.load + tanker.waste;
            }
        }
        result.established = self.established.map(Moment::minutes);
        result.intake_held = self.intake_held.minutes();
        result.taken.extend(self.taken.iter().map(|millionths| *millionths as f64 / 1e6));
        result.fill_held.extend(self.fill_held.iter().map(|held| held.minutes()));
        result.dump_held.extend(self.dump_held.iter().map(|held| held.minutes()));
        for (record, tanker) in result.tankers.iter_mut().zip(&self.tankers) {
            record.trips = tanker.trips;
            if record.cycles > 0 {
                record.parts = tanker.cycle.of_whole_cycles();
            }
        }
        let record = &scene.record;
        result.minutes_short = record.minutes_short;
        result.unmet = record.unmet;
        result.delivered = record.delivered;
        result.wanted = record.wanted;
        result.reserve_touched = record.reserve_touched;
        result.lowest_engine = record.lowest_engine;
        for (lowest, tank) in result.lowest_tanks.iter_mut().zip(&scene.tanks) {
            *lowest = tank.lowest;
        }
        result.levels.extend_from_slice(&record.levels);
        self.note(Happening::WatchEnded);
        self.note_course();
    }
}

impl RunResult {
    pub(crate) fn reset(&mut self, plan: &Plan) {
        let facts = plan.facts();
        let tanks = facts.drop_tanks.len();
        self.established = None;
        self.interruptions.clear();
        self.lowest_tanks.clear();
        self.lowest_tanks.resize(tanks, f64::INFINITY);
        self.tankers.clear();
        self.tankers.resize(facts.tankers.len(), Default::default());
        self.fill_held.clear();
        self.dump_held.clear();
        self.taken.clear();
        self.arrived = facts.attack_engine.tank;
        self.spilled = 0.0;
        self.levels.clear();
        self.events = 0;
    }
}
