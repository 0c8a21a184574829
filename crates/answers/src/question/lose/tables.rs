//! The tables of `lose`.

use shuttle_report::fleet_size::Verdict;
use shuttle_report::losses::{LossAnswer, LossRow};

use super::{chances, words_of_loss};
use crate::say;
use crate::say::{Align, Piece, Sentence, Table, column_digits};

/// Losses that a short table shows.
const MOST_ROWS: usize = 6;

/// The worst losses: how often, how long, and whether that is still below the target.
pub fn short(found: &LossAnswer) -> Table {
    let mut table = Table::new(vec![
        (say!["lost"], Align::Left),
        (say!["short, of 100"], Align::Right),
        (say!["minutes short"], Align::Right),
        (say!["below ", Piece::Share(found.target)], Align::Left),
    ]);
    // A single one left out would save no line.
    let left_out = match found.losses.len().saturating_sub(MOST_ROWS) {
        1 => 0,
        more => more,
    };
    for row in rows(found).take(1 + found.losses.len() - left_out) {
        let cells = if row.verdict == Verdict::CannotWork {
            [say!["all"], say![Piece::Number(row.interrupted_minutes_mean, 1)], say!["no water"]]
        } else {
            [
                say![Piece::OfHundred(chances(row), 0)],
                say![Piece::Number(row.interrupted_minutes_mean, 1)],
                match row.verdict {
                    Verdict::Below => say!["yes"],
                    Verdict::NotClear => say!["can't tell"],
                    Verdict::Above | Verdict::CannotWork => say!["no"],
                },
            ]
        };
        table.row([vec![lost(row)], cells.to_vec()].concat());
    }
    table.feet.push(say!["Each is lost for the whole fire."]);
    if left_out > 0 {
        let count = Piece::Count(left_out);
        table.feet.push(say!["The ", count, " losses that matter least are left out here."]);
    }
    table
}

/// All losses with exact shares and differences.
pub fn exact(found: &LossAnswer) -> Table {
    let mut table = Table::new(vec![
        (say!["lost"], Align::Left),
        (say!["short in"], Align::Right),
        (say!["points more"], Align::Right),
        (say!["95% interval"], Align::Right),
        (say!["fires"], Align::Right),
    ]);
    let digits = column_digits(rows(found).filter(|row| row.replications > 0).map(chances));
    let points = |share: f64| Piece::Signed(100.0 * share, 1);
    for row in rows(found) {
        let share = say![Piece::PercentTo(chances(row), digits)];
        let (by, interval) = match row.higher_by {
            Some(apart) => {
                (say![points(apart.by)], say![points(apart.ci_low), " to ", points(apart.ci_high)])
            }
            None => (say![""], say![""]),
        };
        let fires = say![Piece::Number(row.replications as f64, 0)];
        table.row(vec![lost(row), share, by, interval, fires]);
    }
    table
}

/// The plan with everything, then the losses.
fn rows(found: &LossAnswer) -> impl Iterator<Item = &LossRow> {
    [&found.whole].into_iter().chain(&found.losses)
}

fn lost(row: &LossRow) -> Sentence {
    match row.kind {
        Some(_) => words_of_loss(row),
        None => say!["nothing"],
    }
}
