//! Water needed and water on hand: how long the lines are reckoned to live without the draft, and on
//! what.

use crate::common::telling::clock;
use crate::common::world::{World, comes_at, fixed};
use shuttle_sim::{Brought, Call, TimeTaken};

/// T1(2000) 0:00 nurses ) 500 gpm ) E(1000) 500 gpm, 1 intake; T2(2000) 0:01; [3000] free
///
/// At 0:01 T1 has 1,500 gal left and the engine 1,000: enough until 0:06. If the pump should be hooked up
/// before that, T2 dumps; if after, it is kept for the lines and nurses at 0:04.
fn enough_to_six() -> World {
    World::new().nursing().tanker("T1", 2000.0, 0.0).tanker("T2", 2000.0, 1.0).watched(7.0)
}

const DUMPS: &str = "T2 comes 0:01 | dump -0:03 | out ...";
const KEPT: &str = "T2 comes 0:01 | wait -0:04 | nurse ...";

#[test]
fn p01_a_set_up_that_has_begun_lasts_its_mean_from_its_start() {
    // E drafts itself, set-up from 0:00.
    assert_eq!(enough_to_six().draft_setup(5.9).told().tanker("T2"), DUMPS);
    assert_eq!(enough_to_six().draft_setup(6.1).told().tanker("T2"), KEPT);
}

#[test]
fn p02_one_not_begun_counts_from_when_the_pump_should_come() {
    // Supply engine comes at 3.9 or 4.1, setup 2:00.
    assert_eq!(enough_to_six().supply_engine(3.9, 2.0).told().tanker("T2"), DUMPS);
    assert_eq!(enough_to_six().supply_engine(4.1, 2.0).told().tanker("T2"), KEPT);
}

#[test]
fn p03_or_from_when_the_first_drop_tank_should_be_ready_if_that_is_later() {
    // T1 pumps off at 300 gpm, 2 intakes: at 0:01 it has 1,700 gal, the engine 800. Supply engine 0:00,
    // setup 2:00; the drop tank comes, and is set up in 1:00. Kept for the lines, T2 connects at once; else
    // it waits for the drop tank.
    let second = |comes| {
        let world = enough_to_six()
            .intakes(2)
            .every_tanker(|tanker| tanker.pump_off = 300.0)
            .supply_engine(0.0, 2.0)
            .first_tank(|tank| {
                tank.brought = Brought::Itself(comes_at(comes));
                tank.setup = fixed(1.0);
            });
        world.told().tanker("T2")
    };
    // Ready at 3.9, hooked up at 5.9.
    assert_eq!(second(2.9), "T2 comes 0:01 | wait -0:03:54 | dump -0:05:54 | out ...");
    // Ready at 4.1, hooked up at 6.1.
    assert_eq!(second(3.1), "T2 comes 0:01 | nurse ...");
}

/// As above, the supply engine asked for at 0:01, with a response of 1.8 or `late`, and a set-up of 2:00.
/// Told is a run in which it comes after `actual` minutes.
fn supply_engine_by_luck(late: f64, actual: f64) -> String {
    let arrives = format!("supply engine {}", clock(1.0 + actual));
    enough_to_six()
        .supply_engine(0.0, 2.0)
        .with(|draft| {
            let response = TimeTaken::Samples(vec![1.8, late]);
            draft.supply.engine.as_mut().unwrap().call = Call::sure(1.0, response);
        })
        .told_where(|told| told.arrivals().contains(&arrives))
        .tanker("T2")
}

#[test]
fn p04_when_a_unit_should_come_is_its_mean_whatever_the_luck() {
    // 1.8 or 4.0, 2.9 in the mean: there at 3.9, hooked up at 5.9. In fact it comes at 0:05.
    assert_eq!(supply_engine_by_luck(4.0, 4.0), DUMPS);
    // 1.8 or 4.6, 3.2 in the mean: hooked up at 6.2, and T2 is kept for the lines. In fact it comes at 2.8
    // and will be hooked up at 4.8: from then on 1,000 gal are needed, of 1,600 on hand, and T2 dumps.
    let expected = "T2 comes 0:01 | wait -0:02:48 | dump -0:04:48 | out ...";
    assert_eq!(supply_engine_by_luck(4.6, 1.8), expected);
}

