//! The command `bucketline` as a person or a script meets it: the built program, files in a
//! temporary folder, what it prints and the number it ends with.
//!
//! The exit codes and the width of an answer are the ones its help and the developers' guide state.

#[path = "cli/data/answers.rs"]
mod answers;

#[path = "cli/plans/awkward_names.rs"]
mod awkward_names;

#[path = "cli/asked/calls.rs"]
mod calls;

#[path = "cli/plans/check_and_replay.rs"]
mod check_and_replay;

#[path = "cli/first_plan.rs"]
mod first_plan;
#[path = "cli/first_plan/asked.rs"]
mod first_plan_asked;
#[path = "cli/first_plan/back.rs"]
mod first_plan_back;
#[path = "cli/first_plan/bought.rs"]
mod first_plan_bought;
#[path = "cli/first_plan/building.rs"]
mod first_plan_building;
#[path = "cli/first_plan/mended.rs"]
mod first_plan_mended;
#[path = "cli/first_plan/one_line.rs"]
mod first_plan_one_line;
#[path = "cli/first_plan/opened.rs"]
mod first_plan_opened;
#[path = "cli/first_plan/opened_laws.rs"]
mod first_plan_opened_laws;
#[path = "cli/first_plan/sheets.rs"]
mod first_plan_sheets;
#[path = "cli/first_plan/slips.rs"]
mod first_plan_slips;
#[path = "cli/first_plan/typed.rs"]
mod first_plan_typed;

#[path = "cli/plans/flow.rs"]
mod flow;
#[path = "cli/plans/flow_metric.rs"]
mod flow_metric;
#[path = "cli/plans/flow_written.rs"]
mod flow_written;

#[path = "cli/plans/grading.rs"]
mod grading;
#[path = "cli/plans/grading_addresses.rs"]
mod grading_addresses;
#[path = "cli/plans/grading_sheet.rs"]
mod grading_sheet;

#[path = "cli/data/json.rs"]
mod json;

#[path = "cli/outside/other_commands.rs"]
mod other_commands;

#[path = "cli/outside/wrong_input.rs"]
mod wrong_input;

#[path = "cli/outside/large_files.rs"]
mod large_files;

#[path = "cli/outside/terminal.rs"]
mod terminal;

#[path = "cli/outside/written_files.rs"]
mod written_files;

#[path = "cli/outside/wrong_place.rs"]
mod wrong_place;

#[path = "cli/chances/names_in_choices.rs"]
mod names_in_choices;

#[path = "cli/chances/choices.rs"]
mod choices;
#[path = "cli/chances/with_spare.rs"]
mod with_spare;

#[path = "cli/chances/always_short.rs"]
mod always_short;

#[path = "cli/chances/losses_and_levers.rs"]
mod losses_and_levers;

#[path = "cli/asked/aid.rs"]
mod aid;

#[path = "cli/asked/pumps_brought.rs"]
mod pumps_brought;

#[path = "cli/asked/asked.rs"]
mod asked;

#[path = "cli/drawn/pictures.rs"]
mod pictures;

#[path = "cli/asked/hold.rs"]
mod hold;

#[path = "cli/drawn/paper.rs"]
mod paper;

#[path = "cli/drawn/paper_read_back.rs"]
mod paper_read_back;

#[path = "cli/outside/ending.rs"]
mod ending;

#[path = "cli/data/results_schema.rs"]
mod results_schema;

#[path = "cli/data/figures_in_json.rs"]
mod figures_in_json;

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};
use std::sync::LazyLock;

use serde_json::Value;
use tempfile::TempDir;

/// It answered.
const ANSWERED: i32 = 0;
/// The command line was wrong.
const WRONG_COMMAND: i32 = 2;
/// The scenario was wrong.
const WRONG_SCENARIO: i32 = 3;
/// A file could not be read.
const CANNOT_READ: i32 = 4;
/// A file or folder could not be written.
const CANNOT_WRITE: i32 = 5;
/// Ended early by Ctrl-C.
const ENDED_EARLY: i32 = 6;

/// The last line of every answer.
const CAUTION: &str = "A plan on paper. The incident commander, local rules and what you see on \
                       the ground come first.";

