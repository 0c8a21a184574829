//! The lines first, until the pump first draws: what each tanker in the line takes, from the head on.

use crate::common::world::{World, fixed};

/// T1(`gal`) 0:00 nurses ) 500 gpm ) E(1000) 500 gpm, 1 intake; [3000] free, hooked up after `setup`
fn one_nurses(gal: f64, setup: f64) -> World {
    World::new().nursing().draft_setup(setup).tanker("T1", gal, 0.0)
}

/// The attack engine comes at 0:05 with water on at once, and drafts itself after 20:00 more.
fn engine_at_five() -> World {
    World::new().nursing().engine_comes(5.0, 0.0).draft_setup(20.0)
}

#[test]
fn o01_a_load_is_kept_for_the_lines_while_what_is_on_hand_will_not_last_to_the_hook_up() {
    // T1(2000) 0:00 nurses; T2(2200) 0:01, T3(2000) 0:02; hooked up 0:10
    // T2: the lines need 9 x 500 = 4,500 gal to the hook-up; T1 has 1,500 and the engine 1,000. It waits
    // on deck, though the drop tank is free, and nurses as T1 is empty: 4.4 min.
    // T3: 4,000 gal are needed; T1's 1,000, T2's 2,200 and the engine's 1,000 are enough: it passes T2 and
    // dumps.
    let world =
        one_nurses(2000.0, 10.0).tanker("T2", 2200.0, 1.0).tanker("T3", 2000.0, 2.0).watched(10.5);
    let told = world.told();
    assert_eq!(told.tanker("T2"), "T2 comes 0:01 | wait -0:04 | nurse -0:08:24 | out ...");
    assert!(told.tanker("T3").starts_with("T3 comes 0:02 | dump -0:04 | out -0:09 | "));

    // The engine's water counts above the reserve only: with 500 gal kept T3 is on deck too.
    let told = world.reserve(500.0).told();
    assert_eq!(told.tanker("T2"), "T2 comes 0:01 | wait -0:04 | nurse -0:08:24 | out ...");
    assert_eq!(told.tanker("T3"), "T3 comes 0:02 | wait -0:08:24 | nurse ...");
}

#[test]
fn o02_it_takes_a_free_intake_if_those_who_nurse_pump_off_less_than_the_lines_need() {
    // T1(2000) 0:00 nurses; T2(2000) 0:01; 2 intakes; hooked up 0:20; E 500 gpm
    let second = |pump_off| {
        let world = one_nurses(2000.0, 20.0)
            .intakes(2)
            .every_tanker(|tanker| tanker.pump_off = pump_off)
            .tanker("T2", 2000.0, 1.0)
            .watched(20.0);
        world.told().tanker("T2")
    };
    // T1 gives 499 gpm: T2 connects beside it.
    assert!(second(499.0).starts_with("T2 comes 0:01 | nurse "), "{}", second(499.0));
    // It gives 500: T2 waits until T1 is empty.
    assert!(second(500.0).starts_with("T2 comes 0:01 | wait -0:04 | nurse "), "{}", second(500.0));
}

#[test]
fn o03_what_the_lines_need_now_counts_when_they_need_more_an_intake_is_taken() {
    // T1(4000) 0:00 nurses 500 gpm; T2(4000) 0:01; 2 intakes; E(1000) 500 gpm, from 0:03 800; hooked up 0:10
    // T2 is on deck (2 x 500 + 7 x 800 = 6,600 gal needed, 4,500 on hand). At 0:03 T1 has 2,500 gal left,
    // 5 min; T2 gives 300 gpm beside it.
    let told = one_nurses(4000.0, 10.0)
        .attack_steps(&[(0.0, 500.0), (3.0, 800.0)])
        .intakes(2)
        .tanker("T2", 4000.0, 1.0)
        .watched(10.0)
        .told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | nurse -0:08 | out ...");
    assert_eq!(told.tanker("T2"), "T2 comes 0:01 | wait -0:03 | nurse ...");
    assert_eq!(told.engine_levels(&[3, 6, 8]), "0:03 1000 | 0:06 1000 | 0:08 1000");
}

#[test]
fn o04_before_first_water_one_intake_is_enough() {
    // T1(2000) 0:00 ) 300 gpm ) E(1000) there 0:00, water on 0:03, 500 gpm; T2(2000) 0:01; 2 intakes
    // Hooked up 0:15: 12 x 500 = 6,000 gal needed, 3,000 on hand. The lines take nothing yet, so T2
    // waits; from 0:03 they take 500 gpm, more than T1 gives.
    let told = World::new()
        .nursing()
        .engine_comes(0.0, 3.0)
        .draft_setup(15.0)
        .intakes(2)
        .tanker_with("T1", 2000.0, 0.0, |tanker| tanker.pump_off = 300.0)
        .tanker("T2", 2000.0, 1.0)
        .watched(12.5)
        .told();
    assert!(told.tanker("T2").starts_with("T2 comes 0:01 | wait -0:03 | nurse "));
}

