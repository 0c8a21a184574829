//! The guarantees of the decision and the confidence sequence, checked by exact sums and by sampling.

use super::*;
use crate::statistics::TestLuck;
use crate::statistics::binomial::exact_interval;

/// How a batch ends when it is checked after every `step` runs up to `longest`.
#[derive(Debug)]
struct Ending {
    below: f64,
    above: f64,
    mean_runs: f64,
    /// Runs by which 95 of 100 batches have ended; `longest` if fewer do.
    most_end_by: u64,
}

/// The hit counts that leave the answer open at each look: more than the first, fewer than
/// the second of the pair. Decisions are monotone in the hits, so the limits only move up.
fn open_limits(
    step: u64,
    longest: u64,
    decision: impl Fn(u64, u64) -> Decision,
) -> Vec<(i64, i64)> {
    let (mut below, mut above) = (-1_i64, 0_i64);
    let mut limits = Vec::new();
    for runs in (1..=longest / step).map(|look| look * step) {
        while below < runs as i64 && decision((below + 1) as u64, runs) == Decision::Below {
            below += 1;
        }
        while above <= runs as i64 && decision(above as u64, runs) != Decision::Above {
            above += 1;
        }
        limits.push((below, above));
    }
    limits
}

/// The exact chances, run by run, of each hit count still open: no sampling error.
fn ending(p: f64, step: u64, longest: u64, decision: impl Fn(u64, u64) -> Decision) -> Ending {
    let limits = open_limits(step, longest, decision);
    let mut open = vec![0.0; longest as usize + 2];
    open[0] = 1.0;
    let (mut first, mut last) = (0_usize, 0_usize);
    let mut end = Ending { below: 0.0, above: 0.0, mean_runs: 0.0, most_end_by: longest };
    for runs in 1..=longest {
        last += 1;
        for hits in (first.max(1)..=last).rev() {
            open[hits] = open[hits] * (1.0 - p) + open[hits - 1] * p;
        }
        if first == 0 {
            open[0] *= 1.0 - p;
        }
        if runs % step == 0 {
            let (below, above) = limits[(runs / step - 1) as usize];
            while first as i64 <= below {
                end.below += open[first];
                end.mean_runs += open[first] * runs as f64;
                open[first] = 0.0;
                first += 1;
            }
            while last as i64 >= above {
                end.above += open[last];
                end.mean_runs += open[last] * runs as f64;
                open[last] = 0.0;
                last -= 1;
            }
            if end.below + end.above >= 0.95 {
                end.most_end_by = end.most_end_by.min(runs);
            }
        }
    }
    end.mean_runs += (1.0 - end.below - end.above) * longest as f64;
    end
}

fn looked_at_naively(hits: u64, of: u64, target: f64) -> Decision {
    let (low, high) = exact_interval(hits, of, 0.95);
    if high < target {
        Decision::Below
    } else if low > target {
        Decision::Above
    } else {
        Decision::NotClear
    }
}

#[test]
fn the_case_agrees_with_its_integral() {
    // With q = sin^2(angle) the arcsine weight is even in the angle, so E is a plain average
    // over angles up to asin(sqrt(t)). Quadrature by mpmath 1.4.1, 30 digits.
    let rows = [
        (0, 0, 0.05, 0.0),
        (0, 90, 0.05, 3.73134952036271),
        (0, 89, 0.05, 3.6854918446568),
        (3, 10, 0.5, 0.00321191934216468),
        (30, 1000, 0.05, 3.1431071147875),
        (70, 1000, 0.05, -3.83468182811057),
        (5, 8, 0.9, 1.05851777541311),
        (450, 10000, 0.05, -0.181078896390205),
        (200, 20000, 0.02, 59.6140052997441),
    ];
    for (hits, of, target, expected) in rows {
        let got = ln_case_below(hits, of, LogOdds::of(target));
        assert!((got - expected).abs() < 1e-11, "{hits} of {of}, {target}: {got}, {expected}");
    }
}

#[test]
fn a_wrong_answer_is_ever_given_less_often_than_promised_however_often_one_looks() {
    // The worst case is a chance equal to the target, where either answer is wrong.
    for target in [0.01, 0.05, 0.2, 0.5] {
        let end = ending(target, 1, 20_000, |k, n| decide(k, n, target, 0.95));
        assert!(end.below <= 0.025, "{target}: wrongly below {}", end.below);
        assert!(end.above <= 0.025, "{target}: wrongly above {}", end.above);
        // Nor is the guarantee met by hardly ever deciding.
        assert!(end.below > 0.015, "{target}: wrongly below only {}", end.below);
    }
    // Truly above the target, to either side of what is hard to tell.
    for p in [0.052, 0.06, 0.1] {
        let end = ending(p, 1, 20_000, |k, n| decide(k, n, 0.05, 0.95));
        assert!(end.below <= 0.025, "{p}: wrongly below {}", end.below);
    }
    let end = ending(0.05, 1, 20_000, |k, n| decide(k, n, 0.05, 0.80));
    assert!(end.below <= 0.10 && end.below > 0.06, "80%: wrongly below {}", end.below);
}

