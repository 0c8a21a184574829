//! How the program ends, as a number a script can test.

use std::process::ExitCode;

/// How the program ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[repr(u8)]
pub enum Exit {
    /// It answered.
    Answered = 0,
    /// Our own fault: a bug.
    OurFault = 1,
    /// The command line was wrong (the number clap uses too).
    WrongCommand = 2,
    /// The scenario was wrong.
    WrongScenario = 3,
    /// A file could not be read.
    CannotRead = 4,
    /// A file or folder could not be written.
    CannotWrite = 5,
    /// Ended early by Ctrl-C; what it says rests on the runs made so far.
    EndedEarly = 6,
}

impl From<Exit> for ExitCode {
    fn from(exit: Exit) -> ExitCode {
        ExitCode::from(exit as u8)
    }
}

/// The exit codes as the help shows them.
pub const IN_HELP: &str = "\
Exit codes:
  0  it answered
  1  our own fault: a bug
  2  the command line was wrong
  3  the scenario was wrong
  4  a file could not be read
  5  a file or folder could not be written
  6  ended early by Ctrl-C; the answer rests on the runs made so far";
