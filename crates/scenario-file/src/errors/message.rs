//! What a file's reader tells a person, as parts: our own words, keys of the file, names, quantities. It becomes
//! words once it is known who reads it: somebody with the file before him, or with a page that shows no file.

use std::borrow::Cow;
use std::fmt;

use fireground::told::Unit;

use super::shown::harmless;

/// A part of a message.
#[derive(Debug, Clone, PartialEq)]
pub enum Part {
    /// Our own words. A key of the file stands between backticks in them; `{tanker}`, `{tankers}` and the same with
    /// a capital are the reader's word for a truck that carries water, `{true}` and `{false}` what a switch says.
    Words(&'static str),
    /// A key of the file, where it is not in our own words already.
    Key(Cow<'static, str>),
    /// A name, a text of the file or a number as it was typed: letter by letter.
    Typed(String),
    /// A figure, with how it is told in the units of the file.
    Figure {
        /// What it is.
        figure: Figure,
        /// As it is told.
        told: String,
    },
    /// Said only to whoever has the file and the command line before him.
    OnFile(Message),
    /// Said only to whoever has a page before him.
    OnPage(Message),
    /// A message within.
    Within(Message),
}

/// A figure of a message, whatever the units it is told in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Figure {
    /// A quantity in this unit.
    Of(f64, Unit),
    /// A share or chance, between 0 and 1.
    Share(f64),
    /// A number without a unit.
    Plain(f64),
}

/// What a person is told.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Message(pub Vec<Part>);

/// Who reads a message.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Before {
    /// Somebody who has the file, an editor and a command line before him: keys are said as keys.
    File,
    /// Somebody who has the planner page before him, and neither file nor command line.
    Page {
        /// Whether a truck that carries water is a tender to him, not a tanker.
        tender: bool,
    },
}

impl Message {
    /// The message in words.
    pub fn to(&self, before: Before) -> String {
        let mut told = String::new();
        self.put(before, &mut told);
        told
    }

    /// In the words of the file: with its keys.
    pub fn in_file(&self) -> String {
        self.to(Before::File)
    }

    /// Whether it says nothing.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// Its figures, in the order in which whoever has the file before him is told them.
    pub fn figures(&self) -> Vec<Figure> {
        let mut figures = Vec::new();
        for part in &self.0 {
            match part {
                Part::Figure { figure, .. } => figures.push(*figure),
                Part::Within(message) | Part::OnFile(message) => figures.extend(message.figures()),
                Part::Words(_) | Part::Key(_) | Part::Typed(_) | Part::OnPage(_) => {}
            }
        }
        figures
    }

    fn put(&self, before: Before, told: &mut String) {
        for part in &self.0 {
            match part {
                Part::Words(words) => put_words(words, before, told),
                Part::Key(key) => put_key(key, before, told),
                // What a file holds could steer a terminal.
                Part::Typed(text) => told.push_str(&harmless(text)),
                Part::Figure { told: figure, .. } => told.push_str(figure),
                Part::Within(message) => message.put(before, told),
                Part::OnFile(message) if before == Before::File => message.put(before, told),
                Part::OnPage(message) if before != Before::File => message.put(before, told),
                Part::OnFile(_) | Part::OnPage(_) => {}
            }
        }
    }
}

/// In the words of the file.
impl fmt::Display for Message {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.in_file())
    }
}

fn put_words(words: &'static str, before: Before, told: &mut String) {
    let mut rest = words;
    while let Some(at) = rest.find(['`', '{']) {
        let (plain, marked) = rest.split_at(at);
        told.push_str(plain);
        rest = match (marked.strip_prefix('`').and_then(|key| key.split_once('`')), mark(marked)) {
            (Some((key, behind)), _) => {
                put_key(key, before, told);
                behind
            }
            (None, Some((mark, behind))) => {
                told.push_str(match before {
                    Before::File => mark.file,
                    Before::Page { tender: false } => mark.page,
                    Before::Page { tender: true } => mark.tender,
                });
                behind
            }
            (None, None) => {
                told.push_str(&marked[..1]);
                &marked[1..]
            }
        };
    }
    told.push_str(rest);
}

/// A word that depends on who reads it.
struct Mark {
    mark: &'static str,
    file: &'static str,
    page: &'static str,
    tender: &'static str,
}

static MARKS: [Mark; 6] = [
    Mark { mark: "{tanker}", file: "tanker", page: "tanker", tender: "tender" },
    Mark { mark: "{tankers}", file: "tankers", page: "tankers", tender: "tenders" },
    Mark { mark: "{Tanker}", file: "Tanker", page: "Tanker", tender: "Tender" },
    Mark { mark: "{Tankers}", file: "Tankers", page: "Tankers", tender: "Tenders" },
    Mark { mark: "{true}", file: "true", page: "yes", tender: "yes" },
    Mark { mark: "{false}", file: "false", page: "no", tender: "no" },
];

