//! After the dump: the trip counts, a breakdown, and which fill site to drive to.

use crate::common::world::{World, fixed};
use shuttle_sim::Luck;

/// One run of drawn luck; with fixed times and a chance of 1 nothing is left to it.
const DRAWN: Luck = Luck::Drawn { seed: 1, replication: 0 };

#[test]
fn d01_a_trip_counts_once_the_tanker_is_clear() {
    // T1(2000) 0:05 -> [3000] => E 100 gpm; clear 1:00: clear at 0:08
    let trips = |minutes| {
        let world = World::new().attack_flow(100.0).tanker("T1", 2000.0, 5.0);
        let told =
            world.handling(|handling| handling.dump_clear = fixed(1.0)).watched(minutes).told();
        told.result.tankers[0].trips
    };
    assert_eq!(trips(7.5), 0);
    assert_eq!(trips(8.5), 1);
}

#[test]
fn d02_a_breakdown_can_take_a_tanker_out_for_good() {
    // T1(2000, breaks down after every trip) 0:05 -> [3000] => E 100 gpm
    let told = World::new()
        .attack_flow(100.0)
        .tanker_with("T1", 2000.0, 5.0, |tanker| tanker.breakdown_per_trip = 1.0)
        .told_with(DRAWN);
    assert_eq!(told.tanker("T1"), "T1 comes 0:05 | dump -0:07 | out of service ...");
    assert_eq!(told.result.tankers[0].trips, 1, "the trip before the breakdown counts");
}

#[test]
fn d03_or_for_the_time_of_a_repair() {
    // T1(2000, breaks down after every trip, repair 10) 0:05 -> [3000] => E 100 gpm
    let told = World::new()
        .attack_flow(100.0)
        .tanker_with("T1", 2000.0, 5.0, |tanker| {
            tanker.breakdown_per_trip = 1.0;
            tanker.repair = Some(fixed(10.0));
        })
        .watched(33.0)
        .told_with(DRAWN);
    assert_eq!(
        told.tanker("T1"),
        "T1 comes 0:05 | dump -0:07 | repair -0:17 | out -0:22 | fill -0:24 | back -0:29 \
         | dump -0:31 | repair ..."
    );
}

#[test]
fn d04_a_nurse_can_break_down_too() {
    // T1(2000, breaks down after every trip) 0:00 ) 500 gpm ) E(1000) 500 gpm, no drop tank
    let told = World::new()
        .no_drop_tank()
        .tanker_with("T1", 2000.0, 0.0, |tanker| tanker.breakdown_per_trip = 1.0)
        .told_with(DRAWN);
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | nurse -0:04 | out of service ...");
}

#[test]
fn d05_a_tanker_goes_to_the_site_it_is_assigned_to() {
    // T1(2000), assigned to the Lake -> [3000] => E 100 gpm     Pond 5 out 5 back, Lake 20 out 20 back
    let told = World::new()
        .attack_flow(100.0)
        .fill_site("Lake", 20.0, 20.0)
        .tanker_with("T1", 2000.0, 0.0, |tanker| tanker.fill_site = Some(1))
        .watched(5.0)
        .told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | dump -0:02 | out Lake ...");
}

#[test]
fn d06_else_to_the_site_with_the_least_expected_time_back() {
    // Pond{1000} 5 out 5 back, Lake{250} 4 out 5 back
    let world = || {
        let world = World::new().attack_flow(100.0).watched(3.0);
        world.fill_site_with("Lake", 4.0, 5.0, |site| site.flow = 250.0)
    };
    // 2,000 gal: Pond 10 + 2 = 12, Lake 9 + 8 = 17.
    let told = world().tanker("T1", 2000.0, 0.0).told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | dump -0:02 | out Pond ...");
    // 200 gal: Pond 10 + 0.2, Lake 9 + 0.8 = 9.8.
    let told = world().tanker("T1", 200.0, 0.0).told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | dump -0:00:12 | out Lake ...");
    // 2,000 gal at a fill limit of 250: Pond 10 + 8 = 18, Lake 17.
    let slow = world().tanker_with("T1", 2000.0, 0.0, |tanker| tanker.fill_limit = Some(250.0));
    assert_eq!(slow.told().tanker("T1"), "T1 comes 0:00 | dump -0:02 | out Lake ...");
    // 2,000 gal of which 0.95 never leave take 100 gal: Pond 10.1, Lake 9.4.
    let told = world().tanker_with("T1", 2000.0, 0.0, |tanker| tanker.residual = 0.95).told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | dump -0:00:06 | out Lake ...");
}

#[test]
fn d07_those_ahead_count_by_the_turns_they_take_at_the_positions() {
    // T1 0:00, T2 0:02, T3 0:04, all 2,000 gal -> [10000]     Pond 5 out 5 back, Lake 6.5 out 6.5 back
    // s = 2 + connect 1.5 + disconnect 0.5 = 4. One position each:
    // T1: Pond 10 + 4 = 14, Lake 13 + 4 = 17. T2, one ahead at the Pond: 10 + 2 x 4 = 18, Lake 17.
    let world = |positions| {
        let world = World::new()
            .first_tank(|tank| tank.capacity = 10_000.0)
            .pond(|site| site.positions = positions)
            .fill_site("Lake", 6.5, 6.5)
            .tanker("T1", 2000.0, 0.0)
            .tanker("T2", 2000.0, 2.0)
            .tanker("T3", 2000.0, 4.0);
        world.watched(6.5).handling(|handling| {
            handling.fill_connect = fixed(1.5);
            handling.fill_disconnect = fixed(0.5);
        })
    };
    let told = world(1).told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | dump -0:02 | out Pond ...");
    assert_eq!(told.tanker("T2"), "T2 comes 0:02 | dump -0:04 | out Lake ...");
    // Two positions at the Pond: one ahead makes T2 no later, floor(1 / 2) = 0. Two ahead do:
    // T3 expects 10 + 2 x 4 = 18 at the Pond, 17 at the Lake.
    let told = world(2).told();
    assert_eq!(told.tanker("T2"), "T2 comes 0:02 | dump -0:04 | out Pond ...");
    assert_eq!(told.tanker("T3"), "T3 comes 0:04 | dump -0:06 | out Lake ...");
}

