//! How far a chance can be trusted when its inputs rest on readings or guesses: figures, words, tables.

mod figures;
mod inputs;
mod words;

pub(crate) use figures::DoubtFigures;
pub(crate) use inputs::{guessed, timed};
pub(crate) use words::{advice_in_doubt, anywhere, may_miss, more, ranges, worth_timing};

/// A share of the cases from which on doubt may overturn what is recommended. Judgement: one in ten.
pub(crate) const MAY_OVERTURN: f64 = 0.10;

#[cfg(test)]
mod tests;
