//! Two plans run on common random numbers: by how much do the chances differ?
//!
//! When both plans meet the same draws, run by run, what they share cancels, and far fewer runs
//! show a difference than two separate batches would need. The interval must then be one for
//! pairs: the two shares are not independent.
//!
//! Differences are first minus second throughout. The number of pairs is meant to be fixed
//! beforehand; these intervals do not allow for stopping when the answer looks clear. Mean
//! differences are in [`paired_means`](super::paired_means).

use super::assert_confidence;
use super::binomial::Share;
use statrs::distribution::{ContinuousCDF, Normal};

/// A difference, first plan minus second, with its interval.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Difference {
    /// The observed difference, in the unit of what was compared (for shares -1 to 1).
    pub value: f64,
    /// Lower end of the interval.
    pub low: f64,
    /// Upper end of the interval.
    pub high: f64,
}

impl Difference {
    /// Whether the interval leaves out 0, so that the plans differ with its confidence.
    pub fn is_clear(&self) -> bool {
        self.low > 0.0 || self.high < 0.0
    }
}

/// In how many pairs of runs something happened under the first plan, the second, both, neither.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct PairedShares {
    /// Pairs in which it happened under the first plan only.
    pub only_first: u64,
    /// Pairs in which it happened under the second plan only.
    pub only_second: u64,
    /// Pairs in which it happened under both.
    pub both: u64,
    /// Pairs in which it happened under neither.
    pub neither: u64,
}

impl PairedShares {
    /// Counts one pair of runs.
    pub fn add(&mut self, first: bool, second: bool) {
        match (first, second) {
            (true, false) => self.only_first += 1,
            (false, true) => self.only_second += 1,
            (true, true) => self.both += 1,
            (false, false) => self.neither += 1,
        }
    }

    /// Counts the pairs of two batches on common random numbers, given run by run as bits, 64 to a word.
    ///
    /// - Given: `first` and `second`, the bits and how many runs they are of. Only runs that both made
    ///   count.
    pub fn of_bits(first: (&[u64], u64), second: (&[u64], u64)) -> PairedShares {
        let pairs = first.1.min(second.1);
        let (mut only_first, mut only_second, mut both) = (0, 0, 0);
        for (word, (a, b)) in first.0.iter().zip(second.0).enumerate() {
            let here = pairs.saturating_sub(64 * word as u64).min(64);
            let mask = if here == 64 { u64::MAX } else { (1 << here) - 1 };
            let (a, b) = (a & mask, b & mask);
            only_first += u64::from((a & !b).count_ones());
            only_second += u64::from((b & !a).count_ones());
            both += u64::from((a & b).count_ones());
        }
        let neither = pairs - only_first - only_second - both;
        PairedShares { only_first, only_second, both, neither }
    }

    /// Adds the pairs of another batch. The order of merging does not matter.
    pub fn merge(&mut self, other: &PairedShares) {
        self.only_first += other.only_first;
        self.only_second += other.only_second;
        self.both += other.both;
        self.neither += other.neither;
    }

    /// Whether no pair differs.
    pub fn are_the_same(&self) -> bool {
        self.only_first == 0 && self.only_second == 0
    }

    /// The number of pairs.
    pub fn pairs(&self) -> u64 {
        self.only_first + self.only_second + self.both + self.neither
    }

    /// The share of the first plan alone, with its 95% exact interval.
    pub fn first(&self) -> Share {
        Share::exact(self.only_first + self.both, self.pairs())
    }

    /// The share of the second plan alone, with its 95% exact interval.
    pub fn second(&self) -> Share {
        Share::exact(self.only_second + self.both, self.pairs())
    }

