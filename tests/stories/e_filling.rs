//! At the fill site: positions, how the flow is shared, water that runs out.

use crate::common::assert_close;
use crate::common::world::{World, fixed};
use shuttle_sim::{Doing, DumpCurve, FillOrder};

/// A dump site at which nobody has to wait: [20000] with 9 positions, 100 gpm drawn.
fn open_dump_site() -> World {
    World::new().attack_flow(100.0).first_tank(|tank| {
        tank.capacity = 20_000.0;
        tank.dump_positions = 9;
    })
}

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
fn e03_the_flow_is_shared_fairly_and_what_one_cannot_take_goes_to_the_others() {
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
    // From 0:07 500 gpm each. T2 is full at 0:09; T1's other 1,000 gal then run at 1,000 gpm.
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
    // T2: 1,500 gal delivered by 0:02:30, there 0:07:30, waits for T1 to 0:09. It gets the last
    // 1,000 gal in 1 min, and of these delivers 750: 0.75 min.
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
         | back -0:15 | dump -0:15:45 | out ..."
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
fn e08_recharge_runs_into_a_limited_volume() {
    // T1(2000) 0:00, T2(2000) 0:01, both assigned     Pond{1000} 2,000 gal, recharge 100 gpm, 5 out 5 back
    // The Pond is full when T1 begins at 0:07 and holds 2000 - 2 x 900 = 200 at 0:09. T2, there since
    // 0:08, fills until those are gone: 200 / 900 min = 0:13.33, with 222.2 gal.
    let told = open_dump_site()
        .pond(|site| {
            site.volume = Some(2000.0);
            site.recharge = 100.0;
        })
        .tanker("T1", 2000.0, 0.0)
        .tanker("T2", 2000.0, 1.0)
        .every_tanker(|tanker| tanker.fill_site = Some(0))
        .watched(14.0)
        .told();
    assert_eq!(
        told.tanker("T2"),
        "T2 comes 0:01 | dump -0:03 | out -0:08 | wait to fill -0:09 | fill -0:09:13.33 | back ..."
    );
    assert_close(told.result.taken[0], 2000.0 + 2000.0 / 9.0, "taken from the Pond");
}

#[test]
fn e09_a_site_that_cannot_give_half_the_capacity_is_not_chosen() {
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
fn e10_it_is_half_of_the_tanker_s_own_capacity() {
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
fn e11_where_no_site_can_give_half_the_tanker_goes_nowhere() {
    // T1(2000) 0:00     Pond{1000} 900 gal, 5 out 5 back
    let told =
        open_dump_site().pond(|site| site.volume = Some(900.0)).tanker("T1", 2000.0, 0.0).told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | dump -0:02 | stand by ...");
    assert_close(told.result.taken[0], 0.0, "taken from the Pond");
}

#[test]
fn e12_who_waits_at_a_site_when_it_goes_dry_leaves_at_once() {
    // T1(2000) 0:00, T2(2000) 0:01, both assigned; connect 1:00     Pond{1000} 1,500 gal, 5 out 5 back
    // T1: there 0:07, fills from 0:08 and has the last gallon at 0:09:30. T2, in line since 0:08,
    // leaves then with what it has: nothing.
    let told = open_dump_site()
        .pond(|site| site.volume = Some(1500.0))
        .tanker("T1", 2000.0, 0.0)
        .tanker("T2", 2000.0, 1.0)
        .handling(|handling| handling.fill_connect = fixed(1.0))
        .every_tanker(|tanker| tanker.fill_site = Some(0))
        .watched(12.0)
        .told();
    assert_eq!(
        told.tanker("T1"),
        "T1 comes 0:00 | dump -0:02 | out -0:07 | connect -0:08 | fill -0:09:30 | back ..."
    );
    assert_eq!(
        told.tanker("T2"),
        "T2 comes 0:01 | dump -0:03 | out -0:08 | wait to fill -0:09:30 | back ..."
    );
}

#[test]
fn e13_who_comes_to_a_site_gone_dry_leaves_at_once() {
    // T1(2000) 0:00, T2(2000) 0:04, both assigned; connect 1:00     Pond{1000} 1,500 gal, 5 out 5 back
    // The Pond is dry at 0:09:30; T2 comes at 0:11.
    let told = open_dump_site()
        .pond(|site| site.volume = Some(1500.0))
        .tanker("T1", 2000.0, 0.0)
        .tanker("T2", 2000.0, 4.0)
        .handling(|handling| handling.fill_connect = fixed(1.0))
        .every_tanker(|tanker| tanker.fill_site = Some(0))
        .watched(15.0)
        .told();
    assert_eq!(told.tanker("T2"), "T2 comes 0:04 | dump -0:06 | out -0:11 | back ...");
}

#[test]
fn e14_all_who_fill_when_the_site_goes_dry_leave_with_what_they_have() {
    // T1, T2(2000) 0:00, both assigned     Pond{1000} 1,500 gal, 5 out 5 back, 2 positions
    // 500 gpm each from 0:07: dry at 0:08:30, 750 gal each, dumped in 0:45.
    let told = open_dump_site()
        .pond(|site| (site.positions, site.volume) = (2, Some(1500.0)))
        .tanker("T1", 2000.0, 0.0)
        .tanker("T2", 2000.0, 0.0)
        .every_tanker(|tanker| tanker.fill_site = Some(0))
        .watched(15.0)
        .told();
    for name in ["T1", "T2"] {
        assert_eq!(
            told.tanker(name),
            format!(
                "{name} comes 0:00 | dump -0:02 | out -0:07 | fill -0:08:30 | back -0:13:30 \
                 | dump -0:14:15 | out ..."
            )
        );
    }
}
