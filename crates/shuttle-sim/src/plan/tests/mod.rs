//! Every rule is tried by breaking one value of a plan that is sound.

use std::ops::Bound;

use super::*;
use crate::plan::{
    Call, DraftLimit, DumpCurve, Failure, FillOrder, FlowStep, Handling, LowWater, Measure, Plan,
    Step, SupplyEngine, TimeTaken, WholeFire, oddities_in,
};

/// A place as its parts are called, for the rows below.
fn way(place: &Place) -> String {
    let mut way = String::new();
    for step in &place.0 {
        match step {
            Step::Entry(index) => way.push_str(&format!("[{index}]")),
            Step::Part(part) => {
                let name = format!("{part:?}");
                for (at, letter) in name.char_indices() {
                    match (at, letter.is_uppercase()) {
                        (0, _) if way.is_empty() => {}
                        (0, _) => way.push('.'),
                        (_, true) => way.push('_'),
                        (_, false) => {}
                    }
                    way.push(letter.to_ascii_lowercase());
                }
            }
        }
    }
    way
}

fn call(response: f64) -> Call {
    Call::sure(0.0, TimeTaken::Fixed(response))
}

fn leg() -> Leg {
    Leg { miles: Some(2.0), time: TimeTaken::Lognormal { mean: 4.0, cv: 0.2 } }
}

fn tanker(name: &str, listed: usize) -> Tanker {
    let minute = TimeTaken::Fixed(1.0);
    Tanker {
        name: name.to_string(),
        listed,
        capacity: 2_000.0,
        call: call(10.0),
        dump_rate: 1_000.0,
        dump_curve: DumpCurve::Steady,
        pump_off: 500.0,
        fill_limit: None,
        waste: 0.1,
        residual: 0.0,
        breakdown_per_trip: 0.0,
        repair: None,
        fill_site: None,
        handling: Handling {
            nurse_connect: minute.clone(),
            nurse_disconnect: minute.clone(),
            dump_position: minute.clone(),
            dump_clear: minute.clone(),
            fill_connect: minute.clone(),
            fill_disconnect: minute,
        },
        crew_cv: 0.0,
        drive_factor: 1.0,
        comes_with: None,
        self_fill: None,
    }
}

fn sound() -> PlanDraft {
    PlanDraft {
        title: "Barn".to_string(),
        incident: Incident {
            duration: 120.0,
            attack_flow: vec![
                FlowStep { from: 0.0, flow: 150.0 },
                FlowStep { from: 5.0, flow: 300.0 },
            ],
            reserve: 300.0,
            tolerance: 0.1,
        },
        attack_engine: AttackEngine {
            name: "Attack engine".to_string(),
            tank: 1_000.0,
            call: call(8.0),
            water_on: TimeTaken::Fixed(1.0),
            intakes: 1,
            tank_refill: 500.0,
        },
        supply: Supply {
            nurse: true,
            engine: Some(SupplyEngine {
                name: "Supply engine".to_string(),
                call: call(12.0),
                setup: TimeTaken::Fixed(4.0),
            }),
            setup: TimeTaken::NONE,
            draft_limits: vec![DraftLimit { reason: DraftLimitReason::Stated, flow: 1_000.0 }],
            restart_level: Some(600.0),
            reprime: TimeTaken::Fixed(1.0),
            low_water: LowWater::Throttle,
            lay_volume: 0.0,
            failure: None,
        },
        drop_tanks: vec![DropTank {
            listed: 0,
            capacity: 2_500.0,
            unusable: 200.0,
            brought: Brought::ByTanker(0),
            setup: TimeTaken::Fixed(3.0),
            dump_positions: 1,
            transfer: 500.0,
        }],
        tankers: vec![tanker("Tanker 1", 0), tanker("Aid 1", 1), tanker("Aid 2", 1)],
        fill_sites: vec![FillSite {
            name: "Pond".to_string(),
            flow: 900.0,
            pump: None,
            positions: 1,
            ready: TimeTaken::Fixed(15.0),
            fill_order: FillOrder::Shared,
            volume: None,
            recharge: 0.0,
            failure: None,
            source_pump: None,
            self_fill: false,
            out: leg(),
            back: leg(),
        }],
        one_lanes: vec![],
        whole_fire: WholeFire::default(),
        unsure: Vec::new(),
    }
}

fn failure(chance: f64, repair: Option<f64>) -> Option<Failure> {
    Some(Failure { chance, repair: repair.map(TimeTaken::Fixed) })
}

fn mistakes_after(change: impl FnOnce(&mut PlanDraft)) -> Vec<Mistake> {
    let mut draft = sound();
    change(&mut draft);
    mistakes_in(&draft)
}

#[test]
fn a_sound_draft_may_run_and_has_nothing_odd() {
    assert_eq!(mistakes_in(&sound()), []);
    assert!(Plan::check(sound()).is_ok());
    assert_eq!(oddities_in(&sound()), []);
}

