//! Each input that may rest on something is found, and nothing else is changed.

use super::*;
use crate::plan::{Near, OneLane, Owner, Part, RestsOn, Unsure};

/// A plan that states everything that may rest on a reading or a guess.
fn full() -> PlanDraft {
    let mut draft = sound();
    draft.supply.setup = TimeTaken::Fixed(5.0);
    draft.supply.draft_limits = vec![
        DraftLimit { reason: DraftLimitReason::Stated, flow: 1_000.0 },
        DraftLimit { reason: DraftLimitReason::Lay, flow: 1_100.0 },
    ];
    draft.supply.failure = failure(0.1, Some(20.0));
    draft.drop_tanks.push(DropTank {
        listed: 1,
        brought: Brought::Itself(call(9.0)),
        ..draft.drop_tanks[0].clone()
    });
    for (place, tanker) in draft.tankers.iter_mut().enumerate() {
        let minutes = |more: f64| TimeTaken::Fixed(1.0 + more + place as f64 * 0.25);
        tanker.repair = Some(minutes(30.0));
        tanker.fill_limit = Some(800.0);
        tanker.handling = Handling {
            nurse_connect: minutes(0.0),
            nurse_disconnect: minutes(0.01),
            dump_position: minutes(0.02),
            dump_clear: minutes(0.03),
            fill_connect: minutes(0.04),
            fill_disconnect: minutes(0.05),
        };
    }
    draft.fill_sites[0].failure = failure(0.1, Some(25.0));
    draft.fill_sites[0].volume = Some(90_000.0);
    draft.fill_sites[0].recharge = 50.0;
    draft.fill_sites.push(FillSite { name: "Lake".to_string(), ..draft.fill_sites[0].clone() });
    let lane = |near, minutes| OneLane { near, crossing: TimeTaken::Fixed(minutes) };
    draft.one_lanes =
        vec![lane(Near::Scene, 2.0), lane(Near::FillSite(0), 3.0), lane(Near::FillSite(1), 4.0)];
    draft
}

/// Twice as long, or twice as much.
fn double(time: &mut TimeTaken) {
    *time = time.scaled(2.0);
}

type Row = (Owner, Part, usize, fn(&mut PlanDraft));

fn rows() -> Vec<Row> {
    let site = || Owner::FillSite("Lake".to_string());
    let aid = || Owner::Tankers { name: "Aid".to_string(), listed: 1 };
    vec![
        (Owner::AttackEngine, Part::Response, 1, |d| double(&mut d.attack_engine.call.response)),
        (Owner::AttackEngine, Part::WaterOn, 1, |d| double(&mut d.attack_engine.water_on)),
        (Owner::AttackEngine, Part::TankRefill, 1, |d| d.attack_engine.tank_refill *= 2.0),
        (Owner::Supply, Part::Setup, 1, |d| double(&mut d.supply.setup)),
        (Owner::Supply, Part::Reprime, 1, |d| double(&mut d.supply.reprime)),
        (Owner::Supply, Part::Repair, 1, |d| d.supply.failure = failure(0.1, Some(40.0))),
        // Only the limit that is stated outright: what a lay carries is worked out.
        (Owner::Supply, Part::DraftLimit, 1, |d| d.supply.draft_limits[0].flow *= 2.0),
        (Owner::SupplyEngine, Part::Response, 1, |d| {
            double(&mut d.supply.engine.as_mut().unwrap().call.response);
        }),
        (Owner::SupplyEngine, Part::Setup, 1, |d| {
            double(&mut d.supply.engine.as_mut().unwrap().setup);
        }),
        (Owner::DropTank(1), Part::Response, 1, |d| {
            d.drop_tanks[1].brought = Brought::Itself(call(18.0));
        }),
        (Owner::DropTank(0), Part::Response, 0, |_| {}),
        (Owner::DropTank(1), Part::Setup, 1, |d| double(&mut d.drop_tanks[1].setup)),
        (Owner::DropTank(1), Part::Transfer, 1, |d| d.drop_tanks[1].transfer *= 2.0),
        (aid(), Part::Response, 2, |d| aid_of(d, |t| double(&mut t.call.response))),
        (aid(), Part::Repair, 2, |d| aid_of(d, |t| t.repair.iter_mut().for_each(double))),
        (aid(), Part::Capacity, 2, |d| aid_of(d, |t| t.capacity *= 2.0)),
        (aid(), Part::DumpRate, 2, |d| aid_of(d, |t| t.dump_rate *= 2.0)),
        (aid(), Part::PumpOff, 2, |d| aid_of(d, |t| t.pump_off *= 2.0)),
        (aid(), Part::FillLimit, 2, |d| aid_of(d, |t| t.fill_limit = Some(1_600.0))),
        (aid(), Part::Waste, 2, |d| aid_of(d, |t| t.waste *= 2.0)),
        (every(), Part::NurseConnect, 3, |d| all(d, |h| double(&mut h.nurse_connect))),
        (every(), Part::NurseDisconnect, 3, |d| all(d, |h| double(&mut h.nurse_disconnect))),
        (every(), Part::DumpPosition, 3, |d| all(d, |h| double(&mut h.dump_position))),
        (every(), Part::DumpClear, 3, |d| all(d, |h| double(&mut h.dump_clear))),
        (every(), Part::FillConnect, 3, |d| all(d, |h| double(&mut h.fill_connect))),
        (every(), Part::FillDisconnect, 3, |d| all(d, |h| double(&mut h.fill_disconnect))),
        (site(), Part::Flow, 1, |d| d.fill_sites[1].flow *= 2.0),
        (site(), Part::Recharge, 1, |d| d.fill_sites[1].recharge *= 2.0),
        (site(), Part::Ready, 1, |d| double(&mut d.fill_sites[1].ready)),
        (site(), Part::Out, 1, |d| double(&mut d.fill_sites[1].out.time)),
        (site(), Part::Back, 1, |d| double(&mut d.fill_sites[1].back.time)),
        (site(), Part::Repair, 1, |d| d.fill_sites[1].failure = failure(0.1, Some(50.0))),
        (Owner::OneLane(None), Part::Crossing, 1, |d| double(&mut d.one_lanes[0].crossing)),
        (Owner::OneLane(Some("Lake".to_string())), Part::Crossing, 1, |d| {
            double(&mut d.one_lanes[2].crossing);
        }),
        (Owner::FillSite("Creek".to_string()), Part::Flow, 0, |_| {}),
    ]
}

