//! The fire and the plan in one line.

use shuttle_sim::Plan;

use crate::say;
use crate::say::{Piece, Sentence, name};

/// "Hay barn, Quarry Lane. 150 gpm, 500 gpm from minute 20, for 2 hours, three tankers."
pub fn headline(plan: &Plan) -> Sentence {
    let facts = plan.facts();
    say![
        name(&facts.title),
        ". ",
        flow(plan),
        " for ",
        Piece::Duration(facts.incident.duration),
        ", ",
        Piece::TankerCount(facts.tankers.len()),
        ".",
    ]
}

/// Two flows are told as they come, so that nobody opens with the second; of more the greatest.
fn flow(plan: &Plan) -> Sentence {
    let facts = plan.facts();
    match facts.incident.attack_flow.as_slice() {
        [first, then] if first.from == 0.0 => {
            let at = Piece::Clock(facts.first_water_mean() + then.from);
            say![Piece::Flow(first.flow), ", ", Piece::Flow(then.flow), " from ", at, ","]
        }
        steps => {
            let peak = steps.iter().fold(0.0_f64, |most, step| most.max(step.flow));
            let up_to = if steps.len() > 1 { "Up to " } else { "" };
            let begins = steps.first().map_or(0.0, |step| step.from);
            say![up_to, Piece::Flow(peak), nothing_before(begins)]
        }
    }
}

/// A plan whose lines are opened only later counts on that: whoever opens them with first water has less than it says.
fn nothing_before(minutes: f64) -> Sentence {
    match minutes > 0.0 {
        true => say![", none before ", Piece::Minutes(minutes), " after first water,"],
        false => Sentence::default(),
    }
}
