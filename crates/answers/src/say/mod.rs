//! Words with values in them: a sentence keeps its quantities and names as values until a reader's units and
//! words are known.

mod chances;

mod table;

use std::borrow::Cow;

use scenario_file::{Message, NoteKind};

pub use chances::{Chances, column_digits, digits_apart};
pub use table::{Align, Column, Table};

/// A part of a sentence.
#[derive(Debug, Clone, PartialEq)]
pub enum Piece {
    /// Our own words: no name, no number with a unit, no word for a tanker.
    Words(Cow<'static, str>),
    /// A name from the scenario or the command line, never altered.
    Name(String),
    /// The reader's word for a truck that carries water: "tanker" or "tender".
    Tanker,
    /// The same, more than one.
    Tankers,
    /// "one", "two", "12".
    Count(usize),
    /// "one tanker", "three tankers", "12 tankers".
    TankerCount(usize),
    /// A volume, gal.
    Volume(f64),
    /// A flow, gpm.
    Flow(f64),
    /// A distance by road, mi.
    Distance(f64),
    /// The same where it is held against a limit: with as many decimal places as it was given, up to three.
    ExactDistance(f64),
    /// A length of hose or a height, ft.
    Length(f64),
    /// A pressure, psi.
    Pressure(f64),
    /// A speed, mph.
    Speed(f64),
    /// Minutes, to a tenth: "3.4 minutes".
    Minutes(f64),
    /// A moment after the alarm: "minute 18".
    Clock(f64),
    /// A span of time: "2 hours", "90 minutes".
    Duration(f64),
    /// How often something happened in simulated fires, as a chief says it: "29 fires of 100".
    Fires(Chances),
    /// The same as a percentage with no more digits than the runs support.
    Percent(Chances),
    /// The same with this many decimal places, for a column of a table.
    PercentTo(Chances, usize),
    /// A share that rests on no count of runs, or was asked for: "5%", "2.5%".
    Share(f64),
    /// A plain number with this many decimal places, thousands separated.
    Number(f64, usize),
    /// The same with its sign, none for zero.
    Signed(f64, usize),
    /// A bare volume for a column whose head has the unit, gal.
    BareVolume(f64),
    /// A bare flow, gpm.
    BareFlow(f64),
    /// A bare distance, mi.
    BareDistance(f64),
    /// The sign of volumes: "gal".
    VolumeSign,
    /// The sign of flows: "gpm".
    FlowSign,
    /// The sign of lengths: "ft".
    LengthSign,
    /// The sign of distances: "mi".
    DistanceSign,
    /// A call of the program that can be pasted into a shell: every part quoted where it needs it.
    Command(Vec<String>),
    /// A sentence within.
    Within(Sentence),
    /// A part of a sum or warning of the trade's arithmetic: quantities to three figures where they are turned
    /// into metric ones.
    Worked(fireground::told::Part),
    /// Fires of 100, bare and with this many decimal places: for a column whose head says so, or words behind.
    OfHundred(Chances, usize),
    /// What the check of the file tells of it and need not be mended.
    FileNote(Box<FileNote>),
    /// A value of the file by its path of keys, and for whoever has no file before him what it is.
    Key {
        /// The path of keys: `fill_sites[0].out`.
        path: String,
        /// What it is: "Quarry pond, the road out".
        page: Sentence,
    },
    /// Words of the command line, such as a flag that tells more, and what stands there for whoever has the planner page
    /// or paper before him.
    ByMedium {
        /// For the command line.
        command: &'static str,
        /// For a page.
        page: &'static str,
    },
}

/// What the check of the file tells of it and need not be mended.
#[derive(Debug, Clone, PartialEq)]
pub struct FileNote {
    /// What kind of note it is.
    pub kind: NoteKind,
    /// The line of the file that it is about, from 1; `None`: it is about what was asked for beside the file.
    pub line: Option<usize>,
    /// Path of keys of what it is about.
    pub field: String,
    /// What it is about, for whoever has no file before him; empty where the note says it.
    pub about: Message,
    /// What to know.
    pub told: Message,
    /// Whether whoever reads it has no file before him.
    pub on_page: bool,
}

impl From<&'static str> for Piece {
    fn from(words: &'static str) -> Piece {
        Piece::Words(Cow::Borrowed(words))
    }
}

impl From<Sentence> for Piece {
    fn from(sentence: Sentence) -> Piece {
        Piece::Within(sentence)
    }
}

impl From<Option<Sentence>> for Piece {
    fn from(sentence: Option<Sentence>) -> Piece {
        Piece::Within(sentence.unwrap_or_default())
    }
}

impl From<&fireground::Told> for Sentence {
    fn from(told: &fireground::Told) -> Sentence {
        Sentence(told.0.iter().copied().map(Piece::Worked).collect())
    }
}