    /// The difference of the two chances, first minus second, with Tango's score interval.
    ///
    /// - Given: `confidence` as a share (0.95).
    /// - Returns: value and ends from -1 to 1. With no pairs the value is NaN and the interval is
    ///   -1 to 1. With no pair that differs the interval still has a width, about 4 / pairs to
    ///   either side at 95%: nothing seen is not nothing there.
    /// - Limits: approximate. Its coverage is close to `confidence` and can be a little below
    ///   it where differing pairs are few (a test works out how far).
    /// - Panics: when `confidence` is not between 0 and 1.
    /// - Source: Tango, "Equivalence test and confidence interval for the difference in
    ///   proportions for the paired-sample design", Stat. Med. 17 (1998), 891-908; recommended
    ///   by Fagerland, Lydersen and Laake, Stat. Med. 33 (2014), 2850-2875.
    pub fn difference(&self, confidence: f64) -> Difference {
        assert_confidence(confidence);
        let pairs = self.pairs() as f64;
        if pairs == 0.0 {
            return Difference { value: f64::NAN, low: -1.0, high: 1.0 };
        }
        let (first, second) = (self.only_first as f64, self.only_second as f64);
        let z = two_sided_normal_quantile(confidence);
        Difference {
            value: (first - second) / pairs,
            low: -upper_score_end(second, first, pairs, z),
            high: upper_score_end(first, second, pairs, z),
        }
    }
}

/// The largest difference that the score test at `z` does not reject.
///
/// `first`, `second`: pairs in which only that one happened. The score is (first - second - n D)
/// over sqrt(n (2 q + D (1 - D))), where q is the most likely chance of "only second" among
/// those at which the true difference is D. It falls as D grows, so halving finds the end.
fn upper_score_end(first: f64, second: f64, pairs: f64, z: f64) -> f64 {
    let is_rejected = |difference: f64| {
        let linear = 2.0 * pairs * difference - first - second - difference * (first - second);
        let constant = second * difference * (1.0 - difference);
        // q solves 2 n q^2 + linear q - constant = 0.
        let root = (linear * linear + 8.0 * pairs * constant).max(0.0).sqrt();
        let only_second = if linear > 0.0 {
            2.0 * constant / (root + linear)
        } else {
            (root - linear) / (4.0 * pairs)
        };
        let variance = pairs * (2.0 * only_second + difference * (1.0 - difference));
        pairs * difference - (first - second) > z * variance.max(0.0).sqrt()
    };
    let (mut low, mut high) = ((first - second) / pairs, 1.0);
    if !is_rejected(high) {
        return high;
    }
    while high - low > 1e-15 {
        let middle = 0.5 * (low + high);
        if middle <= low || middle >= high {
            break;
        }
        if is_rejected(middle) {
            high = middle;
        } else {
            low = middle;
        }
    }
    high
}

/// The z that a standard normal stays within, to either side, with `confidence`.
fn two_sided_normal_quantile(confidence: f64) -> f64 {
    -Normal::standard().inverse_cdf(0.5 * (1.0 - confidence))
}

#[cfg(test)]
mod tests {
    use super::super::TestLuck;
    use super::*;

    fn shares(only_first: u64, only_second: u64, pairs: u64) -> PairedShares {
        PairedShares { only_first, only_second, both: 0, neither: pairs - only_first - only_second }
    }

    #[test]
    fn the_score_interval_agrees_with_other_programs() {
        let r = "R package PropCIs 0.3-0, -scoreci.mp(b, c, n), which stops within 1e-6";
        let book =
            "R package contingencytables, test of chapter 8: Cavo et al. 2012 (59, 6; 16, 80)";
        let article =
            "Fagerland et al. 2014: Bentur et al. 2009 (1, 1; 7, 12) (values from memory)";
        let rows = [
            (40, 20, 160, 0.030_864_588_916, 0.218_064_233_661, 2e-6, r),
            (20, 40, 160, -0.218_064_285_815, -0.030_864_521_861, 2e-6, r),
            (0, 0, 100, -0.036_993_443_966, 0.036_993_503_571, 2e-6, r),
            (1, 7, 50, -0.246_580_786_705, -0.011_619_682_312, 2e-6, r),
            (5, 0, 25, 0.040_169_310_570, 0.391_309_547_424, 2e-6, r),
            (2, 2, 30, -0.162_180_006_504, 0.162_180_066_109, 2e-6, r),
            (50, 0, 50, 0.857_304_751_873, 1.0, 2e-6, r),
            (4, 11, 320, -0.049_683_837_034, 0.002_097_183_280, 2e-6, r),
            (6, 16, 161, -0.1240, -0.0054, 0.5e-4, book),
            (1, 7, 21, -0.517, -0.026, 0.5e-3, article),
        ];
        for (first, second, pairs, low, high, rounding, source) in rows {
            let got = shares(first, second, pairs).difference(0.95);
            assert!(
                (got.low - low).abs() <= rounding && (got.high - high).abs() <= rounding,
                "{first}, {second} of {pairs}: got {got:?}, {source} gives {low} to {high}"
            );
        }
    }

