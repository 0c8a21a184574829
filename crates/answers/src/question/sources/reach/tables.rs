//! The tables of `reach`.

use shuttle_report::reach::{ReachAnswer, ReachCell, ReachRow};

use crate::say;
use crate::say::{Align, Piece, Sentence, Table};
use crate::shared::holding::{held_or_open, signs, why};

/// Columns of numbers that a table has side by side.
const COLUMNS: usize = 6;
/// Rows of numbers of tankers that a short table shows.
const ROWS: usize = 10;

/// What holds, by distance and number of tankers; of many numbers of tankers some, the last one always.
pub fn short(found: &ReachAnswer) -> Table {
    let shown = thinned(found.tankers.len(), COLUMNS);
    let mut table = by_tankers(found, &shown, held);
    table.feet = feet(found);
    table
}

/// Every number of tankers: what holds, then what is made by hand, and how many are enough.
pub fn full(found: &ReachAnswer) -> Vec<Table> {
    let all: Vec<usize> = (1..=found.tankers.len()).collect();
    let mut tables = Vec::new();
    // As many side by side in each.
    let columns = all.len().div_ceil(all.len().div_ceil(COLUMNS).max(1)).max(1);
    if all.len() > COLUMNS {
        tables.extend(all.chunks(columns).map(|some| by_tankers(found, some, held)));
    }
    let by_hand = all.chunks(columns).map(|some| by_tankers(found, some, hand));
    tables.extend(by_hand.map(|mut table| {
        table.feet.push(say!["The same by hand, with mean times and no waiting."]);
        table
    }));
    tables
}

/// "1 to 8, every second one and the last": places from 1, no more than `most` of them.
fn thinned(count: usize, most: usize) -> Vec<usize> {
    let every = count.div_ceil(most).max(1);
    (1..=count).filter(|n| n % every == 0 || *n == count).collect()
}

fn by_tankers(found: &ReachAnswer, tankers: &[usize], cell: fn(&ReachCell) -> Sentence) -> Table {
    let mut columns = vec![(say![Piece::DistanceSign], Align::Right)];
    columns.extend(tankers.iter().map(|n| (say![Piece::Number(*n as f64, 0)], Align::Right)));
    let mut table = Table::new(columns);
    let row = |row: &ReachRow| {
        let cells = tankers.iter().map(|n| row.cells.get(n - 1).map(cell).unwrap_or_default());
        [vec![say![Piece::BareDistance(row.miles)]], cells.collect()].concat()
    };
    found.rows.iter().for_each(|one| table.row(row(one)));
    table
}

fn held(cell: &ReachCell) -> Sentence {
    if !cell.can_work {
        return say!["x"];
    }
    let held = cell.held_gpm.map(|gpm| say![Piece::BareFlow(gpm)]);
    let told = held_or_open(held, cell.not_clear_up_to_gpm.is_some());
    if cell.start_is_the_limit() { say![told, "s"] } else { told }
}

fn hand(cell: &ReachCell) -> Sentence {
    if cell.can_work { say![Piece::BareFlow(cell.hand_gpm)] } else { say!["x"] }
}

fn feet(found: &ReachAnswer) -> Vec<Sentence> {
    let any =
        |test: fn(&ReachCell) -> bool| found.rows.iter().any(|row| row.cells.iter().any(test));
    let mut feet = Vec::new();
    if any(|cell| !cell.can_work) {
        feet.push(say![
            "x cannot work: no drop tank comes with so few, and nursing is not allowed.",
        ]);
    }
    if any(ReachCell::start_is_the_limit) {
        feet.push(say![
            "s the start is the limit, not the road: more breaks before any ",
            Piece::Tanker,
            " can be back with a second load.",
        ]);
    }
    let cells = found.rows.iter().flat_map(|row| &row.cells);
    feet.extend(signs(
        cells.map(|cell| (cell.held_gpm.is_some(), cell.not_clear_up_to_gpm.is_some())),
    ));
    feet
}

/// How far away numbers of tankers hold the flow wanted; of many numbers some, the last one always.
pub fn distances(found: &ReachAnswer) -> Table {
    distances_of(found, ROWS)
}

/// The same for every number; `None` where the short table has them all.
pub fn all_distances(found: &ReachAnswer) -> Option<Table> {
    let all = found.distances.len();
    (all > ROWS).then(|| distances_of(found, all))
}

fn distances_of(found: &ReachAnswer, most: usize) -> Table {
    let mut table = Table::new(vec![
        (say![Piece::Tankers], Align::Right),
        (say!["holds to, ", Piece::DistanceSign], Align::Right),
        (say!["by hand, ", Piece::DistanceSign], Align::Right),
        (say!["what breaks it farther out"], Align::Left),
    ]);
    let shown = thinned(found.distances.len(), most);
    for row in shown.iter().filter_map(|n| found.distances.get(n - 1)) {
        let far = |miles: Option<f64>| miles.map(|miles| say![Piece::BareDistance(miles)]);
        table.row(vec![
            say![Piece::Number(row.tankers as f64, 0)],
            held_or_open(far(row.held_miles), row.not_clear_up_to_miles.is_some()),
            held_or_open(far(row.hand_miles), false),
            row.binds.and_then(why).unwrap_or_default(),
        ]);
    }
    table.feet = signs(
        (found.distances.iter())
            .map(|row| (row.held_miles.is_some(), row.not_clear_up_to_miles.is_some())),
    );
    table
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn of_many_numbers_some_are_shown_and_the_last_one_always() {
        assert_eq!(thinned(6, 6), [1, 2, 3, 4, 5, 6]);
        assert_eq!(thinned(7, 6), [2, 4, 6, 7]);
        assert_eq!(thinned(13, 6), [3, 6, 9, 12, 13]);
        assert_eq!(thinned(1, 6), [1]);
        assert_eq!(thinned(0, 6), [0_usize; 0]);
    }
}
