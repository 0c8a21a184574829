//! Two plans run on common random numbers: by how much do minutes or gallons differ on average?
//!
//! As with chances ([`paired`](super::paired)) the difference is first minus second, pair by
//! pair, and the number of pairs is meant to be fixed beforehand.

use super::assert_confidence;
use super::beta::beta_quantile;
use super::paired::Difference;

/// Running sums of a paired difference of something measured, such as minutes or gallons.
///
/// Kept as count, mean and sum of squares about the mean, updated pair by pair: plain sums of
/// squares lose their digits when the mean is large against the spread. Source: Welford,
/// Technometrics 4 (1962), 419-420; for merging, Chan, Golub and LeVeque, Am. Stat. 37 (1983),
/// 242-247.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct PairedMeans {
    pairs: u64,
    mean: f64,
    squares: f64,
}

impl PairedMeans {
    /// Adds one pair, in one unit.
    ///
    /// - Panics: when a value is not finite.
    pub fn add(&mut self, first: f64, second: f64) {
        let difference = first - second;
        assert!(difference.is_finite(), "a pair {first}, {second} that is not finite");
        self.pairs += 1;
        let before = difference - self.mean;
        self.mean += before / self.pairs as f64;
        self.squares += before * (difference - self.mean);
    }

    /// Adds the pairs of another batch. The last digits depend on the order of merging: merge in
    /// the order of the replications.
    pub fn merge(&mut self, other: &PairedMeans) {
        if other.pairs == 0 {
            return;
        }
        let (mine, theirs) = (self.pairs as f64, other.pairs as f64);
        let apart = other.mean - self.mean;
        self.pairs += other.pairs;
        self.mean += apart * theirs / (mine + theirs);
        self.squares += other.squares + apart * apart * mine * theirs / (mine + theirs);
    }

    /// Whether no pair differs at all.
    pub fn are_the_same(&self) -> bool {
        self.mean == 0.0 && self.squares == 0.0
    }

    /// The number of pairs.
    pub fn pairs(&self) -> u64 {
        self.pairs
    }

    /// The mean difference, first minus second, with Student's t interval.
    ///
    /// - Given: `confidence` as a share (0.95).
    /// - Returns: value and ends in the unit of the pairs; nothing with fewer than two pairs,
    ///   which show no spread. When all differences were equal the interval has no width.
    /// - Limits: exact for normal differences; otherwise good from some dozens of pairs, more
    ///   where the difference is nearly always 0 and seldom large.
    /// - Panics: when `confidence` is not between 0 and 1.
    /// - Source: Student, "The probable error of a mean", Biometrika 6 (1908), 1-25.
    pub fn difference(&self, confidence: f64) -> Option<Difference> {
        assert_confidence(confidence);
        if self.pairs < 2 {
            return None;
        }
        let freedom = (self.pairs - 1) as f64;
        let error = (self.squares / freedom / self.pairs as f64).sqrt();
        let reach = two_sided_t_quantile(confidence, freedom) * error;
        Some(Difference { value: self.mean, low: self.mean - reach, high: self.mean + reach })
    }
}

/// The t that Student's t with `freedom` degrees of freedom stays within, to either side.
///
/// P(|T| > t) = I_x(freedom / 2, 1 / 2) at x = freedom / (freedom + t^2): Abramowitz and Stegun,
/// 26.5.27 and 26.7.1. Through our own beta quantile because that of statrs 0.19 is off in the
/// seventh digit at a million degrees and does not return at a hundred million.
fn two_sided_t_quantile(confidence: f64, freedom: f64) -> f64 {
    let odds = beta_quantile((1.0 - confidence).ln(), 0.5 * freedom, 0.5);
    // x / (1 - x) = freedom / t^2.
    freedom.sqrt() * (-0.5 * odds.0).exp()
}

#[cfg(test)]
mod tests {
    use super::super::TestLuck;
    use super::*;
    use crate::statistics::confidence_for_each;

    #[test]
    fn the_mean_interval_agrees_with_students_own_example() {
        // Extra hours of sleep under two drugs, ten patients: Student 1908, as in the R data set
        // "sleep", whose help page's paired t.test prints -2.4598858 to -0.7001142 around -1.58.
        let first = [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0];
        let second = [1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4];
        let mut sums = PairedMeans::default();
        for (first, second) in first.into_iter().zip(second) {
            sums.add(first, second);
        }
        let got = sums.difference(0.95).unwrap();
        assert!((got.value + 1.58).abs() < 1e-12, "{got:?}");
        assert!((got.low + 2.459_885_8).abs() < 0.5e-7, "{got:?}");
        assert!((got.high + 0.700_114_2).abs() < 0.5e-7, "{got:?}");
        assert!(got.is_clear());
        assert_eq!(PairedMeans::default().difference(0.95), None);
    }