#[test]
fn o05_with_enough_on_hand_the_next_dumps_in_the_first_tank_whatever_its_room() {
    // T1(6000) 0:00 nurses; hooked up 0:05; tank 1 [1000], tank 2 [5000]
    // T2(2000) 0:01: 5,500 + 1,000 gal are on hand for 4 min. Tank 1 lacks its restart level: T2 dumps
    // there, though tank 2 has room for its load.
    // T3(2000) 1.5 min: with T2's load tank 1 has its restart level; its position is taken, tank 2 it is.
    // The pump draws at 0:05 but T1 gives all the engine takes: T2 stands at tank 1, full since 1.83.
    let told = one_nurses(6000.0, 5.0)
        .first_tank(|tank| tank.capacity = 1000.0)
        .drop_tank(5000.0)
        .tanker("T2", 2000.0, 1.0)
        .tanker("T3", 2000.0, 1.5)
        .watched(6.0)
        .told();
    assert_eq!(told.tanker("T2"), "T2 comes 0:01 | dump in 1 ...");
    assert_eq!(told.tanker("T3"), "T3 comes 0:01:30 | dump in 2 -0:03:30 | out ...");
    assert_eq!(told.tank_levels(1, &[2, 6]), "0:02 1000 | 0:06 1000");
}

#[test]
fn o06_before_the_engine_is_there_tankers_dump_and_who_finds_no_room_is_passed() {
    // T1(2000) 0:01, T2(800) 1.5, T3(2000) 0:02, T4(150) 2.5 -> [3000]; E 500 gpm comes 0:05
    // T1 dumps 1-3, then T2, 3-3.8. 200 gal of room are left: T3 waits, T4 behind it dumps. At 0:05
    // T3 has the intake.
    let told = engine_at_five()
        .tanker("T1", 2000.0, 1.0)
        .tanker("T2", 800.0, 1.5)
        .tanker("T3", 2000.0, 2.0)
        .tanker("T4", 150.0, 2.5)
        .watched(5.0)
        .told();
    assert!(told.tanker("T1").starts_with("T1 comes 0:01 | dump -0:03 | out -0:08 | "));
    assert!(told.tanker("T2").starts_with("T2 comes 0:01:30 | wait -0:03 | dump -0:03:48 | out "));
    assert!(told.tanker("T3").starts_with("T3 comes 0:02 | wait -0:05 | nurse -0:09 | "));
    assert!(
        told.tanker("T4").starts_with("T4 comes 0:02:30 | wait -0:03:48 | dump -0:03:57 | out ")
    );
}

#[test]
fn o07_the_load_of_who_is_at_the_tank_takes_its_room() {
    // T1(2000) 0:01, T2(1500) 1.5, T3(900) 1.75 -> [3000] 2 positions; E comes 0:05
    // T2: 2,500 gal of room less T1's 1,500 are not enough. T3: 2,250 less 1,250 are.
    let told = engine_at_five()
        .first_tank(|tank| tank.dump_positions = 2)
        .tanker("T1", 2000.0, 1.0)
        .tanker("T2", 1500.0, 1.5)
        .tanker("T3", 900.0, 1.75)
        .watched(5.0)
        .told();
    assert!(told.tanker("T2").starts_with("T2 comes 0:01:30 | wait -0:05 | nurse -0:08 | "));
    assert!(told.tanker("T3").starts_with("T3 comes 0:01:45 | dump -0:02:39 | out "));
}

#[test]
fn o08_for_a_pump_that_waits_for_water_tankers_dump_before_any_nurses() {
    // T1, T2, T3(600) 0:01 -> [3000] 3 positions, restart level 1000, hooked up at once; E(1000) 500 gpm
    // T1 and T2 bring 600 and 1,200 gal: only T3 finds enough at the tank, and nurses. 2,000 gpm bring
    // 1,000 gal at 1.5.
    let told = World::new()
        .nursing()
        .restart_level(1000.0)
        .first_tank(|tank| tank.dump_positions = 3)
        .tanker("T1", 600.0, 1.0)
        .tanker("T2", 600.0, 1.0)
        .tanker("T3", 600.0, 1.0)
        .watched(3.0)
        .told();
    assert_eq!(told.pump(), "hooked up 0:00 | primed 0:01:30");
    assert_eq!(told.tanker("T1"), "T1 comes 0:01 | dump -0:01:36 | out ...");
    assert_eq!(told.tanker("T2"), "T2 comes 0:01 | dump -0:01:36 | out ...");
    assert_eq!(told.tanker("T3"), "T3 comes 0:01 | nurse -0:02:12 | out ...");
}

