//! `drill`: what a drill measured, whether the plan holds with it, and what to train.

use std::path::{Path, PathBuf};

use answers::question::drill::{Asked, course, drill, timed};
use scenario_file::{Scenario, with_values};

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
    let scenario = scenario_file::load(file)?;
    let lost = arguments.lost.as_ref().map(|lost| who_is_lost(&scenario, lost)).transpose()?;
    let write_to = arguments.write.as_ref().map(|copy| copy.as_ref().unwrap_or(file).clone());
    if let Some(path) = &write_to {
        may_write(path)?;
    }
    let giving = Giving::about(arguments.showing, Some(&arguments.charts), scenario.units, log)?;
    let read = read_log(log, &scenario)?;
    let timed = timed(&scenario, read, &arguments.leave_out);
    let with = with_values(file, &timed.puts())?;
    let asked = Asked { alarm: arguments.alarm, lost, written: write_to.clone() };
    let (control, budget) = (control(), arguments.batch.budget());
    let answer = with_progress(&control, 2 * budget.replications, || {
        drill(&scenario, &timed, &with, &asked, budget, &control)
    });
    // Only now: what could not be answered changes no file.
    if let Some(path) = &write_to {
        write_file(path, with.text.as_bytes())?;
    }
    giving.give(&answer)
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
