//! A plan thrown at random: everything that a plan can state, each with some chance.

use proptest::prelude::*;
use shuttle_sim::{
    AttackEngine, Brought, Call, DraftLimit, DraftLimitReason, DropTank, DumpCurve, Failure,
    FillOrder, FillSite, FlowStep, Handling, Incident, Leg, LowWater, Near, OneLane, Plan,
    PlanDraft, Supply, SupplyEngine, Tanker, TimeTaken, WholeFire,
};

/// Throws a plan uses at most; enough for the largest.
const THROWS: usize = 700;

/// Plans at random, as drafts: clone and change them.
pub fn drafts() -> impl Strategy<Value = PlanDraft> {
    prop::collection::vec(0.0..1.0f64, THROWS).prop_map(|throws| Dice { throws, at: 0 }.draft())
}

/// The plan of a draft thrown here; each of them may run.
pub fn plan(draft: &PlanDraft) -> Plan {
    Plan::check(draft.clone()).unwrap_or_else(|mistakes| {
        panic!("{}", mistakes.iter().map(|one| format!("{one:?}\n")).collect::<String>())
    })
}

/// Numbers between 0 and 1, used one after another.
struct Dice {
    throws: Vec<f64>,
    at: usize,
}

impl Dice {
    fn next(&mut self) -> f64 {
        let throw = self.throws[self.at];
        self.at += 1;
        throw
    }

