//! The queue at the scene, and nursing.

use crate::common::assert_close;
use crate::common::world::{World, comes_at, fixed};
use shuttle_sim::Brought;

/// Nursing, with a drop tank that comes too late to matter.
fn nursing_only_for_now() -> World {
    World::new().nursing().first_tank(|tank| tank.brought = Brought::Itself(comes_at(500.0)))
}

#[test]
fn b01_a_nurse_connects_pumps_off_and_disconnects_and_the_next_waits_for_the_intake() {
    // T1(2000) 0:00, T2(2000) 0:01 ) 500 gpm ) E(1000) 500 gpm; 1 intake, connect 1:00, disconnect 0:30
    // The engine is down to 500 gal at 0:01 and stays there while T1 gives 500 gpm for 4 min. From
    // 0:05 it falls: empty at 0:06, half a minute before T2 is connected.
    let told = nursing_only_for_now()
        .tanker("T1", 2000.0, 0.0)
        .tanker("T2", 2000.0, 1.0)
        .handling(|handling| {
            handling.nurse_connect = fixed(1.0);
            handling.nurse_disconnect = fixed(0.5);
        })
        .watched(10.0)
        .told();
    assert_eq!(
        told.tanker("T1"),
        "T1 comes 0:00 | connect to engine -0:01 | nurse -0:05 | disconnect from engine -0:05:30 \
         | out ..."
    );
    assert_eq!(
        told.tanker("T2"),
        "T2 comes 0:01 | wait -0:05:30 | connect to engine -0:06:30 | nurse ..."
    );
    assert_eq!(told.engine_levels(&[1, 5, 6, 7]), "0:01 500 | 0:05 500 | 0:06 0 | 0:07 0");
    assert_eq!(told.interrupted(), "0:06-0:06:30");
}

#[test]
fn b02_a_nurse_waits_for_the_engine() {
    // T1(2000) 0:00 ) 800 gpm ) E(1000) there 0:03, water on 0:04, 500 gpm; connect 1:00
    // The engine is full, so it takes the attack flow alone: 2,000 / 500 = 4 min.
    let told = nursing_only_for_now()
        .engine_comes(3.0, 1.0)
        .tanker_with("T1", 2000.0, 0.0, |tanker| tanker.pump_off = 800.0)
        .handling(|handling| handling.nurse_connect = fixed(1.0))
        .watched(6.0)
        .told();
    assert_eq!(
        told.tanker("T1"),
        "T1 comes 0:00 | wait -0:03 | connect to engine -0:04 | nurse -0:08 | out ..."
    );
    assert_eq!(told.engine_levels(&[0, 2]), "0:04 1000 | 0:06 1000");
}

#[test]
fn b03_a_nurse_pumps_off_as_the_engine_takes_it() {
    // T1(2000) 0:03 ) 900 gpm ) E(1000) 200 gpm, refill 500
    // The engine has 400 gal and takes 700 gpm: full at 3 + 600 / 500 = 4.2, when 840 gal are off.
    // The other 1,160 go at 200 gpm: 5.8 min, to 0:10.
    let told = nursing_only_for_now()
        .attack_flow(200.0)
        .tanker_with("T1", 2000.0, 3.0, |tanker| tanker.pump_off = 900.0)
        .watched(12.0)
        .told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:03 | nurse -0:10 | out ...");
    assert_eq!(told.engine_levels(&[3, 4, 5]), "0:03 400 | 0:04 900 | 0:05 1000");
}

#[test]
fn b04_a_nurse_gives_no_more_than_its_pump_off() {
    // T1(1600) 0:00 ) 400 gpm ) E(1000) 500 gpm: 4 min, and the engine loses 100 gpm.
    let told = nursing_only_for_now()
        .tanker_with("T1", 1600.0, 0.0, |tanker| tanker.pump_off = 400.0)
        .watched(5.0)
        .told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | nurse -0:04 | out ...");
    assert_eq!(told.engine_levels(&[1, 4]), "0:01 900 | 0:04 600");
}

#[test]
fn b05_of_several_nurses_who_began_first_pumps_all_it_can_the_next_what_is_wanted_beyond_that() {
    // T1(1000) ) 200 gpm ) E(1000) 300 gpm, 2 intakes        T2(1000) ) 300 gpm )
    // The full engine takes 300: T1 gives its 200, T2 the other 100. T1 is empty after 5 min; T2 has
    // 500 gal left and gives 300: 1:40 more.
    let told = nursing_only_for_now()
        .attack_flow(300.0)
        .intakes(2)
        .tanker_with("T1", 1000.0, 0.0, |tanker| tanker.pump_off = 200.0)
        .tanker_with("T2", 1000.0, 0.0, |tanker| tanker.pump_off = 300.0)
        .watched(8.0)
        .told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | nurse -0:05 | out ...");
    assert_eq!(told.tanker("T2"), "T2 comes 0:00 | nurse -0:06:40 | out ...");
    assert_eq!(told.engine_levels(&[4, 6]), "0:04 1000 | 0:06 1000");
}

