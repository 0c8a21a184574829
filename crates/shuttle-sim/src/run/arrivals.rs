//! How a run begins, and what opens on its way: engines, drop tanks, the hook-up, steps of the attack flow.

use crate::luck::{Draws, Luck, Purpose};
use crate::plan::Brought;
use crate::road::{LaneState, SiteState};
use crate::run::calendar::Event;
use crate::run::prepared::PreparedCall;
use crate::run::shuttle::{DraftCrew, Shuttle};
use crate::run::tanker::TankerState;
use crate::scene::Pump;
use crate::story::Happening;
use crate::time::Moment;

impl Shuttle {
    /// Everything as it is at the alarm, with all calls on the event list.
    pub(crate) fn begin(&mut self, luck: Luck) {
        self.luck = Draws::new(luck);
        self.now = Moment::ALARM;
        self.calendar.clear();
        self.scene.reset();
        self.draft = DraftCrew::default();
        self.sites.iter_mut().for_each(SiteState::reset);
        self.lanes.iter_mut().for_each(LaneState::reset);
        self.line.clear();
        self.steps_taken = 0;
        self.leaving = 0;
        self.standing_by.clear();
        self.tally.reset(&self.plan);

        let arrives = self.arrival(&self.prepared.attack_engine);
        let attack_key = self.prepared.attack_engine.key;
        let water_on = self.draw_of(attack_key, self.prepared.water_on, Purpose::WaterOn, 0);
        self.tally.engine_arrives = arrives;
        self.tally.first_water = arrives + water_on;
        self.tally.end = self.tally.first_water.after(self.plan.facts().incident.duration);
        self.come(Event::AttackEngineArrives, arrives);
        self.calendar.set(Event::FirstWater, self.tally.first_water);
        self.await_flow_step();
        if let Some(call) = &self.prepared.supply_engine {
            let arrives = self.arrival(call);
            self.come(Event::SupplyEngineArrives, arrives);
        }
        for tank in 0..self.prepared.tanks.len() {
            if let Some(call) = &self.prepared.tanks[tank].call {
                let arrives = self.arrival(call);
                self.come(Event::DropTank(tank), arrives);
            }
        }
        for site in 0..self.sites.len() {
            let prepared = &self.prepared.sites[site];
            let ready = self.draw_of(prepared.key, prepared.ready, Purpose::Ready, 0);
            self.calendar.set(Event::FillSiteReady(site), Moment::ALARM + ready);
        }
        for tanker in 0..self.tankers.len() {
            let prepared = &self.prepared.tankers[tanker];
            let (load, arrives) = (prepared.full_load, self.arrival(&prepared.call));
            let waste = prepared.fill - load;
            let draws = self.luck.of(prepared.call.key);
            self.tankers[tanker] = TankerState::responding(draws, load, waste);
            self.come(Event::Tanker(tanker), arrives);
        }
        if self.keeps_levels {
            self.scene.meter.start_marks(self.tally.first_water, self.tally.end);
        }
    }

    fn arrival(&self, call: &PreparedCall) -> Moment {
        let response = self.draw_of(call.key, call.response, Purpose::Response, 0);
        Moment::ALARM.after(call.requested_at) + response
    }

    fn come(&mut self, event: Event, moment: Moment) {
        self.tally.still_to_come += 1;
        self.calendar.set(event, moment);
    }

    pub(crate) fn attack_engine_arrives(&mut self) {
        self.scene.touch(self.now);
        self.scene.engine.is_here = true;
        self.note(Happening::AttackEngineArrived);
        if self.prepared.supply_engine.is_none() {
            self.draft.arrived = Some(self.now);
        }
        self.unit_arrived(&Brought::ByAttackEngine);
    }

    pub(crate) fn supply_engine_arrives(&mut self) {
        self.note(Happening::SupplyEngineArrived);
        self.draft.arrived = Some(self.now);
        self.unit_arrived(&Brought::BySupplyEngine);
    }

    /// A unit has reached the scene, with the drop tanks it brings.
    pub(crate) fn unit_arrived(&mut self, unit: &Brought) {
        self.tally.still_to_come -= 1;
        for tank in 0..self.prepared.tanks.len() {
            if self.prepared.tanks[tank].brought == *unit {
                self.set_up_drop_tank(tank);
            }
        }
        self.hook_up_if_all_is_there();
    }

    /// A drop tank arrives by itself, or is set up.
    pub(crate) fn drop_tank_is_due(&mut self, tank: usize) {
        if self.scene.tanks[tank].arrived.is_none() {
            self.tally.still_to_come -= 1;
            return self.set_up_drop_tank(tank);
        }
        self.scene.touch(self.now);
        self.scene.tanks[tank].is_ready = true;
        self.note(Happening::DropTankReady(tank));
        self.hook_up_if_all_is_there();
    }

    fn set_up_drop_tank(&mut self, tank: usize) {
        self.note(Happening::DropTankArrived(tank));
        self.scene.tanks[tank].arrived = Some(self.now);
        let (setup, key) = (self.prepared.tanks[tank].setup, self.prepared.tanks[tank].key);
        let setup = self.draw_of(key, setup, Purpose::Setup, 0);
        self.calendar.set(Event::DropTank(tank), self.now + setup);
    }

    /// The draft is hooked up some time after the pump has arrived and the first drop tank is ready.
    fn hook_up_if_all_is_there(&mut self) {
        let tank_is_ready = self.scene.tanks.first().is_some_and(|tank| tank.is_ready);
        if self.draft.arrived.is_some() && tank_is_ready && self.draft.began.is_none() {
            self.draft.began = Some(self.now);
            let (setup, key) = (self.prepared.draft_setup, self.prepared.draft_key);
            let setup = self.draw_of(key, setup, Purpose::Setup, 0);
            self.calendar.set(Event::Pump, self.now + setup);
        }
    }

    /// The draft is hooked up, or prime is back.
    pub(crate) fn pump_is_due(&mut self) {
        self.scene.touch(self.now);
        let (pump, happening) = match self.scene.pump {
            Pump::NotHookedUp => (Pump::WaitingForWater, Happening::HookedUp),
            _ => (Pump::Primed, Happening::PrimeBack),
        };
        self.scene.pump = pump;
        self.note(happening);
    }

    pub(crate) fn attack_flow_steps(&mut self) {
        let flow = self.plan.facts().incident.attack_flow[self.steps_taken].flow;
        self.scene.touch(self.now);
        self.scene.engine.wanted = flow;
        self.note(Happening::FlowWanted(flow));
        self.steps_taken += 1;
        self.await_flow_step();
    }

    fn await_flow_step(&mut self) {
        if let Some(step) = self.plan.facts().incident.attack_flow.get(self.steps_taken) {
            self.calendar.set(Event::AttackFlowSteps, self.tally.first_water.after(step.from));
        }
    }

    pub(crate) fn fill_site_is_ready(&mut self, site: usize) {
        self.sites[site].is_ready = true;
        self.note(Happening::FillSiteReady(site));
    }
}
