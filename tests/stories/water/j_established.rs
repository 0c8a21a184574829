//! When the supply is established, and a lay that must fill first.

use crate::common::assert_close;
use crate::common::world::{World, comes_at, fixed};
use shuttle_sim::Brought;

#[test]
fn j01_a_dry_lay_swallows_its_volume_before_the_engine_gets_any() {
    // T1(3000) 0:00 -> [3000] => at most 500 gpm, dry lay of 600 gal => E(1000) 500 gpm
    // Drawn from 0.3 min; the lay takes 600 / 500 = 1.2 min, to 1.5. The engine lives on its own
    // water until then, 750 gal, and then gets the 500 gpm it flows.
    let told = World::new()
        .draft_limit(500.0)
        .dry_lay(600.0)
        .tanker("T1", 3000.0, 0.0)
        .watched(4.0)
        .told();
    assert_eq!(told.engine_levels(&[1, 2, 3]), "0:01 500 | 0:02 250 | 0:03 250");
    assert_eq!(told.tank_levels(1, &[1, 2, 3]), "0:01 650 | 0:02 1150 | 0:03 1650");
    // The supply is established when the pump draws, not when the lay is full.
    assert_eq!(told.established(), "0:00:18");
    // What fills the lay is still on scene: 600 in it, 250 in the engine, 1,150 in the drop tank.
    assert_close(told.result.remaining, 600.0 + 250.0 + 1150.0, "still on scene");
}

#[test]
fn j02_while_the_lay_fills_the_lines_can_go_short() {
    // As j01 with E(500): empty at 0:01, the lay full at 1.5.
    let told = World::new()
        .engine_tank(500.0)
        .draft_limit(500.0)
        .dry_lay(600.0)
        .tanker("T1", 3000.0, 0.0)
        .watched(4.0)
        .told();
    assert_eq!(told.interruptions(), "0:01-0:01:30 draft_or_lay_too_small, after supply");
}

#[test]
fn j03_established_when_the_pump_can_draw_even_if_the_engine_takes_nothing() {
    // T1(2000) 0:05 -> [3000] => E(1000), water on at 0:20 only
    // 300 gal at 5.3. The full engine takes nothing: 2,000 gal in the drop tank until T1 is back
    // at 0:19, 3,000 at 0:20.
    let told = World::new().engine_comes(0.0, 20.0).tanker("T1", 2000.0, 5.0).watched(2.0).told();
    assert_eq!(told.pump(), "hooked up 0:00 | primed 0:05:18");
    assert_eq!(told.established(), "0:05:18");
    assert_eq!(told.tank_levels(1, &[0]), "0:20 3000");
}

#[test]
fn j04_with_nursing_only_when_the_first_nurse_is_connected() {
    // T1(2000) 0:03, connect 1:00 ) E(1000) 500 gpm, no drop tank
    let told = World::new()
        .no_drop_tank()
        .tanker("T1", 2000.0, 3.0)
        .handling(|handling| handling.nurse_connect = fixed(1.0))
        .watched(6.0)
        .told();
    assert_eq!(told.established(), "0:04");
    assert_eq!(told.interruptions(), "0:02-0:04 not_come, before supply");
}

#[test]
fn j05_a_nurse_beside_a_drop_tank_establishes_nothing() {
    // T1(6000) 0:00 ) E(1000) 500 gpm, 1 intake; T2(2000) 0:01 -> [3000] => hooked up 0:10
    // T1's 5,500 gal are more than the lines need until the hook-up, so T2 dumps.
    let told = World::new()
        .nursing()
        .draft_setup(10.0)
        .tanker("T1", 6000.0, 0.0)
        .tanker("T2", 2000.0, 1.0)
        .watched(12.0)
        .told();
    assert_eq!(told.established(), "0:10");
}

#[test]
fn j06_never_established_where_the_pump_never_draws() {
    // E(1000) 500 gpm; the drop tank comes after the watch.
    let told = World::new()
        .first_tank(|tank| tank.brought = Brought::Itself(comes_at(90.0)))
        .tanker("T1", 2000.0, 0.0)
        .watched(5.0)
        .told();
    assert_eq!(told.established(), "never");
    assert_eq!(told.shortfalls(), "before 3 min 1500 gal | after none");
}

#[test]
fn j07_the_minutes_of_one_shortfall_can_lie_on_both_sides() {
    // T1(3000) 0:02 -> [3000] => at most 500 gpm, dry lay of 600 gal => E(500) 500 gpm
    // Empty at 0:01; the pump draws from 2.3; the lay is full at 3.5. One interruption, begun before.
    let told = World::new()
        .engine_tank(500.0)
        .draft_limit(500.0)
        .dry_lay(600.0)
        .tanker("T1", 3000.0, 2.0)
        .watched(5.0)
        .told();
    assert_eq!(told.interruptions(), "0:01-0:03:30 not_come, before supply");
    assert_eq!(told.shortfalls(), "before 1.3 min 650 gal | after 1.2 min 600 gal");
}

#[test]
fn j08_the_lay_fills_with_what_the_engine_takes() {
    // T1(3000) 0:00 -> [3000] => at most 2000 gpm, dry lay of 600 gal => E(1000) 500 gpm, refill 500
    // Drawn from 0.3 min. The pump draws what the engine takes, 1,000 gpm: the lay is full after 0.6
    // min, at 0.9. The engine has 550 gal then and gains 500 gpm.
    let told = World::new()
        .draft_limit(2000.0)
        .dry_lay(600.0)
        .tanker("T1", 3000.0, 0.0)
        .watched(2.0)
        .told();
    assert_eq!(told.engine_levels(&[1]), "0:01 600");
    // As much is drawn as dumped.
    assert_eq!(told.tank_levels(1, &[1]), "0:01 300");
}

#[test]
fn j09_a_shortfall_that_begins_as_the_supply_is_established_came_after_it() {
    // T1(2000) 0:01:42 -> [3000] => at most 200 gpm => E(1000) 500 gpm
    // The 300 gal are there at 0:02, when the engine is empty: the pump draws from then on, too little.
    let told = World::new().draft_limit(200.0).tanker("T1", 2000.0, 1.7).watched(5.0).told();
    assert_eq!(told.established(), "0:02");
    assert_eq!(told.interruptions(), "0:02-0:05 draft_or_lay_too_small, after supply");
}
