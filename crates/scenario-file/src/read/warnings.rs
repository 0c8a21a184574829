//! What a person should know about a scenario and need not fix.

use std::fmt;

use shuttle_sim::{Plan, oddities_in};

use super::places::Places;
use super::reader::Remark;
use crate::errors::position::{Lines, Span};
use crate::quantities::message_units::in_units;
use crate::quantities::quantity::Units;

/// Something in a scenario that is allowed and that a person should know.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Warning {
    /// Path of keys, such as `drop_tanks[0].unusable`.
    pub place: String,
    /// Line of the place, or of what would hold it; from 1.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
    /// What to know.
    pub text: String,
}

/// `12:5: drop_tanks[0].unusable: ...`, to go behind the name of the file.
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
    let handling_said = remarks.iter().any(|remark| remark.place == "handling");
    let odd = (oddities_in(plan.facts()).into_iter())
        // Silent handling times are already told, with what is usual.
        .filter(|oddity| !(handling_said && oddity.place.ends_with(".handling")))
        .map(|oddity| Remark { place: oddity.place, text: oddity.text });
    placed(remarks.into_iter().chain(odd).collect(), places, lines, units)
}

/// Remarks as warnings, in the order of the text.
pub(crate) fn placed(
    remarks: Vec<Remark>,
    places: &Places<'_>,
    lines: &Lines<'_>,
    units: Units,
) -> Vec<Warning> {
    let mut placed: Vec<(Span, Remark)> =
        (remarks.into_iter()).map(|remark| (places.mark(&remark.place), remark)).collect();
    placed.sort_by_key(|(span, _)| span.start);
    (placed.into_iter())
        .map(|(span, remark)| {
            let (line, column) = lines.line_and_column(span.start);
            Warning { place: remark.place, line, column, text: in_units(&remark.text, units) }
        })
        .collect()
}
