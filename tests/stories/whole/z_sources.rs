//! Who pumps at the source, who fills himself, and who drives slower than others.

use crate::common::assert_close;
use crate::common::telling::Telling;
use crate::common::world::{World, comes_at, fixed, open_dump_site, road};
use shuttle_sim::{Brought, Doing, FillSite, Luck, SourcePump};

/// A pump of its own vehicle, at the source after `response` minutes.
fn pump(response: f64, setup: f64) -> Option<SourcePump> {
    let name = "Engine 12".to_string();
    Some(SourcePump { name, brought: Brought::Itself(comes_at(response)), setup: fixed(setup) })
}

fn drawn(world: &World) -> Telling {
    world.told_with(Luck::Drawn { seed: 2026, replication: 0 })
}

#[test]
fn z01_a_tanker_may_take_longer_on_the_same_road() {
    // T1(2000) 0:00 -> [20000]     Pond{1000} 5 out 5 back; T1 drives a fifth longer: 6 and 6.
    let world = open_dump_site().watched(20.0);
    let told = world
        .tanker_with("T1", 2000.0, 0.0, |tanker| tanker.drive_factor = 1.2)
        .tanker("T2", 2000.0, 0.0)
        .pond(|site| site.positions = 2)
        .pond(|site| site.flow = 2000.0)
        .told();
    assert_eq!(
        told.tanker("T1"),
        "T1 comes 0:00 | dump -0:02 | out -0:08 | fill -0:10 | back -0:16 | dump -0:18 | out ..."
    );
    assert_eq!(
        told.tanker("T2"),
        "T2 comes 0:00 | dump -0:02 | out -0:07 | fill -0:09 | back -0:14 | dump -0:16 | out ..."
    );
}

#[test]
fn z02_the_boss_reckons_with_each_tankers_own_driving() {
    // Pond{500} 5 out 5 back: 5 + 4 + 5 = 14 min.   Lake{1000} 6:30 out 6:30 back: 6.5 + 2 + 6.5 = 15 min.
    // At half the driving time: Pond 2.5 + 4 + 2.5 = 9, Lake 3.25 + 2 + 3.25 = 8.5.
    let world = |factor: f64| {
        open_dump_site()
            .pond(|site| site.flow = 500.0)
            .fill_site("Lake", 6.5, 6.5)
            .tanker_with("T1", 2000.0, 0.0, |tanker| tanker.drive_factor = factor)
            .watched(12.0)
    };
    assert_eq!(world(1.0).told().began("T1", Doing::TravelingOut(0)), [2.0]);
    assert_eq!(world(0.5).told().began("T1", Doing::TravelingOut(1)), [2.0]);
}

#[test]
fn z03_a_source_serves_once_its_pump_has_come_and_is_set_up() {
    // T1(2000) 0:00 -> [20000]     Pond{1000} 5 out 5 back; its engine is there 0:12, set up 0:15.
    let told = open_dump_site()
        .pond(|site| site.source_pump = pump(12.0, 3.0))
        .tanker("T1", 2000.0, 0.0)
        .watched(20.0)
        .told();
    assert_eq!(
        told.tanker("T1"),
        "T1 comes 0:00 | dump -0:02 | out -0:07 | wait to fill -0:15 | fill -0:17 | back ..."
    );
}

#[test]
fn z04_a_unit_may_bring_the_pump() {
    // T2(1000), there 0:10, brings the pump: 4 minutes later it works.
    let told = open_dump_site()
        .tanker("T1", 2000.0, 0.0)
        .tanker("T2", 1000.0, 10.0)
        .pond(|site| {
            site.source_pump = Some(SourcePump {
                name: "Portable pump".to_string(),
                brought: Brought::ByTanker(1),
                setup: fixed(4.0),
            });
        })
        .watched(20.0)
        .told();
    assert_eq!(
        told.tanker("T1"),
        "T1 comes 0:00 | dump -0:02 | out -0:07 | wait to fill -0:14 | fill -0:16 | back ..."
    );
}

