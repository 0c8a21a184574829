//! Turnout: units that do not come at all, and what that leaves undone.

use crate::common::telling::Telling;
use crate::common::world::{World, comes_at, fixed};
use shuttle_sim::{Brought, Cause, DraftLimitReason, DropTank, Luck, Shuttle, Subject};

/// In a drawn run with `never` in its turnout a unit surely stays away, whatever the seed.
const NEVER: f64 = 0.0;

fn drawn(world: &World) -> Telling {
    world.told_with(Luck::Drawn { seed: 2026, replication: 0 })
}

/// T1(2000) 0:05 brings [3000], never comes; T2(1000) 0:10; a second [2000] comes by itself, 0:02
fn brought_by_one_who_stays_away() -> World {
    World::new()
        .watched(20.0)
        .tanker_with("T1", 2000.0, 5.0, |tanker| tanker.call.turnout = NEVER)
        .tanker("T2", 1000.0, 10.0)
        .first_tank(|tank| tank.brought = Brought::ByTanker(0))
        .drop_tank_with(2000.0, |tank| tank.brought = Brought::Itself(comes_at(2.0)))
}

#[test]
fn v01_each_comes_with_its_chance_and_each_for_itself() {
    // T1 comes in three fires of four, T2 in every second.
    const RUNS: u64 = 4000;
    let world = World::new()
        .tanker_with("T1", 2000.0, 0.0, |tanker| tanker.call.turnout = 0.75)
        .tanker_with("T2", 2000.0, 0.0, |tanker| tanker.call.turnout = 0.5)
        .watched(10.0);
    let mut shuttle = Shuttle::new(&world.plan());
    let mut counts = [0.0; 3];
    for replication in 0..RUNS {
        let run = shuttle.run(Luck::Drawn { seed: 2026, replication });
        let came = [0, 1].map(|tanker: usize| run.tankers[tanker].delivered > 0.0);
        let all = [came[0], came[1], came[0] && came[1]];
        for (count, came) in counts.iter_mut().zip(all) {
            *count += f64::from(u8::from(came));
        }
    }
    let n = RUNS as f64;
    for (count, chance) in counts.into_iter().zip([0.75, 0.5, 0.75 * 0.5_f64]) {
        let error = (chance * (1.0 - chance) / n).sqrt();
        assert!((count / n - chance).abs() < 4.0 * error, "{} for {chance}", count / n);
    }
}

#[test]
fn v02_one_who_stays_away_is_never_there_nor_what_it_brings() {
    let told = drawn(&brought_by_one_who_stays_away());
    assert_eq!(told.result.tankers[0].trips, 0);
    assert_eq!(told.result.tankers[0].delivered, 0.0);
    let expected = "attack engine 0:00 | first water 0:00 | drop tank 2 there 0:02 \
                    | drop tank 2 ready 0:02 | T1 missed 0:05";
    assert_eq!(told.arrivals(), expected);
}

#[test]
fn v03_the_draft_stands_in_the_first_drop_tank_in_order_that_comes() {
    // Until 0:05, when T1 should have come, its drop tank is expected: only then the pump is hooked up in
    // the second. T2 dumps there from 0:10; 300 gal are in at 0:10:18.
    let told = drawn(&brought_by_one_who_stays_away());
    // From then on 1,000 gpm go in and out until 0:11, and the 300 gal last 18 seconds more.
    assert_eq!(told.pump(), "hooked up 0:05 | primed 0:10:18 | prime lost 0:11:18");
    assert_eq!(
        told.tanker("T2"),
        "T2 comes 0:10 | dump in 2 -0:11 | out -0:16 | fill -0:17 | back ..."
    );
}

#[test]
fn v04_a_restart_level_that_tank_cannot_offer_gives_way_to_its_own_default() {
    // Stated for [3000]: 2,500. The second holds 2,000: 300 gal. Where both can, it stands.
    let told = drawn(&brought_by_one_who_stays_away().restart_level(2500.0));
    assert_eq!(told.established(), "0:10:18");
    let told = drawn(&brought_by_one_who_stays_away().restart_level(500.0));
    assert_eq!(told.established(), "0:10:30");
}

