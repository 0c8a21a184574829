//! Help that hurts: small worlds in which more help leaves more gallons unmet. They show why the laws
//! of [`crate::more_help`] ask for what they ask for: each breaks one condition. The first ones, up to the
//! slow nurse, are the smallest forms of what `cargo bench -p bucketline-benches --bench more_help` finds in
//! sane plans (`benches/HELP.md`).
//!
//! Fixed times but for one. The gallons can be worked out by hand (tests/VALIDATION.md states some of them, so
//! that the page stays true); what a test is about is that the plan with more help is the worse one.

use crate::common::world::{World, fixed, road};
use crate::more_help::harm;
use shuttle_sim::{Brought, FillOrder, Luck, Shuttle, TimeTaken};

/// More by at least this is no rounding, gal.
const PLAIN_MARGIN: f64 = 50.0;

fn unmet(world: &World) -> f64 {
    Shuttle::new(&world.plan()).run(Luck::Planned).unmet.iter().sum()
}

/// Holds that the second plan, with more help, leaves more unmet, and these whole gallons as stated.
#[track_caller]
fn assert_hurts(before: &World, after: &World, stated: [f64; 2]) {
    let (least, most) = (unmet(before), unmet(after));
    assert!(most > least + PLAIN_MARGIN, "{least} gal unmet, with more help {most}");
    assert_eq!([least.round(), most.round()], stated);
    // The comparison that the laws use tells of it.
    let run = |world: &World| Shuttle::new(&world.plan()).run(Luck::Planned).clone();
    assert!(harm(&run(before), &run(after)).is_some());
}

/// Two tankers come at one time. With one drop tank the second waits for the first; with two it dumps at once
/// into the other, where 250 gal stay below the strainer.
#[test]
fn a_further_drop_tank_keeps_its_unusable_water() {
    let one = World::new()
        .watched(15.0)
        .attack_flow(200.0)
        .engine_tank(100.0)
        .throttling()
        .tanker("T1", 1_000.0, 0.0)
        .tanker("T2", 1_000.0, 0.0)
        .pond(|site| site.out = road(60.0));
    let with = |unusable: f64| one.clone().drop_tank_with(3_000.0, |tank| tank.unusable = unusable);
    assert_hurts(&one, &with(250.0), [900.0, 1_150.0]);
    assert!(unmet(&with(0.0)) <= unmet(&one) + 1e-6);
}

/// The supply engine should be here at minute 20 and comes at 30. By then those in the line are all that the
/// lines have: with one drop tank the last of four waits for room and nurses from 20 to 30; with two it has
/// dumped, and its water lies in a drop tank that nobody drafts from.
#[test]
fn a_further_drop_tank_leaves_nobody_to_nurse_while_the_pump_is_late() {
    let one = World::new()
        .nursing()
        .watched(31.0)
        .attack_flow(200.0)
        .engine_tank(100.0)
        .supply_engine(20.0, 0.0)
        .tanker("T1", 2_000.0, 0.0)
        .tanker("T2", 2_000.0, 0.0)
        .tanker("T3", 2_000.0, 15.0)
        .tanker("T4", 2_000.0, 15.0)
        .pond(|site| site.out = road(60.0))
        .with(|draft| {
            let engine = draft.supply.engine.as_mut().expect("a supply engine");
            engine.call.response = TimeTaken::Samples(vec![10.0, 30.0]);
        });
    let two = one.clone().drop_tank(3_000.0);
    let late = |world: &World| {
        let told = world.told_where(|told| told.arrivals().contains("supply engine 0:30"));
        told.result.unmet.iter().sum::<f64>()
    };
    let (least, most) = (late(&one), late(&two));
    assert!(most > least + PLAIN_MARGIN, "{least} gal unmet, with more help {most}");
    assert_eq!([least.round(), most.round()], [0.0, 1_900.0]);
}

