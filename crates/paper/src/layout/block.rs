//! What a page is made of.

use std::ops::Range;

/// On which side of its column a cell stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// Words.
    Left,
    /// Numbers.
    Right,
}

/// A table: every row has a cell for every column.
#[derive(Debug, Clone, PartialEq)]
pub struct Grid {
    /// Heads of the columns and where their cells stand.
    pub columns: Vec<(String, Side)>,
    /// The rows; an empty cell is a place to write in where the grid is ruled.
    pub rows: Vec<Vec<String>>,
    /// Whether every cell is framed.
    pub ruled: bool,
    /// The least height of a row, pt.
    pub tall: f64,
    /// Size of letters, pt.
    pub size: f64,
}

/// A part of a page. Sizes are in points.
#[derive(Debug, Clone, PartialEq)]
pub enum Block {
    /// The page's title.
    Title(String, f64),
    /// A heading, with a line above it.
    Heading(String, f64),
    /// A paragraph; heavy where it must be seen first.
    Words {
        /// What it says.
        text: String,
        /// Size of its letters.
        size: f64,
        /// Whether it is set heavier.
        heavy: bool,
    },
    /// What is said under a table: it stays on its page.
    Foot(String, f64),
    /// A paragraph with a heavier label before it.
    Labelled {
        /// The label.
        label: String,
        /// What it says.
        text: String,
        /// Size of its letters.
        size: f64,
    },
    /// Boxes to tick, one after another, with what stands beside each; a heavier label before them.
    Boxes {
        /// The label.
        label: String,
        /// What stands beside each box.
        items: Vec<String>,
        /// Size of letters.
        size: f64,
    },
    /// Labels, each with a line to write on, so many beside each other.
    Blanks {
        /// The labels.
        labels: Vec<String>,
        /// How many stand in a row.
        in_a_row: usize,
        /// Size of letters.
        size: f64,
    },
    /// So many lines to write on.
    Lines(usize),
    /// A table.
    Grid(Grid),
    /// A drawing, as wide as the column or so wide.
    Picture {
        /// Its SVG text.
        svg: String,
        /// What it shows, for readers who cannot see it.
        says: String,
        /// Its share of the width, 0 to 1.
        share: f64,
    },
    /// An empty frame to draw in, with its label.
    Frame {
        /// What to draw.
        label: String,
        /// How high it is.
        tall: f64,
    },
    /// A line to cut along.
    Cut,
    /// Nothing, so high.
    Gap(f64),
    /// A new page begins.
    NewPage,
}

impl Block {
    /// A paragraph.
    pub fn words(text: impl Into<String>, size: f64) -> Block {
        Block::Words { text: text.into(), size, heavy: false }
    }

    /// What is said under a table.
    pub fn foot(text: impl Into<String>, size: f64) -> Block {
        Block::Foot(text.into(), size)
    }

    /// A paragraph to be seen first.
    pub fn heavy(text: impl Into<String>, size: f64) -> Block {
        Block::Words { text: text.into(), size, heavy: true }
    }

    /// A paragraph with a label.
    pub fn labelled(label: impl Into<String>, text: impl Into<String>, size: f64) -> Block {
        Block::Labelled { label: label.into(), text: text.into(), size }
    }

    /// A table or a list in two, the first as long as it may be; `None` where not even a row may stand alone, and for
    /// what has no rows.
    pub(super) fn divided(&self, fits: impl Fn(&Block) -> bool) -> Option<(Block, Block)> {
        let part = |rows: Range<usize>| match self {
            Block::Grid(grid) => {
                Some(Block::Grid(Grid { rows: grid.rows.get(rows)?.to_vec(), ..grid.clone() }))
            }
            Block::Boxes { label, items, size } => Some(Block::Boxes {
                label: label.clone(),
                items: items.get(rows)?.to_vec(),
                size: *size,
            }),
            _ => None,
        };
        let rows = match self {
            Block::Grid(grid) => grid.rows.len(),
            Block::Boxes { items, .. } => items.len(),
            _ => 0,
        };
        // A row of a table that is not ruled and has no first cell goes on with the one above it.
        let begins = |row: usize| match self {
            Block::Grid(grid) if !grid.ruled => {
                grid.rows[row].first().is_none_or(|one| !one.is_empty())
            }
            _ => true,
        };
        let mut parts = (1..rows).rev().filter(|most| begins(*most));
        let most = parts.find(|most| part(0..*most).is_some_and(|one| fits(&one)))?;
        Some((part(0..most)?, part(most..rows)?))
    }
}
