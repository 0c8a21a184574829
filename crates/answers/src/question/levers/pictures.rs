//! The picture of `levers`: what each input does when it is moved.

use shuttle_report::chart::differences::{self, Line, Mark, Point, Words, chart};
use shuttle_report::levers::{LeverAnswer, Moved};
use shuttle_report::options_compared::Apart;

use super::inputs::{amount_words, input_words, now_words};
use super::{Measure, as_it_stands, moves};
use crate::answer::Picture;
use crate::reader::Reader;
use crate::say;
use crate::say::Piece;

/// Most lines of the picture: the others matter little.
const MOST_LINES: usize = 16;

/// One picture; none where nothing was simulated.
pub fn pictures(found: LeverAnswer) -> Vec<Picture> {
    if found.runs == 0 {
        return Vec::new();
    }
    vec![Picture { name: "levers".into(), draw: Box::new(move |reader| draw(&found, reader)) }]
}

fn draw(found: &LeverAnswer, reader: &Reader) -> Result<String, shuttle_report::chart::ChartError> {
    let measure = Measure::of(found);
    let apart = |moved: &Moved| match measure {
        Measure::Chance => Some(moved.higher_by),
        Measure::Minutes => moved.more_minutes,
    };
    // Marked by its effect, not by what was expected.
    let point = |by: Apart| Point {
        by: by.by,
        low: by.ci_low,
        high: by.ci_high,
        mark: if by.by <= 0.0 { Mark::First } else { Mark::Second },
    };
    let lines: Vec<Line> = (found.rows.iter())
        .filter(|row| row.is_clear)
        .take(MOST_LINES)
        .map(|row| Line {
            label: reader.put(&say![input_words(row), " (", now_words(row), ")"]),
            points: moves(row).filter_map(apart).map(point).collect(),
            note: reader.put(&amount_words(row)),
        })
        .collect();
    let what = match measure {
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
    let shows = say![
        "What each input is worth: what moving it does to ",
        what,
        ". The inputs that make a difference, greatest first, the demand last.",
    ];
    let made_from = say![
        "Up to ",
        Piece::Number(found.runs as f64, 0),
        " fires of each, seed ",
        Piece::Words(found.seed.to_string().into()),
        ", the same luck for all.",
    ];
    chart(
        &lines,
        Words {
            measure: match measure {
                Measure::Chance => differences::Measure::Chance,
                Measure::Minutes => differences::Measure::MinutesShort,
            },
            title: &found.title,
            shows: &reader.put(&shows),
            marks: ["helps", "hurts"],
            notes: "moved by",
            made_from: &reader.put(&made_from),
        },
    )
}
