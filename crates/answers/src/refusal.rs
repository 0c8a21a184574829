//! Why there is no answer, as JSON: what a program gets in place of a result.

use std::path::Path;

use drill_log::LogError;
use scenario_file::{AskedMistake, FileMistake, Message, MistakeKind, ScenarioError};
use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::Serialize;
use serde_json::Value;

use crate::json::{COMMANDS, FORMAT, command_or_null};
use crate::shared::closed_words::one_of_or_null;
use crate::shared::sums::{SumPart, figures};

/// Why there is no answer, as it is printed with `--json`.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Refusal {
    /// The format of results.
    format: u32,
    /// The version of the program that made it.
    version: &'static str,
    /// What stands in the way: `command`, `scenario`, `log`, `reading`, `writing` or `bug`.
    refused: Refused,
    /// The question that was asked; null where none was, or none that is known.
    #[schemars(schema_with = "command_or_null")]
    question_asked: Option<&'static str>,
    /// The number the program ends with.
    exit_code: u8,
    /// What is wrong.
    problem: String,
    /// What would likely put it right; null where each mistake has its own cure.
    cure: Option<String>,
    /// The file that it is about; null where it is about none.
    file: Option<String>,
    /// Every mistake in the file, in the order of the text; empty where no file is wrong.
    mistakes: Vec<Mistake>,
    /// Every mistake in what was asked for, on the command line or beside the file; empty where the file itself is wrong, or nothing is.
    arguments: Vec<WrongArgument>,
    /// Whether there may be more mistakes than are listed.
    more_mistakes: bool,
}

/// What stands in the way of an answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Refused {
    /// What was asked for cannot be asked.
    Command,
    /// What the scenario says is wrong, or says too little for this question.
    Scenario,
    /// What a drill log says is wrong.
    Log,
    /// A file cannot be read.
    Reading,
    /// A file or folder cannot be written.
    Writing,
    /// Our own fault.
    Bug,
}

/// A mistake in the file.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
struct Mistake {
    /// Path of keys, such as `tankers[1].capacity`; of a log the heading of the column; empty for the whole file
    /// or row.
    field: String,
    /// Line, from 1; of a log the row.
    line: usize,
    /// Column in characters, from 1; of a log the number of the column, from 1, 0 for the whole row.
    column: usize,
    /// What it is about, as people call it: a tanker by its name, "drop tank 2"; null where it is about no such thing,
    /// and of a log.
    mistake_about: Option<String>,
    /// What kind of mistake it is; null of a log.
    #[schemars(schema_with = "mistake_kind_or_null")]
    mistake_kind: Option<&'static str>,
    /// What is wrong.
    problem: String,
    /// The figures in that.
    problem_values: Vec<SumPart>,
    /// What is allowed, where that says more than the problem.
    limit: Option<String>,
    /// The figures in that.
    limit_values: Vec<SumPart>,
    /// What would likely put it right.
    cure: String,
}

/// A mistake in what was asked for.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct WrongArgument {
    /// The argument, as typed; several where it takes them together.
    pub argument: String,
    /// What kind of mistake it is; null where the command line itself is wrong.
    #[schemars(schema_with = "mistake_kind_or_null")]
    pub mistake_kind: Option<&'static str>,
    /// What is wrong.
    pub problem: String,
    /// What is allowed, where that says more than the problem.
    pub limit: Option<String>,
    /// What would likely put it right.
    pub cure: String,
}

impl WrongArgument {
    fn of(found: &AskedMistake) -> WrongArgument {
        WrongArgument {
            argument: found.argument.clone(),
            mistake_kind: Some(found.kind.key()),
            problem: found.problem.in_file(),
            limit: found.limit.as_ref().map(Message::in_file),
            cure: found.cure.in_file(),
        }
    }
}

impl Refusal {
    /// A refusal that no file is the reason of.
    ///
    /// - Given: what stands in the way, the number the program ends with, what is wrong, and its cure.
    pub fn new(refused: Refused, exit_code: u8, problem: String, cure: Option<String>) -> Refusal {
        Refusal {
            format: FORMAT,
            version: env!("CARGO_PKG_VERSION"),
            refused,
            question_asked: None,
            exit_code,
            problem,
            cure,
            file: None,
            mistakes: Vec::new(),
            arguments: Vec::new(),
            more_mistakes: false,
        }
    }

