//! Pulling clear with a rest: who stands at a full drop tank with little left does not wait there.

use crate::common::assert_close;
use crate::common::world::{World, fixed};
use shuttle_sim::{FillOrder, TimeTaken};

/// A drop tank of this capacity from which nothing is drafted in these hours.
fn undrafted(gal: f64) -> World {
    World::new().supply_engine(5000.0, 0.0).first_tank(|tank| tank.capacity = gal)
}

#[test]
fn s01_with_no_more_than_a_tenth_of_its_full_load_left_a_tanker_pulls_clear_and_fills_up_the_rest()
{
    // T1(2000) 0:00 -> [1900], nothing drawn; clear 0:15     Pond{1000} 5 out 5 back
    // Full at 1.9, with 100 gal in T1. It takes 1,900 gal. Back with 2,000 it stands at the full tank.
    let told = undrafted(1900.0)
        .tanker("T1", 2000.0, 0.0)
        .handling(|handling| handling.dump_clear = fixed(0.25))
        .watched(20.0)
        .told();
    assert_eq!(
        told.tanker("T1"),
        "T1 comes 0:00 | dump -0:01:54 | clear -0:02:09 | out -0:07:09 | fill -0:09:03 \
         | back -0:14:03 | dump ..."
    );
    assert_eq!(told.result.tankers[0].trips, 1, "the trip counts like any other");
    assert_close(told.result.taken[0], 1900.0, "taken from the Pond");
    assert_close(told.result.tankers[0].delivered, 1900.0, "delivered by T1");
}

#[test]
fn s02_with_more_it_stays() {
    // T1(2000) 0:00 -> [1700], nothing drawn: 300 gal left. And [1790]: 210.
    let world = |gal| undrafted(gal).tanker("T1", 2000.0, 0.0).watched(20.0).told().tanker("T1");
    assert_eq!(world(1700.0), "T1 comes 0:00 | dump ...");
    assert_eq!(world(1790.0), "T1 comes 0:00 | dump ...");
    // [1810]: 190.
    assert!(world(1810.0).starts_with("T1 comes 0:00 | dump -0:01:48.6 | out -0:06:48.6 | fill "));
}

#[test]
fn s03_the_tenth_and_the_next_fill_are_shares_of_the_full_load_not_of_the_capacity() {
    // T1(2000, waste 0.1): a full load of 1,800 gal; [1710]: 90 left, a twentieth. The fill takes 0.95 x 2,000.
    let world = |gal| {
        undrafted(gal)
            .tanker_with("T1", 2000.0, 0.0, |tanker| tanker.waste = 0.1)
            .watched(20.0)
            .told()
    };
    let told = world(1710.0);
    assert_eq!(
        told.tanker("T1"),
        "T1 comes 0:00 | dump -0:01:42.6 | out -0:06:42.6 | fill -0:08:36.6 | back -0:13:36.6 | dump ..."
    );
    assert_close(told.result.taken[0], 1900.0, "taken from the Pond");
    // [1610]: 190 left are less than 200, but more than 180.
    assert_eq!(world(1610.0).tanker("T1"), "T1 comes 0:00 | dump ...");
}

#[test]
fn s04_while_anything_can_be_poured_it_stays_until_it_is_empty() {
    // T1(2000) 0:00 -> [1900] => E(10000) 50 gpm, no refill
    // Drawn from 0.3; full at 300 + 950 x (t - 0.3) = 1900, 1.98, with 16 gal left, which follow 50 gpm: all
    // 2,000 gal are poured when 1,900 + 50 x (t - 0.3) are: at 2.3.
    let told = World::new()
        .attack_flow(50.0)
        .engine_tank(10_000.0)
        .tank_refill(0.0)
        .first_tank(|tank| tank.capacity = 1900.0)
        .tanker("T1", 2000.0, 0.0)
        .watched(5.0)
        .told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | dump -0:02:18 | out ...");
}

