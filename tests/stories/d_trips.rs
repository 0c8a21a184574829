//! After the dump: the trip counts, a breakdown, and the road to the fill site.

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
