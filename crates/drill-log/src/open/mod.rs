//! From a file to a table of cells.

mod delimited;

mod spreadsheet;

use std::fs::File;
use std::io::Read;
use std::path::Path;

use crate::mistakes::LogError;
use crate::table::Table;

/// The largest file that is read, bytes. Judgement: a day's drill is a few thousand.
const MOST_BYTES: u64 = 8 * 1024 * 1024;
/// Most rows and columns that are read. Judgement: a clipboard holds a few hundred rows.
pub(crate) const MOST_ROWS: usize = 20_000;
pub(crate) const MOST_COLUMNS: usize = 200;

/// Opens a log: text with any usual separator, or a spreadsheet by the ending of its name (.xlsx, .ods).
///
/// - Errors: [`LogError::Unreadable`].
pub fn open(path: &Path) -> Result<Table, LogError> {
    let bytes = bytes_of(path)?;
    let ending = path.extension().and_then(|ending| ending.to_str()).unwrap_or("").to_lowercase();
    match ending.as_str() {
        "xlsx" | "xlsm" => spreadsheet::xlsx(bytes),
        "ods" => spreadsheet::ods(bytes),
        "xls" | "numbers" => Err(LogError::unreadable(
            format!("it is a spreadsheet of another kind (.{ending})"),
            "save it as .xlsx, .ods or .csv in your spreadsheet program",
        )),
        // Whatever it is called: all spreadsheets of today are packed folders.
        _ if bytes.starts_with(b"PK\x03\x04") => {
            spreadsheet::xlsx(bytes.clone()).or_else(|_| spreadsheet::ods(bytes))
        }
        _ => delimited::table(&bytes),
    }
}

/// The same for a text that is there already.
///
/// - Errors: [`LogError::Unreadable`].
pub fn open_text(bytes: &[u8]) -> Result<Table, LogError> {
    delimited::table(bytes)
}

fn bytes_of(path: &Path) -> Result<Vec<u8>, LogError> {
    if path.is_dir() {
        return Err(LogError::unreadable("it is a folder", "give the name of a log in it"));
    }
    let mut bytes = Vec::new();
    let read = File::open(path).and_then(|file| file.take(MOST_BYTES + 1).read_to_end(&mut bytes));
    if let Err(error) = read {
        return Err(match error.kind() {
            std::io::ErrorKind::NotFound => {
                LogError::unreadable("there is no such file", "check the name and the folder")
            }
            _ => {
                LogError::unreadable(error.to_string(), "check that it is a file of yours to read")
            }
        });
    }
    if bytes.len() as u64 > MOST_BYTES {
        return Err(LogError::unreadable(
            "it is larger than 8 MB, too large for a log",
            "check that it is the log, and take out what does not belong in it",
        ));
    }
    Ok(bytes)
}
