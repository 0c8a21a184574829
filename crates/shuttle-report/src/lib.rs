//! Batches of runs of a tanker shuttle: the chance of losing water at the attack lines, why, and
//! what would help.
//!
//! Data flows one way: a checked plan, runs ([`batch`]), sums ([`tally`]), figures ([`summary`]),
//! then answers and charts. Plans come in; numbers, text and pictures go out. No files.
//!
//! # A batch in figures
//!
//! ```
//! use std::path::Path;
//!
//! use shuttle_report::batch::{Control, Keep, Runs, run_batch};
//! use shuttle_report::summary::Summary;
//!
//! let plan = scenario_file::read(Path::new("starter.json"), scenario_file::STARTER)?.plan;
//! let runs = Runs { first: 0, count: 400, seed: 1, threads: 2 };
//! let batch = run_batch(&plan, runs, Keep::Sums, &Control::default());
//! let summary = Summary::new(&plan, &batch, runs.seed);
//!
//! assert_eq!(summary.replications, 400);
//! assert!(summary.ci_low <= summary.interruption_probability);
//! assert!(summary.interruption_probability <= summary.ci_high);
//!
//! // However many threads share the work, the figures are the same.
//! let alone = Runs { threads: 1, ..runs };
//! let again = run_batch(&plan, alone, Keep::Sums, &Control::default());
//! assert_eq!(Summary::new(&plan, &again, alone.seed), summary);
//! # Ok::<(), scenario_file::ScenarioError>(())
//! ```

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
