//! A share of runs with its exact interval.
//!
//! "Exact" is the trade name of Clopper and Pearson's interval: it covers the true chance with
//! at least the stated confidence whatever the chance is, so it errs on the wide side.
//!
//! Source: Clopper and Pearson, "The use of confidence or fiducial limits illustrated in the
//! case of the binomial", Biometrika 26 (1934), 404-413.

use super::beta::beta_quantile;
use super::{assert_confidence, assert_counts};

/// The confidence of the intervals that are printed unless something else is asked for.
pub const USUAL_CONFIDENCE: f64 = 0.95;

/// A share of runs, such as those in which water was lost, with its 95% exact interval.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Share {
    /// Runs in which it happened.
    pub hits: u64,
    /// Runs in all.
    pub of: u64,
    /// `hits` / `of`, 0 to 1. NaN when there were no runs: nothing is known then.
    pub value: f64,
    /// Lower end of the 95% interval, 0 to `value`; 0 when there were no hits, or no runs.
    pub low: f64,
    /// Upper end of the 95% interval, `value` to 1; 1 when all were hits, or there were no runs.
    pub high: f64,
}

impl Share {
    /// The share of `hits` among `of` runs with its 95% Clopper-Pearson interval.
    ///
    /// - Given: counts fixed beforehand, or not chosen by looking at the hits. A batch that was
    ///   stopped because of what it showed needs
    ///   [`confidence_sequence`](super::sequential::confidence_sequence).
    /// - Returns: with no runs at all, the value NaN and the interval 0 to 1.
    /// - Panics: when there are more hits than runs.
    pub fn exact(hits: u64, of: u64) -> Share {
        let (low, high) = exact_interval(hits, of, USUAL_CONFIDENCE);
        Share { hits, of, value: hits as f64 / of as f64, low, high }
    }
}

/// The two-sided Clopper-Pearson interval of a share.
///
/// - Given: `hits` of `of` runs, up to 1e9; `confidence` as a share (0.95).
/// - Returns: lower and upper end, 0 to 1. Each end is wrong with a chance of at most
///   (1 - confidence) / 2. With no hits the lower end is 0, with nothing but hits the upper
///   end is 1, with no runs the interval is 0 to 1.
/// - Panics: when there are more hits than runs, or `confidence` is not between 0 and 1.
/// - Accuracy: 1e-10 of the end or of its complement, whichever is less.
pub fn exact_interval(hits: u64, of: u64, confidence: f64) -> (f64, f64) {
    assert_confidence(confidence);
    let each_end = 0.5 * (1.0 + confidence);
    (lower_bound(hits, of, each_end), upper_bound(hits, of, each_end))
}

/// The one-sided lower bound: the chance is at least this, with `confidence`.
///
/// - Given, panics, accuracy: as [`exact_interval`].
/// - Returns: the p at which `hits` or more of `of` have a chance of 1 - `confidence`; 0 when
///   there were no hits.
pub fn lower_bound(hits: u64, of: u64, confidence: f64) -> f64 {
    assert_confidence(confidence);
    assert_counts(hits, of);
    if hits == 0 {
        return 0.0;
    }
    let misses = (of - hits) as f64;
    beta_quantile((1.0 - confidence).ln(), hits as f64, misses + 1.0).probability()
}