/// The built program: beside the folder of the test programs. Built first if it is not there.
static PROGRAM: LazyLock<PathBuf> = LazyLock::new(|| {
    let test = std::env::current_exe().expect("the test program has a place");
    let profile = test.parent().and_then(Path::parent).expect("target/<profile>/deps/cli");
    let program = profile.join(format!("bucketline{}", std::env::consts::EXE_SUFFIX));
    if !program.exists() {
        let built = Command::new(env!("CARGO"))
            .args(["build", "--package", "bucketline"])
            .current_dir(env!("CARGO_MANIFEST_DIR"))
            .status();
        assert!(built.is_ok_and(|status| status.success()), "cannot build the program");
    }
    assert!(program.exists(), "no program at {}", program.display());
    program
});

/// How one call ended.
struct Ended {
    code: Option<i32>,
    out: String,
    err: String,
}

impl Ended {
    fn of(output: Output) -> Ended {
        let text = |bytes: Vec<u8>| String::from_utf8(bytes).expect("the program prints UTF-8");
        Ended { code: output.status.code(), out: text(output.stdout), err: text(output.stderr) }
    }

    /// It answered, and said nothing else.
    fn answered(self, what: &str) -> String {
        assert_eq!(self.code, Some(ANSWERED), "{what}: {}", self.err);
        assert_eq!(self.err, "", "{what}");
        self.out
    }

    /// It refused with this number, without a word on standard output and without a panic.
    fn refused(self, code: i32, what: &str) -> String {
        assert_eq!(self.code, Some(code), "{what}: {}{}", self.out, self.err);
        assert_eq!(self.out, "", "{what}");
        assert!(!self.err.contains("panicked"), "{what}: {}", self.err);
        assert!(!self.err.trim().is_empty(), "{what}: no reason is given");
        self.err
    }
}

/// A call of the program in a folder, to be started.
fn call(folder: &Path, arguments: &[&str]) -> Command {
    let mut command = Command::new(&*PROGRAM);
    command.args(arguments).current_dir(folder).stdin(Stdio::null());
    command.stdout(Stdio::piped()).stderr(Stdio::piped());
    command
}

/// A whole call of the program in a folder.
fn bucketline(folder: &Path, arguments: &[&str]) -> Ended {
    let ended = Ended::of(call(folder, arguments).output().expect("the program starts"));
    // Whatever is imported can be opened again.
    if let ["import", sheets, more @ ..] = arguments
        && ended.code == Some(ANSWERED)
        && *sheets != "."
        && !sheets.starts_with('-')
    {
        let named = more.iter().find(|one| **one != "--force");
        let file = named.map_or_else(|| format!("{sheets}.json"), |one| (*one).to_owned());
        first_plan_opened::opens_as_imported(&folder.join(sheets), &folder.join(file));
    }
    ended
}

/// A new empty folder.
fn folder() -> TempDir {
    tempfile::tempdir().expect("a temporary folder")
}

/// What says whose the pictures in a folder are.
const WHOSE_PICTURES: &str = "pictures_of.txt";

/// The names in a folder, in order, but for that of what says whose the pictures are.
fn names_in(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).expect("the folder can be read");
    let mut names: Vec<String> = entries
        .map(|entry| entry.expect("an entry").file_name().to_string_lossy().into_owned())
        .filter(|name| name != WHOSE_PICTURES)
        .collect();
    names.sort();
    names
}

/// Every scenario that comes with the program, drills too.
fn scenarios() -> Vec<PathBuf> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../scenarios");
    let mut files = Vec::new();
    for folder in [root.clone(), root.join("drills")] {
        let entries = fs::read_dir(folder).expect("the scenarios are there");
        files.extend(entries.map(|entry| entry.expect("an entry").path()));
    }
    files.retain(|file| {
        file.extension().is_some_and(|ext| ext == "json")
            && !file.to_string_lossy().ends_with(".schema.json")
    });
    files.sort();
    assert!(files.len() >= 7, "only {} scenarios", files.len());
    files
}

/// The path of one scenario that comes with the program.
fn scenario(name: &str) -> String {
    format!("{}/../scenarios/{name}.json", env!("CARGO_MANIFEST_DIR"))
}

/// Two tankers with a thin margin.
fn hay_barn() -> String {
    scenario("hay_barn_two_tankers")
}

/// Writes the thin-margin scenario with a change.
fn write_changed(file: &Path, change: impl FnOnce(&mut Value)) {
    let text = fs::read_to_string(hay_barn()).expect("the scenario is there");
    let mut value: Value = serde_json::from_str(&text).expect("the scenario is JSON");
    change(&mut value);
    let text = serde_json::to_string_pretty(&value).expect("JSON can be written");
    fs::write(file, text).expect("the folder can be written to");
}
