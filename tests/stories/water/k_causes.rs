//! Why an interruption began: the first that holds of where the water was.

use crate::common::world::{World, comes_at, fixed, road};
use shuttle_sim::{Brought, DraftLimitReason, Luck};

/// [3000] => E(1000) 500 gpm, no refill     Pond{1000} 3 out 5 back
///
/// With 2,000 gal dumped at 1,000 gpm from minute 0 the pump draws from 0.3 min, when the engine has
/// 850 gal; the drop tank is empty after 4 min, at 4.3, and the engine 850 / 500 = 1.7 min later:
/// the lines go short at 0:06, after the supply was established. The operator gates down, so prime is kept.
fn short_at_six() -> World {
    World::new().throttling().tank_refill(0.0).pond(|site| site.out = road(3.0)).watched(10.0)
}

#[test]
fn k01_not_come_while_no_water_is_on_scene_but_the_engines_own() {
    // E(1000) 500 gpm, no refill: empty at 0:02. T1(2000) at 0:05 -> [3000], draws from 0.3 min later.
    let world = World::new().tank_refill(0.0).tanker("T1", 2000.0, 5.0).watched(7.0);
    assert_eq!(world.told().interruptions(), "0:02-0:05:18 not_come, before supply");
    // A drop tank that is still to come is as good a reason.
    let late = |tank: &mut shuttle_sim::DropTank| tank.brought = Brought::Itself(comes_at(5.0));
    let told =
        World::new().tank_refill(0.0).first_tank(late).watched(4.0).tanker("T1", 2000.0, 3.0);
    assert_eq!(told.told().interruptions(), "0:02-0:04 not_come, before supply");
}

#[test]
fn k01b_with_water_on_scene_it_is_not_for_want_of_aid() {
    // T1(3000) 0:00 -> [3000] => at most 300 gpm => E(1000) 500 gpm        T2(2000) at 0:30
    // The draft is too small, and T2 still on its way would not help. (Empty at 4.55 min, see a07.)
    let world = World::new().draft_limit(300.0).tanker("T1", 3000.0, 0.0).watched(10.0);
    let told = world.tanker("T2", 2000.0, 30.0).told();
    assert_eq!(told.interruptions(), "0:04:33-0:10 draft_or_lay_too_small, after supply");
}

#[test]
fn k02_the_lay_can_be_too_small_as_well() {
    // T1(3000) 0:00 -> [3000] => lay carries 300 gpm => E(1000) 500 gpm
    let told = World::new()
        .limited_by(DraftLimitReason::Lay, 300.0)
        .tanker("T1", 3000.0, 0.0)
        .watched(10.0)
        .told();
    assert_eq!(told.interruptions(), "0:04:33-0:10 draft_or_lay_too_small, after supply");
}

/// T1(2000) 0:00, T2(2000) 0:05 -> [3000/200] => E(1000) 500 gpm, no refill, reprime 1:30
///
/// Prime is lost at 4.1 and the engine empty at 5.6 (see h01). T2 has brought 300 gal at 5.3, so
/// there is water, but no prime until 6.8.
fn water_but_no_prime() -> World {
    World::new()
        .tank_refill(0.0)
        .reprime(1.5)
        .first_tank(|tank| tank.unusable = 200.0)
        .tanker("T1", 2000.0, 0.0)
        .tanker("T2", 2000.0, 5.0)
        .watched(8.0)
}

#[test]
fn k03_prime_lost_with_water_there() {
    let told = water_but_no_prime().told();
    assert_eq!(told.interruptions(), "0:05:36-0:06:48 prime_lost, after supply");
}

#[test]
fn k04_prime_lost_comes_before_a_queue() {
    // As k03, and T1 stands in line at the Pond, 1 out, ready at 0:30.
    let told =
        water_but_no_prime().pond(|site| (site.out, site.ready) = (road(1.0), fixed(30.0))).told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | dump -0:02 | out -0:03 | wait to fill ...");
    assert_eq!(told.interruptions(), "0:05:36-0:06:48 prime_lost, after supply");
}

#[test]
fn k05_water_on_scene_and_a_pump_not_yet_hooked_up() {
    // T1(2000) 0:00 -> [3000] => supply engine there 0:00, setup 6:00 => E(1000) 500 gpm
    let told = World::new().supply_engine(0.0, 6.0).tanker("T1", 2000.0, 0.0).watched(7.0).told();
    assert_eq!(told.interruptions(), "0:02-0:06 draft_not_up, before supply");
}

#[test]
fn k06_a_queue_at_the_fill_site() {
    // T1(1000) 0:00, T2(1000) 0:01     Pond{100} 3 out: T1 fills from 0:04 to 0:14, T2 waits from 0:05
    let told = short_at_six()
        .pond(|site| site.flow = 100.0)
        .tanker("T1", 1000.0, 0.0)
        .tanker("T2", 1000.0, 1.0)
        .told();
    assert_eq!(told.interruptions(), "0:06-0:10 fill_site_queue, after supply");
}

#[test]
fn k07_a_tanker_waits_for_a_source_that_is_not_ready() {
    // T1(2000) 0:00     Pond 3 out, ready 0:30
    let told =
        short_at_six().pond(|site| site.ready = fixed(30.0)).tanker("T1", 2000.0, 0.0).told();
    assert_eq!(told.interruptions(), "0:06-0:10 source_not_ready, after supply");
}

