//! `page`: the planner for a browser, with a scenario in it, as one file.

use std::path::Path;

use scenario_file::STARTER;

use super::sound_text;
use crate::arguments::PageArguments;
use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::give::folder_of;
use crate::output::{print, try_folder};
use crate::written_file::write_file;

/// Runs the command.
pub fn run(arguments: &PageArguments) -> Result<Exit, Failure> {
    let text = match &arguments.file {
        Some(file) => sound_text(file)?,
        None => STARTER.to_owned(),
    };
    let named = arguments.file.as_deref().unwrap_or(Path::new("starter.json"));
    let folder = arguments.out.clone().unwrap_or_else(|| folder_of(named));
    try_folder(&folder)?;
    let path = folder.join("planner.html");
    write_file(&path, page::planner(&text).as_bytes())?;
    print(&format!(
        "{} is written. Open it in any browser, or send it to a phone: it needs no network and sends nothing.\n",
        path.display()
    ))?;
    Ok(Exit::Answered)
}
