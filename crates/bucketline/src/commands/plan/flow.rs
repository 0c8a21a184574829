//! `flow`: how much water a building wants, by every rule side by side.

use answers::question::flow::{Written, flow, sheet};
use scenario_file::{load_building, with_building_flow};

use crate::arguments::{FlowArguments, Standard};
use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::give::Giving;
use crate::written_file::{may_write, write_file};

/// Runs the command.
pub fn run(arguments: &FlowArguments) -> Result<Exit, Failure> {
    let wanted = load_building(&arguments.scenario.file)?;
    let giving = Giving::about(arguments.scenario.showing, None, wanted.units, &wanted.path)?;
    let rule = arguments.standard.map_or(wanted.flow.rule, Standard::rule);
    // All facts of the building have been checked; what is left is a flow that no hand lines carry.
    let sheet = sheet(&wanted, rule).map_err(Failure::NoWorksheet)?;
    let written = match &arguments.write {
        Some(path) => {
            // Before it is read: a pipe would be waited for without end.
            may_write(path)?;
            let replaced = with_building_flow(path, &wanted, rule)?;
            write_file(path, replaced.text.as_bytes())?;
            Some(Written { path: path.clone(), replaced })
        }
        None => None,
    };
    giving.give(&flow(&wanted, &sheet, written.as_ref()))
}
