use shuttle_sim::{RestsOn, TimeTaken};

use super::*;
use crate::doubt::posterior::{normal, time};
use crate::statistics::TestLuck;
use crate::statistics::beta;
use statrs::distribution::{Binomial, ContinuousCDF, DiscreteCDF, Normal};

/// The quantile of a beta distribution.
fn beta_quantile(a: f64, b: f64, q: f64) -> f64 {
    beta::beta_quantile(q.ln(), a, b).probability()
}

const DRAWS: usize = 256;
const FIRES: u64 = 128;

fn open(luck: &mut TestLuck) -> f64 {
    luck.uniform().clamp(1e-12, 1.0 - 1e-12)
}

/// Chances as a few fires each show them.
fn seen(chances: &[f64], luck: &mut TestLuck) -> Vec<u64> {
    chances.iter().map(|p| (0..FIRES).filter(|_| luck.happens(*p)).count() as u64).collect()
}

#[test]
fn the_luck_of_few_fires_does_not_widen_the_range() {
    // Chances spread as a beta distribution, whose quantiles are known; few fires alone would spread them further.
    let mut luck = TestLuck::new(11);
    for (a, b) in [(30.0, 70.0), (8.0, 12.0), (2.0, 30.0), (300.0, 700.0)] {
        let (mut low, mut high, mut wide) = (0.0, 0.0, 0.0);
        let times = 40;
        for _ in 0..times {
            let chances: Vec<f64> =
                (0..DRAWS).map(|_| beta_quantile(a, b, open(&mut luck))).collect();
            let hits = seen(&chances, &mut luck);
            let range = Figures::of_chances(&hits, FIRES).range;
            (low, high) = (low + range.low, high + range.high);
            let mut raw: Vec<f64> = hits.iter().map(|hits| *hits as f64 / FIRES as f64).collect();
            raw.sort_by(f64::total_cmp);
            wide += quantile(&raw, 0.9) - quantile(&raw, 0.1);
        }
        let (low, high, wide) = (low / 40.0, high / 40.0, wide / 40.0);
        let (right_low, right_high) = (beta_quantile(a, b, 0.1), beta_quantile(a, b, 0.9));
        let width = right_high - right_low;
        let off = (low - right_low).abs().max((high - right_high).abs());
        println!(
            "beta({a}, {b}): {low:.3} to {high:.3}, right {right_low:.3} to {right_high:.3}; uncorrected width {wide:.3}"
        );
        // A tenth of the width: skewed chances keep the shape that few fires gave them.
        assert!(off < 0.1 * width, "{low} to {high}, right {right_low} to {right_high}");
        assert!(wide > 1.02 * width, "{wide} without correction, right {width}");
    }
}

#[test]
fn without_doubt_there_is_next_to_no_range() {
    let mut luck = TestLuck::new(5);
    let mut width = 0.0;
    for _ in 0..20 {
        let range = Figures::of_chances(&seen(&[0.3; DRAWS], &mut luck), FIRES).range;
        assert!((range.mean - 0.3).abs() < 0.011, "{range:?}");
        width += (range.high - range.low) / 20.0;
    }
    // Uncorrected it would be 0.10.
    assert!(width < 0.03, "{width}");
}

#[test]
fn a_difference_on_the_same_fires_has_the_range_of_the_difference() {
    let mut luck = TestLuck::new(9);
    // In each draw the second plan runs short in half the fires in which the first does.
    let pairs: Vec<Paired> = (0..4000)
        .map(|_| {
            let p = 0.2 + 0.2 * luck.uniform();
            let only_first = (0..FIRES).filter(|_| luck.happens(p / 2.0)).count() as u64;
            Paired { only_first, only_second: 0 }
        })
        .collect();
    let figures = Figures::of_differences(&pairs, FIRES);
    // Half of a uniform chance from 0.2 to 0.4: from -0.2 to -0.1, 80% of it from -0.19 to -0.11.
    let Range { mean, low, high, variance, .. } = figures.range;
    assert!((mean + 0.15).abs() < 0.003, "{mean}");
    assert!((variance.sqrt() - 0.1 / 12.0_f64.sqrt()).abs() < 0.002, "{}", variance.sqrt());
    assert!((low + 0.19).abs() < 0.006 && (high + 0.11).abs() < 0.006, "{low} to {high}");
    assert_eq!(figures.share_at_least(0.0), 0.0);
}

/// A duration that is lognormal in truth, of which a few readings are taken.
struct Truth {
    mu: f64,
    sigma: f64,
}

impl Truth {
    fn readings(&self, count: usize, luck: &mut TestLuck) -> Vec<f64> {
        (0..count).map(|_| (self.mu + self.sigma * luck.normal()).exp()).collect()
    }
}

