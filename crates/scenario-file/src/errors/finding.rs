//! A mistake at its place in the text, before it is shown to anyone.

use super::position::Span;

/// A mistake by its place in the text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Finding {
    pub(crate) place: String,
    pub(crate) span: Span,
    pub(crate) problem: String,
    pub(crate) limit: Option<String>,
    /// What would likely put it right: there is always something to try.
    pub(crate) cure: String,
}

/// The search stops at this many mistakes: nobody reads more, and the first ones explain the rest.
pub(crate) const MOST_MISTAKES: usize = 200;
