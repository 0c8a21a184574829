//! How a load runs out of a tanker into a drop tank.

use crate::common::assert_close;
use crate::common::world::{World, fixed};
use shuttle_sim::{Doing, DumpCurve};

/// Nothing is drafted in these hours: the supply engine never comes.
fn undrafted() -> World {
    World::new().supply_engine(5000.0, 0.0)
}

#[test]
fn c01_the_first_drop_tank_is_open_whatever_its_room_while_nobody_is_at_it() {
    // T1(1000) 0:00, T2(1000) 0:02 -> [1000], nothing drawn
    // T2 takes the position at the full drop tank, and its water has nowhere to go. It stays with it.
    let told = undrafted()
        .first_tank(|tank| tank.capacity = 1000.0)
        .tanker("T1", 1000.0, 0.0)
        .tanker("T2", 1000.0, 2.0)
        .watched(5.0)
        .told();
    assert_eq!(told.tanker("T2"), "T2 comes 0:02 | dump ...");
    assert_eq!(told.tank_levels(1, &[1, 4]), "0:01 1000 | 0:04 1000");
    assert_close(told.result.tankers[1].delivered, 0.0, "delivered by T2");
}

#[test]
fn c02_into_a_full_drop_tank_a_load_follows_what_leaves_it() {
    // T1(3000) 0:00 -> [1000] => E(1000) 500 gpm
    // Drawn from 0.3 min: 1,000 gpm while the engine lacks its 150 gal, to 0.6 (level 300 still);
    // then 500: the level gains 500 gpm and is full at 2.0. T1 has 1,000 gal left: 500 gpm, 2 min.
    let told = World::new()
        .first_tank(|tank| tank.capacity = 1000.0)
        .tanker("T1", 3000.0, 0.0)
        .watched(6.0)
        .told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | dump -0:04 | out ...");
    assert_eq!(
        told.tank_levels(1, &[1, 2, 3, 4, 5]),
        "0:01 500 | 0:02 1000 | 0:03 1000 | 0:04 1000 | 0:05 500"
    );
}

#[test]
fn c03_tankers_at_a_full_drop_tank_share_what_leaves_in_proportion_to_their_rates() {
    // T1(1800) 900 gpm -> [1200] 2 positions => E(1000) 200 gpm, no refill, restart level 450
    // Drawn from 0.5 min; level 800 at 0:01. T2(600), 100 gpm, comes then: 400 gal of room less T1's 900
    // and 200 x 600 / 100 drawn while it dumps take its load. Full at 1.5, T1 with 450 gal left, T2
    // with 550. Of 200 gpm T1 gives 180: 2.5 min; T2 gives 20, and has 500 left at 0:04. From there its
    // 100 gpm last 5 min and the level falls by 100 gpm.
    let told = World::new()
        .attack_flow(200.0)
        .tank_refill(0.0)
        .restart_level(450.0)
        .first_tank(|tank| (tank.capacity, tank.dump_positions) = (1200.0, 2))
        .tanker_with("T1", 1800.0, 0.0, |tanker| tanker.dump_rate = 900.0)
        .tanker_with("T2", 600.0, 1.0, |tanker| tanker.dump_rate = 100.0)
        .watched(9.5)
        .told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | dump -0:04 | out -0:09 | fill ...");
    assert_eq!(told.tanker("T2"), "T2 comes 0:01 | dump -0:09 | out ...");
    assert_eq!(
        told.tank_levels(1, &[1, 2, 4, 5, 9]),
        "0:01 800 | 0:02 1200 | 0:04 1200 | 0:05 1100 | 0:09 700"
    );
}

#[test]
fn c04_when_more_leaves_than_can_be_dumped_the_full_drop_tank_falls_again() {
    // T1(5000) 1000 gpm -> [1000] => E 500 gpm, from 0:04 1200 gpm, no refill
    // Drawn from 0.3: +500 gpm, full at 1.7 (1,700 gal dumped). To 0:04 it follows 500 gpm (1,150
    // gal). From there it dumps 1,000 gpm and the level loses 200; its 2,150 gal last 2:09.
    let told = World::new()
        .attack_steps(&[(0.0, 500.0), (4.0, 1200.0)])
        .tank_refill(0.0)
        .first_tank(|tank| tank.capacity = 1000.0)
        .tanker("T1", 5000.0, 0.0)
        .watched(7.0)
        .told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | dump -0:06:09 | out ...");
    assert_eq!(
        told.tank_levels(1, &[1, 2, 4, 5, 6]),
        "0:01 650 | 0:02 1000 | 0:04 1000 | 0:05 800 | 0:06 600"
    );
}

