//! Of which fires a report speaks: what they share, what of the file is stated and what is guessed, and when they want
//! more water.

use crate::question::check::FlowStepFigures;
use crate::question::risk::RiskFigures;
use crate::say;
use crate::say::{Piece, Sentence, joined, list};
use crate::shared::doubt::{guessed, timed};

/// So many inputs are told by name.
const MOST_NAMED: usize = 3;

/// "of the fires the file describes: whole fires differ (driving by 10%) and some may not come. Guessed: connecting at the
/// fill site; all else is taken as known."
pub(super) fn words(risk: &RiskFigures) -> Sentence {
    let of = risk.shared_luck.of_which_fires();
    let inputs = risk.doubt.iter().flat_map(|doubt| &doubt.inputs);
    let [guessed, timed] =
        [guessed(inputs.clone()), timed(inputs)].map(|all| (!all.is_empty()).then(|| named(all)));
    let rests = match (guessed, timed) {
        (None, None) => say!["every value of the file is taken as known, none as a guess."],
        (Some(guessed), None) => {
            say!["guessed: ", guessed, "; all else is taken as known."]
        }
        (None, Some(timed)) => say!["timed: ", timed, "; all else is taken as known."],
        (Some(guessed), Some(timed)) => {
            say!["guessed: ", guessed, "; timed: ", timed, "; all else is taken as known."]
        }
    };
    say!["of the fires the file describes: ", of, "; ", rests]
}

/// The first few, then how many more.
fn named(mut all: Vec<Sentence>) -> Sentence {
    let more = all.len().saturating_sub(MOST_NAMED);
    if more > 0 {
        all.truncate(MOST_NAMED);
        all.push(say![Piece::Count(more), " more"]);
    }
    list(all)
}

/// "wanted: 250 gpm from minute 11, 500 gpm from minute 16, 750 gpm from minute 26." - nothing of a single flow.
pub(super) fn flow_words(steps: &[FlowStepFigures]) -> Option<Sentence> {
    /// Most steps told one by one.
    const MOST: usize = 6;
    if steps.len() < 2 {
        return None;
    }
    let told = steps
        .iter()
        .take(MOST)
        .map(|step| say![Piece::Flow(step.flow_gpm), " from ", Piece::Clock(step.from_min)]);
    let most = steps.iter().skip(MOST).max_by(|a, b| a.flow_gpm.total_cmp(&b.flow_gpm));
    let most = most.map(|step| {
        say!["; later at most ", Piece::Flow(step.flow_gpm), " from ", Piece::Clock(step.from_min)]
    });
    Some(say!["wanted: ", joined(told, ", ", ", "), most, "."])
}
