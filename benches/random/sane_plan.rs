//! A plan at random that a department could really make, for questions about chances: not everything
//! that can be stated, as the laws throw it, but what is usual, with the usual spread.
//!
//! One to six tankers of 1,000 to 4,000 gal, one to three drop tanks each of which holds any load, one or
//! two fill sites 1 to 6 miles away, 150 to 800 gpm. All ranges are judgement; lengths of time have a
//! coefficient of variation of 0.15 to 0.3.

use shuttle_sim::{
    AttackEngine, Brought, Call, DraftLimit, DraftLimitReason, DropTank, DumpCurve, FillOrder,
    FillSite, FlowStep, Handling, Incident, KeyedStream, Leg, LowWater, Luck, Near, OneLane, Plan,
    PlanDraft, Purpose, Shuttle, Supply, SupplyEngine, Tanker, TimeTaken, WholeFire,
};

/// Runs that show whether the chance of a plan is one to speak of.
const PILOT: u64 = 100;
/// In so many of them the lines must go short, and in as many they must not.
const FEWEST: usize = 5;
/// Plans of one number thrown before giving up.
const THROWS: u64 = 200;

/// The plan of this number: the first of those thrown for it whose chance of an interruption is neither
/// as good as none nor as good as sure.
///
/// - Returns: the plan, and how many were thrown for it.
pub fn sane_plan(seed: u64, number: u64) -> (PlanDraft, u64) {
    for throw in 0..THROWS {
        let draft = Dice::new(seed, number * THROWS + throw).draft();
        let mut shuttle = Shuttle::new(&plan(&draft));
        shuttle.keep_levels(false);
        let luck = |replication| Luck::Drawn { seed: seed ^ 0x5eed, replication };
        let short =
            (0..PILOT).filter(|run| !shuttle.run(luck(*run)).interruptions.is_empty()).count();
        if (FEWEST..=PILOT as usize - FEWEST).contains(&short) {
            return (draft, throw + 1);
        }
    }
    panic!("no plan of number {number} is worth a question")
}

/// A tanker like those of the plans, which comes as aid.
pub fn another_tanker(seed: u64, number: u64, most: f64) -> Tanker {
    let mut dice = Dice::new(seed ^ 0xa1d, number);
    let mut tanker = dice.tanker(0, 1);
    while tanker.load() > most {
        tanker = dice.tanker(0, 1);
    }
    tanker.name = "One more".to_string();
    tanker
}

/// A site farther away than this one.
pub fn another_site(seed: u64, number: u64, than: &FillSite) -> FillSite {
    let mut dice = Dice::new(seed ^ 0x517e, number);
    let miles = than.out.miles.unwrap_or(1.0) + dice.between(0.5, 3.0);
    let mut site = dice.fill_site("Farther site", miles);
    site.volume = None;
    site
}

/// The plan of a draft made here; each of them may run.
pub fn plan(draft: &PlanDraft) -> Plan {
    Plan::check(draft.clone()).unwrap_or_else(|mistakes| {
        panic!("{}", mistakes.iter().map(|one| format!("{one:?}\n")).collect::<String>())
    })
}

/// Numbers between 0 and 1, one after another.
struct Dice(KeyedStream);

impl Dice {
    fn new(seed: u64, number: u64) -> Dice {
        Dice(KeyedStream::new(seed, number, "a sane plan"))
    }

    fn next(&mut self) -> f64 {
        self.0.next_uniform(Purpose::Response)
    }

