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
