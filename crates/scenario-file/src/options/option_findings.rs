//! Mistakes of an option, reported by its name and marked at its change.

use crate::errors::excerpt::shorten;
use crate::errors::finding::Finding;
use crate::errors::position::Span;
use crate::format::options::OfOption;
use crate::structure::checked_value::{Node, Value};
use crate::structure::entry::Entry;

/// "option "bigger pond"".
pub(super) fn called(entry: &Entry<'_, OfOption>) -> String {
    format!("option \"{}\"", shorten(entry.get(&OfOption::NAME)))
}

/// A finding at a place among the options.
pub(super) fn finding(
    root: &Node,
    place: String,
    problem: String,
    limit: Option<String>,
    cure: impl Into<String>,
) -> Finding {
    Finding { span: mark(root, &place), place, problem, limit, cure: cure.into() }
}

/// What to mark for a place among the options.
pub(super) fn mark(root: &Node, place: &str) -> Span {
    let (node, _) = root.reach(place);
    match (&node.value, node.stated_path()) {
        (Value::Object(_), Some(path)) => path,
        _ => node.mark(),
    }
}