    #[test]
    fn t_quantiles_agree_with_scipy() {
        // scipy 1.17.1: t.ppf(0.975, f), t.ppf(0.995, f), t.ppf(0.99995, f).
        let rows = [
            (1.0, 12.706_204_736_174_694, 63.656_741_162_871_526, 6_366.197_671_316_637),
            (2.0, 4.302_652_729_749_462, 9.924_843_200_918_287, 99.992_499_843_750_04),
            (3.0, 3.182_446_305_283_708, 5.840_909_309_733_355, 28.000_130_010_950_002),
            (9.0, 2.262_157_162_798_205, 3.249_835_541_592_126, 6.593_682_583_944_882),
            (30.0, 2.042_272_456_301_238, 2.749_995_653_567_225, 4.482_417_175_409_786),
            (199.0, 1.971_956_544_251_753, 2.600_760_216_058_516, 3.970_905_695_795_025),
            (9999.0, 1.960_201_263_621_357, 2.576_321_095_856_597, 3.892_162_140_651_687),
            (1e6, 1.959_966_356_814_107, 2.575_834_220_105_334, 3.890_607_581_803_093),
            (1e8, 1.959_964_008_262_766, 2.575_829_352_714_377, 3.890_592_043_366_462),
        ];
        for (freedom, at_95, at_99, at_9999) in rows {
            for (confidence, expected) in [(0.95, at_95), (0.99, at_99), (0.9999, at_9999)] {
                let got = two_sided_t_quantile(confidence, freedom);
                assert!(
                    (got / expected - 1.0_f64).abs() < 1e-10,
                    "{freedom} degrees, {confidence}: {got}, scipy gives {expected}"
                );
            }
        }
    }

    #[test]
    fn the_mean_interval_covers_the_truth_as_often_as_it_says() {
        let mut luck = TestLuck::new(1908);
        let batches = 10_000;
        let mut covered = 0;
        for _ in 0..batches {
            let mut sums = PairedMeans::default();
            for _ in 0..6 {
                // What the plans share is large and cancels; the first is 2.5 more.
                let shared = 40.0 * luck.normal();
                sums.add(shared + 2.5 + luck.normal(), shared + luck.normal());
            }
            let got = sums.difference(0.95).unwrap();
            covered += i32::from((got.low..=got.high).contains(&2.5));
        }
        let share = f64::from(covered) / f64::from(batches);
        let four_errors = 4.0 * (0.95 * 0.05 / f64::from(batches)).sqrt();
        assert!((share - 0.95).abs() < four_errors, "covered {share}");
    }

    #[test]
    fn several_options_against_one_reference_hold_together() {
        // Eight options that do not differ from the reference, all on common random numbers: at 95% for
        // each alone some option "differs" far too often; together at most 5% of the time.
        let mut luck = TestLuck::new(8);
        let batches = 1000;
        let (mut wrong_together, mut wrong_alone) = (0, 0);
        for _ in 0..batches {
            let mut options = [PairedMeans::default(); 8];
            for _ in 0..30 {
                let reference = luck.normal();
                for option in &mut options {
                    option.add(luck.normal(), reference);
                }
            }
            let some_is_clear = |confidence: f64| {
                let clear =
                    |option: &PairedMeans| option.difference(confidence).unwrap().is_clear();
                options.iter().any(clear)
            };
            let each = confidence_for_each(0.95, options.len());
            wrong_together += i32::from(some_is_clear(each));
            wrong_alone += i32::from(some_is_clear(0.95));
        }
        let allowed = 0.05 * f64::from(batches) + 4.0 * (0.05 * 0.95 * f64::from(batches)).sqrt();
        assert!(f64::from(wrong_together) < allowed, "together wrong {wrong_together}");
        assert!(f64::from(wrong_alone) > 2.0 * allowed, "alone wrong {wrong_alone}");
    }

    #[test]
    fn a_large_mean_does_not_hide_a_small_spread_and_merging_agrees() {
        // Deviations -1, 0, 1 about 1e9: the variance is exactly 1, which plain sums of squares
        // (of the order of 1e18, 16 digits) could not show.
        let mut sums = PairedMeans::default();
        for deviation in [-1.0, 0.0, 1.0] {
            sums.add(1e9 + deviation, 0.0);
        }
        let got = sums.difference(0.95).unwrap();
        let reach = two_sided_t_quantile(0.95, 2.0) / 3.0_f64.sqrt();
        assert!((got.high - got.value - reach).abs() < 1e-6, "{got:?}");

        let mut luck = TestLuck::new(5);
        let values: Vec<(f64, f64)> = (0..500).map(|_| (luck.normal(), luck.normal())).collect();
        let sum_up = |part: &[(f64, f64)]| {
            let mut sums = PairedMeans::default();
            part.iter().for_each(|(first, second)| sums.add(*first, *second));
            sums
        };
        let whole = sum_up(&values).difference(0.95).unwrap();
        let mut merged = PairedMeans::default();
        for part in values.chunks(64) {
            merged.merge(&sum_up(part));
        }
        assert_eq!(merged.pairs(), 500);
        let merged = merged.difference(0.95).unwrap();
        assert!((merged.value - whole.value).abs() < 1e-14);
        assert!((merged.high - whole.high).abs() < 1e-14);
    }
}