impl From<&fireground::Told> for Piece {
    fn from(told: &fireground::Told) -> Piece {
        Piece::Within(told.into())
    }
}

/// A name from the scenario.
pub fn name(of: &str) -> Piece {
    Piece::Name(of.to_owned())
}

/// A word of a call without the folders before a file's name.
fn file_name(word: &String) -> String {
    let name = std::path::Path::new(word).file_name().and_then(|name| name.to_str());
    name.unwrap_or(word).to_owned()
}

/// Words of the command line, with nothing in their place on a page.
pub fn on_command(command: &'static str) -> Piece {
    Piece::ByMedium { command, page: "" }
}

/// Words with values in them.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Sentence(pub Vec<Piece>);

/// A sentence of pieces: `say!["up to ", Piece::Flow(500.0), " for ", name(&tanker.name)]`.
#[macro_export]
macro_rules! say {
    ($($piece:expr),* $(,)?) => {
        $crate::say::Sentence(vec![$($crate::say::Piece::from($piece)),*])
    };
}

impl Sentence {
    /// The same for a reader who has neither the file nor the command line before him.
    pub fn for_page(&self) -> Sentence {
        let piece = |piece: &Piece| match piece {
            Piece::FileNote(note) => {
                Some(Piece::FileNote(Box::new(FileNote { on_page: true, ..(**note).clone() })))
            }
            Piece::ByMedium { page, .. } => Some(Piece::from(*page)),
            Piece::Key { page, .. } => Some(Piece::Within(page.clone())),
            // Where the files lie on one machine is nothing to whoever reads elsewhere.
            Piece::Command(words) => Some(Piece::Command(words.iter().map(file_name).collect())),
            Piece::Within(sentence) => Some(Piece::Within(sentence.for_page())),
            other => Some(other.clone()),
        };
        Sentence(self.0.iter().filter_map(piece).collect())
    }

    /// The same without calls of the program, and without what stands with one in a sentence of its own: the planner page
    /// has no command line.
    pub fn without_commands(&self) -> Sentence {
        let is_call = |piece: &Piece| match piece {
            Piece::Command(_) => true,
            Piece::Within(sentence) => {
                sentence.0.iter().any(|one| matches!(one, Piece::Command(_)))
            }
            _ => false,
        };
        Sentence(self.0.iter().filter(|piece| !is_call(piece)).cloned().collect())
    }

    /// Whether it is about a line of the file, and stands beside that where the file is shown.
    pub fn is_about_a_line(&self) -> bool {
        self.0.iter().any(|piece| match piece {
            Piece::FileNote(note) => note.line.is_some(),
            Piece::Within(sentence) => sentence.is_about_a_line(),
            _ => false,
        })
    }

    /// Whether it says nothing.
    pub fn is_empty(&self) -> bool {
        self.0.iter().all(|piece| match piece {
            Piece::Words(words) => words.is_empty(),
            Piece::Within(sentence) => sentence.is_empty(),
            _ => false,
        })
    }

    /// Whether its first word is a name, which keeps its letters as they are.
    pub fn begins_with_name(&self) -> bool {
        let first = self.0.iter().find(|piece| match piece {
            Piece::Words(words) => !words.is_empty(),
            Piece::Within(sentence) => !sentence.is_empty(),
            _ => true,
        });
        match first {
            Some(Piece::Name(_)) => true,
            Some(Piece::Within(sentence)) => sentence.begins_with_name(),
            _ => false,
        }
    }

    /// Adds a piece at the end.
    pub fn push(&mut self, piece: impl Into<Piece>) {
        self.0.push(piece.into());
    }

    /// This sentence, then that one, a space between.
    #[must_use]
    pub fn then(mut self, next: impl Into<Piece>) -> Sentence {
        let next = next.into();
        if !self.is_empty() && !matches!(&next, Piece::Within(within) if within.is_empty()) {
            self.push(" ");
        }
        self.push(next);
        self
    }
}

/// "A", "A and B", "A, B and C".
pub fn list(of: impl IntoIterator<Item = Sentence>) -> Sentence {
    joined(of, ", ", " and ")
}

/// "A", "A or B", "A, B or C".
pub fn either(of: impl IntoIterator<Item = Sentence>) -> Sentence {
    joined(of, ", ", " or ")
}

/// The sentences with this between them, and that before the last.
pub fn joined(
    of: impl IntoIterator<Item = Sentence>,
    between: &'static str,
    before_last: &'static str,
) -> Sentence {
    let all: Vec<Sentence> = of.into_iter().collect();
    let count = all.len();
    let mut text = Sentence::default();
    for (place, one) in all.into_iter().enumerate() {
        if place > 0 {
            text.push(if place + 1 == count { before_last } else { between });
        }
        text.push(one);
    }
    text
}
