//! Tables of sentences.

use super::Sentence;

/// On which side the cells of a column stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Align {
    /// Words: at the left, and broken over lines where the table is too wide.
    Left,
    /// Numbers: at the right.
    Right,
}

/// A column.
#[derive(Debug, Clone, PartialEq)]
pub struct Column {
    /// What it holds, with its unit.
    pub head: Sentence,
    /// Where its cells stand.
    pub align: Align,
}

/// A table: every row has a cell for every column.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Table {
    /// The columns.
    pub columns: Vec<Column>,
    /// The rows.
    pub rows: Vec<Vec<Sentence>>,
    /// What stands under it.
    pub feet: Vec<Sentence>,
}

impl Table {
    /// A table with these columns and no rows.
    pub fn new(columns: Vec<(Sentence, Align)>) -> Table {
        let columns = columns.into_iter().map(|(head, align)| Column { head, align }).collect();
        Table { columns, rows: Vec::new(), feet: Vec::new() }
    }

    /// The same for a page; see [`Sentence::for_page`].
    pub fn for_page(&self) -> Table {
        let all = |of: &[Sentence]| of.iter().map(Sentence::for_page).collect();
        let head = |of: &Column| Column { head: of.head.for_page(), align: of.align };
        Table {
            columns: self.columns.iter().map(head).collect(),
            rows: self.rows.iter().map(|row| all(row)).collect(),
            feet: all(&self.feet),
        }
    }

    /// Adds a row.
    ///
    /// - Given: as many cells as there are columns.
    pub fn row(&mut self, cells: Vec<Sentence>) {
        debug_assert_eq!(cells.len(), self.columns.len(), "a row of another shape");
        self.rows.push(cells);
    }
}
