//! Everything that happens at one instant is applied before prime and shortfall are judged.

use crate::common::assert_close;
use crate::common::world::{World, fixed, road};
use shuttle_sim::{Brought, TimeTaken};

#[test]
fn n01_a_dump_that_ends_as_the_next_begins_does_not_lose_prime() {
    // T1(2000) 0:00 -> [3000] => E(150) 500 gpm, no refill; tolerance 0
    // T2(1000) 4.3 min, 500 gpm; T3(1000) 0:05, 500 gpm
    // The engine is empty as the pump begins to draw, at 0.3, and stays empty. The drop tank is empty
    // at 4.3 as T2 begins; T2 is done at 6.3 as T3 begins; T3 at 8.3. Only then prime is lost, and
    // the lines go short.
    let told = World::new()
        .engine_tank(150.0)
        .tank_refill(0.0)
        .tolerance(0.0)
        .tanker("T1", 2000.0, 0.0)
        .tanker_with("T2", 1000.0, 4.3, |tanker| tanker.dump_rate = 500.0)
        .tanker_with("T3", 1000.0, 5.0, |tanker| tanker.dump_rate = 500.0)
        .watched(9.0)
        .told();
    assert_eq!(told.tanker("T2"), "T2 comes 0:04:18 | dump -0:06:18 | out ...");
    assert_eq!(told.tanker("T3"), "T3 comes 0:05 | wait -0:06:18 | dump -0:08:18 | out ...");
    assert_eq!(told.pump(), "hooked up 0:00 | primed 0:00:18 | prime lost 0:08:18");
    assert_eq!(told.interrupted(), "0:08:18-0:09");
}

#[test]
fn n02_a_second_too_late_is_too_late() {
    // As n01 with T2 one second later.
    let told = World::new()
        .engine_tank(150.0)
        .tank_refill(0.0)
        .tolerance(0.0)
        .tanker("T1", 2000.0, 0.0)
        .tanker_with("T2", 1000.0, 4.3 + 1.0 / 60.0, |tanker| tanker.dump_rate = 500.0)
        .watched(5.0)
        .told();
    // 300 gal at 500 gpm bring the restart level: 0.6 min after T2 came.
    assert_eq!(
        told.pump(),
        "hooked up 0:00 | primed 0:00:18 | prime lost 0:04:18 | level back 0:04:55 \
         | prime back 0:04:55"
    );
    assert_eq!(told.interrupted(), "0:04:18-0:04:55");
}

#[test]
fn n03_water_for_no_time_does_not_close_an_interruption() {
    // T1(1000) 0:00, T2(2000) 0:02 ) 500 gpm ) E(1000) 500 gpm, no drop tank; tolerance 0
    // Pond{1000} 2,000 gal, out 5 or 20, 5 back, both assigned; told is a run in which T1 takes 20 and T2 5
    // T1 nurses 0-2 and T2 2-6. T2 takes the Pond's 2,000 gal, 11-13, and nurses 18-22. T1 finds the Pond
    // dry at 0:22 and nurses for no time at 0:27. The engine's own water lasts from 0:06 to 0:08.
    let told = World::new()
        .no_drop_tank()
        .tolerance(0.0)
        .pond(|site| {
            site.volume = Some(2000.0);
            site.out.time = TimeTaken::Samples(vec![5.0, 20.0]);
        })
        .tanker("T1", 1000.0, 0.0)
        .tanker("T2", 2000.0, 2.0)
        .every_tanker(|tanker| tanker.fill_site = Some(0))
        .watched(30.0)
        .told_where(|told| {
            told.tanker("T1").contains("out -0:22 ") && told.tanker("T2").contains("out -0:11 ")
        });
    assert_eq!(
        told.tanker("T1"),
        "T1 comes 0:00 | nurse -0:02 | out -0:22 | back -0:27 | stand by ..."
    );
    assert_eq!(
        told.tanker("T2"),
        "T2 comes 0:02 | nurse -0:06 | out -0:11 | fill -0:13 | back -0:18 | nurse -0:22 \
         | stand by ..."
    );
    assert_eq!(told.interrupted(), "0:08-0:18 | 0:22-0:30");
}

#[test]
fn n04_a_place_freed_is_free_for_who_comes_at_that_instant() {
    // T1(2000) 0:05 -> [5000] => E 100 gpm: it is clear of the only position at 0:07, when T2(2000)
    // comes. Listed either way.
    let world =
        World::new().attack_flow(100.0).first_tank(|tank| tank.capacity = 5000.0).watched(9.5);
    let told = world.clone().tanker("T1", 2000.0, 5.0).tanker("T2", 2000.0, 7.0).told();
    assert_eq!(told.tanker("T2"), "T2 comes 0:07 | dump -0:09 | out ...");
    let told = world.tanker("T2", 2000.0, 7.0).tanker("T1", 2000.0, 5.0).told();
    assert_eq!(told.tanker("T2"), "T2 comes 0:07 | dump -0:09 | out ...");
}

