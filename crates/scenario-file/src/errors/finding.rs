//! A mistake at its place in the text, before it is shown to anyone.

use super::kinds::MistakeKind;
use super::message::Message;
use super::position::Span;

/// A mistake by its place in the text.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Finding {
    pub(crate) place: String,
    pub(crate) span: Span,
    pub(crate) kind: MistakeKind,
    pub(crate) problem: Message,
    pub(crate) limit: Option<Message>,
    /// What would likely put it right: there is always something to try.
    pub(crate) cure: Message,
}

/// The search stops at this many mistakes: nobody reads more, and the first ones explain the rest.
pub(crate) const MOST_MISTAKES: usize = 200;
