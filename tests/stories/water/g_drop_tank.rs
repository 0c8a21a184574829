//! When drop tanks are ready, when the draft is hooked up, and what it draws.

use crate::common::world::{World, comes_at, fixed};
use shuttle_sim::{Brought, Call, DraftLimitReason, Plan, PlanPart, Step};

#[test]
fn g01_a_drop_tank_comes_with_its_tanker_and_is_set_up() {
    // T1(2000) 0:05 brings [3000], setup 3:00 => E 100 gpm        T2(2000) 0:02
    // Ready 5 + 3 = 0:08. T2 came first and dumps first.
    let told = World::new()
        .attack_flow(100.0)
        .tanker("T1", 2000.0, 5.0)
        .tanker("T2", 2000.0, 2.0)
        .first_tank(|tank| {
            tank.brought = Brought::ByTanker(0);
            tank.setup = fixed(3.0);
        })
        .watched(13.0)
        .told();
    assert_eq!(
        told.arrivals(),
        "attack engine 0:00 | first water 0:00 | drop tank 1 there 0:05 | drop tank 1 ready 0:08"
    );
    assert_eq!(told.tanker("T2"), "T2 comes 0:02 | wait -0:08 | dump -0:10 | out ...");
    assert_eq!(told.tanker("T1"), "T1 comes 0:05 | wait -0:10 | dump -0:12 | out ...");
}

#[test]
fn g02_or_with_an_engine_or_by_itself() {
    // E 0:04 brings tank 1, setup 2; supply engine 0:07 brings tank 2, setup 1; tank 3 is asked for at
    // 0:02, response 7, setup 3.
    let told = World::new()
        .engine_comes(4.0, 1.0)
        .supply_engine(7.0, 0.0)
        .first_tank(|tank| {
            tank.brought = Brought::ByAttackEngine;
            tank.setup = fixed(2.0);
        })
        .drop_tank_with(3000.0, |tank| {
            tank.brought = Brought::BySupplyEngine;
            tank.setup = fixed(1.0);
        })
        .drop_tank_with(3000.0, |tank| {
            tank.brought = Brought::Itself(Call::sure(2.0, fixed(7.0)));
            tank.setup = fixed(3.0);
        })
        .tanker("T1", 2000.0, 30.0)
        .watched(10.0)
        .told();
    assert_eq!(
        told.arrivals(),
        "attack engine 0:04 | drop tank 1 there 0:04 | first water 0:05 | drop tank 1 ready 0:06 \
         | supply engine 0:07 | drop tank 2 there 0:07 | drop tank 2 ready 0:08 \
         | drop tank 3 there 0:09 | drop tank 3 ready 0:12"
    );
}

#[test]
fn g03_the_supply_engine_hooks_up_once_it_and_the_first_drop_tank_are_there() {
    // Supply engine, setup 4:00; [3000]
    let hooked_up = |engine, tank| {
        World::new()
            .supply_engine(engine, 4.0)
            .first_tank(|first| first.brought = Brought::Itself(comes_at(tank)))
            .tanker("T1", 2000.0, 30.0)
            .watched(20.0)
            .told()
            .pump()
    };
    // Engine at 0:06, drop tank at 0:03; and engine at 0:02, drop tank at 0:05.
    assert_eq!(hooked_up(6.0, 3.0), "hooked up 0:10");
    assert_eq!(hooked_up(2.0, 5.0), "hooked up 0:09");
}

#[test]
fn g04_without_a_supply_engine_the_attack_engine_drafts_itself() {
    // E, draft setup 3:00; [3000]
    let hooked_up = |engine, tank| {
        World::new()
            .engine_comes(engine, 0.0)
            .draft_setup(3.0)
            .first_tank(|first| first.brought = Brought::Itself(comes_at(tank)))
            .tanker("T1", 2000.0, 30.0)
            .watched(20.0)
            .told()
            .pump()
    };
    // Engine at 0:04, drop tank at 0:02; and the drop tank at 0:06.
    assert_eq!(hooked_up(4.0, 2.0), "hooked up 0:07");
    assert_eq!(hooked_up(4.0, 6.0), "hooked up 0:09");
}