#[test]
fn c05_waste_and_residual_shorten_the_dump_and_the_residual_the_fill() {
    // T1(2000, residual 0.05, waste 0.1) 0:00 -> [3000] => E 100 gpm     Pond{1000} 5 out 5 back
    // Fill 2000 x 0.95 = 1,900 gal, 1.9 min. Load 1900 x 0.9 = 1,710 gal, 1.71 min; spilled 190.
    let told = World::new()
        .attack_flow(100.0)
        .tanker_with("T1", 2000.0, 0.0, |tanker| {
            tanker.residual = 0.05;
            tanker.waste = 0.1;
        })
        .watched(16.0)
        .told();
    assert_eq!(
        told.tanker("T1"),
        "T1 comes 0:00 | dump -0:01:42.6 | out -0:06:42.6 | fill -0:08:36.6 | back -0:13:36.6 \
         | dump -0:15:19.2 | out ..."
    );
    assert_close(told.result.taken[0], 1900.0, "taken from the Pond");
    assert_close(told.result.tankers[0].delivered, 2.0 * 1710.0, "delivered by T1");
    assert_close(told.result.spilled, 2.0 * 190.0, "spilled");
}

#[test]
fn c06_the_position_is_held_from_backing_in_to_clear() {
    // T1(2000) 0:00, T2(2000) 0:01 -> [3000] 1 position => E 500 gpm; position 1:00, clear 2:00
    let told = World::new()
        .tanker("T1", 2000.0, 0.0)
        .tanker("T2", 2000.0, 1.0)
        .handling(|handling| {
            handling.dump_position = fixed(1.0);
            handling.dump_clear = fixed(2.0);
        })
        .watched(9.0)
        .told();
    assert_eq!(
        told.tanker("T1"),
        "T1 comes 0:00 | position -0:01 | dump -0:03 | clear -0:05 | out ..."
    );
    assert_eq!(
        told.tanker("T2"),
        "T2 comes 0:01 | wait -0:05 | position -0:06 | dump -0:08 | clear ..."
    );
}

/// T of the model's gravity dump, minutes: 0.9 v0 / (dump_rate (1 - sqrt 0.1)).
fn gravity_minutes(v0: f64, dump_rate: f64) -> f64 {
    0.9 * v0 / (dump_rate * (1.0 - 0.1_f64.sqrt()))
}

#[test]
fn c07_by_gravity_the_load_is_a_parabola_in_time() {
    // T1(3000, gravity, 1000 gpm) 0:00 -> [3000], nothing drawn
    // flow = (2 v0 / T) sqrt(v / v0) gives v = v0 (1 - t / T)^2: gone at T, 90% gone at 2.7 min.
    let told = undrafted()
        .tanker_with("T1", 3000.0, 0.0, |tanker| tanker.dump_curve = DumpCurve::Gravity)
        .watched(5.0)
        .told();
    let t = gravity_minutes(3000.0, 1000.0);
    for minute in 1..=3 {
        let left = 3000.0 * (1.0 - minute as f64 / t).powi(2);
        assert_close(told.level(0, minute), 3000.0 - left, "level of the drop tank");
    }
    assert_close(told.began("T1", Doing::Clearing(0))[0], t, "end of the dump");
    assert_close(t * (1.0 - 0.1_f64.sqrt()), 2.7, "90% at the average rate");
}