    /// Never at a throw of 0.
    fn happens(&mut self, chance: f64) -> bool {
        self.next() > 1.0 - chance
    }

    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.next()
    }

    fn count(&mut self, low: usize, high: usize) -> usize {
        low + (self.next() * (high - low + 1) as f64) as usize
    }

    /// Often in round numbers, so that things happen at the same instant.
    fn rounded(&mut self, low: f64, high: f64, step: f64) -> f64 {
        let value = self.between(low, high);
        if self.happens(0.5) { value } else { (value / step).round().max(1.0) * step }
    }

    /// Three throws whatever comes out.
    fn time(&mut self, low: f64, high: f64) -> TimeTaken {
        let mean = self.rounded(low, high, 0.5);
        match self.count(0, 8) {
            0..4 => TimeTaken::Fixed(mean),
            4 => TimeTaken::Lognormal { mean, cv: 0.4 },
            5 => TimeTaken::Exponential { mean },
            6 => TimeTaken::Triangular { low: 0.5 * mean, likely: mean, high: 2.0 * mean },
            7 => TimeTaken::Uniform { low: 0.5 * mean, high: 1.5 * mean },
            _ => TimeTaken::Samples(vec![0.5 * mean, mean, mean, 3.0 * mean]),
        }
    }

    /// Like a time, or none at all.
    fn handling_time(&mut self, high: f64) -> TimeTaken {
        let time = self.time(0.1, high);
        if self.happens(0.7) { time } else { TimeTaken::NONE }
    }

    fn call(&mut self, latest: f64) -> Call {
        let requested_at = self.between(0.0, 5.0);
        let requested_at = if self.happens(0.3) { requested_at } else { 0.0 };
        Call::sure(requested_at, self.time(0.0, latest))
    }

    fn draft(mut self) -> PlanDraft {
        let tankers = self.count(1, 6);
        let sites = self.count(1, 2);
        let nursing_only = self.happens(0.1);
        let tanks = if nursing_only { 0 } else { self.count(1, 3) };
        let attack_engine = AttackEngine {
            name: "Engine 1".to_string(),
            tank: self.rounded(1.0, 1_500.0, 250.0),
            call: self.call(12.0),
            water_on: self.handling_time(3.0),
            intakes: self.count(1, 2) as u32,
            tank_refill: if self.happens(0.2) { 0.0 } else { self.rounded(50.0, 600.0, 100.0) },
        };
        let incident = self.incident(attack_engine.tank);
        let engine = self.supply_engine();
        let drop_tanks: Vec<DropTank> =
            (0..tanks).map(|_| self.drop_tank(tankers, engine.is_some())).collect();
        let supply = self.supply(nursing_only, engine, drop_tanks.first());
        let tankers = (0..tankers).map(|place| self.tanker(place, sites)).collect();
        let fill_sites: Vec<FillSite> = (0..sites).map(|place| self.fill_site(place)).collect();
        let one_lanes = self.one_lanes(sites);
        let mut draft = PlanDraft {
            title: "A plan at random".to_string(),
            incident,
            attack_engine,
            supply,
            drop_tanks,
            tankers,
            fill_sites,
            one_lanes,
            whole_fire: WholeFire::default(),
            unsure: Vec::new(),
        };
        // Thrown last, so that the rest of a plan does not depend on it.
        self.shared_luck(&mut draft);
        draft
    }

    fn incident(&mut self, engine_tank: f64) -> Incident {
        let mut attack_flow = vec![FlowStep { from: 0.0, flow: self.rounded(50.0, 900.0, 100.0) }];
        for _ in 1..self.count(1, 3) {
            let from = attack_flow[attack_flow.len() - 1].from + self.rounded(1.0, 40.0, 5.0);
            let flow = self.rounded(50.0, 900.0, 100.0);
            attack_flow.push(FlowStep { from, flow: if self.happens(0.3) { 0.0 } else { flow } });
        }
        Incident {
            duration: self.rounded(20.0, 180.0, 10.0),
            attack_flow,
            reserve: if self.happens(0.5) { self.next() * engine_tank } else { 0.0 },
            tolerance: if self.happens(0.5) { 0.1 } else { 0.0 },
        }
    }

    fn supply_engine(&mut self) -> Option<SupplyEngine> {
        let engine = SupplyEngine {
            name: "Engine 2".to_string(),
            call: self.call(20.0),
            setup: self.handling_time(6.0),
        };
        self.happens(0.5).then_some(engine)
    }

    fn supply(
        &mut self,
        nursing_only: bool,
        engine: Option<SupplyEngine>,
        first: Option<&DropTank>,
    ) -> Supply {
        let stated = self.rounded(100.0, 1_200.0, 100.0);
        let limited = self.happens(0.5);
        let lay_volume = self.between(1.0, 1_000.0);
        let dry_lay = limited && self.happens(0.3);
        let level = self.next();
        let restart_level = (first.filter(|_| self.happens(0.5))).map(|tank| {
            tank.unusable + 2.0 + (1.0 - level) * (tank.capacity - tank.unusable - 2.0)
        });
        Supply {
            nurse: nursing_only || self.happens(0.4),
            engine,
            setup: self.handling_time(6.0),
            draft_limits: if limited {
                vec![
                    DraftLimit { reason: DraftLimitReason::Stated, flow: stated },
                    DraftLimit { reason: DraftLimitReason::PumpAtLift, flow: 700.0 },
                ]
            } else {
                vec![]
            },
            restart_level,
            reprime: self.handling_time(3.0),
            low_water: if self.happens(0.3) { LowWater::Throttle } else { LowWater::LosePrime },
            lay_volume: if dry_lay { lay_volume } else { 0.0 },
            failure: None,
        }
    }

    fn drop_tank(&mut self, tankers: usize, supply_engine: bool) -> DropTank {
        let own = self.call(15.0);
        let tanker = self.count(0, tankers - 1);
        let brought = match self.count(0, 3) {
            1 => Brought::ByTanker(tanker),
            2 => Brought::ByAttackEngine,
            3 if supply_engine => Brought::BySupplyEngine,
            _ => Brought::Itself(own),
        };
        let capacity = self.rounded(600.0, 4_000.0, 500.0);
        DropTank {
            listed: 0,
            capacity,
            unusable: if self.happens(0.7) { 0.2 * capacity * self.next() } else { 0.0 },
            brought,
            setup: self.handling_time(5.0),
            dump_positions: self.count(1, 2) as u32,
            transfer: self.rounded(100.0, 900.0, 100.0),
        }
    }

    fn tanker(&mut self, place: usize, sites: usize) -> Tanker {
        let repair = self.time(2.0, 40.0);
        let site = self.count(0, sites - 1);
        Tanker {
            name: format!("Tanker {place}"),
            listed: place,
            capacity: self.rounded(500.0, 3_500.0, 500.0),
            call: self.call(25.0),
            dump_rate: self.rounded(200.0, 1_500.0, 250.0),
            dump_curve: if self.happens(0.4) { DumpCurve::Gravity } else { DumpCurve::Steady },
            pump_off: self.rounded(100.0, 700.0, 100.0),
            fill_limit: Some(self.rounded(150.0, 1_200.0, 250.0)),
            waste: if self.happens(0.5) { 0.2 * self.next() } else { 0.0 },
            residual: if self.happens(0.5) { 0.1 * self.next() } else { 0.0 },
            breakdown_per_trip: if self.happens(0.3) { 0.4 * self.next() } else { 0.0 },
            repair: self.happens(0.6).then_some(repair),
            fill_site: self.happens(0.3).then_some(site),
            handling: Handling {
                nurse_connect: self.handling_time(2.0),
                nurse_disconnect: self.handling_time(1.0),
                dump_position: self.handling_time(2.0),
                dump_clear: self.handling_time(1.0),
                fill_connect: self.handling_time(2.0),
                fill_disconnect: self.handling_time(1.0),
            },
            crew_cv: 0.0,
            drive_factor: 1.0,
            comes_with: None,
            self_fill: None,
        }
    }

    fn fill_site(&mut self, place: usize) -> FillSite {
        let leg = |time| Leg { miles: None, time };
        let volume = self.rounded(500.0, 20_000.0, 1_000.0);
        let limited = self.happens(0.3);
        let recharge = self.rounded(1.0, 300.0, 50.0);
        FillSite {
            name: format!("Site {place}"),
            flow: self.rounded(150.0, 1_500.0, 250.0),
            pump: None,
            positions: self.count(1, 3) as u32,
            ready: self.handling_time(25.0),
            fill_order: if self.happens(0.4) { FillOrder::OneByOne } else { FillOrder::Shared },
            volume: limited.then_some(volume),
            recharge: if limited && self.happens(0.5) { recharge } else { 0.0 },
            failure: None,
            source_pump: None,
            self_fill: false,
            out: leg(self.time(0.5, 12.0)),
            back: leg(self.time(0.5, 12.0)),
        }
    }

    /// What a whole fire shares, in half of the plans.
    fn shared_luck(&mut self, draft: &mut PlanDraft) {
        if !self.happens(0.5) {
            return;
        }
        draft.whole_fire = WholeFire {
            driving_cv: self.spread(0.4),
            handling_cv: self.spread(0.4),
            response_cv: self.spread(0.4),
        };
        for tanker in &mut draft.tankers {
            tanker.crew_cv = self.spread(0.3);
            tanker.call.turnout = self.turnout();
        }
        if let Some(engine) = &mut draft.supply.engine {
            engine.call.turnout = self.turnout();
        }
        for tank in &mut draft.drop_tanks {
            if let Brought::Itself(call) = &mut tank.brought {
                call.turnout = self.turnout();
            }
        }
        draft.supply.failure = self.failure();
        for site in &mut draft.fill_sites {
            site.failure = self.failure();
        }
    }

    /// None, or a coefficient of variation.
    fn spread(&mut self, cv: f64) -> f64 {
        if self.happens(0.4) { cv } else { 0.0 }
    }

    fn turnout(&mut self) -> f64 {
        if self.happens(0.25) { self.next() } else { 1.0 }
    }

    fn failure(&mut self) -> Option<Failure> {
        let (chance, repair) = (self.next(), self.time(1.0, 30.0));
        let repair = self.happens(0.7).then_some(repair);
        self.happens(0.4).then_some(Failure { chance, repair })
    }

    fn one_lanes(&mut self, sites: usize) -> Vec<OneLane> {
        let nears = [Near::Scene].into_iter().chain((0..sites).map(Near::FillSite));
        let lanes = nears.map(|near| {
            let crossing = self.time(0.2, 4.0);
            self.happens(0.25).then_some(OneLane { near, crossing })
        });
        lanes.flatten().collect()
    }
}
