//! `drill`: what a drill measured, whether the plan holds with it, and what to train.

use std::path::{Path, PathBuf};

use answers::question::drill::{Asked, course, drill, from_alarm_to_log, timed};
use scenario_file::{Scenario, read_asked, with_values};

use crate::arguments::{DrillArguments, LostAt, SheetKind};
use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::give::Giving;
use crate::output::print;
use crate::progress::{control, with_progress};
use crate::written_file::{may_write, write_file};

/// Runs the command.
pub fn run(arguments: &DrillArguments) -> Result<Exit, Failure> {
    let (Some(log), Some(file)) = (&arguments.log, &arguments.file) else {
        print(&match arguments.sheet {
            Some(SheetKind::Page) => drill_log::page(),
            _ => drill_log::headings(),
        })?;
        return Ok(Exit::Answered);
    };
    if is_json(log) && !is_json(file) {
        return Err(Failure::FilesSwapped { log: log.clone(), file: file.clone() });
    }
    let scenario = scenario_file::load(file)?;
    let lost = arguments.lost.as_ref().map(|lost| who_is_lost(&scenario, lost)).transpose()?;
    let write_to = arguments.write.as_ref().map(|copy| copy.as_ref().unwrap_or(file).clone());
    if let Some(path) = &write_to {
        may_write(path)?;
    }
    let giving = Giving::about(arguments.showing, Some(&arguments.charts), scenario.units, log)?;
    let read = read_log(log, &scenario)?;
    check_asked(arguments, log, &read)?;
    let timed = timed(&scenario, read, &arguments.leave_out);
    let with = with_values(file, &timed.puts())?;
    let planned = read_asked(file, &with.text, &arguments.changes.asks())?;
    let asked = Asked { alarm: arguments.alarm, lost, written: write_to.clone() };
    let (control, budget) = (control(), arguments.batch.budget());
    let answer = with_progress(&control, 2 * budget.replications, || {
        drill(&scenario, &timed, (&with, &planned), &asked, budget, &control)
    });
    // Only now: what could not be answered changes no file.
    if let Some(path) = &write_to {
        write_file(path, with.text.as_bytes())?;
    }
    giving.give(&answer)
}

/// Whether a file is named as a scenario is.
fn is_json(path: &Path) -> bool {
    path.extension().is_some_and(|end| end.eq_ignore_ascii_case("json"))
}

/// That what is asked for is of this log: rows that it has, an alarm near it, a loss within it.
fn check_asked(
    arguments: &DrillArguments,
    path: &Path,
    log: &drill_log::Log,
) -> Result<(), Failure> {
    /// Nobody's first tanker is so long on the road, minutes.
    const LONGEST: f64 = 180.0;
    let wrong = |problem: String, cure: &str| {
        Err(Failure::NotOfThisLog { path: path.to_owned(), problem, cure: cure.to_owned() })
    };
    let has = |row: &&usize| log.trips.iter().any(|trip| trip.row == **row);
    if let Some(row) = arguments.leave_out.iter().find(|row| !has(row)) {
        return wrong(
            format!("--leave-out {row}: no trip is in row {row}"),
            "the number is that of the row in the spreadsheet, headings included",
        );
    }
    if let Some(minutes) = arguments.alarm.map(|alarm| from_alarm_to_log(log, alarm))
        && minutes.abs() > LONGEST
    {
        return wrong(
            format!(
                "--alarm: the first time of the log is {:.0} minutes {} that",
                minutes.abs(),
                if minutes > 0.0 { "after" } else { "before" }
            ),
            "give it on the log's clock: 19:02, or 7:02 pm",
        );
    }
    if let Some(lost) = &arguments.lost
        && lost.minute > log.last() + LONGEST
    {
        return wrong(
            format!("--lost: minute {} after the alarm is after the drill's end", lost.minute),
            "give a minute within the drill",
        );
    }
    Ok(())
}

fn read_log(path: &Path, scenario: &Scenario) -> Result<drill_log::Log, Failure> {
    let failed = |error| Failure::Log { path: PathBuf::from(path), error };
    let table = drill_log::open(path).map_err(failed)?;
    drill_log::read(&table, &course(scenario)).map_err(failed)
}

/// The tanker that is lost, by its place among everyone.
fn who_is_lost(scenario: &Scenario, lost: &LostAt) -> Result<(usize, f64), Failure> {
    let there: Vec<String> = course(scenario).tankers.into_iter().map(|one| one.name).collect();
    match there.iter().position(|name| *name == lost.tanker) {
        Some(place) => Ok((place, lost.minute)),
        None => Err(Failure::NoSuchTanker {
            asked: lost.tanker.clone(),
            file: scenario.path.clone(),
            there,
        }),
    }
}
