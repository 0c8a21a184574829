//! Fill sites with little water: which are left out of the choice, and standing by.

use crate::common::assert_close;
use crate::common::world::{open_dump_site, road};

#[test]
fn t01_a_site_that_cannot_give_half_the_capacity_is_not_chosen() {
    // T1(2000) 0:00     Pond{1000} 5 out 5 back, Lake{1000} 10 out 10 back
    let world = |pond| {
        open_dump_site()
            .pond(|site| site.volume = Some(pond))
            .fill_site("Lake", 10.0, 10.0)
            .tanker("T1", 2000.0, 0.0)
            .watched(18.0)
    };
    // 2,500 gal in the Pond: 500 after the first fill, less than half of 2,000.
    assert_eq!(
        world(2500.0).told().tanker("T1"),
        "T1 comes 0:00 | dump -0:02 | out Pond -0:07 | fill -0:09 | back -0:14 | dump -0:16 \
         | out Lake ..."
    );
    // 3,000 gal: 1,000 after the first fill, just half.
    assert_eq!(
        world(3000.0).told().tanker("T1"),
        "T1 comes 0:00 | dump -0:02 | out Pond -0:07 | fill -0:09 | back -0:14 | dump -0:16 \
         | out Pond ..."
    );
}

#[test]
fn t02_it_is_half_of_the_tanker_s_own_capacity() {
    // T1(1000) and T2(2000) 0:00     Pond{1000} 700 gal, 5 out 5 back, Lake{1000} 10 out 10 back
    let told = open_dump_site()
        .pond(|site| site.volume = Some(700.0))
        .fill_site("Lake", 10.0, 10.0)
        .tanker("T1", 1000.0, 0.0)
        .tanker("T2", 2000.0, 0.0)
        .watched(5.0)
        .told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | dump -0:01 | out Pond ...");
    assert_eq!(told.tanker("T2"), "T2 comes 0:00 | dump -0:02 | out Lake ...");
}

#[test]
fn t03_where_no_site_can_give_half_the_tanker_stands_by() {
    // T1(2000) 0:00     Pond{1000} 900 gal, 5 out 5 back
    let told =
        open_dump_site().pond(|site| site.volume = Some(900.0)).tanker("T1", 2000.0, 0.0).told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | dump -0:02 | stand by ...");
    assert_close(told.result.taken[0], 0.0, "taken from the Pond");
}

#[test]
fn t04_what_those_ahead_still_take_is_gone() {
    // T1(4000) 0:00 is empty at 0:04, T2(2000) 2.5 at 4.5     Pond{1000} 5 out 5 back, Lake{1000} 20 out 20 back
    // 4,900 gal in the Pond less T1's 4,000 are not half of T2's 2,000; 5,100 less 4,000 are.
    let second = |pond| {
        open_dump_site()
            .pond(|site| site.volume = Some(pond))
            .fill_site("Lake", 20.0, 20.0)
            .tanker("T1", 4000.0, 0.0)
            .tanker("T2", 2000.0, 2.5)
            .watched(8.0)
            .told()
            .tanker("T2")
    };
    assert_eq!(second(4900.0), "T2 comes 0:02:30 | dump -0:04:30 | out Lake ...");
    assert_eq!(second(5100.0), "T2 comes 0:02:30 | dump -0:04:30 | out Pond ...");
}

#[test]
fn t05_what_they_have_taken_is_not_counted_twice() {
    // As t04 with 5,100 gal, T2 9.5, empty at 11.5: T1 fills since 0:09, and has 2,500 of its 4,000 gal. The Pond
    // holds 2,600, less the 1,500 T1 still takes: 1,100.
    let told = open_dump_site()
        .pond(|site| site.volume = Some(5100.0))
        .fill_site("Lake", 20.0, 20.0)
        .tanker("T1", 4000.0, 0.0)
        .tanker("T2", 2000.0, 9.5)
        .watched(15.0)
        .told();
    assert_eq!(told.tanker("T2"), "T2 comes 0:09:30 | dump -0:11:30 | out Pond ...");
}

