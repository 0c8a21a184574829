//! What the page gets.

use scenario_file::{Before, MistakeKind, ScenarioError};
use serde::Serialize;
use serde_json::Value;

/// What is wrong with a text, in plain words: without keys, lines and commands.
#[derive(Debug, Clone, Serialize)]
pub struct Wrong {
    /// Path of keys, such as `tankers[1].capacity`; empty for the whole text.
    pub place: String,
    /// Line, from 1; 0 where the text was not looked into.
    pub line: usize,
    /// Column in characters, from 1; 0 as above.
    pub column: usize,
    /// What it is about, as people call it; empty where it is about no such thing.
    pub about: String,
    /// What kind of mistake it is.
    pub kind: &'static str,
    /// What is wrong.
    pub problem: String,
    /// What is allowed, where that says more.
    pub limit: Option<String>,
    /// What would likely put it right.
    pub cure: String,
}

/// A text as it was read.
#[derive(Debug, Clone, Serialize)]
#[serde(tag = "read", rename_all = "snake_case")]
pub enum Read {
    /// It may run.
    Sound {
        /// The units of its bare numbers.
        units: &'static str,
        /// What a person should know and need not fix.
        warnings: Vec<Warned>,
        /// Whether it lists anyone who could be asked for.
        can_request: bool,
        /// How many options it lists.
        options: usize,
        /// Its fill sites by name.
        fill_sites: Vec<String>,
    },
    /// It may not.
    Wrong {
        /// Every mistake, in the order of the text.
        mistakes: Vec<Wrong>,
        /// Whether the search stopped because there were too many.
        given_up: bool,
        /// Values that nobody means, as far as the text could be looked at.
        warnings: Vec<Warned>,
    },
}

/// A warning.
#[derive(Debug, Clone, Serialize)]
pub struct Warned {
    /// Path of keys.
    pub place: String,
    /// What it is about, as people call it; empty where the text says it.
    pub about: String,
    /// What kind of note it is.
    pub kind: &'static str,
    /// What to know.
    pub text: String,
    /// Whether it asks about a value that nobody means.
    pub is_doubt: bool,
}

/// Why a sound scenario gets no answer to a question.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Refused {
    /// Everyone comes anyway.
    NobodyToAsk,
    /// There is only one plan.
    NothingToCompare,
    /// There is no fill site of this number.
    NoSuchSite,
    /// A share or target is not between 0 and 1, or the runs are none or beyond all use.
    OutOfRange,
}

/// A picture of an answer.
#[derive(Debug, Clone, Serialize)]
pub struct Drawn {
    /// The name of its file, without an ending.
    pub name: String,
    /// SVG.
    pub svg: String,
}

/// What comes of a question.
#[derive(Debug, Clone, Serialize)]
#[serde(tag = "reply", rename_all = "snake_case")]
#[allow(clippy::large_enum_variant)] // One of a kind, serialized at once.
pub enum ReplyOf<T> {
    /// The answer.
    Answered {
        /// As the command prints it with `--json`; of a fire, with what the clock shows.
        answer: T,
        /// What it says, for a page: nothing of the command line.
        told: Value,
        /// What is kept for backing out, and counted on by no answer; null where the plan keeps nothing.
        reserve: Option<String>,
        /// Its pictures, where they were wanted.
        pictures: Vec<Drawn>,
    },
    /// The scenario is in order and has no answer to this.
    Refused {
        /// Why.
        why: Refused,
    },
    /// The text may not run.
    Wrong {
        /// Every mistake.
        mistakes: Vec<Wrong>,
    },
}

/// What comes of a question that the command answers too.
pub type Reply = ReplyOf<Value>;

/// Every mistake of a text that may not run, for a reader of the page.
pub(crate) fn mistakes(error: ScenarioError, before: Before) -> Vec<Wrong> {
    match error {
        ScenarioError::Wrong(wrong) => (wrong.list.into_iter())
            .map(|one| Wrong {
                place: one.place,
                line: one.line,
                column: one.column,
                about: one.subject.to(before),
                kind: one.kind.key(),
                problem: one.problem.to(before),
                limit: one.limit.map(|limit| limit.to(before)),
                cure: one.cure.to(before),
            })
            .collect(),
        ScenarioError::Asked(wrong) => (wrong.list.into_iter())
            .map(|one| Wrong {
                place: one.argument,
                line: 0,
                column: 0,
                about: String::new(),
                kind: one.kind.key(),
                problem: one.problem.to(before),
                limit: one.limit.map(|limit| limit.to(before)),
                cure: one.cure.to(before),
            })
            .collect(),
        ScenarioError::Unreadable { problem, cure, .. } => vec![Wrong {
            place: String::new(),
            line: 0,
            column: 0,
            about: String::new(),
            kind: MistakeKind::TooMuch.key(),
            problem: problem.to(before),
            limit: None,
            cure: cure.to(before),
        }],
    }
}
