//! The road: legs, and stretches that carry one direction at a time.

use crate::common::world::{open_dump_site, road};
use shuttle_sim::Near;

#[test]
fn f01_each_way_takes_its_own_time() {
    // T1(2000) 0:00     Pond{1000} 3 out 7 back
    let told = open_dump_site()
        .pond(|site| (site.out, site.back) = (road(3.0), road(7.0)))
        .tanker("T1", 2000.0, 0.0)
        .watched(15.0)
        .told();
    assert_eq!(
        told.tanker("T1"),
        "T1 comes 0:00 | dump -0:02 | out -0:05 | fill -0:07 | back -0:14 | dump ..."
    );
}

#[test]
fn f02_a_one_lane_stretch_near_the_scene_is_crossed_first_and_last() {
    // T1(2000) 0:00 == 2:00 == 5 out 5 back Pond{1000}
    let told =
        open_dump_site().one_lane(Near::Scene, 2.0).tanker("T1", 2000.0, 0.0).watched(19.0).told();
    assert_eq!(
        told.tanker("T1"),
        "T1 comes 0:00 | dump -0:02 | cross -0:04 | out -0:09 | fill -0:11 | back -0:16 \
         | cross -0:18 | dump ..."
    );
}

#[test]
fn f03_one_near_the_fill_site_lies_on_either_side_of_the_fill() {
    // T1(2000) 0:00   5 out 5 back == 2:00 == Pond{1000}
    let told = open_dump_site()
        .one_lane(Near::FillSite(0), 2.0)
        .tanker("T1", 2000.0, 0.0)
        .watched(19.0)
        .told();
    assert_eq!(
        told.tanker("T1"),
        "T1 comes 0:00 | dump -0:02 | out -0:07 | cross -0:09 | fill -0:11 | cross -0:13 \
         | back -0:18 | dump ..."
    );
}

#[test]
fn f04_a_haul_can_have_one_at_either_end() {
    // T1(2000) 0:00 == 2:00 == 5 out 5 back == 1:00 == Pond{1000}
    let told = open_dump_site()
        .one_lane(Near::FillSite(0), 1.0)
        .one_lane(Near::Scene, 2.0)
        .tanker("T1", 2000.0, 0.0)
        .watched(21.0)
        .told();
    assert_eq!(
        told.tanker("T1"),
        "T1 comes 0:00 | dump -0:02 | cross -0:04 | out -0:09 | cross -0:10 | fill -0:12 \
         | cross -0:13 | back -0:18 | cross -0:20 | dump ..."
    );
}

#[test]
fn f05_a_stretch_near_one_fill_site_does_not_concern_the_others() {
    // T1(2000) 0:00, assigned to the Pond   5 out 5 back Pond     8 out 8 back == 2:00 == Lake
    let told = open_dump_site()
        .fill_site("Lake", 8.0, 8.0)
        .one_lane(Near::FillSite(1), 2.0)
        .tanker_with("T1", 2000.0, 0.0, |tanker| tanker.fill_site = Some(0))
        .watched(15.0)
        .told();
    assert_eq!(
        told.tanker("T1"),
        "T1 comes 0:00 | dump -0:02 | out Pond -0:07 | fill -0:09 | back -0:14 | dump ..."
    );
}

#[test]
fn f06_who_comes_from_the_other_side_waits() {
    // T1(2000) 0:13, T2(2000) 0:00 == 2:00 == 5 out 5 back Pond{1000}
    // T2 is back at the stretch at 0:16, when T1 is on it outward, 0:15 to 0:17.
    let told = open_dump_site()
        .one_lane(Near::Scene, 2.0)
        .tanker("T1", 2000.0, 13.0)
        .tanker("T2", 2000.0, 0.0)
        .watched(22.0)
        .told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:13 | dump -0:15 | cross -0:17 | out ...");
    assert_eq!(
        told.tanker("T2"),
        "T2 comes 0:00 | dump -0:02 | cross -0:04 | out -0:09 | fill -0:11 | back -0:16 \
         | wait for road -0:17 | cross -0:19 | dump -0:21 | cross ..."
    );
}

#[test]
fn f07_those_who_go_the_same_way_may_follow() {
    // As before, and T3(2000) 0:14:30, which comes to the stretch at 0:16:30, while T1 is on it
    // and T2 waits on the other side. T3 follows T1, so T2 waits on until T3 is off at 0:18:30.
    let told = open_dump_site()
        .one_lane(Near::Scene, 2.0)
        .tanker("T1", 2000.0, 13.0)
        .tanker("T2", 2000.0, 0.0)
        .tanker("T3", 2000.0, 14.5)
        .watched(20.0)
        .told();
    assert_eq!(told.tanker("T3"), "T3 comes 0:14:30 | dump -0:16:30 | cross -0:18:30 | out ...");
    assert_eq!(
        told.tanker("T2"),
        "T2 comes 0:00 | dump -0:02 | cross -0:04 | out -0:09 | fill -0:11 | back -0:16 \
         | wait for road -0:18:30 | cross ..."
    );
}

#[test]
fn f08_once_it_is_clear_the_side_that_waited_goes_all_of_it() {
    // T1(2000) 0:13, T2(2000) 0:00, T3(2000) 0:15:30, T4(2000) 0:00:30 == 2:00 == 5 out 5 back
    // Pond{2000} 2 positions
    // T2 waits from 0:16 and T4 from 0:16:30 for T1 to be off at 0:17; they cross together, to
    // 0:19. T3 comes to go out at 0:17:30 and waits for them.
    let told = open_dump_site()
        .one_lane(Near::Scene, 2.0)
        .pond(|site| (site.positions, site.flow) = (2, 2000.0))
        .tanker("T1", 2000.0, 13.0)
        .tanker("T2", 2000.0, 0.0)
        .tanker("T3", 2000.0, 15.5)
        .tanker("T4", 2000.0, 0.5)
        .watched(20.5)
        .told();
    assert_eq!(
        told.tanker("T2"),
        "T2 comes 0:00 | dump -0:02 | cross -0:04 | out -0:09 | fill -0:11 | back -0:16 \
         | wait for road -0:17 | cross -0:19 | dump ..."
    );
    assert_eq!(
        told.tanker("T4"),
        "T4 comes 0:00:30 | dump -0:02:30 | cross -0:04:30 | out -0:09:30 | fill -0:11:30 \
         | back -0:16:30 | wait for road -0:17 | cross -0:19 | dump ..."
    );
    assert_eq!(
        told.tanker("T3"),
        "T3 comes 0:15:30 | dump -0:17:30 | wait for road -0:19 | cross ..."
    );
}
