//! Files to work with: a first plan, one from spreadsheets, the planner page.

pub mod new;

pub mod import;

pub mod page;

use std::path::Path;

use plain_plan::FirstPlan;
use scenario_file::{Part, ScenarioError, shell_quoted};

use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::output::print;

/// The text of a scenario file that is sound: whatever is wrong is told here, where it can be put right.
fn sound_text(file: &Path) -> Result<String, Failure> {
    scenario_file::load(file)?;
    text_of(file)
}

/// The text of a file that was just read and found sound.
fn text_of(file: &Path) -> Result<String, Failure> {
    let text = std::fs::read_to_string(file).map_err(|error| ScenarioError::Unreadable {
        path: file.to_owned(),
        problem: Part::Typed(error.to_string()).into(),
        cure: "check that nobody is writing to it".into(),
    })?;
    Ok(text)
}

/// - Errors: a file is there already, and was not asked to be written over.
fn free_to_write(file: &Path, force: bool) -> Result<(), Failure> {
    if file.symlink_metadata().is_ok() && !force {
        return Err(Failure::AlreadyThere { path: file.to_owned() });
    }
    Ok(())
}

/// Says what is written, and what to ask next.
fn written(file: &Path, about: &str, next: &[&str]) -> Result<Exit, Failure> {
    let about = if about.is_empty() { String::new() } else { format!(" {about}") };
    print(&format!("{} is written.{about} Then:\n{}", file.display(), commands(file, next)))?;
    Ok(Exit::Answered)
}

fn commands(file: &Path, next: &[&str]) -> String {
    let name = shell_quoted(&file.display().to_string());
    next.iter().map(|next| format!("  bucketline {next} {name}\n")).collect()
}

/// What to ask of a plan, the first question first, and how to change it.
fn what_then(file: &Path, plan: &FirstPlan) -> String {
    let first = match plan.aid.is_empty() {
        false => ("request", "whom to ask for"),
        true => ("risk", "how often the lines run short, and why"),
    };
    let bought = plan.beside.contains_key("options");
    let questions = [
        Some(first),
        Some(("hold", "what you can hold, from which minute")),
        Some(("check", "the worksheet by hand")),
        bought.then_some(("compare", "what to buy")),
    ];
    let name = shell_quoted(&file.display().to_string());
    let lines: String = (questions.into_iter().flatten())
        .map(|(command, answers)| format!("  bucketline {command:7} {name}   # {answers}\n"))
        .collect();
    format!("Then:\n{lines}To change something: bucketline new {name} --ask shows it again.\n")
}
