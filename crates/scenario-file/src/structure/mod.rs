//! From a file to values whose structure is sound: its text, strict JSON, every field known and of its kind, unit and
//! range; every mistake at once.

pub(crate) mod checked_value;

pub(crate) mod checker;

pub(crate) mod entry;

pub(crate) mod reads;

pub(crate) mod file_kind;

pub(crate) mod file_text;

mod shape_fit;

mod single_value;

mod strict_json;

mod syntax_cures;

pub(crate) mod sound_text;
