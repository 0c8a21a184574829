//! An answer as text for a terminal.

mod columns;

use shuttle_report::units::whole;

use crate::answer::{Advice, Answer, Block, Label};
use crate::reader::Reader;
use crate::say::Sentence;

/// The narrowest and the widest an answer is set.
pub const WIDTHS: std::ops::RangeInclusive<usize> = 60..=100;

/// Width of the labels at the left.
const LABEL: usize = 10;

/// The last line of every answer.
pub const CAUTION: &str = "A plan on paper. The incident commander, local rules and what you see on the ground come first.";

/// How a text is set.
#[derive(Debug, Clone)]
pub struct Setting {
    /// Who reads it.
    pub reader: Reader,
    /// Columns; taken into [`WIDTHS`].
    pub width: usize,
    /// Whether tables and small print are wanted as well.
    pub more: bool,
    /// Where the pictures are, if there are any.
    pub pictures: Option<String>,
}

/// The answer as text, ending with a line end.
pub fn text<F>(answer: &Answer<F>, setting: &Setting) -> String {
    let setter = Setter {
        reader: setting.reader,
        width: setting.width.clamp(*WIDTHS.start(), *WIDTHS.end()),
    };
    let told = &answer.told;
    let mut out = setter.paragraph(&told.headline);
    out.push('\n');
    out.push_str(&setter.paragraph(&told.verdict));
    out.push_str(&setter.blocks(&told.points));
    out.push_str(&setter.advice(&told.advice));
    if setting.more && !told.more.is_empty() {
        out.push('\n');
        out.push_str(&setter.blocks(&told.more));
    }
    if !told.notes.is_empty() {
        out.push('\n');
        for note in &told.notes {
            out.push_str(&setter.labeled("Note", &setter.reader.put(note)));
        }
    }
    out.push('\n');
    if setting.more {
        for print in &told.small_print {
            out.push_str(&setter.paragraph(print));
        }
    }
    out.push_str(&setter.wrapped(&closing(answer, setting)));
    if answer.basis.ended_early {
        out.push_str(&setter.wrapped("Ended early: this rests on the fires simulated so far."));
    }
    out.push_str(&setter.wrapped(CAUTION));
    out
}

/// "20,000 fires, seed 1. Pictures in out/barn/. More: --more. Ask next: size, lose."
fn closing<F>(answer: &Answer<F>, setting: &Setting) -> String {
    let mut parts = Vec::new();
    if answer.basis.replications > 0 {
        let fires = match answer.basis.replications {
            1 => "1 fire".to_owned(),
            many => format!("{} fires", whole(many as f64)),
        };
        parts.push(format!("{fires}, seed {}.", answer.basis.seed));
    }
    if let Some(folder) = &setting.pictures {
        parts.push(format!("Pictures in {folder}."));
    }
    if !setting.more && !(answer.told.more.is_empty() && answer.told.small_print.is_empty()) {
        parts.push("More: --more.".to_owned());
    }
    if !answer.told.ask_next.is_empty() {
        parts.push(format!("Ask next: {}.", answer.told.ask_next.join(", ")));
    }
    if setting.more {
        parts.push(format!("bucketline {}.", env!("CARGO_PKG_VERSION")));
    }
    parts.join(" ")
}

struct Setter {
    reader: Reader,
    width: usize,
}

impl Setter {
    fn blocks(&self, blocks: &[Block]) -> String {
        let mut out = String::new();
        for block in blocks {
            match block {
                Block::Point(label, sentence) if !sentence.is_empty() => {
                    out.push_str(&self.labeled(label_word(*label), &self.reader.put(sentence)));
                }
                Block::Paragraph(sentence) if !sentence.is_empty() => {
                    out.push_str(&self.paragraph(sentence));
                }
                Block::Point(..) | Block::Paragraph(_) => {}
                Block::Table(table) => {
                    out.push_str(&columns::table(table, &self.reader, self.width))
                }
                Block::Gap => out.push('\n'),
            }
        }
        out
    }

    fn paragraph(&self, sentence: &Sentence) -> String {
        self.wrapped(&capital(&self.reader.put(sentence)))
    }

    fn wrapped(&self, text: &str) -> String {
        if text.is_empty() {
            return String::new();
        }
        let mut out = textwrap::fill(text, options(self.width));
        out.push('\n');
        out
    }

    /// A paragraph with its label at the left.
    fn labeled(&self, label: &str, text: &str) -> String {
        let first = format!("{label:<LABEL$}");
        let other = " ".repeat(LABEL);
        let options = options(self.width).initial_indent(&first).subsequent_indent(&other);
        let mut out = textwrap::fill(text, options);
        out.push('\n');
        out
    }

    /// "Best      ask for aid at the alarm:   17 -> 6 of 100", the figures under one another.
    fn advice(&self, advice: &[Advice]) -> String {
        let mut out = String::new();
        let room = self.width - LABEL - 20;
        for (place, one) in advice.iter().enumerate() {
            let label = if place == 0 { label_word(Label::Best) } else { "" };
            let cost = one.cost.map_or_else(String::new, |cost| format!(" ({})", whole(cost)));
            let what = format!("{}{cost}:", self.reader.put(&one.what));
            let lines = textwrap::wrap(&what, options(room));
            let (last, firsts) = match lines.split_last() {
                Some((last, firsts)) => (last.as_ref(), firsts),
                None => ("", &[] as &[_]),
            };
            let mut label = label;
            for line in firsts {
                out.push_str(&format!("{label:<LABEL$}{line}\n"));
                label = "";
            }
            let (before, after) = before_and_after(one);
            out.push_str(&format!("{label:<LABEL$}{last:<room$} {before:>5} -> {after} of 100\n"));
        }
        out
    }
}

/// Fires of 100 before and after, with as many digits as it takes to tell them apart, and no more than two.
fn before_and_after(one: &Advice) -> (String, String) {
    let shown = |share: f64, digits: usize| match 100.0 * share {
        0.0 => "none".to_owned(),
        some if format!("{some:.digits$}").parse() == Ok(0.0) => "under 1".to_owned(),
        some => format!("{some:.digits$}"),
    };
    let digits = (0..3)
        .find(|digits| shown(one.before.share, *digits) != shown(one.after.share, *digits))
        .unwrap_or(2);
    (shown(one.before.share, digits), shown(one.after.share, digits))
}

fn options<'a>(width: usize) -> textwrap::Options<'a> {
    textwrap::Options::new(width)
        .break_words(false)
        .word_splitter(textwrap::WordSplitter::NoHyphenation)
}

/// The text with its first letter capitalized, unless it begins with a name that is not.
fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// The label in words.
pub fn label_word(label: Label) -> &'static str {
    match label {
        Label::When => "When",
        Label::Why => "Why",
        Label::Best => "Best",
        Label::Hold => "Hold",
        Label::Spare => "Spare",
        Label::Ask => "Ask",
        Label::Reserve => "Reserve",
        Label::AtMost => "At most",
        Label::Fails => "Fails",
        Label::Careful => "Careful",
        Label::More => "More",
        Label::NoGain => "No gain",
        Label::Worse => "Worse",
        Label::Cost => "Cost",
        Label::Unclear => "Unclear",
        Label::Late => "If later",
        Label::Start => "Start",
        Label::Cycle => "Cycle",
        Label::Busy => "Busy",
        Label::People => "People",
        Label::Hose => "Hose",
        Label::Facts => "Facts",
        Label::Watch => "Watch",
        Label::Trips => "Trips",
        Label::Water => "Water",
        Label::Binds => "Binds",
        Label::Blank => "",
        Label::Lines => "Lines",
    }
}
