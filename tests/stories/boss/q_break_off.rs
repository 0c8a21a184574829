//! Breaking off: a tanker that stands at a full drop tank gives up its position and nurses.

use crate::common::assert_close;
use crate::common::world::{World, fixed};

/// T0(1500) 0:00 nurses ) E(1000) 100 gpm, 1 intake; [2000], hooked up 0:20
///
/// T0 is empty at 0:15 and gone until after 0:26. At 0:01 it has 1,400 gal and the engine 1,000, and the
/// lines need 1,900 until the hook-up: who comes then dumps.
fn nursed_to_fifteen() -> World {
    World::new()
        .nursing()
        .attack_flow(100.0)
        .draft_setup(20.0)
        .first_tank(|tank| tank.capacity = 2000.0)
        .tanker("T0", 1500.0, 0.0)
}

#[test]
fn q01_when_the_intake_is_free_who_stands_at_a_full_tank_takes_it() {
    // T1(3000) 0:01; clear 0:30, connect 1:00
    // The drop tank is full at 0:03, with 1,000 gal in T1. At 0:15 it gives up its position for the intake and
    // is connected at 16.5. The engine has 850 gal then: 1,000 gal last 8.5 min at 100 gpm beside the 150 it
    // lacks. The pump draws at 0:20; T1 goes on.
    let told = nursed_to_fifteen()
        .tanker_with("T1", 3000.0, 1.0, |tanker| {
            tanker.handling.dump_clear = fixed(0.5);
            tanker.handling.nurse_connect = fixed(1.0);
        })
        .watched(26.0)
        .told();
    assert_eq!(
        told.tanker("T0"),
        "T0 comes 0:00 | nurse -0:15 | out -0:20 | fill -0:21:30 | back ..."
    );
    assert_eq!(
        told.tanker("T1"),
        "T1 comes 0:01 | dump -0:15 | break off -0:15:30 | connect to engine -0:16:30 \
         | nurse -0:25 | out ..."
    );
    assert_eq!(told.pump(), "hooked up 0:20 | primed 0:20");
    // Both at once: the position is free, and the intake taken, from 0:15 on.
    assert_close(told.result.dump_held[0], 14.0, "dump position held");
    assert_close(told.result.intake_held, 25.0, "intake held");
    assert_eq!(told.tank_levels(1, &[14, 16, 24]), "0:14 2000 | 0:16 2000 | 0:24 2000");
}

#[test]
fn q02_one_that_waits_in_the_line_comes_before() {
    // As q01, and T2(2000) 0:10 waits: the drop tank is full. It has the intake at 0:15.
    let told = nursed_to_fifteen()
        .tanker("T1", 3000.0, 1.0)
        .tanker("T2", 2000.0, 10.0)
        .watched(22.0)
        .told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:01 | dump ...");
    assert_eq!(told.tanker("T2"), "T2 comes 0:10 | wait -0:15 | nurse ...");
}

#[test]
fn q03_of_several_who_began_to_dump_first_and_only_one() {
    // 2 intakes; tank 1 [2000], tank 2 [1000] => 500 gpm => tank 1
    // T1(3000) 0:01 backs in at tank 1 until 0:04; T2(4000) 1.5 finds its position taken and dumps in tank 2,
    // which is empty. Tank 2 is full at 3.5, tank 1 (1,250 gal at 0:04, +1,500 gpm) at 4.5, with 2,500 gal in T1
    // and 1,500 in T2. At 0:15 T2 breaks off, for it began before T1; T1 stays.
    let told = nursed_to_fifteen()
        .intakes(2)
        .drop_tank(1000.0)
        .tanker_with("T1", 3000.0, 1.0, |tanker| tanker.handling.dump_position = fixed(3.0))
        .tanker("T2", 4000.0, 1.5)
        .watched(18.0)
        .told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:01 | position in 1 -0:04 | dump in 1 ...");
    assert_eq!(told.tanker("T2"), "T2 comes 0:01:30 | dump in 2 -0:15 | nurse ...");
    assert_eq!(told.tank_levels(1, &[4, 5, 16]), "0:04 1250 | 0:05 2000 | 0:16 2000");
    assert_eq!(told.tank_levels(2, &[3, 4, 16]), "0:03 750 | 0:04 1000 | 0:16 1000");
}

