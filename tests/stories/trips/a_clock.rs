//! The clock and what the fire asks for.

use crate::common::assert_close;
use crate::common::world::{World, fixed};
use shuttle_sim::{Brought, Call};

#[test]
fn a01_one_tanker_goes_round() {
    // T1(2000) 0:05 -> [3000] => E(1000) 100 gpm     Pond{1000} 5 out 5 back
    // 2,000 gal at 1,000 gpm: 2 min to dump, 2 min to fill. It arrives full.
    let told = World::new().attack_flow(100.0).tanker("T1", 2000.0, 5.0).watched(25.0).told();
    assert_eq!(
        told.tanker("T1"),
        "T1 comes 0:05 | dump -0:07 | out -0:12 | fill -0:14 | back -0:19 | dump -0:21 | out ..."
    );
}

#[test]
fn a02_each_piece_of_handling_has_its_place() {
    // T1(2000) 0:05 -> position 0:30, clear 0:15 [3000] => E 100 gpm
    // Pond{1000} 5 out 5 back, connect 1:00, disconnect 0:30
    let told = World::new()
        .attack_flow(100.0)
        .tanker("T1", 2000.0, 5.0)
        .handling(|handling| {
            handling.dump_position = fixed(0.5);
            handling.dump_clear = fixed(0.25);
            handling.fill_connect = fixed(1.0);
            handling.fill_disconnect = fixed(0.5);
        })
        .watched(23.0)
        .told();
    assert_eq!(
        told.tanker("T1"),
        "T1 comes 0:05 | position -0:05:30 | dump -0:07:30 | clear -0:07:45 | out -0:12:45 \
         | connect -0:13:45 | fill -0:15:45 | disconnect -0:16:15 | back -0:21:15 \
         | position -0:21:45 | dump ..."
    );
}

#[test]
fn a03_a_unit_is_asked_for_and_then_responds() {
    // T1(2000) asked for at 0:04, response 6 -> [3000] => E
    let told = World::new()
        .tanker_with("T1", 2000.0, 6.0, |tanker| tanker.call.requested_at = 4.0)
        .watched(13.0)
        .told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:10 | dump -0:12 | out ...");
}

#[test]
fn a04_the_attack_starts_when_the_engine_is_there_and_has_water_on() {
    // E(1000) 500 gpm, asked for at 0:01, response 3, water on after 2        T1 at 0:30
    // First water 1 + 3 + 2 = 0:06. The full tank lasts 2 min: short from 0:08. The 10 min watched
    // count from first water: to 0:16.
    let told = World::new()
        .engine_comes(3.0, 2.0)
        .with(|draft| draft.attack_engine.call.requested_at = 1.0)
        .tanker("T1", 2000.0, 30.0)
        .watched(10.0)
        .told();
    assert_eq!(
        told.arrivals(),
        "drop tank 1 there 0:00 | drop tank 1 ready 0:00 | attack engine 0:04 | first water 0:06"
    );
    assert_eq!(told.interruptions(), "0:08-0:16 not_come, before supply");
    assert_eq!(told.engine_levels(&[0, 1, 2]), "0:06 1000 | 0:07 500 | 0:08 0");
    assert_close(told.result.end, 16.0, "end of the watch");
    assert_eq!(told.result.first_interruption(), Some(2.0));
}

#[test]
fn a05_the_attack_flow_takes_its_steps_from_first_water() {
    // E(1000) there 0:04, water on 0:06: 100 gpm, from 0:09 300 gpm        T1 at 0:30
    // 300 gal by 0:09, the other 700 last 700 / 300 min: short from 0:11:20 to the end at 0:16.
    // Wanted 300 + 7 x 300 = 2,400 gal, delivered 1,000.
    let told = World::new()
        .engine_comes(4.0, 2.0)
        .attack_steps(&[(0.0, 100.0), (3.0, 300.0)])
        .tanker("T1", 2000.0, 30.0)
        .watched(10.0)
        .told();
    assert_eq!(told.interrupted(), "0:11:20-0:16");
    assert_eq!(told.shortfalls(), "before 4.67 min 1400 gal | after none");
    assert_close(told.result.wanted, 2400.0, "wanted");
    assert_close(told.result.delivered, 1000.0, "delivered");
}

