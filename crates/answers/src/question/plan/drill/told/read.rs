//! How the log was read, where it could have been read otherwise.

use drill_log::{ClockOf, Guess};

use super::super::Found;
use crate::say;
use crate::say::{Sentence, name};
use crate::shared::quantities::count;

/// Every guess.
pub(super) fn all(found: &Found<'_>) -> Vec<Sentence> {
    found.timed.log.guesses.iter().map(guess).collect()
}

fn quoted(text: &str) -> Sentence {
    say!["'", name(text), "'"]
}

fn guess(guess: &Guess) -> Sentence {
    match guess {
        Guess::Column { heading, field } => {
            say!["column ", quoted(heading), " is ", field.words()]
        }
        Guess::Unused { heading } => say!["column ", quoted(heading), " is not used"],
        Guess::Name { text, name: of } => say![quoted(text), " is ", name(of)],
        Guess::Clock(ClockOf::Stopwatch) => say!["times are minutes and seconds of a stopwatch"],
        Guess::Clock(ClockOf::HalfDay) => {
            say!["times are of a clock of 12 hours that does not say morning or afternoon"]
        }
        Guess::Clock(ClockOf::Day) => say!["times are of the day"],
        Guess::NumbersAsTimes(many) => {
            say![
                count(*many as u64),
                " bare numbers of the spreadsheet are times as parts of a day"
            ]
        }
        Guess::RemarkAsBreakdown { row, text } => {
            say!["row ", count(*row as u64), ", ", quoted(text), " is a breakdown"]
        }
        Guess::RemarkAsNursing { row, text } => {
            say![
                "row ",
                count(*row as u64),
                ", ",
                quoted(text),
                " is a load pumped into the engine, not dumped"
            ]
        }
        Guess::Sheet(of) => say!["the sheet is ", quoted(of)],
    }
}
