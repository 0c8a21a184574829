//! Spreadsheets: the first sheet with headings, else the first that is not blank.

use std::collections::BTreeMap;
use std::io::Cursor;

use calamine::{Data, DataRef, Ods, Reader, Xlsx};

use super::{MOST_COLUMNS, MOST_ROWS};
use crate::mistakes::LogError;
use crate::reading::headings::known_headings;
use crate::table::{Cell, Row, Table};

const SECONDS_A_DAY: f64 = 86_400.0;

/// The table of an .xlsx file.
///
/// - Errors: [`LogError::Unreadable`].
pub(super) fn xlsx(bytes: Vec<u8>) -> Result<Table, LogError> {
    let mut book: Xlsx<_> = Xlsx::new(Cursor::new(bytes)).map_err(broken)?;
    let mut sheets = Vec::new();
    for name in book.sheet_names() {
        // Cell by cell: a sheet with one cell in its last corner is no reason to hold all those before it.
        let mut cells = book.worksheet_cells_reader(&name).map_err(broken)?;
        let mut made = Sheet::default();
        while let Some(cell) = cells.next_cell().map_err(broken)? {
            let value = match cell.get_value() {
                DataRef::Int(number) => Cell::Number(*number as f64),
                DataRef::Float(number) => Cell::Number(*number),
                DataRef::String(text) => text_cell(text),
                DataRef::SharedString(text) => text_cell(text),
                DataRef::Bool(value) => text_cell(if *value { "yes" } else { "no" }),
                DataRef::DateTime(time) => time_cell(time.as_f64()),
                DataRef::DateTimeIso(text) | DataRef::DurationIso(text) => iso_cell(text),
                DataRef::Error(_) => text_cell("an error of the spreadsheet"),
                DataRef::Empty => Cell::Empty,
            };
            made.put(cell.get_position(), value)?;
        }
        sheets.push((name, made));
    }
    Ok(chosen(sheets))
}

/// The table of an .ods file.
///
/// - Errors: [`LogError::Unreadable`].
pub(super) fn ods(bytes: Vec<u8>) -> Result<Table, LogError> {
    let mut book: Ods<_> = Ods::new(Cursor::new(bytes)).map_err(broken)?;
    let mut sheets = Vec::new();
    for name in book.sheet_names() {
        let range = book.worksheet_range(&name).map_err(broken)?;
        let (row, column) = range.start().unwrap_or((0, 0));
        let mut made = Sheet::default();
        for (down, across, value) in range.used_cells() {
            let value = match value {
                Data::Int(number) => Cell::Number(*number as f64),
                Data::Float(number) => Cell::Number(*number),
                Data::String(text) => text_cell(text),
                Data::Bool(value) => text_cell(if *value { "yes" } else { "no" }),
                Data::DateTime(time) => time_cell(time.as_f64()),
                Data::DateTimeIso(text) | Data::DurationIso(text) => iso_cell(text),
                Data::Error(_) => text_cell("an error of the spreadsheet"),
                Data::Empty => Cell::Empty,
            };
            made.put((row + down as u32, column + across as u32), value)?;
        }
        sheets.push((name, made));
    }
    Ok(chosen(sheets))
}

fn broken(error: impl std::fmt::Display) -> LogError {
    LogError::unreadable(
        format!("it cannot be read as a spreadsheet: {error}"),
        "open it in your spreadsheet program and save it again, as .xlsx, .ods or .csv",
    )
}

/// The cells of a sheet that hold something.
#[derive(Default)]
struct Sheet(BTreeMap<u32, Vec<Cell>>);

impl Sheet {
    fn put(&mut self, (row, column): (u32, u32), value: Cell) -> Result<(), LogError> {
        let column = column as usize;
        if value == Cell::Empty || column >= MOST_COLUMNS {
            return Ok(());
        }
        let cells = self.0.entry(row).or_default();
        if cells.len() <= column {
            cells.resize(column + 1, Cell::Empty);
        }
        cells[column] = value;
        if self.0.len() > MOST_ROWS { Err(LogError::too_many_rows()) } else { Ok(()) }
    }

    fn rows(self) -> Vec<Row> {
        (self.0.into_iter()).map(|(row, cells)| Row { number: row as usize + 1, cells }).collect()
    }
}

fn chosen(sheets: Vec<(String, Sheet)>) -> Table {
    let mut filled: Vec<(String, Vec<Row>)> = (sheets.into_iter())
        .map(|(name, sheet)| (name, sheet.rows()))
        .filter(|(_, rows)| !rows.is_empty())
        .collect();
    let headings = |rows: &[Row]| rows.iter().take(20).map(known_headings).max().unwrap_or(0);
    let several = filled.len() > 1;
    let place = filled.iter().position(|(_, rows)| headings(rows) >= 2).unwrap_or(0);
    if filled.is_empty() {
        return Table { has_letters: true, ..Table::default() };
    }
    let (name, rows) = filled.swap_remove(place);
    Table { rows, has_letters: true, sheet: several.then_some(name) }
}

fn text_cell(text: &str) -> Cell {
    match text.trim() {
        "" => Cell::Empty,
        text => Cell::Text(text.to_owned()),
    }
}

/// Days as spreadsheets count them: the part after the point is the time of day. A span of time may be longer
/// than a day; a date that is not is told from it by being much longer.
fn time_cell(days: f64) -> Cell {
    /// Spans of time in a log are shorter, dates since 1900 longer.
    const MOST_DAYS: f64 = 100.0;
    if !days.is_finite() || days < 0.0 {
        return Cell::Number(days);
    }
    let days = if days < MOST_DAYS { days } else { days.fract() };
    // To a thousandth of a second: the number of days has no more.
    Cell::Time((days * SECONDS_A_DAY * 1_000.0).round() / 1_000.0)
}

/// ISO 8601: "PT13H05M30S", "2026-05-16T13:05:30".
fn iso_cell(text: &str) -> Cell {
    let span = text.strip_prefix("PT").and_then(|rest| {
        let mut seconds = 0.0;
        let mut digits = String::new();
        for letter in rest.chars() {
            let each = match letter {
                'H' => 3_600.0,
                'M' => 60.0,
                'S' => 1.0,
                other => {
                    digits.push(other);
                    continue;
                }
            };
            seconds += each * digits.parse::<f64>().ok()?;
            digits.clear();
        }
        digits.is_empty().then_some(seconds)
    });
    let seconds = span.or_else(|| {
        let (_, time) = text.split_once('T')?;
        let mut parts = time.trim_end_matches('Z').split(':').map(|part| part.parse::<f64>().ok());
        let (hours, minutes) = (parts.next()??, parts.next()??);
        Some(3_600.0 * hours + 60.0 * minutes + parts.next().flatten().unwrap_or(0.0))
    });
    match seconds {
        Some(seconds) if seconds.is_finite() && seconds >= 0.0 => Cell::Time(seconds),
        _ => text_cell(text),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_of_a_spreadsheet_are_seconds_after_midnight() {
        // 2026-05-16 is day 46158 of the calendar that begins with 1900.
        for days in [0.545_138_888_888_889, 46_158.545_138_888_89] {
            assert_eq!(time_cell(days), Cell::Time(47_100.0), "{days}");
        }
        for text in ["PT13H05M00S", "2026-05-16T13:05:00", "2026-05-16T13:05:00Z"] {
            assert_eq!(iso_cell(text), Cell::Time(47_100.0), "{text}");
        }
        assert_eq!(iso_cell("2026-05-16"), Cell::Text("2026-05-16".to_owned()));
        assert_eq!(iso_cell("PT1H2"), Cell::Text("PT1H2".to_owned()));
    }
}
