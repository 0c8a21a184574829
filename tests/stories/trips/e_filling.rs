//! At the fill site: positions, how the flow is shared, water that runs out.

use crate::common::assert_close;
use crate::common::telling::{Telling, clock};
use crate::common::world::{World, fixed, open_dump_site};
use shuttle_sim::{Doing, DumpCurve, FillOrder, TimeTaken};

#[test]
fn e01_one_queue_for_the_positions_each_held_from_connect_to_disconnect() {
    // T1(2000) 0:00, T2(2000) 0:01     Pond{1000} 5 out 5 back, 1 position, connect 1:00, disconnect 0:30
    let told = open_dump_site()
        .tanker("T1", 2000.0, 0.0)
        .tanker("T2", 2000.0, 1.0)
        .handling(|handling| {
            handling.fill_connect = fixed(1.0);
            handling.fill_disconnect = fixed(0.5);
        })
        .watched(15.0)
        .told();
    assert_eq!(
        told.tanker("T1"),
        "T1 comes 0:00 | dump -0:02 | out -0:07 | connect -0:08 | fill -0:10 | disconnect -0:10:30 \
         | back ..."
    );
    assert_eq!(
        told.tanker("T2"),
        "T2 comes 0:01 | dump -0:03 | out -0:08 | wait to fill -0:10:30 | connect -0:11:30 \
         | fill -0:13:30 | disconnect -0:14 | back ..."
    );
}

#[test]
fn e02_nobody_connects_before_the_site_is_ready() {
    // T1(2000) 0:01, T2(2000) 0:00     Pond{1000} 5 out 5 back, ready 0:20
    let told = open_dump_site()
        .pond(|site| site.ready = fixed(20.0))
        .tanker("T1", 2000.0, 1.0)
        .tanker("T2", 2000.0, 0.0)
        .watched(26.0)
        .told();
    assert_eq!(
        told.tanker("T2"),
        "T2 comes 0:00 | dump -0:02 | out -0:07 | wait to fill -0:20 | fill -0:22 | back ..."
    );
    assert_eq!(
        told.tanker("T1"),
        "T1 comes 0:01 | dump -0:03 | out -0:08 | wait to fill -0:22 | fill -0:24 | back ..."
    );
}

#[test]
fn e03_shared_the_flow_is_divided_fairly_and_what_one_cannot_take_goes_to_the_others() {
    // T1(2000) takes 200 gpm, T2 and T3(2000) up to 1000     Pond{1000} 5 out 5 back, 3 positions
    // From 0:07: T1 200, the others 400 each: 5 min. T1 goes on at 200 gpm: 10 min.
    let told = open_dump_site()
        .pond(|site| site.positions = 3)
        .tanker_with("T1", 2000.0, 0.0, |tanker| tanker.fill_limit = Some(200.0))
        .tanker("T2", 2000.0, 0.0)
        .tanker("T3", 2000.0, 0.0)
        .watched(18.0)
        .told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | dump -0:02 | out -0:07 | fill -0:17 | back ...");
    for name in ["T2", "T3"] {
        assert_eq!(
            told.tanker(name),
            format!(
                "{name} comes 0:00 | dump -0:02 | out -0:07 | fill -0:12 | back -0:17 | dump ..."
            )
        );
    }
}

#[test]
fn e04_who_is_left_takes_up_the_flow_of_who_is_full() {
    // T1(2000), T2(1000), both from 0:00, T2 dumping 500 gpm     Pond{1000} 5 out 5 back, 2 positions
    // Shared, 500 gpm each from 0:07. T2 is full at 0:09; T1's other 1,000 gal then run at 1,000 gpm.
    let told = open_dump_site()
        .pond(|site| site.positions = 2)
        .tanker("T1", 2000.0, 0.0)
        .tanker_with("T2", 1000.0, 0.0, |tanker| tanker.dump_rate = 500.0)
        .watched(13.0)
        .told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | dump -0:02 | out -0:07 | fill -0:10 | back ...");
    assert_eq!(told.tanker("T2"), "T2 comes 0:00 | dump -0:02 | out -0:07 | fill -0:09 | back ...");
}

#[test]
fn e05_one_by_one_the_first_takes_all_it_can_the_next_what_is_left() {
    // T1(2100) takes up to 700 gpm, T2(2000) and T3(2000) up to 1000; each dumps in 1 min; 0:00, 0:01, 0:02
    // Pond{1000} 5 out 5 back, 3 positions, one by one
    // T1 from 0:06 at 700: 3 min, to 0:09. T2 from 0:07 at 300: 600 gal by 0:09, the rest at 1,000:
    // to 0:10:24. T3 from 0:08 gets nothing until then: 2 min more.
    let told = open_dump_site()
        .pond(|site| {
            site.positions = 3;
            site.fill_order = FillOrder::OneByOne;
        })
        .tanker_with("T1", 2100.0, 0.0, |tanker| {
            tanker.fill_limit = Some(700.0);
            tanker.dump_rate = 2100.0;
        })
        .tanker_with("T2", 2000.0, 1.0, |tanker| tanker.dump_rate = 2000.0)
        .tanker_with("T3", 2000.0, 2.0, |tanker| tanker.dump_rate = 2000.0)
        .watched(13.0)
        .told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | dump -0:01 | out -0:06 | fill -0:09 | back ...");
    assert_eq!(
        told.tanker("T2"),
        "T2 comes 0:01 | dump -0:02 | out -0:07 | fill -0:10:24 | back ..."
    );
    assert_eq!(
        told.tanker("T3"),
        "T3 comes 0:02 | dump -0:03 | out -0:08 | fill -0:12:24 | back ..."
    );
}