#[test]
fn a06_a_lull_is_no_shortfall() {
    // E(1000) 500 gpm, from 0:01 none, from 0:04 500 gpm        T1 at 0:30
    let told = World::new()
        .attack_steps(&[(0.0, 500.0), (1.0, 0.0), (4.0, 500.0)])
        .tanker("T1", 2000.0, 30.0)
        .watched(6.0)
        .told();
    assert_eq!(told.engine_levels(&[1, 4, 5]), "0:01 500 | 0:04 500 | 0:05 0");
    assert_eq!(told.interrupted(), "0:05-0:06");
}

#[test]
fn a07_an_empty_engine_delivers_what_it_is_supplied() {
    // T1(3000) 0:00 -> [3000] => at most 300 gpm => E(1000) 500 gpm
    // The pump draws from 300 gal, at 0.3 min; the engine has 850 gal then and loses 200 gpm: empty
    // at 0.3 + 850 / 200 = 4.55 min. From there to 0:10 it delivers 300 and lacks 200 gpm:
    // delivered 500 x 4.55 + 300 x 5.45 = 3,910 gal, lacking 200 x 5.45 = 1,090.
    let told = World::new().draft_limit(300.0).tanker("T1", 3000.0, 0.0).watched(10.0).told();
    assert_eq!(told.interrupted(), "0:04:33-0:10");
    assert_eq!(told.shortfalls(), "before none | after 5.45 min 1090 gal");
    assert_close(told.result.delivered, 3910.0, "delivered");
}

#[test]
fn a08_the_engine_refills_its_tank_while_it_is_not_full() {
    // T1(2000) 0:04 -> [3000] => E(1000) 200 gpm, refill 500
    // Drawing from 4.3 min; the engine has 1000 - 860 = 140 gal and takes 700 gpm: full at
    // 4.3 + 860 / 500 = 6.02. Then it takes 200.
    // Drop tank: 0:05 1000 - 0.7 x 700; 0:06 2000 - 1.7 x 700; 0:07 2000 - 1.72 x 700 - 0.98 x 200.
    let world = World::new().attack_flow(200.0).tanker("T1", 2000.0, 4.0).watched(8.0);
    let told = world.told();
    assert_eq!(told.engine_levels(&[4, 5, 6, 7]), "0:04 200 | 0:05 490 | 0:06 990 | 0:07 1000");
    assert_eq!(told.tank_levels(1, &[5, 6, 7]), "0:05 510 | 0:06 810 | 0:07 600");

    // With a refill of 100 it takes 300 gpm.
    let told = world.tank_refill(100.0).told();
    assert_eq!(told.engine_levels(&[5, 6]), "0:05 210 | 0:06 310");
    assert_eq!(told.tank_levels(1, &[6]), "0:06 1490");
}

#[test]
fn a09_a_shortfall_as_long_as_the_tolerance_is_an_interruption() {
    // T1(2000) 1.8 min -> [3000] => E(1000) 500 gpm; tolerance 0.1 min
    // The engine is empty at 2.0; 300 gal are in the drop tank at 1.8 + 0.3 = 2.1.
    let world = |comes| World::new().tanker("T1", 2000.0, comes).watched(3.0);
    let told = world(1.8).told();
    assert_eq!(told.interrupted(), "0:02-0:02:06");
    assert_eq!(told.shortfalls(), "before 0.1 min 50 gal | after none");

    // Half as long it is none, though its minutes and gallons count.
    let told = world(1.75).told();
    assert_eq!(told.interrupted(), "none");
    assert_eq!(told.shortfalls(), "before 0.05 min 25 gal | after none");

    // With no tolerance any shortfall counts.
    let told = world(1.75).tolerance(0.0).told();
    assert_eq!(told.interrupted(), "0:02-0:02:03");
}