#[test]
fn b06_the_nurse_is_taken_first_then_the_supply_line_which_needs_no_intake() {
    // T1(2000) 0:00 ) 300 gpm ) E(1000) 500 gpm, 1 intake, hooked up 0:02
    // T2(2000) 0:01 -> [3000] =>
    // At 0:02 the engine has 1000 - 2 x 200 = 600 gal and takes 1,000: 300 from T1, 700 from the
    // line. Full at 2.8; then 300 and 200. T1 is empty after 2000 / 300 = 6:40.
    // Drop tank: 0:02 1000; +300 gpm to 2.8; -200 + 1000 to 0:03, 1400; then -200 gpm.
    let told = World::new()
        .nursing()
        .draft_setup(2.0)
        .tanker_with("T1", 2000.0, 0.0, |tanker| tanker.pump_off = 300.0)
        .tanker("T2", 2000.0, 1.0)
        .watched(7.0)
        .told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | nurse -0:06:40 | out ...");
    assert_eq!(told.tanker("T2"), "T2 comes 0:01 | dump -0:03 | out ...");
    assert_eq!(told.engine_levels(&[2, 3]), "0:02 600 | 0:03 1000");
    assert_eq!(told.tank_levels(1, &[2, 3, 4, 6]), "0:02 1000 | 0:03 1400 | 0:04 1200 | 0:06 800");
}

#[test]
fn b07_nursing_closes_when_the_pump_first_draws_not_at_hook_up() {
    // Hooked up 0:02, no water; 3 intakes. T1(2000) 0:03, T2(2000) 3.1 min, T3(1000) 0:04
    // The pump waits for water: T1 dumps. The position is taken and nobody nurses, so T2 nurses: the
    // engine takes its 500 gpm for 4 min. 300 gal at 3.3: the pump draws, and nursing is closed: T3
    // waits for the position though two intakes are free.
    let told = World::new()
        .nursing()
        .draft_setup(2.0)
        .intakes(3)
        .tanker("T1", 2000.0, 3.0)
        .tanker("T2", 2000.0, 3.1)
        .tanker("T3", 1000.0, 4.0)
        .watched(8.0)
        .told();
    assert_eq!(told.pump(), "hooked up 0:02 | primed 0:03:18");
    assert_eq!(told.tanker("T1"), "T1 comes 0:03 | dump -0:05 | out ...");
    assert_eq!(told.tanker("T2"), "T2 comes 0:03:06 | nurse -0:07:06 | out ...");
    assert_eq!(told.tanker("T3"), "T3 comes 0:04 | wait -0:05 | dump -0:06 | out ...");
}

#[test]
fn b08_who_has_an_intake_at_the_first_draw_goes_on() {
    // T1(2000) 1.5 min ) connect 1:00 ) E(1000) 500 gpm        T2(2000) 1.6 min -> [3000] => hooked up 0:02
    // With T1's 2,000 gal and 200 in the engine the lines have enough for 0.4 min: T2 dumps. It has
    // brought 400 gal at hook-up, and the pump draws. T1 is still connecting: it pumps off from 2.5
    // until it is empty, 4 min, as the engine takes at least 500 gpm.
    let told = World::new()
        .nursing()
        .draft_setup(2.0)
        .tanker_with("T1", 2000.0, 1.5, |tanker| tanker.handling.nurse_connect = fixed(1.0))
        .tanker("T2", 2000.0, 1.6)
        .watched(8.0)
        .told();
    assert_eq!(told.pump(), "hooked up 0:02 | primed 0:02");
    assert_eq!(
        told.tanker("T1"),
        "T1 comes 0:01:30 | connect to engine -0:02:30 | nurse -0:06:30 | out ..."
    );
    assert_eq!(told.tanker("T2"), "T2 comes 0:01:36 | dump -0:03:36 | out ...");
}

#[test]
fn b09_where_nursing_is_not_allowed_a_tanker_waits_for_the_drop_tank() {
    // T1(2000) 0:00 -> [3000] ready 0:04 => E 500 gpm
    let told = World::new()
        .first_tank(|tank| tank.brought = Brought::Itself(comes_at(4.0)))
        .tanker("T1", 2000.0, 0.0)
        .watched(8.0)
        .told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | wait -0:04 | dump -0:06 | out ...");
}

#[test]
fn b10_first_come_first_served_whatever_the_order_in_the_list() {
    // T1(2000) 0:02, T2(2000) 0:01 -> [3000] ready 0:04 => E 500 gpm
    let told = World::new()
        .first_tank(|tank| tank.brought = Brought::Itself(comes_at(4.0)))
        .tanker("T1", 2000.0, 2.0)
        .tanker("T2", 2000.0, 1.0)
        .watched(9.0)
        .told();
    assert_eq!(told.tanker("T2"), "T2 comes 0:01 | wait -0:04 | dump -0:06 | out ...");
    assert_eq!(told.tanker("T1"), "T1 comes 0:02 | wait -0:06 | dump -0:08 | out ...");
}

