//! From the cells of a file to rows whose cells are found by column; every mistake is kept, and a stand-in taken.

use std::path::Path;

use drill_log::{Cell, LogError, Row, Table};

use super::columns::Column;
use super::mistakes::{SheetMistake, Spot};
use crate::amount::{Amount, unquoted};
use crate::first_plan::alike;

/// The endings of files that are read, the commonest first.
const ENDINGS: [&str; 5] = ["csv", "xlsx", "ods", "tsv", "txt"];

/// The sheet that may be missing.
const OPTIONAL: &str = "options";

/// A sheet whose headings are known.
#[derive(Default, Clone)]
pub(crate) struct Sheet {
    /// Its name in the folder.
    pub(crate) file: String,
    /// Which column stands where, with its heading there.
    columns: Vec<(Column, usize, String)>,
    /// The rows below the headings.
    pub(crate) rows: Vec<Row>,
}

impl Sheet {
    /// The sheet of this name in a folder; without rows where it cannot be read.
    pub(crate) fn open(
        folder: &Path,
        name: &str,
        columns: &[Column],
        wrong: &mut Vec<SheetMistake>,
    ) -> Sheet {
        let files: Vec<String> = (ENDINGS.iter())
            .map(|ending| format!("{name}.{ending}"))
            .filter(|file| folder.join(file).is_file())
            .collect();
        let file = match files.as_slice() {
            // Without that one there is nothing to buy.
            [] if name == OPTIONAL => return Sheet::default(),
            [] => {
                let file = format!("{name}.csv");
                wrong.push(SheetMistake::new(
                    Spot::file(&file),
                    "there is no such file in the folder",
                    "`bucketline new --csv FOLDER` writes all three with an example to write over",
                ));
                return Sheet { file, ..Sheet::default() };
            }
            [one] => one.clone(),
            [one, other, ..] => {
                wrong.push(SheetMistake::new(
                    Spot::file(one),
                    format!("{other} is there as well"),
                    "keep the one that counts, and take the other out of the folder",
                ));
                one.clone()
            }
        };
        let table = match drill_log::open(&folder.join(&file)) {
            Ok(table) => table,
            Err(error) => {
                let (problem, cure) = match error {
                    LogError::Unreadable { problem, cure } => (problem, cure),
                    other => (other.to_string(), "save it again".to_owned()),
                };
                wrong.push(SheetMistake::new(Spot::file(&file), problem, cure));
                return Sheet { file, ..Sheet::default() };
            }
        };
        Sheet::with_headings(file, table, columns, wrong)
    }

    fn with_headings(
        file: String,
        table: Table,
        columns: &[Column],
        wrong: &mut Vec<SheetMistake>,
    ) -> Sheet {
        let mut rows = table.rows.into_iter();
        let mut sheet = Sheet { file, ..Sheet::default() };
        let Some(headings) = rows.next() else {
            wrong.push(SheetMistake::new(
                Spot::file(&sheet.file),
                "it is empty",
                "`bucketline new --csv FOLDER` writes it with its headings",
            ));
            return sheet;
        };
        for (place, cell) in headings.cells.iter().enumerate() {
            let Some(text) = text_of(cell) else { continue };
            let spot = Spot {
                file: sheet.file.clone(),
                row: headings.number,
                column: text.clone(),
                value: String::new(),
            };
            match column_of(&text, columns) {
                None => {
                    let there: Vec<&str> = columns.iter().map(|one| one.heading()).collect();
                    let near = nearest(&text, &there);
                    wrong.push(SheetMistake::new(
                        spot,
                        "there is no such column",
                        match near {
                            Some(near) => format!("did you mean '{near}'?"),
                            None => format!("the columns are: {}", there.join(", ")),
                        },
                    ));
                }
                Some(column) => match sheet.columns.iter().find(|(one, ..)| *one == column) {
                    Some((_, _, first)) => wrong.push(SheetMistake::new(
                        spot,
                        format!("it is read as '{first}', which is there already"),
                        "take one of them out",
                    )),
                    None => sheet.columns.push((column, place, text)),
                },
            }
        }
        for column in columns.iter().filter(|column| column.is_needed() && !sheet.has(**column)) {
            wrong.push(SheetMistake::new(
                Spot { row: headings.number, ..Spot::file(&sheet.file) },
                format!("there is no column '{}'", column.heading()),
                format!("add it: '{}' above, below such as {}", column.heading(), column.example()),
            ));
        }
        let width = headings.cells.len();
        for row in rows {
            // A number with a comma that is not in quotes falls into two cells.
            if row.cells.len() > width {
                wrong.push(SheetMistake::new(
                    Spot { row: row.number, ..Spot::file(&sheet.file) },
                    format!("it has {} cells, and there are {width} headings", row.cells.len()),
                    "write a number with a comma in quotes (\"3,000\") or without the comma (3000)",
                ));
            } else {
                sheet.rows.push(row);
            }
        }
        sheet
    }

    /// The row that is of this name: a unit, a source.
    pub(crate) fn row_named(&self, named: Column, name: &str) -> Option<usize> {
        self.rows.iter().position(|row| self.text(row, named).is_some_and(|one| alike(&one, name)))
    }

