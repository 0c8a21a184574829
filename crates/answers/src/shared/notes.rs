//! What a person should know of a scenario and need not mend.

use scenario_file::{Scenario, Warning};

use crate::say;
use crate::say::{Piece, Sentence};

/// One sentence a note, with the line of the file it is about.
pub fn notes(scenario: &Scenario) -> Vec<Sentence> {
    scenario.warnings.iter().map(note).collect()
}

/// What to know of one place in the file.
pub fn note(warning: &Warning) -> Sentence {
    say![
        "line ",
        Piece::Number(warning.line as f64, 0),
        ": ",
        Piece::Words(warning.text.clone().into()),
    ]
}

/// That the aid a file lists does not come in this answer; `None` where it lists none.
pub fn aid_stays_away(scenario: &Scenario) -> Option<Sentence> {
    let everyone = scenario.aid.everyone.facts().tankers.len();
    let listed = everyone.saturating_sub(scenario.plan.facts().tankers.len());
    (listed > 0).then(|| {
        let come = if listed == 1 {
            " that the file lists as aid does"
        } else {
            " that the file lists as aid do"
        };
        say![
            Piece::TankerCount(listed),
            come,
            " not come in this answer; `request` says whom to ask."
        ]
    })
}
