//! A command line that cannot be understood, for a program that asked for JSON: which argument, and what would put it
//! right.

use answers::refusal::{Refusal, WrongArgument};
use clap::error::{ContextKind, ContextValue, Error};

use crate::exit_code::Exit;

/// The refusal of a command line.
pub fn of_command_line(wrong: &Error) -> Refusal {
    let told = wrong.render().to_string();
    let problem = told.lines().next().unwrap_or_default().trim_start_matches("error: ").to_owned();
    let arguments = arguments_of(wrong)
        .into_iter()
        .map(|argument| WrongArgument {
            argument,
            mistake_kind: None,
            problem: problem.clone(),
            limit: words(wrong, ContextKind::ValidValue).map(|all| all.join(", ")),
            cure: cure(wrong),
        })
        .collect();
    Refusal::of_command_line(Exit::WrongCommand as u8, told, arguments)
}

/// What of the command line is wrong, with the value that was typed, where one was.
fn arguments_of(wrong: &Error) -> Vec<String> {
    let named = words(wrong, ContextKind::InvalidArg)
        .or_else(|| words(wrong, ContextKind::InvalidSubcommand))
        .unwrap_or_default();
    let value = words(wrong, ContextKind::InvalidValue).unwrap_or_default();
    let typed = value.first().filter(|value| !value.is_empty());
    named
        .into_iter()
        .map(|name| {
            // "--runs <RUNS>" is how the help has it; a place without a name of its own is its value.
            let flag = name.split(" <").next().unwrap_or(&name).to_owned();
            match typed {
                Some(value) if flag.starts_with('-') => format!("{flag} {value}"),
                Some(value) => value.clone(),
                None => flag,
            }
        })
        .collect()
}

/// What would likely put it right.
fn cure(wrong: &Error) -> String {
    let suggested =
        [ContextKind::SuggestedArg, ContextKind::SuggestedValue, ContextKind::SuggestedSubcommand];
    match suggested.into_iter().find_map(|kind| words(wrong, kind)) {
        Some(words) => format!("did you mean {}?", words.join(" or ")),
        None => "--help says what can be asked".to_owned(),
    }
}

fn words(wrong: &Error, kind: ContextKind) -> Option<Vec<String>> {
    match wrong.get(kind)? {
        ContextValue::String(one) => Some(vec![one.clone()]),
        ContextValue::Strings(several) if !several.is_empty() => Some(several.clone()),
        _ => None,
    }
}