#[test]
fn p05_one_that_is_overdue_counts_as_coming_now_and_its_set_up_comes_after() {
    // E there 0:04, water on at once, 500 gpm; T1(2000) 0:04 nurses; T2(2000) 0:05: 2,500 gal on hand,
    // enough until 0:10. Supply engine 0:02 or 0:06, 0:04 in the mean; in the run told it is overdue at
    // 0:05. Setup 4.9: hooked up at 9.9; setup 5.1: at 10.1.
    let second = |setup| {
        World::new()
            .nursing()
            .engine_comes(4.0, 0.0)
            .supply_engine(0.0, setup)
            .with(|draft| {
                let response = TimeTaken::Samples(vec![2.0, 6.0]);
                draft.supply.engine.as_mut().unwrap().call.response = response;
            })
            .tanker("T1", 2000.0, 4.0)
            .tanker("T2", 2000.0, 5.0)
            .watched(7.0)
            .told_where(|told| told.arrivals().contains("supply engine 0:06"))
            .tanker("T2")
    };
    assert_eq!(second(4.9), "T2 comes 0:05 | dump -0:07 | out ...");
    assert_eq!(second(5.1), "T2 comes 0:05 | wait -0:08 | nurse ...");
}

#[test]
fn p06_the_attack_flow_counts_by_its_steps() {
    // E 500 gpm, from 0:03 250: from 0:01 the 2,500 gal last 2 min and 6 more, to 0:09.
    let second = |setup| {
        let world = enough_to_six().attack_steps(&[(0.0, 500.0), (3.0, 250.0)]);
        world.draft_setup(setup).watched(9.5).told().tanker("T2")
    };
    assert_eq!(second(8.9), "T2 comes 0:01 | dump -0:03 | out -0:08 | fill ...");
    // T1's 500 gal left at 0:03 last 2 min more.
    assert_eq!(second(9.1), "T2 comes 0:01 | wait -0:05 | nurse ...");
}

#[test]
fn p07_before_first_water_nothing_is_needed_and_who_is_connecting_counts() {
    // E there 0:00, water on 0:03; T1 connects in 2:30: at 0:01 there are 2,000 + 1,000 gal, for 6 min from
    // first water: enough until 0:09. T1 nurses from 0:03 to 0:07. Watched 6.5 min, to 9.5.
    let second = |setup| {
        let world = World::new()
            .nursing()
            .engine_comes(0.0, 3.0)
            .draft_setup(setup)
            .tanker_with("T1", 2000.0, 0.0, |tanker| tanker.handling.nurse_connect = fixed(2.5))
            .tanker("T2", 2000.0, 1.0)
            .watched(6.5);
        world.told().tanker("T2")
    };
    assert_eq!(second(8.9), "T2 comes 0:01 | dump -0:03 | out -0:08 | fill ...");
    assert_eq!(second(9.1), "T2 comes 0:01 | wait -0:07 | nurse ...");
}

#[test]
fn p08_nor_after_the_watch() {
    // Hooked up 0:60 only; watched to 5.9 or 6.1.
    let world = enough_to_six().draft_setup(60.0);
    assert_eq!(world.clone().watched(5.9).told().tanker("T2"), DUMPS);
    assert_eq!(world.watched(6.1).told().tanker("T2"), KEPT);
}

#[test]
fn p09_nor_once_the_pump_is_hooked_up() {
    // T1(4000) 0:00 nurses 300 gpm; 2 intakes; hooked up 0:02, restart level 1500
    // T2(2000, 200 gpm) 0:03 dumps for the pump that waits; T3(1000) 0:04: the restart level will be there with
    // T2's load, and the lines are reckoned to need nothing. It waits for the position, though an intake is
    // free and T1 gives less than the lines want: 1000 - 4 x 200 gal in the engine last to 0:05.
    let told = World::new()
        .nursing()
        .intakes(2)
        .draft_setup(2.0)
        .restart_level(1500.0)
        .tanker_with("T1", 4000.0, 0.0, |tanker| tanker.pump_off = 300.0)
        .tanker_with("T2", 2000.0, 3.0, |tanker| tanker.dump_rate = 200.0)
        .tanker("T3", 1000.0, 4.0)
        .watched(6.0)
        .told();
    assert_eq!(told.tanker("T2"), "T2 comes 0:03 | dump ...");
    assert_eq!(told.tanker("T3"), "T3 comes 0:04 | wait ...");
    assert_eq!(told.interrupted(), "0:05-0:06");
}
