//! The text of an answer: paragraphs of one width, and the reader's word for a tanker.

/// Width of an answer, in characters.
pub const WIDTH: usize = 100;
/// Width of the labels at the left of an answer.
const LABEL: usize = 13;

/// The text with its first letter capitalized.
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// A paragraph with its label at the left, wrapped to [`WIDTH`], with a line end.
pub fn paragraph(label: &str, text: &str) -> String {
    let first = format!("{label:<LABEL$}");
    let other = " ".repeat(LABEL);
    let options = textwrap::Options::new(WIDTH)
        .initial_indent(&first)
        .subsequent_indent(&other)
        .break_words(false)
        .word_splitter(textwrap::WordSplitter::NoHyphenation);
    let mut out = textwrap::fill(text, options);
    out.push('\n');
    out
}

/// Plain text wrapped to [`WIDTH`], with a line end.
pub fn wrapped(text: &str) -> String {
    let options = textwrap::Options::new(WIDTH)
        .break_words(false)
        .word_splitter(textwrap::WordSplitter::NoHyphenation);
    let mut out = textwrap::fill(text, options);
    out.push('\n');
    out
}

/// The reader's word for a truck that carries water; names are left as the scenario has them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Words {
    /// "tanker" or "tender".
    pub tanker: &'static str,
}

impl Words {
    /// "tanker", or "tender" if the reader asked for it.
    pub fn new(tender: bool) -> Words {
        Words { tanker: if tender { "tender" } else { "tanker" } }
    }

    /// "one tanker", "three tankers", "12 tankers".
    pub fn count(self, number: usize) -> String {
        let plural = if number == 1 { "" } else { "s" };
        format!("{} {}{plural}", self.number(number), self.tanker)
    }

    /// "one", "three", "12".
    pub fn number(self, number: usize) -> String {
        const SPOKEN: [&str; 10] =
            ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"];
        SPOKEN.get(number).map_or_else(|| number.to_string(), |word| (*word).to_owned())
    }

    /// Our wording, which says "tanker", with the reader's word.
    pub fn put(self, ours: &str) -> String {
        ours.replace("tanker", self.tanker)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_paragraph_hangs_under_its_label() {
        let text = paragraph("Why", &"word ".repeat(40));
        assert!(text.lines().all(|line| line.len() <= WIDTH));
        assert!(text.lines().nth(1).is_some_and(|line| line.starts_with("             word")));
    }
}
