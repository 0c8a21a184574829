//! What one run gives: busy shares, the parts of the cycle, lowest levels, the water balance.

use crate::common::assert_close;
use crate::common::telling::{Telling, plain};
use crate::common::world::{World, fixed, road};
use shuttle_sim::{Near, Part};

/// T1(2000) 0:05 -> position 0:30, clear 0:15 [20000] 9 positions => E(1000) 100 gpm
/// Pond{1000} 5 out 5 back, connect 1:00, disconnect 0:30
///
/// At the drop tank 0:05 to 0:07:45, at the Pond 0:12:45 to 0:16:15, at the drop tank again 0:21:15
/// to 0:24 (see a02).
fn one_cycle() -> World {
    World::new()
        .attack_flow(100.0)
        .first_tank(|tank| {
            tank.capacity = 20_000.0;
            tank.dump_positions = 9;
        })
        .tanker("T1", 2000.0, 5.0)
        .handling(|handling| {
            handling.dump_position = fixed(0.5);
            handling.dump_clear = fixed(0.25);
            handling.fill_connect = fixed(1.0);
            handling.fill_disconnect = fixed(0.5);
        })
        .watched(24.5)
}

#[test]
fn l01_positions_are_busy_while_they_are_held() {
    let result = one_cycle().told().result;
    assert_close(result.fill_held[0], 3.5, "fill position held");
    assert_close(result.dump_held[0], 2.75 + 2.75, "dump position held");
    assert_close(result.intake_held, 0.0, "intake held");
}

#[test]
fn l02_only_within_the_watch() {
    // Watched to 0:22: the second stay at the drop tank counts 0:45.
    let result = one_cycle().watched(22.0).told().result;
    assert_close(result.dump_held[0], 2.75 + 0.75, "dump position held");
    // Watched from 0:06, when the attack begins: the first stay counts 1:45.
    let result = one_cycle().engine_comes(0.0, 6.0).watched(4.0).told().result;
    assert_close(result.dump_held[0], 1.75, "dump position held");
}

#[test]
fn l03_an_intake_is_busy_from_connect_to_disconnect() {
    // b01: T1 holds the one intake to 0:05:30, T2 from there to the end at 0:10. With no T2 it is
    // free from 0:05:30.
    let world = World::new().no_drop_tank().tanker("T1", 2000.0, 0.0).watched(10.0);
    let with_times = |world: World| {
        world.handling(|handling| {
            handling.nurse_connect = fixed(1.0);
            handling.nurse_disconnect = fixed(0.5);
        })
    };
    let alone = with_times(world.clone()).told().result;
    assert_close(alone.intake_held, 5.5, "intake held");
    let both = with_times(world.tanker("T2", 2000.0, 1.0)).told().result;
    assert_close(both.intake_held, 10.0, "intake held");
}

/// The parts of a tanker's cycles that took any time: `out 5 | fill 2`.
fn parts(told: &Telling, tanker: usize) -> String {
    let record = &told.result.tankers[tanker];
    let took: Vec<String> = (Part::ALL.iter())
        .filter(|part| record.parts[**part as usize] > 1e-9)
        .map(|part| {
            let minutes = record.parts[*part as usize] / f64::from(record.cycles);
            format!("{} {}", part.key(), plain(minutes))
        })
        .collect();
    took.join(" | ")
}

#[test]
fn l04_a_cycle_goes_from_leaving_the_dump_to_clear_again() {
    // Two trips, one whole cycle: the first load was brought from elsewhere.
    let told = one_cycle().told();
    let record = &told.result.tankers[0];
    assert_eq!((record.trips, record.cycles), (2, 1));
    assert_eq!(
        parts(&told, 0),
        "travel_out 5 | fill_connect 1 | fill 2 | fill_disconnect 0.5 | travel_back 5 \
         | dump_position 0.5 | dump 2 | dump_clear 0.25"
    );
}

#[test]
fn l05_the_parts_are_means_over_the_cycles() {
    // T1(2000) 0:00, T2(1000) 0:18:30 -> [20000] 9 positions     Pond{1000} 5 out 5 back, 1 position
    // T1 leaves 0:02, 0:16, 0:30 and 0:44 and fills 7-9, 21-23, 35-37. T2 leaves 19:30, fills
    // 24:30-25:30, dumps 30:30-31:30, comes to the Pond 36:30 and fills behind T1 37-38, dumps 43-44:
    // one cycle without a wait, one with 0:30 of it.
    let told = one_cycle()
        .with(|draft| draft.tankers.clear())
        .tanker("T1", 2000.0, 0.0)
        .tanker("T2", 1000.0, 18.5)
        .watched(48.0)
        .told();
    assert_eq!(told.result.tankers[0].cycles, 3);
    assert_eq!(told.result.tankers[1].cycles, 2);
    assert_eq!(parts(&told, 0), "travel_out 5 | fill 2 | travel_back 5 | dump 2");
    assert_eq!(parts(&told, 1), "travel_out 5 | fill_wait 0.25 | fill 1 | travel_back 5 | dump 1");
}

#[test]
fn l06_crossing_a_one_lane_stretch_is_travel_and_waiting_for_it_is_a_part_of_its_own() {
    // f06: T2 crosses in 2:00 each way and waits 1:00 for T1 on the way back; leaves 0:02, done 0:21.
    let told = one_cycle()
        .with(|draft| draft.tankers.clear())
        .one_lane(Near::Scene, 2.0)
        .tanker("T1", 2000.0, 13.0)
        .tanker("T2", 2000.0, 0.0)
        .watched(22.0)
        .told();
    assert_eq!(parts(&told, 1), "travel_out 7 | road_wait 1 | fill 2 | travel_back 7 | dump 2");
}

