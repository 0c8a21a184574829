//! What a value rests on: readings or a guess. It stands beside the value, in the same braces.

use std::ops::Bound::Included;

use crate::format::description::{Field, Kind, Rule};
use crate::quantities::quantity::{Bounds, Quantity};

/// A factor either way. Judgement: who may be off by more than that should look first.
const FACTOR: Bounds = (Included(1.0), Included(10.0));
/// Readings behind a mean and a cv: from fewer than three nothing can be said of a spread. The greatest as for
/// samples.
const READINGS: Bounds = (Included(3.0), Included(10_000.0));

/// That a value is guessed.
pub(crate) const GUESS: Field = Field::optional(
    "guess",
    Kind::Any(&[Kind::Switch, Kind::Number(Quantity::Plain, FACTOR)]),
    "Silent: the value is taken as known.",
    "That the value is a rough figure: true, or by which factor it may be off either way in 80 of 100 cases (true means 1.25).",
);

/// How many readings a mean and a cv come from.
pub(crate) const TIMED: Field = Field::optional(
    "timed",
    Kind::Count(READINGS),
    "Silent: mean and cv are taken as known.",
    "How many readings mean and cv were worked out from.",
);

/// A figure is read off a watch or guessed.
pub(crate) const NOT_BOTH: Rule =
    Rule::NeverWith("guess", "timed", "what was timed is no guess: keep one of the two");
