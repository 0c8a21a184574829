//! Durations: a fixed time, or a shape of spread.

use shuttle_sim::Plan;

use super::rests_on::{GUESS, Guess, NOT_BOTH, TIMED};
use crate::format::tables::{object, shapes, words};
use crate::format::takes::{AnyOf, Chosen, Duration, Either, List, Takes};
use crate::quantities::quantity::Quantity;

/// Minutes.
pub(crate) const MINUTES: Takes<f64> = Takes::number(Quantity::Time, Plan::LIMITS.minutes);
/// A coefficient of variation.
pub(crate) const CV: Takes<f64> = Takes::number(Quantity::Plain, Plan::LIMITS.cv);

/// A duration: a fixed time or one of the shapes of spread.
pub(crate) const DURATION: Takes<Duration> =
    Takes::<FixedOrSpread>::either(&MINUTES, &SPREADS).read_as();

/// What stands in the file for a duration.
pub(crate) type FixedOrSpread = Either<f64, AnyOf<Spread>>;

const SPREADS: Takes<AnyOf<Spread>> = Takes::any_of();

shapes! {
    /// How a duration is spread.
    pub(crate) enum Spread {
        Lognormal = OfLognormal,
        Exponential = OfExponential,
        Triangular = OfTriangular,
        Uniform = OfUniform,
        Samples = OfSamples,
        Rough = OfRoughTime,
    }
}

/// Why an exponential duration names its shape.
#[derive(Debug, Clone, Copy)]
pub(crate) enum NamedShape {
    Exponential,
}

words! {
    NamedShape {
        Exponential = "exponential":
            "The only shape that is named; the others are known by their keys.",
    }
}

object! {
    pub(crate) static LOGNORMAL: OfLognormal {
        what: "a duration with a mean and a cv",
        def: "lognormal_duration",
        doc: "A lognormal duration: never below 0, now and then long.",
        rows: {
            MEAN: f64 = required("mean", MINUTES, "Mean."),
            CV: f64 = required(
                "cv",
                CV,
                "Coefficient of variation, the standard deviation divided by the mean: 0.2 to 0.4 for most work.",
            ),
            TIMED: Option<u32> = TIMED,
            GUESS: Option<Guess> = GUESS,
        },
        rules: &[NOT_BOTH],
        strays: &[("shape", "an exponential duration has no cv: leave `cv` or `shape` out")],
    }
}

object! {
    pub(crate) static EXPONENTIAL: OfExponential {
        what: "an exponential duration",
        def: "exponential_duration",
        doc: "An exponential duration: anything from nothing to several times the mean.",
        rows: {
            MEAN: f64 = required("mean", MINUTES, "Mean."),
            SHAPE: Chosen<NamedShape> = required("shape", Takes::choice(), "The shape."),
            GUESS: Option<Guess> = GUESS,
        },
        rules: &[],
        strays: &[("cv", "an exponential duration has no cv of its own: leave `cv` or `shape` out")],
    }
}

object! {
    pub(crate) static TRIANGULAR: OfTriangular {
        what: "a duration with low, likely and high",
        def: "triangular_duration",
        doc: "A triangular duration: what a crew would say if asked for the least, the usual and the most.",
        rows: {
            LOW: f64 = required("low", MINUTES, "The least."),
            LIKELY: f64 = required("likely", MINUTES, "The most likely."),
            HIGH: f64 = required("high", MINUTES, "The greatest."),
            GUESS: Option<Guess> = GUESS,
        },
        rules: &[],
        strays: &[("mean", "a duration with low and high has `likely`, not `mean`")],
    }
}

object! {
    pub(crate) static UNIFORM: OfUniform {
        what: "a duration with low and high",
        def: "uniform_duration",
        doc: "A uniform duration: anything between two times, equally likely.",
        rows: {
            LOW: f64 = required("low", MINUTES, "The least."),
            HIGH: f64 = required("high", MINUTES, "The greatest."),
            GUESS: Option<Guess> = GUESS,
        },
        rules: &[],
        strays: &[("mean", "a duration with low and high has `likely`, not `mean`")],
    }
}

object! {
    pub(crate) static SAMPLES: OfSamples {
        what: "a duration with samples",
        def: "sampled_duration",
        doc: "Measured drill times: one of them, equally likely.",
        rows: {
            SAMPLES: List<f64> = required(
                "samples",
                Takes::list(&MINUTES, 1, Plan::LIMITS.samples),
                "The measured times. The answer tells how far so many readings can be trusted; a single one counts as a guess.",
            ),
        },
        rules: &[],
        strays: &[
            ("guess", "readings are no guess: leave it out"),
            ("timed", "the list says how many readings there are: leave it out"),
        ],
    }
}

object! {
    pub(crate) static ROUGH_TIME: OfRoughTime {
        what: "a rough duration",
        def: "rough_duration",
        doc: "A duration that is always the same, and known roughly.",
        rows: {
            VALUE: f64 = required("value", MINUTES, "The duration."),
            GUESS: Option<Guess> = GUESS,
        },
        rules: &[],
        strays: &[
            ("timed", "the times themselves say more: {\"samples\": [1.5, 2, 1.8]}"),
            ("cv", "a duration with a spread has `mean` and `cv`: {\"mean\": 2, \"cv\": 0.3}"),
        ],
    }
}
