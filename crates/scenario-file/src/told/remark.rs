//! What a reading notes, before it has its place in the text.

use crate::errors::kinds::NoteKind;
use crate::errors::message::Message;
use crate::quantities::quantity::Quantity;

/// A value that is likely meant otherwise.
pub(super) struct Doubt {
    pub(super) quantity: Quantity,
    /// In internal units.
    pub(super) value: f64,
    /// As the file has it, where that has a unit.
    pub(super) written: Option<String>,
    /// What is known of such a value: "is what a garden hose gives".
    pub(super) reason: &'static str,
    /// What is plausible, in internal units.
    pub(super) bounds: (f64, f64),
    /// The number as it is written, with another unit that would make sense.
    pub(super) instead: Option<(f64, &'static str)>,
}

/// Something that a person should know and need not fix.
pub(crate) struct Remark {
    pub(crate) place: String,
    pub(crate) kind: NoteKind,
    pub(crate) text: Message,
}
