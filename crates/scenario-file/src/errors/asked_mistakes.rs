//! What is wrong with changes that were asked for beside the file: every mistake by its argument.

use std::fmt;
use std::path::PathBuf;

use super::kinds::MistakeKind;
use super::message::Message;
use super::shown::harmless;

/// One mistake.
#[derive(Debug, Clone, PartialEq)]
pub struct AskedMistake {
    /// The argument, as `--without "Otter pond"`; several where it takes them together.
    pub argument: String,
    /// What kind of mistake it is.
    pub kind: MistakeKind,
    /// What is wrong.
    pub problem: Message,
    /// What is allowed, where that says more than the problem.
    pub limit: Option<Message>,
    /// What would likely put it right.
    pub cure: Message,
}

/// Every mistake in what was asked for; at least one.
#[derive(Debug, thiserror::Error)]
pub struct AskedMistakes {
    /// The file that was asked about.
    pub path: PathBuf,
    /// The mistakes.
    pub list: Vec<AskedMistake>,
}

impl fmt::Display for AskedMistake {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", harmless(&self.argument), self.problem)?;
        if let Some(limit) = &self.limit {
            write!(f, "\n  allowed: {}", limit)?;
        }
        write!(f, "\n  cure: {}", self.cure)
    }
}

impl fmt::Display for AskedMistakes {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let path = harmless(&self.path.display().to_string());
        write!(f, "{path} cannot be changed as asked")?;
        for mistake in &self.list {
            write!(f, "\n{mistake}")?;
        }
        Ok(())
    }
}
