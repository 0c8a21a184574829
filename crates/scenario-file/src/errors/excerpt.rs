//! A finding with the line it stands on, cut to a width that fits a terminal, and pieces of the file as
//! messages quote them.

use std::path::Path;

use annotate_snippets::renderer::DecorStyle;
use annotate_snippets::{AnnotationKind, Level, Renderer, Snippet};

use super::finding::Finding;
use super::position::{Lines, Span};
use super::shown::{harmless, is_harmful, push_escaped};

/// Columns that a message may take.
const WIDTH: usize = 100;

/// Text for a message: not too long, on one line.
pub(crate) fn shorten(text: &str) -> String {
    const LONGEST: usize = 60;
    let mut short = String::new();
    for letter in text.chars().take(LONGEST) {
        if is_harmful(letter) { push_escaped(&mut short, letter) } else { short.push(letter) }
    }
    if text.chars().nth(LONGEST).is_some() {
        short.push('…');
    }
    short
}

/// What a person is shown of a finding: the problem, its line with the place marked, the limit, the cure.
///
/// - Given: `line` and `column` of the finding, from 1.
pub(crate) fn render(
    path: &Path,
    lines: &Lines<'_>,
    finding: &Finding,
    line: usize,
    column: usize,
) -> String {
    let shown = Excerpt::of(lines, &finding.span);
    let title = if finding.place.is_empty() {
        finding.problem.in_file()
    } else {
        format!("{}: {}", finding.place, finding.problem)
    };
    let snippet = Snippet::source(&shown.text)
        .line_start(line)
        .annotation(AnnotationKind::Primary.span(shown.mark.clone()));
    let limit = finding.limit.as_ref().map(|limit| wrapped(&limit.in_file()));
    let cure = wrapped(&finding.cure.in_file());
    let mut group = Level::ERROR.primary_title(&title).element(snippet);
    if let Some(limit) = &limit {
        group = group.element(Level::NOTE.with_name("allowed").message(limit));
    }
    group = group.element(Level::HELP.with_name("cure").message(&cure));
    let rendered =
        Renderer::plain().decor_style(DecorStyle::Ascii).term_width(WIDTH).render(&[group]);
    // The excerpt may begin late in a long line, so the position cannot be left to the renderer.
    let (title, rest) = rendered.split_once('\n').unwrap_or((&rendered, ""));
    let indent = " ".repeat(line.to_string().len());
    let path = harmless(&path.display().to_string());
    format!("{title}\n{indent}--> {path}:{line}:{column}\n{rest}")
}

/// Text for below the line, wrapped so that it stays within the width.
fn wrapped(text: &str) -> String {
    const ROOM: usize = WIDTH - 20;
    let mut lines = String::new();
    let mut length = 0;
    for word in text.split(' ') {
        let word_length = word.chars().count();
        if length > 0 && length + 1 + word_length > ROOM {
            lines.push('\n');
            length = 0;
        } else if length > 0 {
            lines.push(' ');
            length += 1;
        }
        lines.push_str(word);
        length += word_length;
    }
    lines
}

/// A part of one line, short enough to show, with the mark inside it.
struct Excerpt {
    text: String,
    mark: Span,
}

impl Excerpt {
    fn of(lines: &Lines<'_>, span: &Span) -> Excerpt {
        /// Characters shown before and after the beginning of the mark.
        const BEFORE: usize = 40;
        const AFTER: usize = 50;
        let (line, start) = lines.line_at(span.start);
        let from = span.start.saturating_sub(start).min(line.len());
        let to = span.end.saturating_sub(start).clamp(from, line.len());
        let (before, rest) = line.split_at(from);
        let mut text: String = last_characters(before, BEFORE);
        let mark_start = text.len();
        let marked = to - from;
        let mut mark_end = mark_start;
        for (index, (offset, character)) in rest.char_indices().enumerate() {
            if index == AFTER {
                text.push('…');
                break;
            }
            if is_harmful(character) {
                push_escaped(&mut text, character);
            } else {
                text.push(character);
            }
            if offset < marked {
                mark_end = text.len();
            }
        }
        if mark_end == mark_start {
            // There must be something to mark, also at the end of a line or on an empty one.
            if mark_end == text.len() {
                text.push(' ');
            }
            mark_end += text[mark_start..].chars().next().map_or(0, char::len_utf8);
        }
        Excerpt { text, mark: mark_start..mark_end }
    }
}

fn last_characters(text: &str, count: usize) -> String {
    let cut = (text.char_indices().rev().nth(count - 1)).map_or(0, |(index, _)| index);
    let dots = if cut > 0 { "…" } else { "" };
    let mut last = dots.to_string();
    last.push_str(&harmless(&text[cut..]));
    last
}
