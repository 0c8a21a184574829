//! Typed rows: a field of an object is stated once, with its key, what it may hold, what silence means, and what it
//! reads as. A reader that asks for another key or takes it for another kind does not compile.

use std::marker::PhantomData;

use super::description::{Default, Field, Silence};
use super::takes::{Choice, Chosen, Duration, List, Nested, Rough, Rows, Takes, Text};

/// A row of an object's table. Its type says what it reads as.
pub(crate) struct Row<T> {
    /// The row as the table lists it.
    pub(crate) field: Field,
    /// What silence stands for; `None`: nothing, so that silence is a mistake.
    pub(crate) silent: Option<T>,
}

impl<T> Row<T> {
    /// Its key.
    pub(crate) const fn key(&self) -> &'static str {
        self.field.key
    }

    const fn means(
        key: &'static str,
        takes: Takes<T>,
        default: Default,
        silent: T,
        doc: &'static str,
    ) -> Row<T> {
        let silence = Silence::Means(default);
        Row { field: Field { key, kind: takes.kind, silence, doc }, silent: Some(silent) }
    }

    /// Silence is a mistake.
    pub(crate) const fn required(key: &'static str, takes: Takes<T>, doc: &'static str) -> Row<T> {
        let silence = Silence::Required;
        Row { field: Field { key, kind: takes.kind, silence, doc }, silent: None }
    }
}

impl<T> Row<Option<T>> {
    /// Silence means something that no value expresses.
    pub(crate) const fn optional(
        key: &'static str,
        takes: Takes<T>,
        silent: &'static str,
        doc: &'static str,
    ) -> Row<Option<T>> {
        let silence = Silence::Says(silent);
        Row { field: Field { key, kind: takes.kind, silence, doc }, silent: Some(None) }
    }
}

/// A default for which something is usual: silence is told with a warning.
const fn assumed<T>(row: Row<T>, default: f64, usual: &'static str) -> Row<T>
where
    T: Copy,
{
    let silence = Silence::Assumes(Default::Number(default), usual);
    Row { field: Field { silence, ..row.field }, silent: row.silent }
}

/// Rows of numbers, times and counts with their defaults.
macro_rules! defaults {
    ($($of:ty, $default:ty, $silent:expr;)*) => {$(
        impl Row<$of> {
            /// Silence means this value.
            pub(crate) const fn or(
                key: &'static str,
                takes: Takes<$of>,
                default: $default,
                doc: &'static str,
            ) -> Row<$of> {
                Row::means(key, takes, Default::Number(default as f64), $silent(default), doc)
            }
        }
    )*};
}

const fn itself<T: Copy>(value: T) -> T {
    value
}

defaults! {
    f64, f64, itself;
    u32, u32, itself;
    Rough, f64, Rough;
    Duration, f64, Duration;
}

/// Rows whose silence is told with what is usual.
macro_rules! assumptions {
    ($($of:ty),*) => {$(
        impl Row<$of> {
            /// Silence means this value, with a warning that gives what is usual.
            pub(crate) const fn assumed(
                key: &'static str,
                takes: Takes<$of>,
                default: f64,
                usual: &'static str,
                doc: &'static str,
            ) -> Row<$of> {
                assumed(Row::<$of>::or(key, takes, default, doc), default, usual)
            }
        }
    )*};
}

assumptions!(f64, Rough, Duration);

impl Row<Text> {
    /// Silence means this text.
    pub(crate) const fn or(
        key: &'static str,
        takes: Takes<Text>,
        default: Text,
        doc: &'static str,
    ) -> Row<Text> {
        Row::means(key, takes, Default::Text(default), default, doc)
    }
}

impl Row<bool> {
    /// Silence means this.
    pub(crate) const fn or(key: &'static str, default: bool, doc: &'static str) -> Row<bool> {
        Row::means(key, Takes::switch(), Default::Flag(default), default, doc)
    }
}

impl<C: Choice> Row<Chosen<C>> {
    /// Silence means this choice.
    pub(crate) const fn or(
        key: &'static str,
        default: &'static C,
        doc: &'static str,
    ) -> Row<Chosen<C>> {
        Row::means(key, Takes::choice(), Default::Word(default), Chosen(*default), doc)
    }
}

impl<O: Rows> Row<Nested<O>> {
    /// Silence means an object in which nothing is stated.
    pub(crate) const fn nothing(key: &'static str, doc: &'static str) -> Row<Nested<O>> {
        Row::means(key, Takes::object(), Default::Nothing, Nested(PhantomData), doc)
    }
}

impl<T> Row<List<T>> {
    /// Silence means an empty list.
    pub(crate) const fn nothing(
        key: &'static str,
        takes: Takes<List<T>>,
        doc: &'static str,
    ) -> Row<List<T>> {
        Row::means(key, takes, Default::Nothing, List(PhantomData), doc)
    }
}
