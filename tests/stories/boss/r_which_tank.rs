//! Which drop tank the head of the line takes: the first that takes its whole load, else the first.

use crate::common::world::{World, fixed, road};
use shuttle_sim::{Brought, DumpCurve};

/// Nothing is drafted in these hours, nobody nurses and tankers do not come back.
fn undrafted() -> World {
    World::new().supply_engine(5000.0, 0.0).pond(|site| site.out = road(300.0))
}

/// T1(3000) 0:00 -> tank 1 [3000] => E(10000) 500 gpm, no refill; tank 2 [3000]; tankers do not come back
///
/// Drawn from 0.3 min: 1,650 gal in tank 1 at 0:03, when T1 is empty, and 1,400 at 3.5.
fn drafted() -> World {
    World::new()
        .engine_tank(10_000.0)
        .tank_refill(0.0)
        .drop_tank(3000.0)
        .tanker("T1", 3000.0, 0.0)
        .pond(|site| site.out = road(300.0))
        .watched(6.0)
}

#[test]
fn r01_the_first_with_a_free_position_that_takes_the_whole_load() {
    // T1(2000) 0:00, T2(2000) 0:01, T3(900) 0:03, T4(950) 0:04 -> [3000] [3000/2900], nothing drawn
    // T1: tank 1. T2: its only position is taken, tank 2. T3: tank 1 is free and has 1,000 gal of
    // room. T4: 100 gal of room in tank 1, 1,000 in tank 2.
    let told = undrafted()
        .drop_tank_with(3000.0, |tank| tank.unusable = 2900.0)
        .tanker("T1", 2000.0, 0.0)
        .tanker("T2", 2000.0, 1.0)
        .tanker("T3", 900.0, 3.0)
        .tanker("T4", 950.0, 4.0)
        .watched(10.0)
        .told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | dump in 1 -0:02 | out ...");
    assert_eq!(told.tanker("T2"), "T2 comes 0:01 | dump in 2 -0:03 | out ...");
    assert_eq!(told.tanker("T3"), "T3 comes 0:03 | dump in 1 -0:03:54 | out ...");
    assert_eq!(told.tanker("T4"), "T4 comes 0:04 | dump in 2 -0:04:57 | out ...");
}

#[test]
fn r02_a_tank_smaller_than_a_load_is_used_when_nobody_is_at_it_and_it_is_down_to_its_unusable() {
    // T1(2000) 0:00, T2(2000) 0:01, T3(2000) 0:02 -> [1000] [1000], nothing drawn, next to no transfer
    // T1: tank 1 does not take 2,000 gal, tank 2 counts for it is empty. T2: T1 stands there; nobody is at
    // tank 1. T3 waits.
    let told = undrafted()
        .first_tank(|tank| tank.capacity = 1000.0)
        .drop_tank_with(1000.0, |tank| tank.transfer = 0.001)
        .tanker("T1", 2000.0, 0.0)
        .tanker("T2", 2000.0, 1.0)
        .tanker("T3", 2000.0, 2.0)
        .watched(6.0)
        .told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | dump in 2 ...");
    assert_eq!(told.tanker("T2"), "T2 comes 0:01 | dump in 1 ...");
    assert_eq!(told.tanker("T3"), "T3 comes 0:02 | wait ...");
}

#[test]
fn r03_but_not_with_more_in_it_than_its_unusable() {
    // T1(1000) 0:00, T2(500) 0:01, T3(2000) 0:02 -> [1000] [1000], nothing drawn
    // T1 fills tank 1; T2 brings 500 gal to tank 2. T3 finds them there, and nobody at tank 1.
    let third = |unusable: f64| {
        undrafted()
            .first_tank(|tank| tank.capacity = 1000.0)
            .drop_tank_with(1000.0, |tank| tank.unusable = unusable)
            .tanker("T1", 1000.0, 0.0)
            .tanker("T2", 500.0, 1.0)
            .tanker("T3", 2000.0, 2.0)
            .watched(6.0)
            .told()
            .tanker("T3")
    };
    assert_eq!(third(450.0), "T3 comes 0:02 | dump in 1 ...");
    assert_eq!(third(550.0), "T3 comes 0:02 | dump in 2 ...");
}

