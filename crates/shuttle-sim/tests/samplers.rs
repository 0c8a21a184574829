//! The samplers at a million draws, against closed forms (statrs) and against the samplers of a
//! general-purpose library (rand_distr) fed from the same keyed stream.

use rand_distr::{Distribution, Exp, LogNormal, Triangular, Uniform};
use shuttle_sim::{KeyedStream, Purpose, Sampler, Tables, TimeTaken};
use statrs::distribution::{ContinuousCDF, Normal};

const DRAWS: usize = 1_000_000;

fn ours(time: &TimeTaken) -> Vec<f64> {
    let sampler = Sampler::new(time, &mut Tables::default());
    let mut luck = KeyedStream::new(7, 3, "Tanker 3");
    let mut draws: Vec<f64> =
        (0..DRAWS).map(|_| sampler.at(luck.next_uniform(Purpose::TravelOut))).collect();
    draws.sort_by(f64::total_cmp);
    draws
}

fn theirs(distribution: impl Distribution<f64>) -> Vec<f64> {
    let luck = KeyedStream::new(11, 5, "Tanker 5");
    let mut draws: Vec<f64> = distribution.sample_iter(luck).take(DRAWS).collect();
    draws.sort_by(f64::total_cmp);
    draws
}

fn mean_and_deviation(draws: &[f64]) -> (f64, f64) {
    let mean = draws.iter().sum::<f64>() / draws.len() as f64;
    let squares: f64 = draws.iter().map(|draw| (draw - mean) * (draw - mean)).sum();
    (mean, (squares / draws.len() as f64).sqrt())
}

/// The greatest distance between two empirical distributions (Kolmogorov and Smirnov).
fn distance(a: &[f64], b: &[f64]) -> f64 {
    let (mut i, mut j, mut most) = (0, 0, 0.0_f64);
    while i < a.len() && j < b.len() {
        if a[i] <= b[j] {
            i += 1;
        } else {
            j += 1;
        }
        most = most.max((i as f64 / a.len() as f64 - j as f64 / b.len() as f64).abs());
    }
    most
}

/// Two samples of a million stay this close in all but 1 of 10,000 tries: c sqrt(2 / n), with
/// c = sqrt(-ln(0.0001 / 2) / 2) (Smirnov 1939).
fn allowed() -> f64 {
    (-(0.0001_f64 / 2.0).ln() / 2.0).sqrt() * (2.0 / DRAWS as f64).sqrt()
}

/// Means within four standard errors, standard deviations within 1%.
fn assert_moments(name: &str, draws: &[f64], mean: f64, deviation: f64) {
    let (got_mean, got_deviation) = mean_and_deviation(draws);
    let error = deviation / (DRAWS as f64).sqrt();
    assert!((got_mean - mean).abs() < 4.0 * error, "{name}: mean {got_mean}, should be {mean}");
    let off = (got_deviation / deviation - 1.0).abs();
    assert!(off < 0.01, "{name}: deviation {got_deviation}, should be {deviation}");
}

#[test]
fn lognormal_draws_have_the_stated_mean_and_cv_and_the_librarys_shape() {
    let (mean, cv) = (4.0, 0.3);
    let draws = ours(&TimeTaken::Lognormal { mean, cv });
    assert_moments("lognormal", &draws, mean, mean * cv);
    let sigma = (1.0_f64 + cv * cv).ln().sqrt();
    let mu = mean.ln() - sigma * sigma / 2.0;
    for q in [0.001, 0.05, 0.5, 0.95, 0.999] {
        let exact = (mu + sigma * Normal::standard().inverse_cdf(q)).exp();
        let got = draws[(q * DRAWS as f64) as usize];
        assert!((got / exact - 1.0).abs() < 0.02, "quantile {q}: {got}, statrs gives {exact}");
    }
    let library = theirs(LogNormal::new(mu, sigma).expect("a lognormal"));
    assert!(distance(&draws, &library) < allowed());
    // The comparison can fail: a mean 1% longer is seen.
    let longer = theirs(LogNormal::new(mu + 0.01, sigma).expect("a lognormal"));
    assert!(distance(&draws, &longer) > allowed());
}

#[test]
fn the_other_shapes_agree_with_the_library_too() {
    let exponential = ours(&TimeTaken::Exponential { mean: 2.5 });
    assert_moments("exponential", &exponential, 2.5, 2.5);
    assert!(distance(&exponential, &theirs(Exp::new(0.4).expect("a rate"))) < allowed());

    let (low, likely, high) = (0.5, 0.8, 1.6);
    let triangular = ours(&TimeTaken::Triangular { low, likely, high });
    let variance: f64 =
        (low * low + likely * likely + high * high - low * likely - low * high - likely * high)
            / 18.0;
    assert_moments("triangular", &triangular, (low + likely + high) / 3.0, variance.sqrt());
    let library = theirs(Triangular::new(low, high, likely).expect("a triangle"));
    assert!(distance(&triangular, &library) < allowed());

    let uniform = ours(&TimeTaken::Uniform { low: 1.0, high: 3.0 });
    assert_moments("uniform", &uniform, 2.0, 2.0 / 12.0_f64.sqrt());
    assert!(distance(&uniform, &theirs(Uniform::new(1.0, 3.0).expect("a range"))) < allowed());
}

#[test]
fn measured_times_are_drawn_equally_often() {
    let draws = ours(&TimeTaken::Samples(vec![1.0, 2.0, 4.0]));
    for value in [1.0, 2.0, 4.0] {
        let share = draws.iter().filter(|draw| **draw == value).count() as f64 / DRAWS as f64;
        let error = (2.0 / 9.0 / DRAWS as f64).sqrt();
        assert!((share - 1.0 / 3.0).abs() < 4.0 * error, "{value}: {share}");
    }
}