#[test]
fn v05_a_drop_tank_with_its_own_vehicle_may_stay_away_too() {
    // [3000] should come at 0:03; the second is ready since 0:00.
    let away = |tank: &mut DropTank| {
        let mut call = comes_at(3.0);
        call.turnout = NEVER;
        tank.brought = Brought::Itself(call);
    };
    let late = World::new().first_tank(away).tanker("T1", 2000.0, 30.0).watched(9.0);
    let told = drawn(&late.clone().drop_tank(2000.0));
    let expected = "attack engine 0:00 | first water 0:00 | drop tank 2 there 0:00 \
                    | drop tank 2 ready 0:00 | drop tank 1 missed 0:03";
    assert_eq!(told.arrivals(), expected);
    assert_eq!(told.pump(), "hooked up 0:03");
    // With no other there is none at all.
    assert_eq!(drawn(&late).pump(), "none");
}

/// T1(3000) 0:00 -> [3000] => supply engine 0:06, never comes, hook-up 2:00 => E(1000) 500 gpm
fn supply_engine_stays_away() -> World {
    World::new().tanker("T1", 3000.0, 0.0).supply_engine(6.0, 2.0).watched(12.0).with(|draft| {
        draft.supply.engine.as_mut().unwrap().call.turnout = NEVER;
    })
}

#[test]
fn v06_without_the_supply_engine_the_attack_engine_drafts_itself() {
    // Known at 0:06, hooked up 2:00 later; 3,000 gal are in by then.
    let told = drawn(&supply_engine_stays_away());
    assert_eq!(told.pump(), "hooked up 0:08 | primed 0:08");
    // Also if it comes later than that: at 0:07.
    let told = drawn(&supply_engine_stays_away().engine_comes(7.0, 0.0).watched(3.0));
    assert_eq!(told.pump(), "hooked up 0:09 | primed 0:09");
}

#[test]
fn v07_but_not_where_a_lay_lies_between() {
    let lay = supply_engine_stays_away().limited_by(DraftLimitReason::Lay, 900.0);
    assert_eq!(drawn(&lay).pump(), "none");
    let dry = supply_engine_stays_away().draft_limit(900.0).dry_lay(100.0);
    assert_eq!(drawn(&dry).pump(), "none");
}

#[test]
fn v08_what_the_supply_engine_brings_stays_away_with_it() {
    let world =
        supply_engine_stays_away().first_tank(|tank| tank.brought = Brought::BySupplyEngine);
    assert_eq!(
        drawn(&world).arrivals(),
        "attack engine 0:00 | first water 0:00 | supply engine missed 0:06"
    );
    assert_eq!(drawn(&world).tanker("T1"), "T1 comes 0:00 | wait ...");
}

#[test]
fn v09_the_boss_plans_as_if_all_came_until_they_are_overdue_by_the_plan() {
    // As p01: T1(2000) 0:00 nurses ) E(1000) 500 gpm, T2(2000) 0:01, enough until 0:06. Supply engine at 3.9
    // or 4.1, hook-up 2:00: T2 dumps, or is kept for the lines, though in fact nobody comes.
    let second = |comes| {
        let world = World::new()
            .nursing()
            .tanker("T1", 2000.0, 0.0)
            .tanker("T2", 2000.0, 1.0)
            .supply_engine(comes, 2.0)
            .with(|draft| draft.supply.engine.as_mut().unwrap().call.turnout = NEVER)
            .watched(7.0);
        drawn(&world).tanker("T2")
    };
    assert_eq!(second(3.9), "T2 comes 0:01 | dump -0:03 | out ...");
    assert_eq!(second(4.1), "T2 comes 0:01 | wait -0:04 | nurse ...");
}

