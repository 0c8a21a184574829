//! The fire and the plan in one line.

use shuttle_sim::Plan;

use crate::say;
use crate::say::{Piece, Sentence, name};

/// "Hay barn, Quarry Lane. Up to 500 gpm for 2 hours, three tankers."
pub fn headline(plan: &Plan) -> Sentence {
    let facts = plan.facts();
    let steps = &facts.incident.attack_flow;
    let peak = steps.iter().fold(0.0_f64, |most, step| most.max(step.flow));
    say![
        name(&facts.title),
        if steps.len() > 1 { ". Up to " } else { ". " },
        Piece::Flow(peak),
        nothing_before(facts.incident.attack_flow.first().map_or(0.0, |step| step.from)),
        " for ",
        Piece::Duration(facts.incident.duration),
        ", ",
        Piece::TankerCount(facts.tankers.len()),
        ".",
    ]
}

/// A plan whose lines are opened only later counts on that: whoever opens them with first water has less than it says.
fn nothing_before(minutes: f64) -> Sentence {
    match minutes > 0.0 {
        true => say![", none before ", Piece::Minutes(minutes), " after first water,"],
        false => Sentence::default(),
    }
}
