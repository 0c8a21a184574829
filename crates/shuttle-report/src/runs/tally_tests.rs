//! The accumulator against sums made by hand.

use super::tally::{Figures, Pairs, Tally};
use shuttle_sim::{Cause, Interruption, RunResult};

/// A run of a made-up batch: every third is interrupted, every fourth touches the reserve, every second draws from
/// the first drop tank.
fn run(k: u32) -> RunResult {
    let number = f64::from(k);
    let cause = if k.is_multiple_of(2) { Cause::NotCome } else { Cause::HaulTooLong };
    let one = Interruption {
        start: 20.0,
        minutes: 2.0,
        before_supply: false,
        cause,
        kind: None,
        about: None,
    };
    RunResult {
        first_water: 10.0,
        end: 60.0,
        interruptions: if k.is_multiple_of(3) { vec![one; 2] } else { vec![] },
        minutes_short: [1.0 + number, 0.5],
        delivered: 100.0 * number,
        reserve_touched: k.is_multiple_of(4),
        lowest_engine: 500.0 - number,
        lowest_tanks: vec![if k.is_multiple_of(2) { 2.0 * number } else { f64::INFINITY }],
        ..RunResult::default()
    }
}

fn close(got: f64, right: f64) {
    assert!((got - right).abs() < 1e-9 * right.abs().max(1.0), "{got}, by hand {right}");
}

#[test]
fn a_tally_adds_up_its_runs_and_merged_parts_are_the_whole() {
    let mut whole = Tally::default();
    (0..130).for_each(|k| whole.add(&run(k)));
    // 0 to 129: 44 multiples of 3, of them 22 even; 33 of 4; 65 even.
    assert_eq!((whole.runs, whole.interrupted, whole.reserve_touched), (130, 44, 33));
    assert_eq!(whole.tank_drawn, 65);
    assert_eq!(whole.causes(), [(Cause::NotCome, 0.5), (Cause::HaulTooLong, 0.5)]);
    // The numbers add up to 8,385, the squares of k + 1.5 to sum k^2 + 3 sum k + 130 x 2.25.
    let squares = f64::from(129 * 130 * 259 / 6);
    close(whole.minutes_short[0], 8_385.0 + 130.0 * 1.5);
    close(whole.minutes_short[1], squares + 3.0 * 8_385.0 + 130.0 * 2.25);
    close(whole.lowest_engine, 130.0 * 500.0 - 8_385.0);
    // Twice the even numbers below 130, which add up to 4,160; 100 k gal in 50 min.
    close(whole.lowest_tank, 2.0 * 4_160.0);
    close(whole.flow, 2.0 * 8_385.0);
    close(whole.chance(), 44.0 / 130.0);
    close(whole.minutes_short_mean(), (8_385.0 + 195.0) / 130.0);
    close(whole.lowest_tank_mean().expect("drawn from"), 128.0);
    // Which runs were interrupted, 64 to a word.
    assert_eq!(whole.interrupted_runs.len(), 3);
    for k in 0..130 {
        let bit = whole.interrupted_runs[k / 64] >> (k % 64) & 1;
        assert_eq!(bit == 1, k.is_multiple_of(3), "run {k}");
    }
    let (mut first, mut second) = (Tally::default(), Tally::default());
    (0..64).for_each(|k| first.add(&run(k)));
    (64..130).for_each(|k| second.add(&run(k)));
    first.merge(&second);
    assert_eq!(first, whole);
    let none = Tally::default();
    assert_eq!((none.chance(), none.lowest_tank_mean()), (0.0, None));
    assert!(none.causes().is_empty());
}

#[test]
fn the_greatest_cause_comes_first_and_one_that_never_was_not_at_all() {
    let mut tally = Tally::default();
    [0, 3, 9, 15].into_iter().for_each(|k| tally.add(&run(k)));
    assert_eq!(tally.causes(), [(Cause::HaulTooLong, 0.75), (Cause::NotCome, 0.25)]);
}

#[test]
fn pairs_are_this_plan_less_the_other_on_the_same_runs() {
    let beside = |range: std::ops::Range<u32>| {
        let mut tally = Tally::default();
        // The other plan has the luck of twice the number.
        range.for_each(|k| tally.add_beside(&run(k), Some(&Figures::of(&run(2 * k)))));
        tally
    };
    let whole = beside(0..130);
    let pairs = whole.pairs;
    // Interrupted alike, as 2 k is a multiple of 3 where k is; the reserve touched by every second and by every fourth.
    assert_eq!((pairs.interrupted.both, pairs.interrupted.neither), (44, 86));
    assert_eq!((pairs.reserve_touched.both, pairs.reserve_touched.only_second), (33, 32));
    let mean = |means: &crate::statistics::paired_means::PairedMeans| {
        means.difference(0.95).expect("pairs").value
    };
    close(mean(&pairs.minutes_short), -64.5);
    close(mean(&pairs.lowest_engine), 64.5);
    close(mean(&pairs.flow), -129.0);
    let mut merged = beside(0..64);
    merged.merge(&beside(64..130));
    assert_eq!(merged.pairs.interrupted, pairs.interrupted);
    assert_eq!(merged.pairs.reserve_touched, pairs.reserve_touched);
    close(mean(&merged.pairs.minutes_short), -64.5);
    close(mean(&merged.pairs.lowest_engine), 64.5);
    close(mean(&merged.pairs.flow), -129.0);
    // Bits against bits, for the runs that both made.
    let mut short = Tally::default();
    (0..100).for_each(|k| short.add(&run(k + 1)));
    let against = whole.against(&short);
    assert_eq!((against.pairs(), against.both, against.only_first), (100, 0, 34));
}

#[test]
fn plans_are_the_same_only_if_nothing_that_is_compared_differs() {
    let same = || {
        let mut tally = Tally::default();
        (0..10).for_each(|k| tally.add_beside(&run(k), Some(&Figures::of(&run(k)))));
        tally.pairs
    };
    assert!(same().are_the_same());
    let changes: [fn(&mut Pairs); 5] = [
        |pairs| pairs.interrupted.add(true, false),
        |pairs| pairs.reserve_touched.add(true, false),
        |pairs| pairs.minutes_short.add(1.0, 0.0),
        |pairs| pairs.lowest_engine.add(1.0, 0.0),
        |pairs| pairs.flow.add(1.0, 0.0),
    ];
    for change in changes {
        let mut pairs = same();
        change(&mut pairs);
        assert!(!pairs.are_the_same());
    }
}