#[test]
fn g05_the_pump_draws_from_the_restart_level_on() {
    // T1(2000) 0:00, 1000 gpm -> [3000/200] => E 500 gpm
    let world = |capacity| {
        World::new()
            .first_tank(|tank| (tank.capacity, tank.unusable) = (capacity, 200.0))
            .tanker("T1", 2000.0, 0.0)
            .watched(1.0)
    };
    // By default 300 gal above unusable: 500 gal.
    assert_eq!(world(3000.0).told().pump(), "hooked up 0:00 | primed 0:00:30");
    // Never above the capacity: 400 gal.
    assert_eq!(world(400.0).told().pump(), "hooked up 0:00 | primed 0:00:24");
    // As stated: 600 gal.
    let stated = world(3000.0).restart_level(600.0);
    assert_eq!(stated.told().pump(), "hooked up 0:00 | primed 0:00:36");
}

#[test]
fn g06_water_that_is_there_at_hook_up_is_drawn_at_once() {
    // T1(2000) 0:00 -> [3000] => hooked up 0:05, E 100 gpm
    let told = World::new()
        .attack_flow(100.0)
        .draft_setup(5.0)
        .tanker("T1", 2000.0, 0.0)
        .watched(8.0)
        .told();
    assert_eq!(told.pump(), "hooked up 0:05 | primed 0:05");
    // The engine has 500 gal and takes 600 gpm: full at 0:06.
    assert_eq!(told.tank_levels(1, &[2, 5, 6, 7]), "0:02 2000 | 0:05 2000 | 0:06 1400 | 0:07 1300");
}

#[test]
fn g07_the_least_of_the_limits_holds() {
    // T1(3000) 0:02 -> [3000] => at most 1000, pump at its lift 400, lay 700 => E(1000) 300 gpm
    // Drawn from 2.3 min, when the engine has 310 gal; it would take 800 and gets 400.
    let told = World::new()
        .attack_flow(300.0)
        .draft_limit(1000.0)
        .limited_by(DraftLimitReason::PumpAtLift, 400.0)
        .limited_by(DraftLimitReason::Lay, 700.0)
        .tanker("T1", 3000.0, 2.0)
        .watched(5.0)
        .told();
    assert_eq!(told.engine_levels(&[2, 3, 4]), "0:02 400 | 0:03 380 | 0:04 480");
    assert_eq!(told.tank_levels(1, &[3, 4]), "0:03 720 | 0:04 1320");
}

#[test]
fn g08_it_is_the_first_drop_tank_that_counts_for_the_draft() {
    // T1(2000) 0:01 -> tank 2 [3000], ready 0:00; tank 1 [3000] ready 0:10 => E 50 gpm
    // T1 fills tank 2, but the pump hooks up at tank 1. From 0:10 tank 2 passes 500 gpm: 300 gal
    // in tank 1 at 10.6.
    let told = World::new()
        .attack_flow(50.0)
        .first_tank(|tank| tank.brought = Brought::Itself(comes_at(10.0)))
        .drop_tank(3000.0)
        .tanker("T1", 2000.0, 1.0)
        .watched(12.0)
        .told();
    assert_eq!(
        told.tanker("T1"),
        "T1 comes 0:01 | dump in 2 -0:03 | out -0:08 | fill -0:10 | back ..."
    );
    assert_eq!(told.pump(), "hooked up 0:10 | primed 0:10:36");
}

#[test]
fn g09_a_restart_level_the_pump_can_never_use_is_an_error() {
    // [3000/200]: at or below unusable there is nothing to draw.
    let places = |level| {
        let world = World::new()
            .first_tank(|tank| tank.unusable = 200.0)
            .tanker("T1", 2000.0, 0.0)
            .restart_level(level);
        match Plan::check(world.draft().clone()) {
            Ok(_) => vec![],
            Err(mistakes) => mistakes.into_iter().map(|mistake| mistake.place.0).collect(),
        }
    };
    let restart_level = vec![Step::Part(PlanPart::Supply), Step::Part(PlanPart::RestartLevel)];
    for level in [199.0, 200.0] {
        assert_eq!(places(level), std::slice::from_ref(&restart_level));
    }
    assert!(places(201.0).is_empty());
}
