//! An answer as text for a terminal.

mod columns;

use shuttle_report::units::whole;

use crate::answer::{Advice, Answer, Block, Label};
use crate::reader::{Reader, of_hundred};
use crate::say::{Sentence, digits_apart};
use crate::shared::asked::asked_words;

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
    /// The PDF with its pages, if there is one; the same stands beside it as HTML.
    pub pages: Option<String>,
}

/// The answer as text, ending with a line end.
pub fn text<F>(answer: &Answer<F>, setting: &Setting) -> String {
    let setter = Setter {
        reader: setting.reader,
        width: setting.width.clamp(*WIDTHS.start(), *WIDTHS.end()),
    };
    let told = &answer.told;
    let mut out = String::new();
    if let Some(asked) = asked_words(&answer.asked) {
        out.push_str(&setter.paragraph(&asked));
    }
    out.push_str(&setter.paragraph(&told.headline));
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

/// The luck that the command takes where none is asked for: above the small print it goes without saying.
const USUAL_LUCK: u64 = 1;

/// "20,000 fires. Pictures in out/barn/. More: --more. Ask next: size, lose."; with more, or of other luck than the usual,
/// "20,000 fires, luck number 7 (--seed 7 meets the same fires again). ..."
fn closing<F>(answer: &Answer<F>, setting: &Setting) -> String {
    let mut parts = Vec::new();
    if answer.basis.replications > 0 {
        let fires = match answer.basis.replications {
            1 => "1 fire".to_owned(),
            many => format!("{} fires", whole(many as f64)),
        };
        let luck = answer.basis.seed;
        parts.push(if setting.more || luck != USUAL_LUCK {
            format!("{fires}, luck number {luck} (--seed {luck} meets the same fires again).")
        } else {
            format!("{fires}.")
        });
    }
    if let Some(folder) = &setting.pictures {
        parts.push(format!("Pictures in {folder}."));
    }
    if let Some(file) = &setting.pages {
        parts.push(format!("To print: {file}."));
    }
    let has_more = !answer.told.more.is_empty() || !answer.told.small_print.is_empty();
    if !setting.more && has_more {
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
        self.wrapped(&begun(sentence, &self.reader))
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
        let figures = before_and_after(advice);
        let [before, after] = [0, 1].map(|place: usize| {
            figures.iter().map(|both| both[place].chars().count()).max().unwrap_or(0)
        });
        let tail = " -> ".len() + " of 100".len();
        let room = self.width - LABEL - 1 - before - after - tail;
        let mut out = String::new();
        for (place, (one, [from, to])) in advice.iter().zip(&figures).enumerate() {
            let mut label = if place == 0 { label_word(Label::Best) } else { "" };
            let cost = one.cost.map_or_else(String::new, |cost| format!(" ({})", whole(cost)));
            let what = format!("{}{cost}:", self.reader.put(&one.what));
            let lines = textwrap::wrap(&what, options(room));
            let (last, firsts) = match lines.split_last() {
                Some((last, firsts)) => (last.as_ref(), firsts),
                None => ("", &[] as &[_]),
            };
            for line in firsts {
                out.push_str(&format!("{label:<LABEL$}{line}\n"));
                label = "";
            }
            let line = format!("{label:<LABEL$}{last:<room$} {from:>before$} -> {to} of 100\n");
            out.push_str(&line);
        }
        out
    }
}

/// Fires of 100 before and after: the same decimals for all, at most one, but more where it takes them to tell
/// the two apart.
fn before_and_after(advice: &[Advice]) -> Vec<[String; 2]> {
    let digits = |one: &Advice| digits_apart(one.before, one.after);
    let all = advice.iter().map(digits).max().unwrap_or(0).min(1);
    (advice.iter())
        .map(|one| {
            let shown = |digits| [one.before, one.after].map(|of| of_hundred(of, digits));
            let both = shown(all);
            if both[0] == both[1] { shown(digits(one)) } else { both }
        })
        .collect()
}

fn options<'a>(width: usize) -> textwrap::Options<'a> {
    textwrap::Options::new(width)
        .break_words(false)
        .word_splitter(textwrap::WordSplitter::NoHyphenation)
}

/// A sentence with its first letter capitalized, but for a name, which stays as it is.
pub(crate) fn begun(sentence: &Sentence, reader: &Reader) -> String {
    let text = reader.put(sentence);
    if sentence.begins_with_name() { text } else { capital(&text) }
}

/// Parts of an answer by themselves, as text.
pub fn of_blocks(blocks: &[Block], reader: Reader, width: usize) -> String {
    let width = width.clamp(*WIDTHS.start(), *WIDTHS.end());
    Setter { reader, width }.blocks(blocks)
}

/// A text of several lines, each broken to the width with what follows set in behind its own indent: what is refused, as
/// a terminal shows it.
pub fn wrapped_lines(text: &str, width: usize) -> String {
    let width = width.clamp(*WIDTHS.start(), *WIDTHS.end());
    let wrapped = |line: &str| {
        let indent = line.len() - line.trim_start_matches(' ').len();
        let behind = " ".repeat(indent + 2);
        textwrap::fill(line, options(width).subsequent_indent(&behind))
    };
    text.split('\n').map(wrapped).collect::<Vec<_>>().join("\n")
}

/// The text with its first letter capitalized.
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
        Label::Aid => "Aid",
        Label::Reserve => "Reserve",
        Label::AtMost => "At most",
        Label::Fails => "Fails",
        Label::Careful => "Careful",
        Label::More => "More",
        Label::NoGain => "No gain",
        Label::Cure => "Cure",
        Label::Worse => "Worse",
        Label::Cost => "Cost",
        Label::Together => "Together",
        Label::Unclear => "Unclear",
        Label::Shorter => "Shorter",
        Label::Turnout => "No-shows",
        Label::GivenUp => "Given up",
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
        Label::Binds => "Limit",
        Label::Blank => "",
        Label::Lines => "Lines",
        Label::Day => "The day",
        Label::Waiting => "Waiting",
        Label::Breakdown => "Broken",
        Label::Asked => "Asked",
        Label::Read => "Read as",
        Label::Written => "Written",
        Label::Lost => "Lost",
        Label::Luck => "Luck",
        Label::Doubt => "In doubt",
        Label::TimeIt => "Time it",
        Label::TripWire => "Trip wire",
    }
}

