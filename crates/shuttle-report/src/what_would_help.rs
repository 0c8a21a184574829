//! What would help, and what the plan counts on: changes run on the plan's own random numbers.

use shuttle_sim::{LowWater, Plan};

use crate::batch::{Control, Keep, Runs, run_batch};
use crate::statistics::confidence_for_each;
use crate::tally::{Tally, paired};
use crate::units::Units;
use crate::variation::{common_changes, with_other_low_water};

/// A change that lowers the chance of interruption beyond what chance could explain.
#[derive(Debug, Clone, serde::Serialize)]
pub struct Help {
    /// What is changed.
    pub change: String,
    /// The chance with it.
    pub interruption_probability: f64,
    /// How much lower the chance is.
    pub lower_by: f64,
    /// The 95% interval of that, for all changes tried at once.
    pub lower_by_ci: (f64, f64),
}

/// A pump operator who gates down, as the plan has it, and what it costs where one never does.
#[derive(Debug, Clone, serde::Serialize)]
pub struct CountsOn {
    /// The chance of interruption with an operator who never gates down and so loses prime.
    pub interruption_probability: f64,
    /// How much higher the chance is.
    pub higher_by: f64,
    /// The 95% interval of that.
    pub higher_by_ci: (f64, f64),
}

/// Runs a plan whose operator gates down with one who never does.
///
/// - Returns: what that costs, if it surely costs anything; `None` too where nobody drafts, where the plan's
///   own operator never gates down, and where the runs were stopped.
pub fn what_it_counts_on(
    plan: &Plan,
    base: &Tally,
    runs: Runs,
    control: &Control,
) -> Option<CountsOn> {
    if plan.facts().supply.low_water != LowWater::Throttle {
        return None;
    }
    let never = with_other_low_water(plan.facts())?;
    let tally = run_batch(&never, runs, Keep::Sums, control).tally;
    if control.is_stopped() || tally.runs != base.runs {
        return None;
    }
    let difference = paired(&tally, base).difference(0.95);
    (difference.low > 0.0).then(|| CountsOn {
        interruption_probability: tally.interrupted as f64 / tally.runs as f64,
        higher_by: difference.value,
        higher_by_ci: (difference.low, difference.high),
    })
}

/// Tries the common changes on the runs of `base` and keeps those that help significantly, best first.
///
/// The intervals hold simultaneously at 95% for all changes (Bonferroni).
pub fn what_would_help(
    plan: &Plan,
    base: &Tally,
    runs: Runs,
    units: Units,
    control: &Control,
) -> Vec<Help> {
    if base.interrupted == 0 {
        return Vec::new();
    }
    let changes = common_changes(plan, units);
    let tried = changes.len();
    let mut helps: Vec<Help> = Vec::new();
    for change in changes {
        let tally = run_batch(&change.plan, runs, Keep::Sums, control).tally;
        if control.is_stopped() || tally.runs != base.runs {
            break;
        }
        let pairs = paired(base, &tally);
        let difference = pairs.difference(confidence_for_each(0.95, tried));
        if difference.low > 0.0 {
            helps.push(Help {
                change: change.words,
                interruption_probability: tally.interrupted as f64 / tally.runs as f64,
                lower_by: difference.value,
                lower_by_ci: (difference.low, difference.high),
            });
        }
    }
    helps.sort_by(|a, b| b.lower_by.total_cmp(&a.lower_by));
    helps
}