    #[test]
    fn with_no_pair_that_differs_the_interval_has_its_closed_form() {
        // n D = z sqrt(n D (1 - D)), so D = z^2 / (n + z^2); z from scipy 1.17.1, norm.ppf(0.975).
        let z = 1.959_963_984_540_054_f64;
        for pairs in [1_u64, 100, 20_000, 1_000_000_000] {
            let expected = z * z / (pairs as f64 + z * z);
            let got = shares(0, 0, pairs).difference(0.95);
            assert_eq!(got.value, 0.0);
            assert!((got.high - expected).abs() < 1e-14, "{pairs}: {got:?}");
            assert!((got.low + expected).abs() < 1e-14, "{pairs}: {got:?}");
        }
        let nothing = PairedShares::default().difference(0.95);
        assert!(nothing.value.is_nan() && nothing.low == -1.0 && nothing.high == 1.0);
    }

    #[test]
    fn the_score_interval_covers_the_truth_about_as_often_as_it_says() {
        // Worked out, not sampled, at chances like those of losing water. A Wald interval (value
        // +- z standard errors) has at most 33% at (400, 0.001, 0.0): it has no width when nothing
        // is seen.
        let rows = [
            (100, 0.1, 0.1),
            (100, 0.1, 0.02),
            (200, 0.05, 0.01),
            (200, 0.02, 0.002),
            (200, 0.2, 0.05),
            (400, 0.01, 0.002),
            (400, 0.01, 0.01),
            (400, 0.03, 0.0),
            (400, 0.001, 0.0),
        ];
        for (pairs, only_first, only_second) in rows {
            let got = coverage(pairs, only_first, only_second);
            assert!(got > 0.94 && got <= 1.0, "{pairs}, {only_first}, {only_second}: {got}");
        }
        let close = coverage(200, 0.2, 0.05);
        assert!((close - 0.95).abs() < 0.002, "many differing pairs: {close}");
    }

    /// The exact coverage of the 95% interval: the chances of all tables whose interval holds the
    /// true difference, added up.
    fn coverage(pairs: u64, only_first: f64, only_second: f64) -> f64 {
        let true_difference = only_first - only_second;
        let given_not_first = only_second / (1.0 - only_first);
        let mut covered = 0.0;
        let outer = binomial_chances(pairs, only_first);
        for (first, chance) in outer.iter().enumerate().filter(|(_, chance)| **chance > 1e-9) {
            let rest = pairs - first as u64;
            let inner = binomial_chances(rest, given_not_first);
            for (second, more) in inner.iter().enumerate().filter(|(_, chance)| **chance > 1e-9) {
                let got = shares(first as u64, second as u64, pairs).difference(0.95);
                if (got.low..=got.high).contains(&true_difference) {
                    covered += chance * more;
                }
            }
        }
        covered
    }

    /// The chances of 0, 1, 2, ... hits, by the recurrence of the binomial.
    fn binomial_chances(of: u64, p: f64) -> Vec<f64> {
        let mut chance = (1.0 - p).powi(of as i32);
        (0..=of)
            .map(|hits| {
                let this = chance;
                chance *= (of - hits) as f64 / (hits + 1) as f64 * p / (1.0 - p);
                this
            })
            .collect()
    }

    #[test]
    fn counting_and_merging_keep_every_pair() {
        let (mut left, mut right, mut whole) =
            (PairedShares::default(), PairedShares::default(), PairedShares::default());
        let mut luck = TestLuck::new(3);
        for i in 0..1000 {
            let pair = (luck.happens(0.3), luck.happens(0.2));
            whole.add(pair.0, pair.1);
            if i < 400 { &mut left } else { &mut right }.add(pair.0, pair.1);
        }
        let mut other_way = right;
        left.merge(&right);
        other_way.merge(&PairedShares::default());
        assert_eq!(left, whole);
        assert_eq!(whole.pairs(), 1000);
        let apart = whole.first().value - whole.second().value;
        assert!((apart - whole.difference(0.95).value).abs() < 1e-15);
    }
}