#[test]
fn r04_room_is_less_the_rest_of_those_at_the_tank() {
    // T1(2000) 0:00, T2(2000) 0:01 -> [3000] 2 positions [5000/4900], nothing drawn
    // At 0:01 tank 1 has 2,000 gal of room, of which T1's other 1,000 take half: tank 2.
    let told = undrafted()
        .first_tank(|tank| tank.dump_positions = 2)
        .drop_tank_with(5000.0, |tank| tank.unusable = 4900.0)
        .tanker("T1", 2000.0, 0.0)
        .tanker("T2", 2000.0, 1.0)
        .watched(5.0)
        .told();
    assert_eq!(told.tanker("T2"), "T2 comes 0:01 | dump in 2 -0:03 | out ...");
}

#[test]
fn r05_one_that_backs_in_is_at_the_tank_too() {
    // As r04, but T1 backs in until 0:10: all of its 2,000 gal count.
    let world = |tank: f64| {
        undrafted()
            .first_tank(|first| (first.dump_positions, first.capacity) = (2, tank))
            .drop_tank_with(5000.0, |second| second.unusable = 4900.0)
            .tanker_with("T1", 2000.0, 0.0, |tanker| tanker.handling.dump_position = fixed(10.0))
            .tanker("T2", 2000.0, 1.0)
            .watched(5.0)
            .told()
            .tanker("T2")
    };
    assert_eq!(world(3900.0), "T2 comes 0:01 | dump in 2 -0:03 | out ...");
    assert_eq!(world(4100.0), "T2 comes 0:01 | dump in 1 -0:03 | out ...");
}

#[test]
fn r06_while_the_pump_draws_what_it_takes_during_the_dump_counts_as_room() {
    // T2(2000) 3.5 min finds 1,600 gal of room in tank 1
    let second = |dump_rate: f64| {
        let world = drafted().tanker_with("T2", 2000.0, 3.5, |tanker| tanker.dump_rate = dump_rate);
        world.told().tanker("T2")
    };
    // At 1,000 gpm 500 x 2 gal more are drawn.
    assert_eq!(second(1000.0), "T2 comes 0:03:30 | dump in 1 -0:05:30 | out ...");
    // At 4,000 gpm 250: not enough.
    assert_eq!(second(4000.0), "T2 comes 0:03:30 | dump in 2 -0:04 | out ...");
}

#[test]
fn r07_no_more_than_the_draft_limit() {
    // At most 300 gpm are drawn: 300 + 2.7 x 700 = 2,190 gal at 0:03, 2,040 at 3.5
    // T2(1200): 960 gal of room, 300 x 1.2 = 360 drawn. T2(1400): 420, and 1,380 are not enough.
    let second = |gal| drafted().draft_limit(300.0).tanker("T2", gal, 3.5).told().tanker("T2");
    assert_eq!(second(1200.0), "T2 comes 0:03:30 | dump in 1 -0:04:42 | out ...");
    assert_eq!(second(1400.0), "T2 comes 0:03:30 | dump in 2 -0:04:54 | out ...");
}

#[test]
fn r08_nor_than_the_attack_flow_now() {
    // E 500 gpm, from 0:02 200: 1,150 gal at 0:02, 1,950 at 0:03, 1,850 at 3.5
    // T2(1400): 1,150 gal of room, 200 x 1.4 = 280 drawn. T2(1500): 300, and 1,450 are not enough.
    let second = |gal| {
        let world = drafted().attack_steps(&[(0.0, 500.0), (2.0, 200.0)]);
        world.tanker("T2", gal, 3.5).told().tanker("T2")
    };
    assert_eq!(second(1400.0), "T2 comes 0:03:30 | dump in 1 -0:04:54 | out ...");
    assert_eq!(second(1500.0), "T2 comes 0:03:30 | dump in 2 -0:05 | out ...");
}