#[test]
fn an_ordinary_interval_looked_at_again_and_again_fails_the_same_check() {
    let end = ending(0.05, 100, 20_000, |k, n| looked_at_naively(k, n, 0.05));
    // 5% was promised; 200 looks make it more than 35%.
    assert!(end.below + end.above > 0.35, "{end:?}");
    // Looked at once it keeps its guarantee.
    let once = ending(0.05, 20_000, 20_000, |k, n| looked_at_naively(k, n, 0.05));
    assert!(once.below <= 0.025 && once.above <= 0.025, "{once:?}");
}

#[test]
fn four_thousand_sampled_batches_agree_with_the_exact_chances() {
    // An independent check, by sampling, of the exact sums above.
    let (batches, step, longest) = (4_000_u32, 100, 20_000);
    let decision = |k, n| decide(k, n, 0.05, 0.95);
    let limits = open_limits(step, longest, decision);
    let exact = ending(0.05, step, longest, decision);
    let mut luck = TestLuck::new(20_000);
    let (mut below, mut above) = (0_u32, 0_u32);
    for _ in 0..batches {
        let mut hits = 0_i64;
        for (low, high) in &limits {
            hits += (0..step).filter(|_| luck.happens(0.05)).count() as i64;
            if hits <= *low {
                below += 1;
                break;
            } else if hits >= *high {
                above += 1;
                break;
            }
        }
    }
    for (count, chance) in [(below, exact.below), (above, exact.above)] {
        let expected = chance * f64::from(batches);
        let allowed = 4.0 * (expected * (1.0 - chance)).sqrt();
        assert!((f64::from(count) - expected).abs() < allowed, "{count}, {expected}");
    }
    assert!(f64::from(below + above) <= 0.05 * f64::from(batches), "{below} + {above}");
}

#[test]
fn easy_questions_are_answered_in_dozens_of_runs_and_hard_ones_in_thousands() {
    // The table at the head of this module: (chance, mean runs, 95 of 100 end by).
    let table = [
        (0.0, 90.0, 90),
        (0.005, 121.0, 233),
        (0.01, 167.0, 339),
        (0.02, 352.0, 784),
        (0.03, 945.0, 2202),
        (0.04, 4700.0, 10_787),
        (0.06, 7469.0, 15_749),
        (0.07, 1808.0, 3948),
        (0.1, 294.0, 684),
        (0.2, 39.0, 96),
        (0.3, 16.0, 41),
    ];
    for (p, mean, most) in table {
        let end = ending(p, 1, 20_000, |k, n| decide(k, n, 0.05, 0.95));
        assert!((end.mean_runs - mean).abs() < 1.0, "{p}: {end:?}");
        assert_eq!(end.most_end_by, most, "{p}: {end:?}");
        let right = if p < 0.05 { end.below } else { end.above };
        assert!(right > 0.975, "{p}: {end:?}");
    }
}

#[test]
fn decisions_and_the_confidence_sequence_say_the_same() {
    for of in [1_u64, 2, 5, 40, 300, 5000] {
        for hits in (0..=of).step_by((of / 40).max(1) as usize) {
            let (low, high) = confidence_sequence(hits, of, 0.95);
            let share = hits as f64 / of as f64;
            assert!(low <= share && share <= high, "{hits} of {of}: {low} to {high}");
            for step in 1..200 {
                let target = f64::from(step) / 200.0;
                let expected = if high <= target {
                    Decision::Below
                } else if low >= target {
                    Decision::Above
                } else {
                    Decision::NotClear
                };
                let got = decide(hits, of, target, 0.95);
                assert_eq!(got, expected, "{hits} of {of}, {target}: {low} to {high}");
            }
        }
    }
}

#[test]
fn the_interval_narrows_but_stays_wider_than_that_of_a_single_look() {
    for (hits, of) in [(0, 100), (5, 100), (50, 1000), (500, 10_000), (50_000, 1_000_000)] {
        let (low, high) = confidence_sequence(hits, of, 0.95);
        let (single_low, single_high) = exact_interval(hits, of, 0.95);
        assert!(low <= single_low && high > single_high, "{hits} of {of}");
        assert!(high - low < 3.0 * (single_high - single_low), "{hits} of {of}");
    }
    assert_eq!(confidence_sequence(0, 0, 0.95), (0.0, 1.0));
    assert_eq!(decide(0, 0, 0.05, 0.95), Decision::NotClear);
    let (low, high) = confidence_sequence(500_000_000, 1_000_000_000, 0.95);
    assert!(low > 0.4999 && high < 0.5001);
}

#[test]
#[should_panic(expected = "5% is 0.05")]
fn a_target_in_percent_is_refused() {
    decide(0, 10, 5.0, 0.95);
}
