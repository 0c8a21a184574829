//! What stands on each page.

mod caution;

mod told;

mod pictures;

mod card;

mod handout;

mod report;

#[cfg(test)]
mod tests;

pub use card::card;

pub use handout::{form, handout};

pub use report::report;

/// What every page with figures ends with.
pub(crate) use answers::text::CAUTION;
