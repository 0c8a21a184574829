//! Why the program could not answer.

use std::fmt;
use std::path::{Path, PathBuf};

use answers::refusal::{Refusal, Refused};
use scenario_file::{ScenarioError, shell_quoted};

use crate::address_table::TableMistake;
use crate::exit_code::Exit;

/// Mistakes or names that a message shows.
const MOST_TOLD: usize = 20;

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
    /// What is wrong, and what would likely put it right; a scenario's mistakes have each their own cure.
    fn told(&self) -> (String, Option<String>) {
        let cannot_write =
            |path: &PathBuf, why: &str| format!("cannot write {}: {why}", path.display());
        let (problem, cure) = match self {
            Failure::Scenario(error) => return (error.to_string(), None),
            Failure::NoWorksheet(error) => {
                return (format!("no worksheet for this building: {error}"), None);
            }
            Failure::Chart(error) => return (format!("cannot draw the chart: {error}"), None),
            Failure::Paper(error) => return (format!("cannot make the pages: {error}"), None),
            Failure::CannotWrite { path, error } => (
                cannot_write(path, &error.to_string()),
                "check that the folder exists, that it is yours to write to, and that the disk is not full"
                    .to_owned(),
            ),
            Failure::NoFile { path, what } => (
                cannot_write(path, &format!("it is {what}")),
                "name a regular file, or one that is not there yet".to_owned(),
            ),
            Failure::LinkLeadsAway { path, to } => (
                cannot_write(path, &format!("it is a link to {}, out of its folder", to.display())),
                "name that file itself if it is the one you mean".to_owned(),
            ),
            Failure::Protected { path } => (
                cannot_write(path, "it is protected against writing"),
                "choose another name, or lift the protection (`chmod u+w`)".to_owned(),
            ),
            Failure::AlreadyThere { path } => (
                format!("{} is already there", path.display()),
                "choose another name, or add --force to write over it".to_owned(),
            ),
            Failure::NothingToCompare { path } => (
                format!("{} has no options to compare", path.display()),
                "list what could be changed in its `options`, or name several scenarios".to_owned(),
            ),
            Failure::NobodyToAsk { path } => (
                format!("{} lists nobody who could be asked for", path.display()),
                "put the tankers that could be into `aid`, or give those in `tankers` a `requested_at` after \
                 the alarm"
                    .to_owned(),
            ),
            Failure::Log { path, error } => {
                return (format!("{}: {error}", path.display()), None);
            }
            Failure::NotOfThisLog { path, problem, cure } => {
                (format!("{}: {problem}", path.display()), cure.clone())
            }
            Failure::FilesSwapped { log, file } => (
                format!("{} is a scenario and stands where the log goes", log.display()),
                format!(
                    "the log comes first: bucketline drill {} {}",
                    shell_quoted(&file.display().to_string()),
                    shell_quoted(&log.display().to_string())
                ),
            ),
            Failure::Addresses { path, mistakes } => {
                let told: Vec<String> =
                    mistakes.iter().take(MOST_TOLD).map(TableMistake::to_string).collect();
                let more = match mistakes.len().saturating_sub(MOST_TOLD) {
                    0 => String::new(),
                    more => format!("\n{more} more mistakes are not shown"),
                };
                return (format!("{}:\n{}{more}", path.display(), told.join("\n")), None);
            }
            Failure::AddressesOfWhich => (
                "a table of addresses goes with one scenario".to_owned(),
                "name the one whose fill sites and units the addresses are to have".to_owned(),
            ),
            Failure::NoSuchAddress { asked, there } => {
                // A district has hundreds.
                let shown: Vec<String> =
                    there.iter().take(MOST_TOLD).map(|name| format!("\"{name}\"")).collect();
                let cure = match shown.as_slice() {
                    [] => "list `addresses` in the scenario, or give a table with --addresses".to_owned(),
                    some => format!("name it as it is listed: {}", some.join(", ")),
                };
                (format!("there is no address \"{asked}\""), cure)
            }
            Failure::NotServed { address } => (
                format!("no fill site serves \"{address}\""),
                "give it a road to at least one fill site".to_owned(),
            ),
            Failure::SheetKind { path } => (
                format!("{}: the sheet is written as a page or as plain text", path.display()),
                "let the name end in .html and print the page from a browser, to paper or to a PDF; or in .txt"
                    .to_owned(),
            ),
            Failure::SheetOfWhich => (
                "--sheet is for one place: a row an address has no sheet".to_owned(),
                "name an address with --address NAME, or leave --sheet out".to_owned(),
            ),
            Failure::Sheets(mistakes) => return (mistakes.to_string(), None),
            Failure::EndOfAnswers => (
                "the answers ended before the last question; nothing is written".to_owned(),
                "begin again; Enter takes what stands in brackets".to_owned(),
            ),
            Failure::Terminal(error) => (
                format!("cannot ask: {error}; nothing is written"),
                "run it in a terminal, or give the answers one a line on standard input".to_owned(),
            ),
            Failure::NoSuchTanker { asked, file, there } => {
                let there: Vec<String> = there.iter().map(|name| format!("\"{name}\"")).collect();
                (
                    format!("{} has no tanker \"{asked}\"", file.display()),
                    format!("name one of {}", there.join(", ")),
                )
            }
            Failure::NoSuchSite { asked, file, there } => {
                let there: Vec<String> = there.iter().map(|name| format!("\"{name}\"")).collect();
                (
                    format!("{} has no fill site \"{asked}\"", file.display()),
                    format!("name one of {}", there.join(", ")),
                )
            }
            Failure::NoSuchRule { asked, there } => {
                let there: Vec<String> = there.iter().map(|name| format!("\"{name}\"")).collect();
                (
                    format!("there is no rule \"{asked}\""),
                    format!(
                        "name one of {}, or describe it in `grading.rules` of a scenario",
                        there.join(", ")
                    ),
                )
            }
        };
        (problem, Some(cure))
    }

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
            | Failure::AlreadyThere { .. } => Exit::CannotWrite,
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
