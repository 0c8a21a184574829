//! What makes tables: of an object with its rows, of the words of a choice, of the shapes at some place.

/// An object's table, and its rows by name for those who read them: `OfTanker::CAPACITY`. What a page says in place
/// of its description, or of a row's, stands behind `page`.
macro_rules! object {
    (
        $(#[$about:meta])*
        $vis:vis static $table:ident: $rows:ident {
            what: $what:expr,
            def: $def:expr,
            doc: $doc:expr,
            $(page: $page:expr,)?
            rows: { $($row:ident: $type:ty = $($made:ident $(($($arg:tt)*))?)? $({ $shared:expr })? $(; page $on_page:literal)?,)* },
            rules: $rules:expr,
            strays: $strays:expr,
        }
    ) => {
        $(#[$about])*
        $vis enum $rows {}

        impl $rows {
            $(
                $vis const $row: $crate::format::rows::Row<$rows, $type> =
                    $crate::format::tables::made!($rows, $type, $($made $(($($arg)*))?)? $({ $shared })?)
                        $(.on_page($on_page))?;
            )*
        }

        impl $crate::format::takes::Has<$rows> for $rows {}

        impl $crate::format::takes::Rows for $rows {
            const TABLE: &'static $crate::format::description::Object = &$table;
        }

        $(#[$about])*
        $vis static $table: $crate::format::description::Object =
            $crate::format::description::Object {
                what: $what,
                def: $def,
                doc: $doc,
                on_page: $crate::format::tables::maybe!($($page)?),
                fields: &[$($rows::$row.field),*],
                rules: $rules,
                strays: $strays,
            };
    };
}

/// A row by its constructor, or one that objects share.
macro_rules! made {
    ($rows:ty, $type:ty, $constructor:ident($($arg:tt)*)) => {
        <$crate::format::rows::Row<$rows, $type>>::$constructor($($arg)*)
    };
    ($rows:ty, $type:ty, $shared:ident) => {
        $shared.in_table()
    };
    ($rows:ty, $type:ty, { $shared:expr }) => {
        $shared
    };
}

/// `Some` of what is there, or `None`.
macro_rules! maybe {
    () => {
        None
    };
    ($there:expr) => {
        Some($there)
    };
}

/// The words of a choice, one for each of an enum's values.
macro_rules! words {
    ($of:ty { $($value:ident = $word:literal: $means:literal,)* }) => {
        impl $crate::format::takes::Choice for $of {
            const WORDS: &'static [(&'static str, &'static str)] = &[$(($word, $means)),*];
            const ALL: &'static [$of] = &[$(<$of>::$value),*];

            fn word(&self) -> &'static str {
                match self {
                    $(<$of>::$value => $word,)*
                }
            }
        }
    };
}

/// The shapes that an object may have at some place, each with its table.
macro_rules! shapes {
    ($(#[$about:meta])* $vis:vis enum $of:ident { $($value:ident = $rows:ty,)* }) => {
        $(#[$about])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        $vis enum $of {
            $($value,)*
        }

        impl $crate::format::takes::Shapes for $of {
            const OBJECTS: &'static [&'static $crate::format::description::Object] =
                &[$(<$rows as $crate::format::takes::Rows>::TABLE),*];
            const ALL: &'static [$of] = &[$($of::$value),*];
        }

        $(impl $crate::format::takes::Has<$rows> for $of {})*
    };
}

pub(crate) use {made, maybe, object, shapes, words};
