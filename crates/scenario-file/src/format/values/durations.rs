//! Durations: a fixed time, or a shape of spread.

use shuttle_sim::Plan;

use super::rests_on::{GUESS, NOT_BOTH, TIMED};
use crate::format::description::{Field, Kind, Object};
use crate::quantities::quantity::Quantity;

/// Minutes.
pub(crate) const MINUTES: Kind = Kind::Number(Quantity::Time, Plan::LIMITS.minutes);
/// A coefficient of variation.
pub(crate) const CV: Kind = Kind::Number(Quantity::Plain, Plan::LIMITS.cv);

/// A duration: a fixed time or one of the shapes of spread.
pub(crate) const DURATION: Kind = Kind::Any(&[
    MINUTES,
    Kind::Shapes(&[&LOGNORMAL, &EXPONENTIAL, &TRIANGULAR, &UNIFORM, &SAMPLES, &ROUGH_TIME]),
]);

static LOGNORMAL: Object = Object {
    what: "a duration with a mean and a cv",
    def: "lognormal_duration",
    doc: "A lognormal duration: never below 0, now and then long.",
    fields: &[
        Field::required("mean", MINUTES, "Mean."),
        Field::required(
            "cv",
            CV,
            "Coefficient of variation, the standard deviation divided by the mean: 0.2 to 0.4 for most work.",
        ),
        TIMED,
        GUESS,
    ],
    rules: &[NOT_BOTH],
    strays: &[("shape", "an exponential duration has no cv: leave `cv` or `shape` out")],
};

static EXPONENTIAL: Object = Object {
    what: "an exponential duration",
    def: "exponential_duration",
    doc: "An exponential duration: anything from nothing to several times the mean.",
    fields: &[
        Field::required("mean", MINUTES, "Mean."),
        Field::required(
            "shape",
            Kind::Choice(&[(
                "exponential",
                "The only shape that is named; the others are known by their keys.",
            )]),
            "The shape.",
        ),
        GUESS,
    ],
    rules: &[],
    strays: &[("cv", "an exponential duration has no cv of its own: leave `cv` or `shape` out")],
};

static TRIANGULAR: Object = Object {
    what: "a duration with low, likely and high",
    def: "triangular_duration",
    doc: "A triangular duration: what a crew would say if asked for the least, the usual and the most.",
    fields: &[
        Field::required("low", MINUTES, "The least."),
        Field::required("likely", MINUTES, "The most likely."),
        Field::required("high", MINUTES, "The greatest."),
        GUESS,
    ],
    rules: &[],
    strays: &[("mean", "a duration with low and high has `likely`, not `mean`")],
};

static UNIFORM: Object = Object {
    what: "a duration with low and high",
    def: "uniform_duration",
    doc: "A uniform duration: anything between two times, equally likely.",
    fields: &[
        Field::required("low", MINUTES, "The least."),
        Field::required("high", MINUTES, "The greatest."),
        GUESS,
    ],
    rules: &[],
    strays: &[("mean", "a duration with low and high has `likely`, not `mean`")],
};

static SAMPLES: Object = Object {
    what: "a duration with samples",
    def: "sampled_duration",
    doc: "Measured drill times: one of them, equally likely.",
    fields: &[Field::required(
        "samples",
        Kind::List(&MINUTES, 1, Plan::LIMITS.samples),
        "The measured times. The answer tells how far so many readings can be trusted; a single one counts as a guess.",
    )],
    rules: &[],
    strays: &[
        ("guess", "readings are no guess: leave it out"),
        ("timed", "the list says how many readings there are: leave it out"),
    ],
};

static ROUGH_TIME: Object = Object {
    what: "a rough duration",
    def: "rough_duration",
    doc: "A duration that is always the same, and known roughly.",
    fields: &[Field::required("value", MINUTES, "The duration."), GUESS],
    rules: &[],
    strays: &[
        ("timed", "the times themselves say more: {\"samples\": [1.5, 2, 1.8]}"),
        ("cv", "a duration with a spread has `mean` and `cv`: {\"mean\": 2, \"cv\": 0.3}"),
    ],
};
