//! What it costs to make the later calls of a plan late.

use shuttle_sim::{Brought, Call, Plan, PlanDraft};

use crate::runs::batch::{Keep, run_batch};
use crate::runs::control::{Control, Runs};

/// The lines of a plan whose calls after the alarm are made late.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Later {
    /// How much later, minutes.
    pub by: f64,
    /// Runs made.
    pub runs: u64,
    /// Of these, runs in which the lines run short at least once.
    pub short: u64,
}

/// When the last of the units is called that are not called at the alarm, minutes after it; `None` where all are.
pub fn last_call(plan: &Plan) -> Option<f64> {
    let mut facts = plan.facts().clone();
    later_calls(&mut facts).map(|call| call.requested_at).reduce(f64::max)
}

/// Runs the plan with every call after the alarm made so many minutes later, each delay on the same luck: of tankers, of the
/// supply engine, of drop tanks that come by themselves.
///
/// - Returns: nothing for a delay that makes no plan.
pub fn asked_later(plan: &Plan, by: &[f64], runs: Runs, control: &Control) -> Vec<Later> {
    (by.iter())
        .filter_map(|by| {
            let mut facts = plan.facts().clone();
            later_calls(&mut facts).for_each(|call| call.requested_at += by);
            let tally = run_batch(&Plan::check(facts).ok()?, runs, Keep::Counts, control).tally;
            Some(Later { by: *by, runs: tally.runs, short: tally.interrupted })
        })
        .collect()
}

/// The calls of a plan that are not made at the alarm.
fn later_calls(facts: &mut PlanDraft) -> impl Iterator<Item = &mut Call> {
    let tankers = facts.tankers.iter_mut().map(|tanker| &mut tanker.call);
    let engine = facts.supply.engine.iter_mut().map(|engine| &mut engine.call);
    let tanks = facts.drop_tanks.iter_mut().filter_map(|tank| match &mut tank.brought {
        Brought::Itself(call) => Some(call),
        _ => None,
    });
    tankers.chain(engine).chain(tanks).filter(|call| call.requested_at > 0.0)
}