#[test]
fn k08_a_queue_at_the_dump_site() {
    // T1(2000) 0:00, clear 10:00, holds the only position until 0:12; T2(2000) waits from 0:01
    let told = short_at_six()
        .tanker("T1", 2000.0, 0.0)
        .tanker("T2", 2000.0, 1.0)
        .handling(|handling| handling.dump_clear = fixed(10.0))
        .told();
    assert_eq!(told.interruptions(), "0:06-0:10 dump_site_queue, after supply");
}

#[test]
fn k09_also_where_tankers_wait_to_nurse() {
    // T1(3000) 0:00 ) 300 gpm ) E(1000) 500 gpm, 1 intake, no drop tank        T2(2000) waits from 0:01
    // The engine loses 200 gpm: empty at 0:05.
    let told = World::new()
        .no_drop_tank()
        .tanker_with("T1", 3000.0, 0.0, |tanker| tanker.pump_off = 300.0)
        .tanker("T2", 2000.0, 1.0)
        .watched(8.0)
        .told();
    assert_eq!(told.interruptions(), "0:05-0:08 dump_site_queue, after supply");
}

#[test]
fn k10_a_source_that_is_not_ready_comes_before_a_queue_at_the_dump_site() {
    // T1(1000) 0:00, waits at the Pond from 0:04 (ready 0:30)
    // T2(1000) 0:01, clear 10:00, holds the only position to 0:12; T3(2000) waits from 0:03
    let told = short_at_six()
        .pond(|site| site.ready = fixed(30.0))
        .tanker("T1", 1000.0, 0.0)
        .tanker_with("T2", 1000.0, 1.0, |tanker| tanker.handling.dump_clear = fixed(10.0))
        .tanker("T3", 2000.0, 3.0)
        .told();
    assert_eq!(told.tanker("T3"), "T3 comes 0:03 | wait ...");
    assert_eq!(told.interruptions(), "0:06-0:10 source_not_ready, after supply");
}

/// Drawn luck: breakdowns happen, and with a chance of 1 always.
const DRAWN: Luck = Luck::Drawn { seed: 7, replication: 0 };

#[test]
fn k11_a_tanker_out_of_service() {
    // T1(2000, breaks down after every trip) 0:00, for good; and with a repair of 20 min
    let world = |repair| {
        short_at_six().tanker_with("T1", 2000.0, 0.0, |tanker| {
            tanker.breakdown_per_trip = 1.0;
            tanker.repair = repair;
        })
    };
    let expected = "0:06-0:10 out_of_service, after supply";
    assert_eq!(world(None).told_with(DRAWN).interruptions(), expected);
    assert_eq!(world(Some(fixed(20.0))).told_with(DRAWN).interruptions(), expected);
}

#[test]
fn k12_a_queue_at_the_dump_site_comes_before_a_tanker_out_of_service() {
    // T1(1000, breaks down after every trip) 0:00
    // T2(1000) 0:01, clear 10:00, holds the only position to 0:12; T3(2000) waits from 0:03
    let told = short_at_six()
        .tanker_with("T1", 1000.0, 0.0, |tanker| tanker.breakdown_per_trip = 1.0)
        .tanker_with("T2", 1000.0, 1.0, |tanker| tanker.handling.dump_clear = fixed(10.0))
        .tanker("T3", 2000.0, 3.0)
        .told_with(DRAWN);
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | dump -0:01 | out of service ...");
    assert_eq!(told.interruptions(), "0:06-0:10 dump_site_queue, after supply");
}

#[test]
fn k13_else_the_haul_is_too_long_for_the_tankers_there_are() {
    // T1(2000) 0:00, on the road or filling when the water is gone
    let told = short_at_six().tanker("T1", 2000.0, 0.0).told();
    assert_eq!(told.interruptions(), "0:06-0:10 haul_too_long, after supply");
}

#[test]
fn k14_the_cause_is_read_when_the_interruption_begins() {
    // T1(2000) 0:00 stands in line at the Pond from 0:05 until it is ready at 0:09, then it fills:
    // the shortfall goes on to the end of the watch, and its cause stays the source.
    let told = short_at_six()
        .pond(|site| site.ready = fixed(9.0))
        .tanker("T1", 2000.0, 0.0)
        .watched(11.0)
        .told();
    assert_eq!(
        told.tanker("T1"),
        "T1 comes 0:00 | dump -0:02 | out -0:05 | wait to fill -0:09 | fill ..."
    );
    assert_eq!(told.interruptions(), "0:06-0:11 source_not_ready, after supply");
}

#[test]
fn k15_water_in_another_drop_tank_is_water_there() {
    // T1(2000) 0:00 -> tank 2 [3000]; tank 1 [3000] there 0:00, setup 20:00 => E(1000) 500 gpm
    // The engine is empty at 0:02; everything has arrived, but there is no draft yet.
    let told = World::new()
        .first_tank(|tank| tank.setup = fixed(20.0))
        .drop_tank(3000.0)
        .tanker("T1", 2000.0, 0.0)
        .watched(5.0)
        .told();
    assert_eq!(told.interruptions(), "0:02-0:05 draft_not_up, before supply");
}

#[test]
fn k16_an_empty_tanker_that_stands_by_is_no_water_on_scene() {
    // T1(2000) 0:00 -> [3000]; the Pond's 900 gal are less than half its capacity: it stands by, empty, from 0:02.
    // The lines go short at 0:06, with T2(2000) still to come.
    let told = short_at_six()
        .pond(|site| site.volume = Some(900.0))
        .tanker("T1", 2000.0, 0.0)
        .tanker("T2", 2000.0, 30.0)
        .told();
    assert_eq!(told.interruptions(), "0:06-0:10 not_come, after supply");
    assert_eq!(told.reasons(), "not_come (T2)");
}
