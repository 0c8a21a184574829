//! Prime: how it is lost, how it comes back, and gating down instead.

use crate::common::world::{World, road};
use shuttle_sim::{Happening, Luck, TimeTaken};

/// T1(2000) 0:00 -> [3000/200] => E(1000) 500 gpm, no refill     Pond{1000} 5 out 5 back
///
/// Drawn from 500 gal on, at 0.5 min, when the engine has 750 gal. At 0:02 the level is
/// 500 + 1.5 x 500 = 1,250; the 1,050 usable gallons last 2.1 min: down to unusable at 4.1. The
/// engine's 750 gal last another 1.5: empty at 5.6. T1 is back at 0:14.
fn one_load_then_nothing() -> World {
    World::new().tank_refill(0.0).first_tank(|tank| tank.unusable = 200.0).tanker("T1", 2000.0, 0.0)
}

#[test]
fn h01_at_the_unusable_level_prime_is_lost_and_comes_back_with_the_restart_level_and_time() {
    // 300 gal in at 0:14:18, then 1.5 min to prime again.
    let told = one_load_then_nothing().reprime(1.5).watched(17.0).told();
    assert_eq!(
        told.pump(),
        "hooked up 0:00 | primed 0:00:30 | prime lost 0:04:06 | level back 0:14:18 \
         | prime back 0:15:48"
    );
    // Nothing flows until then; the water dumped meanwhile is 200 + 1000 at 0:15.
    assert_eq!(told.interrupted(), "0:05:36-0:15:48");
    assert_eq!(told.shortfalls(), "before none | after 10.2 min 5100 gal");
    assert_eq!(
        told.tank_levels(1, &[2, 4, 5, 14, 15, 16]),
        "0:02 1250 | 0:04 250 | 0:05 200 | 0:14 200 | 0:15 1200 | 0:16 2100"
    );
}

#[test]
fn h02_refilling_the_engine_counts_as_drawn() {
    // T1(4000) 0:01, 800 gpm -> [3000/200] => E(1000) 500 gpm, refill 500
    // Drawn from 500 gal on, at 1.625 min, when the engine has 187.5 gal. It takes 1,000 gpm while
    // 800 come in: down to 200 after 1.5 min, at 3.125, and prime is lost with the dump going on.
    // 300 gal more at 800 gpm: 3.5 min. The engine, 937.5 then 750 gal, is full at 4.0; the level
    // has lost 0.5 x 200 and gains 300 gpm from there.
    let world = World::new()
        .first_tank(|tank| tank.unusable = 200.0)
        .tanker_with("T1", 4000.0, 1.0, |tanker| tanker.dump_rate = 800.0)
        .watched(6.0);
    let told = world.told();
    assert_eq!(
        told.pump(),
        "hooked up 0:00 | primed 0:01:37.5 | prime lost 0:03:07.5 | level back 0:03:30 \
         | prime back 0:03:30"
    );
    assert_eq!(told.engine_levels(&[4, 5]), "0:04 1000 | 0:05 1000");
    assert_eq!(told.tank_levels(1, &[4, 5]), "0:04 400 | 0:05 700");
    // Without refill 500 gpm are drawn, less than comes in.
    assert_eq!(world.tank_refill(0.0).told().pump(), "hooked up 0:00 | primed 0:01:37.5");
}

#[test]
fn h03_a_dump_too_slow_for_the_draw_does_not_save_the_prime() {
    // As h01, and T2(600) 0:04, 300 gpm: down to 250 gal at 0:04, it loses 200 gpm: 0:04:15.
    // T2 brings 300 gal by 0:05:15: 500 again, and prime is back at once.
    let told = one_load_then_nothing()
        .tanker_with("T2", 600.0, 4.0, |tanker| tanker.dump_rate = 300.0)
        .watched(5.5)
        .told();
    assert_eq!(
        told.pump(),
        "hooked up 0:00 | primed 0:00:30 | prime lost 0:04:15 | level back 0:05:15 \
         | prime back 0:05:15"
    );
}

#[test]
fn h04_as_much_coming_in_as_is_drawn_keeps_the_prime() {
    // T1(2000) 0:00 -> [3000] => E(1000) 500 gpm, no refill        T2(1000) at 4.3 min, 500 gpm
    // Drawn from 0.3 min; level 1,150 at 0:02, nothing left at 4.3. T2 then brings just what is
    // drawn, for 2 min.
    let told = World::new()
        .tank_refill(0.0)
        .tanker("T1", 2000.0, 0.0)
        .tanker_with("T2", 1000.0, 4.3, |tanker| tanker.dump_rate = 500.0)
        .watched(7.0)
        .told();
    assert_eq!(told.pump(), "hooked up 0:00 | primed 0:00:18 | prime lost 0:06:18");
    assert_eq!(told.tank_levels(1, &[4, 5, 6]), "0:04 150 | 0:05 0 | 0:06 0");
}

#[test]
fn h05_gating_down_the_draw_equals_what_comes_in_and_prime_is_never_lost() {
    // As h01, but throttling, and T2(600) 0:10, 300 gpm
    // From 4.1 nothing comes in and nothing is drawn. From 0:10 to 0:12 the lines get 300 gpm. From
    // 0:14 T1 brings 1,000 gpm: 500 are drawn at once, the level gains 500.
    // Lacking 4.4 x 500 + 2 x 200 + 2 x 500 = 3,600 gal in 8.4 min.
    let told = one_load_then_nothing()
        .throttling()
        .tanker_with("T2", 600.0, 10.0, |tanker| tanker.dump_rate = 300.0)
        .watched(16.0)
        .told();
    assert_eq!(told.pump(), "hooked up 0:00 | primed 0:00:30");
    assert_eq!(told.interrupted(), "0:05:36-0:14");
    assert_eq!(told.shortfalls(), "before none | after 8.4 min 3600 gal");
    assert_eq!(told.tank_levels(1, &[5, 11, 13, 15]), "0:05 200 | 0:11 200 | 0:13 200 | 0:15 700");
}

