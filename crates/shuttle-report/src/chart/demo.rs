//! Invented plans in an invented county, for the tests of charts.

use shuttle_sim::{
    AttackEngine, Brought, Call, DropTank, DumpCurve, FillOrder, FillSite, FlowStep, Handling,
    Incident, Leg, LowWater, Luck, Plan, PlanDraft, RunResult, Shuttle, Supply, SupplyEngine,
    Tanker, TimeTaken, Trace, WholeFire,
};

use super::{Sheet, Size};
use crate::batch::{Control, Keep, Runs, run_batch};
use crate::summary::Summary;

const SEED: u64 = 1;

/// What stands around a chart in tests.
pub const SHEET: Sheet<'static> = Sheet {
    answer: "The lines run short in 29 fires of 100.",
    shows: "What is drawn.",
    foot: "Hay barn, Quarry Lane. barn.json. 40 fires, luck number 1. 2026-11-29. bucketline 0.2.0.",
    size: Size::Sheet,
};

fn spread(mean: f64, cv: f64) -> TimeTaken {
    TimeTaken::Lognormal { mean, cv }
}

fn call(requested_at: f64, response: TimeTaken) -> Call {
    Call::sure(requested_at, response)
}

fn tanker(place: usize) -> Tanker {
    Tanker {
        name: format!("Tamarack Tanker {}", place + 1),
        listed: place,
        capacity: if place == 0 { 1_800.0 } else { 3_000.0 },
        call: call(0.0, spread(11.0 + 4.0 * place as f64, 0.2)),
        dump_rate: 1_000.0,
        dump_curve: DumpCurve::Steady,
        pump_off: 500.0,
        fill_limit: None,
        waste: 0.05,
        residual: 0.02,
        breakdown_per_trip: if place == 2 { 0.05 } else { 0.0 },
        repair: Some(spread(10.0, 0.5)),
        fill_site: None,
        handling: Handling {
            nurse_connect: TimeTaken::Fixed(1.0),
            nurse_disconnect: TimeTaken::Fixed(0.7),
            dump_position: spread(0.8, 0.3),
            dump_clear: TimeTaken::Fixed(0.2),
            fill_connect: spread(1.2, 0.3),
            fill_disconnect: spread(0.7, 0.3),
        },
        crew_cv: 0.0,
        drive_factor: 1.0,
        comes_with: None,
        self_fill: None,
    }
}

fn leg(minutes: f64) -> Leg {
    Leg { miles: Some(2.4), time: spread(minutes, 0.15) }
}

/// A barn fire with these numbers of tankers and drop tanks, watched for `duration` minutes.
pub fn draft(tankers: usize, duration: f64, drop_tanks: usize) -> PlanDraft {
    PlanDraft {
        title: "Hay barn, Quarry Lane, Tamarack County".to_owned(),
        incident: Incident {
            duration,
            attack_flow: vec![
                FlowStep { from: 0.0, flow: 180.0 },
                FlowStep { from: 6.0, flow: 350.0 },
            ],
            reserve: 500.0,
            tolerance: 0.1,
        },
        attack_engine: AttackEngine {
            name: "Engine 3".to_owned(),
            tank: 1_250.0,
            call: call(0.0, TimeTaken::Fixed(9.0)),
            water_on: TimeTaken::Fixed(1.5),
            intakes: 1,
            tank_refill: 500.0,
        },
        supply: Supply {
            nurse: true,
            engine: Some(SupplyEngine {
                name: "Engine 8".to_owned(),
                call: call(0.0, spread(14.0, 0.2)),
                setup: TimeTaken::Fixed(5.0),
            }),
            setup: TimeTaken::Fixed(4.0),
            draft_limits: Vec::new(),
            restart_level: Some(600.0),
            reprime: TimeTaken::Fixed(1.5),
            low_water: LowWater::LosePrime,
            lay_volume: 0.0,
            failure: None,
        },
        drop_tanks: (0..drop_tanks)
            .map(|place| DropTank {
                listed: place,
                capacity: 2_500.0,
                unusable: 200.0,
                brought: match place {
                    0 => Brought::ByTanker(0),
                    1 => Brought::BySupplyEngine,
                    _ => Brought::ByAttackEngine,
                },
                setup: TimeTaken::Fixed(3.5),
                dump_positions: 1,
                transfer: 500.0,
            })
            .collect(),
        tankers: (0..tankers).map(tanker).collect(),
        fill_sites: vec![FillSite {
            name: "Quarry pond".to_owned(),
            flow: 900.0,
            pump: None,
            positions: 1 + tankers as u32 / 5,
            ready: TimeTaken::Fixed(16.0),
            fill_order: FillOrder::Shared,
            volume: None,
            recharge: 0.0,
            failure: None,
            source_pump: None,
            self_fill: false,
            out: leg(4.6),
            back: leg(5.2),
        }],
        one_lanes: Vec::new(),
        whole_fire: WholeFire::default(),
        unsure: Vec::new(),
    }
}

/// The same, checked.
pub fn plan(tankers: usize, duration: f64, drop_tanks: usize) -> Plan {
    checked(draft(tankers, duration, drop_tanks))
}

/// A changed draft, checked.
pub fn checked(draft: PlanDraft) -> Plan {
    Plan::check(draft).expect("the demo plan is sound")
}

/// A batch of `count` runs of a plan in figures, with levels.
pub fn summary(plan: &Plan, count: u64) -> Summary {
    let runs = Runs { first: 0, count, seed: SEED, threads: 1 };
    Summary::new(plan, &run_batch(plan, runs, Keep::Levels, &Control::default()), SEED)
}

/// The story of the first run.
pub fn story(plan: &Plan) -> (RunResult, Trace) {
    story_of(plan, 0)
}

/// The story of one run, counted from 0.
pub fn story_of(plan: &Plan, replication: u64) -> (RunResult, Trace) {
    Shuttle::new(plan).run_traced(Luck::Drawn { seed: SEED, replication })
}
