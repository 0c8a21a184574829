use super::*;
use crate::statistics::TestLuck;

// Quantiles by scipy.stats of scipy 1.17.1, worked out by the calls beside them.

/// stats.lognorm(s=log(factor) / stats.norm.ppf(0.9)).ppf(u)
const GUESSES: [(f64, f64, f64); 4] = [
    (1.25, 0.05, 0.7509609337949922),
    (1.25, 0.9, 1.25),
    (2.0, 0.25, 0.6943297299300494),
    (1.1, 0.999, 1.2583778184012144),
];
/// readings, cv, u, stats.invgamma((n - 1) / 2, scale=(n - 1) * log1p(cv**2) / 2).ppf(u)
const VARIANCES: [(u32, f64, f64, f64); 5] = [
    (3, 0.2, 0.5, 0.05658352836636745),
    (5, 0.3, 0.1, 0.04431048634739679),
    (5, 0.3, 0.9, 0.3240910686474428),
    (12, 0.4, 0.5, 0.15787838316535266),
    (30, 0.25, 0.99, 0.12332056496026925),
];
/// readings, q, stats.t(n - 1).ppf(q)
const STUDENTS: [(u32, f64, f64); 3] =
    [(5, 0.9, 1.533206274058944), (12, 0.1, -1.3634303180205407), (30, 0.75, 0.6830438608216131)];

#[test]
fn a_guess_is_off_as_scipy_lognormal_is() {
    for (factor, u, expected) in GUESSES {
        let got = guessed(factor, u);
        assert!((got / expected - 1.0).abs() < 1e-8, "{factor} at {u}: {got}, scipy {expected}");
    }
}

#[test]
fn the_variance_of_timed_logs_is_scipys_inverse_gamma() {
    for (readings, cv, u, expected) in VARIANCES {
        let (_, drawn) = timed(4.0, cv, readings, u, 0.5);
        let got = (drawn * drawn).ln_1p();
        assert!((got / expected - 1.0).abs() < 1e-7, "{readings}: {got}, scipy {expected}");
    }
}

#[test]
fn the_mean_of_timed_logs_is_students_t() {
    // Gelman et al., section 3.2: (mu - center) / (s / sqrt n) is Student's with n - 1 degrees of freedom;
    // quantiles of stats.t(n - 1).
    let cv: f64 = 0.3;
    let of_logs = (cv * cv).ln_1p();
    for (readings, q, t) in STUDENTS {
        let center = 4.0_f64.ln() - 0.5 * of_logs;
        let limit = center + t * (of_logs / f64::from(readings)).sqrt();
        let grid = 200;
        let place = |k: u32| (f64::from(k) + 0.5) / f64::from(grid);
        let mut below = 0_u32;
        for (variance, mean) in (0..grid).flat_map(|a| (0..grid).map(move |b| (a, b))) {
            let (m, c) = timed(4.0, cv, readings, place(variance), place(mean));
            below += u32::from(m.ln() - 0.5 * (c * c).ln_1p() <= limit);
        }
        let got = f64::from(below) / f64::from(grid * grid);
        assert!((got - q).abs() < 0.004, "{readings}: {got} below, scipy {q}");
    }
}

#[test]
fn the_bootstrap_has_the_moments_that_rubin_gives() {
    // Rubin 1981: the mean has the mean of the readings, and their variance over n + 1.
    let samples = [1.0, 1.4, 0.8, 2.1, 1.2];
    let mean = samples.iter().sum::<f64>() / 5.0;
    let variance = samples.iter().map(|x| (x - mean).powi(2)).sum::<f64>() / 5.0;
    let mut luck = TestLuck::new(3);
    let draws = 40_000;
    let (mut sum, mut squares) = (0.0, 0.0);
    for _ in 0..draws {
        let numbers: Vec<f64> = samples.iter().map(|_| 1.0 - luck.uniform()).collect();
        let drawn = bootstrap(&samples, &numbers);
        let TimeTaken::Weighted(weighted) = &drawn else { panic!("{drawn:?}") };
        assert!((weighted.iter().map(|(_, weight)| weight).sum::<f64>() - 1.0).abs() < 1e-12);
        assert!(weighted.is_sorted_by(|a, b| a.0 <= b.0));
        sum += drawn.mean() - mean;
        squares += (drawn.mean() - mean).powi(2);
    }
    let of = f64::from(draws);
    let expected = variance / 6.0;
    assert!((sum / of).abs() < 4.0 * (expected / of).sqrt(), "{}", sum / of);
    assert!((squares / of / expected - 1.0).abs() < 0.05, "{} of {expected}", squares / of);
}

#[test]
fn readings_without_spread_stay_what_they_are() {
    let stated = TimeTaken::Lognormal { mean: 3.0, cv: 0.0 };
    assert_eq!(time(&stated, RestsOn::Readings(5), &[0.1, 0.9]), stated);
    let long = time(&TimeTaken::Fixed(3.0), RestsOn::Guess(1.5), &[0.9]);
    assert!((long.mean() - 4.5).abs() < 1e-9, "{long:?}");
}
