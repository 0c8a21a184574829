//! From text to values whose structure is sound: strict JSON, every field known and of its kind, unit and
//! range; every mistake at once.

pub(crate) mod checked_value;

pub(crate) mod checker;

pub(crate) mod entry;

pub(crate) mod file_kind;

mod shape_fit;

mod single_value;

mod strict_json;

pub(crate) mod sound_text;
