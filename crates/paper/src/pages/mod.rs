//! What stands on each page.

mod caution;

mod told;

mod pictures;

mod card;

mod handout;

mod report;

#[cfg(test)]
mod tests;

pub use card::card;

pub use handout::{form, handout};

pub use report::report;

use answers::Reader;
use answers::say::Sentence;

/// What every page with figures ends with.
pub(crate) use answers::text::CAUTION;

/// The sentence for a reader of paper, who has neither the file nor the command line before him.
fn put(reader: &Reader, sentence: &Sentence) -> String {
    reader.put(&sentence.for_page())
}

/// The sentence with a capital where it begins with a word of ours.
fn begun(reader: &Reader, sentence: &Sentence) -> String {
    let text = put(reader, sentence);
    if sentence.begins_with_name() {
        return text;
    }
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
