//! Batches of runs of a tanker shuttle: the chance of losing water at the attack lines, why, and
//! what would help.
//!
//! Data flows one way: a checked plan, runs ([`batch`]), sums ([`tally`]), figures ([`summary`]),
//! then answers and charts. Plans come in; numbers, text and pictures go out. No files.

pub mod statistics;

pub mod tally;

pub mod batch;

pub mod summary;

pub mod units;

pub mod variation;

pub mod what_would_help;

pub mod fleet_size;

pub mod side_by_side;

pub mod options_compared;

mod aid_sets;

pub mod losses;

pub mod moved_inputs;

pub mod levers;

pub mod request;

pub mod worksheet;

pub mod demand;

pub mod held_flow;

pub mod grading_rules;

pub mod grade;

pub mod evidence;

pub mod reach;

pub mod chart;
