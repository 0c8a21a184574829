//! `new`: a starter that runs, a plan asked for question by question, or mended so, or spreadsheets to fill in.

use std::io::{IsTerminal, stdin, stdout};
use std::path::{Path, PathBuf};

use plain_plan::{
    AskError, BLANK_SHEETS, FirstPlan, ask, ask_building, ask_to_mend, ask_to_mend_building,
    opened, scenario_text,
};
use scenario_file::{STARTER, STARTER_AID, STARTER_BUILDING, STARTER_OPTIONS, shell_quoted};

use super::{free_to_write, sound_text, text_of, what_then, written};
use crate::arguments::NewArguments;
use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::output::{make_folder, print};
use crate::written_file::{may_write, write_file};

/// Runs the command.
pub fn run(arguments: &NewArguments) -> Result<Exit, Failure> {
    if let Some(folder) = &arguments.csv {
        return spreadsheets(folder, arguments.force);
    }
    // Without a folder there is a file: the command line asks for one of them.
    let Some(file) = &arguments.file else { return Ok(Exit::WrongCommand) };
    if arguments.ask && !arguments.force && file.exists() {
        return if arguments.building { mended_building(file) } else { mended(file) };
    }
    free_to_write(file, arguments.force)?;
    if arguments.ask {
        // Before the questions: nobody is to answer them all in vain.
        may_write(file)?;
        if arguments.building {
            let text = asked_building()?;
            write_file(file, text.as_bytes())?;
            return written(file, "", &["flow"]);
        }
        let plan = ask(stdin().lock(), stdout().lock(), !stdin().is_terminal());
        return write_plan(file, &plan.map_err(unasked)?);
    }
    let (text, about, next): (_, _, &[&str]) = match arguments {
        NewArguments { building: true, .. } => {
            (STARTER_BUILDING, "Put your own building's measures in.", &["flow"])
        }
        NewArguments { options: true, .. } => (
            STARTER_OPTIONS,
            "Its notes say what to change first; `options` is what could be bought or changed.",
            &["check", "compare"],
        ),
        NewArguments { aid: true, .. } => (
            STARTER_AID,
            "Its notes say what to change first; `aid` is who could be asked for.",
            &["check", "hold", "request"],
        ),
        _ => (STARTER, "Its notes say what to change first.", &["check", "risk", "size"]),
    };
    write_file(file, text.as_bytes())?;
    written(file, about, next)
}

fn unasked(error: AskError) -> Failure {
    match error {
        AskError::EndOfAnswers => Failure::EndOfAnswers,
        AskError::Terminal(error) => Failure::Terminal(error),
    }
}

fn asked_building() -> Result<String, Failure> {
    ask_building(stdin().lock(), stdout().lock(), !stdin().is_terminal()).map_err(unasked)
}

fn write_plan(file: &Path, plan: &FirstPlan) -> Result<Exit, Failure> {
    // Every answer was checked in its place, the last one with all others.
    let text = scenario_text(plan);
    let text = text.unwrap_or_else(|_| unreachable!("a plan was taken that is not sound"));
    write_file(file, text.as_bytes())?;
    print(&format!(
        "{} is written. Its notes say what was taken where nothing was asked. {}",
        file.display(),
        what_then(file, plan)
    ))?;
    Ok(Exit::Answered)
}

/// A plan that is there, shown and mended.
///
/// - Errors: also that something of the file cannot be asked for, and would be lost.
fn mended(file: &Path) -> Result<Exit, Failure> {
    may_write(file)?;
    let plan = opened(&sound_text(file)?)
        .map_err(|lost| Failure::NotAllAsked { path: file.to_owned(), lost })?;
    let asked = ask_to_mend(&plan, stdin().lock(), stdout().lock(), !stdin().is_terminal());
    match asked.map_err(unasked)? {
        Some(changed) => write_plan(file, &changed),
        None => {
            print(&format!(
                "Nothing was changed, and nothing is written: {} is as it was. {}",
                file.display(),
                what_then(file, &plan)
            ))?;
            Ok(Exit::Answered)
        }
    }
}

/// A building that is there, shown and mended.
fn mended_building(file: &Path) -> Result<Exit, Failure> {
    may_write(file)?;
    scenario_file::load_building(file)?;
    let text = text_of(file)?;
    let asked =
        ask_to_mend_building(&text, stdin().lock(), stdout().lock(), !stdin().is_terminal());
    match asked.map_err(unasked)? {
        Some(changed) => {
            write_file(file, changed.as_bytes())?;
            written(file, "", &["flow"])
        }
        None => {
            let name = shell_quoted(&file.display().to_string());
            print(&format!(
                "Nothing was changed, and nothing is written: {} is as it was. Then:\n  bucketline flow {name}\n",
                file.display()
            ))?;
            Ok(Exit::Answered)
        }
    }
}

fn spreadsheets(folder: &Path, force: bool) -> Result<Exit, Failure> {
    let files: Vec<PathBuf> = BLANK_SHEETS.iter().map(|(name, _)| folder.join(name)).collect();
    // All or none.
    for file in &files {
        free_to_write(file, force)?;
    }
    make_folder(folder)?;
    for (file, (_, text)) in files.iter().zip(BLANK_SHEETS) {
        write_file(file, text.as_bytes())?;
    }
    let name = shell_quoted(&folder.display().to_string());
    print(&format!(
        "units.csv, sources.csv, plan.csv and options.csv are written into {}. Open them in a spreadsheet program and \
         write your own rows over the example; options.csv is for what could be bought or changed: its rows show how, \
         and are left out as long as they begin with EXAMPLE. Then:\n  bucketline import {name}\n",
        folder.display()
    ))?;
    Ok(Exit::Answered)
}
