//! The picture of `lose`: what each loss adds to the chance.

use shuttle_report::chart::differences::{Line, Mark, Measure, Point, Words, chart};
use shuttle_report::fleet_size::Verdict;
use shuttle_report::losses::LossAnswer;

use super::{chances, words_of_loss};
use crate::answer::Picture;
use crate::reader::Reader;
use crate::say;
use crate::say::Piece;

/// One picture; none where nothing was simulated.
pub fn pictures(found: LossAnswer) -> Vec<Picture> {
    if found.whole.runs == 0 {
        return Vec::new();
    }
    vec![Picture { name: "losses".into(), draw: Box::new(move |reader| draw(&found, reader)) }]
}

fn draw(found: &LossAnswer, reader: &Reader) -> Result<String, shuttle_report::chart::ChartError> {
    let lines: Vec<Line> = (found.losses.iter())
        .map(|row| Line {
            label: reader.put(&words_of_loss(row)),
            points: (row.higher_by.iter())
                .map(|apart| Point {
                    by: apart.by,
                    low: apart.ci_low,
                    high: apart.ci_high,
                    mark: Mark::First,
                })
                .collect(),
            note: reader.put(&match row.verdict {
                Verdict::CannotWork => say!["no water"],
                _ => say![Piece::Percent(chances(row))],
            }),
        })
        .collect();
    let shows = say![
        "How much more often the lines run short when one thing is lost; with everything in service it is ",
        Piece::Percent(chances(&found.whole)),
        " of fires. Marks: the difference on the same luck. Whiskers: its 95% interval, for all at once.",
    ];
    let made_from = say![
        "Up to ",
        Piece::Number(found.whole.runs as f64, 0),
        " fires of each, seed ",
        Piece::Words(found.seed.to_string().into()),
        ", the same luck for all.",
    ];
    chart(
        &lines,
        Words {
            measure: Measure::Chance,
            title: &found.title,
            shows: &reader.put(&shows),
            marks: ["lost", ""],
            notes: "short in",
            made_from: &reader.put(&made_from),
        },
    )
}
