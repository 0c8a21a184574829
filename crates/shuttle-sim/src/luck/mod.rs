//! Luck: keyed draws, and durations made ready to draw from.

mod lognormal;

mod sampler;

mod draws;

pub(crate) use draws::{Draws, UnitDraws, key_of};
pub use draws::{KeyedStream, Luck, Purpose};
pub use sampler::{Sampler, Tables};