#[test]
fn each_broken_value_is_one_mistake_at_its_place() {
    type Change = fn(&mut PlanDraft);
    let rows: Vec<(&str, Change)> = vec![
        ("title", |d| d.title = " ".into()),
        ("incident.duration", |d| d.incident.duration = 0.0),
        ("incident.tolerance", |d| d.incident.tolerance = f64::NAN),
        ("incident.reserve", |d| d.incident.reserve = 1_000.5),
        ("incident.attack_flow", |d| d.incident.attack_flow.clear()),
        ("incident.attack_flow", |d| {
            d.incident.attack_flow = vec![FlowStep { from: 0.0, flow: 0.0 }]
        }),
        ("incident.attack_flow[0].from", |d| d.incident.attack_flow[0].from = -1.0),
        ("incident.attack_flow[1].from", |d| d.incident.attack_flow[1].from = 0.0),
        ("incident.attack_flow[1].flow", |d| d.incident.attack_flow[1].flow = 1e300),
        ("attack_engine.tank", |d| {
            d.attack_engine.tank = 0.0;
            d.incident.reserve = 0.0;
        }),
        ("attack_engine.response", |d| d.attack_engine.call.response = TimeTaken::Fixed(-1.0)),
        ("attack_engine.intakes", |d| d.attack_engine.intakes = 0),
        ("attack_engine.tank_refill", |d| d.attack_engine.tank_refill = -1.0),
        ("attack_engine.water_on.cv", |d| {
            d.attack_engine.water_on = TimeTaken::Lognormal { mean: 1.0, cv: 6.0 }
        }),
        ("supply.engine.setup.mean", |d| {
            d.supply.engine.as_mut().unwrap().setup = TimeTaken::Exponential { mean: 1e9 }
        }),
        ("tankers[0].name", |d| d.supply.engine.as_mut().unwrap().name = "Tanker 1".into()),
        ("incident.attack_flow[1].flow", |d| d.incident.attack_flow[1].flow = 5e-324),
        ("tankers[0].dump_rate", |d| d.tankers[0].dump_rate = 5e-324),
        ("attack_engine.turnout", |d| d.attack_engine.call.turnout = 0.9),
        ("supply.engine.turnout", |d| d.supply.engine.as_mut().unwrap().call.turnout = -0.1),
        ("supply.failure.chance", |d| d.supply.failure = failure(1.5, None)),
        ("supply.failure.repair", |d| d.supply.failure = failure(1.0, Some(-1.0))),
        ("drop_tanks[0].turnout", |d| {
            let own = Call { turnout: f64::NAN, ..call(5.0) };
            d.drop_tanks[0].brought = Brought::Itself(own);
        }),
        ("tankers[0].turnout", |d| d.tankers[0].call.turnout = 90.0),
        ("tankers[0].crew_cv", |d| d.tankers[0].crew_cv = 5.1),
        ("fill_sites[0].failure.chance", |d| d.fill_sites[0].failure = failure(f64::NAN, None)),
        ("fill_sites[0].failure.repair", |d| d.fill_sites[0].failure = failure(0.5, Some(1e9))),
        ("whole_fire.driving_cv", |d| d.whole_fire.driving_cv = -0.1),
        ("whole_fire.handling_cv", |d| d.whole_fire.handling_cv = 6.0),
        ("whole_fire.response_cv", |d| d.whole_fire.response_cv = f64::INFINITY),
        ("supply.draft_limit", |d| d.supply.draft_limits[0].flow = 0.0),
        ("supply.restart_level", |d| d.supply.restart_level = Some(200.0)),
        ("supply.restart_level", |d| d.supply.restart_level = Some(2_501.0)),
        ("supply.lay", |d| {
            d.supply.lay_volume = 100.0;
            d.supply.draft_limits.clear();
        }),
        ("drop_tanks", |d| {
            d.supply.nurse = false;
            d.drop_tanks.clear();
        }),
        ("drop_tanks[0].capacity", |d| d.drop_tanks[0].capacity = 60_000.0),
        ("drop_tanks[0].unusable", |d| {
            d.drop_tanks[0].unusable = 2_500.0;
            d.supply.restart_level = None;
        }),
        ("drop_tanks[0].brought_by", |d| d.drop_tanks[0].brought = Brought::ByTanker(3)),
        ("drop_tanks[0].brought_by", |d| {
            d.drop_tanks[0].brought = Brought::BySupplyEngine;
            d.supply.engine = None;
        }),
        ("drop_tanks[0].response", |d| {
            d.drop_tanks[0].brought = Brought::Itself(call(f64::INFINITY))
        }),
        ("drop_tanks[0].dump_positions", |d| d.drop_tanks[0].dump_positions = 1_001),
        ("drop_tanks[0].transfer", |d| d.drop_tanks[0].transfer = 0.0),
        ("tankers[1].capacity", |d| {
            d.tankers[1].capacity = 99.0;
            d.tankers[2].capacity = 99.0;
        }),
        ("tankers[1].name", |d| d.tankers[2].name = "Aid 1".into()),
        ("tankers[0].waste", |d| d.tankers[0].waste = 1.0),
        ("tankers[0].residual", |d| d.tankers[0].residual = -0.1),
        ("tankers[0].breakdown_per_trip", |d| d.tankers[0].breakdown_per_trip = 1.1),
        ("tankers[0].repair", |d| {
            d.tankers[0].repair = Some(TimeTaken::Uniform { low: 2.0, high: 1.0 })
        }),
        ("tankers[0].fill_site", |d| d.tankers[0].fill_site = Some(1)),
        ("tankers[0].handling.fill_connect", |d| {
            d.tankers[0].handling.fill_connect =
                TimeTaken::Triangular { low: 1.0, likely: 3.0, high: 2.0 };
        }),
        ("fill_sites[0].flow", |d| d.fill_sites[0].flow = 0.0),
        ("fill_sites[0].positions", |d| d.fill_sites[0].positions = 0),
        ("fill_sites[0].ready.samples", |d| d.fill_sites[0].ready = TimeTaken::Samples(vec![])),
        ("fill_sites[0].ready.samples[1]", |d| {
            d.fill_sites[0].ready = TimeTaken::Samples(vec![1.0, -1.0])
        }),
        ("fill_sites[0].volume", |d| d.fill_sites[0].volume = Some(0.0)),
        ("fill_sites[0].recharge", |d| d.fill_sites[0].recharge = 5.0),
        ("fill_sites[0].out.miles", |d| {
            d.fill_sites[0].out = Leg { miles: Some(0.0), time: TimeTaken::NONE }
        }),
        ("fill_sites[0].back", |d| {
            d.fill_sites[0].back = Leg { miles: None, time: TimeTaken::NONE }
        }),
        ("one_lane[0].near", |d| {
            d.one_lanes = vec![OneLane { near: Near::FillSite(1), crossing: TimeTaken::Fixed(1.0) }]
        }),
        ("one_lane[1].near", |d| {
            d.one_lanes = vec![OneLane { near: Near::Scene, crossing: TimeTaken::Fixed(1.0) }; 2]
        }),
        ("one_lane[0].crossing", |d| {
            d.one_lanes = vec![OneLane { near: Near::Scene, crossing: TimeTaken::NONE }]
        }),
    ];
    for (place, change) in rows {
        let places: Vec<String> =
            mistakes_after(change).iter().map(|mistake| way(&mistake.place)).collect();
        assert_eq!(places, [place]);
    }
}