    /// The sheet with another value in one cell; a column that it may have and has not is added.
    pub(crate) fn with_cell(&self, row: usize, column: Column, value: Cell) -> Sheet {
        let mut changed = self.clone();
        let known =
            self.columns.iter().find(|(one, ..)| *one == column).map(|(_, place, _)| *place);
        let place = known.unwrap_or_else(|| {
            let widest = self.rows.iter().map(|row| row.cells.len()).max().unwrap_or(0);
            let headed = self.columns.iter().map(|(_, place, _)| place + 1).max().unwrap_or(0);
            let place = widest.max(headed);
            changed.columns.push((column, place, column.heading().to_owned()));
            place
        });
        let cells = &mut changed.rows[row].cells;
        if cells.len() <= place {
            cells.resize(place + 1, Cell::Empty);
        }
        cells[place] = value;
        changed
    }

    /// The sheet with a row once more, under another name.
    pub(crate) fn with_another(&self, row: usize, named: Column, name: Cell) -> Sheet {
        let mut changed = self.clone();
        changed.rows.push(self.rows[row].clone());
        changed.with_cell(self.rows.len(), named, name)
    }

    fn has(&self, column: Column) -> bool {
        self.columns.iter().any(|(one, ..)| *one == column)
    }

    /// Where a cell stands.
    pub(crate) fn spot(&self, row: &Row, column: Column) -> Spot {
        let found = self.columns.iter().find(|(one, ..)| *one == column);
        Spot {
            file: self.file.clone(),
            row: row.number,
            column: found.map_or(column.heading(), |(.., heading)| heading).to_owned(),
            value: self.cell(row, column).map(Cell::shown).unwrap_or_default(),
        }
    }

    pub(crate) fn cell<'a>(&self, row: &'a Row, column: Column) -> Option<&'a Cell> {
        let (_, place, _) = self.columns.iter().find(|(one, ..)| *one == column)?;
        row.cells.get(*place).filter(|cell| !cell.is_blank())
    }

    /// The words of a cell, as they are written.
    pub(crate) fn text(&self, row: &Row, column: Column) -> Option<String> {
        self.cell(row, column).and_then(text_of)
    }

    /// The words of a cell that must not be blank.
    pub(crate) fn needed_text(
        &self,
        row: &Row,
        column: Column,
        wrong: &mut Vec<SheetMistake>,
    ) -> Option<String> {
        let found = self.text(row, column);
        if found.is_none() && self.has(column) {
            wrong.push(self.blank(row, column));
        }
        found
    }

    /// The number in a cell; `None`: blank, or no number.
    pub(crate) fn amount(
        &self,
        row: &Row,
        column: Column,
        wrong: &mut Vec<SheetMistake>,
    ) -> Option<Amount> {
        let is_often = matches!(column, Column::Turnout | Column::PumpTurnout);
        let read = match self.cell(row, column)? {
            Cell::Number(number) if is_often => Amount::often(*number),
            Cell::Number(number) => Ok(Amount::plain(*number)),
            Cell::Time(_) => Err(crate::NoAmount::Clock),
            Cell::Text(text) if is_often => Amount::how_often(text),
            Cell::Text(text) => Amount::typed(text),
            Cell::Empty => return None,
        };
        read.map_err(|why| {
            let (problem, cure) = why.told();
            wrong.push(SheetMistake::new(self.spot(row, column), problem, cure));
        })
        .ok()
    }

    /// The number in a cell that must not be blank.
    pub(crate) fn needed_amount(
        &self,
        row: &Row,
        column: Column,
        wrong: &mut Vec<SheetMistake>,
    ) -> Option<Amount> {
        if self.cell(row, column).is_none() && self.has(column) {
            wrong.push(self.blank(row, column));
        }
        self.amount(row, column, wrong)
    }

    fn blank(&self, row: &Row, column: Column) -> SheetMistake {
        SheetMistake::new(
            self.spot(row, column),
            "the cell is blank",
            format!("write it, such as {}", column.example()),
        )
    }
}

fn text_of(cell: &Cell) -> Option<String> {
    match cell {
        Cell::Empty => None,
        Cell::Text(text) => Some(text.trim().to_owned()).filter(|text| !text.is_empty()),
        Cell::Number(_) | Cell::Time(_) => Some(cell.shown()),
    }
}

/// Letters, digits and single spaces, in small letters, what stands in parentheses left out.
fn plain_heading(text: &str) -> String {
    let before = unquoted(text);
    let before = before.split('(').next().unwrap_or_default();
    let letters: String =
        before.chars().map(|c| if c.is_alphanumeric() { c } else { ' ' }).collect();
    letters.to_lowercase().split_whitespace().collect::<Vec<_>>().join(" ")
}

pub(crate) fn column_of(text: &str, columns: &[Column]) -> Option<Column> {
    let plain = plain_heading(text);
    columns.iter().copied().find(|column| column.headings().contains(&plain.as_str()))
}

/// The word that is nearest, if it is near.
pub(crate) fn nearest<'a>(text: &str, known: &[&'a str]) -> Option<&'a str> {
    /// Judgement: two letters wrong in six are a slip, in three another word.
    const LEAST: f64 = 0.6;
    let plain = plain_heading(text);
    (known.iter())
        .map(|one| (*one, strsim::normalized_damerau_levenshtein(&plain, one)))
        .filter(|(_, like)| *like >= LEAST)
        .max_by(|a, b| a.1.total_cmp(&b.1))
        .map(|(one, _)| one)
}
