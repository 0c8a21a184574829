//! Blocks of an answer as blocks of a page.

use answers::say::{Align, Table};
use answers::text::label_word;
use answers::{Block as Said, Reader};

use crate::layout::block::{Block, Grid, Side};
use crate::pages::put;

/// Paragraphs and tables as an answer has them, in letters of this size; what stands under a table follows it.
pub fn blocks(of: &[Said], reader: &Reader, size: f64) -> Vec<Block> {
    let mut blocks = Vec::new();
    for block in of {
        match block {
            Said::Point(_, sentence) | Said::Paragraph(sentence) if sentence.is_empty() => {}
            Said::Point(label, sentence) => {
                blocks.push(Block::labelled(label_word(*label), put(reader, sentence), size));
            }
            Said::Paragraph(sentence) => blocks.push(Block::words(put(reader, sentence), size)),
            Said::Table(of) => {
                blocks.push(Block::Grid(table(of, reader, size)));
                blocks.extend(of.feet.iter().map(|foot| Block::foot(put(reader, foot), size)));
            }
            Said::Gap => blocks.push(Block::Gap(0.5 * size)),
        }
    }
    blocks
}

/// A table as an answer has it.
pub fn table(of: &Table, reader: &Reader, size: f64) -> Grid {
    let side = |align| match align {
        Align::Left => Side::Left,
        Align::Right => Side::Right,
    };
    Grid {
        columns: (of.columns.iter())
            .map(|column| (put(reader, &column.head), side(column.align)))
            .collect(),
        rows: (of.rows.iter())
            .map(|row| row.iter().map(|cell| put(reader, cell)).collect())
            .collect(),
        ruled: false,
        tall: 0.0,
        size,
    }
}
