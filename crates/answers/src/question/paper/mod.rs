//! What is printed: the run card, the handout, the report.

mod as_shown;

pub mod card;

pub mod handout;

pub mod report;
