//! A small world: a plan in which everything takes no time and nothing is lost, until a test says so.

use shuttle_sim::{
    AttackEngine, Brought, Call, DraftLimit, DraftLimitReason, DropTank, DumpCurve, FillOrder,
    FillSite, FlowStep, Handling, Incident, Leg, LowWater, Luck, Near, OneLane, Plan, PlanDraft,
    Shuttle, Supply, SupplyEngine, Tanker, TimeTaken, WholeFire,
};

use super::telling::Telling;

/// A plan in the making. Every method changes one thing and gives the world back, so that a test
/// states only what it is about.
///
/// As made by [`World::new`]: an attack engine ("Engine 1", 1,000 gal, refill 500 gpm, 1 intake) on
/// scene and flowing 500 gpm from minute 0, watched for 60 minutes, reserve 0, tolerance 0.1 min; no
/// nursing, no supply engine, no limit on the draft, no time to set up or reprime, and prime lost at
/// low water; one drop tank of 3,000 gal (unusable 0, one position, transfer 500 gpm) ready at minute
/// 0; no tanker; one fill site ("Pond", 1,000 gpm, flow shared, one position) 5 minutes out and 5
/// back. Units: gal, gpm, minutes.
#[derive(Debug, Clone)]
pub struct World {
    draft: PlanDraft,
}

/// Always this many minutes.
pub fn fixed(minutes: f64) -> TimeTaken {
    TimeTaken::Fixed(minutes)
}

/// Asked for at the alarm, on scene after `response` minutes.
pub fn comes_at(response: f64) -> Call {
    Call::sure(0.0, fixed(response))
}

/// A road that always takes this many minutes.
pub fn road(minutes: f64) -> Leg {
    Leg { miles: None, time: fixed(minutes) }
}

/// Handling that takes no time.
pub fn no_handling() -> Handling {
    Handling {
        nurse_connect: TimeTaken::NONE,
        nurse_disconnect: TimeTaken::NONE,
        dump_position: TimeTaken::NONE,
        dump_clear: TimeTaken::NONE,
        fill_connect: TimeTaken::NONE,
        fill_disconnect: TimeTaken::NONE,
    }
}

/// A dump site at which nobody has to wait: one drop tank of 20,000 gal with 9 positions, drawn at
/// 100 gpm.
pub fn open_dump_site() -> World {
    World::new().attack_flow(100.0).first_tank(|tank| {
        tank.capacity = 20_000.0;
        tank.dump_positions = 9;
    })
}

impl World {
    /// The world described above.
    pub fn new() -> World {
        World {
            draft: PlanDraft {
                title: "A small world".to_string(),
                incident: Incident {
                    duration: 60.0,
                    attack_flow: vec![FlowStep { from: 0.0, flow: 500.0 }],
                    reserve: 0.0,
                    tolerance: 0.1,
                },
                attack_engine: AttackEngine {
                    name: "Engine 1".to_string(),
                    tank: 1000.0,
                    call: comes_at(0.0),
                    water_on: TimeTaken::NONE,
                    intakes: 1,
                    tank_refill: 500.0,
                },
                supply: Supply {
                    nurse: false,
                    engine: None,
                    setup: TimeTaken::NONE,
                    draft_limits: vec![],
                    restart_level: None,
                    reprime: TimeTaken::NONE,
                    low_water: LowWater::LosePrime,
                    lay_volume: 0.0,
                    failure: None,
                },
                drop_tanks: vec![drop_tank(3000.0)],
                tankers: vec![],
                fill_sites: vec![fill_site("Pond", 5.0, 5.0)],
                one_lanes: vec![],
                whole_fire: WholeFire::default(),
                unsure: Vec::new(),
            },
        }
    }

    /// Changes anything that has no method of its own.
    pub fn with(mut self, change: impl FnOnce(&mut PlanDraft)) -> World {
        change(&mut self.draft);
        self
    }

    // The incident.

    /// Minutes watched, from first water.
    pub fn watched(self, minutes: f64) -> World {
        self.with(|draft| draft.incident.duration = minutes)
    }

    /// One attack flow throughout, gpm.
    pub fn attack_flow(self, gpm: f64) -> World {
        self.attack_steps(&[(0.0, gpm)])
    }

    /// The attack flow by steps: minutes after first water, gpm.
    pub fn attack_steps(self, steps: &[(f64, f64)]) -> World {
        let step = |&(from, flow): &(f64, f64)| FlowStep { from, flow };
        self.with(|draft| draft.incident.attack_flow = steps.iter().map(step).collect())
    }

