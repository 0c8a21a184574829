//! Positions in a text: the line and column of a byte, and the line itself.

use std::ops::Range;

/// A stretch of the text, in bytes.
pub(crate) type Span = Range<usize>;

/// The lines of a text, with positions found quickly even in one very long line.
pub(crate) struct Lines<'t> {
    text: &'t str,
    /// Where each line begins.
    starts: Vec<usize>,
    /// Characters before every [`STRIDE`]th byte.
    characters: Vec<usize>,
}

const STRIDE: usize = 4_096;

impl<'t> Lines<'t> {
    pub(crate) fn of(text: &'t str) -> Lines<'t> {
        let mut starts = vec![0];
        let mut characters = Vec::with_capacity(text.len() / STRIDE + 1);
        let mut seen = 0;
        for (index, byte) in text.bytes().enumerate() {
            if index.is_multiple_of(STRIDE) {
                characters.push(seen);
            }
            // Every byte but a continuation byte begins a character.
            seen += usize::from(byte & 0xC0 != 0x80);
            if byte == b'\n' {
                starts.push(index + 1);
            }
        }
        characters.push(seen);
        Lines { text, starts, characters }
    }

    /// A stretch of the text.
    pub(crate) fn text_of(&self, span: &Span) -> &'t str {
        self.text.get(span.clone()).unwrap_or_default()
    }

    /// Line and column of a byte, each from 1; columns count characters.
    pub(crate) fn line_and_column(&self, byte: usize) -> (usize, usize) {
        let byte = byte.min(self.text.len());
        let line = self.starts.partition_point(|start| *start <= byte);
        let start = self.starts[line - 1];
        let column = self.characters_before(byte) - self.characters_before(start) + 1;
        (line, column)
    }

    fn characters_before(&self, byte: usize) -> usize {
        let stride = byte / STRIDE;
        let rest = &self.text.as_bytes()[stride * STRIDE..byte];
        let begun = rest.iter().filter(|byte| **byte & 0xC0 != 0x80).count();
        self.characters.get(stride).copied().unwrap_or_default() + begun
    }

    /// The line that holds this byte, without its end, and where it begins.
    pub(crate) fn line_at(&self, byte: usize) -> (&'t str, usize) {
        let (line, _) = self.line_and_column(byte);
        let start = self.starts[line - 1];
        let end = (self.starts.get(line)).map_or(self.text.len(), |next| next - 1);
        (self.text[start..end].trim_end_matches('\r'), start)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_count_characters_and_lines_begin_after_line_ends() {
        let text = "a\r\nzwölf €: x\n\nend";
        let lines = Lines::of(text);
        for (wanted, place) in [("a", (1, 1)), ("x", (2, 10)), ("end", (4, 1))] {
            let byte = text.find(wanted).unwrap();
            assert_eq!(lines.line_and_column(byte), place, "{wanted}");
        }
        assert_eq!(lines.line_and_column(text.len()), (4, 4));
        assert_eq!(lines.line_at(text.find('x').unwrap()).0, "zwölf €: x");
        assert_eq!(lines.line_at(0), ("a", 0));
    }

    #[test]
    fn positions_in_one_long_line_are_right_on_both_sides_of_every_stride() {
        let text = "é1".repeat(10_000);
        let lines = Lines::of(&text);
        for (column, (byte, _)) in text.char_indices().enumerate() {
            assert_eq!(lines.line_and_column(byte), (1, column + 1));
        }
    }

    #[test]
    fn an_empty_text_has_one_line() {
        assert_eq!(Lines::of("").line_and_column(0), (1, 1));
        assert_eq!(Lines::of("").line_at(0), ("", 0));
    }
}