#[test]
fn r09_else_the_first_tank_as_soon_as_nobody_is_at_it_and_who_clears_is_not() {
    // T1(2000) 0:00, T2(2000) 1.5 -> [3000] 2 positions, nothing drawn; clear 5:00
    // At 1.5 there are 1,500 gal of room less T1's 500: T2 waits. T1 begins to clear at 0:02.
    let told = undrafted()
        .first_tank(|tank| tank.dump_positions = 2)
        .tanker("T1", 2000.0, 0.0)
        .tanker("T2", 2000.0, 1.5)
        .handling(|handling| handling.dump_clear = fixed(5.0))
        .watched(6.0)
        .told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | dump -0:02 | clear ...");
    assert_eq!(told.tanker("T2"), "T2 comes 0:01:30 | wait -0:02 | dump ...");
    assert_eq!(told.tank_levels(1, &[2, 3, 6]), "0:02 2000 | 0:03 3000 | 0:06 3000");
}

#[test]
fn r10_it_needs_a_free_position_all_the_same() {
    // As r09 with 1 position: T2 waits for T1 to be clear at 0:07.
    let told = undrafted()
        .tanker("T1", 2000.0, 0.0)
        .tanker("T2", 2000.0, 1.5)
        .handling(|handling| handling.dump_clear = fixed(5.0))
        .watched(7.5)
        .told();
    assert_eq!(told.tanker("T2"), "T2 comes 0:01:30 | wait -0:07 | dump ...");
}

#[test]
fn r11_else_it_waits_and_those_behind_with_it() {
    // T1(2000) 0:00, T2(2500) 0:00:30, T3(500) 0:01 -> [3000] 2 positions, nothing drawn
    // T2 finds 2,500 gal of room less T1's 1,500. T3's 500 gal would fit, but T2 is before it. At 0:02 T2
    // takes the tank with 1,000 gal of room, and fills it.
    let told = undrafted()
        .first_tank(|tank| tank.dump_positions = 2)
        .tanker("T1", 2000.0, 0.0)
        .tanker("T2", 2500.0, 0.5)
        .tanker("T3", 500.0, 1.0)
        .watched(6.0)
        .told();
    assert_eq!(told.tanker("T2"), "T2 comes 0:00:30 | wait -0:02 | dump ...");
    assert_eq!(told.tanker("T3"), "T3 comes 0:01 | wait ...");
}

#[test]
fn r12_a_load_is_dumped_the_moment_the_draft_has_made_room_for_it() {
    // T0(400) backs in for an hour; T1(2500) 0:00, T2(2500) 0:01 -> [3000] 3 positions => E(10000) 500 gpm,
    // no refill
    // T2 finds 3,000 less 650 in the tank, T0's 400 and T1's 1,500; 1,250 are drawn while it dumps: 1,700. As
    // T1 is empty at 2.5 there are 1,400 gal: 3,000 - 1,400 - 400 + 1,250 = 2,450. The other 50 are drawn by 2.6.
    let told = World::new()
        .engine_tank(10_000.0)
        .tank_refill(0.0)
        .first_tank(|tank| tank.dump_positions = 3)
        .tanker_with("T0", 400.0, 0.0, |tanker| tanker.handling.dump_position = fixed(60.0))
        .tanker("T1", 2500.0, 0.0)
        .tanker("T2", 2500.0, 1.0)
        .watched(6.0)
        .told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | dump -0:02:30 | out ...");
    assert_eq!(told.tanker("T2"), "T2 comes 0:01 | wait -0:02:36 | dump -0:05:06 | out ...");
}

#[test]
fn r13_or_the_transfer() {
    // T0(100) backs in at tank 1 [3000] for an hour; T1(2000) 0:00, T2(2500) 0:01 -> tank 2 [3000] => 500 gpm
    // => tank 1, nothing drawn
    // T1 leaves 1,000 gal in tank 2 at 0:02; 500 at 0:03.
    let told = undrafted()
        .drop_tank(3000.0)
        .tanker_with("T0", 100.0, 0.0, |tanker| tanker.handling.dump_position = fixed(60.0))
        .tanker("T1", 2000.0, 0.0)
        .tanker("T2", 2500.0, 1.0)
        .watched(6.0)
        .told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | dump in 2 -0:02 | out ...");
    assert_eq!(told.tanker("T2"), "T2 comes 0:01 | wait -0:03 | dump in 2 -0:05:30 | out ...");
}