#[test]
fn s05_a_pump_that_begins_to_draw_as_the_tank_is_full_lets_it_pour() {
    // T1(1600) 0:00 -> [1500], restart level 1500 => E(10000) 500 gpm, no refill
    // Full and drawn from at 1.5: prime comes before pulling clear. The other 100 gal follow 500 gpm.
    let told = World::new()
        .engine_tank(10_000.0)
        .tank_refill(0.0)
        .restart_level(1500.0)
        .first_tank(|tank| tank.capacity = 1500.0)
        .tanker("T1", 1600.0, 0.0)
        .watched(3.0)
        .told();
    assert_eq!(told.pump(), "hooked up 0:00 | primed 0:01:30");
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | dump -0:01:42 | out ...");
}

#[test]
fn s06_where_nurses_give_all_the_engine_takes_it_can_pour_nothing() {
    // T1(6000) 0:00 nurses ) 500 gpm ) E(1000) 500 gpm; T2(2000) 0:01 -> [1900] => hooked up 0:02
    // The pump may draw from 0:02 on, but the full engine takes T1's water only. T2 fills the tank by 2.9.
    let told = World::new()
        .nursing()
        .draft_setup(2.0)
        .first_tank(|tank| tank.capacity = 1900.0)
        .tanker("T1", 6000.0, 0.0)
        .tanker("T2", 2000.0, 1.0)
        .watched(6.0)
        .told();
    assert_eq!(told.pump(), "hooked up 0:02 | primed 0:02");
    assert_eq!(told.tanker("T2"), "T2 comes 0:01 | dump -0:02:54 | out ...");
    assert_eq!(told.tank_levels(1, &[2, 3, 6]), "0:02 1000 | 0:03 1900 | 0:06 1900");
}

#[test]
fn s07_who_can_break_off_does_not_pull_clear() {
    // E comes 1.5, water on at once, 500 gpm; T1(1600) 0:00 -> [1500] is full then, with 100 gal left. The
    // intake is free: it nurses them, 0.2 min.
    let told = World::new()
        .nursing()
        .engine_comes(1.5, 0.0)
        .draft_setup(60.0)
        .first_tank(|tank| tank.capacity = 1500.0)
        .tanker("T1", 1600.0, 0.0)
        .watched(3.0)
        .told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | dump -0:01:30 | nurse -0:01:42 | out ...");
}

#[test]
fn s08_several_may_pull_clear_in_one_instant() {
    // T1, T2(1600) 0:00 -> [3000] 2 positions, restart level 3000; E comes 0:30 and drafts after that
    // T1's load does not bring the restart level, so T2 dumps beside it. Full at 1.5, with 100 gal in each.
    let told = World::new()
        .nursing()
        .engine_comes(30.0, 0.0)
        .restart_level(3000.0)
        .first_tank(|tank| tank.dump_positions = 2)
        .tanker("T1", 1600.0, 0.0)
        .tanker("T2", 1600.0, 0.0)
        .watched(5.0)
        .told();
    for name in ["T1", "T2"] {
        let expected = format!("{name} comes 0:00 | dump -0:01:30 | out -0:06:30 | ");
        assert!(told.tanker(name).starts_with(&expected), "{}", told.tanker(name));
    }
}

#[test]
fn s09_one_that_clears_with_a_rest_is_no_longer_at_the_tank() {
    // T1(2000) 0:00, T2(2000) 0:01 -> [1900] 2 positions, nothing drawn; clear 1:00
    // T2 waits while T1 is at the tank. From 1.9 it stands there itself.
    let told = undrafted(1900.0)
        .first_tank(|tank| tank.dump_positions = 2)
        .tanker("T1", 2000.0, 0.0)
        .tanker("T2", 2000.0, 1.0)
        .handling(|handling| handling.dump_clear = fixed(1.0))
        .watched(5.0)
        .told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | dump -0:01:54 | clear -0:02:54 | out ...");
    assert_eq!(told.tanker("T2"), "T2 comes 0:01 | wait -0:01:54 | dump ...");
}

#[test]
fn s10_its_next_load_is_a_full_one() {
    // T1(2000) 0:00 -> [1900] => hooked up 0:11, E(20000) 500 gpm, no refill
    // 100 gal left at 1.9: out -6.9, 1,900 gal -8.8, back -13.8. There are 500 gal in the drop tank then, and
    // T1 dumps 2,000 in 2 min.
    let told = World::new()
        .engine_tank(20_000.0)
        .tank_refill(0.0)
        .draft_setup(11.0)
        .first_tank(|tank| tank.capacity = 1900.0)
        .tanker("T1", 2000.0, 0.0)
        .watched(17.0)
        .told();
    assert_eq!(
        told.tanker("T1"),
        "T1 comes 0:00 | dump -0:01:54 | out -0:06:54 | fill -0:08:48 | back -0:13:48 \
         | dump -0:15:48 | out ..."
    );
    assert_close(told.result.tankers[0].delivered, 1900.0 + 2000.0, "delivered by T1");
    assert_close(told.result.balance(), 0.0, "water balance");
}

