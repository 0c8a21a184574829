//! What a plan is, in words: its units and places, people, hose, notes, values and their names.

pub(crate) mod bottleneck;
pub(crate) mod brings;
pub(crate) mod hose;

pub(crate) mod instead;

pub(crate) mod key_words;

pub(crate) mod notes;

pub(crate) mod people;

pub(crate) mod plan_in_a_line;

pub(crate) mod quantities;

pub(crate) mod station;

pub mod whom;