#[test]
fn z05_a_pump_that_stays_away_is_known_to_when_it_should_have_come() {
    // The Pond's engine should come 0:12 and does not. T1(2000) has gone there and waits on; T2(2000), empty at 0:22,
    // knows better: it stands by, or goes to the Lake.
    let world = open_dump_site()
        .pond(|site| {
            site.source_pump = pump(12.0, 3.0).map(|mut pump| {
                let mut call = comes_at(12.0);
                call.turnout = 0.0;
                pump.brought = Brought::Itself(call);
                pump
            });
        })
        .tanker("T1", 2000.0, 0.0)
        .tanker("T2", 2000.0, 20.0)
        .watched(40.0);
    let told = drawn(&world);
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | dump -0:02 | out -0:07 | wait to fill ...");
    assert_eq!(told.tanker("T2"), "T2 comes 0:20 | dump -0:22 | stand by ...");
    let expected = "attack engine 0:00 | first water 0:00 | drop tank 1 there 0:00 \
                    | drop tank 1 ready 0:00 | pump at Pond missed 0:12";
    assert_eq!(told.arrivals(), expected);
    let told = drawn(&world.fill_site("Lake", 10.0, 10.0));
    assert_eq!(told.began("T2", Doing::TravelingOut(1)), [22.0]);
}

/// T1(2000) fills itself at 400 gpm, T2(2000) is filled; both leave 0:02.     Pond{500} 5 out 5 back, 2 positions
fn one_fills_itself(site: impl Fn(&mut FillSite)) -> World {
    open_dump_site()
        .tanker_with("T1", 2000.0, 0.0, |tanker| tanker.self_fill = Some(400.0))
        .tanker("T2", 2000.0, 0.0)
        .pond(|pond| {
            (pond.flow, pond.positions, pond.self_fill) = (500.0, 2, true);
            site(pond);
        })
        .watched(20.0)
}

#[test]
fn z06_who_fills_himself_needs_no_pump_at_the_source() {
    // The Pond's engine comes 0:30. T1 takes 400 gpm from 0:07 on, 5 minutes; T2 waits.
    let world = one_fills_itself(|pond| pond.source_pump = pump(30.0, 0.0));
    let told = world.told();
    assert_eq!(
        told.tanker("T1"),
        "T1 comes 0:00 | dump -0:02 | out -0:07 | fill -0:12 | back -0:17 | dump -0:19 | out ..."
    );
    assert_eq!(told.tanker("T2"), "T2 comes 0:00 | dump -0:02 | out -0:07 | wait to fill ...");
    // Where its hose does not reach the water it waits like others.
    let told = world.pond(|pond| pond.self_fill = false).told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | dump -0:02 | out -0:07 | wait to fill ...");
}

#[test]
fn z07_it_fills_beside_what_the_source_gives() {
    // T2 has the 500 gpm to itself, 4 minutes; T1 its own 400, 5 minutes.
    let told = one_fills_itself(|_| ()).told();
    assert_eq!(told.began("T2", Doing::TravelingBack), [11.0]);
    assert_eq!(told.began("T1", Doing::TravelingBack), [12.0]);
}

#[test]
fn z08_the_water_is_the_same_for_all() {
    // 3,000 gal at 900 gpm are gone after 3:20, at 0:10:20: T1 has 1,333 gal, T2 1,667; both leave with that.
    let told = one_fills_itself(|pond| pond.volume = Some(3000.0)).told();
    assert_close(told.began("T1", Doing::TravelingBack)[0], 10.0 + 1.0 / 3.0, "T1 leaves");
    assert_close(told.began("T2", Doing::TravelingBack)[0], 10.0 + 1.0 / 3.0, "T2 leaves");
    assert_close(told.result.taken[0], 3000.0, "taken");
    let delivered: Vec<f64> = told.result.tankers.iter().map(|one| one.delivered).collect();
    assert_close(delivered[0], 2000.0 + 4000.0 / 3.0, "T1 delivers");
    assert_close(delivered[1], 2000.0 + 5000.0 / 3.0, "T2 delivers");
}