#[test]
fn s11_a_rest_carried_away_is_in_the_water_balance() {
    // As s01 with waste 0.1 and [1710]; at 0:05 T1 is on the road with 90 gal.
    let world = |minutes| {
        undrafted(1710.0)
            .tanker_with("T1", 2000.0, 0.0, |tanker| tanker.waste = 0.1)
            .watched(minutes)
            .told()
            .result
    };
    // On the road, filling, and back.
    for minutes in [5.0, 8.0, 15.0] {
        assert_close(world(minutes).balance(), 0.0, "water balance");
    }
    assert_close(world(5.0).remaining, 1710.0, "still there: the engine's water is gone");
}

#[test]
fn s12_a_load_that_was_no_more_than_a_tenth_to_begin_with_is_not_carried_away() {
    // T1(1000), T2(2000) 0:00, both assigned -> [3000] 2 positions, nothing drawn
    // Pond{1000} 2,050 gal, 2 positions, one by one, out 5 or 7.5, 5 back; told is a run in which T1 takes 7.5
    // and T2 5. T2 fills from 0:07 to 0:09 and disconnects for an hour; T1, there since 8.5, has the last 50
    // gal by 9.05. With them it stands at the full drop tank.
    let told = undrafted(3000.0)
        .first_tank(|tank| tank.dump_positions = 2)
        .pond(|site| {
            (site.volume, site.positions) = (Some(2050.0), 2);
            site.fill_order = FillOrder::OneByOne;
            site.out.time = TimeTaken::Samples(vec![5.0, 7.5]);
        })
        .tanker("T1", 1000.0, 0.0)
        .tanker_with("T2", 2000.0, 0.0, |tanker| tanker.handling.fill_disconnect = fixed(60.0))
        .every_tanker(|tanker| tanker.fill_site = Some(0))
        .watched(20.0)
        .told_where(|told| {
            told.tanker("T1").contains("out -0:08:30 ") && told.tanker("T2").contains("out -0:07 ")
        });
    assert_eq!(
        told.tanker("T1"),
        "T1 comes 0:00 | dump -0:01 | out -0:08:30 | fill -0:09:03 | back -0:14:03 | dump ..."
    );
}

#[test]
fn s13_at_any_drop_tank() {
    // T1(1000) 0:00 -> tank 1 [1000]; T2(2000) 0:01 -> tank 2 [1900] => 500 gpm => tank 1; nothing drawn
    // Tank 1 is full at 0:01 and takes no transfer; tank 2 is full at 2.9, with 100 gal in T2.
    let told = undrafted(1000.0)
        .drop_tank(1900.0)
        .tanker("T1", 1000.0, 0.0)
        .tanker("T2", 2000.0, 1.0)
        .watched(6.0)
        .told();
    assert_eq!(told.tanker("T2"), "T2 comes 0:01 | dump in 2 -0:02:54 | out ...");
}

#[test]
fn s14_it_chooses_its_fill_site_by_what_it_lacks() {
    // T1(2000) 0:00 -> [1900], nothing drawn: 1,900 gal to fill
    // Pond{500} 5 out 5 back: 3.8 + 10 = 13.8. Lake{1000} 5.97 out 5.97 back: 1.9 + 11.94 = 13.84. A whole fill
    // would take 14 and 13.94.
    let world = |gal| {
        undrafted(gal)
            .pond(|site| site.flow = 500.0)
            .fill_site("Lake", 5.97, 5.97)
            .tanker("T1", 2000.0, 0.0)
            .watched(5.0)
            .told()
            .tanker("T1")
    };
    assert_eq!(world(1900.0), "T1 comes 0:00 | dump -0:01:54 | out Pond ...");
    assert_eq!(world(2000.0), "T1 comes 0:00 | dump -0:02 | out Lake ...");
}
