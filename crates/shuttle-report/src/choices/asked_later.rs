//! What it costs to ask for some tankers later than the plan does.

use shuttle_sim::Plan;

use super::request::late;
use crate::runs::batch::{Keep, run_batch};
use crate::runs::control::{Control, Runs};

/// The lines of a plan some of whose tankers are asked for later.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Later {
    /// How much later, minutes.
    pub by: f64,
    /// Runs made.
    pub runs: u64,
    /// Of these, runs in which the lines run short at least once.
    pub short: u64,
}

/// Runs the plan with these tankers asked for so many minutes later, each delay on the same luck.
///
/// - Returns: nothing where nobody is named, and without what a delay makes no plan of.
pub fn asked_later(
    plan: &Plan,
    names: &[String],
    by: &[f64],
    runs: Runs,
    control: &Control,
) -> Vec<Later> {
    (by.iter())
        .filter_map(|by| {
            let later = late(plan, names, *by)?;
            let tally = run_batch(&later, runs, Keep::Counts, control).tally;
            Some(Later { by: *by, runs: tally.runs, short: tally.interrupted })
        })
        .collect()
}
