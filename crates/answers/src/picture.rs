//! A picture that goes with an answer: its title is the answer in one sentence. Data until it is drawn for a reader.

use std::borrow::Cow;

use shuttle_report::chart::{ChartError, Sheet, Size};

use crate::answer::Answer;
use crate::reader::Reader;
use crate::say;
use crate::say::{Piece, Sentence};
use crate::shared::asked::asked_words;

/// A picture that goes with an answer: its data until it is drawn.
pub struct Picture {
    /// The name of its file, without an ending.
    pub name: Cow<'static, str>,
    /// The answer in one sentence.
    pub title: Sentence,
    /// What is drawn.
    pub shows: Sentence,
    /// From which fires: "20,000 fires, luck number 1."
    pub made_from: Sentence,
    /// Draws it.
    pub draw: Draw,
}

/// Draws a picture for a reader: SVG.
pub type Draw = Box<dyn Fn(&Reader, &Sheet<'_>) -> Result<String, ChartError> + Send + Sync>;

impl std::fmt::Debug for Picture {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let mut shown = f.debug_struct("Picture");
        shown.field("name", &self.name).field("title", &self.title).finish_non_exhaustive()
    }
}

/// A day of the Gregorian calendar.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Date {
    /// Year.
    pub year: i64,
    /// Month, from 1.
    pub month: u32,
    /// Day of the month, from 1.
    pub day: u32,
}

/// What the foot of a picture says beside what the answer knows, and how large it is.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Imprint {
    /// The name of the scenario's file.
    pub file: Option<String>,
    /// The day it is made.
    pub day: Option<Date>,
    /// How large it is.
    pub size: Size,
}

impl<F> Answer<F> {
    /// Draws one of its pictures: SVG.
    ///
    /// - Errors: [`ChartError`] for figures that no chart can show.
    pub fn drawn(
        &self,
        picture: &Picture,
        reader: &Reader,
        imprint: &Imprint,
    ) -> Result<String, ChartError> {
        let mut foot: Vec<String> = vec![ended(self.title.clone())];
        foot.extend(asked_words(&self.asked).map(|words| reader.put(&words)));
        foot.extend(imprint.file.iter().map(|file| format!("File {file}.")));
        foot.push(reader.put(&picture.made_from));
        // ISO 8601.
        foot.extend(
            imprint.day.map(|Date { year, month, day }| format!("{year:04}-{month:02}-{day:02}.")),
        );
        foot.push(format!("bucketline {}.", env!("CARGO_PKG_VERSION")));
        let sheet = Sheet {
            // A picture hangs where nobody has the command line before him.
            answer: &reader.put(&picture.title.for_page()),
            shows: &reader.put(&picture.shows.for_page()),
            foot: &foot.join(" "),
            size: imprint.size,
        };
        (picture.draw)(reader, &sheet)
    }
}

/// A title that goes on in a line of sentences.
fn ended(title: String) -> String {
    if title.ends_with(['.', '!', '?']) { title } else { title + "." }
}

/// "20,000 fires, luck number 1."
pub(crate) fn fires_and_seed(fires: u64, seed: u64) -> Sentence {
    say![count_of_fires(fires), ", ", luck_number(seed), "."]
}

/// "20,000 fires as it stands, 256 to 4,096 of each option, luck number 1, the same luck for all.": what was run, not what
/// might have been.
///
/// - Given: the fires as it stands; those of each of the others, and what one of them is.
pub(crate) fn fires_of_each(
    stands: u64,
    others: impl IntoIterator<Item = u64>,
    what: &'static str,
    seed: u64,
) -> Sentence {
    let others: Vec<u64> = others.into_iter().filter(|fires| *fires > 0).collect();
    let of_each = match (others.iter().min(), others.iter().max()) {
        (Some(fewest), Some(most)) if fewest == most => {
            say![", ", Piece::Number(*most as f64, 0), " of each ", what]
        }
        (Some(fewest), Some(most)) => say![
            ", ",
            Piece::Number(*fewest as f64, 0),
            " to ",
            Piece::Number(*most as f64, 0),
            " of each ",
            what,
        ],
        _ => Sentence::default(),
    };
    say![
        count_of_fires(stands),
        " as it stands",
        of_each,
        ", ",
        luck_number(seed),
        ", the same luck for all."
    ]
}

fn count_of_fires(fires: u64) -> Sentence {
    say![Piece::Number(fires as f64, 0), if fires == 1 { " fire" } else { " fires" }]
}

/// "luck number 1": with the same number the same plan meets the same fires again. It has no thousands: it is typed as
/// it stands.
pub(crate) fn luck_number(seed: u64) -> Piece {
    Piece::Words(format!("luck number {seed}").into())
}
