//! More than one drop tank: the others feed the first.

use crate::common::world::{World, comes_at, fixed, road};
use shuttle_sim::Brought;

/// Tank 1 of this capacity, with a supply engine that never comes and tankers that do not come back.
fn first_tank_of(gal: f64) -> World {
    World::new()
        .supply_engine(5000.0, 0.0)
        .first_tank(|tank| tank.capacity = gal)
        .pond(|site| site.out = road(300.0))
}

/// The attack engine drafts itself from a first tank of this capacity, hooked up at `hooked_up`; it has
/// 10,000 gal of its own and no refill, so the draw is the attack flow. Tankers do not come back.
fn drafted_from(gal: f64, hooked_up: f64, attack_flow: f64) -> World {
    World::new()
        .attack_flow(attack_flow)
        .engine_tank(10_000.0)
        .tank_refill(0.0)
        .draft_setup(hooked_up)
        .first_tank(|tank| tank.capacity = gal)
        .pond(|site| site.out = road(300.0))
}

#[test]
fn i01_another_tank_feeds_the_first_from_when_both_are_ready_without_a_pump() {
    // T1(2000) 0:00 -> tank 2 [3000] => 500 gpm => tank 1 [3000] ready 0:05, nothing drawn
    let told = first_tank_of(3000.0)
        .first_tank(|tank| tank.brought = Brought::Itself(comes_at(5.0)))
        .drop_tank(3000.0)
        .tanker("T1", 2000.0, 0.0)
        .watched(10.0)
        .told();
    assert_eq!(
        told.tank_levels(2, &[2, 5, 6, 8, 9]),
        "0:02 2000 | 0:05 2000 | 0:06 1500 | 0:08 500 | 0:09 0"
    );
    assert_eq!(told.tank_levels(1, &[5, 6, 9, 10]), "0:05 0 | 0:06 500 | 0:09 2000 | 0:10 2000");
}

#[test]
fn i02_only_from_above_its_own_unusable_level() {
    // As i01, tank 2 [3000/300]: its 1,700 usable gallons last 3.4 min, to 8.4.
    let told = first_tank_of(3000.0)
        .first_tank(|tank| tank.brought = Brought::Itself(comes_at(5.0)))
        .drop_tank_with(3000.0, |tank| tank.unusable = 300.0)
        .tanker("T1", 2000.0, 0.0)
        .watched(10.0)
        .told();
    assert_eq!(told.tank_levels(2, &[8, 9, 10]), "0:08 500 | 0:09 300 | 0:10 300");
    assert_eq!(told.tank_levels(1, &[8, 9]), "0:08 1500 | 0:09 1700");
}

#[test]
fn i03_while_it_fills_it_passes_water_on_from_the_unusable_level_up() {
    // T1(3000) 0:00, 1000 gpm -> tank 2 [3400/300] => 500 gpm => tank 1 [2800], nothing drawn
    // Tank 2 has room for the whole load, tank 1 has not. 300 gal at 0.3 min; from there 500 pass
    // and 500 stay.
    let told = first_tank_of(2800.0)
        .drop_tank_with(3400.0, |tank| tank.unusable = 300.0)
        .tanker("T1", 3000.0, 0.0)
        .watched(3.0)
        .told();
    assert_eq!(told.tank_levels(2, &[1, 2]), "0:01 650 | 0:02 1150");
    assert_eq!(told.tank_levels(1, &[1, 2]), "0:01 350 | 0:02 850");
}

#[test]
fn i04_at_the_unusable_level_it_passes_on_what_is_dumped_into_it() {
    // T1(3000) 0:00, T2(3000) 0:06, 200 gpm -> tank 2 [3400/300] => 500 gpm => tank 1 [2800] => E 100 gpm
    // Tank 1: 300 gal at 0.9, drawn from there, 1,140 at 0:03; tank 2 1,650 at 0:03, down to 300 at
    // 5.7, when tank 1 has 2,220; 2,190 at 0:06. T2 finds room in tank 2, which passes its 200 gpm.
    let told = drafted_from(2800.0, 0.0, 100.0)
        .drop_tank_with(3400.0, |tank| tank.unusable = 300.0)
        .tanker("T1", 3000.0, 0.0)
        .tanker_with("T2", 3000.0, 6.0, |tanker| tanker.dump_rate = 200.0)
        .watched(9.0)
        .told();
    assert_eq!(told.tanker("T2"), "T2 comes 0:06 | dump in 2 ...");
    assert_eq!(told.tank_levels(2, &[3, 6, 7, 8]), "0:03 1650 | 0:06 300 | 0:07 300 | 0:08 300");
    assert_eq!(told.tank_levels(1, &[3, 6, 7, 8]), "0:03 1140 | 0:06 2190 | 0:07 2290 | 0:08 2390");
}

