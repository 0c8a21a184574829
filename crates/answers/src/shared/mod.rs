//! What several questions share: words for causes, changes, losses of a plan; notes; hose, people and places.

pub mod budget;
pub mod so_far;

#[cfg(test)]
pub(crate) mod in_tests;
mod the_plan;
mod verdicts;

pub(crate) mod as_shown;
pub(crate) mod asked;
pub(crate) mod closed_words;
pub(crate) mod doubt;
pub(crate) mod holding;
pub(crate) mod luck;
pub(crate) mod sums;

pub(crate) use the_plan::key_words::key_words;
pub(crate) use the_plan::notes::{
    aid_not_asked, every_note, note, notes, notes_that_matter, pumps_not_asked,
};
pub(crate) use the_plan::plan_in_a_line::headline;
pub use the_plan::whom::Whom;
pub(crate) use the_plan::whom::subject_words;
pub(crate) use the_plan::{bottleneck, brings, hose, instead, people, quantities, station};
pub(crate) use verdicts::causes::{
    cause_words, cause_words_of, causes_told, cure_words, shares_in_words,
};
pub(crate) use verdicts::{against, changes, held_back, lost, never_binds, target};
