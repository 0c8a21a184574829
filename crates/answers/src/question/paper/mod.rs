//! What is printed: the run card, the handout, the report.

pub mod card;

pub mod handout;

pub mod report;