    /// Water kept in the attack engine, gal.
    pub fn reserve(self, gal: f64) -> World {
        self.with(|draft| draft.incident.reserve = gal)
    }

    /// The shortfall that counts as an interruption, minutes.
    pub fn tolerance(self, minutes: f64) -> World {
        self.with(|draft| draft.incident.tolerance = minutes)
    }

    // The attack engine.

    /// The attack engine's own tank, gal.
    pub fn engine_tank(self, gal: f64) -> World {
        self.with(|draft| draft.attack_engine.tank = gal)
    }

    /// The attack engine arrives after `response` minutes and flows `water_on` minutes later.
    pub fn engine_comes(self, response: f64, water_on: f64) -> World {
        self.with(|draft| {
            draft.attack_engine.call = comes_at(response);
            draft.attack_engine.water_on = fixed(water_on);
        })
    }

    /// Intakes a nurse can take.
    pub fn intakes(self, intakes: u32) -> World {
        self.with(|draft| draft.attack_engine.intakes = intakes)
    }

    /// What the engine takes beyond the attack flow while its tank is not full, gpm.
    pub fn tank_refill(self, gpm: f64) -> World {
        self.with(|draft| draft.attack_engine.tank_refill = gpm)
    }

    // The supply.

    /// Tankers may nurse until the pump first draws.
    pub fn nursing(self) -> World {
        self.with(|draft| draft.supply.nurse = true)
    }

    /// "Engine 2" drafts: it arrives after `response` minutes and takes `setup` to hook up.
    pub fn supply_engine(self, response: f64, setup: f64) -> World {
        self.with(|draft| {
            draft.supply.engine = Some(SupplyEngine {
                name: "Engine 2".to_string(),
                call: comes_at(response),
                setup: fixed(setup),
            });
        })
    }

    /// Minutes to hook up when the attack engine drafts itself.
    pub fn draft_setup(self, minutes: f64) -> World {
        self.with(|draft| draft.supply.setup = fixed(minutes))
    }

    /// A limit on the draft, stated outright, gpm.
    pub fn draft_limit(self, gpm: f64) -> World {
        self.limited_by(DraftLimitReason::Stated, gpm)
    }

    /// One more limit on the draft, gpm.
    pub fn limited_by(self, reason: DraftLimitReason, flow: f64) -> World {
        self.with(|draft| draft.supply.draft_limits.push(DraftLimit { reason, flow }))
    }

    /// The first drop tank's level at which the pump draws (again), gal.
    pub fn restart_level(self, gal: f64) -> World {
        self.with(|draft| draft.supply.restart_level = Some(gal))
    }

    /// Minutes to get prime back.
    pub fn reprime(self, minutes: f64) -> World {
        self.with(|draft| draft.supply.reprime = fixed(minutes))
    }

    /// The pump operator gates down instead of losing prime.
    pub fn throttling(self) -> World {
        self.with(|draft| draft.supply.low_water = LowWater::Throttle)
    }

    /// The lay is dry and swallows this much, gal.
    pub fn dry_lay(self, gal: f64) -> World {
        self.with(|draft| draft.supply.lay_volume = gal)
    }

    // Drop tanks.

    /// No drop tank: nursing only.
    pub fn no_drop_tank(self) -> World {
        self.nursing().with(|draft| draft.drop_tanks.clear())
    }

    /// Changes the first drop tank.
    pub fn first_tank(self, change: impl FnOnce(&mut DropTank)) -> World {
        self.with(|draft| change(&mut draft.drop_tanks[0]))
    }

    /// One more drop tank of this capacity, ready at minute 0 like the first.
    pub fn drop_tank(self, gal: f64) -> World {
        self.drop_tank_with(gal, |_| {})
    }

    /// One more drop tank of this capacity, changed.
    pub fn drop_tank_with(self, gal: f64, change: impl FnOnce(&mut DropTank)) -> World {
        let mut tank = drop_tank(gal);
        change(&mut tank);
        self.with(|draft| draft.drop_tanks.push(tank))
    }

    // Tankers.

    /// One more tanker, of this capacity, on scene after `response` minutes. It dumps at 1,000 gpm,
    /// pumps off at up to 500, fills at up to 1,000, wastes and keeps nothing, never breaks down.
    pub fn tanker(self, name: &str, gal: f64, response: f64) -> World {
        self.tanker_with(name, gal, response, |_| {})
    }

