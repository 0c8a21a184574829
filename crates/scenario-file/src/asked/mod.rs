//! Changes to a plan that are asked for beside its file: another flow, without this unit, with that one.
//!
//! The file is read as it stands first. Then the changes are made in its JSON document and the whole is checked
//! again: values first, as they are named in the file, then who comes and who does not. A mistake names the
//! argument that led to it.

mod changes;

mod document;

pub(crate) mod together;

mod values;

mod who_comes;

pub(crate) mod with_changes;

pub use changes::{Asked, AskedChange, Asks, Gone};
