//! What is wrong with a file, and how it is told: what, where, the line itself, the limit, the cure.

use std::fmt;
use std::path::{Path, PathBuf};

use annotate_snippets::renderer::DecorStyle;
use annotate_snippets::{AnnotationKind, Level, Renderer, Snippet};

use super::position::{Lines, Span};

/// Why a scenario file could not be read.
#[derive(Debug, thiserror::Error)]
pub enum ScenarioError {
    /// The file itself cannot be had as text.
    #[error("cannot read {}: {problem}{}", path.display(), hint(.cure.as_deref()))]
    Unreadable {
        /// The file.
        path: PathBuf,
        /// Why not.
        problem: String,
        /// What would likely help.
        cure: Option<String>,
    },
    /// The text is not a sound scenario.
    #[error(transparent)]
    Wrong(#[from] FileMistakes),
}

/// Every mistake in a file, in the order of the text.
#[derive(Debug, thiserror::Error)]
pub struct FileMistakes {
    /// The file.
    pub path: PathBuf,
    /// The mistakes; at least one.
    pub list: Vec<FileMistake>,
    /// Whether there were so many that the search was given up.
    pub given_up: bool,
}

/// One mistake in a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FileMistake {
    /// Where by keys, such as `tankers[1].capacity`; empty for the whole file.
    pub place: String,
    /// Line, from 1.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
    /// What is wrong.
    pub problem: String,
    /// What is allowed, where that says more than the problem.
    pub limit: Option<String>,
    /// What would likely put it right.
    pub cure: Option<String>,
    /// All of it with the line and the place marked, for a person.
    rendered: String,
}

/// A mistake by its place in the text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Finding {
    pub(super) place: String,
    pub(super) span: Span,
    pub(super) problem: String,
    pub(super) limit: Option<String>,
    pub(super) cure: Option<String>,
}

/// More mistakes than this are not looked for: nobody reads them, and the first ones explain them.
pub(super) const MOST_MISTAKES: usize = 200;

/// Mistakes told in full; the others are only counted.
const MOST_TOLD: usize = 50;

/// Columns that a message may take.
const WIDTH: usize = 100;

impl fmt::Display for FileMistake {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.rendered)
    }
}

impl fmt::Display for FileMistakes {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for mistake in self.list.iter().take(MOST_TOLD) {
            writeln!(f, "{mistake}\n")?;
        }
        let path = self.path.display();
        let count = match (self.list.len(), self.given_up) {
            (1, _) => "1 mistake".to_string(),
            (count, false) => format!("{count} mistakes"),
            (count, true) => format!("{count} mistakes and more"),
        };
        write!(f, "{path}: {count}")?;
        if self.list.len() > MOST_TOLD {
            write!(f, ", the first {MOST_TOLD} are shown")?;
        }
        Ok(())
    }
}

fn hint(cure: Option<&str>) -> String {
    cure.map(|cure| format!("; {cure}")).unwrap_or_default()
}

/// The findings as mistakes of the file, in the order of the text.
pub(super) fn mistakes_of(
    path: &Path,
    lines: &Lines<'_>,
    mut findings: Vec<Finding>,
    given_up: bool,
) -> FileMistakes {
    findings.sort_by_key(|finding| finding.span.start);
    FileMistakes {
        path: path.to_path_buf(),
        list: (findings.into_iter()).map(|finding| mistake_of(path, lines, finding)).collect(),
        given_up,
    }
}

fn mistake_of(path: &Path, lines: &Lines<'_>, finding: Finding) -> FileMistake {
    let (line, column) = lines.line_and_column(finding.span.start);
    let rendered = render(path, lines, &finding, line, column);
    FileMistake {
        place: finding.place,
        line,
        column,
        problem: finding.problem,
        limit: finding.limit,
        cure: finding.cure,
        rendered,
    }
}

fn render(path: &Path, lines: &Lines<'_>, finding: &Finding, line: usize, column: usize) -> String {
    let shown = Excerpt::of(lines, &finding.span);
    let title = if finding.place.is_empty() {
        finding.problem.clone()
    } else {
        format!("{}: {}", finding.place, finding.problem)
    };
    // The renderer shows control characters as symbols.
    let snippet = Snippet::source(&shown.text)
        .line_start(line)
        .annotation(AnnotationKind::Primary.span(shown.mark.clone()));
    let limit = finding.limit.as_deref().map(wrapped);
    let cure = finding.cure.as_deref().map(wrapped);
    let mut group = Level::ERROR.primary_title(&title).element(snippet);
    if let Some(limit) = &limit {
        group = group.element(Level::NOTE.with_name("allowed").message(limit));
    }
    if let Some(cure) = &cure {
        group = group.element(Level::HELP.with_name("cure").message(cure));
    }
    let rendered =
        Renderer::plain().decor_style(DecorStyle::Ascii).term_width(WIDTH).render(&[group]);
    // The excerpt may begin late in a long line, so the position cannot be left to the renderer.
    let (title, rest) = rendered.split_once('\n').unwrap_or((&rendered, ""));
    let indent = " ".repeat(line.to_string().len());
    let path = path.display();
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
            text.push(character);
            if offset < marked {
                mark_end = text.len();
            }
        }
        if mark_end == mark_start {
            // Something to mark at the end of a line, or where nothing stands.
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
    last.push_str(&text[cut..]);
    last
}
