//! Why a file could not be read: every mistake in it, in the order of the text.

use std::fmt;
use std::path::{Path, PathBuf};

use super::asked_mistakes::AskedMistakes;
use super::excerpt::render;
use super::finding::Finding;
use super::kinds::MistakeKind;
use super::message::Message;
use super::position::Lines;
use super::shown::harmless;

/// Why a scenario file could not be read.
#[derive(Debug, thiserror::Error)]
pub enum ScenarioError {
    /// The file itself cannot be read as text.
    #[error("cannot read {}: {problem}; {cure}", harmless(&path.display().to_string()))]
    Unreadable {
        /// The file.
        path: PathBuf,
        /// Why not.
        problem: Message,
        /// What would likely help.
        cure: Message,
    },
    /// The text is not a sound scenario.
    #[error(transparent)]
    Wrong(#[from] FileMistakes),
    /// The file is sound, and what was asked for beside it is not.
    #[error(transparent)]
    Asked(#[from] AskedMistakes),
}

/// Every mistake in a file, in the order of the text.
#[derive(Debug, thiserror::Error)]
pub struct FileMistakes {
    /// The file.
    pub path: PathBuf,
    /// The mistakes; at least one.
    pub list: Vec<FileMistake>,
    /// Whether the search stopped because there were too many.
    pub given_up: bool,
}

/// One mistake in a file.
#[derive(Debug, Clone, PartialEq)]
pub struct FileMistake {
    /// Path of keys, such as `tankers[1].capacity`; empty for the whole file.
    pub place: String,
    /// Line, from 1.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
    /// What it is about, as people call it: "drop tank 2", a tanker's name; empty where nothing is.
    pub subject: Message,
    /// What kind of mistake it is.
    pub kind: MistakeKind,
    /// What is wrong.
    pub problem: Message,
    /// What is allowed, where that says more than the problem.
    pub limit: Option<Message>,
    /// What would likely put it right.
    pub cure: Message,
    /// All of it with the line and the place marked, for a person.
    rendered: String,
}

/// Mistakes shown in full; the others are only counted.
const MOST_TOLD: usize = 50;

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
        let path = harmless(&self.path.display().to_string());
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

/// The findings as mistakes of the file, in the order of the text.
pub(crate) fn mistakes_of(
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
    // Keys from the file are in it.
    let finding = Finding { place: harmless(&finding.place), ..finding };
    let (line, column) = lines.line_and_column(finding.span.start);
    let rendered = render(path, lines, &finding, line, column);
    FileMistake {
        place: finding.place,
        line,
        column,
        subject: Message::default(),
        kind: finding.kind,
        problem: finding.problem,
        limit: finding.limit,
        cure: finding.cure,
        rendered,
    }
}