#[test]
fn q04_nobody_breaks_off_while_there_is_room() {
    // As q01, but T1 dumps 100 gpm: 1,400 gal are in the drop tank at 0:15. It goes on, and at 0:20 the pump
    // draws from 1,900.
    let told = nursed_to_fifteen()
        .tanker_with("T1", 3000.0, 1.0, |tanker| tanker.dump_rate = 100.0)
        .watched(19.0)
        .told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:01 | dump ...");
    assert_eq!(told.tank_levels(1, &[15, 19]), "0:15 1400 | 0:19 1800");
}

#[test]
fn q05_nor_once_the_pump_has_drawn() {
    // As q01, but hooked up 0:10: the pump draws then, and T0 gives all the engine takes until 0:15. From
    // there T1's 1,000 gal follow the 100 gpm drawn: to 0:25.
    let told = nursed_to_fifteen().draft_setup(10.0).tanker("T1", 3000.0, 1.0).watched(26.0).told();
    assert_eq!(told.pump(), "hooked up 0:10 | primed 0:10");
    assert_eq!(told.tanker("T1"), "T1 comes 0:01 | dump -0:25 | out ...");
}

#[test]
fn q06_it_breaks_off_as_soon_as_the_tank_is_full_and_nobody_nurses() {
    // T1(3000) 0:01, 200 gpm. [2600] is full at 0:14, while T0 nurses: T1 breaks off at 0:15. [2900] is full at
    // 15.5, while nobody does: T1 breaks off then, with 100 gal, and does not pull clear with them.
    let second = |capacity: f64| {
        nursed_to_fifteen()
            .first_tank(|tank| tank.capacity = capacity)
            .tanker_with("T1", 3000.0, 1.0, |tanker| tanker.dump_rate = 200.0)
            .watched(19.0)
            .told()
            .tanker("T1")
    };
    assert!(second(2600.0).starts_with("T1 comes 0:01 | dump -0:15 | nurse "));
    assert!(second(2900.0).starts_with("T1 comes 0:01 | dump -0:15:30 | nurse "));
}

#[test]
fn q07_or_as_the_engine_comes() {
    // E 500 gpm comes 0:05, hooked up 0:25; T1(3000) 0:01 -> [2000] is full at 0:03. As the engine comes,
    // T1 breaks off: 1,000 gal, 2 min.
    let told = World::new()
        .nursing()
        .engine_comes(5.0, 0.0)
        .draft_setup(20.0)
        .first_tank(|tank| tank.capacity = 2000.0)
        .tanker("T1", 3000.0, 1.0)
        .watched(5.0)
        .told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:01 | dump -0:05 | nurse -0:07 | out ...");
}

#[test]
fn q08_one_that_disconnects_no_longer_nurses() {
    // T1(3000) 0:01; T0 disconnects from 0:15 to 0:18. With a second intake T1 breaks off at 0:15, without it
    // when T0 is gone.
    let second = |intakes| {
        nursed_to_fifteen()
            .intakes(intakes)
            .handling(|handling| handling.nurse_disconnect = fixed(3.0))
            .tanker("T1", 3000.0, 1.0)
            .watched(19.0)
            .told()
            .tanker("T1")
    };
    assert_eq!(second(2), "T1 comes 0:01 | dump -0:15 | nurse ...");
    assert_eq!(second(1), "T1 comes 0:01 | dump -0:18 | nurse ...");
}

#[test]
fn q09_the_position_given_up_is_there_for_the_next() {
    // As q01. T0 is back at 0:26:30 and finds nobody at the drop tank, the pump drawing since 0:20: it dumps.
    let told = nursed_to_fifteen().tanker("T1", 3000.0, 1.0).watched(27.0).told();
    assert_eq!(
        told.tanker("T0"),
        "T0 comes 0:00 | nurse -0:15 | out -0:20 | fill -0:21:30 | back -0:26:30 | dump ..."
    );
}