#[test]
fn o09_all_of_it_in_one_instant() {
    // T1(2000) 300 gpm, T2(1500), T3(1000), T4(1500), T5(800), T6(500) 0:00; E(1000) 500 gpm, 3 intakes,
    // hooked up 0:10: 5,000 gal needed; tank 1 [3000], tank 2 [3000]
    // T1 nurses. T2: 3,000 on hand, T1 gives less than 500 gpm: nurses too. T3: 4,500 on hand, 800 gpm
    // connected: on deck. T4: 5,500 on hand: dumps in tank 1. T5: tank 1 will have its restart level,
    // its position is taken: tank 2. T6 waits, for T5's position.
    // T1 gives 300 gpm, T2 200: T1 is empty at 6:40, T2 has 166.7 gal then and gives its 500 gpm, all
    // that the lines need: to 0:07. T3 nurses from there, 2 min.
    let told = World::new()
        .nursing()
        .intakes(3)
        .draft_setup(10.0)
        .drop_tank(3000.0)
        .tanker_with("T1", 2000.0, 0.0, |tanker| tanker.pump_off = 300.0)
        .tanker("T2", 1500.0, 0.0)
        .tanker("T3", 1000.0, 0.0)
        .tanker("T4", 1500.0, 0.0)
        .tanker("T5", 800.0, 0.0)
        .tanker("T6", 500.0, 0.0)
        .watched(10.5)
        .told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | nurse -0:06:40 | out ...");
    assert_eq!(told.tanker("T2"), "T2 comes 0:00 | nurse -0:07 | out ...");
    assert_eq!(told.tanker("T3"), "T3 comes 0:00 | wait -0:07 | nurse -0:09 | out ...");
    assert!(told.tanker("T4").starts_with("T4 comes 0:00 | dump in 1 -0:01:30 | out "));
    assert!(told.tanker("T5").starts_with("T5 comes 0:00 | dump in 2 -0:00:48 | out "));
    let expected = "T6 comes 0:00 | wait -0:00:48 | dump in 2 -0:01:18 | out ";
    assert!(told.tanker("T6").starts_with(expected));
}

#[test]
fn o10_a_load_is_dumped_the_moment_a_tank_takes_it_and_smaller_ones_go_before() {
    // E comes 0:05; T0(400) backs in at tank 1 [3000] for an hour; T1(2000) 0:00, T2(2500) 0:01, T3(100) 1.5
    // -> tank 2 [3000] => 500 gpm => tank 1
    // T0's load is enough for the restart level: T1 dumps in tank 2, and leaves 1,000 gal there at 0:02. T2
    // does not find room, T3 does: 1,050 gal at 2.1, and 500 at 3.2.
    let told = engine_at_five()
        .drop_tank(3000.0)
        .tanker_with("T0", 400.0, 0.0, |tanker| tanker.handling.dump_position = fixed(60.0))
        .tanker("T1", 2000.0, 0.0)
        .tanker("T2", 2500.0, 1.0)
        .tanker("T3", 100.0, 1.5)
        .watched(1.5)
        .told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | dump in 2 -0:02 | out ...");
    assert_eq!(told.tanker("T2"), "T2 comes 0:01 | wait -0:03:12 | dump in 2 -0:05:42 | out ...");
    assert_eq!(told.tanker("T3"), "T3 comes 0:01:30 | wait -0:02 | dump in 2 -0:02:06 | out ...");
}

#[test]
fn o11_just_the_restart_level_is_enough() {
    // T1(1000) 0:00 nurses ) 10 gpm ) E(1000), hooked up 0:30; T2(2000) 0:01, T3(2000) 0:02 -> [3000] 2 positions,
    // drawn from 2,000 gal on. The lines need 300 gal. T2's load makes up the restart level: T3 finds it there,
    // and no room for its whole load.
    let world = |restart| {
        one_nurses(1000.0, 30.0)
            .attack_flow(10.0)
            .restart_level(restart)
            .first_tank(|tank| tank.dump_positions = 2)
            .tanker("T2", 2000.0, 1.0)
            .tanker("T3", 2000.0, 2.0)
            .watched(5.0)
    };
    assert_eq!(world(2000.0).told().tanker("T3"), "T3 comes 0:02 | wait ...");
    // A gallon more is lacking: T3 dumps, whatever the room.
    assert_eq!(world(2001.0).told().tanker("T3"), "T3 comes 0:02 | dump ...");
}
