//! What a person should know of a scenario and need not mend.

use scenario_file::Scenario;

use crate::say;
use crate::say::{Piece, Sentence};

/// One sentence a note, with the line of the file it is about.
pub fn notes(scenario: &Scenario) -> Vec<Sentence> {
    (scenario.warnings.iter())
        .map(|note| {
            say![
                "line ",
                Piece::Number(note.line as f64, 0),
                ": ",
                Piece::Words(note.text.clone().into()),
            ]
        })
        .collect()
}
