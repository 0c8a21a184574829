//! Spread, and longer or shorter shapes.

use super::*;

#[test]
fn a_shape_is_scaled_in_all_its_minutes_and_in_nothing_else() {
    let shapes = [
        (TimeTaken::Fixed(3.0), TimeTaken::Fixed(7.5)),
        (TimeTaken::Lognormal { mean: 3.0, cv: 0.4 }, TimeTaken::Lognormal { mean: 7.5, cv: 0.4 }),
        (TimeTaken::Exponential { mean: 3.0 }, TimeTaken::Exponential { mean: 7.5 }),
        (
            TimeTaken::Triangular { low: 2.0, likely: 3.0, high: 5.0 },
            TimeTaken::Triangular { low: 5.0, likely: 7.5, high: 12.5 },
        ),
        (TimeTaken::Uniform { low: 2.0, high: 3.0 }, TimeTaken::Uniform { low: 5.0, high: 7.5 }),
        (TimeTaken::Samples(vec![2.0, 3.0]), TimeTaken::Samples(vec![5.0, 7.5])),
        (
            TimeTaken::Weighted(vec![(2.0, 0.25), (3.0, 0.75)]),
            TimeTaken::Weighted(vec![(5.0, 0.25), (7.5, 0.75)]),
        ),
    ];
    for (shape, right) in shapes {
        assert_eq!(shape.scaled(2.5), right);
        assert!((right.mean() - 2.5 * shape.mean()).abs() < 1e-12);
    }
}

#[test]
fn what_always_takes_the_same_has_no_spread() {
    let none = [
        TimeTaken::Fixed(3.0),
        TimeTaken::Lognormal { mean: 3.0, cv: 0.0 },
        TimeTaken::Lognormal { mean: 0.0, cv: 0.3 },
        TimeTaken::Exponential { mean: 0.0 },
        TimeTaken::Triangular { low: 3.0, likely: 3.0, high: 3.0 },
        TimeTaken::Uniform { low: 3.0, high: 3.0 },
        TimeTaken::Samples(vec![3.0, 3.0]),
        TimeTaken::Weighted(vec![(3.0, 0.5), (3.0, 0.5)]),
    ];
    for time in none {
        assert!(!time.has_spread(), "{time:?}");
    }
    let some = [
        TimeTaken::Lognormal { mean: 3.0, cv: 0.3 },
        TimeTaken::Exponential { mean: 3.0 },
        TimeTaken::Triangular { low: 2.0, likely: 3.0, high: 3.0 },
        TimeTaken::Uniform { low: 2.0, high: 3.0 },
        TimeTaken::Samples(vec![3.0, 2.0]),
        TimeTaken::Weighted(vec![(2.0, 0.5), (3.0, 0.5)]),
    ];
    for time in some {
        assert!(time.has_spread(), "{time:?}");
    }
}