#[test]
fn e06_a_tanker_at_a_site_gone_dry_leaves_with_what_it_has() {
    // T1(2000) 0:00, T2(2000, waste 0.25) 0:01, both assigned     Pond{1000} 3,000 gal, 5 out 5 back
    // T2: 1,500 gal delivered by 0:02:30; the Pond has half of 2,000 gal for it beside T1's fill. There
    // 0:07:30, it waits for T1 to 0:09. It gets the last 1,000 gal in 1 min, and of these delivers 750:
    // 0.75 min. Then there is nothing left for it.
    let told = open_dump_site()
        .pond(|site| site.volume = Some(3000.0))
        .tanker("T1", 2000.0, 0.0)
        .tanker_with("T2", 2000.0, 1.0, |tanker| tanker.waste = 0.25)
        .every_tanker(|tanker| tanker.fill_site = Some(0))
        .watched(17.0)
        .told();
    assert_eq!(
        told.tanker("T2"),
        "T2 comes 0:01 | dump -0:02:30 | out -0:07:30 | wait to fill -0:09 | fill -0:10 \
         | back -0:15 | dump -0:15:45 | stand by ..."
    );
    assert_close(told.result.taken[0], 3000.0, "taken from the Pond");
    assert_close(told.result.tankers[1].delivered, 1500.0 + 750.0, "delivered by T2");
}

#[test]
fn e07_a_part_load_runs_out_by_gravity_as_the_end_of_a_full_one() {
    // T1(3000, gravity, 1000 gpm, residual 0.1) assigned     Pond{1000} 1,500 gal, 5 out 5 back
    // v0 stays that of the full tank, 3,000: 1,500 gal taken give v = 1,800 to begin with and 300
    // to end with: T (sqrt(1800 / 3000) - sqrt(300 / 3000)).
    let told = open_dump_site()
        .pond(|site| site.volume = Some(1500.0))
        .tanker_with("T1", 3000.0, 0.0, |tanker| {
            tanker.dump_curve = DumpCurve::Gravity;
            tanker.residual = 0.1;
            tanker.fill_site = Some(0);
        })
        .watched(20.0)
        .told();
    let t = 0.9 * 3000.0 / (1000.0 * (1.0 - 0.1_f64.sqrt()));
    let begins = told.began("T1", Doing::Dumping(0))[1];
    let ends = told.began("T1", Doing::Clearing(0))[1];
    // The full load is gone at v = 300, a tenth of v0: at 2.7 min. Then out 5, fill 1.5, back 5.
    assert_close(begins, 2.7 + 11.5, "begin of the part dump");
    assert_close(ends - begins, t * (0.6_f64.sqrt() - 0.1_f64.sqrt()), "length of the part dump");
}

#[test]
fn e08_where_recharge_runs_in_filling_goes_on_at_it_when_the_volume_is_gone() {
    // T1(2000) 0:00     Pond{1000} 1,100 gal, recharge 200 gpm, 5 out 5 back
    // From 0:07 the Pond loses 1,000 - 200 gpm: nothing left after 1100 / 800 = 1.375 min, when T1 has
    // 1,375 gal. The other 625 come at 200 gpm: 3.125 min, to 0:11:30.
    let told = open_dump_site()
        .pond(|site| (site.volume, site.recharge) = (Some(1100.0), 200.0))
        .tanker("T1", 2000.0, 0.0)
        .watched(12.0)
        .told();
    assert_eq!(
        told.tanker("T1"),
        "T1 comes 0:00 | dump -0:02 | out -0:07 | fill -0:11:30 | back ..."
    );
    assert_close(told.result.taken[0], 2000.0, "taken from the Pond");
}

