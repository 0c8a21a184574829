//! Luck: keyed draws, and the shapes a duration can have.

use crate::common::world::World;
use shuttle_sim::{Doing, Happening, Luck, Plan, Shuttle, TimeTaken, Trace};

fn drawn(replication: u64) -> Luck {
    Luck::Drawn { seed: 2026, replication }
}

fn spread(mean: f64) -> TimeTaken {
    TimeTaken::Lognormal { mean, cv: 0.4 }
}

/// T1, T2(2000) about 0:05 -> [50000] 9 positions => E 100 gpm     Pond{100000} 9 positions, about 5 and 5
///
/// Nobody is ever in another's way, so what a tanker does depends on its own luck alone. Everything
/// that can vary does.
fn nobody_in_the_way() -> World {
    World::new()
        .attack_flow(100.0)
        .first_tank(|tank| {
            tank.capacity = 50_000.0;
            tank.dump_positions = 9;
            tank.setup = spread(2.0);
        })
        .pond(|site| {
            site.flow = 100_000.0;
            site.positions = 9;
            site.out.time = spread(5.0);
            site.back.time = spread(5.0);
        })
        .with(|draft| {
            draft.attack_engine.call.response = spread(1.0);
            draft.attack_engine.water_on = spread(1.0);
            draft.supply.setup = spread(3.0);
        })
        .tanker("T1", 2000.0, 0.0)
        .tanker("T2", 2000.0, 0.0)
        .every_tanker(varying)
        .watched(60.0)
}

fn varying(tanker: &mut shuttle_sim::Tanker) {
    tanker.call.response = spread(5.0);
    tanker.breakdown_per_trip = 0.3;
    tanker.repair = Some(spread(4.0));
    tanker.handling.dump_position = spread(1.0);
    tanker.handling.dump_clear = spread(0.5);
    tanker.handling.fill_connect = spread(1.0);
    tanker.handling.fill_disconnect = spread(0.5);
}

fn run(world: &World, luck: Luck) -> (Plan, Trace) {
    let plan = world.plan();
    let (_, trace) = Shuttle::new(&plan).run_traced(luck);
    (plan, trace)
}

/// What a tanker did and when.
fn course_of(name: &str, world: &World, luck: Luck) -> Vec<(f64, Doing)> {
    let (plan, trace) = run(world, luck);
    let place = plan.facts().tankers.iter().position(|tanker| tanker.name == name);
    let notes = trace.notes.iter().filter_map(|note| match note.happening {
        Happening::Tanker(who, doing) if Some(who) == place => Some((note.minute, doing)),
        _ => None,
    });
    notes.collect()
}

/// Holds two courses to be the same but for rounding: a dump is summed up in pieces, and another
/// tanker's events cut them elsewhere.
#[track_caller]
fn assert_same_course(got: &[(f64, Doing)], expected: &[(f64, Doing)]) {
    assert_eq!(got.len(), expected.len(), "steps");
    for ((minute, doing), (expected_minute, expected_doing)) in got.iter().zip(expected) {
        assert_eq!(doing, expected_doing, "at {minute} min");
        assert!(
            (minute - expected_minute).abs() < 1e-9,
            "{doing:?} at {minute}, {expected_minute}"
        );
    }
}

#[test]
fn m01_the_same_seed_gives_the_same_bits() {
    let plan = nobody_in_the_way().plan();
    let mut shuttle = Shuttle::new(&plan);
    let first = shuttle.run(drawn(3)).clone();
    // Neither what was run before nor a fresh start makes a difference.
    shuttle.run(drawn(4));
    assert_eq!(*shuttle.run(drawn(3)), first);
    assert_eq!(*Shuttle::new(&plan).run(drawn(3)), first);
    // Another replication and another seed do.
    assert_ne!(*shuttle.run(drawn(4)), first);
    let other_seed = Luck::Drawn { seed: 2027, replication: 3 };
    assert_ne!(*shuttle.run(other_seed), first);
}

#[test]
fn m02_adding_a_tanker_leaves_the_others_draws_untouched() {
    // T0 is put in front of the list and first on scene.
    let without = nobody_in_the_way();
    let with = nobody_in_the_way()
        .tanker_with("T0", 2500.0, 0.0, varying)
        .with(|draft| draft.tankers.rotate_right(1));
    for replication in 0..50 {
        for name in ["T1", "T2"] {
            let alone = course_of(name, &without, drawn(replication));
            assert!(alone.len() > 20, "{name} went round: {} steps", alone.len());
            assert_same_course(&course_of(name, &with, drawn(replication)), &alone);
        }
    }
}

#[test]
fn m03_so_does_adding_a_drop_tank_or_a_fill_site() {
    let without = nobody_in_the_way();
    let with = nobody_in_the_way()
        .drop_tank_with(3000.0, |tank| tank.setup = spread(60.0))
        .fill_site("Far lake", 50.0, 50.0);
    for replication in 0..50 {
        let alone = course_of("T1", &without, drawn(replication));
        assert_same_course(&course_of("T1", &with, drawn(replication)), &alone);
    }
}