#[test]
fn i05_it_never_overfills_the_first() {
    // T1(2000) 0:00 -> tank 2 [3000] => 500 gpm => tank 1 [1000] => hooked up 0:10, E 300 gpm
    // Tank 1 is full at 0:02 and stays full; from 0:10 what is drawn is what fits.
    let told = drafted_from(1000.0, 10.0, 300.0)
        .drop_tank(3000.0)
        .tanker("T1", 2000.0, 0.0)
        .watched(13.0)
        .told();
    assert_eq!(
        told.tank_levels(1, &[1, 2, 10, 12]),
        "0:01 500 | 0:02 1000 | 0:10 1000 | 0:12 1000"
    );
    assert_eq!(
        told.tank_levels(2, &[2, 10, 11, 12]),
        "0:02 1000 | 0:10 1000 | 0:11 700 | 0:12 400"
    );
}

#[test]
fn i06_dumping_into_the_first_comes_before_transfer() {
    // T1(1000) 0:00, 200 gpm -> tank 1 [1000] => hooked up 0:03, E 300 gpm
    // T2(2000) 0:01 -> tank 2 [3000] => 600 gpm => tank 1
    // Tank 1 has 200 gal at 0:01, gains 800 gpm and is full at 0:02; T1 has 600 gal left, tank 2
    // has 1,400 at 0:03. Then T1's 200 gpm come first, for 3 min, and 100 fit from tank 2; after
    // that 300.
    let told = drafted_from(1000.0, 3.0, 300.0)
        .drop_tank_with(3000.0, |tank| tank.transfer = 600.0)
        .tanker_with("T1", 1000.0, 0.0, |tanker| tanker.dump_rate = 200.0)
        .tanker("T2", 2000.0, 1.0)
        .watched(8.0)
        .told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | dump in 1 -0:06 | out ...");
    assert_eq!(
        told.tank_levels(2, &[3, 4, 5, 6, 7]),
        "0:03 1400 | 0:04 1300 | 0:05 1200 | 0:06 1100 | 0:07 800"
    );
    assert_eq!(told.tank_levels(1, &[1, 2, 7]), "0:01 200 | 0:02 1000 | 0:07 1000");
}

/// T1(1000) 0:00 -> tank 1 [1000] => hooked up 0:05, E 300 gpm
/// T2(2000) 0:01 -> tank 2 [2000] => tank 1, T3(2000) 0:02 -> tank 3 [2000] => tank 1
fn three_tanks(unusable: f64, transfers: [f64; 2]) -> World {
    drafted_from(1000.0, 5.0, 300.0)
        .drop_tank_with(2000.0, |tank| (tank.unusable, tank.transfer) = (unusable, transfers[0]))
        .drop_tank_with(2000.0, |tank| tank.transfer = transfers[1])
        .tanker("T1", 1000.0, 0.0)
        .tanker("T2", 2000.0, 1.0)
        .tanker("T3", 2000.0, 2.0)
}

#[test]
fn i07_several_share_what_fits_in_proportion() {
    // Transfers of 400 and 200 gpm: of the 300 drawn, 200 and 100.
    let told = three_tanks(0.0, [400.0, 200.0]).watched(9.0).told();
    assert_eq!(told.tank_levels(1, &[5, 8]), "0:05 1000 | 0:08 1000");
    assert_eq!(told.tank_levels(2, &[5, 8]), "0:05 2000 | 0:08 1400");
    assert_eq!(told.tank_levels(3, &[5, 8]), "0:05 2000 | 0:08 1700");
}

#[test]
fn i08_when_one_is_down_the_others_give_what_they_can() {
    // As i07, 1,400 gal unusable in tank 2: it stops at 0:08. Tank 3 then gives its 200 gpm and tank 1
    // loses 100.
    let told = three_tanks(1400.0, [400.0, 200.0]).watched(11.0).told();
    assert_eq!(told.tank_levels(1, &[8, 10]), "0:08 1000 | 0:10 800");
    assert_eq!(told.tank_levels(2, &[8, 10]), "0:08 1400 | 0:10 1400");
    assert_eq!(told.tank_levels(3, &[8, 10]), "0:08 1700 | 0:10 1300");
}

