//! What a person should know about a scenario and need not fix.

use std::fmt;

use shuttle_sim::{Plan, oddities_in};

use super::doubts::doubts;
use super::oddity_words;
use super::path_of_place::path;
use super::places::Places;
use super::remark::Remark;
use super::subjects::subject;
use crate::errors::kinds::NoteKind;
use crate::errors::message::{Message, says};
use crate::errors::position::{Lines, Span};
use crate::format::haul::tankers::OfTanker;
use crate::format::whole_files::OfScenario;
use crate::quantities::quantity::Units;

/// Something in a scenario that is allowed and that a person should know.
#[derive(Debug, Clone, PartialEq)]
pub struct Warning {
    /// Path of keys, such as `drop_tanks[0].unusable`.
    pub place: String,
    /// Line of the place, or of what would hold it; from 1. 0: of no line, but of what was asked for beside the
    /// file.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
    /// What it is about, in words: "drop tank 2", a tanker's name; empty where the text says it.
    pub subject: Message,
    /// What kind of note it is.
    pub kind: NoteKind,
    /// What to know.
    pub text: Message,
    /// Whether it says how the plan works with what is stated, which every answer counts with: told once, where the
    /// plan is checked.
    pub is_counted: bool,
}

impl Warning {
    /// Whether it asks about a value that nobody means, so that the whole answer may rest on a slip.
    pub fn is_doubt(&self) -> bool {
        self.kind == NoteKind::Doubt
    }

    /// `line 21: drop tank 2: ...`, for a person.
    pub fn in_words(&self) -> String {
        match self.line {
            0 => self.said().in_file(),
            line => format!("line {line}: {}", self.said()),
        }
    }

    /// What to know, with what it is about.
    pub(crate) fn said(&self) -> Message {
        if self.subject.is_empty() {
            self.text.clone()
        } else {
            says![self.subject.clone(), ": ", self.text.clone()]
        }
    }
}

/// `12:5: drop_tanks[0].unusable: ...`, to go behind the name of the file: for programs.
impl fmt::Display for Warning {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (line, column) = (self.line, self.column);
        write!(f, "{line}:{column}: {}: {}", self.place, self.text)
    }
}

/// The remarks of the reading and the oddities of the plan, in the order of the text.
pub(crate) fn warnings(
    remarks: Vec<Remark>,
    plan: &Plan,
    places: &Places<'_>,
    lines: &Lines<'_>,
    units: Units,
) -> Vec<Warning> {
    let handling_said = remarks.iter().any(|remark| remark.place == OfScenario::HANDLING.key());
    let odd = (oddities_in(plan.facts()).into_iter())
        .map(|odd| {
            let (kind, text) = oddity_words::oddity(&odd.odd, units);
            Remark { place: path(&odd.place), kind, text }
        })
        // Silent handling times are already told, with what is usual.
        .filter(|odd| !(handling_said && is_own_handling(&odd.place)));
    placed(remarks.into_iter().chain(odd).collect(), places, lines, units)
}

/// Whether a note is of a drop tank as it stands: what does not fit waits aboard, what lies too low stays, and every run
/// of the plan has it so.
fn is_counted(kind: NoteKind) -> bool {
    matches!(kind, NoteKind::SmallDropTank | NoteKind::MostlyUnusable)
}

/// Whether a place is the handling of one tanker.
fn is_own_handling(place: &str) -> bool {
    place.strip_suffix(OfTanker::HANDLING.key()).is_some_and(|tanker| tanker.ends_with('.'))
}

/// Remarks as warnings, with the doubts about what is stated, in the order of the text.
pub(crate) fn placed(
    remarks: Vec<Remark>,
    places: &Places<'_>,
    lines: &Lines<'_>,
    units: Units,
) -> Vec<Warning> {
    let doubts = doubts(places.root, lines, units);
    let mut placed: Vec<(Span, Remark)> = (remarks.into_iter().chain(doubts))
        .map(|remark| (places.mark(&remark.place), remark))
        .collect();
    placed.sort_by_key(|(span, _)| span.start);
    (placed.into_iter())
        .map(|(span, remark)| {
            let (line, column) = lines.line_and_column(span.start);
            let subject = subject(places.root, &remark.place);
            let Remark { place, kind, text } = remark;
            let is_counted = is_counted(kind);
            Warning { place, line, column, subject, kind, text, is_counted }
        })
        .collect()
}