#[test]
fn m04_each_trip_and_each_purpose_has_a_draw_of_its_own() {
    // Out and back have the same mean and cv, and so have two trips: no two of T1's drives take the same time.
    let course = course_of("T1", &nobody_in_the_way(), drawn(0));
    let mut drives: Vec<f64> = (course.windows(2))
        .filter(|pair| matches!(pair[0].1, Doing::TravelingOut(_) | Doing::TravelingBack))
        .map(|pair| pair[1].0 - pair[0].0)
        .collect();
    assert!(drives.len() >= 4, "{} drives", drives.len());
    drives.sort_by(f64::total_cmp);
    assert!(drives.windows(2).all(|pair| pair[1] - pair[0] > 1e-6), "{drives:?}");
}

/// The arrival of a tanker whose response has this shape, in many replications.
fn responses(shape: TimeTaken) -> Vec<f64> {
    let plan = World::new()
        .tanker_with("T1", 2000.0, 0.0, |tanker| {
            tanker.call.response = shape;
            tanker.breakdown_per_trip = 1.0;
        })
        .watched(500.0)
        .plan();
    let mut shuttle = Shuttle::new(&plan);
    let arrival = |replication| {
        let (_, trace) = shuttle.run_traced(drawn(replication));
        let arrived = Happening::Tanker(0, Doing::WaitingAtScene);
        let note = trace.notes.iter().find(|note| note.happening == arrived);
        note.expect("it arrives within the watch").minute
    };
    (0..RUNS).map(arrival).collect()
}

const RUNS: u64 = 4000;

/// Holds the mean and the standard deviation to these, within 4 standard errors; that of the standard
/// deviation from the sample's own fourth moment.
#[track_caller]
fn assert_spread(values: &[f64], mean: f64, deviation: f64) {
    let n = values.len() as f64;
    let got_mean = values.iter().sum::<f64>() / n;
    let error = deviation / n.sqrt();
    assert!((got_mean - mean).abs() < 4.0 * error, "mean {got_mean}, expected {mean}");
    let squares = values.iter().map(|value| (value - mean).powi(2));
    let variance = squares.clone().sum::<f64>() / n;
    let fourth = squares.map(|square| square * square).sum::<f64>() / n;
    let error = ((fourth - variance * variance) / n).sqrt();
    let expected = deviation * deviation;
    assert!((variance - expected).abs() < 4.0 * error, "variance {variance}, expected {expected}");
}

fn within(values: &[f64], low: f64, high: f64) -> bool {
    values.iter().all(|value| (low..=high).contains(value))
}

#[test]
fn m05_lognormal_has_the_stated_mean_and_coefficient_of_variation() {
    let values = responses(TimeTaken::Lognormal { mean: 18.0, cv: 0.2 });
    assert_spread(&values, 18.0, 0.2 * 18.0);
    // Its logarithm is normal: as much below the median as above, the median mean / sqrt(1 + cv^2).
    let median = 18.0 / (1.0 + 0.2_f64 * 0.2).sqrt();
    let below = values.iter().filter(|value| **value < median).count() as f64;
    assert!((below / RUNS as f64 - 0.5).abs() < 4.0 * 0.5 / (RUNS as f64).sqrt());
}

#[test]
fn m06_exponential_has_its_mean_for_a_standard_deviation() {
    let values = responses(TimeTaken::Exponential { mean: 8.0 });
    assert_spread(&values, 8.0, 8.0);
}

#[test]
fn m07_triangular_and_uniform_keep_within_their_bounds() {
    // Variance of the triangular distribution (a^2 + b^2 + c^2 - ab - ac - bc) / 18, of the uniform
    // (b - a)^2 / 12.
    let (low, likely, high) = (2.0, 3.0, 7.0);
    let values = responses(TimeTaken::Triangular { low, likely, high });
    assert!(within(&values, low, high));
    let variance =
        (low * low + likely * likely + high * high - low * likely - low * high - likely * high)
            / 18.0;
    assert_spread(&values, 4.0, f64::sqrt(variance));

    let values = responses(TimeTaken::Uniform { low: 2.0, high: 5.0 });
    assert!(within(&values, 2.0, 5.0));
    assert_spread(&values, 3.5, 3.0 / 12.0_f64.sqrt());
}

#[test]
fn m08_of_measured_times_each_is_equally_likely() {
    let measured = vec![2.0, 3.5, 9.0];
    let values = responses(TimeTaken::Samples(measured.clone()));
    for sample in measured {
        let share = values.iter().filter(|value| **value == sample).count() as f64 / RUNS as f64;
        let error = (1.0 / 3.0 * 2.0 / 3.0 / RUNS as f64).sqrt();
        assert!((share - 1.0 / 3.0).abs() < 4.0 * error, "{sample}: {share}");
    }
}

#[test]
fn m09_a_breakdown_has_the_stated_chance_on_each_trip() {
    // T1(2000, breaks down after a quarter of its trips, for good) 0:00 -> [3000] => E 100 gpm
    let plan = World::new()
        .attack_flow(100.0)
        .tanker_with("T1", 2000.0, 0.0, |tanker| tanker.breakdown_per_trip = 0.25)
        .watched(20.0)
        .plan();
    let mut shuttle = Shuttle::new(&plan);
    let trips = |replication| shuttle.run(drawn(replication)).tankers[0].trips;
    // Trips end at 0:02 and 0:16: one trip if it breaks down after the first.
    let stopped = (0..RUNS).map(trips).filter(|trips| *trips == 1).count() as f64;
    let error = (0.25 * 0.75 / RUNS as f64).sqrt();
    let share = stopped / RUNS as f64;
    assert!((share - 0.25).abs() < 4.0 * error, "{share}");
}