fn every() -> Owner {
    Owner::EveryTanker(vec![0, 1])
}

fn aid_of(draft: &mut PlanDraft, change: impl FnMut(&mut Tanker)) {
    draft.tankers[1..].iter_mut().for_each(change);
}

fn all(draft: &mut PlanDraft, change: impl Fn(&mut Handling)) {
    draft.tankers.iter_mut().for_each(|tanker| change(&mut tanker.handling));
}

fn unsure(of: Owner, parts: Vec<Part>) -> Unsure {
    Unsure { of, parts, rests_on: RestsOn::Guess(RestsOn::GUESS) }
}

#[test]
fn each_input_is_found_and_nothing_else_is_changed() {
    let mut keys = std::collections::HashSet::new();
    for (of, part, count, by_hand) in rows() {
        let input = unsure(of, vec![part]);
        let (mut redrawn, mut expected) = (full(), full());
        let found = input.redraw(&mut redrawn, |time| time.scaled(2.0), |value| value * 2.0);
        by_hand(&mut expected);
        assert_eq!(found, count, "{input:?}");
        assert_eq!(format!("{redrawn:?}"), format!("{expected:?}"), "{input:?}");
        // Its durations are those that were changed.
        let times = input.times(&full());
        assert!(times.is_empty() || times.len() == count, "{input:?}: {times:?}");
        assert!(keys.insert(input.key()), "a name of its own: {}", input.key());
    }
}

#[test]
fn a_road_guessed_both_ways_is_one_input_and_its_times_are_told() {
    let input = unsure(Owner::FillSite("Pond".to_string()), vec![Part::Out, Part::Back]);
    let mut draft = full();
    assert_eq!(input.redraw(&mut draft, |time| time.scaled(3.0), |value| value), 2);
    assert_eq!(input.times(&draft), vec![TimeTaken::Lognormal { mean: 12.0, cv: 0.2 }; 2]);
}

#[test]
fn what_is_drawn_stays_within_what_a_plan_may_state() {
    let road = unsure(Owner::FillSite("Pond".to_string()), vec![Part::Out]);
    let mut draft = full();
    // A road is never none: at least 0.01 min on the mean, with the spread it has.
    road.redraw(&mut draft, |time| time.scaled(1e-6), |value| value);
    assert_eq!(draft.fill_sites[0].out.time, TimeTaken::Lognormal { mean: 0.01, cv: 0.2 });
    road.redraw(&mut draft, |time| time.scaled(2.0), |value| value);
    assert_eq!(draft.fill_sites[0].out.time, TimeTaken::Lognormal { mean: 0.02, cv: 0.2 });
    road.redraw(&mut draft, |time| time.scaled(1e9), |value| value);
    assert_eq!(draft.fill_sites[0].out.time, TimeTaken::Lognormal { mean: 10_000.0, cv: 0.2 });
    let waste = unsure(Owner::Tankers { name: String::new(), listed: 0 }, vec![Part::Waste]);
    waste.redraw(&mut draft, TimeTaken::clone, |_| 7.0);
    assert!(draft.tankers[0].waste < 1.0 && draft.tankers[0].waste > 0.999_99);
    let transfer = unsure(Owner::DropTank(0), vec![Part::Transfer]);
    transfer.redraw(&mut draft, TimeTaken::clone, |_| -7.0);
    assert_eq!(draft.drop_tanks[0].transfer, 1e-6, "above 0 by a hair");
    let rate = unsure(Owner::Tankers { name: String::new(), listed: 0 }, vec![Part::DumpRate]);
    rate.redraw(&mut draft, TimeTaken::clone, |_| 1e9);
    assert_eq!(draft.tankers[0].dump_rate, 100_000.0);
}
