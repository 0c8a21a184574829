//! What is wrong with a log, as values; the words are in `told`.

use crate::reading::Field;

/// Why there is no log.
#[derive(Debug, Clone, PartialEq)]
pub enum LogError {
    /// The file could not be opened or is of no kind that is read.
    Unreadable {
        /// What is the matter.
        problem: String,
        /// What would put it right.
        cure: String,
    },
    /// Every mistake in it, in the order of the rows.
    Wrong(Vec<Mistake>),
}

impl LogError {
    pub(crate) fn unreadable(problem: impl Into<String>, cure: impl Into<String>) -> LogError {
        LogError::Unreadable { problem: problem.into(), cure: cure.into() }
    }

    pub(crate) fn too_many_rows() -> LogError {
        LogError::unreadable(
            format!("it has more than {} rows", crate::open::MOST_ROWS),
            "check that it is the log of one drill",
        )
    }
}

impl std::error::Error for LogError {}

/// Where something stands.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Spot {
    /// The line of a text, the row of a spreadsheet, from 1.
    pub row: usize,
    /// The column by its heading; in the row of headings the heading itself; empty: the whole row.
    pub column: String,
    /// The number of the column, from 1; 0: the whole row.
    pub number: usize,
    /// Its letters, in a spreadsheet.
    pub letters: Option<String>,
}

/// A mistake and where it stands.
#[derive(Debug, Clone, PartialEq)]
pub struct Mistake {
    /// Where.
    pub at: Spot,
    /// What.
    pub wrong: Wrong,
}

/// What is wrong.
#[derive(Debug, Clone, PartialEq)]
pub enum Wrong {
    /// No row has headings.
    NoHeadings,
    /// There is no column for this, and there must be.
    NoColumn(Field),
    /// No column of times.
    NoTimes,
    /// Another column is read as the same thing.
    ColumnTwice {
        /// What both are read as.
        field: Field,
        /// The heading of the first.
        first: String,
    },
    /// There are headings and nothing below.
    NoRows,
    /// A decimal point where a clock time has a colon.
    Point {
        /// What was written.
        text: String,
        /// What was probably meant.
        meant: String,
    },
    /// No clock time.
    NotATime {
        /// What was written.
        text: String,
    },
    /// Hours, minutes or seconds beyond what a clock has.
    BeyondTheClock {
        /// What was written.
        text: String,
    },
    /// No whole number of a trip.
    NotANumber {
        /// What was written.
        text: String,
    },
    /// A row of times without a tanker.
    NoTanker,
    /// A row with a tanker and no time in it.
    NoTimeInRow {
        /// Columns that were not understood and hold something there: the times may stand in them.
        unread: Vec<String>,
    },
    /// A name that the scenario does not have.
    Unknown {
        /// A tanker or a fill site.
        field: Field,
        /// What was written.
        text: String,
        /// The name it is nearest to, if it is near one.
        nearest: Option<String>,
        /// The names there are.
        known: Vec<String>,
    },
    /// No row names a tanker that the scenario has.
    NobodyKnown {
        /// Who is named, each once.
        named: Vec<String>,
        /// The names there are.
        known: Vec<String>,
    },
    /// A whole row of times that would fit if it were so many minutes later (below zero: earlier).
    RowOff {
        /// The minutes.
        minutes: f64,
    },
    /// In most rows the times of two columns run backward.
    Swapped {
        /// The heading of the one that comes first in the cycle.
        first: String,
        /// The heading of the other.
        second: String,
        /// Rows in which they do.
        rows: usize,
        /// Rows that have both.
        of: usize,
    },
    /// A time earlier than one that comes before it.
    Backwards {
        /// What was written.
        text: String,
        /// Where the time stands that it contradicts.
        other: Spot,
        /// That time as written.
        other_text: String,
        /// Whether the other is the one that comes before in the cycle; else the one behind.
        other_is_before: bool,
    },
    /// All times are those of another row.
    SameRow {
        /// The first of the two.
        first: usize,
    },
    /// The trip is there already.
    SameTrip {
        /// The row that has it first.
        first: usize,
        /// The trip.
        trip: u32,
    },
}
