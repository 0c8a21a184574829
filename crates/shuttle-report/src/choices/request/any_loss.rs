//! The flow that holds whichever one unit or source is lost, with everyone who could come.

use shuttle_sim::Plan;

use super::RequestQuestion;
use super::held_losses::single_losses_of;
use super::made_up_for::flow_question;
use crate::choices::departments::Department;
use crate::choices::tanker_lost::{gone_from_the_start, no_more_than};
use crate::runs::control::Control;

/// The greatest flow, gpm, that holds from first water on with any one unit or source lost for the whole fire, or a
/// department that comes whole.
///
/// - Given: the plan with everyone who could come.
/// - Returns: `None` where a loss leaves nothing that holds, and where it was stopped before that was clear.
pub fn held_with_any_one_lost(
    plan: &Plan,
    departments: &[Department],
    of: &RequestQuestion,
    control: &Control,
) -> Option<f64> {
    let question = flow_question(of);
    let steps = &plan.facts().incident.attack_flow;
    let mut most = steps.iter().map(|step| step.flow).fold(0.0, f64::max);
    for loss in single_losses_of(plan, departments) {
        // No loss makes more of what another one left.
        let gated = no_more_than(&loss.plan?, most, 0.0)?;
        (most, _) = gone_from_the_start(&gated, &question, control)?.holds?;
    }
    Some(most)
}
