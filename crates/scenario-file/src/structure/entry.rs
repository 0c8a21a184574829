//! An object of the file as the reader queries it: what is stated, or else what silence means.

use super::checked_value::{Node, Shaped, Value};
use super::reads::Reads;
use crate::format::description::{Field, Object, Silence};
use crate::format::rows::Row;

/// An object of the file as the reader queries it: what is stated, or else what silence means.
///
/// Its structure is sound: what is required is there, and of its kind.
#[derive(Clone)]
pub(crate) struct Entry<'n> {
    shape: &'static Object,
    stated: Option<&'n Shaped>,
    pub(crate) place: String,
}

impl<'n> Entry<'n> {
    /// The root of a file.
    pub(crate) fn root(node: &'n Node) -> Entry<'n> {
        match &node.value {
            Value::Object(object) => Entry::of(object, String::new()),
            _ => unreachable!("a sound file is an object"),
        }
    }

    /// An object at its place.
    pub(crate) fn of(object: &'n Shaped, place: String) -> Entry<'n> {
        Entry { shape: object.shape, stated: Some(object), place }
    }

    /// An object in which nothing is stated.
    pub(crate) fn silent(shape: &'static Object, place: String) -> Entry<'n> {
        Entry { shape, stated: None, place }
    }

    /// The shape it has.
    pub(crate) fn shape(&self) -> &'static Object {
        self.shape
    }

    /// Whether it has this shape.
    pub(crate) fn is(&self, shape: &'static Object) -> bool {
        std::ptr::eq(self.shape, shape)
    }

    /// Whether things of its shape have this row.
    pub(crate) fn knows<T>(&self, row: &Row<T>) -> bool {
        self.has(&row.field)
    }

    fn has(&self, field: &Field) -> bool {
        self.shape.field(field.key).is_some_and(|known| known.doc == field.doc)
    }

    /// The path of one of its fields.
    pub(crate) fn at<T>(&self, row: &Row<T>) -> String {
        self.path(row.key())
    }

    /// The path of a key.
    pub(crate) fn path(&self, key: &str) -> String {
        if self.place.is_empty() { key.to_string() } else { format!("{}.{key}", self.place) }
    }

    fn node(&self, field: &Field) -> Option<&'n Node> {
        // The row of another object would be silent for ever.
        debug_assert!(self.has(field), "{} has no such {}", self.shape.def, field.key);
        self.stated.and_then(|object| object.child(field.key))
    }

    /// Whether anything is stated for a row.
    pub(crate) fn states<T>(&self, row: &Row<T>) -> bool {
        self.has_stated(&row.field)
    }

    /// Whether anything is stated for a field.
    pub(crate) fn has_stated(&self, field: &Field) -> bool {
        self.node(field).is_some()
    }

    /// What is stated for a row, if anything is.
    pub(crate) fn if_stated<T: Reads>(&self, row: &Row<T>) -> Option<T::Got<'n>> {
        T::read(self.node(&row.field)?, &|| self.at(row))
    }

    /// What is stated for a row, or else what silence means.
    pub(crate) fn get<T: Reads>(&self, row: &Row<T>) -> T::Got<'n> {
        match (self.if_stated(row), &row.silent) {
            (Some(got), _) => got,
            (None, Some(silent)) => silent.silent(&|| self.at(row)),
            (None, None) => unreachable!("{} is required", self.at(row)),
        }
    }

    /// What is stated for a field in braces, if it is.
    pub(crate) fn in_braces(&self, field: &Field) -> Option<Entry<'n>> {
        match &self.node(field)?.value {
            Value::Object(object) => Some(Entry::of(object, self.path(field.key))),
            _ => None,
        }
    }

    /// What is usual, where a row is not stated and its default deserves a warning.
    pub(crate) fn silent_but_usual<T>(&self, row: &Row<T>) -> Option<&'static str> {
        match row.field.silence {
            Silence::Assumes(_, usual) if !self.states(row) => Some(usual),
            _ => None,
        }
    }
}
