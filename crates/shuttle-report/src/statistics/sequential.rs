//! A decision that may be looked at after every block of runs.
//!
//! An ordinary 95% interval is good for one look at a number of runs fixed beforehand. Looked at
//! again and again until it clears the target, it will clear it wrongly far more often than one
//! time in twenty (a test below works out how often). The interval here holds at all numbers of
//! runs at once, so a batch may stop the moment the answer is clear: an easy question costs a
//! few dozen runs, a hard one as many as it needs.
//!
//! # The rule
//!
//! With k hits of n runs, the case for "the chance is below t" is the likelihood ratio of the
//! chances below t, averaged, to t itself:
//!
//! E = avg over q < t of (q / t)^k ((1 - q) / (1 - t))^(n - k).
//!
//! The average is weighted by the arcsine density 1 / sqrt(q (1 - q)), cut off at t. If the true
//! chance p is t or more, E starts at 1 and does not grow on average from run to run: for each q
//! the next factor is on average p q / t + (1 - p)(1 - q) / (1 - t), which is at most 1 for
//! q < t <= p. By Ville's inequality it then ever reaches 1 / a with a chance of at most a. The
//! case for "above t" is the same with hits and misses exchanged.
//!
//! # How the error is shared
//!
//! With confidence 1 - alpha each side may use alpha / 2: it is called when its E reaches
//! 2 / alpha. Over all looks, however many, and whenever the batch is stopped:
//!
//! - if the true chance is at or above the target, [`Decision::Below`] is ever given with a chance
//!   of at most alpha / 2 (2.5% at 95%);
//! - if it is at or below the target, [`Decision::Above`] is ever given with a chance of at most
//!   alpha / 2;
//! - [`confidence_sequence`] ever misses the true chance with a chance of at most alpha.
//!
//! # Several options
//!
//! When fleets are tried from the largest down, each only if all larger ones were
//! [`Decision::Below`], and the last one that was is recommended, the recommendation is above the
//! target with a chance of at most alpha / 2 in all: to go wrong the first fleet that is truly
//! above has to be called wrongly (a fixed sequence of tests: Maurer, Hothorn and Lehmacher 1995).
//! Tried in any other order, ask each of m fleets for
//! [`confidence_for_each`](super::confidence_for_each)`(confidence, m)`; it costs little, as the
//! number of runs grows with the logarithm of m.
//!
//! # What it costs
//!
//! Runs until the answer at 95%, looking after every run. Worked out exactly (not sampled), for a
//! target of 0.05:
//!
//! | true chance | mean runs | 95 of 100 batches end by |
//! |---|---|---|
//! | 0 | 90 | 90 |
//! | 0.005 | 121 | 233 |
//! | 0.01 | 167 | 339 |
//! | 0.02 | 352 | 784 |
//! | 0.03 | 945 | 2,202 |
//! | 0.04 | 4,700 | 10,787 |
//! | 0.06 | 7,469 | 15,749 |
//! | 0.07 | 1,808 | 3,948 |
//! | 0.1 | 294 | 684 |
//! | 0.2 | 39 | 96 |
//! | 0.3 | 16 | 41 |
//!
//! (The longest batch had 20,000 runs.) Looking only after every 100 runs adds 10 to 160 runs to
//! the mean up to 0.03 and from 0.1, and up to 470 between.
//!
//! # Sources
//!
//! - Ville, *Étude critique de la notion de collectif* (1939): the inequality.
//! - Robbins, "Statistical methods related to the law of the iterated logarithm", Ann. Math.
//!   Stat. 41 (1970), 1397-1409: mixtures, confidence sequences, one-sided tests.
//! - Lai, "On confidence sequences", Ann. Stat. 4 (1976), 265-280: the beta mixture.
//! - Howard, Ramdas, McAuliffe and Sekhon, "Time-uniform, nonparametric, nonasymptotic confidence
//!   sequences", Ann. Stat. 49 (2021), 1055-1080.
//! - Maurer, Hothorn and Lehmacher, "Multiple comparisons in drug clinical trials and preclinical
//!   assays: a-priori ordered hypotheses", in Vollmar (ed.), Biometrie in der
//!   chemisch-pharmazeutischen Industrie 6 (1995), 3-18.

use super::beta::{LogOdds, ln_front, ln_incomplete_beta};
use super::{assert_confidence, assert_counts};

/// Whether a chance is below or above a target, as far as the runs so far can say.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Decision {
    /// The chance is below the target.
    Below,
    /// The chance is above the target.
    Above,
    /// The runs so far do not say.
    NotClear,
}

