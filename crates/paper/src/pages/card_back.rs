//! The back of the run card: who is who, the channel, a sketch, the loads; and what did not fit on the front.

use answers::Answer;
use answers::question::card::CardFigures;

use super::CAUTION;
use super::card::{SIZE, Shown, all_drop_tanks, fill_at, other_units};
use crate::Made;
use crate::layout::block::{Block, Grid, Side};
use crate::layout::sheet::{Sheet, height};

/// Rows for loads, two loads a row.
const ROWS_OF_LOADS: usize = 6;
/// A sketch needs this much height, pt.
const LEAST_SKETCH: f64 = 150.0;

/// The blocks of the back.
pub(super) fn back(
    answer: &Answer<CardFigures>,
    shown: Shown,
    made: &Made,
    sheet: Sheet,
) -> Vec<Block> {
    let (card, reader) = (&answer.figures, &made.reader);
    let mut blocks = vec![Block::Title(answer.title.clone(), 17.0)];
    if card.units.len() > shown.most {
        blocks.push(Block::Heading("MORE TO ASK FOR".to_owned(), 17.0));
        blocks.extend(other_units(card, shown, reader));
    }
    if card.drop_tanks.len() > shown.most {
        let told = all_drop_tanks(card).map(|told| reader.put(&told)).unwrap_or_default();
        blocks.push(Block::labelled("DROP TANKS", told, SIZE));
    }
    for source in card.sources.iter().skip(shown.most) {
        blocks.push(Block::labelled("FILL AT", reader.put(&fill_at(source)), SIZE));
        blocks.push(Block::Blanks {
            labels: vec!["Route out".to_owned(), "back".to_owned(), "Pump there".to_owned()],
            in_a_row: 3,
            size: SIZE,
        });
    }
    let boss = format!("{} boss", if reader.tender { "Tender" } else { "Tanker" });
    let labels =
        ["Command", "Water supply officer", &boss, "Pump operator", "Fill site", "Channel"];
    let sketch = |tall| Block::Frame {
        label: "Sketch: fire, drop tanks, way in and out, fill site".to_owned(),
        tall,
    };
    blocks.push(Block::Gap(4.0));
    blocks.push(Block::Blanks {
        labels: labels.map(str::to_owned).to_vec(),
        in_a_row: 2,
        size: SIZE,
    });
    let below = |rows: usize| {
        let mut below = vec![Block::Gap(4.0)];
        below.extend((rows > 0).then(|| Block::Grid(loads(rows, made))));
        below.push(Block::words(made.from(&answer.basis), SIZE));
        below.push(Block::words(CAUTION, SIZE));
        below
    };
    // Where many are asked for, the places to write in give way; the sketch last.
    let left = |rows: usize| {
        sheet.room() - height(&blocks, sheet.column()) - height(&below(rows), sheet.column())
    };
    let rows = (0..=ROWS_OF_LOADS).rev().find(|rows| left(*rows) >= LEAST_SKETCH);
    let rows = rows.unwrap_or(0);
    let tall = left(rows).floor();
    blocks.extend((tall >= LEAST_SKETCH).then(|| sketch(tall)));
    blocks.extend(below(rows));
    blocks
}

/// Two loads a row, to be filled in.
fn loads(rows: usize, made: &Made) -> Grid {
    let tanker = if made.reader.tender { "Tender" } else { "Tanker" };
    let heads = ["Load", tanker, "Minute in"];
    Grid {
        columns: (0..2).flat_map(|_| heads).map(|head| (head.to_owned(), Side::Left)).collect(),
        rows: (1..=rows)
            .map(|row| {
                let mut cells = Vec::new();
                for number in [row, row + rows] {
                    cells.extend([number.to_string(), String::new(), String::new()]);
                }
                cells
            })
            .collect(),
        ruled: true,
        tall: 22.0,
        size: SIZE,
    }
}
