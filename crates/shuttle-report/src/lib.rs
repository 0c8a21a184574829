//! Batches of runs of a tanker shuttle: the chance of losing water at the attack lines, why, and
//! what would help.
//!
//! Data flows one way: a checked plan, or one changed ([`changes`]), runs and sums ([`runs`]), what may be
//! said ([`decisions`], on [`statistics`]), then answers and charts. Plans come in; numbers and pictures go
//! out. No files.

pub mod statistics;

pub mod runs;

pub mod decisions;

pub mod units;

pub mod changes;

pub mod summary;

pub mod worksheet;

pub mod choices;

pub mod holding;

pub mod playback;

pub mod trip_wires;

pub mod doubt;

pub mod chart;

// The folders are for reading; these are the names by which others know what is in them.
pub use changes::{common_changes, cures, moved_inputs, variation};
pub use choices::{
    asked_later, departments, fleet_size, levers, losses, option_sets, options_compared, request,
    tanker_lost, turnarounds, what_would_help,
};
pub use holding::grading::{
    by_aid, conditions, district, evidence, grade, grading_rules, site_sets, survey, weighed_sets,
};
pub use holding::{by_minute, demand, held_flow, reach, stepped_up};
pub use runs::{batch, side_by_side, tally, typical};
