//! Samplers at single places of their distributions, and their means. The planned run takes the means.

use super::{Sampler, Tables};
use crate::plan::TimeTaken;
use statrs::distribution::{Continuous, ContinuousCDF, Exp, Triangular, Uniform};

/// The duration at this place.
fn at(time: &TimeTaken, u: f64) -> f64 {
    let mut tables = Tables::default();
    // Another spread first, so that what is looked up does not begin at nothing.
    let other = TimeTaken::Samples(vec![90.0, 91.0, 92.0]);
    Sampler::new(&other, &mut tables);
    Sampler::new(&TimeTaken::Weighted(vec![(80.0, 0.5), (81.0, 0.5)]), &mut tables);
    let sampler = Sampler::new(time, &mut tables);
    sampler.at(u)
}

fn close(got: f64, right: f64) -> bool {
    (got - right).abs() < 1e-12 * right.abs().max(1.0)
}

/// The outside value is the library's distribution function: it gives back the place.
fn holds_against(time: &TimeTaken, theirs: &(impl ContinuousCDF<f64, f64> + Continuous<f64, f64>)) {
    for place in 1..200 {
        let u = f64::from(place) / 200.0;
        let got = at(time, u);
        let back = theirs.cdf(got);
        assert!((back - u).abs() < 1e-12, "{time:?} at {u}: {got}, which lies at {back}");
    }
}

#[test]
fn each_place_of_a_shape_is_the_librarys() {
    let (low, likely, high) = (3.0, 5.5, 9.0);
    let triangular = Triangular::new(low, high, likely).expect("sound");
    holds_against(&TimeTaken::Triangular { low, likely, high }, &triangular);
    holds_against(&TimeTaken::Uniform { low, high }, &Uniform::new(low, high).expect("sound"));
    holds_against(&TimeTaken::Exponential { mean: 4.0 }, &Exp::new(0.25).expect("sound"));
}

#[test]
fn measured_times_share_the_places_equally_or_by_their_weights() {
    let samples = TimeTaken::Samples(vec![1.0, 2.0, 4.0]);
    for (u, minutes) in
        [(0.01, 1.0), (0.33, 1.0), (0.34, 2.0), (0.66, 2.0), (0.67, 4.0), (0.99, 4.0)]
    {
        assert_eq!(at(&samples, u), minutes, "at {u}");
    }
    // The weights add up to a little less than 1, as rounding may leave them.
    let weighted = TimeTaken::Weighted(vec![(1.0, 0.5), (2.0, 0.25), (4.0, 0.25 - 1e-9)]);
    for (u, minutes) in
        [(0.01, 1.0), (0.49, 1.0), (0.5, 2.0), (0.74, 2.0), (0.76, 4.0), (1.0 - 1e-12, 4.0)]
    {
        assert_eq!(at(&weighted, u), minutes, "at {u}");
    }
}

#[test]
fn means_are_those_of_the_shapes() {
    // By the formulas in any table of distributions: (a + b + c) / 3, (a + b) / 2, sums over the weights.
    let mean = |time: TimeTaken| time.mean();
    assert!(close(mean(TimeTaken::Triangular { low: 3.0, likely: 5.5, high: 9.5 }), 6.0));
    assert!(close(mean(TimeTaken::Uniform { low: 3.0, high: 8.0 }), 5.5));
    assert!(close(mean(TimeTaken::Samples(vec![1.0, 2.0, 4.5])), 2.5));
    assert!(close(mean(TimeTaken::Weighted(vec![(1.0, 0.5), (2.0, 0.25), (6.0, 0.25)])), 2.5));
    assert!(close(mean(TimeTaken::Exponential { mean: 4.0 }), 4.0));
    assert!(close(mean(TimeTaken::Lognormal { mean: 7.0, cv: 0.3 }), 7.0));
    assert!(close(mean(TimeTaken::Fixed(2.5)), 2.5));
}