#[test]
fn i09_what_one_at_its_unusable_level_cannot_give_the_others_do() {
    // Transfers of 400 gpm each, 1,400 gal unusable in tank 2; T4(500) 0:10, 50 gpm
    // 150 gpm each: tank 2 is down at 0:09, tank 3 then gives all 300. T1 still holds the position at
    // tank 1 (clear 60:00), so T4 dumps into tank 2, which passes on its 50 gpm; tank 3 gives 250.
    let told = three_tanks(1400.0, [400.0, 400.0])
        .with(|draft| draft.tankers[0].handling.dump_clear = fixed(60.0))
        .tanker_with("T4", 500.0, 10.0, |tanker| tanker.dump_rate = 50.0)
        .watched(12.0)
        .told();
    assert_eq!(told.tanker("T4"), "T4 comes 0:10 | dump in 2 ...");
    assert_eq!(told.tank_levels(1, &[8, 10, 12]), "0:08 1000 | 0:10 1000 | 0:12 1000");
    assert_eq!(told.tank_levels(2, &[9, 10, 12]), "0:09 1400 | 0:10 1400 | 0:12 1400");
    assert_eq!(
        told.tank_levels(3, &[9, 10, 11, 12]),
        "0:09 1400 | 0:10 1100 | 0:11 850 | 0:12 600"
    );
}

#[test]
fn i10_a_load_in_a_full_second_tank_follows_the_transfer() {
    // T1(3000) 0:00 -> tank 2 [1000] => 500 gpm => tank 1 [3000] ready 0:05, nothing drawn
    // Tank 2 is smaller than the load, but empty. It is full at 0:01. From 0:05 T1's other 2,000 gal
    // follow 500 gpm: 4 min. Then tank 2 falls.
    let told = first_tank_of(3000.0)
        .first_tank(|tank| tank.brought = Brought::Itself(comes_at(5.0)))
        .drop_tank(1000.0)
        .tanker("T1", 3000.0, 0.0)
        .watched(10.0)
        .told();
    assert_eq!(told.tanker("T1"), "T1 comes 0:00 | dump in 2 -0:09 | out ...");
    assert_eq!(told.tank_levels(2, &[1, 5, 9, 10]), "0:01 1000 | 0:05 1000 | 0:09 1000 | 0:10 500");
    assert_eq!(told.tank_levels(1, &[5, 9, 10]), "0:05 0 | 0:09 2000 | 0:10 2500");
}

#[test]
fn i11_transfer_keeps_the_prime_like_dumping_does() {
    // T1(1000) 0:00 -> tank 1 [1000/200] => hooked up 0:05, E 500 gpm, from 0:13 400 gpm
    // T2(8000) 0:01, 4000 gpm -> tank 2 [8000] => 400 gpm => tank 1
    // From 0:05 tank 1 loses 100 gpm: down to 200 at 0:13. From there 400 come and go until tank 2's
    // other 8000 - 8 x 400 = 4,800 gal are gone, after 12 min.
    let world = |steps: &[(f64, f64)]| {
        drafted_from(1000.0, 5.0, 500.0)
            .attack_steps(steps)
            .first_tank(|tank| tank.unusable = 200.0)
            .drop_tank_with(8000.0, |tank| tank.transfer = 400.0)
            .tanker("T1", 1000.0, 0.0)
            .tanker_with("T2", 8000.0, 1.0, |tanker| tanker.dump_rate = 4000.0)
            .watched(30.0)
    };
    let told = world(&[(0.0, 500.0), (13.0, 400.0)]).told();
    assert_eq!(told.pump(), "hooked up 0:05 | primed 0:05 | prime lost 0:25");
    assert_eq!(told.tank_levels(1, &[5, 9, 13, 20]), "0:05 1000 | 0:09 600 | 0:13 200 | 0:20 200");
    // Still drawn at 500 gpm, it is lost at 0:13. Nothing is drawn then, so the 400 gpm bring back
    // 500 gal in 0.75 min; 300 gal above unusable last 3 min at 100 gpm; and so on.
    let told = world(&[(0.0, 500.0)]).watched(17.0).told();
    assert_eq!(
        told.pump(),
        "hooked up 0:05 | primed 0:05 | prime lost 0:13 | level back 0:13:45 | prime back 0:13:45 \
         | prime lost 0:16:45"
    );
}
