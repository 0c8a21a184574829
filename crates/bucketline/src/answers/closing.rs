//! How an answer ends: small print, warnings, the caution, and the exit code.

use std::fmt::Write;

use serde::Serialize;

use super::charts::Charts;
use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::output;

/// Small print of answers that stop their runs as soon as they are clear.
pub const FEWER_RUNS: &str = "Often fewer runs than `risk` makes, so the last digits may differ.";

/// The last line of every answer.
pub const CAUTION: &str = "A plan on paper. The incident commander, local rules and what you see on the ground come first.";

/// A result as JSON, with the program that made it.
#[derive(Serialize)]
pub struct Versioned<'a, T: Serialize> {
    #[serde(flatten)]
    found: &'a T,
    version: &'static str,
}

impl<'a, T: Serialize> Versioned<'a, T> {
    /// The result and this program's version.
    pub fn of(found: &'a T) -> Versioned<'a, T> {
        Versioned { found, version: env!("CARGO_PKG_VERSION") }
    }
}

/// Prints an answer, where its charts are, and the caution.
pub fn print_answer(mut text: String, charts: Option<&Charts>) -> Result<(), Failure> {
    if let Some(charts) = charts {
        let _ = writeln!(text, "Charts: {}", charts.folder());
    }
    let _ = writeln!(text, "{CAUTION}");
    output::print(&text)
}

/// How a command that answers ends.
pub fn exit(stopped_early: bool) -> Exit {
    if stopped_early { Exit::EndedEarly } else { Exit::Answered }
}