    fn happens(&mut self, chance: f64) -> bool {
        self.next() < chance
    }

    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.next()
    }

    fn rounded(&mut self, low: f64, high: f64, step: f64) -> f64 {
        (self.between(low, high) / step).round() * step
    }

    fn one_of(&mut self, values: &[f64]) -> f64 {
        values[(self.next() * values.len() as f64) as usize]
    }

    fn count(&mut self, low: usize, high: usize) -> usize {
        low + (self.next() * (high - low + 1) as f64) as usize
    }

    fn time(&mut self, low: f64, high: f64) -> TimeTaken {
        TimeTaken::Lognormal { mean: self.between(low, high), cv: self.between(0.15, 0.3) }
    }

    fn draft(&mut self) -> PlanDraft {
        let tankers = self.count(1, 6);
        let sites = self.count(1, 2);
        let tankers: Vec<Tanker> = (0..tankers).map(|place| self.tanker(place, sites)).collect();
        let largest = tankers.iter().fold(0.0_f64, |most, tanker| most.max(tanker.capacity));
        let engine = self.happens(0.6).then(|| SupplyEngine {
            name: "Engine 2".to_string(),
            call: self.call(6.0, 18.0),
            setup: self.time(3.0, 6.0),
        });
        let drop_tanks: Vec<DropTank> = (0..self.count(1, 3))
            .map(|place| self.drop_tank(place, tankers.len(), engine.is_some(), largest))
            .collect();
        let supply = self.supply(engine);
        let fill_sites: Vec<FillSite> = (0..sites)
            .map(|place| {
                let miles = self.between(1.0, 6.0);
                self.fill_site(&format!("Site {place}"), miles)
            })
            .collect();
        let (attack_engine, incident) = self.fire();
        let one_lane = self.happens(0.1).then(|| OneLane {
            near: if self.happens(0.5) { Near::Scene } else { Near::FillSite(0) },
            crossing: self.time(0.3, 1.5),
        });
        PlanDraft {
            title: "A sane plan at random".to_string(),
            incident,
            attack_engine,
            supply,
            drop_tanks,
            tankers,
            fill_sites,
            one_lanes: one_lane.into_iter().collect(),
            whole_fire: WholeFire::default(),
            unsure: Vec::new(),
        }
    }

    fn call(&mut self, soonest: f64, latest: f64) -> Call {
        Call::sure(0.0, self.time(soonest, latest))
    }

    fn fire(&mut self) -> (AttackEngine, Incident) {
        let attack_engine = AttackEngine {
            name: "Engine 1".to_string(),
            tank: self.one_of(&[500.0, 750.0, 1_000.0, 1_000.0, 1_250.0]),
            call: self.call(5.0, 12.0),
            water_on: self.time(1.0, 3.0),
            intakes: self.count(1, 2) as u32,
            tank_refill: 500.0,
        };
        let main = self.rounded(150.0, 800.0, 10.0);
        let mut attack_flow = vec![FlowStep { from: 0.0, flow: main }];
        // A first line, then more of them.
        if self.happens(0.6) {
            attack_flow[0].flow = main.min(self.one_of(&[95.0, 125.0, 150.0, 180.0]));
            attack_flow.push(FlowStep { from: self.rounded(5.0, 20.0, 1.0), flow: main });
        }
        if self.happens(0.3) {
            attack_flow.push(FlowStep { from: self.rounded(30.0, 60.0, 5.0), flow: 0.5 * main });
        }
        let reserve = if self.happens(0.5) { 0.3 * attack_engine.tank } else { 0.0 };
        let duration = self.rounded(60.0, 120.0, 10.0);
        (attack_engine, Incident { duration, attack_flow, reserve, tolerance: 0.1 })
    }

    fn supply(&mut self, engine: Option<SupplyEngine>) -> Supply {
        let limit = self.rounded(500.0, 1_250.0, 50.0);
        Supply {
            nurse: self.happens(0.6),
            engine,
            setup: self.time(3.0, 6.0),
            draft_limits: (self.happens(0.7))
                .then_some(DraftLimit { reason: DraftLimitReason::Stated, flow: limit })
                .into_iter()
                .collect(),
            restart_level: None,
            reprime: self.time(1.0, 2.0),
            low_water: if self.happens(0.2) { LowWater::LosePrime } else { LowWater::Throttle },
            failure: None,
            lay_volume: 0.0,
        }
    }

    /// It holds any load with what lies below the strainer.
    fn drop_tank(&mut self, place: usize, tankers: usize, engine: bool, largest: f64) -> DropTank {
        let unusable = self.rounded(100.0, 300.0, 50.0);
        let sizes = [1_500.0, 2_000.0, 2_100.0, 2_500.0, 3_000.0, 3_500.0, 4_000.0, 5_000.0];
        let least = largest.min(sizes[sizes.len() - 1]);
        let fitting: Vec<f64> = sizes.into_iter().filter(|size| *size >= least).collect();
        DropTank {
            listed: place,
            capacity: self.one_of(&fitting),
            unusable,
            brought: if place == 0 && engine && self.happens(0.3) {
                Brought::BySupplyEngine
            } else if place < tankers {
                Brought::ByTanker(place)
            } else {
                Brought::Itself(self.call(10.0, 25.0))
            },
            setup: self.time(2.0, 4.0),
            dump_positions: self.count(1, 2) as u32,
            transfer: self.rounded(300.0, 700.0, 50.0),
        }
    }

    fn tanker(&mut self, place: usize, sites: usize) -> Tanker {
        Tanker {
            name: format!("Tanker {place}"),
            listed: place,
            capacity: self.one_of(&[
                1_000.0, 1_200.0, 1_500.0, 1_800.0, 2_000.0, 2_500.0, 3_000.0, 3_500.0, 4_000.0,
            ]),
            call: self.call(7.0, 30.0),
            dump_rate: self.rounded(700.0, 1_500.0, 50.0),
            dump_curve: if self.happens(0.3) { DumpCurve::Gravity } else { DumpCurve::Steady },
            pump_off: self.rounded(300.0, 700.0, 50.0),
            fill_limit: self.happens(0.7).then(|| self.rounded(500.0, 1_000.0, 50.0)),
            waste: self.rounded(0.0, 0.1, 0.01),
            residual: self.rounded(0.0, 0.05, 0.01),
            breakdown_per_trip: if self.happens(0.2) { 0.01 } else { 0.0 },
            repair: self.happens(0.5).then(|| self.time(10.0, 40.0)),
            crew_cv: 0.0,
            drive_factor: 1.0,
            comes_with: None,
            self_fill: None,
            fill_site: self.happens(0.15).then(|| self.count(0, sites - 1)),
            handling: Handling {
                nurse_connect: self.time(0.5, 1.5),
                nurse_disconnect: self.time(0.3, 1.0),
                dump_position: self.time(0.4, 1.5),
                dump_clear: self.time(0.2, 0.6),
                fill_connect: self.time(0.6, 2.0),
                fill_disconnect: self.time(0.4, 1.0),
            },
        }
    }

    fn fill_site(&mut self, name: &str, miles: f64) -> FillSite {
        let mut leg = |slower: f64| {
            let mean = (0.65 + 1.7 * miles) * slower;
            let cv = self.between(0.15, 0.3);
            Leg { miles: Some(miles), time: TimeTaken::Lognormal { mean, cv } }
        };
        let (out, back) = (leg(1.0), leg(1.1));
        FillSite {
            name: name.to_string(),
            flow: self.rounded(400.0, 1_200.0, 50.0),
            pump: None,
            positions: self.count(1, 2) as u32,
            ready: self.time(5.0, 20.0),
            fill_order: if self.happens(0.7) { FillOrder::OneByOne } else { FillOrder::Shared },
            volume: self.happens(0.1).then(|| self.rounded(20_000.0, 60_000.0, 1_000.0)),
            recharge: 0.0,
            failure: None,
            source_pump: None,
            self_fill: false,
            out,
            back,
        }
    }
}
