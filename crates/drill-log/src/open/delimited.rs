//! Text with separators: commas, semicolons, tabs or bars.

use super::{MOST_COLUMNS, MOST_ROWS};
use crate::mistakes::LogError;
use crate::reading::headings::known_headings;
use crate::table::{Cell, Row, Table};

/// The usual separators, the commonest first.
const SEPARATORS: [u8; 4] = [b',', b';', b'\t', b'|'];

/// The table in a text: with the separator that shows the most headings, else the most columns.
///
/// - Errors: [`LogError::Unreadable`].
pub(super) fn table(bytes: &[u8]) -> Result<Table, LogError> {
    let text = text_of(bytes)?;
    let mut best: Option<((usize, usize), Table)> = None;
    for separator in SEPARATORS {
        let made = split(&text, separator)?;
        let columns = made.rows.iter().map(|row| row.cells.len()).max().unwrap_or(0);
        let headings = made.rows.iter().take(20).map(known_headings).max().unwrap_or(0);
        if best.as_ref().is_none_or(|(most, _)| (headings, columns) > *most) {
            best = Some(((headings, columns), made));
        }
    }
    Ok(best.map(|(_, table)| table).unwrap_or_default())
}

fn split(text: &str, separator: u8) -> Result<Table, LogError> {
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(separator)
        .has_headers(false)
        .flexible(true)
        .from_reader(text.as_bytes());
    let mut rows = Vec::new();
    for record in reader.records() {
        // The text is sound UTF-8 and rows may have any length: nothing is left that could be wrong.
        let Ok(record) = record else { continue };
        let number = record.position().map_or(1, |position| line_of(text, position));
        let cells: Vec<Cell> = (record.iter().take(MOST_COLUMNS))
            .map(|text| match text.trim() {
                "" => Cell::Empty,
                text => Cell::Text(text.to_owned()),
            })
            .collect();
        if cells.iter().all(|cell| *cell == Cell::Empty) {
            continue;
        }
        if rows.len() == MOST_ROWS {
            return Err(LogError::too_many_rows());
        }
        rows.push(Row { number, cells });
    }
    Ok(Table { rows, has_letters: false, sheet: None })
}

/// The line of a record: blank lines before it are passed over, and counted.
fn line_of(text: &str, position: &csv::Position) -> usize {
    let rest = text.as_bytes().get(position.byte() as usize..).unwrap_or_default();
    let blank = rest.iter().take_while(|byte| matches!(byte, b'\r' | b'\n'));
    position.line() as usize + blank.filter(|byte| **byte == b'\n').count()
}

/// The text of the bytes: UTF-8, or UTF-16 with its mark (as spreadsheet programs save "Unicode text"), else the
/// Western alphabet of older programs.
fn text_of(bytes: &[u8]) -> Result<String, LogError> {
    let wide = |from: fn([u8; 2]) -> u16| {
        let units = bytes[2..].chunks_exact(2).map(|pair| from([pair[0], pair[1]]));
        char::decode_utf16(units).collect::<Result<String, _>>().map_err(|_| {
            LogError::unreadable(
                "it is no text",
                "save it as CSV (UTF-8) in your spreadsheet program",
            )
        })
    };
    let text = match bytes {
        [0xff, 0xfe, ..] => wide(u16::from_le_bytes)?,
        [0xfe, 0xff, ..] => wide(u16::from_be_bytes)?,
        _ => match std::str::from_utf8(bytes) {
            Ok(text) => text.strip_prefix('\u{feff}').unwrap_or(text).to_owned(),
            // ISO 8859-1: each byte is the character of that number.
            Err(_) => bytes.iter().map(|byte| char::from(*byte)).collect(),
        },
    };
    if text.contains('\0') {
        return Err(LogError::unreadable(
            "it is no text",
            "save it as CSV (UTF-8) in your spreadsheet program",
        ));
    }
    Ok(text)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn any_usual_separator_and_any_usual_alphabet() {
        let lines = ["tanker,trip,full", "Tanker 3,1,13:05", "", "Tanker 5,1,13:07"];
        let expected = table(lines.join("\n").as_bytes()).expect("a table");
        assert_eq!(expected.rows.len(), 3);
        assert_eq!(expected.rows[2].number, 4, "a blank line counts as a line");
        for separator in [";", "\t", "|"] {
            let text = lines.join("\r\n").replace(',', separator);
            assert_eq!(table(text.as_bytes()).expect("a table"), expected, "{separator:?}");
            let marked = format!("\u{feff}{text}");
            assert_eq!(table(marked.as_bytes()).expect("a table"), expected);
            let wide: Vec<u8> = marked.encode_utf16().flat_map(u16::to_le_bytes).collect();
            assert_eq!(table(&wide).expect("a table"), expected);
        }
        let western = table(b"tanker,full\nCit\xe9 1,13:05\n").expect("a table");
        assert_eq!(western.rows[1].cells[0], Cell::Text("Cité 1".to_owned()));
    }
}
