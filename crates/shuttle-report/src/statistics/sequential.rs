//! A sequential test: a decision that may be checked after every block of runs.
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
/// - Use: for the interval of a batch that was stopped because of what it showed. It is wider than
///   [`exact_interval`](super::binomial::exact_interval), 1.5 times at 100 runs and 1.9 times at 10,000
///   near 5%; that is the price of repeated looks.
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
mod tests;
