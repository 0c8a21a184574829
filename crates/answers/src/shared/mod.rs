//! What several questions share: words for causes, changes, losses of a plan; notes; hose, people and places.

pub mod budget;
pub mod so_far;

mod causes;
mod notes;
mod plan_in_a_line;
mod whom;

pub(crate) mod against;
pub(crate) mod asked;
pub(crate) mod changes;
pub(crate) mod doubt;
pub(crate) mod holding;
pub(crate) mod hose;
pub(crate) mod instead;
pub(crate) mod lost;
pub(crate) mod luck;
pub(crate) mod never_binds;
pub(crate) mod people;
pub(crate) mod quantities;
pub(crate) mod station;
pub(crate) mod target;

pub(crate) use causes::{
    cause_of_key, cause_words, cause_words_of, causes_told, cure_words, shares_in_words,
};
pub(crate) use notes::{aid_not_asked, note, notes, notes_that_matter, pumps_not_asked};
pub(crate) use plan_in_a_line::headline;
pub use whom::Whom;
pub(crate) use whom::subject_words;
