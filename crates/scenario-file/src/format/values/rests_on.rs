//! What a value rests on: readings or a guess. It stands beside the value, in the same braces.

use std::ops::Bound::Included;

use crate::format::description::Rule;
use crate::format::rows::{Row, Shared};
use crate::format::takes::{Either, Takes};
use crate::quantities::quantity::{Bounds, Quantity};

/// A factor either way. Judgement: who may be off by more than that should look first.
const FACTOR: Bounds = (Included(1.0), Included(10.0));
/// Readings behind a mean and a cv: from fewer than three nothing can be said of a spread. The greatest as for
/// samples.
const READINGS: Bounds = (Included(3.0), Included(10_000.0));

/// Whether a value is guessed, or by which factor it may be off.
pub(crate) type Guess = Either<bool, f64>;

/// That a value is guessed.
pub(crate) const GUESS: Row<Shared, Option<Guess>> = Row::optional(
    "guess",
    Takes::either(&Takes::switch(), &Takes::number(Quantity::Plain, FACTOR)),
    "the value is taken as known.",
    "That the value is a rough figure: true, or by which factor it may be off either way in 80 of 100 cases (true means 1.25).",
);

/// How many readings a mean and a cv come from.
pub(crate) const TIMED: Row<Shared, Option<u32>> = Row::optional(
    "timed",
    Takes::count(READINGS),
    "mean and cv are taken as known.",
    "How many readings mean and cv were worked out from.",
);

/// A figure is read off a watch or guessed.
pub(crate) const NOT_BOTH: Rule =
    Rule::NeverWith(GUESS.key(), TIMED.key(), "what was timed is no guess: keep one of the two");