#[test]
fn r14_with_nursing_this_holds_from_the_first_draw_on() {
    // Hooked up at once; T1(2500) 0:01, T2(2600) 1.2, T3(3000) 0:02, T4(100) 2.1 -> [3000] 2 positions
    // => E(1000) 500 gpm, 1 intake
    // T1 dumps, and the pump draws from 1.3; T2 has the intake before that. At 0:02 there are 650 gal: 2,350
    // of room less T1's 1,500, and 1,500 drawn while T3 dumps: 2,350. From 2.5 the engine is full and T2 gives
    // all it takes: then 2,600. T3 waits, and T4 may not pass.
    let told = World::new()
        .nursing()
        .first_tank(|tank| tank.dump_positions = 2)
        .tanker("T1", 2500.0, 1.0)
        .tanker("T2", 2600.0, 1.2)
        .tanker("T3", 3000.0, 2.0)
        .tanker("T4", 100.0, 2.1)
        .watched(3.4)
        .told();
    assert_eq!(told.pump(), "hooked up 0:00 | primed 0:01:18");
    assert_eq!(told.tanker("T2"), "T2 comes 0:01:12 | nurse ...");
    assert_eq!(told.tanker("T3"), "T3 comes 0:02 | wait ...");
    assert_eq!(told.tanker("T4"), "T4 comes 0:02:06 | wait ...");
}

#[test]
fn r15_a_tank_that_is_not_ready_has_no_position() {
    // T1(2000) 0:00 -> tank 1 [3000] comes with T2(2000) 0:06, set up by 0:08; tank 2 [1500] ready
    // Tank 2 is smaller than T1's load but empty. T2 finds nobody at tank 1 when it is ready.
    let told = undrafted()
        .first_tank(|tank| (tank.brought, tank.setup) = (Brought::ByTanker(1), fixed(2.0)))
        .drop_tank(1500.0)
        .tanker("T1", 2000.0, 0.0)
        .tanker("T2", 2000.0, 6.0)
        .watched(11.0)
        .told();
    // Tank 2 is full at 1.5; T1's other 500 gal follow the 500 gpm of transfer from 0:08.
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | dump in 2 -0:09 | out ...");
    assert_eq!(told.tanker("T2"), "T2 comes 0:06 | wait -0:08 | dump in 1 -0:10 | out ...");
}

#[test]
fn r16_the_moment_is_found_while_flows_change_too() {
    // T8(3000) fills tank 1 [3000] at the alarm, T9(2000) tank 2 [2000] at 0:01; from 0:10 on the lines want 500 gpm.
    // T1(2000) comes at 0:10 and dumps into the full tank 1 by gravity, 400 gpm falling by 40 a minute: gone in 10 min,
    // 90% of it at 180 / (1 - sqrt 0.1) on average. Tank 2 passes on what is missing: 100 gpm rising by 40 a minute, so
    // 100 t + 20 t^2 gal. T2(1000), there at 0:10:30, has room in it when that is 1,000: at t = 5, at 0:15.
    let world = World::new()
        .attack_steps(&[(0.0, 0.0), (10.0, 500.0)])
        .drop_tank(2000.0)
        .pond(|site| (site.out, site.back) = (road(100.0), road(100.0)))
        .tanker_with("T8", 3000.0, 0.0, |tanker| tanker.dump_rate = 60_000.0)
        .tanker_with("T9", 2000.0, 1.0, |tanker| tanker.dump_rate = 60_000.0)
        .tanker_with("T1", 2000.0, 10.0, |tanker| {
            tanker.dump_curve = DumpCurve::Gravity;
            tanker.dump_rate = 180.0 / (1.0 - 0.1_f64.sqrt());
        })
        .tanker("T2", 1000.0, 10.5)
        .watched(18.0);
    let expected = "T2 comes 0:10:30 | wait -0:15 | dump in 2 -0:16 | out ...";
    assert_eq!(world.told().tanker("T2"), expected);
    // Whatever else happens meanwhile: the Lake is ready at 0:12.
    let told = world.fill_site_with("Lake", 200.0, 200.0, |site| site.ready = fixed(12.0)).told();
    assert_eq!(told.tanker("T2"), expected.replace("out", "out Pond"));
}
