//! The tables of `lose`.

use shuttle_report::fleet_size::Verdict;
use shuttle_report::losses::{LossAnswer, LossRow};

use super::{chances, words_of_loss};
use crate::say;
use crate::say::{Align, Piece, Sentence, Table, column_digits, list};

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
    table.feet.extend(alike(found));
    if left_out > 0 {
        let count = Piece::Count(left_out);
        table.feet.push(say!["The ", count, " losses that matter least are left out here."]);
    }
    table
}

/// Why rows are equal: what is lost is alike, or makes no difference. Equal figures on the same luck are no chance.
fn alike(found: &LossAnswer) -> Vec<Sentence> {
    let figures = |row: &LossRow| {
        let values = [row.interruption_probability, row.interrupted_minutes_mean];
        (row.replications, values.map(f64::to_bits), row.verdict == Verdict::CannotWork)
    };
    let of = |rows: &[&LossRow]| list(rows.iter().map(|row| words_of_loss(row)));
    let is_whole =
        |row: &&LossRow| row.higher_by.is_some_and(|apart| apart.by == 0.0 && apart.ci_high == 0.0);
    let useless: Vec<&LossRow> = found.losses.iter().filter(is_whole).collect();
    let mut told = Vec::new();
    if !useless.is_empty() {
        told.push(say!["Without ", of(&useless), " no fire is short that was not short with it."]);
    }
    let always = |row: &&LossRow| row.interruption_probability >= 1.0;
    if found.losses.iter().filter(always).count() > 1 {
        told.push(say![
            "Of losses with which every fire is short, the minutes short tell which is missed most."
        ]);
    }
    let mut left: Vec<&LossRow> = found.losses.iter().filter(|row| !is_whole(row)).collect();
    while let Some(first) = left.first().copied() {
        let (same, others): (Vec<_>, Vec<_>) =
            left.into_iter().partition(|row| figures(row) == figures(first));
        left = others;
        let why = if first.verdict == Verdict::CannotWork {
            ": without any one of them no water comes at all."
        } else {
            ": on the same luck one is missed as much as the other."
        };
        if same.len() > 1 {
            told.push(say!["Equal are ", of(&same), why]);
        }
    }
    told
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
