//! Mistakes in words.

use std::fmt::{self, Display, Formatter};

use crate::mistakes::{LogError, Mistake, Spot, Wrong};
use crate::reading::Field;
use crate::stamp::Stamp;

/// Most mistakes that are shown: beyond these the first few tell enough.
const MOST_TOLD: usize = 50;

impl Field {
    /// What the column is called on the recorder's sheet.
    pub fn heading(self) -> &'static str {
        match self {
            Field::Tanker => "tanker",
            Field::Trip => "trip",
            Field::Site => "fill site",
            Field::At(stamp) => stamp.heading(),
            Field::Breakdown => "breakdown",
            Field::Remark => "remarks",
        }
    }

    /// What it holds, in words that need no heading.
    pub fn words(self) -> &'static str {
        match self {
            Field::At(Stamp::Connected) => "connected at the fill site",
            Field::At(Stamp::Full) => "full at the fill site",
            Field::At(Stamp::ArrivedAtFill) => "arrived at the fill site",
            Field::At(Stamp::LeftFill) => "left the fill site",
            Field::At(Stamp::Empty) => "empty at the scene",
            other => other.heading(),
        }
    }
}

impl Display for Spot {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        write!(f, "row {}", self.row)?;
        if !self.column.is_empty() {
            write!(f, ", column '{}'", self.column)?;
        }
        match &self.letters {
            Some(letters) => write!(f, " ({letters}{})", self.row),
            None => Ok(()),
        }
    }
}

impl Display for Mistake {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        writeln!(f, "{}: {}", self.at, self.wrong)?;
        write!(f, "  cure: {}", self.wrong.cure())
    }
}

impl Display for LogError {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        match self {
            LogError::Unreadable { problem, cure } => write!(f, "{problem}\n  cure: {cure}"),
            LogError::Wrong(mistakes) => {
                for mistake in mistakes.iter().take(MOST_TOLD) {
                    writeln!(f, "{mistake}")?;
                }
                match mistakes.len() {
                    1 => write!(f, "1 mistake"),
                    many if many > MOST_TOLD => {
                        write!(f, "{many} mistakes, the first {MOST_TOLD} are shown")
                    }
                    many => write!(f, "{many} mistakes"),
                }
            }
        }
    }
}

impl Display for Wrong {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        match self {
            Wrong::NoHeadings => write!(f, "no row has headings that are known"),
            Wrong::NoColumn(field) => write!(f, "there is no column for {}", what(*field)),
            Wrong::NoTimes => write!(f, "there is no column of times"),
            Wrong::ColumnTwice { field, first } => {
                write!(f, "it is read as '{}', as column '{first}' is already", field.heading())
            }
            Wrong::NoRows => write!(f, "there are headings and no rows below"),
            Wrong::Point { text, .. } => {
                write!(f, "'{text}' has a point where a clock time has a colon")
            }
            Wrong::NotATime { text } => write!(f, "'{text}' is no clock time"),
            Wrong::BeyondTheClock { text } => write!(f, "no clock shows '{text}'"),
            Wrong::NotANumber { text } => write!(f, "'{text}' is no number of a trip"),
            Wrong::NoTanker => write!(f, "the row has times and no tanker"),
            Wrong::NoTimeInRow { .. } => {
                write!(f, "the row has no time in a column that is understood")
            }
            Wrong::Unknown { field, text, .. } if text.is_empty() => {
                write!(f, "the row does not say at which {} it filled", field.heading())
            }
            Wrong::Unknown { field, text, .. } => {
                write!(f, "the scenario has no {} '{text}'", field.heading())
            }
            Wrong::Backwards { text, other, other_text, other_is_before } => {
                let (verb, place) = if *other_is_before {
                    ("earlier", "which comes before it")
                } else {
                    ("later", "which comes after it")
                };
                write!(f, "'{text}' is {verb} than '{other_text}' ({other}), {place}")
            }
            Wrong::NobodyKnown { named, .. } => {
                write!(f, "none of the tankers in the log is in the scenario: {}", quoted(named))
            }
            Wrong::RowOff { minutes } => {
                let way = if *minutes > 0.0 { "early" } else { "late" };
                match minutes.abs() {
                    720.0 => write!(
                        f,
                        "the times of the row fit only twelve hours off: morning for evening?"
                    ),
                    off => {
                        write!(f, "the times of the row fit only if it is {off} minutes too {way}")
                    }
                }
            }
            Wrong::Swapped { first, second, rows, of } => write!(
                f,
                "in {rows} of {of} rows '{second}' is earlier than '{first}', which comes before it"
            ),
            Wrong::SameRow { first } => write!(f, "the row says the same as row {first}"),
            Wrong::SameTrip { first, trip } => {
                write!(f, "trip {trip} of this tanker is in row {first} already")
            }
        }
    }
}

