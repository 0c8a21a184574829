//! What a person should know of a scenario and need not mend.

use scenario_file::{Scenario, Warning};

use crate::answer::{Block, Label};
use crate::say;
use crate::say::{Piece, Sentence};

/// One sentence a note, with the line of the file it is about; one about what was asked for beside it has none.
pub fn notes(scenario: &Scenario) -> Vec<Sentence> {
    scenario.warnings.iter().map(note).collect()
}

/// What to know of one place in the file.
pub fn note(warning: &Warning) -> Sentence {
    if warning.line == 0 {
        return say![Piece::Words(warning.text.clone().into())];
    }
    say![
        "line ",
        Piece::Number(warning.line as f64, 0),
        ": ",
        Piece::Words(warning.text.clone().into()),
    ]
}

/// That the file lists aid which this answer does not count on; `None` where it lists none, or all of it comes.
pub fn aid_not_asked(scenario: &Scenario) -> Option<Block> {
    let everyone = scenario.aid.everyone.facts().tankers.len();
    let listed = everyone.saturating_sub(scenario.plan.facts().tankers.len());
    let are = if listed == 1 {
        " of the aid is listed and not asked for; `request` says whom to ask, `--all-aid` lets it come."
    } else {
        " of the aid are listed and not asked for; `request` says whom to ask, `--all-aid` lets them come."
    };
    (listed > 0).then(|| Block::Point(Label::Aid, say![Piece::TankerCount(listed), are]))
}
