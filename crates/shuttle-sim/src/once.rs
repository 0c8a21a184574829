//! What comes once or a few times in a run: engines, drop tanks, the hook-up, steps of the attack flow.

use crate::draws::Purpose;
use crate::engine::Shuttle;
use crate::plan::Brought;
use crate::scene::Pump;
use crate::timers::Once;
use crate::trace::Happening;

impl Shuttle {
    /// What comes once or a few times in a run.
    #[cold]
    pub(crate) fn apply_once(&mut self, once: Once) {
        match once {
            Once::AttackEngineArrives => {
                self.scene.touch(self.now);
                self.scene.engine_is_here = true;
                self.places_moved = true;
                self.note(Happening::AttackEngineArrived);
                self.unit_arrived(&Brought::ByAttackEngine);
            }
            Once::FirstWater => self.note(Happening::FirstWater),
            Once::AttackFlowSteps(step) => {
                let flow = self.plan.facts().incident.attack_flow[step as usize].flow;
                self.scene.touch(self.now);
                self.scene.wanted = flow;
                self.note(Happening::FlowWanted(flow));
            }
            Once::SupplyEngineArrives => {
                self.supply_engine_is_here = true;
                self.note(Happening::SupplyEngineArrived);
                self.unit_arrived(&Brought::BySupplyEngine);
            }
            Once::DropTankArrives(tank) => {
                self.not_arrived -= 1;
                self.set_up_drop_tank(tank as usize);
            }
            Once::DropTankReady(tank) => {
                self.scene.touch(self.now);
                self.scene.tanks[tank as usize].is_ready = true;
                self.places_moved = true;
                self.note(Happening::DropTankReady(tank as usize));
                self.hook_up_if_all_is_there();
            }
            Once::HookedUp => {
                self.scene.touch(self.now);
                self.scene.pump = Pump::WaitingForWater;
                self.note(Happening::HookedUp);
            }
            Once::Reprimed => {
                self.scene.touch(self.now);
                self.scene.pump = Pump::Primed;
                self.note(Happening::PrimeBack);
            }
            Once::FillSiteReady(site) => {
                self.sites[site as usize].is_ready = true;
                self.places_moved = true;
                self.note(Happening::FillSiteReady(site as usize));
            }
        }
    }

    /// A unit has reached the scene, with the drop tanks it brings.
    pub(crate) fn unit_arrived(&mut self, unit: &Brought) {
        self.not_arrived -= 1;
        for tank in 0..self.ready.tanks.len() {
            if self.ready.tanks[tank].brought == *unit {
                self.set_up_drop_tank(tank);
            }
        }
        self.hook_up_if_all_is_there();
    }

    fn set_up_drop_tank(&mut self, tank: usize) {
        self.note(Happening::DropTankArrived(tank));
        let (setup, key) = (self.ready.tanks[tank].setup, self.ready.tanks[tank].key);
        let setup = self.time(&setup, key, Purpose::Setup, 0);
        self.timers.schedule(self.now + setup, Once::DropTankReady(tank as u32));
    }

    /// The draft is hooked up some time after the pump has arrived and the first drop tank is ready.
    fn hook_up_if_all_is_there(&mut self) {
        let pump_is_here = match self.ready.supply_engine {
            Some(_) => self.supply_engine_is_here,
            None => self.scene.engine_is_here,
        };
        let tank_is_ready = self.scene.tanks.first().is_some_and(|tank| tank.is_ready);
        if pump_is_here && tank_is_ready && !self.hook_up_scheduled {
            self.hook_up_scheduled = true;
            let setup = self.ready.draft_setup;
            let setup = self.time(&setup, self.ready.draft_key, Purpose::Setup, 0);
            self.timers.schedule(self.now + setup, Once::HookedUp);
        }
    }
}
