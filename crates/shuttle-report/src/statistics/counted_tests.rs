//! What is counted and merged, against counting by hand.

use super::histogram::LevelHistogram;
use super::paired::{Difference, PairedShares};
use super::paired_means::PairedMeans;

#[test]
fn pairs_of_runs_kept_as_bits_are_counted_as_one_by_one() {
    // 150 runs of the first plan and 140 of the second: only the first 140 pair up. Every third against every fifth.
    let happens = |run: u64, every: u64| run.is_multiple_of(every);
    let bits = |every: u64| -> Vec<u64> {
        let word =
            |word: u64| (0..64).map(|bit| u64::from(happens(64 * word + bit, every)) << bit).sum();
        (0..3).map(word).collect()
    };
    let mut one_by_one = PairedShares::default();
    for run in 0..140 {
        one_by_one.add(happens(run, 3), happens(run, 5));
    }
    assert_eq!(PairedShares::of_bits((&bits(3), 150), (&bits(5), 140)), one_by_one);
    assert_eq!(PairedShares::of_bits((&bits(3), 140), (&bits(5), 192)), one_by_one);
    // By hand: 47 multiples of 3 and 28 of 5 below 140, 10 of 15.
    let PairedShares { only_first, only_second, both, neither } = one_by_one;
    assert_eq!([only_first, only_second, both, neither], [37, 18, 10, 75]);
    // Whole words count to their last bit.
    let all = PairedShares::of_bits((&[u64::MAX; 2], 128), (&[0; 2], 128));
    assert_eq!((all.only_first, all.pairs()), (128, 128));
}

#[test]
fn plans_are_the_same_where_no_pair_differs() {
    let shares =
        |only_first, only_second| PairedShares { only_first, only_second, both: 3, neither: 4 };
    assert!(shares(0, 0).are_the_same());
    for other in [shares(1, 0), shares(0, 1), shares(1, 1)] {
        assert!(!other.are_the_same());
    }
    let means = |differences: &[f64]| {
        let mut means = PairedMeans::default();
        differences.iter().for_each(|apart| means.add(*apart, 0.0));
        means
    };
    assert!(means(&[0.0, 0.0, 0.0]).are_the_same());
    assert!(!means(&[1.0, 1.0]).are_the_same(), "always apart by the same");
    assert!(!means(&[1.0, -1.0]).are_the_same(), "apart, though not on average");
    assert!(!means(&[1.0, 0.0]).are_the_same());
}

#[test]
fn a_difference_is_clear_where_its_interval_leaves_out_nothing() {
    let clear = |low, high| Difference { value: 0.5 * (low + high), low, high }.is_clear();
    assert!(clear(0.1, 0.4) && clear(-0.4, -0.1));
    assert!(!clear(-0.1, 0.4) && !clear(0.0, 0.4) && !clear(-0.4, 0.0) && !clear(0.0, 0.0));
}

#[test]
fn a_quantile_means_the_level_that_people_mean() {
    // 100 levels in 100 bins, the k-th in the middle of the k-th.
    let mut levels = LevelHistogram::new(100.0, 100);
    (0..100).for_each(|k| levels.add(f64::from(k) + 0.5));
    assert_eq!(levels.top(), 100.0);
    // 0.07 x 100 is a little more than 7 in binary: the 7th all the same.
    for k in 1..=100 {
        let level = levels.quantile(f64::from(k) / 100.0).expect("counted");
        assert!((level - (f64::from(k) - 0.5)).abs() < 1e-9, "{k}: {level}");
    }
    // Of 101 parts of 100 the next whole one.
    assert_eq!(levels.quantile(0.0701), Some(7.5));
}

#[test]
fn a_level_a_hair_below_the_top_is_in_the_last_bin() {
    for bins in 500..600 {
        for tenths in 10..40 {
            let top = f64::from(tenths) / 10.0;
            let mut levels = LevelHistogram::new(top, bins);
            levels.add(top.next_down());
            let level = levels.quantile(0.5).expect("one");
            assert!(level < top && level > top * (1.0 - 1.0 / bins as f64), "{level} of {top}");
        }
    }
    // Rounding of a tank of 20,000 gal is larger than that of one of 1 gal, and counts as full.
    let mut large = LevelHistogram::new(20_000.0, 10);
    large.add(20_000.0_f64.next_up());
    assert_eq!(large.quantile(0.5), Some(20_000.0));
}