#[test]
fn e09_one_by_one_it_goes_on_so_for_who_is_left() {
    // T1(2000) 0:00, T2(1000) 1.5 min, both assigned     Pond{1000} 2,600 gal, recharge 100 gpm, 5 out 5 back,
    // 2 positions, one by one
    // T1 takes all 1,000 gpm from 0:07 to 0:09, T2, there since 7.5, from then on. The Pond holds 800
    // gal at 0:09 and loses 900 gpm: gone after 8/9 min, when T2 has 888.9 gal. The other 111.1 come at
    // 100 gpm, 1.11 min: to 0:11.
    let told = open_dump_site()
        .pond(|site| {
            (site.volume, site.recharge) = (Some(2600.0), 100.0);
            (site.positions, site.fill_order) = (2, FillOrder::OneByOne);
        })
        .tanker("T1", 2000.0, 0.0)
        .tanker("T2", 1000.0, 1.5)
        .every_tanker(|tanker| tanker.fill_site = Some(0))
        .watched(13.0)
        .told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | dump -0:02 | out -0:07 | fill -0:09 | back ...");
    assert_eq!(
        told.tanker("T2"),
        "T2 comes 0:01:30 | dump -0:02:30 | out -0:07:30 | fill -0:11 | back ..."
    );
}

#[test]
fn e10_all_who_fill_when_the_site_goes_dry_for_good_leave_with_what_they_have() {
    // T1, T2(2000) 0:00, both assigned     Pond{1000} 3,000 gal, 5 out 5 back, 2 positions, shared
    // 500 gpm each from 0:07: dry at 0:10, 1,500 gal each, dumped in 1.5 min. Then they stand by.
    let told = open_dump_site()
        .pond(|site| (site.positions, site.volume) = (2, Some(3000.0)))
        .tanker("T1", 2000.0, 0.0)
        .tanker("T2", 2000.0, 0.0)
        .every_tanker(|tanker| tanker.fill_site = Some(0))
        .watched(18.0)
        .told();
    for name in ["T1", "T2"] {
        assert_eq!(
            told.tanker(name),
            format!(
                "{name} comes 0:00 | dump -0:02 | out -0:07 | fill -0:10 | back -0:15 \
                 | dump -0:16:30 | stand by ..."
            )
        );
    }
}

/// T1(1000) and T2(2000) 0:00, both assigned     Pond{1000} 2,000 gal, out 5 or `late`, 5 back
///
/// T1 is empty at 0:01 and T2 at 0:02, and by what is planned the Pond has enough for T1 and half of
/// T2's capacity besides: both drive out. Told is a run in which T2 overtakes T1, which takes `late`
/// minutes: from 0:07 to 0:09 T2 takes all there is.
fn overtaken(late: f64, change: impl FnOnce(World) -> World) -> Telling {
    let world = open_dump_site()
        .pond(|site| {
            site.volume = Some(2000.0);
            site.out.time = TimeTaken::Samples(vec![5.0, late]);
        })
        .tanker("T1", 1000.0, 0.0)
        .tanker("T2", 2000.0, 0.0)
        .every_tanker(|tanker| tanker.fill_site = Some(0))
        .watched(30.0);
    let late = format!("out -{}", clock(1.0 + late));
    change(world).told_where(|told| {
        told.tanker("T1").contains(&late) && told.tanker("T2").contains("out -0:07 ")
    })
}

#[test]
fn e11_who_waits_at_a_site_when_it_goes_dry_for_good_leaves_at_once() {
    // T1 comes at 1 + 7.5 and waits for T2's position; at 0:09 the Pond is dry.
    let told = overtaken(7.5, |world| world.watched(12.0));
    assert_eq!(
        told.tanker("T1"),
        "T1 comes 0:00 | dump -0:01 | out -0:08:30 | wait to fill -0:09 | back ..."
    );
}

#[test]
fn e12_who_comes_to_a_site_gone_dry_for_good_leaves_at_once() {
    // T1 comes at 1 + 20.
    let told = overtaken(20.0, |world| world.watched(23.0));
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | dump -0:01 | out -0:21 | back ...");
}

#[test]
fn e13_who_connects_while_the_site_goes_dry_for_good_does_so_first_and_leaves() {
    // T2(2000) 0:00, connects for 6:00; T1(4000) 0:02, dumps in 0:30     Pond{1000} 4,000 gal, 5 out 5 back, 2 positions
    // T2 leaves at 0:02; at 0:02:30 the Pond has 2,000 gal beside T2's fill, half of T1's capacity. T1, there at
    // 0:07:30, takes all there is by 0:11:30, and at 0:13 there is nothing left for T2.
    let told = open_dump_site()
        .pond(|site| (site.positions, site.volume) = (2, Some(4000.0)))
        .tanker_with("T2", 2000.0, 0.0, |tanker| tanker.handling.fill_connect = fixed(6.0))
        .tanker_with("T1", 4000.0, 2.0, |tanker| tanker.dump_rate = 8000.0)
        .watched(15.0)
        .told();
    assert_eq!(
        told.tanker("T1"),
        "T1 comes 0:02 | dump -0:02:30 | out -0:07:30 | fill -0:11:30 | back ..."
    );
    assert_eq!(
        told.tanker("T2"),
        "T2 comes 0:00 | dump -0:02 | out -0:07 | connect -0:13 | back ..."
    );
}
