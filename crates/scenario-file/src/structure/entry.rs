//! An object of the file as the reader queries it: what is stated, or else what silence means.

use std::marker::PhantomData;

use fireground::told::Part as Worked;

use super::checked_value::{Node, Shaped, Value};
use super::reads::Reads;
use crate::format::description::{Field, Object, Silence};
use crate::format::rows::{Row, Shared};
use crate::format::takes::{Has, Rows};

/// An object of the file as the reader queries it: what is stated, or else what silence means.
///
/// Its structure is sound: what is required is there, and of its kind.
///
/// Its type says which object it is, or of which shapes it has one; [`Any`]: it may be anything.
pub(crate) struct Entry<'n, O> {
    shape: &'static Object,
    stated: Option<&'n Shaped>,
    pub(crate) place: String,
    is: PhantomData<fn() -> O>,
}

/// In place of an object: any at all.
pub(crate) enum Any {}

impl<'n, O> Entry<'n, O> {
    /// The root of a file.
    pub(crate) fn root(node: &'n Node) -> Entry<'n, O> {
        match &node.value {
            Value::Object(object) => Entry::of(object, String::new()),
            _ => unreachable!("a sound file is an object"),
        }
    }

    /// An object at its place.
    pub(crate) fn of(object: &'n Shaped, place: String) -> Entry<'n, O> {
        Entry { shape: object.shape, stated: Some(object), place, is: PhantomData }
    }

    /// An object in which nothing is stated.
    pub(crate) fn silent(shape: &'static Object, place: String) -> Entry<'n, O> {
        Entry { shape, stated: None, place, is: PhantomData }
    }

    /// The shape it has.
    pub(crate) fn shape(&self) -> &'static Object {
        self.shape
    }

    /// The same as this object, if it is one.
    pub(crate) fn if_is<P: Rows>(&self) -> Option<Entry<'n, P>> {
        let stated = self.stated.filter(|object| std::ptr::eq(object.shape, P::TABLE))?;
        Some(Entry::of(stated, self.place.clone()))
    }

    /// A row that several objects have; `None`: this one has not.
    pub(crate) fn shared<T: Reads>(&self, row: &Row<Shared, T>) -> Option<T::Got<'n>> {
        self.has(&row.field).then(|| self.read(row))
    }

    fn has(&self, field: &Field) -> bool {
        self.shape.field(field.key).is_some_and(|known| known.doc == field.doc)
    }

    /// The path of one of its fields.
    pub(crate) fn at<R, T>(&self, row: &Row<R, T>) -> String
    where
        O: Has<R>,
    {
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
    pub(crate) fn states<R, T>(&self, row: &Row<R, T>) -> bool
    where
        O: Has<R>,
    {
        self.has_stated(&row.field)
    }

    /// Whether anything is stated for a field.
    pub(crate) fn has_stated(&self, field: &Field) -> bool {
        self.node(field).is_some()
    }

    /// What is stated for a row, if anything is.
    pub(crate) fn if_stated<R, T: Reads>(&self, row: &Row<R, T>) -> Option<T::Got<'n>>
    where
        O: Has<R>,
    {
        self.stated_in(row)
    }

    fn stated_in<R, T: Reads>(&self, row: &Row<R, T>) -> Option<T::Got<'n>> {
        T::read(self.node(&row.field)?, &|| self.path(row.key()))
    }

    /// What is stated for a row, or else what silence means.
    pub(crate) fn get<R, T: Reads>(&self, row: &Row<R, T>) -> T::Got<'n>
    where
        O: Has<R>,
    {
        self.read(row)
    }

    fn read<R, T: Reads>(&self, row: &Row<R, T>) -> T::Got<'n> {
        match (self.stated_in(row), &row.silent) {
            (Some(got), _) => got,
            (None, Some(silent)) => silent.silent(&|| self.path(row.key())),
            (None, None) => unreachable!("{} is required", self.path(row.key())),
        }
    }

    /// What is stated for a field in braces, if it is.
    pub(crate) fn in_braces(&self, field: &Field) -> Option<Entry<'n, Any>> {
        match &self.node(field)?.value {
            Value::Object(object) => Some(Entry::of(object, self.path(field.key))),
            _ => None,
        }
    }

    /// What is usual, where a row is not stated and its default deserves a warning.
    pub(crate) fn silent_but_usual<R, T>(&self, row: &Row<R, T>) -> Option<&'static [Worked]>
    where
        O: Has<R>,
    {
        match row.field.silence {
            Silence::Assumes(_, usual) if !self.states(row) => Some(usual),
            _ => None,
        }
    }
}
