//! A file whose structure has been checked: every value known by its key, in internal units.

use crate::errors::excerpt::shorten;
use crate::errors::position::Span;
use crate::format::description::Object;
use crate::format::options::OfChange;

/// A checked value and where it stands.
#[derive(Clone)]
pub(crate) struct Node {
    pub(crate) span: Span,
    pub(crate) value: Value,
}

/// A checked value.
#[derive(Clone)]
pub(crate) enum Value {
    /// Text, or a choice.
    Text(String),
    Flag(bool),
    Null,
    /// In the units inside; a count too.
    Number(f64),
    Object(Shaped),
    List(Vec<Node>),
    /// Something wrong, already reported.
    Wrong,
}

/// An object with the shape it was found to have.
#[derive(Clone)]
pub(crate) struct Shaped {
    pub(crate) shape: &'static Object,
    pub(crate) fields: Vec<(&'static str, Node)>,
}

impl Node {
    pub(crate) fn child(&self, key: &str) -> Option<&Node> {
        match &self.value {
            Value::Object(object) => object.child(key),
            _ => None,
        }
    }

    /// The node at a path such as `tankers[1].handling.fill_connect`, or the last one on the way
    /// that is there, and whether it is the one asked for.
    pub(crate) fn reach(&self, path: &str) -> (&Node, bool) {
        let mut at = self;
        for step in path.split(['.', '[']) {
            let next = match step.strip_suffix(']') {
                Some(index) => match (&at.value, index.parse::<usize>()) {
                    (Value::List(nodes), Ok(index)) => nodes.get(index),
                    _ => None,
                },
                None => at.child(step),
            };
            match next {
                Some(node) => at = node,
                None => return (at, path.is_empty()),
            }
        }
        (at, true)
    }

    /// Where the `path` of a change stands, for an object that is one.
    pub(crate) fn stated_path(&self) -> Option<Span> {
        self.child(OfChange::PATH.key()).map(Node::mark)
    }

    /// What to mark: the value, or of an object or list the bracket it begins with.
    pub(crate) fn mark(&self) -> Span {
        match self.value {
            Value::Object(_) | Value::List(_) => self.span.start..self.span.start + 1,
            _ => self.span.clone(),
        }
    }
}

impl Shaped {
    pub(crate) fn child(&self, key: &str) -> Option<&Node> {
        (self.fields.iter()).find(|(known, _)| *known == key).map(|(_, node)| node)
    }
}

/// The path of an unknown key, which may be anything.
pub(crate) fn path_of(place: &str, key: &str) -> String {
    let key = shorten(key);
    if place.is_empty() { key } else { format!("{place}.{key}") }
}
