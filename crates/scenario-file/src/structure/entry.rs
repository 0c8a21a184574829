//! An object of the file as the reader queries it: what is stated, or else what silence means.

use super::checked_value::{Node, Shaped, Value};
use crate::format::description::{Default, Object, Silence};

/// An object of the scenario as the reader queries it: what is stated, or else what silence means.
///
/// Asking for a key that the format does not have, or for another kind than it says, is a bug of ours and
/// not a mistake in the file.
#[derive(Clone)]
pub(crate) struct Entry<'n> {
    shape: &'static Object,
    stated: Option<&'n Shaped>,
    pub(crate) place: String,
}

impl<'n> Entry<'n> {
    /// The root of a scenario.
    pub(crate) fn root(node: &'n Node) -> Entry<'n> {
        Entry::of(node, String::new())
    }

    /// An object at its place.
    pub(crate) fn of(node: &'n Node, place: String) -> Entry<'n> {
        match &node.value {
            Value::Object(object) => Entry { shape: object.shape, stated: Some(object), place },
            _ => unreachable!("{place} is no object"),
        }
    }

    /// The name of the shape it has, as in the JSON Schema.
    pub(crate) fn shape(&self) -> &'static str {
        self.shape.def
    }

    /// The path of one of its fields.
    pub(crate) fn at(&self, key: &str) -> String {
        if self.place.is_empty() { key.to_string() } else { format!("{}.{key}", self.place) }
    }

    /// Whether things of its shape have this key.
    pub(crate) fn knows(&self, key: &str) -> bool {
        self.shape.field(key).is_some()
    }

    /// The value stated for a key.
    pub(crate) fn stated(&self, key: &str) -> Option<&'n Node> {
        // A misspelt key would be silent for ever.
        debug_assert!(self.knows(key), "{} has no {key}", self.shape.def);
        self.stated.and_then(|object| object.child(key))
    }

    /// What is usual, where the key is not stated and its default deserves a warning.
    pub(crate) fn silent_but_usual(&self, key: &str) -> Option<&'static str> {
        match self.silence(key) {
            Silence::Assumes(_, usual) if self.stated(key).is_none() => Some(usual),
            _ => None,
        }
    }

    fn silence(&self, key: &str) -> Silence {
        match self.shape.field(key) {
            Some(field) => field.silence,
            None => unreachable!("{} has no {key}", self.shape.def),
        }
    }

    fn default(&self, key: &str) -> Default {
        match self.silence(key) {
            Silence::Means(default) | Silence::Assumes(default, _) => default,
            Silence::Required | Silence::Says(_) => {
                unreachable!("{} has no default", self.at(key))
            }
        }
    }

    /// A number, or its default.
    pub(crate) fn number(&self, key: &str) -> f64 {
        match self.some_number(key) {
            Some(number) => number,
            None => self.default_number(key),
        }
    }

    /// A number that is required.
    pub(crate) fn number_stated(&self, key: &str) -> f64 {
        match self.some_number(key) {
            Some(number) => number,
            None => unreachable!("{} is required", self.at(key)),
        }
    }

    /// The default of a number or duration.
    pub(crate) fn default_number(&self, key: &str) -> f64 {
        match self.default(key) {
            Default::Number(number) => number,
            _ => unreachable!("{} is no number", self.at(key)),
        }
    }

    /// A number, bare or rough, if it is stated and not `null`.
    pub(crate) fn some_number(&self, key: &str) -> Option<f64> {
        match self.stated(key).map(|node| &node.value) {
            Some(Value::Number(number)) => Some(*number),
            None | Some(Value::Null) => None,
            Some(Value::Object(rough)) if rough.shape.field("value").is_some() => {
                self.some_entry(key).and_then(|rough| rough.some_number("value"))
            }
            Some(_) => unreachable!("{} is no number", self.at(key)),
        }
    }

    /// A count, or its default.
    pub(crate) fn count(&self, key: &str) -> u32 {
        // Checked to be a whole number in the range of counts.
        self.number(key) as u32
    }

    /// Text, if it is stated.
    pub(crate) fn some_text(&self, key: &str) -> Option<&'n str> {
        match self.stated(key).map(|node| &node.value) {
            Some(Value::Text(text)) => Some(text),
            None => None,
            Some(_) => unreachable!("{} is no text", self.at(key)),
        }
    }

    /// Text or choice, or its default.
    pub(crate) fn text(&self, key: &str) -> String {
        match (self.some_text(key), self.silence(key)) {
            (Some(text), _) => text.to_string(),
            (None, Silence::Means(Default::Word(word))) => word.to_string(),
            (None, _) => unreachable!("{} has no default", self.at(key)),
        }
    }

    /// Text that is required.
    pub(crate) fn text_stated(&self, key: &str) -> String {
        match self.some_text(key) {
            Some(text) => text.to_string(),
            None => unreachable!("{} is required", self.at(key)),
        }
    }

    /// The numbers of a list; none if it is silent.
    pub(crate) fn numbers(&self, key: &str) -> Vec<f64> {
        match self.stated(key).map(|node| &node.value) {
            Some(Value::List(nodes)) => (nodes.iter())
                .filter_map(|node| match node.value {
                    Value::Number(number) => Some(number),
                    _ => None,
                })
                .collect(),
            _ => Vec::new(),
        }
    }

    /// Yes or no, if it is stated.
    pub(crate) fn some_flag(&self, key: &str) -> Option<bool> {
        match self.stated(key).map(|node| &node.value) {
            Some(Value::Flag(flag)) => Some(*flag),
            None => None,
            Some(_) => unreachable!("{} is no switch", self.at(key)),
        }
    }

    /// Yes or no, or its default.
    pub(crate) fn flag(&self, key: &str) -> bool {
        match (self.some_flag(key), self.silence(key)) {
            (Some(flag), _) => flag,
            (None, Silence::Means(Default::Flag(flag))) => flag,
            (None, _) => unreachable!("{} has no default", self.at(key)),
        }
    }

    /// An object, if one is stated.
    pub(crate) fn some_entry(&self, key: &str) -> Option<Entry<'n>> {
        let node = self.stated(key)?;
        match &node.value {
            Value::Object(_) => Some(Entry::of(node, self.at(key))),
            _ => None,
        }
    }

    /// An object that is stated or whose silence is an object with nothing stated.
    pub(crate) fn entry(&self, key: &str) -> Entry<'n> {
        self.some_entry(key).unwrap_or_else(|| Entry {
            shape: match self.shape.field(key).and_then(|field| field.only_shape()) {
                Some(shape) => shape,
                None => unreachable!("{} is no object", self.at(key)),
            },
            stated: None,
            place: self.at(key),
        })
    }

    /// An object that is required.
    pub(crate) fn entry_stated(&self, key: &str) -> Entry<'n> {
        match self.some_entry(key) {
            Some(entry) => entry,
            None => unreachable!("{} is required", self.at(key)),
        }
    }

    /// The objects of a list; none if it is silent.
    pub(crate) fn list(&self, key: &str) -> Vec<Entry<'n>> {
        match self.stated(key).map(|node| &node.value) {
            Some(Value::List(nodes)) => (nodes.iter().enumerate())
                .map(|(index, node)| Entry::of(node, format!("{}[{index}]", self.at(key))))
                .collect(),
            _ => Vec::new(),
        }
    }
}
