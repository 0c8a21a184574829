//! Whether a flow breaks at the start, before the road can matter.

use shuttle_sim::{Luck, Plan, Shuttle};

use super::demand::{Demand, Trial};
use crate::worksheet::worksheet;

/// Runs looked at in full to see when a flow breaks. Judgement: a share to within a few hundredths.
const RUNS_SEEN: u64 = 60;

/// Of the first breaks of a flow that fails, the share that comes before any tanker could be back with a second load,
/// by mean times.
pub(super) fn broken_at_the_start(plan: &Plan, demand: Demand, flow: f64, seed: u64) -> f64 {
    let Ok(trial) = Trial::new(plan, demand, flow) else {
        return 0.0;
    };
    let facts = plan.facts();
    let second_load = (worksheet(plan).tankers.iter().zip(&facts.tankers))
        .map(|(sheet, tanker)| {
            tanker.call.requested_at + tanker.call.response.mean() + sheet.cycle_min
        })
        .fold(f64::INFINITY, f64::min);
    let mut shuttle = Shuttle::new(&trial.plan);
    shuttle.keep_levels(false);
    let (mut broken, mut early) = (0_u32, 0_u32);
    for replication in 0..RUNS_SEEN {
        let run = shuttle.run(Luck::Drawn { seed, replication });
        if let Some(first) = run.interruptions.first() {
            broken += 1;
            early += u32::from(first.start < second_load);
        }
    }
    if broken == 0 { 0.0 } else { f64::from(early) / f64::from(broken) }
}