/// The one-sided upper bound: the chance is at most this, with `confidence`.
///
/// - Given, panics, accuracy: as [`exact_interval`].
/// - Returns: the p at which `hits` or fewer of `of` have a chance of 1 - `confidence`; 1 when
///   all runs were hits, or there were none. With no hits in n runs this is
///   1 - (1 - confidence)^(1/n), close to 3 / n at 95% (the "rule of three").
pub fn upper_bound(hits: u64, of: u64, confidence: f64) -> f64 {
    assert_confidence(confidence);
    assert_counts(hits, of);
    if hits == of {
        return 1.0;
    }
    // The lower bound of the misses, reflected without losing digits near 0.
    let misses = (of - hits) as f64;
    beta_quantile((1.0 - confidence).ln(), misses, hits as f64 + 1.0).complement()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn assert_close(got: f64, expected: f64, what: &str) {
        let scale = expected.min(1.0 - expected);
        assert!(
            (got - expected).abs() <= 1e-10 * scale + 2.0 * f64::EPSILON * expected,
            "{what}: got {got:e}, expected {expected:e}"
        );
    }

    #[test]
    fn intervals_agree_with_scipy() {
        // scipy 1.17.1: low = beta.ppf(a, k, n - k + 1), high = beta.isf(a, k + 1, n - k) with
        // a = (1 - confidence) / 2.
        let rows = [
            (0, 10, 0.95, 0.0, 0.3084971078187607),
            (10, 10, 0.95, 0.6915028921812392, 1.0),
            (1, 10, 0.95, 0.0025285785444617865, 0.4450161170281954),
            (4, 20, 0.9, 0.07135388430861819, 0.40102811733197463),
            (3, 7, 0.95, 0.09898827844250789, 0.8159484323599169),
            (81, 263, 0.95, 0.25273674558527126, 0.36762192260135135),
            (15, 148, 0.95, 0.057844010083448576, 0.161650490349479),
            (0, 20, 0.95, 0.0, 0.1684334709830853),
            (1, 29, 0.95, 0.0008726468835799228, 0.1776442954887229),
            (50, 1_000, 0.95, 0.03733539760466178, 0.06539048791549364),
            (50, 1_000, 0.99, 0.03392666271022028, 0.07050437520145814),
            (999, 1_000, 0.95, 0.9944410757201734, 0.9999746825125088),
            (123, 2_000, 0.95, 0.05137017237511746, 0.0729374613170472),
            (1, 20_000, 0.95, 1.2658895979755815e-06, 0.0002785503321745113),
            (600, 20_000, 0.95, 0.02767934973379327, 0.03245857043916458),
            (3, 1_000_000, 0.95, 6.186725501906402e-07, 8.767247788067677e-06),
            (250_000, 1_000_000, 0.999, 0.24857655253941321, 0.2514272252008575),
            (0, 1_000_000_000, 0.95, 0.0, 3.6888794473100194e-09),
            (500_000_000, 1_000_000_000, 0.95, 0.4999690097484223, 0.5000309902515777),
            (1_000_000_000, 1_000_000_000, 0.95, 0.9999999963111206, 1.0),
            (7_000_000, 1_000_000_000, 0.95, 0.006994833531078137, 0.007005169323074988),
        ];
        for (hits, of, confidence, low, high) in rows {
            let got = exact_interval(hits, of, confidence);
            assert_close(got.0, low, &format!("{hits} of {of}, lower end"));
            assert_close(got.1, high, &format!("{hits} of {of}, upper end"));
        }
    }

    #[test]
    fn rare_hits_among_very_many_runs_agree_with_forty_digits() {
        // The binomial sums of the definition solved by bisection with mpmath 1.4.1 in 40
        // digits. Not scipy: its beta.isf(0.025, 4, 99999997), say, gives 8.767272823e-8, off in
        // the tenth digit.
        let rows = [
            (3, 1_000_000, 6.186_725_501_906_399e-7, 8.767_247_788_145_223e-6),
            (3, 100_000_000, 6.186_721_271_685_466e-9, 8.767_272_816_926_04e-8),
            (1, 1_000_000_000, 2.531_780_798_396_938e-11, 5.571_643_378_203_115e-9),
            (25, 1_000_000_000, 1.617_868_191_109_863_5e-8, 3.690_493_147_785_502_7e-8),
        ];
        for (hits, of, low, high) in rows {
            let got = exact_interval(hits, of, 0.95);
            assert!((got.0 / low - 1.0_f64).abs() < 1e-12, "{hits} of {of}: {got:?}");
            assert!((got.1 / high - 1.0_f64).abs() < 1e-12, "{hits} of {of}: {got:?}");
        }
    }

    #[test]
    fn intervals_agree_with_published_tables() {
        let newcombe =
            "Newcombe, Stat. Med. 17 (1998), 857-872, Table I, method 5 (values from memory)";
        let nist = "NIST/SEMATECH e-Handbook 7.2.4.1, 4 defectives of 20, 90% (values from memory)";
        let rows = [
            (81, 263, 0.95, 0.2527, 0.3676, 0.5e-4, newcombe),
            (15, 148, 0.95, 0.0578, 0.1617, 0.5e-4, newcombe),
            (0, 20, 0.95, 0.0, 0.1684, 0.5e-4, newcombe),
            (1, 29, 0.95, 0.0009, 0.1776, 0.5e-4, newcombe),
            // Six printed digits; ours is 0.401028 where the table has 0.401029.
            (4, 20, 0.90, 0.071354, 0.401029, 1.0e-6, nist),
        ];
        for (hits, of, confidence, low, high, rounding, source) in rows {
            let got = exact_interval(hits, of, confidence);
            assert!(
                (got.0 - low).abs() <= rounding && (got.1 - high).abs() <= rounding,
                "{hits} of {of}: got {got:?}, {source} gives {low} to {high}"
            );
        }
    }

    #[test]
    fn none_and_all_have_closed_forms() {
        for of in [1_u64, 7, 300, 1_000_000, 1_000_000_000] {
            // (1 - p)^n = 0.025, so p = 1 - 0.025^(1/n).
            let expected = -(0.025_f64.ln() / of as f64).exp_m1();
            let none = Share::exact(0, of);
            assert_eq!((none.value, none.low), (0.0, 0.0));
            assert!((none.high / expected - 1.0).abs() < 1e-12, "none of {of}: {}", none.high);
            let all = Share::exact(of, of);
            assert_eq!((all.value, all.high), (1.0, 1.0));
            assert!((all.low - (1.0 - expected)).abs() < 1e-12, "all of {of}: {}", all.low);
            // One-sided at 95%: (1 - p)^n = 0.05.
            let bound = -(0.05_f64.ln() / of as f64).exp_m1();
            assert!((upper_bound(0, of, 0.95) / bound - 1.0).abs() < 1e-12);
        }
        let nothing = Share::exact(0, 0);
        assert!(nothing.value.is_nan());
        assert_eq!((nothing.low, nothing.high), (0.0, 1.0));
    }

    #[test]
    fn turning_hits_into_misses_turns_the_interval_round() {
        for (hits, of) in [(3, 40), (17, 400), (250, 1000)] {
            let (low, high) = exact_interval(hits, of, 0.95);
            let (other_low, other_high) = exact_interval(of - hits, of, 0.95);
            assert!((low - (1.0 - other_high)).abs() < 1e-14);
            assert!((high - (1.0 - other_low)).abs() < 1e-14);
        }
    }

    #[test]
    fn the_interval_covers_every_chance_at_least_as_often_as_it_says() {
        // Exact coverage: the chances of the hit counts whose interval holds p, added up. The
        // chances come from the recurrence of the binomial, not from the code under test.
        let of = 60_u64;
        let intervals: Vec<_> = (0..=of).map(|hits| exact_interval(hits, of, 0.95)).collect();
        let mut least = 1.0_f64;
        for step in 1..200 {
            let p = f64::from(step) / 200.0;
            let mut chance = (1.0 - p).powi(of as i32);
            let mut covered = 0.0;
            for (hits, (low, high)) in intervals.iter().enumerate() {
                if (*low..=*high).contains(&p) {
                    covered += chance;
                }
                chance *= (of as f64 - hits as f64) / (hits as f64 + 1.0) * p / (1.0 - p);
            }
            least = least.min(covered);
        }
        assert!(least >= 0.95, "least coverage {least}");
        assert!(least < 0.965, "least coverage {least}: wider than it need be");
    }

    #[test]
    #[should_panic(expected = "more hits than runs")]
    fn more_hits_than_runs_is_refused() {
        Share::exact(3, 2);
    }

    #[test]
    #[should_panic(expected = "95% is 0.95")]
    fn a_confidence_in_percent_is_refused() {
        exact_interval(1, 2, 95.0);
    }
}
