//! The tables of `levers`.

use shuttle_report::levers::{LeverAnswer, LeverRow, Moved};
use shuttle_report::moved_inputs::Way;
use shuttle_report::options_compared::Verdict;

use super::inputs::{amount_words, input_words, moved_words, now_words};
use super::{Measure, as_it_stands, chances, minutes_digits, moves};
use crate::say;
use crate::say::{Align, Piece, Sentence, Table};

/// Inputs that a short table shows.
const MOST_ROWS: usize = 6;

/// What the inputs that matter most do when moved; `None` where none of them shows.
pub fn short(found: &LeverAnswer) -> Option<Table> {
    let measure = Measure::of(found);
    let mut table = Table::new(vec![
        (say![""], Align::Left),
        (say!["now"], Align::Right),
        (say!["moved by"], Align::Right),
        (say!["with less"], Align::Right),
        (say!["with more"], Align::Right),
    ]);
    let shows = |row: &LeverRow| moves(row).any(|moved| measure.shows(moved));
    let cell = |row: &LeverRow, ways: &[Way]| {
        let moved = moves(row).find(|moved| ways.contains(&moved.way));
        moved.map_or(say![""], |moved| match measure {
            _ if !measure.shows(moved) => say!["same"],
            Measure::Chance => say![Piece::OfHundred(chances(moved), 0)],
            Measure::Minutes => {
                let more = moved.more_minutes.map_or(0.0, |apart| apart.by);
                say![Piece::Number(found.interrupted_minutes_mean + more, minutes_digits(found))]
            }
        })
    };
    for row in found.rows.iter().filter(|row| shows(row)).take(MOST_ROWS) {
        table.row(vec![
            input_words(row),
            now_words(row),
            amount_words(row),
            cell(row, &[Way::Less]),
            cell(row, &[Way::More, Way::Instead]),
        ]);
    }
    table.feet.push(match measure {
        Measure::Chance => say![
            "Fires of 100 in which the lines run short; as it stands: ",
            Piece::OfHundred(as_it_stands(found), 0),
            ".",
        ],
        Measure::Minutes => say![
            "Minutes short a fire, mean; as it stands: ",
            Piece::Number(found.interrupted_minutes_mean, minutes_digits(found)),
            ".",
        ],
    });
    (!table.rows.is_empty()).then_some(table)
}

/// Every move of an input that makes a difference, with its interval: those told in chances, then those of which only the
/// minutes short show a difference, so that a column has one unit. Tables without rows are left out.
pub fn exact(found: &LeverAnswer) -> Vec<Table> {
    let both = [Measure::Chance, Measure::Minutes].map(|measure| exact_in(found, measure));
    both.into_iter().filter(|table| !table.rows.is_empty()).collect()
}

fn exact_in(found: &LeverAnswer, measure: Measure) -> Table {
    let (head, foot) = match measure {
        Measure::Chance => (
            "points more",
            "Points: fires of 100 in which the lines run short, more than as it stands; minus helps.",
        ),
        Measure::Minutes => (
            "minutes more",
            "Minutes short a fire, mean, more than as it stands; minus helps. How often the lines run short \
             shows no difference here.",
        ),
    };
    let mut table = Table::new(vec![
        (say!["moved"], Align::Left),
        (say!["by"], Align::Left),
        (say![head], Align::Right),
        (say!["95% interval"], Align::Right),
        (say!["fires"], Align::Right),
    ]);
    for row in found.rows.iter().filter(|row| row.is_clear) {
        let mut what = say![input_words(row), " (", now_words(row), ")"];
        for moved in moves(row) {
            let Some((by, interval)) = difference(moved, measure) else { continue };
            let fires = say![Piece::Number(moved.replications as f64, 0)];
            table.row(vec![
                std::mem::take(&mut what),
                moved_words(row, moved),
                by,
                interval,
                fires,
            ]);
        }
    }
    table.feet.push(say![foot]);
    table
}

/// How much more, and its interval, where a move is told in this measure.
fn difference(moved: &Moved, measure: Measure) -> Option<(Sentence, Sentence)> {
    let (told_in, apart, times, digits) = match (moved.verdict, moved.more_minutes) {
        (Verdict::FewerMinutes | Verdict::MoreMinutes, Some(minutes)) => {
            (Measure::Minutes, minutes, 1.0, 2)
        }
        _ => (Measure::Chance, moved.higher_by, 100.0, 1),
    };
    let number = |value: f64| Piece::Signed(times * value, digits);
    (told_in == measure).then(|| {
        (say![number(apart.by)], say![number(apart.ci_low), " to ", number(apart.ci_high)])
    })
}
