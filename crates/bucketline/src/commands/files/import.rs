//! `import`: a scenario from three spreadsheets.

use std::path::{Path, PathBuf};

use plain_plan::{in_sentences, read_sheets};

use super::{free_to_write, what_then};
use crate::arguments::ImportArguments;
use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::output::print;
use crate::written_file::write_file;

/// Runs the command.
pub fn run(arguments: &ImportArguments) -> Result<Exit, Failure> {
    let file = arguments.file.clone().unwrap_or_else(|| beside(&arguments.folder));
    free_to_write(&file, arguments.force)?;
    let imported = read_sheets(&arguments.folder).map_err(Failure::Sheets)?;
    write_file(&file, imported.text.as_bytes())?;
    let mut about = "Its notes say what was taken where the sheets say nothing.".to_owned();
    for engine in &imported.engines_of_their_own {
        let near = match &engine.near {
            Some(near) => format!(" (if you mean {near}, write its name as in the sheet of units)"),
            None => String::new(),
        };
        let (name, source) = (&engine.name, &engine.source);
        about += &format!(
            " {name}, which pumps at {source}, is taken as an engine that drives there and does nothing but pump{near}."
        );
    }
    if imported.examples > 0 {
        let rows = if imported.examples == 1 { "row" } else { "rows" };
        about += &format!(
            " {} {rows} of the options begin with EXAMPLE and are left out.",
            imported.examples
        );
    }
    for one in &imported.careful {
        print(&format!("Careful: {}: {}\n", one.at, one.problem))?;
    }
    print(&format!(
        "{} is written. {about} The plan, as the sheets have it:\n{}{}",
        file.display(),
        in_sentences(&imported.plan),
        what_then(&file, &imported.plan)
    ))?;
    Ok(Exit::Answered)
}

/// The scenario of a folder of spreadsheets: `fires/barn` gives `fires/barn.json`, so that what is drawn of it carries
/// the fire's name.
fn beside(folder: &Path) -> PathBuf {
    let whole = folder.canonicalize().unwrap_or_else(|_| folder.to_owned());
    match whole.file_name() {
        Some(name) if folder.file_name().is_some() => folder.with_file_name(name_of(name)),
        Some(name) => folder.join("..").join(name_of(name)),
        None => folder.join("scenario.json"),
    }
}

/// The folder's name with `.json` behind it; a name may have points in it.
fn name_of(folder: &std::ffi::OsStr) -> std::ffi::OsString {
    let mut name = folder.to_owned();
    name.push(".json");
    name
}