#[test]
fn l07_waits_and_nursing_have_their_parts() {
    // T1(1000) 0:00, T2(2000) 0:07 ) 500 gpm ) E(1000) 500 gpm, 1 intake, no drop tank; connect 1:00,
    // disconnect 0:30     Pond{1000} 2 out 3 back
    // T1: connect -1, pump off -3, disconnect -3:30; out -5:30, fill -6:30, back -9:30. T2 has the intake
    // from 0:07: connect -8, pump off -12, disconnect -12:30. T1 waits 3:00 for it, then nurses
    // to 0:16.
    let told = World::new()
        .no_drop_tank()
        .pond(|site| {
            site.out = road(2.0);
            site.back = road(3.0);
        })
        .tanker("T1", 1000.0, 0.0)
        .tanker("T2", 2000.0, 7.0)
        .handling(|handling| {
            handling.nurse_connect = fixed(1.0);
            handling.nurse_disconnect = fixed(0.5);
        })
        .watched(16.5)
        .told();
    assert_eq!(told.result.tankers[0].cycles, 1);
    assert_eq!(
        parts(&told, 0),
        "travel_out 2 | fill 1 | travel_back 3 | scene_wait 3 | nurse_connect 1 | pump_off 2 \
         | nurse_disconnect 0.5"
    );
}

/// T1(2000) 0:00 -> [3000/200] => E(1000) 500 gpm, no refill: h01.
fn lowest(minutes: f64) -> (f64, f64) {
    let world = World::new()
        .tank_refill(0.0)
        .first_tank(|tank| tank.unusable = 200.0)
        .tanker("T1", 2000.0, 0.0);
    let result = world.watched(minutes).told().result;
    (result.lowest_tanks[0], result.lowest_engine)
}

#[test]
fn l08_the_lowest_levels_are_those_since_the_pump_drew() {
    // Down to the 200 unusable gallons at 4.1; the engine empty at 5.6. While the drop tank filled for
    // the first time it was lower, which does not count.
    let (drop_tank, engine) = lowest(12.0);
    assert_close(drop_tank, 200.0, "lowest level of the drop tank");
    assert_close(engine, 0.0, "lowest level of the engine");
}

#[test]
fn l09_the_level_at_which_the_pump_began_to_draw_counts() {
    // Watched to 0:02 only: drawn from 500 gal at 0.5 min, and it rose from there. The engine had
    // 750 gal then.
    let (drop_tank, engine) = lowest(2.0);
    assert_close(engine, 750.0, "lowest level of the engine");
    assert_close(drop_tank, 500.0, "lowest level of the drop tank");
}

/// What came on scene, was delivered and spilled and is still there: `4800 = 1600 + 380 + 2820`.
fn balance(told: &Telling) -> String {
    let result = &told.result;
    let total = result.delivered + result.spilled + result.remaining;
    assert!((result.arrived - total).abs() < 1e-3, "water balance {}", result.balance());
    format!(
        "{} = {} + {} + {}",
        plain(result.arrived),
        plain(result.delivered),
        plain(result.spilled),
        plain(result.remaining)
    )
}

#[test]
fn l10_what_came_on_scene_is_delivered_spilled_or_still_there() {
    // c05: T1(2000, residual 0.05, waste 0.1) brings 1,900 gal at 0:00 and at 13.61 min, 190 of them
    // spilled. E(1000) 100 gpm.
    let world = |minutes| {
        World::new()
            .attack_flow(100.0)
            .tanker_with("T1", 2000.0, 0.0, |tanker| {
                tanker.residual = 0.05;
                tanker.waste = 0.1;
            })
            .watched(minutes)
            .told()
    };
    // At 0:16 it has brought two loads: 1000 + 2 x 1900.
    assert_eq!(balance(&world(16.0)), "4800 = 1600 + 380 + 2820");
    // At 0:13 the second is still on the road: not on scene.
    assert_eq!(balance(&world(13.0)), "2900 = 1300 + 190 + 1410");
}

#[test]
fn l11_water_aboard_a_waiting_tanker_is_on_scene() {
    // T1(2000, waste 0.1) 0:00 waits for [3000], ready 0:04; E(1000) 100 gpm, watched to 0:03
    let told = World::new()
        .attack_flow(100.0)
        .first_tank(|tank| tank.setup = fixed(4.0))
        .tanker_with("T1", 2000.0, 0.0, |tanker| tanker.waste = 0.1)
        .watched(3.0)
        .told();
    assert_eq!(balance(&told), "3000 = 300 + 0 + 2700");
}

#[test]
fn l12_and_so_is_what_is_left_of_a_load_half_dumped_or_pumped_off() {
    // T1(2000) 0:00 -> [3000], watched to 0:01; and T1(2000) 0:00 ) 500 gpm ) E; 100 gpm
    let dumping = World::new().attack_flow(100.0).tanker("T1", 2000.0, 0.0).watched(1.0);
    let told = dumping.told();
    assert_eq!(balance(&told), "3000 = 100 + 0 + 2900");
    assert_close(told.result.tankers[0].delivered, 1000.0, "delivered by T1");
    let nursing =
        World::new().no_drop_tank().attack_flow(100.0).tanker("T1", 2000.0, 0.0).watched(1.0);
    let told = nursing.told();
    assert_eq!(balance(&told), "3000 = 100 + 0 + 2900");
    assert_close(told.result.tankers[0].delivered, 100.0, "delivered by T1");
}
