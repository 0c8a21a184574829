use statrs::distribution::{ContinuousCDF, Normal};

use super::*;
use crate::doubt::posterior::normal;
use crate::statistics::TestLuck;

/// Draws of two inputs and of a third that is without effect.
fn draws(count: usize, seed: u64) -> Vec<Vec<f64>> {
    let mut luck = TestLuck::new(seed);
    [0.17, 0.4, 0.3]
        .into_iter()
        .map(|sd| (0..count).map(|_| sd * luck.normal()).collect())
        .collect()
}

#[test]
fn each_input_has_its_share_of_the_variance() {
    let off_by = draws(256, 21);
    let mut luck = TestLuck::new(22);
    let noise = 0.03;
    // 0.1 and 0.05 for a standard deviation of each: 80 and 20 of 100 of the variance.
    let chances: Vec<f64> = (0..256)
        .map(|draw| {
            0.3 + 0.1 * off_by[0][draw] / 0.17
                + 0.05 * off_by[1][draw] / 0.4
                + noise * luck.normal()
        })
        .collect();
    let got = shares(&chances, &off_by, 0.0125);
    for (got, expected) in got.iter().zip([0.8, 0.2, 0.0]) {
        assert!((got - expected).abs() < 0.12, "{got}, in truth {expected}");
    }
    assert!(got[2] < 0.02, "{got:?}");
}

#[test]
fn a_bend_counts_too() {
    let off_by = draws(256, 31);
    let chances: Vec<f64> = off_by[0].iter().map(|off| 0.2 + 0.05 * (off / 0.17).powi(2)).collect();
    let count = chances.len() as f64;
    let mean = chances.iter().sum::<f64>() / count;
    let variance = chances.iter().map(|p| (p - mean).powi(2)).sum::<f64>() / (count - 1.0);
    let got = shares(&chances, &off_by, variance);
    assert!(got[0] > 0.95 && got[1] < 0.03 && got[2] < 0.03, "{got:?}");
}

#[test]
fn inputs_that_cannot_be_told_apart_get_no_share() {
    let one = draws(256, 41).remove(0);
    let chances: Vec<f64> = one.iter().map(|off| 0.3 + off).collect();
    assert_eq!(shares(&chances, &[one.clone(), one.clone()], 0.03), [0.0, 0.0]);
    assert_eq!(shares(&chances, &[one], 0.0), [0.0]);
    assert_eq!(shares(&chances, &vec![vec![0.0; 256]; 40], 0.03), vec![0.0; 40]);
}

/// Against brute force: the input is drawn, ten readings of it are taken, and what is then left of the variance of
/// the chance is worked out from the posterior (normal, by the conjugate rule), over many such readings.
#[test]
fn ten_readings_leave_what_they_leave_when_they_are_really_taken() {
    let chance = |off: f64, other: f64| Normal::standard().cdf(-0.5 + 2.0 * off + 0.8 * other);
    let place = |k: usize, of: usize| normal((k as f64 + 0.5) / of as f64);
    // The variance over a normal input of this mean and sd, and over the other one.
    let variance = |mean: f64, sd: f64| {
        let (mut sum, mut squares) = (0.0, 0.0);
        for (a, b) in (0..60).flat_map(|a| (0..30).map(move |b| (a, b))) {
            let p = chance(mean + sd * place(a, 60), 0.3 * place(b, 30));
            (sum, squares) = (sum + p, squares + p * p);
        }
        squares / 1800.0 - (sum / 1800.0).powi(2)
    };
    for (factor, spread) in [(1.5, 0.3), (2.0, 0.5)] {
        let sd = log_sd_of_guess(factor);
        let left = left_by_readings(RestsOn::Guess(factor), Some(spread));
        let before = variance(0.0, sd);
        let mut luck = TestLuck::new(7);
        let times = 400;
        let after: f64 = (0..times)
            .map(|_| {
                let truth = sd * luck.normal();
                let read = truth + spread / 10.0_f64.sqrt() * luck.normal();
                variance(read * (1.0 - left), sd * left.sqrt())
            })
            .sum::<f64>()
            / f64::from(times);
        let off_by: Vec<Vec<f64>> = vec![
            (0..1024).map(|k| sd * place(k, 1024)).collect(),
            (0..1024).map(|k| 0.3 * place((k * 331 + 17) % 1024, 1024)).collect(),
        ];
        let chances: Vec<f64> = (0..1024).map(|k| chance(off_by[0][k], off_by[1][k])).collect();
        let share = shares(&chances, &off_by, before)[0];
        let told = width_left(share, left);
        let right = (after / before).sqrt();
        println!("guess {factor}: {told:.3} of the width left, really {right:.3}");
        assert!((told - right).abs() < 0.05, "told {told}, really {right}");
    }
}

#[test]
fn readings_that_are_there_count() {
    assert_eq!(left_by_readings(RestsOn::Readings(10), None), 0.5);
    assert_eq!(left_by_readings(RestsOn::Readings(30), Some(0.2)), 0.75);
    assert!(
        left_by_readings(RestsOn::Guess(2.0), None) < left_by_readings(RestsOn::Guess(1.1), None)
    );
    assert_eq!(width_left(1.0, 0.25), 0.5);
    assert_eq!(width_left(0.0, 0.25), 1.0);
}
