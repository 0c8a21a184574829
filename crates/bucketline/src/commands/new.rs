//! `new`: a starter scenario that runs.

use crate::arguments::NewArguments;
use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::output::print;
use crate::written_file::write_file;
use scenario_file::{STARTER, shell_quoted};

/// Runs the command.
pub fn run(arguments: &NewArguments) -> Result<Exit, Failure> {
    let file = &arguments.file;
    if file.symlink_metadata().is_ok() && !arguments.force {
        return Err(Failure::AlreadyThere { path: file.clone() });
    }
    write_file(file, STARTER.as_bytes())?;
    let name = shell_quoted(&file.display().to_string());
    print(&format!(
        "{} is written. Its notes say what to change first. Then:\n  \
         bucketline check {name}\n  bucketline risk {name}\n  bucketline size {name}\n",
        file.display()
    ))?;
    Ok(Exit::Answered)
}
