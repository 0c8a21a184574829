//! After the dump: the trip counts, a breakdown, and which fill site to drive to.

use crate::common::world::{World, fixed, open_dump_site};
use shuttle_sim::{Luck, Near, Tanker};

/// One run of drawn luck; with fixed times and a chance of 1 nothing is left to it.
const DRAWN: Luck = Luck::Drawn { seed: 1, replication: 0 };

/// Which site the tanker drives to first.
#[track_caller]
fn goes_to(world: &World, tanker: &str) -> String {
    let line = world.told().tanker(tanker);
    let (_, rest) = line.split_once("| out ").unwrap_or_else(|| panic!("no drive out: {line}"));
    rest.split_whitespace().next().expect("a site").to_string()
}

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
fn d06_else_to_the_one_from_which_it_should_be_back_first() {
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
fn d07_between_sites_alike_the_first() {
    // T1(2000) 0:00 -> [3000] => E 100 gpm     Pond 5 out 5 back, Lake 4 out 6 back: 12 min each
    let told = World::new()
        .attack_flow(100.0)
        .fill_site("Lake", 4.0, 6.0)
        .tanker("T1", 2000.0, 0.0)
        .watched(5.0)
        .told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | dump -0:02 | out Pond ...");
}

/// T1(8000) 0:00, gone to the Pond at 0:08, and another tanker -> [20000] 9 positions
/// Pond{1000} 5 out 5 back, Lake{1000} `lake` out and back
fn one_ahead(lake: f64) -> World {
    open_dump_site().fill_site("Lake", lake, lake).tanker("T1", 8000.0, 0.0).watched(25.0)
}

#[test]
fn d08_the_work_ahead_of_it_counts_where_it_outlasts_the_drive() {
    // T2(2000) 6.5, empty at 8.5: 8,000 gal are to be filled before it at the Pond, 8 min, longer than its
    // own 5 min out: 8 + 2 + 5 = 15. The Lake takes 2 + 2 x 6.4 = 14.8 or 2 + 2 x 6.6 = 15.2.
    let world = |lake| one_ahead(lake).tanker("T2", 2000.0, 6.5);
    assert_eq!(goes_to(&world(6.4), "T1"), "Pond");
    assert_eq!(goes_to(&world(6.4), "T2"), "Lake");
    assert_eq!(goes_to(&world(6.6), "T2"), "Pond");
    // With T1(4000), gone at 0:04, 4 min of work are over when T2 would come: 5 + 2 + 5 = 12. The Lake
    // takes 12.2.
    let world = world(5.1).with(|draft| draft.tankers[0].capacity = 4000.0);
    assert_eq!(goes_to(&world, "T2"), "Pond");
}

#[test]
fn d09_of_what_is_filled_already_nothing_counts() {
    // T2(2000) 0:13, empty at 0:15: T1 fills since 0:13 and lacks 6,000 gal: 6 + 2 + 5 = 13. The Lake takes
    // 12.8 or 13.2.
    let world = |lake| one_ahead(lake).tanker("T2", 2000.0, 13.0);
    assert_eq!(goes_to(&world(5.4), "T2"), "Lake");
    assert_eq!(goes_to(&world(5.6), "T2"), "Pond");
}

/// As above; connect 1:00, disconnect 0:30; T2(2000) comes so as to be empty at `leaves`.
fn with_handling(lake: f64, positions: u32, leaves: f64) -> World {
    one_ahead(lake)
        .pond(|site| site.positions = positions)
        .tanker("T2", 2000.0, leaves - 2.0)
        .handling(|handling| {
            handling.fill_connect = fixed(1.0);
            handling.fill_disconnect = fixed(0.5);
        })
}

#[test]
fn d10_at_a_site_with_one_position_they_connect_and_disconnect_before_it_too() {
    // T2 empty at 8.5; its own service 1 + 2 + 0.5 = 3.5. Pond: 8 + 1.5 ahead, + 3.5 + 5 = 18. The Lake takes
    // 3.5 + 2 x 7.2 = 17.9 or 3.5 + 2 x 7.3 = 18.1.
    assert_eq!(goes_to(&with_handling(7.2, 1, 8.5), "T2"), "Lake");
    assert_eq!(goes_to(&with_handling(7.3, 1, 8.5), "T2"), "Pond");
    // With two positions the Pond takes 8 + 3.5 + 5 = 16.5, the Lake 16.3 or 16.7.
    assert_eq!(goes_to(&with_handling(6.4, 2, 8.5), "T2"), "Lake");
    assert_eq!(goes_to(&with_handling(6.6, 2, 8.5), "T2"), "Pond");
}

#[test]
fn d11_who_fills_has_connected_already() {
    // T2 empty at 15.5: T1 fills since 0:14 and lacks 6,500 gal. Pond: 6.5 + 0.5 + 3.5 + 5 = 15.5. The Lake
    // takes 3.5 + 2 x 5.9 = 15.3 or 3.5 + 2 x 6.1 = 15.7.
    assert_eq!(goes_to(&with_handling(5.9, 1, 15.5), "T2"), "Lake");
    assert_eq!(goes_to(&with_handling(6.1, 1, 15.5), "T2"), "Pond");
}

#[test]
fn d12_one_is_ahead_until_it_has_disconnected() {
    // T1(2000) 0:00 fills at the Pond 7-9 and disconnects to 0:15
    // T2(2000) empty at 9.1: T1's 6 min outlast the 5 out. Pond: 6 + 2 + 5 = 13; the Lake takes 12.5.
    // T3(2000) empty at 15.1: Pond 5 + 2 + 5 = 12.
    let world = open_dump_site()
        .fill_site("Lake", 5.25, 5.25)
        .tanker_with("T1", 2000.0, 0.0, |tanker| tanker.handling.fill_disconnect = fixed(6.0))
        .tanker("T2", 2000.0, 7.1)
        .tanker("T3", 2000.0, 13.1)
        .watched(20.0);
    assert_eq!(goes_to(&world, "T1"), "Pond");
    assert_eq!(goes_to(&world, "T2"), "Lake");
    assert_eq!(goes_to(&world, "T3"), "Pond");
}

#[test]
fn d13_who_is_assigned_there_is_ahead_too() {
    // As d08, T1 assigned to the Pond.
    let assigned = |tanker: &mut Tanker| tanker.fill_site = Some(0);
    let world = |lake| one_ahead(lake).every_tanker(assigned).tanker("T2", 2000.0, 6.5);
    assert_eq!(goes_to(&world(6.4), "T2"), "Lake");
    assert_eq!(goes_to(&world(6.6), "T2"), "Pond");
}

#[test]
fn d14_a_site_that_is_not_ready_opens_when_it_should_be() {
    // T1(2000) empty at 0:02. Pond{1000} 5 out 5 back, ready 0:14 or 0:16: back at 14 + 2 + 5 = 21, or 23.
    // Lake{1000} 9 out 9 back: 2 + 20 = 22.
    let world = |ready| {
        let world = open_dump_site().pond(|site| site.ready = fixed(ready));
        world.fill_site("Lake", 9.0, 9.0).tanker("T1", 2000.0, 0.0).watched(5.0)
    };
    assert_eq!(goes_to(&world(14.0), "T1"), "Pond");
    assert_eq!(goes_to(&world(16.0), "T1"), "Lake");
}

#[test]
fn d15_and_the_work_ahead_begins_then() {
    // As d14, ready 0:12, the Lake 8 out 8 back. T1: Pond 12 + 7 = 19, Lake 2 + 18 = 20. T2(2000) empty at 2.5:
    // Pond 12 + 2 + 7 = 21, Lake 20.5.
    let world = open_dump_site()
        .pond(|site| site.ready = fixed(12.0))
        .fill_site("Lake", 8.0, 8.0)
        .tanker("T1", 2000.0, 0.0)
        .tanker("T2", 2000.0, 0.5)
        .watched(5.0);
    assert_eq!(goes_to(&world, "T1"), "Pond");
    assert_eq!(goes_to(&world, "T2"), "Lake");
}

#[test]
fn d16_a_one_lane_stretch_is_not_reckoned_with() {
    // Pond{1000} 5 out == 10:00 == 5 back, Lake{1000} 6 out 6 back: by the legs alone the Pond.
    let world = open_dump_site()
        .one_lane(Near::FillSite(0), 10.0)
        .fill_site("Lake", 6.0, 6.0)
        .tanker("T1", 2000.0, 0.0)
        .watched(8.0);
    assert_eq!(goes_to(&world, "T1"), "Pond");
}