    /// With the question that the words of a command line ask.
    pub fn asked_by(self, mut words: impl Iterator<Item = String>) -> Refusal {
        let question_asked =
            words.find_map(|word| COMMANDS.into_iter().find(|command| *command == word));
        Refusal { question_asked, ..self }
    }

    /// With the file that it is about.
    pub fn about(self, path: &Path) -> Refusal {
        Refusal { file: Some(path.display().to_string()), ..self }
    }

    /// A command line that cannot be understood.
    ///
    /// - Given: the number the program ends with; what is wrong; the arguments that are.
    pub fn of_command_line(
        exit_code: u8,
        problem: String,
        arguments: Vec<WrongArgument>,
    ) -> Refusal {
        Refusal { arguments, ..Refusal::new(Refused::Command, exit_code, problem, None) }
    }

    /// A file that cannot be read, or is no sound scenario.
    ///
    /// - Given: the number the program ends with.
    pub fn of_scenario(error: &ScenarioError, exit_code: u8) -> Refusal {
        match error {
            ScenarioError::Unreadable { path, problem, cure } => Refusal {
                file: Some(path.display().to_string()),
                ..Refusal::new(Refused::Reading, exit_code, problem.in_file(), Some(cure.in_file()))
            },
            ScenarioError::Wrong(wrong) => Refusal {
                file: Some(wrong.path.display().to_string()),
                mistakes: wrong.list.iter().map(Mistake::of).collect(),
                more_mistakes: wrong.given_up,
                ..Refusal::new(Refused::Scenario, exit_code, "the file has mistakes".into(), None)
            },
            ScenarioError::Asked(wrong) => Refusal {
                file: Some(wrong.path.display().to_string()),
                arguments: wrong.list.iter().map(WrongArgument::of).collect(),
                ..Refusal::new(
                    Refused::Command,
                    exit_code,
                    "the file cannot be changed as asked".into(),
                    None,
                )
            },
        }
    }

    /// A drill log that cannot be read, or has mistakes.
    ///
    /// - Given: its file; the number the program ends with.
    pub fn of_log(path: &Path, error: &LogError, exit_code: u8) -> Refusal {
        let file = Some(path.display().to_string());
        match error {
            LogError::Unreadable { problem, cure } => Refusal {
                file,
                ..Refusal::new(Refused::Reading, exit_code, problem.clone(), Some(cure.clone()))
            },
            LogError::Wrong(mistakes) => Refusal {
                file,
                mistakes: (mistakes.iter())
                    .map(|one| Mistake {
                        field: one.at.column.clone(),
                        line: one.at.row,
                        column: one.at.number,
                        mistake_about: None,
                        mistake_kind: None,
                        problem: one.wrong.to_string(),
                        problem_values: Vec::new(),
                        limit: None,
                        limit_values: Vec::new(),
                        cure: one.wrong.cure(),
                    })
                    .collect(),
                ..Refusal::new(Refused::Log, exit_code, "the log has mistakes".into(), None)
            },
        }
    }

    /// As JSON.
    pub fn json(&self) -> Value {
        serde_json::to_value(self).expect("plain fields")
    }
}

impl Mistake {
    fn of(found: &FileMistake) -> Mistake {
        Mistake {
            field: found.place.clone(),
            line: found.line,
            column: found.column,
            mistake_about: (!found.subject.is_empty()).then(|| found.subject.in_file()),
            mistake_kind: Some(found.kind.key()),
            problem: found.problem.in_file(),
            problem_values: figures(&found.problem),
            limit: found.limit.as_ref().map(Message::in_file),
            limit_values: found.limit.as_ref().map(figures).unwrap_or_default(),
            cure: found.cure.in_file(),
        }
    }
}

fn mistake_kind_or_null(_: &mut SchemaGenerator) -> Schema {
    let kinds: Vec<&'static str> = MistakeKind::ALL.iter().map(|kind| kind.key()).collect();
    one_of_or_null(&kinds)
}

/// The schema of a refusal.
pub(crate) fn schema() -> Value {
    let mut schema = schemars::schema_for!(Refusal).to_value();
    schema["$id"] = "refusal".into();
    schema
}