#[test]
fn h06_gating_down_the_first_draw_still_waits_for_the_restart_level() {
    // T1(2000) 0:00 -> [3000/200] => E 500 gpm, throttling
    let told = one_load_then_nothing().throttling().watched(3.0).told();
    assert_eq!(told.pump(), "hooked up 0:00 | primed 0:00:30");
    assert_eq!(told.tank_levels(1, &[1, 2]), "0:01 750 | 0:02 1250");
}

#[test]
fn h07_prime_can_be_lost_again_and_each_time_takes_its_time() {
    // T1(500) 0:00, T2(500) 0:05, T3(500) 0:10 -> [3000/200] => E(10000) 500 gpm, no refill, reprime 1
    // T1: restart level 500 just reached as it is empty, at 0:00:30; 300 gal last 0.6 min: 1.1.
    // T2: 200 + 300 at 5.3; 700 gal at 5.5; prime at 6.3; 500 gal last 1 min: 7.3. T3 alike, 5 min later.
    let told = World::new()
        .tank_refill(0.0)
        .engine_tank(10_000.0)
        .reprime(1.0)
        .first_tank(|tank| tank.unusable = 200.0)
        .tanker("T1", 500.0, 0.0)
        .tanker("T2", 500.0, 5.0)
        .tanker("T3", 500.0, 10.0)
        .pond(|site| site.out = road(60.0))
        .watched(14.0)
        .told();
    assert_eq!(
        told.pump(),
        "hooked up 0:00 | primed 0:00:30 | prime lost 0:01:06 \
         | level back 0:05:18 | prime back 0:06:18 | prime lost 0:07:18 \
         | level back 0:10:18 | prime back 0:11:18 | prime lost 0:12:18"
    );
}

#[test]
fn h08_with_nothing_drawn_prime_is_kept_at_the_unusable_level() {
    // T1(10000) 0:00:36 ) 500 gpm ) E(1000) 500 gpm, 1 intake; T2(300) 0:01 -> [3000] => hooked up 0:05
    // The engine keeps the 700 gal it had at 0.6 min while T1 gives what it flows. From 0:05 it refills
    // from the drop tank at 500 gpm: full after 0.6 min, as the drop tank's 300 gal are gone. Nothing
    // comes in then and nothing is drawn, until T1 is empty at 20.6.
    let told = World::new()
        .nursing()
        .draft_setup(5.0)
        .tanker("T1", 10_000.0, 0.6)
        .tanker("T2", 300.0, 1.0)
        .pond(|site| site.out = road(60.0))
        .watched(22.0)
        .told();
    assert_eq!(told.pump(), "hooked up 0:05 | primed 0:05 | prime lost 0:20:36");
    assert_eq!(told.engine_levels(&[5, 6, 20]), "0:05 700 | 0:06 1000 | 0:20 1000");
    assert_eq!(told.tank_levels(1, &[5, 6, 20]), "0:05 300 | 0:06 0 | 0:20 0");
}

#[test]
fn h09_gating_down_the_draw_equals_what_is_transferred_too() {
    // T1(1000) 0:00 -> tank 1 [1000/200] => hooked up 0:05, E(10000) 500 gpm, no refill; throttling
    // T2(8000) 0:01, 4000 gpm -> tank 2 [8000] => 400 gpm => tank 1
    // From 0:05 tank 1 loses 100 gpm: down to 200 gal at 0:13. From there 400 gpm come and are drawn;
    // the engine has 10,000 - 5 x 500 = 7,500 gal and gives the other 100.
    let told = World::new()
        .engine_tank(10_000.0)
        .tank_refill(0.0)
        .draft_setup(5.0)
        .throttling()
        .first_tank(|tank| (tank.capacity, tank.unusable) = (1000.0, 200.0))
        .drop_tank_with(8000.0, |tank| tank.transfer = 400.0)
        .tanker("T1", 1000.0, 0.0)
        .tanker_with("T2", 8000.0, 1.0, |tanker| tanker.dump_rate = 4000.0)
        .pond(|site| site.out = road(300.0))
        .watched(20.0)
        .told();
    assert_eq!(told.pump(), "hooked up 0:05 | primed 0:05");
    assert_eq!(told.tank_levels(1, &[9, 13, 18]), "0:09 600 | 0:13 200 | 0:18 200");
    assert_eq!(told.engine_levels(&[13, 18]), "0:13 7500 | 0:18 7000");
}

#[test]
fn h10_each_priming_takes_a_time_of_its_own() {
    // As h01, from 1 to 3 min to prime again: prime is lost after every load.
    let drawn = one_load_then_nothing()
        .with(|draft| draft.supply.reprime = TimeTaken::Uniform { low: 1.0, high: 3.0 })
        .watched(60.0)
        .told_with(Luck::Drawn { seed: 1, replication: 0 });
    let at = |what: Happening| -> Vec<f64> {
        let notes = drawn.trace.notes.iter().filter(|note| note.happening == what);
        notes.map(|note| note.minute).collect()
    };
    let (from, to) = (at(Happening::Repriming), at(Happening::PrimeBack));
    let times: Vec<f64> = from.iter().zip(&to).map(|(from, to)| to - from).collect();
    assert!(times.len() >= 3, "{times:?}");
    assert!(times.iter().all(|time| (1.0..=3.0).contains(time)), "{times:?}");
    assert!(times.windows(2).all(|pair| (pair[0] - pair[1]).abs() > 1e-6), "{times:?}");
}