#[test]
fn n05_a_step_of_the_attack_flow_met_at_its_instant_is_no_shortfall() {
    // T1(4000) 0:00 -> [3000] => E(150) 500 gpm, from 0:02 1000 gpm, no refill; tolerance 0
    // Drawn from 0.3 min, when the engine is empty: the pump follows the step, 1,000 in and out.
    // T1 is empty at 0:04; level 300 + 1.7 x 500 = 1,150 then lasts 1.15 min.
    let told = World::new()
        .attack_steps(&[(0.0, 500.0), (2.0, 1000.0)])
        .engine_tank(150.0)
        .tank_refill(0.0)
        .tolerance(0.0)
        .tanker("T1", 4000.0, 0.0)
        .watched(6.0)
        .told();
    assert_eq!(told.interrupted(), "0:05:09-0:06");
    assert_eq!(told.tank_levels(1, &[2, 4, 5]), "0:02 1150 | 0:04 1150 | 0:05 150");
}

#[test]
fn n06_durations_of_no_length_happen_at_once() {
    // T1(2000) 0:00 brings [3000] => supply engine there 0:00 => E(1000) 500 gpm; nothing takes time
    // but the water: T1 dumps from minute 0 on.
    let told = World::new()
        .supply_engine(0.0, 0.0)
        .tanker("T1", 2000.0, 0.0)
        .first_tank(|tank| tank.brought = Brought::ByTanker(0))
        .watched(3.0)
        .told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | dump -0:02 | out ...");
    assert_eq!(told.pump(), "hooked up 0:00 | primed 0:00:18");
}

#[test]
fn n07_an_instant_with_everything_in_it_keeps_the_water_balance() {
    // At 0:05 all at once: T1(2000) is clear, T2(2000) comes, the flow steps up to 1000 gpm, the
    // draft is hooked up and tank 2 is ready. T2 finds 1,000 gal of room in tank 1 and 3,000 in tank 2.
    let told = World::new()
        .attack_steps(&[(0.0, 100.0), (5.0, 1000.0)])
        .draft_setup(5.0)
        .drop_tank_with(3000.0, |tank| tank.setup = fixed(5.0))
        .tanker("T1", 2000.0, 3.0)
        .tanker("T2", 2000.0, 5.0)
        .pond(|site| site.out = road(100.0))
        .watched(6.0)
        .told();
    assert_eq!(told.tanker("T2"), "T2 comes 0:05 | dump in 2 ...");
    // The engine, 500 gal, takes 1,500 gpm: full at 0:06. Tank 1: 2,000 - 1,500 + 500 from tank 2.
    assert_eq!(told.engine_levels(&[5, 6]), "0:05 500 | 0:06 1000");
    assert_eq!(told.tank_levels(1, &[5, 6]), "0:05 2000 | 0:06 1000");
    assert_eq!(told.tank_levels(2, &[5, 6]), "0:05 0 | 0:06 500");
    assert_close(told.result.balance(), 0.0, "water balance");
}

#[test]
fn n08_the_line_is_gone_through_before_the_pump_draws() {
    // Hooked up 0:02; T1(2000) 0:03 -> [3000] => E(1000) 500 gpm, 1 intake, restart level 500
    // T1 brings the restart level at 0:03:30, when T2(1000) comes: nobody nurses, and the pump has not
    // drawn yet, so T2 has the intake.
    let told = World::new()
        .nursing()
        .draft_setup(2.0)
        .restart_level(500.0)
        .tanker("T1", 2000.0, 3.0)
        .tanker("T2", 1000.0, 3.5)
        .watched(6.0)
        .told();
    assert_eq!(told.pump(), "hooked up 0:02 | primed 0:03:30");
    assert_eq!(told.tanker("T2"), "T2 comes 0:03:30 | nurse -0:05:30 | out ...");
}

#[test]
fn n09_so_is_who_may_break_off() {
    // T0(1400) 0:00 nurses ) E(1000) 100 gpm, no refill, to 0:14, disconnect 1:00; T1(3000) 0:01 -> [2000],
    // full at 0:03; hooked up 0:15. T1 breaks off as T0 leaves, and the pump draws in the same instant: from
    // then on T1's 1,000 gal are all the engine takes, for 10 min.
    let told = World::new()
        .nursing()
        .attack_flow(100.0)
        .tank_refill(0.0)
        .draft_setup(15.0)
        .first_tank(|tank| tank.capacity = 2000.0)
        .tanker_with("T0", 1400.0, 0.0, |tanker| tanker.handling.nurse_disconnect = fixed(1.0))
        .tanker("T1", 3000.0, 1.0)
        .watched(26.0)
        .told();
    assert_eq!(told.pump(), "hooked up 0:15 | primed 0:15");
    assert_eq!(told.tanker("T1"), "T1 comes 0:01 | dump -0:15 | nurse -0:25 | out ...");
}
