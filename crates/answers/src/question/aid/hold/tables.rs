//! The tables of `hold`.

use shuttle_report::by_minute::{HeldBy, MinuteAnswer, MinuteRow};

use crate::say;
use crate::say::{Align, Piece, Sentence, Table};
use crate::shared::holding::{held_or_open, signs, why};

/// What holds by minute: as the plan stands and, where there is aid, with it.
pub fn short(found: &MinuteAnswer) -> Table {
    let columns = |head: &'static str| {
        [(say![head, Piece::FlowSign], Align::Right), (say!["first loads to"], Align::Right)]
    };
    let mut heads = vec![(say!["from minute"], Align::Right)];
    heads.extend(columns(""));
    if found.with_aid.is_some() {
        heads.extend(columns("all aid, "));
    }
    let mut table = Table::new(heads);
    for (place, row) in found.as_it_stands.all_rows().enumerate() {
        let mut cells = vec![from(place, row)];
        cells.extend(flow_and_loads(row, found.end_min));
        if let Some(aid) = &found.with_aid {
            let with_aid = aid.all_rows().nth(place).map(|row| flow_and_loads(row, found.end_min));
            cells.extend(with_aid.unwrap_or_default());
        }
        table.row(cells);
    }
    table.feet = feet(found);
    table
}

/// From when: the first of the rows is that of first water, whenever that comes.
fn from(place: usize, row: &MinuteRow) -> Sentence {
    if place == 0 { say!["first water"] } else { say![Piece::Number(row.minute, 0)] }
}

fn flow_and_loads(row: &MinuteRow, end: f64) -> [Sentence; 2] {
    let flow = if row.no_water_yet {
        say!["no water yet"]
    } else {
        let held = row.held_gpm.map(|gpm| say![Piece::BareFlow(gpm)]);
        held_or_open(held, row.not_clear_up_to_gpm.is_some())
    };
    let loads = row.first_loads_until_min.map(|until| {
        if until >= end - 1.0 { say!["the end"] } else { say![Piece::Number(until, 0)] }
    });
    [flow, loads.unwrap_or_default()]
}

fn rows(found: &MinuteAnswer) -> impl Iterator<Item = &MinuteRow> {
    [Some(&found.as_it_stands), found.with_aid.as_ref()]
        .into_iter()
        .flatten()
        .flat_map(|by| by.all_rows())
}

fn feet(found: &MinuteAnswer) -> Vec<Sentence> {
    let any = rows(found)
        .filter(|row| !row.no_water_yet)
        .map(|row| (row.held_gpm.is_some(), row.not_clear_up_to_gpm.is_some()));
    let mut feet = signs(any);
    feet.push(say![
        "First loads to: the minute to which what comes on wheels carries that flow, with no load refilled.",
    ]);
    if rows(found).any(|row| row.uneven) {
        feet.push(say![
            "Somewhere a greater flow was seen to hold where a lesser one fails: the lesser counts."
        ]);
    }
    feet
}

/// What breaks a greater flow, by minute.
pub fn full(found: &MinuteAnswer) -> Vec<Table> {
    let with_aid = found.with_aid.as_ref().map(|aid| (say!["With all aid"], aid));
    [(say!["As it stands"], &found.as_it_stands)]
        .into_iter()
        .chain(with_aid)
        .map(|(head, held)| breaks(head, held))
        .collect()
}

fn breaks(head: Sentence, held: &HeldBy) -> Table {
    let mut table = Table::new(vec![
        (say!["from minute"], Align::Right),
        (say!["surely, ", Piece::FlowSign], Align::Right),
        (say!["perhaps up to"], Align::Right),
        (say!["fires"], Align::Right),
        (say!["what breaks more"], Align::Left),
    ]);
    for (place, row) in held.all_rows().enumerate() {
        let flow = |gpm: Option<f64>| gpm.map_or(say!["none"], |gpm| say![Piece::BareFlow(gpm)]);
        table.row(vec![
            from(place, row),
            flow(row.held_gpm),
            flow(row.not_clear_up_to_gpm.or(row.held_gpm)),
            say![Piece::Number(row.replications as f64, 0)],
            row.binds.and_then(why).unwrap_or_default(),
        ]);
    }
    table.feet = vec![say![head, ", ", Piece::TankerCount(held.tankers.len()), "."]];
    table
}
