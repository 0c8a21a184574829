//! `import`: a scenario from three spreadsheets.

use plain_plan::read_sheets;

use super::new::{free_to_write, written};
use crate::arguments::ImportArguments;
use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::written_file::write_file;

/// Runs the command.
pub fn run(arguments: &ImportArguments) -> Result<Exit, Failure> {
    let in_folder = || arguments.folder.join("scenario.json");
    let file = arguments.file.clone().unwrap_or_else(in_folder);
    free_to_write(&file, arguments.force)?;
    let imported = read_sheets(&arguments.folder).map_err(Failure::Sheets)?;
    write_file(&file, imported.text.as_bytes())?;
    let next: &[&str] = match imported.plan.aid.as_slice() {
        [] => &["check", "hold", "risk"],
        _ => &["check", "hold", "request"],
    };
    written(&file, "Its notes say what was taken where the sheets say nothing.", next)
}