#[test]
fn all_mistakes_are_found_at_once() {
    let found = mistakes_after(|draft| {
        draft.incident.duration = -1.0;
        draft.tankers.clear();
        draft.fill_sites.clear();
        draft.drop_tanks[0].brought = Brought::ByAttackEngine;
    });
    let places: Vec<String> = found.iter().map(|mistake| way(&mistake.place)).collect();
    assert_eq!(places, ["incident.duration", "tankers", "fill_sites"]);
}

/// The bound is on the run as a whole: 1,000 tankers for an evening may run, for two months they may not, and
/// many fill sites to choose from count too.
#[test]
fn a_run_that_would_take_minutes_is_refused() {
    let many = |count: usize, minutes: f64, sites: usize| {
        mistakes_after(|draft| {
            draft.incident.duration = minutes;
            draft.tankers = (0..count).map(|n| tanker(&format!("Tanker {n}"), n)).collect();
            let site = draft.fill_sites[0].clone();
            draft.fill_sites = (0..sites)
                .map(|n| FillSite { name: format!("Pond {n}"), ..site.clone() })
                .collect();
        })
    };
    assert_eq!(many(1_000, 600.0, 1), []);
    let refused = many(1_000, 86_400.0, 1);
    assert!(matches!(refused[0].wrong, Wrong::TooManyTrips { trips, most } if trips > most));
    assert_eq!(way(&refused[0].place), "incident.duration");
    assert_eq!(many(1_000, 1_200.0, 1), []);
    assert_eq!(many(1_000, 1_200.0, 100).len(), 1);
}

#[test]
fn a_lull_in_the_attack_flow_is_allowed() {
    let found = mistakes_after(|draft| draft.incident.attack_flow[1].flow = 0.0);
    assert_eq!(found, []);
}

#[test]
fn a_mistake_holds_its_place_value_and_limit() {
    let found = mistakes_after(|draft| draft.tankers[0].waste = 10.0);
    let wrong = Wrong::OutOfRange {
        measure: Measure::Share,
        value: 10.0,
        bounds: (Bound::Included(0.0), Bound::Excluded(1.0)),
    };
    assert_eq!(found, [Mistake { place: listed(Part::Tankers, 0).at(Part::Waste), wrong }]);
}

mod odd;

mod shared_luck;

mod rests_on;

mod bounds;

mod time_taken;