#[test]
fn b11_an_intake_is_taken_though_the_draft_will_be_up_before_long() {
    // T1(2000) 0:01 ) 500 gpm ) E(1000) 500 gpm; 1 intake, [3000] free, hooked up 1.5
    // The engine's own 500 gal would last until then, but nobody nurses and the intake is free.
    let told =
        World::new().nursing().draft_setup(1.5).tanker("T1", 2000.0, 1.0).watched(8.0).told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:01 | nurse -0:05 | out ...");
    assert_eq!(told.pump(), "hooked up 0:01:30");
}

#[test]
fn b12_a_nurse_pumps_off_only_what_it_delivers() {
    // T1(2000, waste 0.1) 0:00 ) 500 gpm ) E(1000) 500 gpm
    // 1,800 gal are delivered, in 3.6 min; the 200 gal spilled take no time.
    let told = nursing_only_for_now()
        .tanker_with("T1", 2000.0, 0.0, |tanker| tanker.waste = 0.1)
        .watched(4.0)
        .told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | nurse -0:03:36 | out ...");
    assert_close(told.result.spilled, 200.0, "spilled");
    assert_close(told.result.tankers[0].delivered, 1800.0, "delivered by T1");
}

#[test]
fn b13_without_any_drop_tank_nursing_stays_open() {
    // T1(1000) 0:00 ) 500 gpm ) E(1000) 500 gpm     Pond{1000} 5 out 5 back
    // T1 nurses 2 min, is back at 0:13 and nurses again. The engine's own 1,000 gal last from 0:02
    // to 0:04.
    let told = World::new().no_drop_tank().tanker("T1", 1000.0, 0.0).watched(14.5).told();
    assert_eq!(
        told.tanker("T1"),
        "T1 comes 0:00 | nurse -0:02 | out -0:07 | fill -0:08 | back -0:13 | nurse ..."
    );
    assert_eq!(told.interrupted(), "0:04-0:13");
}

#[test]
fn b14_and_the_head_of_the_line_takes_any_free_intake() {
    // T1(1000), T2(1000), T3(1000) 0:00 ) 500 gpm ) E(1000) 500 gpm, 2 intakes, no drop tank
    // T1 gives all the engine takes, to 0:02. T2 is connected beside it and gives nothing until then:
    // to 0:04. T3 waits for an intake, and for T2 on it.
    let told = World::new()
        .no_drop_tank()
        .intakes(2)
        .tanker("T1", 1000.0, 0.0)
        .tanker("T2", 1000.0, 0.0)
        .tanker("T3", 1000.0, 0.0)
        .watched(6.5)
        .told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | nurse -0:02 | out ...");
    assert_eq!(told.tanker("T2"), "T2 comes 0:00 | nurse -0:04 | out ...");
    assert_eq!(told.tanker("T3"), "T3 comes 0:00 | wait -0:02 | nurse -0:06 | out ...");
}

#[test]
fn b15_one_that_disconnects_no_longer_nurses() {
    // b01 with 2 intakes: T2 connects as T1 begins to disconnect. (Before that T1's 500 gpm are all
    // that the lines need.)
    let told = nursing_only_for_now()
        .intakes(2)
        .tanker("T1", 2000.0, 0.0)
        .tanker("T2", 2000.0, 1.0)
        .handling(|handling| {
            handling.nurse_connect = fixed(1.0);
            handling.nurse_disconnect = fixed(0.5);
        })
        .watched(9.0)
        .told();
    assert_eq!(
        told.tanker("T1"),
        "T1 comes 0:00 | connect to engine -0:01 | nurse -0:05 | disconnect from engine -0:05:30 \
         | out ..."
    );
    assert_eq!(
        told.tanker("T2"),
        "T2 comes 0:01 | wait -0:05 | connect to engine -0:06 | nurse ..."
    );
}

#[test]
fn b16_nursing_does_not_reopen_when_prime_is_lost() {
    // T1(1000) 0:01 -> [3000] => E(1000) 500 gpm, no refill, 1 intake; loses prime
    // T1 dumps for the pump that waits for water. Drawn from 1.3 min; 650 gal at 0:02 last 1.3 min.
    // T2(200) 0:05 dumps; T3(2000) 5.1 min waits for the position though the intake is free.
    let told = World::new()
        .nursing()
        .tank_refill(0.0)
        .tanker("T1", 1000.0, 1.0)
        .tanker("T2", 200.0, 5.0)
        .tanker("T3", 2000.0, 5.1)
        .watched(7.0)
        .told();
    assert_eq!(
        told.pump(),
        "hooked up 0:00 | primed 0:01:18 | prime lost 0:03:18 | level back 0:05:18 \
         | prime back 0:05:18"
    );
    assert_eq!(told.tanker("T2"), "T2 comes 0:05 | dump -0:05:12 | out ...");
    assert_eq!(told.tanker("T3"), "T3 comes 0:05:06 | wait -0:05:12 | dump ...");
}
