//! How a run begins, and what opens on its way: engines, drop tanks, the hook-up, steps of the attack flow.

use crate::luck::{Luck, Purpose};
use crate::results::Subject;
use crate::road::LaneState;
use crate::run::calendar::Event;
use crate::run::callout::Turnout;
use crate::run::shuttle::{DraftCrew, Shuttle};
use crate::run::tanker::TankerState;
use crate::scene::Pump;
use crate::story::Happening;
use crate::time::Moment;

impl Shuttle {
    /// Everything as it is at the alarm, with all calls on the event list.
    pub(crate) fn begin(&mut self, luck: Luck) {
        self.now = Moment::ALARM;
        self.calendar.clear();
        self.scene.reset(&self.plan);
        self.share_factors(luck);
        self.draft = DraftCrew::default();
        for (state, site) in self.sites.iter_mut().zip(&self.plan.facts().fill_sites) {
            state.reset(site);
        }
        self.sites_next = Moment::NEVER;
        (self.may_begin_to_fill, self.may_enter_a_lane) = (false, false);
        self.lanes.iter_mut().for_each(LaneState::reset);
        self.line.clear();
        self.steps_taken = 0;
        self.head_waits_until = Moment::ALARM;
        self.leaving.clear();
        self.standing_by.clear();
        self.absences.iter_mut().flatten().for_each(|one| one.is_over = false);
        self.tally.reset(&self.plan);

        let arrives = self.call(Subject::AttackEngine, Event::AttackEngineArrives);
        let attack_key = self.prepared.attack_engine.key;
        let water_on = self.draw_of(attack_key, &self.prepared.water_on, Purpose::WaterOn, 0);
        self.tally.engine_arrives = arrives;
        self.tally.first_water = arrives + water_on;
        self.tally.end = self.tally.first_water.after(self.plan.facts().incident.duration);
        self.calendar.set(Event::FirstWater, self.tally.first_water);
        self.await_flow_step();
        if self.prepared.supply_engine.is_some() {
            self.call(Subject::SupplyEngine, Event::SupplyEngineArrives);
        }
        for tank in 0..self.prepared.tanks.len() {
            if self.prepared.tanks[tank].call.is_some() {
                self.call(Subject::DropTank(tank), Event::DropTank(tank));
            }
        }
        for site in 0..self.sites.len() {
            self.await_fill_site(site);
        }
        for tanker in 0..self.tankers.len() {
            let prepared = &self.prepared.tankers[tanker];
            let (load, waste) = (prepared.full_load, prepared.fill - prepared.full_load);
            let draws = self.luck.of(prepared.call.key);
            let crew = draws.factor(&prepared.crew, Purpose::CrewFactor);
            let draws = draws.with_crew(crew);
            self.tankers[tanker] = TankerState::responding(draws, load, waste);
            if crew != 1.0 {
                self.note(Happening::Crew(tanker, crew));
            }
            self.call(Subject::Tanker(tanker), Event::Tanker(tanker));
        }
        self.choose_first_tank();
        self.plan_failures();
        if self.keeps_levels {
            let (first, end) = (self.tally.first_water, self.tally.end);
            let meter = &mut self.scene.meter;
            let first = if self.levels_by_alarm { meter.whole_step_from(first) } else { first };
            meter.start_marks(first.min(end), end);
        }
    }

    pub(crate) fn attack_engine_arrives(&mut self) {
        self.scene.touch(self.now);
        self.scene.engine.is_here = true;
        self.note(Happening::AttackEngineArrived);
        self.unit_arrived(Subject::AttackEngine);
    }

    pub(crate) fn supply_engine_is_due(&mut self) {
        if self.callout.of(Subject::SupplyEngine) == Turnout::StaysAway {
            return self.is_missed(Subject::SupplyEngine);
        }
        self.note(Happening::SupplyEngineArrived);
        self.unit_arrived(Subject::SupplyEngine);
    }

    /// A tanker reaches the scene for the first time, or should have.
    pub(crate) fn tanker_comes(&mut self, tanker: usize) {
        if self.callout.of(Subject::Tanker(tanker)) == Turnout::StaysAway {
            return self.is_missed(Subject::Tanker(tanker));
        }
        self.join_line(tanker);
        self.unit_arrived(Subject::Tanker(tanker));
    }

    /// A unit has reached the scene, with the drop tanks it brings.
    fn unit_arrived(&mut self, unit: Subject) {
        self.tally.still_to_come -= 1;
        self.callout.set(unit, Turnout::IsHere);
        for tank in 0..self.prepared.tanks.len() {
            if self.bringer(tank) == unit {
                self.set_up_drop_tank(tank);
            }
        }
        self.set_up_source_pumps(unit);
        if self.drafting_unit() == Some(unit) {
            self.draft.arrived = Some(self.now);
        }
        self.hook_up_if_all_is_there();
    }

    /// A drop tank arrives by itself, or should have; or it is set up.
    pub(crate) fn drop_tank_is_due(&mut self, tank: usize) {
        if self.scene.tanks[tank].arrived.is_none() {
            if self.callout.of(Subject::DropTank(tank)) == Turnout::StaysAway {
                return self.is_missed(Subject::DropTank(tank));
            }
            return self.unit_arrived(Subject::DropTank(tank));
        }
        self.scene.touch(self.now);
        self.scene.tanks[tank].is_ready = true;
        self.note(Happening::DropTankReady(tank));
        self.hook_up_if_all_is_there();
    }

    fn set_up_drop_tank(&mut self, tank: usize) {
        self.note(Happening::DropTankArrived(tank));
        self.scene.tanks[tank].arrived = Some(self.now);
        let prepared = &self.prepared.tanks[tank];
        let setup = self.draw_of(prepared.key, &prepared.setup, Purpose::Setup, 0);
        self.calendar.set(Event::DropTank(tank), self.now + setup);
    }

    /// The draft is hooked up some time after the pump has arrived and the first drop tank is ready; nobody
    /// begins in another while the first is still expected.
    pub(super) fn hook_up_if_all_is_there(&mut self) {
        let tank_is_ready = self.first_tank_expected() == Some(self.scene.first)
            && self.scene.first_tank().is_some_and(|tank| tank.is_ready);
        if self.draft.arrived.is_some() && tank_is_ready && self.draft.began.is_none() {
            self.draft.began = Some(self.now);
            let key = self.prepared.draft_key;
            let setup = self.draw_of(key, &self.prepared.draft_setup, Purpose::Setup, 0);
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
            let begins = self.tally.first_water.after(step.from).max(self.asked_from);
            self.calendar.set(Event::AttackFlowSteps, begins);
        }
    }
}
