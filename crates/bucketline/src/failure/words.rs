//! What is wrong, and what would put it right, in words.

use std::path::PathBuf;

use scenario_file::shell_quoted;

use super::Failure;
use crate::address_table::TableMistake;

/// Mistakes or names that a message shows.
const MOST_TOLD: usize = 20;

impl Failure {
    /// What is wrong, and what would likely put it right; a scenario's mistakes have each their own cure.
    pub(super) fn told(&self) -> (String, Option<String>) {
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
            Failure::NotAllAsked { path, lost } => {
                let name = shell_quoted(&path.display().to_string());
                let told: String = lost.iter().map(|one| format!("\n  {one}")).collect();
                (
                    format!(
                        "{} is already there and has what the questions do not ask; nothing is written. It would be lost or \
                         changed:{told}",
                        path.display()
                    ),
                    format!(
                        "change it by hand, or on the planner page, which has every field (`bucketline page {name}`); --force \
                         writes a new plan over it"
                    ),
                )
            }
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
}