#[test]
fn c08_by_gravity_the_driver_stops_waiting_at_the_residual() {
    // T1(3000, gravity, 1000 gpm, residual 0.1, waste 0.2) 0:00 -> [3000], nothing drawn
    // Load 3000 x 0.9 x 0.8 = 2,160; v0 = 2160 + 300. It ends when v = 300: t = T (1 - sqrt(300 / v0)).
    let told = undrafted()
        .tanker_with("T1", 3000.0, 0.0, |tanker| {
            tanker.dump_curve = DumpCurve::Gravity;
            tanker.residual = 0.1;
            tanker.waste = 0.2;
        })
        .watched(5.0)
        .told();
    let v0 = 2160.0 + 300.0;
    let t = gravity_minutes(v0, 1000.0);
    let left = v0 * (1.0 - 1.0 / t).powi(2);
    assert_close(told.level(0, 1), v0 - left, "level of the drop tank");
    assert_close(
        told.began("T1", Doing::Clearing(0))[0],
        t * (1.0 - (300.0 / v0).sqrt()),
        "end of the dump",
    );
    assert_close(told.result.tankers[0].delivered, 2160.0, "delivered by T1");
}

/// When a gravity dump of `v0` gallons (over T minutes if nothing hinders it) ends that meets a full
/// drop tank of 1,000 gal, drawn at a steady 500 gpm from `restart` gal on:
/// free until the drop tank is full, then 500 gpm, then free again once it can only pour less.
fn held_gravity_dump_ends(v0: f64, t: f64, restart: f64) -> f64 {
    // Restart level: v0 (1 - (1 - x)^2) = restart, with x = minute / T.
    let draws = t * (1.0 - (1.0 - restart / v0).sqrt());
    // Full: v0 (2x - x^2) - 500 (x T - draws) = 1000.
    let b = 2.0 * v0 - 500.0 * t;
    let c = 1000.0 - 500.0 * draws;
    let full = (b - (b * b - 4.0 * v0 * c).sqrt()) / (2.0 * v0);
    let left_when_full = v0 * (1.0 - full).powi(2);
    // It pours less than 500 gpm once (2 v0 / T) sqrt(v / v0) = 500.
    let root = 500.0 * t / (2.0 * v0);
    full * t + (left_when_full - v0 * root * root) / 500.0 + t * root
}

#[test]
fn c09_a_gravity_dump_follows_the_outflow_until_it_can_only_pour_less() {
    // T1(3000, gravity, 1000 gpm) 0:00 -> [1000] => E 500 gpm, no refill
    let told = World::new()
        .tank_refill(0.0)
        .first_tank(|tank| tank.capacity = 1000.0)
        .tanker_with("T1", 3000.0, 0.0, |tanker| tanker.dump_curve = DumpCurve::Gravity)
        .watched(6.0)
        .told();
    let ends = held_gravity_dump_ends(3000.0, gravity_minutes(3000.0, 1000.0), 300.0);
    assert_close(told.began("T1", Doing::Clearing(0))[0], ends, "end of the dump");
    assert_eq!(told.tank_levels(1, &[2, 3]), "0:02 1000 | 0:03 1000");
}

#[test]
fn c10_two_alike_that_dump_by_gravity_end_together() {
    // T1, T2(700, gravity, 1000 gpm) 0:01 -> [1000] 2 positions => E 500 gpm, no refill, restart level 1000, hooked up 0:00:30
    // The pump waits for water, and T1's 700 gal do not bring the restart level: T2 dumps beside it. T0 holds
    // the one intake for an hour, so nobody breaks off.
    // Together they pour like one of 1,400 gal with the same T, and share evenly throughout.
    let by_gravity = |tanker: &mut shuttle_sim::Tanker| tanker.dump_curve = DumpCurve::Gravity;
    let told = World::new()
        .nursing()
        .draft_setup(0.5)
        .tank_refill(0.0)
        .restart_level(1000.0)
        .first_tank(|tank| (tank.capacity, tank.dump_positions) = (1000.0, 2))
        .tanker_with("T0", 100.0, 0.0, |tanker| tanker.handling.nurse_disconnect = fixed(60.0))
        .tanker_with("T1", 700.0, 1.0, by_gravity)
        .tanker_with("T2", 700.0, 1.0, by_gravity)
        .watched(3.0)
        .told();
    let takes = held_gravity_dump_ends(1400.0, gravity_minutes(700.0, 1000.0), 1000.0);
    for name in ["T1", "T2"] {
        assert_close(told.began(name, Doing::Clearing(0))[0], 1.0 + takes, "end of the dump");
    }
}
