//! A table of cells, wherever it came from.

/// What stands in a cell.
#[derive(Debug, Clone, PartialEq)]
pub enum Cell {
    /// Nothing.
    Empty,
    /// Text as written.
    Text(String),
    /// A number of a spreadsheet.
    Number(f64),
    /// A time or a date with a time of a spreadsheet, in seconds after midnight; of a span of time, seconds.
    Time(f64),
}

/// A row that is not blank.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Its number in the file, from 1: the line of a text, the row of a spreadsheet.
    pub number: usize,
    /// Its cells.
    pub cells: Vec<Cell>,
}

/// A table: all rows that are not blank.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Table {
    /// Its rows, in the order of the file.
    pub rows: Vec<Row>,
    /// Whether columns have letters, as in a spreadsheet.
    pub has_letters: bool,
    /// The sheet it was read from, where the file has several that are not blank.
    pub sheet: Option<String>,
}

impl Cell {
    /// Whether nothing was written: blank, or one of the signs for "nothing to note".
    pub fn is_blank(&self) -> bool {
        match self {
            Cell::Empty => true,
            Cell::Text(text) => {
                let text = text.trim().to_lowercase();
                matches!(text.as_str(), "" | "-" | "--" | "–" | "—" | "?" | "n/a" | "na" | "none")
            }
            Cell::Number(_) | Cell::Time(_) => false,
        }
    }

    /// What was written, for a message: not too long.
    pub fn shown(&self) -> String {
        /// Letters of a cell that a message shows.
        const LONGEST: usize = 40;
        match self {
            Cell::Empty => String::new(),
            Cell::Text(text) => {
                let mut short: String = text.trim().chars().take(LONGEST).collect();
                if text.trim().chars().count() > LONGEST {
                    short.push('…');
                }
                short
            }
            Cell::Number(number) => number.to_string(),
            Cell::Time(seconds) => {
                let whole = seconds.round() as u64;
                format!("{}:{:02}:{:02}", whole / 3_600, whole / 60 % 60, whole % 60)
            }
        }
    }
}

/// The letters of a spreadsheet's column: A, B, ..., Z, AA.
pub(crate) fn letters(column: usize) -> String {
    let mut text = String::new();
    let mut rest = column + 1;
    while rest > 0 {
        rest -= 1;
        text.insert(0, char::from(b'A' + (rest % 26) as u8));
        rest /= 26;
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_are_lettered_as_spreadsheets_do() {
        for (column, expected) in [(0, "A"), (25, "Z"), (26, "AA"), (701, "ZZ"), (702, "AAA")] {
            assert_eq!(letters(column), expected);
        }
    }
}
