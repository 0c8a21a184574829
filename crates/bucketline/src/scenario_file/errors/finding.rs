//! A mistake by its place in the text, before anybody is shown it.

use super::position::Span;

/// A mistake by its place in the text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Finding {
    pub(crate) place: String,
    pub(crate) span: Span,
    pub(crate) problem: String,
    pub(crate) limit: Option<String>,
    pub(crate) cure: Option<String>,
}

/// More mistakes than this are not looked for: nobody reads them, and the first ones explain them.
pub(crate) const MOST_MISTAKES: usize = 200;
