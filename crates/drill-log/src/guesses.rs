//! What was assumed in reading a log: told, never kept silent.

use crate::reading::Field;
use crate::reading::clock::ClockOf;

/// Something that was assumed.
#[derive(Debug, Clone, PartialEq)]
pub enum Guess {
    /// A heading that is not the usual one.
    Column {
        /// As written.
        heading: String,
        /// Read as this.
        field: Field,
    },
    /// A column that is not used.
    Unused {
        /// As written.
        heading: String,
    },
    /// A name that is written otherwise in the scenario.
    Name {
        /// As written.
        text: String,
        /// Read as this tanker or fill site.
        name: String,
    },
    /// How the times were read, where they could have been read otherwise.
    Clock(ClockOf),
    /// Numbers of a spreadsheet that were read as times of the day; how many.
    NumbersAsTimes(usize),
    /// A remark read as a breakdown.
    RemarkAsBreakdown {
        /// The row.
        row: usize,
        /// What it says.
        text: String,
    },
    /// A remark read as a load pumped straight into the engine.
    RemarkAsNursing {
        /// The row.
        row: usize,
        /// What it says.
        text: String,
    },
    /// The sheet that was read, of several.
    Sheet(String),
}
