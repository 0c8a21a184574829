//! How a log was read, as figures.

use drill_log::{ClockOf, Field, Guess, Stamp};
use schemars::JsonSchema;
use serde::Serialize;

/// Something of a log that could have been read otherwise.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum ReadFigures {
    /// A heading that is not the usual one.
    Column {
        /// As written.
        heading: String,
        /// What it was read as.
        is_read_as: ColumnKey,
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
        /// The tanker or fill site that was taken for it.
        name: String,
    },
    /// What clock the times are of.
    Clock {
        /// Which.
        clock_of: ClockKey,
    },
    /// Bare numbers of a spreadsheet that were taken as times of the day.
    NumbersAsTimes {
        /// How many.
        times: usize,
    },
    /// A remark that was taken as a breakdown.
    RemarkAsBreakdown {
        /// The row.
        row: usize,
        /// What it says.
        text: String,
    },
    /// A remark that was taken as a load pumped into the engine.
    RemarkAsNursing {
        /// The row.
        row: usize,
        /// What it says.
        text: String,
    },
    /// The sheet that was read, of several.
    Sheet {
        /// Its name.
        name: String,
    },
}

/// A column of a log.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum ColumnKey {
    /// The tanker's name.
    Tanker,
    /// The number of the trip.
    Trip,
    /// The fill site's name.
    FillSite,
    /// When it comes to the fill site.
    ArrivedAtFill,
    /// When the hose is on.
    Connected,
    /// When the tank is full.
    Full,
    /// When it leaves the fill site.
    LeftFill,
    /// When it comes to the scene.
    ArrivedAtScene,
    /// When it opens its dump.
    StartedDump,
    /// When the tank is empty.
    Empty,
    /// When it leaves the scene.
    LeftScene,
    /// A breakdown.
    Breakdown,
    /// Anything else.
    Remark,
}

/// What clock times are of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum ClockKey {
    /// The day's 24 hours.
    Day,
    /// 12 hours, morning or afternoon not said.
    HalfDay,
    /// A stopwatch.
    Stopwatch,
}

/// How one thing was read.
pub(super) fn read(guess: &Guess) -> ReadFigures {
    match guess.clone() {
        Guess::Column { heading, field } => {
            ReadFigures::Column { heading, is_read_as: column(field) }
        }
        Guess::Unused { heading } => ReadFigures::Unused { heading },
        Guess::Name { text, name } => ReadFigures::Name { text, name },
        Guess::Clock(of) => ReadFigures::Clock {
            clock_of: match of {
                ClockOf::Day => ClockKey::Day,
                ClockOf::HalfDay => ClockKey::HalfDay,
                ClockOf::Stopwatch => ClockKey::Stopwatch,
            },
        },
        Guess::NumbersAsTimes(times) => ReadFigures::NumbersAsTimes { times },
        Guess::RemarkAsBreakdown { row, text } => ReadFigures::RemarkAsBreakdown { row, text },
        Guess::RemarkAsNursing { row, text } => ReadFigures::RemarkAsNursing { row, text },
        Guess::Sheet(name) => ReadFigures::Sheet { name },
    }
}

fn column(of: Field) -> ColumnKey {
    match of {
        Field::Tanker => ColumnKey::Tanker,
        Field::Trip => ColumnKey::Trip,
        Field::Site => ColumnKey::FillSite,
        Field::At(Stamp::ArrivedAtFill) => ColumnKey::ArrivedAtFill,
        Field::At(Stamp::Connected) => ColumnKey::Connected,
        Field::At(Stamp::Full) => ColumnKey::Full,
        Field::At(Stamp::LeftFill) => ColumnKey::LeftFill,
        Field::At(Stamp::ArrivedAtScene) => ColumnKey::ArrivedAtScene,
        Field::At(Stamp::StartedDump) => ColumnKey::StartedDump,
        Field::At(Stamp::Empty) => ColumnKey::Empty,
        Field::At(Stamp::LeftScene) => ColumnKey::LeftScene,
        Field::Breakdown => ColumnKey::Breakdown,
        Field::Remark => ColumnKey::Remark,
    }
}