/// Whether the chance is below or above the target: may be asked after every run.
///
/// - Given: `hits` of `of` runs so far (all independent, all of the same plan); `target` and
///   `confidence` as shares (0.05 and 0.95).
/// - Returns: the decision. Stop at the first that is not [`Decision::NotClear`]; it agrees with
///   [`confidence_sequence`] lying wholly below or above the target. A chance equal to the
///   target stays not clear for ever, in all but a share 1 - `confidence` of batches: give the
///   batch a largest number of runs.
/// - Error: a wrong `Below` is ever given with a chance of at most (1 - confidence) / 2, and so
///   is a wrong `Above`; see the head of this module, also for several options at once.
/// - Panics: when there are more hits than runs, or `target` or `confidence` is not between 0
///   and 1.
pub fn decide(hits: u64, of: u64, target: f64, confidence: f64) -> Decision {
    assert_counts(hits, of);
    assert_confidence(confidence);
    assert!(target > 0.0 && target < 1.0, "target {target} is not between 0 and 1 (5% is 0.05)");
    let target = LogOdds::of(target);
    let enough = ln_enough(confidence);
    if ln_case_below(hits, of, target) >= enough {
        Decision::Below
    } else if ln_case_below(of - hits, of, target.flipped()) >= enough {
        Decision::Above
    } else {
        Decision::NotClear
    }
}

/// An interval of the chance that holds at all numbers of runs at once.
///
/// - Given: `hits` of `of` runs so far; `confidence` as a share (0.95).
/// - Returns: lower and upper end, 0 to 1. The chance that the interval of any number of runs
///   ever leaves out the true value is at most 1 - `confidence`; each end has half of it. With
///   no hits the lower end is 0, with nothing but hits the upper end is 1.
/// - Use: for the interval of a batch that was stopped because of what it showed. It is wider
///   than [`exact_interval`](super::binomial::exact_interval), 1.5 times at 100 runs and 1.9
///   times at 10,000 near 5%; that is the price of looking.
/// - Panics: when there are more hits than runs, or `confidence` is not between 0 and 1.
pub fn confidence_sequence(hits: u64, of: u64, confidence: f64) -> (f64, f64) {
    assert_counts(hits, of);
    assert_confidence(confidence);
    let enough = ln_enough(confidence);
    let low = upper_end(of - hits, of, enough).map_or(0.0, LogOdds::complement);
    let high = upper_end(hits, of, enough).map_or(1.0, LogOdds::probability);
    (low, high)
}

/// ln of what a case has to reach: 2 / (1 - confidence), half the error for each side.
fn ln_enough(confidence: f64) -> f64 {
    (2.0 / (1.0 - confidence)).ln()
}

/// The least target that the case for "below" clears; none when all runs were hits.
///
/// Above the share of hits the case grows with the target wherever it is at least 2, so there
/// is one crossing: with R the case, R' / R = (n t - k) / (t (1 - t)) - (w / W)(1 - 1/R), where
/// w / W, the arcsine density over its integral, is at most 1 / (2 t (1 - t)), and R reaches 2
/// only where n t - k is more than a half. A test walks the grid.
fn upper_end(hits: u64, of: u64, enough: f64) -> Option<LogOdds> {
    // Odds of e^-60 and e^60 are beyond what any number of runs can tell from never and always.
    const FURTHEST: f64 = 60.0;
    if hits == of {
        return None;
    }
    let share_odds = (hits as f64 / (of - hits) as f64).ln();
    let (mut low, mut high) = (share_odds.max(-FURTHEST), FURTHEST);
    while high - low > 1e-13 * low.abs().max(1.0) {
        let middle = 0.5 * (low + high);
        if ln_case_below(hits, of, LogOdds(middle)) >= enough {
            high = middle;
        } else {
            low = middle;
        }
    }
    Some(LogOdds(high))
}

/// ln of the case E for "the chance is below `target`".
///
/// The average is an incomplete beta function: with a = k + 1/2 and b = n - k + 1/2,
/// E = B(a, b) I_t(a, b) / (2 asin(sqrt(t)) t^k (1 - t)^(n - k)).
fn ln_case_below(hits: u64, of: u64, target: LogOdds) -> f64 {
    let a = hits as f64 + 0.5;
    let b = (of - hits) as f64 + 0.5;
    // asin(sqrt(t)) = atan(sqrt(t / (1 - t))), and the odds are e^(log odds).
    let ln_weight = (2.0 * (0.5 * target.0).exp().atan()).ln();
    let half_ln = 0.5 * (target.ln_probability() + target.flipped().ln_probability());
    half_ln + ln_incomplete_beta(target, a, b) - ln_front(target, a, b) - ln_weight
}

#[cfg(test)]
mod tests {
    use super::super::TestLuck;
    use super::super::binomial::exact_interval;
    use super::*;

    /// How a batch ends that is looked at after every `step` runs up to `longest`.
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
            // Nor is the promise kept by saying next to nothing.
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
        // Looked at once it keeps its word.
        let once = ending(0.05, 20_000, 20_000, |k, n| looked_at_naively(k, n, 0.05));
        assert!(once.below <= 0.025 && once.above <= 0.025, "{once:?}");
    }

    #[test]
    fn four_thousand_sampled_batches_agree_with_the_exact_chances() {
        // A second way, by sampling: it checks the sums over chances above.
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
}