#[test]
fn a10_a_shortfall_of_no_length_is_none() {
    // T1(2000) 1.7 min -> [3000] => E(1000) 500 gpm; tolerance 0
    // The engine is empty at 2.0, the moment the pump begins to draw.
    let told = World::new().tanker("T1", 2000.0, 1.7).tolerance(0.0).watched(3.0).told();
    assert_eq!(told.interrupted(), "none");
    assert_eq!(told.shortfalls(), "before none | after none");
    assert_close(told.result.lowest_engine, 0.0, "lowest level of the engine");
}

#[test]
fn a11_a_shortfall_still_open_at_the_end_counts() {
    // E(1000) 500 gpm, alone: empty at 2.0. Watched 2.1 min, it is as long as the tolerance.
    let world = |minutes| World::new().tanker("T1", 2000.0, 30.0).watched(minutes);
    assert_eq!(world(2.1).told().interrupted(), "0:02-0:02:06");
    // Watched 2.05 min it is shorter.
    let told = world(2.05).told();
    assert_eq!(told.interrupted(), "none");
    assert_eq!(told.shortfalls(), "before 0.05 min 25 gal | after none");
    assert_eq!(world(2.05).tolerance(0.0).told().interrupted(), "0:02-0:02:03");
}

#[test]
fn a12_the_reserve_is_touched_strictly_below_it() {
    // T1(2000) 0.7 min -> [3000] => E(1000) 500 gpm
    // The pump draws from 1.0 min on, when the engine is down to 500 gal; from there it rises.
    let world = World::new().tanker("T1", 2000.0, 0.7).watched(3.0);
    let told = world.clone().reserve(500.0).told();
    assert!(!told.result.reserve_touched, "500 gal is not below 500");
    assert_close(told.result.lowest_engine, 500.0, "lowest level of the engine");
    assert!(world.reserve(501.0).told().result.reserve_touched);
}

#[test]
fn a13_interruptions_are_counted_one_by_one() {
    // T1(2000) 0:03 -> [3000] => E(1000) 500 gpm, no refill     Pond{1000} 5 out 5 back
    // Engine empty at 2.0, pump draws from 3.3. The 2,000 gal last 4 min: prime lost at 7.3, and
    // the engine is empty. T1: dump 3-5, out -10, fill -12, back -17; 300 gal again at 17.3.
    let told = World::new().tank_refill(0.0).tanker("T1", 2000.0, 3.0).watched(18.0).told();
    assert_eq!(told.interrupted(), "0:02-0:03:18 | 0:07:18-0:17:18");
    assert_eq!(told.shortfalls(), "before 1.3 min 650 gal | after 10 min 5000 gal");
    assert_eq!(told.result.first_interruption(), Some(2.0));
}

#[test]
fn a14_the_response_counts_from_the_request_for_engines_and_drop_tanks_too() {
    // E asked for 0:01 response 2; supply engine asked for 0:02 response 3; drop tank 0:03 and 4
    let asked = |requested_at: f64, response: f64| Call::sure(requested_at, fixed(response));
    let told = World::new()
        .supply_engine(0.0, 0.0)
        .with(|draft| {
            draft.attack_engine.call = asked(1.0, 2.0);
            draft.supply.engine.as_mut().unwrap().call = asked(2.0, 3.0);
            draft.drop_tanks[0].brought = Brought::Itself(asked(3.0, 4.0));
        })
        .tanker("T1", 2000.0, 30.0)
        .watched(10.0)
        .told();
    assert_eq!(
        told.arrivals(),
        "attack engine 0:03 | first water 0:03 | supply engine 0:05 | drop tank 1 there 0:07 \
         | drop tank 1 ready 0:07"
    );
}
