//! Why the program could not answer.

mod words;

use std::fmt;
use std::path::{Path, PathBuf};

use answers::refusal::{Refusal, Refused};
use scenario_file::ScenarioError;

use crate::address_table::TableMistake;
use crate::exit_code::Exit;

/// Why the program could not answer.
#[derive(Debug)]
pub enum Failure {
    /// The scenario could not be read, or is wrong.
    Scenario(ScenarioError),
    /// A file or folder could not be written.
    CannotWrite {
        /// What was to be written.
        path: PathBuf,
        /// Why it could not be.
        error: std::io::Error,
    },
    /// What is there is no file that could be written over.
    NoFile {
        /// What was to be written.
        path: PathBuf,
        /// What it is, with its article.
        what: &'static str,
    },
    /// A symbolic link that leads out of its folder, or nowhere.
    LinkLeadsAway {
        /// The link.
        path: PathBuf,
        /// Where it leads.
        to: PathBuf,
    },
    /// A file that is protected against writing.
    Protected {
        /// The file.
        path: PathBuf,
    },
    /// A file is already there.
    AlreadyThere {
        /// The file.
        path: PathBuf,
    },
    /// The facts of a building are each sound, but no hand lines carry the flow they ask for.
    NoWorksheet(fireground::FactError),
    /// There is only one plan.
    NothingToCompare {
        /// The scenario.
        path: PathBuf,
    },
    /// Everyone comes anyway.
    NobodyToAsk {
        /// The scenario.
        path: PathBuf,
    },
    /// The scenario has no fill site of this name.
    NoSuchSite {
        /// What was asked for.
        asked: String,
        /// The scenario file.
        file: PathBuf,
        /// The fill sites there are.
        there: Vec<String>,
    },
    /// There is no grading rule of this name.
    NoSuchRule {
        /// What was asked for.
        asked: String,
        /// The rules there are.
        there: Vec<String>,
    },
    /// A table of addresses has mistakes.
    Addresses {
        /// The table.
        path: PathBuf,
        /// Every mistake, in the order of the rows.
        mistakes: Vec<TableMistake>,
    },
    /// A table of addresses and several scenarios.
    AddressesOfWhich,
    /// There is no address of this name.
    NoSuchAddress {
        /// What was asked for.
        asked: String,
        /// The addresses there are.
        there: Vec<String>,
    },
    /// No fill site serves an address, so that there is nothing to grade it by.
    NotServed {
        /// The address.
        address: String,
    },
    /// A sheet of a kind that is not written.
    SheetKind {
        /// The file.
        path: PathBuf,
    },
    /// An evidence sheet of many addresses.
    SheetOfWhich,
    /// A drill log could not be read, or is wrong.
    Log {
        /// The log.
        path: PathBuf,
        /// Why.
        error: drill_log::LogError,
    },
    /// What was asked for beside a log does not fit it.
    NotOfThisLog {
        /// The log.
        path: PathBuf,
        /// What is the matter.
        problem: String,
        /// What would put it right.
        cure: String,
    },
    /// A scenario was given for the log, and a log for the scenario.
    FilesSwapped {
        /// Given as the log.
        log: PathBuf,
        /// Given as the scenario.
        file: PathBuf,
    },
    /// A scenario is already there that says more than is asked question by question.
    NotAllAsked {
        /// The file.
        path: PathBuf,
        /// What would be lost, in the order of the file; at least one.
        lost: Vec<plain_plan::NotKept>,
    },
    /// The spreadsheets of a plan are wrong.
    Sheets(plain_plan::SheetMistakes),
    /// The answers ended before the questions.
    EndOfAnswers,
    /// The answers could not be read, or the questions not be shown.
    Terminal(std::io::Error),
    /// The scenario has no tanker of this name.
    NoSuchTanker {
        /// What was asked for.
        asked: String,
        /// The scenario file.
        file: PathBuf,
        /// The tankers there are.
        there: Vec<String>,
    },
    /// A chart could not be drawn.
    Chart(shuttle_report::chart::ChartError),
    /// A page could not be made.
    Paper(paper::PaperError),
}

