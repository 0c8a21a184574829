//! Luck: keyed draws, durations made ready to draw from, and the factors that a whole fire shares.

mod purpose;

mod lognormal;

mod sampler;

#[cfg(test)]
mod sampler_tests;

mod draws;

#[cfg(test)]
mod draws_tests;

mod factors;

pub(crate) use draws::{Draws, UnitDraws, key_of};
pub use draws::{KeyedStream, Luck};
pub(crate) use factors::Factors;
pub use purpose::Purpose;
pub(crate) use sampler::Duration;
pub use sampler::{Sampler, Tables};