#[cfg(test)]
mod tests {
    use shuttle_report::options_compared::{Apart, Interval};
    use shuttle_report::units::Units;

    use super::*;
    use crate::say;
    use crate::say::{Chances, name};

    #[test]
    fn what_is_refused_is_broken_behind_its_own_indent() {
        let text = "bucketline: barn.json: the file has mistakes\n  line 12, tankers[1].capacity: 90 gallons of water is out of range\n    cure: give what the tank holds, in gallons, as its plate says\n";
        let told = wrapped_lines(text, 60);
        assert!(told.lines().all(|line| line.chars().count() <= 60), "{told}");
        assert!(told.contains("\n    of range\n"), "{told}");
        assert!(told.contains("\n      says\n"), "{told}");
        let words = |text: &str| text.split_whitespace().map(str::to_owned).collect::<Vec<_>>();
        assert_eq!(words(&told), words(text), "no word is lost");
        assert!(told.ends_with('\n'));
    }

    #[test]
    fn advice_is_no_wider_than_the_terminal_and_told_in_one_count_of_decimals() {
        let change = |what: &str, share: f64| Advice {
            what: say![name(what)],
            before: Chances::of(0.0634, 20_000),
            after: Chances::of(share, 20_000),
            higher_by: Apart { by: 0.0, ci_low: 0.0, ci_high: 0.0, interval: Interval::Single },
            cost: Some(2_400.0),
        };
        let reader = Reader { units: Units::Us, tender: false };
        let setter = Setter { reader, width: 60 };
        let long = "a long name of a change that takes two lines of sixty columns";
        let told = setter.advice(&[change(long, 0.0001), change("B", 0.0486), change("C", 0.0630)]);
        assert!(told.lines().all(|line| line.chars().count() <= 60), "{told}");
        for figures in [" 6.3 -> under 0.1 of 100", " 6.3 -> 4.9 of 100", " 6.34 -> 6.30 of 100"] {
            assert!(told.contains(figures), "{told}");
        }
    }
}
