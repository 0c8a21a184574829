//! Typed rows: a field of an object is stated once, with its key, what it may hold, what silence means, and what it
//! reads as. A reader that asks for another key or takes it for another kind does not compile.

use std::marker::PhantomData;

use fireground::told::Part as Worked;

use super::description::{Default, Field, Silence};
use super::takes::{Choice, Chosen, Duration, List, Nested, Rough, Rows, Takes, Text};

/// A row of an object's table. Its type says which object that is, and what it reads as.
pub(crate) struct Row<O, T> {
    /// The row as the table lists it.
    pub(crate) field: Field,
    /// What silence stands for; `None`: nothing, so that silence is a mistake.
    pub(crate) silent: Option<T>,
    of: PhantomData<fn() -> O>,
}

/// In place of an object: several have the row.
pub(crate) enum Shared {}

impl<O, T> Row<O, T> {
    /// Its key.
    pub(crate) const fn key(&self) -> &'static str {
        self.field.key
    }

    /// The same with other words for a page, which has other means than a file.
    pub(crate) const fn on_page(mut self, doc: &'static str) -> Row<O, T> {
        self.field.on_page = Some(doc);
        self
    }

    const fn means(
        key: &'static str,
        takes: Takes<T>,
        default: Default,
        silent: T,
        doc: &'static str,
    ) -> Row<O, T> {
        let silence = Silence::Means(default);
        Row {
            field: Field { key, kind: takes.kind, silence, doc, on_page: None },
            silent: Some(silent),
            of: PhantomData,
        }
    }

    /// Silence is a mistake.
    pub(crate) const fn required(
        key: &'static str,
        takes: Takes<T>,
        doc: &'static str,
    ) -> Row<O, T> {
        let silence = Silence::Required;
        Row {
            field: Field { key, kind: takes.kind, silence, doc, on_page: None },
            silent: None,
            of: PhantomData,
        }
    }
}

impl<T: Copy> Row<Shared, T> {
    /// The same row in the table of an object.
    pub(crate) const fn in_table<O>(self) -> Row<O, T> {
        Row { field: self.field, silent: self.silent, of: PhantomData }
    }
}

impl<O, T> Row<O, Option<T>> {
    /// Silence means something that no value expresses.
    pub(crate) const fn optional(
        key: &'static str,
        takes: Takes<T>,
        silent: &'static str,
        doc: &'static str,
    ) -> Row<O, Option<T>> {
        let silence = Silence::Says(silent);
        Row {
            field: Field { key, kind: takes.kind, silence, doc, on_page: None },
            silent: Some(None),
            of: PhantomData,
        }
    }
}

/// A default for which something is usual: silence is told with a warning.
const fn assumed<O, T>(row: Row<O, T>, default: f64, usual: &'static [Worked]) -> Row<O, T>
where
    T: Copy,
{
    let silence = Silence::Assumes(Default::Number(default), usual);
    Row { field: Field { silence, ..row.field }, silent: row.silent, of: PhantomData }
}

/// Rows of numbers, times and counts with their defaults.
macro_rules! defaults {
    ($($of:ty, $default:ty, $silent:expr;)*) => {$(
        impl<O> Row<O, $of> {
            /// Silence means this value.
            pub(crate) const fn or(
                key: &'static str,
                takes: Takes<$of>,
                default: $default,
                doc: &'static str,
            ) -> Row<O, $of> {
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
        impl<O> Row<O, $of> {
            /// Silence means this value, with a warning that gives what is usual.
            pub(crate) const fn assumed(
                key: &'static str,
                takes: Takes<$of>,
                default: f64,
                usual: &'static [Worked],
                doc: &'static str,
            ) -> Row<O, $of> {
                assumed(Row::<O, $of>::or(key, takes, default, doc), default, usual)
            }
        }
    )*};
}

assumptions!(f64, Rough, Duration);

impl<O> Row<O, Text> {
    /// Silence means this text.
    pub(crate) const fn or(
        key: &'static str,
        takes: Takes<Text>,
        default: Text,
        doc: &'static str,
    ) -> Row<O, Text> {
        Row::means(key, takes, Default::Text(default), default, doc)
    }
}

impl<O> Row<O, bool> {
    /// Silence means this.
    pub(crate) const fn or(key: &'static str, default: bool, doc: &'static str) -> Row<O, bool> {
        Row::means(key, Takes::switch(), Default::Flag(default), default, doc)
    }
}

impl<O, C: Choice> Row<O, Chosen<C>> {
    /// Silence means this choice.
    pub(crate) const fn or(
        key: &'static str,
        default: &'static C,
        doc: &'static str,
    ) -> Row<O, Chosen<C>> {
        Row::means(key, Takes::choice(), Default::Word(default), Chosen(*default), doc)
    }
}

impl<O, N: Rows> Row<O, Nested<N>> {
    /// Silence means an object in which nothing is stated.
    pub(crate) const fn nothing(key: &'static str, doc: &'static str) -> Row<O, Nested<N>> {
        Row::means(key, Takes::object(), Default::Nothing, Nested(PhantomData), doc)
    }
}

impl<O, T> Row<O, List<T>> {
    /// Silence means an empty list.
    pub(crate) const fn nothing(
        key: &'static str,
        takes: Takes<List<T>>,
        doc: &'static str,
    ) -> Row<O, List<T>> {
        Row::means(key, takes, Default::Nothing, List(PhantomData), doc)
    }
}