/// The mark that a text begins with, and what comes behind it.
fn mark(text: &str) -> Option<(&'static Mark, &str)> {
    MARKS.iter().find_map(|mark| Some((mark, text.strip_prefix(mark.mark)?)))
}

fn put_key(key: &str, before: Before, told: &mut String) {
    let key = harmless(key);
    match before {
        Before::File => {
            told.push('`');
            told.push_str(&key);
            told.push('`');
        }
        Before::Page { .. } => told.push_str(&key.replace(['_', '.'], " ")),
    }
}

impl From<&'static str> for Part {
    fn from(words: &'static str) -> Part {
        Part::Words(words)
    }
}

impl From<Message> for Part {
    fn from(message: Message) -> Part {
        Part::Within(message)
    }
}

impl From<&'static str> for Message {
    fn from(words: &'static str) -> Message {
        Message(vec![Part::Words(words)])
    }
}

impl From<Part> for Message {
    fn from(part: Part) -> Message {
        Message(vec![part])
    }
}

/// A message of parts: `says!["a second unit is called ", quoted(name)]`.
macro_rules! says {
    ($($part:expr),* $(,)?) => {
        $crate::errors::message::Message(vec![$($crate::errors::message::Part::from($part)),*])
    };
}

pub(crate) use says;

/// A key of the file.
pub(crate) fn key(key: &str) -> Part {
    Part::Key(Cow::Owned(key.to_owned()))
}

/// A text as it stands, with nothing in it of ours.
pub(crate) fn typed(text: impl Into<String>) -> Part {
    Part::Typed(text.into())
}

/// A name or text of the file in quotes, not too long.
pub(crate) fn quoted(text: &str) -> Part {
    Part::Typed(format!("\"{}\"", super::excerpt::shorten(text)))
}

/// The same, however long: for a name that is to be copied.
pub(crate) fn whole_name(name: &str) -> Part {
    Part::Typed(format!("\"{name}\""))
}

/// So many of something.
pub(crate) fn count(count: usize) -> Part {
    Part::Figure { figure: Figure::Plain(count as f64), told: count.to_string() }
}

/// Said only to whoever has the file before him.
pub(crate) fn on_file(message: impl Into<Message>) -> Part {
    Part::OnFile(message.into())
}

/// Said only to whoever has a page before him.
pub(crate) fn on_page(message: impl Into<Message>) -> Part {
    Part::OnPage(message.into())
}

/// The messages with this between them.
pub(crate) fn joined(of: impl IntoIterator<Item = Message>, between: &'static str) -> Message {
    let mut whole = Message::default();
    for (place, one) in of.into_iter().enumerate() {
        if place > 0 {
            whole.0.push(Part::Words(between));
        }
        whole.0.push(Part::Within(one));
    }
    whole
}

#[cfg(test)]
mod tests {
    use super::*;

    const TENDER: Before = Before::Page { tender: true };

    #[test]
    fn keys_and_commands_are_for_whoever_has_the_file_and_names_are_never_altered() {
        let message = says![
            "a {tanker} has no `dump_rate`",
            on_file(": `bucketline new` writes one"),
            on_page(": {Tankers} have one, {false}"),
            ", ",
            quoted("my `old_tanker` {tanker}"),
        ];
        let name = "\"my `old_tanker` {tanker}\"";
        for (before, said) in [
            (Before::File, "a tanker has no `dump_rate`: `bucketline new` writes one, "),
            (TENDER, "a tender has no dump rate: Tenders have one, no, "),
            (Before::Page { tender: false }, "a tanker has no dump rate: Tankers have one, no, "),
        ] {
            assert_eq!(message.to(before), format!("{said}{name}"));
        }
    }

    #[test]
    fn braces_of_an_example_stay() {
        let message = says!["write {\"mean\": 2}, or {tank", key("a_b")];
        assert_eq!(message.to(TENDER), "write {\"mean\": 2}, or {tanka b");
        assert_eq!(message.in_file(), "write {\"mean\": 2}, or {tank`a_b`");
    }

    #[test]
    fn figures_come_in_their_order() {
        let inner = says![Part::Figure { figure: Figure::Share(0.5), told: "50%".into() }, " of "];
        let message = says!["the ", inner, count(3), on_page(count(4))];
        assert_eq!(message.figures(), [Figure::Share(0.5), Figure::Plain(3.0)]);
        assert_eq!(message.in_file(), "the 50% of 3");
    }
}