/// How often in so many repetitions the range holds the truth, where a chance under one draw of the inputs is known
/// exactly and shown by few fires.
fn covers(
    readings: usize,
    stated: impl Fn(&[f64]) -> TimeTaken,
    chance: impl Fn(&TimeTaken) -> f64,
    right: f64,
    seed: u64,
) -> f64 {
    let truth = Truth { mu: 0.0, sigma: 0.3 };
    let mut luck = TestLuck::new(seed);
    let mut covered = 0;
    for _ in 0..REPETITIONS {
        let stated = stated(&truth.readings(readings, &mut luck));
        let chances: Vec<f64> = (0..DRAWS)
            .map(|_| {
                let numbers: Vec<f64> = (0..readings.max(2)).map(|_| open(&mut luck)).collect();
                let numbers = if matches!(stated, TimeTaken::Samples(_)) {
                    &numbers[..readings]
                } else {
                    &numbers[..2]
                };
                chance(&time(&stated, RestsOn::Readings(readings as u32), numbers))
            })
            .collect();
        let range = Figures::of_chances(&seen(&chances, &mut luck), FIRES).range;
        covered += usize::from((range.low..=range.high).contains(&right));
    }
    covered as f64 / REPETITIONS as f64
}

const REPETITIONS: usize = 300;
/// The lines run short when the work takes longer than this: 0.3 in truth.
fn limit() -> f64 {
    (0.3 * normal(0.7)).exp()
}

/// The chance that the duration takes longer than the limit.
fn longer(duration: &TimeTaken) -> f64 {
    match duration {
        TimeTaken::Weighted(weighted) => weighted
            .iter()
            .filter(|(minutes, _)| *minutes > limit())
            .map(|(_, weight)| weight)
            .sum(),
        TimeTaken::Lognormal { mean, cv } => {
            let variance = (cv * cv).ln_1p();
            let z = (limit().ln() - mean.ln() + 0.5 * variance) / variance.sqrt();
            Normal::standard().sf(z)
        }
        other => panic!("{other:?}"),
    }
}

fn mean_and_cv(readings: &[f64]) -> TimeTaken {
    let of = readings.len() as f64;
    let mean = readings.iter().sum::<f64>() / of;
    let variance = readings.iter().map(|x| (x - mean).powi(2)).sum::<f64>() / (of - 1.0);
    TimeTaken::Lognormal { mean, cv: variance.sqrt() / mean }
}

#[test]
fn mean_and_cv_of_few_readings_cover_the_truth_in_80_of_100() {
    for (readings, seed) in [(5, 1), (10, 2), (30, 3)] {
        let share = covers(readings, mean_and_cv, longer, 0.3, seed);
        println!("mean and cv of {readings} readings: {:.1}%", 100.0 * share);
        assert!((0.75..=0.85).contains(&share), "{readings} readings: {share}");
    }
}

/// Readings above the limit are binomial; given k of n of them the bootstrap's chance is beta(k, n - k) (Rubin 1981).
/// So what it covers is known: 67 of 100 with five readings, short of 80.
fn bootstrap_covers(readings: u64, right: f64) -> f64 {
    let counts = Binomial::new(right, readings).expect("sound");
    let chance = |k: u64| counts.cdf(k) - if k > 0 { counts.cdf(k - 1) } else { 0.0 };
    (1..readings)
        .filter(|k| {
            let (a, b) = (*k as f64, (readings - k) as f64);
            (beta_quantile(a, b, 0.1)..=beta_quantile(a, b, 0.9)).contains(&right)
        })
        .map(chance)
        .sum()
}

#[test]
fn samples_cover_what_theory_says_of_the_bootstrap_which_is_too_little_for_few() {
    for (readings, seed) in [(5, 4), (10, 5), (20, 6), (40, 7)] {
        let share = covers(readings, |times| TimeTaken::Samples(times.to_vec()), longer, 0.3, seed);
        let theory = bootstrap_covers(readings as u64, 0.3);
        println!("{readings} samples: {:.1}%, in theory {:.1}%", 100.0 * share, 100.0 * theory);
        let error = (theory * (1.0 - theory) / REPETITIONS as f64).sqrt();
        assert!((share - theory).abs() < 4.0 * error, "{readings} samples: {share}, {theory}");
    }
    assert!(bootstrap_covers(5, 0.3) < 0.75, "five readings are too few, and that is told");
}

#[test]
fn samples_cover_a_mean_nearly_as_they_should_from_ten_on() {
    // Where many drives add up the chance goes with the mean.
    let right_mean = (0.5_f64 * 0.09).exp();
    let by_mean = |duration: &TimeTaken| Normal::standard().cdf((duration.mean() - 1.1) / 0.15);
    let right = Normal::standard().cdf((right_mean - 1.1) / 0.15);
    for (readings, seed, least) in [(5, 14, 0.60), (10, 15, 0.68), (20, 16, 0.73), (40, 17, 0.75)] {
        let share =
            covers(readings, |times| TimeTaken::Samples(times.to_vec()), by_mean, right, seed);
        println!("mean of {readings} samples: {:.1}%", 100.0 * share);
        assert!((least..=0.86).contains(&share), "{readings} samples: {share}");
    }
}
