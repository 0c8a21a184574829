//! Why the program could not answer.

use std::path::PathBuf;

use crate::exit_code::Exit;
use scenario_file::ScenarioError;

/// Why the program could not answer.
#[derive(Debug, thiserror::Error)]
pub enum Failure {
    /// The scenario could not be read, or is wrong.
    #[error("{0}")]
    Scenario(#[from] ScenarioError),
    /// A file or folder could not be written.
    #[error(
        "cannot write {}: {error}\n  cure: check that the folder exists, that it is yours to write \
         to, and that the disk is not full",
        path.display()
    )]
    CannotWrite {
        /// What was to be written.
        path: PathBuf,
        /// Why it could not be.
        error: std::io::Error,
    },
    /// What is there is no file that could be written over.
    #[error(
        "cannot write {}: it is {what}\n  cure: name a regular file, or one that is not there yet",
        path.display()
    )]
    NoFile {
        /// What was to be written.
        path: PathBuf,
        /// What it is, with its article.
        what: &'static str,
    },
    /// A symbolic link that leads out of its folder, or nowhere.
    #[error(
        "cannot write {}: it is a link to {}, out of its folder\n  cure: name that file itself if it is the one \
         you mean",
        path.display(),
        to.display()
    )]
    LinkLeadsAway {
        /// The link.
        path: PathBuf,
        /// Where it leads.
        to: PathBuf,
    },
    /// A file that is protected against writing.
    #[error(
        "cannot write {}: it is protected against writing\n  cure: choose another name, or lift the protection \
         (`chmod u+w`)",
        path.display()
    )]
    Protected {
        /// The file.
        path: PathBuf,
    },
    /// A file is already there.
    #[error("{} is already there\n  cure: choose another name, or add --force to write over it", path.display())]
    AlreadyThere {
        /// The file.
        path: PathBuf,
    },
    /// The facts of a building are each sound, but no hand lines carry the flow they ask for.
    #[error("no worksheet for this building: {0}")]
    NoWorksheet(fireground::FactError),
    /// There is only one plan.
    #[error(
        "{} has no options to compare\n  cure: list what could be changed in its `options`, or name \
         several scenarios",
        path.display()
    )]
    NothingToCompare {
        /// The scenario.
        path: PathBuf,
    },
    /// Everyone comes anyway.
    #[error(
        "{} lists nobody who could be asked for\n  cure: put the tankers that could be into `aid`, or \
         give those in `tankers` a `requested_at` after the alarm",
        path.display()
    )]
    NobodyToAsk {
        /// The scenario.
        path: PathBuf,
    },
    /// The scenario has no fill site of this name.
    #[error(
        "{} has no fill site \"{asked}\"\n  cure: name one of {}",
        file.display(),
        there.iter().map(|name| format!("\"{name}\"")).collect::<Vec<_>>().join(", ")
    )]
    NoSuchSite {
        /// What was asked for.
        asked: String,
        /// The scenario file.
        file: PathBuf,
        /// The fill sites there are.
        there: Vec<String>,
    },
    /// A chart could not be drawn.
    #[error("cannot draw the chart: {0}")]
    Chart(#[from] shuttle_report::chart::ChartError),
}

impl Failure {
    /// The number to end with.
    pub fn exit(&self) -> Exit {
        match self {
            Failure::Scenario(ScenarioError::Unreadable { .. }) => Exit::CannotRead,
            Failure::Scenario(_)
            | Failure::NoWorksheet(_)
            | Failure::NothingToCompare { .. }
            | Failure::NobodyToAsk { .. } => Exit::WrongScenario,
            Failure::CannotWrite { .. }
            | Failure::NoFile { .. }
            | Failure::LinkLeadsAway { .. }
            | Failure::Protected { .. }
            | Failure::AlreadyThere { .. } => Exit::CannotWrite,
            Failure::NoSuchSite { .. } => Exit::WrongCommand,
            Failure::Chart(_) => Exit::OurFault,
        }
    }
}
