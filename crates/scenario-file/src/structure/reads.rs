//! What each type of row reads as.

use super::checked_value::{Node, Value};
use super::entry::Entry;
use crate::format::takes::{
    AnyOf, Choice, Chosen, Either, List, Nested, Null, Rough, Rows, Shapes, Text,
};
use crate::format::values::rough_values::VALUE;

/// A value of the file that is read.
pub(crate) trait Reads: Sized {
    /// What the reader gets.
    type Got<'n>;

    /// A value that is stated; `None`: it is of another kind.
    ///
    /// - Given: its path, worked out only where it is wanted.
    fn read<'n>(node: &'n Node, place: &dyn Fn() -> String) -> Option<Self::Got<'n>>;

    /// What silence stands for.
    fn silent<'n>(&self, place: &dyn Fn() -> String) -> Self::Got<'n>;
}

/// Values that are read as what they are.
macro_rules! as_they_are {
    ($($of:ty, $value:pat => $got:expr;)*) => {$(
        impl Reads for $of {
            type Got<'n> = $of;

            fn read(node: &Node, _: &dyn Fn() -> String) -> Option<$of> {
                match &node.value {
                    $value => Some($got),
                    _ => None,
                }
            }

            fn silent<'n>(&self, _: &dyn Fn() -> String) -> Self::Got<'n> {
                *self
            }
        }
    )*};
}

as_they_are! {
    f64, Value::Number(number) => *number;
    // Checked to be a whole number in the range of counts.
    u32, Value::Number(number) => *number as u32;
    bool, Value::Flag(flag) => *flag;
    Null, Value::Null => Null;
}

impl Reads for Text {
    type Got<'n> = &'n str;

    fn read<'n>(node: &'n Node, _: &dyn Fn() -> String) -> Option<&'n str> {
        match &node.value {
            Value::Text(text) => Some(text),
            _ => None,
        }
    }

    fn silent<'n>(&self, _: &dyn Fn() -> String) -> Self::Got<'n> {
        self
    }
}

impl Reads for Rough {
    type Got<'n> = f64;

    fn read(node: &Node, place: &dyn Fn() -> String) -> Option<f64> {
        match &node.value {
            Value::Object(rough) => rough.child(VALUE).and_then(|value| f64::read(value, place)),
            _ => f64::read(node, place),
        }
    }

    fn silent<'n>(&self, _: &dyn Fn() -> String) -> Self::Got<'n> {
        self.0
    }
}

impl<C: Choice> Reads for Chosen<C> {
    type Got<'n> = C;

    fn read(node: &Node, _: &dyn Fn() -> String) -> Option<C> {
        match &node.value {
            Value::Text(text) => C::ALL.iter().find(|choice| choice.word() == text).copied(),
            _ => None,
        }
    }

    fn silent<'n>(&self, _: &dyn Fn() -> String) -> Self::Got<'n> {
        self.0
    }
}

impl<O: Rows> Reads for Nested<O> {
    type Got<'n> = Entry<'n, O>;

    fn read<'n>(node: &'n Node, place: &dyn Fn() -> String) -> Option<Entry<'n, O>> {
        match &node.value {
            Value::Object(object) => Some(Entry::of(object, place())),
            _ => None,
        }
    }

    fn silent<'n>(&self, place: &dyn Fn() -> String) -> Self::Got<'n> {
        Entry::silent(O::TABLE, place())
    }
}

impl<S: Shapes> Reads for AnyOf<S> {
    type Got<'n> = (S, Entry<'n, S>);

    fn read<'n>(node: &'n Node, place: &dyn Fn() -> String) -> Option<(S, Entry<'n, S>)> {
        match &node.value {
            Value::Object(object) => Some((S::of(object.shape)?, Entry::of(object, place()))),
            _ => None,
        }
    }

    fn silent<'n>(&self, _: &dyn Fn() -> String) -> Self::Got<'n> {
        match self.1 {}
    }
}

impl<T: Reads> Reads for List<T> {
    type Got<'n> = Vec<T::Got<'n>>;

    fn read<'n>(node: &'n Node, place: &dyn Fn() -> String) -> Option<Vec<T::Got<'n>>> {
        let Value::List(nodes) = &node.value else { return None };
        let read = |(index, node)| T::read(node, &|| format!("{}[{index}]", place()));
        nodes.iter().enumerate().map(read).collect()
    }

    fn silent<'n>(&self, _: &dyn Fn() -> String) -> Self::Got<'n> {
        Vec::new()
    }
}

impl<A: Reads, B: Reads> Reads for Either<A, B> {
    type Got<'n> = Either<A::Got<'n>, B::Got<'n>>;

    fn read<'n>(node: &'n Node, place: &dyn Fn() -> String) -> Option<Self::Got<'n>> {
        let that = || B::read(node, place).map(Either::That);
        A::read(node, place).map(Either::This).or_else(that)
    }

    fn silent<'n>(&self, place: &dyn Fn() -> String) -> Self::Got<'n> {
        match self {
            Either::This(this) => Either::This(this.silent(place)),
            Either::That(that) => Either::That(that.silent(place)),
        }
    }
}

impl<T: Reads> Reads for Option<T> {
    type Got<'n> = Option<T::Got<'n>>;

    fn read<'n>(node: &'n Node, place: &dyn Fn() -> String) -> Option<Self::Got<'n>> {
        T::read(node, place).map(Some)
    }

    fn silent<'n>(&self, place: &dyn Fn() -> String) -> Self::Got<'n> {
        self.as_ref().map(|stands_for| stands_for.silent(place))
    }
}
