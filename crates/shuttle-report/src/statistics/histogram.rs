//! Quantiles of levels in fixed memory.
//!
//! A chart of a level over time wants, for every minute, the spread over many thousands of runs.
//! Keeping every level would take gigabytes; a histogram a minute takes the same room whatever
//! the number of runs.
//!
//! A drop tank is very often exactly empty or exactly full. Both have a bin of their own, so
//! that "a quarter of the runs were empty by then" is exact, and no empty tank is shown with a
//! little water in it.

/// Counts of levels from 0 to `top`, in gallons or any other unit.
#[derive(Debug, Clone, PartialEq)]
pub struct LevelHistogram {
    top: f64,
    at_zero: u64,
    at_top: u64,
    /// Counts of the levels strictly between, in bins of equal width, lowest first.
    between: Vec<u64>,
}

/// What sums over thousands of events can be off by, as a share of the top.
const ROUNDING: f64 = 1e-9;

impl LevelHistogram {
    /// An empty histogram of levels from 0 to `top`.
    ///
    /// - Given: `top`, the full level, 0 or more (a tank that holds nothing is always at 0);
    ///   `bins`, 1 or more, of equal width between 0 and `top`. The two ends have bins of their
    ///   own besides. 200 bins place a quantile within half a percent of `top`.
    /// - Panics: when `top` is negative or not finite, or `bins` is 0.
    pub fn new(top: f64, bins: usize) -> LevelHistogram {
        assert!(top.is_finite() && top >= 0.0, "top level {top} is not 0 or more");
        assert!(bins > 0, "bins 0: at least one is needed");
        LevelHistogram { top, at_zero: 0, at_top: 0, between: vec![0; bins] }
    }

    /// Counts one level.
    ///
    /// - Given: `level`, from 0 to the top; past them by no more than rounding it counts as there.
    /// - Panics: when `level` is below 0, above the top or NaN. A level out of range is a mistake of the
    ///   caller; it is not clamped silently.
    pub fn add(&mut self, level: f64) {
        let rounding = ROUNDING * self.top.max(1.0);
        assert!(
            level >= -rounding && level <= self.top + rounding,
            "level {level} is outside 0 to {}",
            self.top
        );
        let level = level.clamp(0.0, self.top);
        if level == 0.0 {
            self.at_zero += 1;
        } else if level == self.top {
            self.at_top += 1;
        } else {
            let bins = self.between.len();
            // A level just below the top can round up to the bin after the last.
            let bin = ((level / self.top * bins as f64) as usize).min(bins - 1);
            self.between[bin] += 1;
        }
    }

    /// Adds the counts of another histogram. Counts are whole, so the order of merging does not
    /// matter.
    ///
    /// - Panics: when the other one has another top or another number of bins.
    pub fn merge(&mut self, other: &LevelHistogram) {
        assert!(
            self.top == other.top && self.between.len() == other.between.len(),
            "histograms of different shape: top {} and {}, bins {} and {}",
            self.top,
            other.top,
            self.between.len(),
            other.between.len()
        );
        self.at_zero += other.at_zero;
        self.at_top += other.at_top;
        for (mine, theirs) in self.between.iter_mut().zip(&other.between) {
            *mine += theirs;
        }
    }

    /// The full level.
    pub fn top(&self) -> f64 {
        self.top
    }

    /// How many levels were counted.
    pub fn count(&self) -> u64 {
        self.at_zero + self.between.iter().sum::<u64>() + self.at_top
    }

    /// The level that a share `q` of the counted levels do not exceed.
    ///
    /// - Given: `q` from 0 to 1 (0.5 for the median).
    /// - Returns: a level from 0 to the top; nothing when nothing was counted. Exactly 0 or the
    ///   top where the quantile lies there; otherwise placed in its bin in proportion to the
    ///   counts, and within one bin's width of the quantile of the levels themselves, taken as
    ///   the least level with at least `q` of all levels at or below it.
    /// - Panics: when `q` is not from 0 to 1.
    /// - Source: definition 1 of Hyndman and Fan, "Sample quantiles in statistical packages",
    ///   Am. Stat. 50 (1996), 361-365.
    pub fn quantile(&self, q: f64) -> Option<f64> {
        assert!((0.0..=1.0).contains(&q), "quantile {q} is not from 0 to 1 (95% is 0.95)");
        let count = self.count();
        if count == 0 {
            return None;
        }
        let wanted = rank(q, count);
        let mut below = self.at_zero;
        if wanted <= below as f64 {
            return Some(0.0);
        }
        let width = self.top / self.between.len() as f64;
        for (bin, &here) in self.between.iter().enumerate() {
            if wanted <= (below + here) as f64 {
                // The j-th of m levels is put in the middle of the j-th of m equal parts.
                let part = (wanted - below as f64 - 0.5) / here as f64;
                return Some(width * (bin as f64 + part));
            }
            below += here;
        }
        Some(self.top)
    }
}

/// Which level is meant, counted from 1 at the lowest: the least whole number of at least
/// q times the count.
fn rank(q: f64, count: u64) -> f64 {
    let exact = q * count as f64;
    // 0.07 * 100 is a little more than 7 in binary and means the 7th, not the 8th.
    let nearest = exact.round();
    let rank =
        if (exact - nearest).abs() <= 4.0 * f64::EPSILON * exact { nearest } else { exact.ceil() };
    rank.max(1.0)
}

#[cfg(test)]
mod tests {
    use super::super::TestLuck;
    use super::*;

