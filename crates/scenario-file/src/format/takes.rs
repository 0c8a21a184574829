//! What a field may hold, with what that reads as: in types, so that the table and its reader cannot disagree.

use std::marker::PhantomData;

use super::description::{Kind, Object};
use crate::quantities::quantity::{Bounds, Quantity};

/// What a field may hold, with what that reads as.
pub(crate) struct Takes<T> {
    pub(crate) kind: Kind,
    reads_as: PhantomData<fn() -> T>,
}

impl<T> Clone for Takes<T> {
    fn clone(&self) -> Takes<T> {
        *self
    }
}

impl<T> Copy for Takes<T> {}

/// Text.
pub(crate) type Text = &'static str;

/// A number, bare or with its guess.
#[derive(Clone, Copy)]
pub(crate) struct Rough(pub(crate) f64);

/// A fixed time, minutes, or one with a spread.
#[derive(Clone, Copy)]
pub(crate) struct Duration(pub(crate) f64);

/// One of the words of a closed set.
#[derive(Clone, Copy)]
pub(crate) struct Chosen<C>(pub(crate) C);

/// An object of one shape.
pub(crate) struct Nested<O>(pub(crate) PhantomData<O>);

/// An object of one of several shapes.
pub(crate) struct AnyOf<S>(PhantomData<S>, pub(crate) NoDefault);

/// Silence never stands for one.
pub(crate) enum NoDefault {}

/// A list.
pub(crate) struct List<T>(pub(crate) PhantomData<T>);

/// `null`.
#[derive(Clone, Copy)]
pub(crate) struct Null;

/// Anything; it is not read.
pub(crate) struct Anything;

/// One of two that no JSON type can be mistaken between.
#[derive(Clone, Copy)]
pub(crate) enum Either<A, B> {
    This(A),
    That(B),
}

/// A closed set of words, each with what it stands for. [`words`](crate::format::tables::words) makes one.
pub(crate) trait Choice: Copy + Sync + 'static {
    /// Each word with what it means, in the order of the schema.
    const WORDS: &'static [(&'static str, &'static str)];
    /// What each of the words stands for, in the same order.
    const ALL: &'static [Self];

    /// Its word.
    fn word(&self) -> &'static str;
}

/// A choice as a table holds it, whichever set it is of.
pub(crate) trait Word: Sync {
    fn said(&self) -> &'static str;
}

impl<C: Choice> Word for C {
    fn said(&self) -> &'static str {
        self.word()
    }
}

/// The rows of an object, which has one table. [`object`](crate::format::tables::object) makes both.
pub(crate) trait Rows: 'static {
    const TABLE: &'static Object;
    /// The same as the only shape.
    const TABLES: &'static [&'static Object] = &[Self::TABLE];
}

/// That an object has these rows, or may have them: it is one of several shapes.
pub(crate) trait Has<R> {}

/// The shapes that an object may have at some place. [`shapes`](crate::format::tables::shapes) makes one.
pub(crate) trait Shapes: Copy + 'static {
    const OBJECTS: &'static [&'static Object];
    /// In the same order.
    const ALL: &'static [Self];

    /// Which of them a shape is.
    fn of(shape: &'static Object) -> Option<Self> {
        let place = Self::OBJECTS.iter().position(|other| std::ptr::eq(*other, shape))?;
        Some(Self::ALL[place])
    }
}

impl<T> Takes<T> {
    const fn of(kind: Kind) -> Takes<T> {
        Takes { kind, reads_as: PhantomData }
    }

    /// The same values, read as what is made of them.
    pub(crate) const fn read_as<U>(self) -> Takes<U> {
        Takes::of(self.kind)
    }
}

impl Takes<f64> {
    pub(crate) const fn number(quantity: Quantity, bounds: Bounds) -> Takes<f64> {
        Takes::of(Kind::Number(quantity, bounds))
    }
}

impl Takes<u32> {
    pub(crate) const fn count(bounds: Bounds) -> Takes<u32> {
        Takes::of(Kind::Count(bounds))
    }
}

impl Takes<Text> {
    pub(crate) const fn text(most: usize) -> Takes<Text> {
        Takes::of(Kind::Text(most))
    }

    pub(crate) const fn long_text() -> Takes<Text> {
        Takes::of(Kind::LongText)
    }
}

impl Takes<bool> {
    pub(crate) const fn switch() -> Takes<bool> {
        Takes::of(Kind::Switch)
    }
}

impl Takes<Null> {
    pub(crate) const fn null() -> Takes<Null> {
        Takes::of(Kind::Null)
    }
}

impl Takes<Anything> {
    pub(crate) const fn anything() -> Takes<Anything> {
        Takes::of(Kind::Anything)
    }
}

impl<C: Choice> Takes<Chosen<C>> {
    pub(crate) const fn choice() -> Takes<Chosen<C>> {
        Takes::of(Kind::Choice(C::WORDS))
    }
}

impl<O: Rows> Takes<Nested<O>> {
    pub(crate) const fn object() -> Takes<Nested<O>> {
        Takes::of(Kind::Shapes(O::TABLES))
    }
}

impl<S: Shapes> Takes<AnyOf<S>> {
    pub(crate) const fn any_of() -> Takes<AnyOf<S>> {
        Takes::of(Kind::Shapes(S::OBJECTS))
    }
}

impl<T> Takes<List<T>> {
    pub(crate) const fn list(of: &'static Takes<T>, least: usize, most: usize) -> Takes<List<T>> {
        Takes::of(Kind::List(&of.kind, least, most))
    }
}

impl<A, B> Takes<Either<A, B>> {
    pub(crate) const fn either(
        this: &'static Takes<A>,
        that: &'static Takes<B>,
    ) -> Takes<Either<A, B>> {
        Takes::of(Kind::Either(&this.kind, &that.kind))
    }
}