impl Failure {
    /// As a program gets it in place of a result.
    pub fn refusal(&self) -> Refusal {
        let exit = self.exit();
        if let Failure::Scenario(error) = self {
            return Refusal::of_scenario(error, exit as u8);
        }
        if let Failure::Log { path, error } = self {
            return Refusal::of_log(path, error, exit as u8);
        }
        let refused = match exit {
            Exit::WrongCommand => Refused::Command,
            Exit::WrongScenario => Refused::Scenario,
            Exit::CannotRead => Refused::Reading,
            Exit::CannotWrite => Refused::Writing,
            Exit::Answered | Exit::OurFault | Exit::EndedEarly => Refused::Bug,
        };
        let (problem, cure) = self.told();
        let refusal = Refusal::new(refused, exit as u8, problem, cure);
        match self.file() {
            Some(path) => refusal.about(path),
            None => refusal,
        }
    }

    /// The file that it is about.
    fn file(&self) -> Option<&Path> {
        match self {
            Failure::CannotWrite { path, .. }
            | Failure::NoFile { path, .. }
            | Failure::LinkLeadsAway { path, .. }
            | Failure::Protected { path }
            | Failure::AlreadyThere { path }
            | Failure::NotAllAsked { path, .. }
            | Failure::NothingToCompare { path }
            | Failure::NobodyToAsk { path }
            | Failure::Addresses { path, .. }
            | Failure::SheetKind { path }
            | Failure::Log { path, .. }
            | Failure::NotOfThisLog { path, .. }
            | Failure::FilesSwapped { log: path, .. }
            | Failure::NoSuchTanker { file: path, .. }
            | Failure::NoSuchSite { file: path, .. } => Some(path),
            Failure::Scenario(_)
            | Failure::NoWorksheet(_)
            | Failure::NoSuchRule { .. }
            | Failure::AddressesOfWhich
            | Failure::NoSuchAddress { .. }
            | Failure::NotServed { .. }
            | Failure::SheetOfWhich
            | Failure::Sheets(_)
            | Failure::EndOfAnswers
            | Failure::Terminal(_)
            | Failure::Chart(_)
            | Failure::Paper(_) => None,
        }
    }

    /// The number to end with.
    pub fn exit(&self) -> Exit {
        match self {
            Failure::Scenario(ScenarioError::Unreadable { .. })
            | Failure::Log { error: drill_log::LogError::Unreadable { .. }, .. } => {
                Exit::CannotRead
            }
            Failure::EndOfAnswers | Failure::Terminal(_) => Exit::CannotRead,
            Failure::Scenario(ScenarioError::Asked(_)) => Exit::WrongCommand,
            Failure::Scenario(_)
            | Failure::Log { .. }
            | Failure::Addresses { .. }
            | Failure::NotServed { .. }
            | Failure::Sheets(_)
            | Failure::NoWorksheet(_)
            | Failure::NothingToCompare { .. }
            | Failure::NobodyToAsk { .. } => Exit::WrongScenario,
            Failure::CannotWrite { .. }
            | Failure::NoFile { .. }
            | Failure::LinkLeadsAway { .. }
            | Failure::Protected { .. }
            | Failure::AlreadyThere { .. }
            | Failure::NotAllAsked { .. } => Exit::CannotWrite,
            Failure::NoSuchSite { .. }
            | Failure::NoSuchRule { .. }
            | Failure::NotOfThisLog { .. }
            | Failure::FilesSwapped { .. }
            | Failure::NoSuchAddress { .. }
            | Failure::AddressesOfWhich
            | Failure::SheetKind { .. }
            | Failure::SheetOfWhich
            | Failure::NoSuchTanker { .. } => Exit::WrongCommand,
            Failure::Chart(_) | Failure::Paper(_) => Exit::OurFault,
        }
    }
}

impl fmt::Display for Failure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (problem, cure) = self.told();
        f.write_str(&problem)?;
        cure.map_or(Ok(()), |cure| write!(f, "\n  cure: {cure}"))
    }
}

impl std::error::Error for Failure {}

impl From<ScenarioError> for Failure {
    fn from(error: ScenarioError) -> Failure {
        Failure::Scenario(error)
    }
}

impl From<shuttle_report::chart::ChartError> for Failure {
    fn from(error: shuttle_report::chart::ChartError) -> Failure {
        Failure::Chart(error)
    }
}

impl From<paper::PaperError> for Failure {
    fn from(error: paper::PaperError) -> Failure {
        Failure::Paper(error)
    }
}