fn what(field: Field) -> &'static str {
    match field {
        Field::Site => "the fill site, and the scenario has several",
        other => other.words(),
    }
}

/// Names in quotes, of many the first ones.
fn quoted(names: &[String]) -> String {
    /// Names that are listed.
    const LISTED: usize = 12;
    let shown: Vec<String> = names.iter().take(LISTED).map(|name| format!("'{name}'")).collect();
    let more = if names.len() > LISTED { " and others" } else { "" };
    format!("{}{more}", shown.join(", "))
}

impl Wrong {
    /// What would put it right.
    pub fn cure(&self) -> String {
        match self {
            Wrong::NoHeadings => {
                "write a row of headings above the times; `bucketline drill --sheet` prints the usual ones".to_owned()
            }
            Wrong::NoColumn(field) => format!("add a column '{}'", field.heading()),
            Wrong::NoTimes => format!(
                "add columns of times: {}",
                Stamp::ALL.map(|stamp| format!("'{}'", stamp.heading())).join(", ")
            ),
            Wrong::ColumnTwice { .. } => "give each its own heading, or take one out".to_owned(),
            Wrong::NoRows => "write one row for each trip of each tanker".to_owned(),
            Wrong::Point { meant, .. } => format!("write {meant}, or the time with its seconds"),
            Wrong::NotATime { .. } => {
                "write 13:05, 13:05:30, 1:05 pm or 1305; leave it blank if it was not noted".to_owned()
            }
            Wrong::BeyondTheClock { .. } => {
                "hours go to 23 (with am or pm from 1 to 12), minutes and seconds to 59".to_owned()
            }
            Wrong::NotANumber { .. } => "write 1, 2, 3, or leave the column out".to_owned(),
            Wrong::NoTanker => "write whose trip it was".to_owned(),
            Wrong::NoTimeInRow { unread } if unread.is_empty() => {
                "write its times, or take the row out".to_owned()
            }
            Wrong::NoTimeInRow { unread } => {
                let columns: Vec<String> =
                    unread.iter().map(|heading| format!("'{heading}'")).collect();
                format!(
                    "not understood: column {}; give them the headings of the blank log (`bucketline drill --sheet`)",
                    columns.join(", ")
                )
            }
            Wrong::Unknown { nearest: Some(nearest), .. } => {
                format!("did you mean '{nearest}'? Otherwise add it to the scenario")
            }
            Wrong::Unknown { known, .. } => {
                format!("name one of {}, or add it to the scenario", quoted(known))
            }
            Wrong::NobodyKnown { known, .. } => format!(
                "is it the log of another drill, or another scenario? This one has {}",
                quoted(known)
            ),
            Wrong::RowOff { .. } => "look at the row's hours on the clipboard".to_owned(),
            Wrong::Swapped { .. } => "if the two columns are swapped, swap their headings".to_owned(),
            Wrong::Backwards { .. } => {
                "look at both on the clipboard; leave blank the one that cannot be read".to_owned()
            }
            Wrong::SameRow { .. } => "take one of them out".to_owned(),
            Wrong::SameTrip { .. } => "give each trip its own number".to_owned(),
        }
    }
}
