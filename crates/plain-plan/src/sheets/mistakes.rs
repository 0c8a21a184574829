//! What is wrong with the sheets: file, row, column, value, cure.

use std::fmt;

/// Mistakes shown in full; the others are only counted.
const MOST_TOLD: usize = 50;

/// Where something stands in the sheets.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Spot {
    /// The file, by its name in the folder.
    pub file: String,
    /// Its row, from 1; 0: the whole file.
    pub row: usize,
    /// The heading of the column as it stands there; empty: the whole row.
    pub column: String,
    /// What stands in the cell; empty: nothing.
    pub value: String,
}

/// A mistake in the sheets.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SheetMistake {
    /// Where.
    pub at: Spot,
    /// What is wrong.
    pub problem: String,
    /// What is allowed, where that says more than the problem.
    pub limit: Option<String>,
    /// What would likely put it right.
    pub cure: String,
}

/// Every mistake in the sheets, file by file and row by row; at least one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SheetMistakes(pub Vec<SheetMistake>);

impl SheetMistake {
    pub(crate) fn new(
        at: Spot,
        problem: impl Into<String>,
        cure: impl Into<String>,
    ) -> SheetMistake {
        SheetMistake { at, problem: problem.into(), limit: None, cure: cure.into() }
    }
}

impl Spot {
    pub(crate) fn file(file: &str) -> Spot {
        Spot { file: file.to_owned(), row: 0, column: String::new(), value: String::new() }
    }
}

impl fmt::Display for Spot {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.file)?;
        if self.row > 0 {
            write!(f, ", row {}", self.row)?;
        }
        if !self.column.is_empty() {
            write!(f, ", column '{}'", self.column)?;
        }
        if !self.value.is_empty() {
            write!(f, ", '{}'", self.value)?;
        }
        Ok(())
    }
}

impl fmt::Display for SheetMistake {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.at, self.problem)?;
        if let Some(limit) = &self.limit {
            write!(f, "\n  limit: {limit}")?;
        }
        write!(f, "\n  cure: {}", self.cure)
    }
}

impl fmt::Display for SheetMistakes {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for mistake in self.0.iter().take(MOST_TOLD) {
            writeln!(f, "{mistake}")?;
        }
        match self.0.len() {
            1 => write!(f, "1 mistake; nothing is written"),
            many if many > MOST_TOLD => {
                write!(f, "{many} mistakes, the first {MOST_TOLD} are shown; nothing is written")
            }
            many => write!(f, "{many} mistakes; nothing is written"),
        }
    }
}

impl std::error::Error for SheetMistakes {}
