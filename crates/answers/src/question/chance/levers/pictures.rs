//! The picture of `levers`: what each input does when it is moved.

use shuttle_report::chart::differences::{self, Line, Point, Words, chart};
use shuttle_report::chart::{ChartError, Sheet};
use shuttle_report::levers::{LeverAnswer, LeverRow, Moved};

use super::inputs::{input_words, moved_words, now_words};
use super::{Measure, as_it_stands, moves};
use crate::picture::{Picture, fires_of_each};
use crate::reader::Reader;
use crate::say;
use crate::say::{Piece, Sentence};

/// Most lines of the picture: the others are told by their number.
const MOST_LINES: usize = 6;

/// One picture; none where nothing was simulated.
pub fn pictures(found: LeverAnswer, verdict: &Sentence) -> Vec<Picture> {
    if found.replications == 0 {
        return Vec::new();
    }
    let moved = found.rows.iter().flat_map(moves).map(|moved| moved.replications);
    vec![Picture {
        name: "levers".into(),
        title: verdict.clone(),
        shows: shows(&found),
        made_from: fires_of_each(found.replications, moved, "input moved", found.seed),
        draw: Box::new(move |reader: &Reader, sheet: &Sheet<'_>| draw(&found, reader, sheet)),
    }]
}

/// What is drawn, and how many inputs are not.
fn shows(found: &LeverAnswer) -> Sentence {
    let clear = found.rows.iter().filter(|row| row.is_clear).count();
    let nothing = found.rows.len() - clear;
    let what = match Measure::of(found) {
        Measure::Chance => say![
            "how often the lines run short, ",
            Piece::Percent(as_it_stands(found)),
            " of fires as it stands",
        ],
        Measure::Minutes => say![
            "how many minutes the lines are short, ",
            Piece::Number(found.interrupted_minutes_mean, 1),
            " on average as it stands",
        ],
    };
    let left_out = match (clear.saturating_sub(MOST_LINES), nothing) {
        (0, 0) => say!["All inputs that were moved are here."],
        (0, nothing) => {
            say![Piece::Number(nothing as f64, 0), " others make no difference that shows."]
        }
        (more, 0) => say![
            Piece::Number(more as f64, 0),
            " others matter less",
            crate::say::on_command("; --more lists them"),
            "."
        ],
        (more, nothing) => say![
            Piece::Number(more as f64, 0),
            " others matter less and ",
            Piece::Number(nothing as f64, 0),
            " make no difference that shows",
            crate::say::on_command("; --more lists them"),
            ".",
        ],
    };
    say![
        "What moving an input as said at the right does to ",
        what,
        ": those that make the greatest difference, the demand last. ",
        left_out,
    ]
}

fn draw(found: &LeverAnswer, reader: &Reader, sheet: &Sheet<'_>) -> Result<String, ChartError> {
    let measure = Measure::of(found);
    let apart = |moved: &Moved| match measure {
        Measure::Chance => Some(moved.higher_by),
        Measure::Minutes => moved.more_minutes,
    };
    let point = |row: &LeverRow, moved: &Moved| {
        let by = apart(moved)?;
        let words = reader.put(&moved_words(row, moved));
        Some(Point { by: by.by, low: by.ci_low, high: by.ci_high, way: moved.way, moved: words })
    };
    let lines: Vec<Line> = (found.rows.iter())
        .filter(|row| row.is_clear)
        .take(MOST_LINES)
        .map(|row| Line {
            label: reader.put(&say![input_words(row), " (", now_words(row), ")"]),
            points: moves(row).filter_map(|moved| point(row, moved)).collect(),
        })
        .collect();
    let measure = match measure {
        Measure::Chance => differences::Measure::Chance,
        Measure::Minutes => differences::Measure::MinutesShort,
    };
    chart(&lines, Words { measure, moved: "moved by" }, sheet)
}