#[test]
fn z09_a_pump_to_come_is_why() {
    // As in the stories of causes short at 0:06, when T1 waits at the Pond from 0:05, its engine to come 0:30.
    let told = World::new()
        .throttling()
        .tank_refill(0.0)
        .pond(|site| (site.out, site.source_pump) = (road(3.0), pump(30.0, 0.0)))
        .tanker("T1", 2000.0, 0.0)
        .watched(10.0)
        .told();
    assert_eq!(told.reasons(), "source_not_ready: pump_to_come (Pond)");
}

#[test]
fn z10_the_boss_reckons_with_the_time_to_set_the_pump_up() {
    // The Pond's engine is there 0:12 and set up 0:15: back from the Pond at 15 + 2 + 5 = 0:22.
    // Lake: 2 + out + 2 + back, 0:21 or 0:23.
    let goes = |lake: f64| {
        open_dump_site()
            .pond(|site| site.source_pump = pump(12.0, 3.0))
            .fill_site("Lake", lake, lake)
            .tanker("T1", 2000.0, 0.0)
            .watched(5.0)
            .told()
            .tanker("T1")
    };
    assert_eq!(goes(8.5), "T1 comes 0:00 | dump -0:02 | out Lake ...");
    assert_eq!(goes(9.5), "T1 comes 0:00 | dump -0:02 | out Pond ...");
}

#[test]
fn z11_of_two_who_fill_themselves_the_first_has_what_runs_in_first() {
    // T1(2000), T2(2000) fill themselves at 400 gpm from 0:07 on     Pond 3,000 gal, recharge 100 gpm, 2 positions
    // It loses 700 gpm: run down after 30/7 min, when each has 12,000/7 gal and wants 2,000/7 more. T1 has the
    // 100 gpm to itself for 20/7 min, to 7 + 50/7, then T2 for as long.
    let told = open_dump_site()
        .tanker("T1", 2000.0, 0.0)
        .tanker("T2", 2000.0, 0.0)
        .every_tanker(|tanker| tanker.self_fill = Some(400.0))
        .pond(|pond| {
            (pond.positions, pond.self_fill) = (2, true);
            (pond.volume, pond.recharge) = (Some(3000.0), 100.0);
        })
        .watched(20.0)
        .told();
    assert_close(told.began("T1", Doing::TravelingBack)[0], 7.0 + 50.0 / 7.0, "T1 leaves");
    assert_close(told.began("T2", Doing::TravelingBack)[0], 7.0 + 70.0 / 7.0, "T2 leaves");
}

#[test]
fn z12_who_fills_himself_does_not_wait_for_the_source() {
    // As z09, and T1 fills itself at 400 gpm since 0:05: the haul is too long, not the Pond late.
    let told = World::new()
        .throttling()
        .tank_refill(0.0)
        .pond(|site| {
            (site.out, site.source_pump, site.self_fill) = (road(3.0), pump(30.0, 0.0), true);
        })
        .tanker_with("T1", 2000.0, 0.0, |tanker| tanker.self_fill = Some(400.0))
        .watched(10.0)
        .told();
    assert_eq!(told.reasons(), "haul_too_long");
}

#[test]
fn z13_a_pump_that_stays_away_closes_no_source_but_its_own() {
    // As z05, and the Lake, 10 out 10 back, has an engine of its own that comes 0:14. T2, empty at 0:22, goes there.
    let away = |name: &str, minute, turnout| {
        pump(minute, 0.0).map(|mut pump| {
            let mut call = comes_at(minute);
            call.turnout = turnout;
            (pump.name, pump.brought) = (name.to_string(), Brought::Itself(call));
            pump
        })
    };
    let world = open_dump_site()
        .pond(|site| site.source_pump = away("Engine 12", 12.0, 0.0))
        .fill_site_with("Lake", 10.0, 10.0, |site| site.source_pump = away("Engine 13", 14.0, 1.0))
        .tanker("T2", 2000.0, 20.0)
        .watched(36.0);
    assert_eq!(
        drawn(&world).tanker("T2"),
        "T2 comes 0:20 | dump -0:22 | out Lake -0:32 | fill -0:34 | back ..."
    );
}