    /// Definition 1 of Hyndman and Fan, on the levels themselves.
    fn sorted_quantile(levels: &mut [f64], per_mille: usize) -> f64 {
        levels.sort_by(f64::total_cmp);
        let rank = (per_mille * levels.len()).div_ceil(1000).max(1);
        levels[rank - 1]
    }

    /// Levels of a tank that is often empty, often full and else anywhere, more often low.
    fn levels(luck: &mut TestLuck, count: usize, top: f64) -> Vec<f64> {
        (0..count)
            .map(|_| match luck.uniform() {
                share if share < 0.12 => 0.0,
                share if share > 0.8 => top,
                _ => top * luck.uniform().powi(3),
            })
            .collect()
    }

    #[test]
    fn quantiles_are_within_a_bin_of_those_of_the_sorted_levels_and_exact_at_the_ends() {
        let mut luck = TestLuck::new(11);
        for count in [1, 2, 9, 1000, 30_000] {
            let top = 3000.0;
            let mut kept = levels(&mut luck, count, top);
            let mut histogram = LevelHistogram::new(top, 150);
            kept.iter().for_each(|level| histogram.add(*level));
            for per_mille in [0, 1, 50, 119, 250, 333, 500, 750, 799, 950, 999, 1000] {
                let exact = sorted_quantile(&mut kept, per_mille);
                let got = histogram.quantile(per_mille as f64 / 1000.0).unwrap();
                if exact == 0.0 || exact == top {
                    assert_eq!(got, exact, "{count} levels, {per_mille} of 1000");
                } else {
                    assert!(
                        (got - exact).abs() <= top / 150.0,
                        "{count} levels, {per_mille} of 1000: {got} for {exact}"
                    );
                }
            }
        }
    }

    #[test]
    fn levels_spread_evenly_come_back_better_than_a_bin() {
        // 1,000 evenly spread levels in 10 bins: quantile q of the uniform distribution is q.
        let mut histogram = LevelHistogram::new(1.0, 10);
        for i in 0..1000 {
            histogram.add((f64::from(i) + 0.5) / 1000.0);
        }
        for i in 1..100 {
            let q = f64::from(i) / 100.0;
            let got = histogram.quantile(q).unwrap();
            assert!((got - q).abs() <= 0.000_6, "{q}: {got}");
        }
    }

    #[test]
    fn a_tank_that_is_empty_in_a_quarter_of_the_runs_is_at_0_up_to_the_first_quartile() {
        let mut histogram = LevelHistogram::new(2500.0, 100);
        for _ in 0..25 {
            histogram.add(0.0);
        }
        for _ in 0..50 {
            histogram.add(1.0);
        }
        for _ in 0..25 {
            histogram.add(2500.0);
        }
        assert_eq!(histogram.quantile(0.25), Some(0.0));
        let next = histogram.quantile(0.26).unwrap();
        assert!(next > 0.0 && next < 25.0, "{next}");
        assert!(histogram.quantile(0.75).unwrap() < 25.0);
        assert_eq!(histogram.quantile(0.76), Some(2500.0));
        let ends = (histogram.at_zero, histogram.at_top, histogram.count());
        assert_eq!(ends, (25, 25, 100));
    }

    #[test]
    fn merging_in_any_order_gives_the_same_as_counting_all_at_once() {
        let mut luck = TestLuck::new(12);
        let all = levels(&mut luck, 5000, 750.0);
        let mut whole = LevelHistogram::new(750.0, 64);
        all.iter().for_each(|level| whole.add(*level));
        let parts: Vec<LevelHistogram> = all
            .chunks(700)
            .map(|chunk| {
                let mut part = LevelHistogram::new(750.0, 64);
                chunk.iter().for_each(|level| part.add(*level));
                part
            })
            .collect();
        let mut forward = LevelHistogram::new(750.0, 64);
        parts.iter().for_each(|part| forward.merge(part));
        let mut backward = LevelHistogram::new(750.0, 64);
        parts.iter().rev().for_each(|part| backward.merge(part));
        assert_eq!(forward, whole);
        assert_eq!(backward, whole);
        assert_eq!(whole.count(), 5000);
    }

    #[test]
    fn the_edges_of_the_range_are_kept_apart() {
        let mut histogram = LevelHistogram::new(0.3, 7);
        histogram.add(0.3_f64.next_down());
        histogram.add(f64::MIN_POSITIVE);
        assert_eq!((histogram.at_zero, histogram.at_top), (0, 0));
        assert!(histogram.quantile(0.0).unwrap() > 0.0);
        assert!(histogram.quantile(1.0).unwrap() < 0.3);
        let mut nothing_held = LevelHistogram::new(0.0, 10);
        assert_eq!(nothing_held.quantile(0.5), None);
        nothing_held.add(0.0);
        assert_eq!(nothing_held.quantile(0.5), Some(0.0));
    }

    #[test]
    #[should_panic(expected = "level 100.5 is outside 0 to 100")]
    fn a_level_above_the_top_is_refused() {
        LevelHistogram::new(100.0, 10).add(100.5);
    }

    #[test]
    #[should_panic(expected = "level NaN")]
    fn a_level_that_is_no_number_is_refused() {
        LevelHistogram::new(100.0, 10).add(f64::NAN);
    }

    #[test]
    #[should_panic(expected = "different shape")]
    fn histograms_of_different_tanks_are_not_merged() {
        LevelHistogram::new(100.0, 10).merge(&LevelHistogram::new(200.0, 10));
    }
}