/// Prime is lost, and the load that comes is 100 gal more than the first drop tank has room for: with one drop
/// tank it is dumped there nevertheless, with two into the other, which passes on 100 gpm.
#[test]
fn a_further_drop_tank_takes_the_load_that_the_first_waits_for() {
    let one = World::new()
        .watched(16.0)
        .attack_flow(100.0)
        .engine_tank(100.0)
        .first_tank(|tank| (tank.capacity, tank.unusable) = (1_000.0, 100.0))
        .tanker("T1", 1_000.0, 0.0);
    let two = one.clone().drop_tank_with(3_000.0, |tank| tank.transfer = 100.0);
    assert_hurts(&one, &two, [230.0, 500.0]);
    assert!(unmet(&two.throttling()) <= unmet(&one.throttling()) + 1e-6);
}

/// The drop tank will be ready in a moment when a second intake takes the load in line: it is pumped off at
/// the 100 gpm that the lines want and held for 20 minutes. With one intake, still held by the one who
/// disconnects, it is dumped in two and the next is fetched.
#[test]
fn one_more_intake_holds_a_load_that_would_soon_be_dumped() {
    let one = World::new()
        .nursing()
        .watched(60.0)
        .attack_flow(100.0)
        .engine_tank(300.0)
        .first_tank(|tank| {
            tank.brought = Brought::ByTanker(1);
            tank.setup = fixed(1.0);
        })
        .supply_engine(0.0, 1.0)
        .throttling()
        .tanker("T1", 1_000.0, 0.0)
        .tanker("T2", 2_000.0, 9.5)
        .handling(|handling| handling.nurse_disconnect = fixed(1.0))
        .pond(|site| (site.out, site.back) = (road(12.0), road(12.0)));
    assert_hurts(&one, &one.clone().intakes(2), [300.0, 1_400.0]);
}

/// Two tankers come to the pond together. One after the other they are full after 2 and 4 minutes; side by
/// side, each at half the flow, both after 4: the first load is two minutes later.
#[test]
fn one_more_position_where_the_flow_is_shared_delays_the_first_load() {
    let one = World::new()
        .watched(20.0)
        .attack_flow(200.0)
        .engine_tank(100.0)
        .throttling()
        .first_tank(|tank| tank.dump_positions = 2)
        .tanker("T1", 1_000.0, 0.0)
        .tanker("T2", 1_000.0, 0.0)
        .pond(|site| site.flow = 500.0);
    let two = one.clone().pond(|site| site.positions = 2);
    assert_hurts(&one, &two, [500.0, 900.0]);
    let one_by_one = |world: World| world.pond(|site| site.fill_order = FillOrder::OneByOne);
    assert!(unmet(&one_by_one(two)) <= unmet(&one_by_one(one)) + 1e-6);
}

/// A tanker that fills at 50 gpm holds the one position at the pond for 10 minutes a load.
#[test]
fn a_slow_tanker_added_takes_the_place_at_the_fill_site() {
    let one = World::new()
        .watched(180.0)
        .attack_flow(200.0)
        .throttling()
        .first_tank(|tank| tank.capacity = 20_000.0)
        .tanker("T1", 2_000.0, 0.0);
    let two = one.clone().tanker_with("T2", 500.0, 0.0, |tanker| tanker.fill_limit = Some(50.0));
    assert_hurts(&one, &two, [9_000.0, 10_500.0]);
    let roomier = |world: World| world.pond(|site| site.positions = 2);
    assert!(unmet(&roomier(two)) < unmet(&roomier(one)));
}

/// A tanker that pumps off at 20 gpm holds the only intake for 20 minutes a load of 400 gal.
#[test]
fn a_slow_nurse_added_takes_the_only_intake() {
    let one = World::new()
        .no_drop_tank()
        .watched(120.0)
        .attack_flow(150.0)
        .engine_tank(100.0)
        .tanker("T1", 2_000.0, 0.0);
    let two = one.clone().tanker_with("T2", 400.0, 0.0, |tanker| tanker.pump_off = 20.0);
    assert_hurts(&one, &two, [7_900.0, 8_527.0]);
}

