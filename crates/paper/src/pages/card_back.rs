//! The back of the run card: who is who, the channel, a sketch, the loads; and what did not fit on the front.

use answers::Answer;
use answers::question::card::CardFigures;

use super::CAUTION;
use super::card::{SIZE, Shown, all_drop_tanks, all_units, fill_at};
use crate::Made;
use crate::layout::block::{Block, Grid, Side};
use crate::layout::sheet::{Sheet, height};

/// Loads that can be noted.
const LOADS: usize = 12;
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
        blocks.push(Block::Heading("ALL TO ASK FOR".to_owned(), 17.0));
        blocks.extend(all_units(card, reader));
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
    let below = [
        Block::Gap(4.0),
        Block::Grid(loads(made)),
        Block::words(made.from(&answer.basis), SIZE),
        Block::words(CAUTION, SIZE),
    ];
    let taken = height(&blocks, sheet.column()) + height(&below, sheet.column());
    blocks.push(sketch((sheet.room() - taken).floor().max(LEAST_SKETCH)));
    blocks.extend(below);
    blocks
}

/// Two loads a row, to be filled in.
fn loads(made: &Made) -> Grid {
    let tanker = if made.reader.tender { "Tender" } else { "Tanker" };
    let heads = ["Load", tanker, "Minute in"];
    let half = LOADS.div_ceil(2);
    Grid {
        columns: (0..2).flat_map(|_| heads).map(|head| (head.to_owned(), Side::Left)).collect(),
        rows: (1..=half)
            .map(|row| {
                let mut cells = Vec::new();
                for number in [row, row + half] {
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
