//! The evidence sheet of a grading: what a surveyor asks for, filled from the scenario, a blank where it says
//! nothing.

mod claim;
mod department;
mod drills;
mod figures;
mod sheet;
mod sources;
mod units;

pub use claim::others_known;
pub use figures::EvidenceFigures;
pub use sheet::sheet;

use crate::say;
use crate::say::{Align, Piece, Sentence, Table, name};

/// Stands where the scenario does not state something.
pub const BLANK: &str = "________";
/// Two of them together: room for a name or a title.
const LONG_BLANK: &str = "________________";
/// What the surveyor ticks.
const TICK: &str = "[ ]";

/// A table of what is asked for and what is stated, with a column for the surveyor to tick.
fn asked(heading: Sentence, rows: Vec<(Sentence, Sentence)>) -> Table {
    let mut table = Table::new(vec![
        (heading, Align::Left),
        (say![""], Align::Left),
        (say!["seen"], Align::Left),
    ]);
    for (what, stated) in rows {
        table.row(vec![what, stated, say![TICK]]);
    }
    table
}

fn blank() -> Sentence {
    say![BLANK]
}

/// Text of the file, or a blank.
fn text(of: Option<&String>) -> Sentence {
    of.map_or_else(|| say![LONG_BLANK], |text| say![name(text)])
}

/// A number, or a blank, then what follows.
fn number(of: Option<f64>, behind: &'static str) -> Sentence {
    match of {
        Some(value) => say![Piece::Number(value, usize::from(value.fract() != 0.0)), behind],
        None => say![BLANK, behind],
    }
}

/// A quantity, or a blank with its unit.
fn quantity(of: Option<f64>, piece: fn(f64) -> Piece, sign: Piece) -> Sentence {
    match of {
        Some(value) => say![piece(value)],
        None => say![BLANK, " ", sign],
    }
}

fn flow(of: Option<f64>) -> Sentence {
    quantity(of, Piece::Flow, Piece::FlowSign)
}

fn road(of: Option<f64>) -> Sentence {
    quantity(of, Piece::ExactDistance, Piece::DistanceSign)
}

fn length(of: Option<f64>) -> Sentence {
    match of {
        Some(feet) => say![Piece::Length(feet)],
        None => say![BLANK, " ", Piece::LengthSign],
    }
}

fn yes_or_no(of: Option<bool>) -> Sentence {
    match of {
        Some(true) => say!["yes"],
        Some(false) => say!["NO"],
        None => blank(),
    }
}

fn percent(of: Option<f64>) -> Sentence {
    number(of.map(|share| (1_000.0 * share).round() / 10.0), "%")
}