/// Of a pond that holds 20,000 gal the added tanker takes near half and wastes 30% of it, more than
/// the 700 gal it came with.
#[test]
fn a_wasteful_tanker_added_takes_the_last_of_a_pond() {
    let one = World::new()
        .watched(400.0)
        .attack_flow(80.0)
        .throttling()
        .first_tank(|tank| tank.capacity = 50_000.0)
        .pond(|site| {
            site.positions = 2;
            site.volume = Some(20_000.0);
        })
        .tanker("T1", 1_000.0, 0.0);
    let two = one.clone().tanker_with("T2", 1_000.0, 0.0, |tanker| tanker.waste = 0.3);
    assert_hurts(&one, &two, [10_000.0, 12_300.0]);
}

/// The added load brings the drop tank to the level at which the pump draws, the pump empties it, and
/// the time to prime again begins only with the next load.
#[test]
fn a_small_load_added_can_cost_the_prime() {
    let one = World::new().watched(15.0).reprime(10.0).tanker("T1", 3_000.0, 2.0);
    let two = one.clone().tanker("T2", 310.0, 0.0);
    assert_hurts(&one, &two, [3_500.0, 4_840.0]);
    assert!(unmet(&two.throttling()) <= unmet(&one.throttling()) + 1e-6);
}

/// The engine's tank, drawn down by 208 gal before the pump draws (160 gpm for 1.3 min), is filled
/// again, but before the next load the drop tank has only 2,000 - 160 x 11.7 = 128 gal to spare.
#[test]
fn a_faster_refill_can_cost_the_prime() {
    let slow = World::new()
        .watched(30.0)
        .attack_flow(160.0)
        .engine_tank(250.0)
        .tank_refill(0.0)
        .reprime(5.0)
        .tanker("T1", 2_000.0, 1.0)
        .pond(|site| {
            site.out = road(4.0);
            site.back = road(4.0);
        });
    let fast = slow.clone().tank_refill(500.0);
    assert_eq!(unmet(&slow), 0.0);
    assert_hurts(&slow, &fast, [0.0, 678.0]);
    assert!(unmet(&fast.throttling()) <= unmet(&slow.throttling()) + 1e-6);
}

/// A larger tank takes longer to fill, here by a minute for 100 gal: at the end of this watch the
/// smaller one has brought its second load, the larger has not.
#[test]
fn a_larger_tanker_comes_back_later() {
    let of = |gal| {
        World::new().watched(23.0).attack_flow(200.0).engine_tank(200.0).throttling().tanker_with(
            "T1",
            gal,
            0.0,
            |tanker| {
                tanker.fill_limit = Some(100.0);
                tanker.dump_rate = 5_000.0;
            },
        )
    };
    assert_hurts(&of(1_000.0), &of(1_100.0), [2_840.0, 2_944.0]);
}

/// While little is wanted one stands at the full drop tank and the others in line behind it (a load is 50
/// minutes of 20 gpm; nobody has just a tenth left), and when much is wanted they are on the road together. With 100 gpm wanted at first
/// they come and go, and bring a load more by the end.
#[test]
fn a_smaller_attack_flow_holds_the_tankers_at_a_full_drop_tank() {
    let wanting = |early: f64| {
        World::new()
            .watched(57.0)
            .attack_steps(&[(0.0, early), (21.0, 600.0)])
            .engine_tank(50.0)
            .throttling()
            .first_tank(|tank| tank.capacity = 1_000.0)
            .tanker("T1", 1_000.0, 0.0)
            .tanker("T2", 1_000.0, 3.0)
            .tanker("T3", 1_000.0, 6.0)
    };
    assert_hurts(&wanting(100.0), &wanting(20.0), [11_650.0, 11_950.0]);
}