#[test]
fn d08_a_tanker_is_ahead_until_it_has_disconnected() {
    // T1 0:05, T2 0:12:30, T3 0:13:30, all 2,000 gal -> [10000] 3 positions; disconnect 1:00
    // Pond 5 out 5 back, Lake 6 out 6 back, 2 positions; s = 3. T1 is done at the Pond at 0:15.
    // T2 leaves at 0:14:30: Pond 10 + 2 x 3 = 16, Lake 12 + 3 = 15. T3 leaves at 0:15:30: Pond 13,
    // Lake 15 still; were T1 still counted the Pond would cost 16.
    let told = World::new()
        .first_tank(|tank| {
            tank.capacity = 10_000.0;
            tank.dump_positions = 3;
        })
        .fill_site_with("Lake", 6.0, 6.0, |site| site.positions = 2)
        .tanker("T1", 2000.0, 5.0)
        .tanker("T2", 2000.0, 12.5)
        .tanker("T3", 2000.0, 13.5)
        .handling(|handling| handling.fill_disconnect = fixed(1.0))
        .watched(17.0)
        .told();
    assert_eq!(
        told.tanker("T1"),
        "T1 comes 0:05 | dump -0:07 | out Pond -0:12 | fill -0:14 | disconnect -0:15 | back ..."
    );
    assert_eq!(told.tanker("T2"), "T2 comes 0:12:30 | dump -0:14:30 | out Lake ...");
    assert_eq!(told.tanker("T3"), "T3 comes 0:13:30 | dump -0:15:30 | out Pond ...");
}

#[test]
fn d09_when_a_site_is_ready_plays_no_part_in_the_choice() {
    // T1(2000) 0:00 -> [3000] => E 100 gpm     Pond 5 out 5 back, ready 0:50; Lake 9 out 9 back
    let told = World::new()
        .attack_flow(100.0)
        .pond(|site| site.ready = fixed(50.0))
        .fill_site("Lake", 9.0, 9.0)
        .tanker("T1", 2000.0, 0.0)
        .watched(40.0)
        .told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | dump -0:02 | out Pond -0:07 | wait to fill ...");
}

#[test]
fn d10_between_sites_alike_the_first() {
    // T1(2000) 0:00 -> [3000] => E 100 gpm     Pond 5 out 5 back, Lake 4 out 6 back: 12 min each
    let told = World::new()
        .attack_flow(100.0)
        .fill_site("Lake", 4.0, 6.0)
        .tanker("T1", 2000.0, 0.0)
        .watched(5.0)
        .told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | dump -0:02 | out Pond ...");
}

#[test]
fn d11_one_that_is_assigned_there_counts_as_ahead_too() {
    // T1 0:00, assigned to the Pond, T2 0:02, both 2,000 gal -> [10000]
    // Pond{1000} 5 out 5 back, Lake{1000} 5.5 out 5.5 back; s = 2
    // T2: Pond 10 + 2 x 2 = 14, Lake 11 + 2 = 13.
    let told = World::new()
        .first_tank(|tank| tank.capacity = 10_000.0)
        .fill_site("Lake", 5.5, 5.5)
        .tanker_with("T1", 2000.0, 0.0, |tanker| tanker.fill_site = Some(0))
        .tanker("T2", 2000.0, 2.0)
        .watched(5.0)
        .told();
    assert_eq!(told.tanker("T2"), "T2 comes 0:02 | dump -0:04 | out Lake ...");
}

#[test]
fn d12_who_left_a_site_gone_dry_is_no_longer_ahead() {
    // T1(2000) 0:00, T2(2000) 0:00:30, both assigned to the Pond; T3(800) 11.7 min -> [10000] 3 positions
    // Pond{1000} 900 gal, recharge 100 gpm, 5 out 5 back; Lake{1000} 5.2 out 5.2 back
    // T1 fills from 0:07, and the Pond is dry 900 / 900 min later; T2, in line since 0:07:30, leaves
    // with it. When T3 chooses, at 0:12:30, nobody is at the Pond and it holds 450 gal, enough for half
    // of 800: Pond 10 + 0.8, Lake 10.4 + 0.8. With one ahead the Pond would cost 11.6.
    let told = World::new()
        .first_tank(|tank| (tank.capacity, tank.dump_positions) = (10_000.0, 3))
        .pond(|site| (site.volume, site.recharge) = (Some(900.0), 100.0))
        .fill_site("Lake", 5.2, 5.2)
        .tanker("T1", 2000.0, 0.0)
        .tanker("T2", 2000.0, 0.5)
        .every_tanker(|tanker| tanker.fill_site = Some(0))
        .tanker("T3", 800.0, 11.7)
        .watched(12.9)
        .told();
    assert_eq!(
        told.tanker("T2"),
        "T2 comes 0:00:30 | dump -0:02:30 | out Pond -0:07:30 | wait to fill -0:08 | back ..."
    );
    assert_eq!(told.tanker("T3"), "T3 comes 0:11:42 | dump -0:12:30 | out Pond ...");
}