#[test]
fn t06_one_whose_assigned_site_is_low_stands_by_whatever_the_others_have() {
    // T1(2000) 0:00, assigned to the Pond     Pond{1000} 900 gal, 5 out 5 back, Lake{1000} 5 out 5 back
    let told = open_dump_site()
        .pond(|site| site.volume = Some(900.0))
        .fill_site("Lake", 5.0, 5.0)
        .tanker_with("T1", 2000.0, 0.0, |tanker| tanker.fill_site = Some(0))
        .watched(20.0)
        .told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | dump -0:02 | stand by ...");
}

#[test]
fn t07_it_leaves_when_the_recharge_has_brought_half_its_capacity() {
    // T1(2000) 0:00, T2(2000) 0:01     Pond{1000} 2,000 gal, recharge 100 gpm, 5 out 20 back
    // T2 is empty at 0:03: T1 will take all there is. At 0:09 T1 has it, and 2 x 100 gal have run in; 1,000 are
    // there at 0:17. T2 fills from 0:22 on, 1,500 gal being there: gone after 1500 / 900 min with 1,666.7, and
    // the other 333.3 come at 100 gpm: 5 min in all.
    let told = open_dump_site()
        .pond(|site| {
            (site.volume, site.recharge) = (Some(2000.0), 100.0);
            site.back = road(20.0);
        })
        .tanker("T1", 2000.0, 0.0)
        .tanker("T2", 2000.0, 1.0)
        .watched(28.0)
        .told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | dump -0:02 | out -0:07 | fill -0:09 | back ...");
    assert_eq!(
        told.tanker("T2"),
        "T2 comes 0:01 | dump -0:03 | stand by -0:17 | out -0:22 | fill -0:27 | back ..."
    );
    assert_close(told.result.taken[0], 4000.0, "taken from the Pond");
}

#[test]
fn t08_a_site_gone_dry_for_good_is_never_chosen_again() {
    // T1(2000) 0:00     Pond{1000} 1,500 gal, 5 out 5 back, Lake{1000} 20 out 20 back
    // The Pond has half a load and more for T1, 1,500 gal; then nothing.
    let told = open_dump_site()
        .pond(|site| site.volume = Some(1500.0))
        .fill_site("Lake", 20.0, 20.0)
        .tanker("T1", 2000.0, 0.0)
        .watched(18.0)
        .told();
    assert_eq!(
        told.tanker("T1"),
        "T1 comes 0:00 | dump -0:02 | out Pond -0:07 | fill -0:08:30 | back -0:13:30 \
         | dump -0:15 | out Lake ..."
    );
}

#[test]
fn t09_what_has_been_taken_so_far_is_gone() {
    // As t05 with 4,900 gal: at 11.5 the Pond holds 2,400, less the 1,500 T1 still takes: 900, not half of T2's 2,000.
    let told = open_dump_site()
        .pond(|site| site.volume = Some(4900.0))
        .fill_site("Lake", 20.0, 20.0)
        .tanker("T1", 4000.0, 0.0)
        .tanker("T2", 2000.0, 9.5)
        .watched(15.0)
        .told();
    assert_eq!(told.tanker("T2"), "T2 comes 0:09:30 | dump -0:11:30 | out Lake ...");
}

#[test]
fn t10_it_leaves_the_moment_enough_has_run_in() {
    // T1(2000) 0:00     Pond{1000} 2,500 gal, recharge 40 gpm, 5 out 5 back
    // 2,000 gal taken from 0:07 to 0:09, and 80 run in meanwhile: 580, at 0:16 860. The 140 gal to half of T1's
    // capacity take 3.5 min.
    let told = open_dump_site()
        .pond(|site| (site.volume, site.recharge) = (Some(2500.0), 40.0))
        .tanker("T1", 2000.0, 0.0)
        .watched(20.5)
        .told();
    assert_eq!(
        told.tanker("T1"),
        "T1 comes 0:00 | dump -0:02 | out -0:07 | fill -0:09 | back -0:14 | dump -0:16 \
         | stand by -0:19:30 | out ..."
    );
}