    /// One more tanker, changed.
    pub fn tanker_with(
        self,
        name: &str,
        gal: f64,
        response: f64,
        change: impl FnOnce(&mut Tanker),
    ) -> World {
        let mut tanker = Tanker {
            name: name.to_string(),
            listed: self.draft.tankers.len(),
            capacity: gal,
            call: comes_at(response),
            dump_rate: 1000.0,
            dump_curve: DumpCurve::Steady,
            pump_off: 500.0,
            fill_limit: None,
            waste: 0.0,
            residual: 0.0,
            breakdown_per_trip: 0.0,
            repair: None,
            fill_site: None,
            handling: no_handling(),
            crew_cv: 0.0,
            drive_factor: 1.0,
            comes_with: None,
            self_fill: None,
        };
        change(&mut tanker);
        self.with(|draft| draft.tankers.push(tanker))
    }

    /// Changes every tanker listed so far.
    pub fn every_tanker(self, change: impl FnMut(&mut Tanker)) -> World {
        self.with(|draft| draft.tankers.iter_mut().for_each(change))
    }

    /// Changes the handling of every tanker listed so far.
    pub fn handling(self, mut change: impl FnMut(&mut Handling)) -> World {
        self.every_tanker(|tanker| change(&mut tanker.handling))
    }

    // Fill sites and roads.

    /// Changes the first fill site, "Pond".
    pub fn pond(self, change: impl FnOnce(&mut FillSite)) -> World {
        self.with(|draft| change(&mut draft.fill_sites[0]))
    }

    /// One more fill site like the Pond, with these minutes out and back.
    pub fn fill_site(self, name: &str, out: f64, back: f64) -> World {
        self.fill_site_with(name, out, back, |_| {})
    }

    /// One more fill site, changed.
    pub fn fill_site_with(
        self,
        name: &str,
        out: f64,
        back: f64,
        change: impl FnOnce(&mut FillSite),
    ) -> World {
        let mut site = fill_site(name, out, back);
        change(&mut site);
        self.with(|draft| draft.fill_sites.push(site))
    }

    /// A one-lane stretch that takes `crossing` minutes.
    pub fn one_lane(self, near: Near, crossing: f64) -> World {
        let crossing = fixed(crossing);
        self.with(|draft| draft.one_lanes.push(OneLane { near, crossing }))
    }

    // What becomes of it.

    /// The facts as they stand, not yet checked.
    pub fn draft(&self) -> &PlanDraft {
        &self.draft
    }

    /// The checked plan.
    ///
    /// - Panics: if the plan may not run, with every mistake; the test is at fault then.
    #[track_caller]
    pub fn plan(&self) -> Plan {
        Plan::check(self.draft.clone()).unwrap_or_else(|mistakes| {
            let lines: Vec<String> =
                mistakes.iter().map(|mistake| format!("{mistake:?}")).collect();
            panic!("this world may not run:\n{}", lines.join("\n"))
        })
    }

    /// Runs it as planned (every duration at its mean, no breakdowns) and tells the story.
    #[track_caller]
    pub fn told(&self) -> Telling {
        self.told_with(Luck::Planned)
    }

    /// Runs it with drawn luck, one replication after another, and tells the first story of which
    /// this holds.
    ///
    /// - Panics: if it holds of none in 200.
    #[track_caller]
    pub fn told_where(&self, holds: impl Fn(&Telling) -> bool) -> Telling {
        (0..200)
            .map(|replication| self.told_with(Luck::Drawn { seed: 2026, replication }))
            .find(holds)
            .expect("in one of 200 replications the luck asked for")
    }

    /// Runs it with drawn luck and tells the story.
    #[track_caller]
    pub fn told_with(&self, luck: Luck) -> Telling {
        let plan = self.plan();
        let (result, trace) = Shuttle::new(&plan).run_traced(luck);
        Telling::new(&plan, result, trace)
    }
}

fn drop_tank(capacity: f64) -> DropTank {
    DropTank {
        listed: 0,
        capacity,
        unusable: 0.0,
        brought: Brought::Itself(comes_at(0.0)),
        setup: TimeTaken::NONE,
        dump_positions: 1,
        transfer: 500.0,
    }
}

fn fill_site(name: &str, out: f64, back: f64) -> FillSite {
    FillSite {
        name: name.to_string(),
        flow: 1000.0,
        pump: None,
        positions: 1,
        ready: TimeTaken::NONE,
        fill_order: FillOrder::Shared,
        volume: None,
        recharge: 0.0,
        failure: None,
        source_pump: None,
        self_fill: false,
        out: road(out),
        back: road(back),
    }
}
