//! The tables of `size`: the numbers around the answer, and all of them.

use std::collections::BTreeSet;

use super::figures::{FleetFigures, SizeFigures};
use crate::say;
use crate::say::{Align, Chances, Piece, Sentence, Table, column_digits, name};
use crate::shared::target::{Side, below};

/// So many rows fit a first answer; of more, those that matter are shown.
const FEW: usize = 6;

/// One number less and one more than the answer, the number the scenario lists, and those after that as far as there is
/// room.
pub fn around(figures: &SizeFigures) -> Table {
    let mut table = Table::new(vec![
        (say![Piece::Tankers], Align::Right),
        (say!["the last of them"], Align::Left),
        (say!["fires of 100 that run short"], Align::Right),
        (below(figures.target), Align::Left),
    ]);
    let answer = figures.tankers.or_else(|| figures.best().map(|best| best.tankers)).unwrap_or(1);
    let mut matter: BTreeSet<usize> =
        [answer.saturating_sub(1), answer, answer + 1, figures.listed].into();
    matter.retain(|number| figures.row(*number).is_some());
    for next in figures.listed + 1..answer {
        if matter.len() < FEW {
            matter.insert(next);
        }
    }
    let is_shown = |row: &&FleetFigures| figures.rows.len() <= FEW || matter.contains(&row.tankers);
    for row in figures.rows.iter().filter(is_shown) {
        let chances = Chances::of(row.interruption_probability, row.replications);
        let works = row.verdict != Side::CannotWork;
        table.row(vec![
            say![Piece::Number(row.tankers as f64, 0)],
            last_of_them(figures, row),
            if works { say![Piece::OfHundred(chances, 0)] } else { say!["-"] },
            row.verdict.words(cannot_work()),
        ]);
    }
    table
}

/// Every number with its interval.
pub fn all(figures: &SizeFigures) -> Table {
    let mut table = Table::new(vec![
        (say![Piece::Tankers], Align::Right),
        (say!["the last of them"], Align::Left),
        (say!["short in"], Align::Right),
        (say!["95% interval"], Align::Left),
        (say!["min short"], Align::Right),
        (below(figures.target), Align::Left),
    ]);
    let digits = column_digits(figures.rows.iter().map(chances));
    for row in &figures.rows {
        let works = row.verdict != Side::CannotWork;
        let or_dash = |cell: Sentence| if works { cell } else { say!["-"] };
        let end = |share| Piece::PercentTo(Chances::of(share, row.replications), digits);
        table.row(vec![
            say![Piece::Number(row.tankers as f64, 0)],
            last_of_them(figures, row),
            or_dash(say![Piece::PercentTo(chances(row), digits)]),
            or_dash(say![end(row.ci_low), " to ", end(row.ci_high)]),
            or_dash(say![Piece::Number(row.interrupted_minutes_mean, 1)]),
            row.verdict.words(cannot_work()),
        ]);
    }
    table
}

fn chances(row: &FleetFigures) -> Chances {
    Chances::of(row.interruption_probability, row.replications)
}

/// The name of the tanker a row adds; of one that is not listed, which it is like.
fn last_of_them(figures: &SizeFigures, row: &FleetFigures) -> Sentence {
    match figures.row(figures.listed + figures.aid).filter(|_| !row.listed) {
        Some(last) => say!["another like ", name(&last.adds), ", not yours to ask for yet"],
        None if row.of_the_aid => say![name(&row.adds), ", aid"],
        None => say![name(&row.adds)],
    }
}

fn cannot_work() -> Sentence {
    say!["cannot work: no drop tank comes, and nursing is not allowed"]
}
