//! Mistakes of an option, reported by its name and marked at its change.

use crate::errors::finding::Finding;
use crate::errors::kinds::MistakeKind;
use crate::errors::message::{Message, quoted, says};
use crate::errors::position::Span;
use crate::format::options::OfOption;
use crate::structure::checked_value::{Node, Value};
use crate::structure::entry::Entry;

/// "option "bigger pond"".
pub(super) fn called(entry: &Entry<'_, OfOption>) -> Message {
    says!["option ", quoted(entry.get(&OfOption::NAME))]
}

/// What is to be known of a scenario with an option.
pub(crate) fn with_option(name: &str, said: Message) -> Message {
    says!["with option ", quoted(name), ": ", said]
}

/// A finding at a place among the options.
pub(super) fn finding(
    root: &Node,
    place: String,
    kind: MistakeKind,
    (problem, limit, cure): (Message, Option<Message>, Message),
) -> Finding {
    Finding { span: mark(root, &place), place, kind, problem, limit, cure }
}

/// A change that cannot be made.
///
/// - Given: the option, where the change leads, why it cannot be made, and what would put it right.
pub(super) fn no_such_change(
    root: &Node,
    entry: &Entry<'_, OfOption>,
    (place, path): (String, &str),
    (why, cure): (Message, Message),
) -> Finding {
    let problem = says![called(entry), ": the change at ", quoted(path), " cannot be made: ", why];
    finding(root, place, MistakeKind::NoSuchChange, (problem, None, cure))
}

/// What to mark for a place among the options.
pub(super) fn mark(root: &Node, place: &str) -> Span {
    let (node, _) = root.reach(place);
    match (&node.value, node.stated_path()) {
        (Value::Object(_), Some(path)) => path,
        _ => node.mark(),
    }
}