#[test]
fn v10_from_then_on_it_plans_without_them() {
    // Supply engine expected 0:03, hook-up 2:00, [3000] at 3:30. T1(2000) 0:00 nurses until 0:04 and fills from 0:09 to
    // 0:11. When T2(2000) comes at 0:02, the pump should be up at 5:30: 1,750 gal are needed, 1,000 + 1,000 on hand, and
    // T2 would dump if it could. At 0:03 the supply engine is missed. The attack engine drafts itself, by 5:30 as
    // well: 1,250 gal of 500 + 1,000, and T2 dumps at 3:30. With a lay between nobody drafts any more: 4,500 gal are
    // needed to the end of the watch, and T2 is kept and nurses when T1 is empty.
    let world = World::new()
        .nursing()
        .tanker("T1", 2000.0, 0.0)
        .tanker("T2", 2000.0, 2.0)
        .supply_engine(3.0, 2.0)
        .with(|draft| draft.supply.engine.as_mut().unwrap().call.turnout = NEVER)
        .first_tank(|tank| tank.brought = Brought::Itself(comes_at(3.5)))
        .watched(12.0);
    assert_eq!(
        drawn(&world).tanker("T2"),
        "T2 comes 0:02 | wait -0:03:30 | dump -0:05:30 | out -0:10:30 | wait to fill -0:11 | fill ..."
    );
    let lay = world.limited_by(DraftLimitReason::Lay, 900.0);
    assert_eq!(drawn(&lay).tanker("T2"), "T2 comes 0:02 | wait -0:04 | nurse -0:08 | out ...");
}

#[test]
fn v11_who_never_comes_is_still_to_come() {
    // E(1000) 100 gpm, no refill: empty at 0:10. T1 expected at 0:04, T2 at 0:03, supply engine 0:09: all have been
    // missed by then, and T2 should have been the first.
    let stays = |tanker: &mut shuttle_sim::Tanker| tanker.call.turnout = NEVER;
    let told = drawn(
        &World::new()
            .tank_refill(0.0)
            .tanker_with("T1", 2000.0, 4.0, stays)
            .tanker_with("T2", 2000.0, 3.0, stays)
            .supply_engine(9.0, 1.0)
            .attack_flow(100.0)
            .with(|draft| draft.supply.engine.as_mut().unwrap().call.turnout = NEVER)
            .watched(30.0),
    );
    assert_eq!(told.interruptions(), "0:10-0:30 not_come, before supply");
    let first = told.result.interruptions[0];
    assert_eq!((first.cause, first.about), (Cause::NotCome, Some(Subject::Tanker(1))));
}

#[test]
fn v12_as_planned_everybody_comes() {
    let stated = brought_by_one_who_stays_away().told();
    let plain =
        brought_by_one_who_stays_away().every_tanker(|tanker| tanker.call.turnout = 1.0).told();
    assert_eq!(stated.trace, plain.trace);
}

#[test]
fn v13_requested_late_it_is_missed_that_much_later() {
    let world = supply_engine_stays_away().with(|draft| {
        draft.supply.engine.as_mut().unwrap().call.requested_at = 1.5;
        draft.supply.setup = fixed(0.0);
    });
    assert_eq!(drawn(&world).pump(), "hooked up 0:09:30 | primed 0:09:30");
}

#[test]
fn v14_a_department_that_comes_whole_sends_all_or_none() {
    // T1 and T2 of Creek come in every second fire, T3 of nobody in every second.
    const RUNS: u64 = 2000;
    let of_creek = |tanker: &mut shuttle_sim::Tanker, turnout| {
        tanker.call.turnout = turnout;
        tanker.comes_with = Some("Creek".to_owned());
    };
    let world = World::new()
        .tanker_with("T1", 2000.0, 0.0, |tanker| of_creek(tanker, 0.5))
        .tanker_with("T2", 2000.0, 0.0, |tanker| of_creek(tanker, 0.5))
        .tanker_with("T3", 2000.0, 0.0, |tanker| tanker.call.turnout = 0.5)
        .watched(20.0);
    let mut shuttle = Shuttle::new(&world.plan());
    let (mut both, mut all) = (0.0, 0.0);
    for replication in 0..RUNS {
        let run = shuttle.run(Luck::Drawn { seed: 2026, replication });
        let came = [0, 1, 2].map(|tanker: usize| run.tankers[tanker].delivered > 0.0);
        assert_eq!(came[0], came[1], "fire {replication}");
        both += f64::from(u8::from(came[0]));
        all += f64::from(u8::from(came[0] && came[2]));
    }
    // T3 by its own luck. Binomial, 4 standard errors.
    for (count, chance) in [(both, 0.5), (all, 0.25)] {
        let off = (count / RUNS as f64 - chance) / (chance * (1.0 - chance) / RUNS as f64).sqrt();
        assert!(off.abs() < 4.0, "{count} of {RUNS}, {chance} is due");
    }
}
