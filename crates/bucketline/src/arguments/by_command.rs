//! What each command can be told.

use std::path::PathBuf;

use clap::Args;

use super::plan_changes::{Changes, PlanChanges};
use super::shared_groups::{Batch, Charts, Hold, Scenario, Showing};
use super::values::{
    LostAt, SheetKind, Standard, flow, lost_at, minutes, money, share, time_of_day,
};

/// `check`.
#[derive(Debug, Args)]
pub struct CheckArguments {
    /// The scenario.
    #[command(flatten)]
    pub scenario: Scenario,
    /// The plan, changed.
    #[command(flatten)]
    pub changes: Changes,
}

/// `risk`.
#[derive(Debug, Args)]
pub struct RiskArguments {
    /// The scenario.
    #[command(flatten)]
    pub scenario: Scenario,
    /// The plan, changed.
    #[command(flatten)]
    pub changes: Changes,
    /// The batch.
    #[command(flatten)]
    pub batch: Batch,
    /// The charts.
    #[command(flatten)]
    pub charts: Charts,
    /// Do not try what would help
    #[arg(long)]
    pub no_help: bool,
}

/// `size`.
#[derive(Debug, Args)]
pub struct SizeArguments {
    /// The scenario.
    #[command(flatten)]
    pub scenario: Scenario,
    /// The plan, changed.
    #[command(flatten)]
    pub changes: Changes,
    /// Chance of interruption to stay below, as 5% or 0.05
    #[arg(long, default_value = "5%", value_parser = share)]
    pub target: f64,
    /// Most simulated fires for any one number of tankers
    #[arg(long, default_value = "20000", value_parser = clap::value_parser!(u64).range(1..=1_000_000_000))]
    pub runs: u64,
    /// Luck number: the same number meets the same fires again
    #[arg(long, default_value = "1")]
    pub seed: u64,
    /// Threads to use; all cores when left out
    #[arg(long, value_parser = clap::value_parser!(u16).range(1..=1024))]
    pub threads: Option<u16>,
    /// Tankers to try beyond those listed, each like the last one
    #[arg(long, default_value = "6", value_parser = clap::value_parser!(u16).range(0..=100))]
    pub beyond: u16,
    /// The charts.
    #[command(flatten)]
    pub charts: Charts,
}

/// `compare`.
#[derive(Debug, Args)]
pub struct CompareArguments {
    /// The scenario with its options; or several scenarios, the first of which the others are held
    /// against
    #[arg(required = true, value_name = "FILE")]
    pub files: Vec<PathBuf>,
    /// How to show the answer.
    #[command(flatten)]
    pub showing: Showing,
    /// The plan, changed.
    #[command(flatten)]
    pub changes: Changes,
    /// The best set of options that costs no more than this, in the money of the file
    #[arg(long, value_name = "SUM", value_parser = money)]
    pub budget: Option<f64>,
    /// The batch; it ends earlier when all is clear.
    #[command(flatten)]
    pub batch: Batch,
    /// The charts.
    #[command(flatten)]
    pub charts: Charts,
}

/// `request`.
#[derive(Debug, Args)]
pub struct RequestArguments {
    /// The scenario.
    #[command(flatten)]
    pub scenario: Scenario,
    /// The plan, changed.
    #[command(flatten)]
    pub changes: Changes,
    /// Chance of interruption to stay below, as 5% or 0.05
    #[arg(long, default_value = "5%", value_parser = share)]
    pub target: f64,
    /// Losses of one unit or source that the request is to stand as well: 0 or 1
    #[arg(long, default_value = "1", value_parser = clap::value_parser!(u8).range(0..=1))]
    pub spare: u8,
    /// Write the scenario with the units asked for among its tankers to this file
    #[arg(long, value_name = "FILE")]
    pub write: Option<PathBuf>,
    /// Write over a file that is already there
    #[arg(long, requires = "write")]
    pub force: bool,
    /// The batch, for each set of tankers; it ends earlier when a set is clear.
    #[command(flatten)]
    pub batch: Batch,
    /// The charts.
    #[command(flatten)]
    pub charts: Charts,
}

/// `lose`.
#[derive(Debug, Args)]
pub struct LoseArguments {
    /// The scenario.
    #[command(flatten)]
    pub scenario: Scenario,
    /// The plan, changed.
    #[command(flatten)]
    pub changes: Changes,
    /// Chance of interruption to stay below, as 5% or 0.05
    #[arg(long, default_value = "5%", value_parser = share)]
    pub target: f64,
    /// The batch, for each loss; it ends earlier when a loss is clear.
    #[command(flatten)]
    pub batch: Batch,
    /// The charts.
    #[command(flatten)]
    pub charts: Charts,
}

/// `levers`.
#[derive(Debug, Args)]
pub struct LeversArguments {
    /// The scenario.
    #[command(flatten)]
    pub scenario: Scenario,
    /// The plan, changed.
    #[command(flatten)]
    pub changes: Changes,
    /// The batch, for each input; it ends earlier when an input is clear.
    #[command(flatten)]
    pub batch: Batch,
    /// The charts.
    #[command(flatten)]
    pub charts: Charts,
}

/// `grade`.
#[derive(Debug, Args)]
pub struct GradeArguments {
    /// The scenario files (JSON), one a place in the district
    #[arg(required = true)]
    pub files: Vec<PathBuf>,
    /// How to show the answer.
    #[command(flatten)]
    pub showing: Showing,
    /// The plan, changed.
    #[command(flatten)]
    pub changes: PlanChanges,
    /// A rule to grade by, several by naming the option again, the first ranks: us-2h, class-8b, own-30min,
    /// canada-dwelling, canada-commercial, or one of `grading.rules`; those of the first scenario's units and
    /// all of `grading.rules` when left out
    #[arg(long, value_name = "RULE")]
    pub rule: Vec<String>,
    /// Print one row an address as comma-separated values; for several files, or one with `addresses`
    #[arg(long, conflicts_with_all = ["json", "more", "sheet", "out"])]
    pub csv: bool,
    /// Grade the addresses of this table too: text (.csv, .tsv, .txt) or a spreadsheet (.xlsx, .ods) with a column
    /// `name`, `station miles`, `suction feet`, and one for each fill site, in miles or minutes; up to 5,000 addresses
    #[arg(long, value_name = "TABLE")]
    pub addresses: Option<PathBuf>,
    /// Grade this address alone, with every set of fill sites, and write its sheet; several by naming the option again
    #[arg(long, value_name = "NAME", conflicts_with = "csv")]
    pub address: Vec<String>,
    /// Write the evidence sheet, to print and sign, into this file: a page where it ends in .html, else plain text
    #[arg(long, value_name = "FILE")]
    pub sheet: Option<PathBuf>,
    /// How surely.
    #[command(flatten)]
    pub hold: Hold,
    /// The charts.
    #[command(flatten)]
    pub charts: Charts,
}

/// `hold`. Its table has a search for every minute, each of them to a few percent.
#[derive(Debug, Args)]
#[command(mut_arg("runs", |runs| runs.default_value("2500")))]
pub struct HoldArguments {
    /// The scenario.
    #[command(flatten)]
    pub scenario: Scenario,
    /// The plan, changed.
    #[command(flatten)]
    pub changes: PlanChanges,
    /// Minutes after the alarm from which the flow is asked for, as 12,20,40; the usual ones when left out
    #[arg(long, value_name = "MIN,...", value_delimiter = ',', value_parser = minutes)]
    pub from: Vec<f64>,
    /// How surely.
    #[command(flatten)]
    pub hold: Hold,
    /// The charts.
    #[command(flatten)]
    pub charts: Charts,
}

/// `reach`. Its table has many searches, each of them to a few percent.
#[derive(Debug, Args)]
#[command(mut_arg("runs", |runs| runs.default_value("2500")))]
pub struct ReachArguments {
    /// The scenario.
    #[command(flatten)]
    pub scenario: Scenario,
    /// The plan, changed.
    #[command(flatten)]
    pub changes: PlanChanges,
    /// The fill site to move along the road; the first one when left out
    #[arg(long, value_name = "NAME")]
    pub site: Option<String>,
    /// Answer how far away this flow holds instead, in the scenario's units
    #[arg(long, value_name = "FLOW", value_parser = flow)]
    pub flow: Option<f64>,
    /// How surely.
    #[command(flatten)]
    pub hold: Hold,
    /// The charts.
    #[command(flatten)]
    pub charts: Charts,
}

/// `replay`.
#[derive(Debug, Args)]
pub struct ReplayArguments {
    /// The scenario.
    #[command(flatten)]
    pub scenario: Scenario,
    /// The plan, changed.
    #[command(flatten)]
    pub changes: Changes,
    /// Which run of the batch, from 1
    #[arg(long, default_value = "1", value_parser = clap::value_parser!(u64).range(1..))]
    pub run: u64,
    /// Every duration at its mean, nothing breaks down
    #[arg(long, conflicts_with_all = ["run", "seed", "typical"])]
    pub planned: bool,
    /// A fire from the middle of the batch: about as many go better as go worse
    #[arg(long, conflicts_with = "run")]
    pub typical: bool,
    /// Luck number of the batch: the same number meets the same fires again
    #[arg(long, default_value = "1")]
    pub seed: u64,
    /// The charts.
    #[command(flatten)]
    pub charts: Charts,
}

/// `new`.
#[derive(Debug, Args)]
#[command(group = clap::ArgGroup::new("kind"))]
pub struct NewArguments {
    /// The file to write
    #[arg(required_unless_present = "csv")]
    pub file: Option<PathBuf>,
    /// Ask for it question by question: flow, own units, aid, sources, drop tanks; of a plan that is there, show it and
    /// mend what is named; with --building, ask for the building
    #[arg(long, conflicts_with_all = ["options", "aid", "csv"])]
    pub ask: bool,
    /// A building instead, for `flow`
    #[arg(long, group = "kind")]
    pub building: bool,
    /// A scenario with options and their costs, for `compare`
    #[arg(long, group = "kind")]
    pub options: bool,
    /// A scenario with aid that could be asked for, for `request`
    #[arg(long, group = "kind")]
    pub aid: bool,
    /// Write spreadsheets into this folder instead, for `import`: units.csv, sources.csv, plan.csv, options.csv
    #[arg(long, value_name = "DIR", group = "kind", conflicts_with = "file")]
    pub csv: Option<PathBuf>,
    /// Begin anew and write over a file that is already there
    #[arg(long)]
    pub force: bool,
}

/// `import`.
#[derive(Debug, Args)]
pub struct ImportArguments {
    /// The folder with the spreadsheets units, sources and plan, perhaps options, each as .csv, .xlsx or .ods
    #[arg(value_name = "DIR")]
    pub folder: PathBuf,
    /// The scenario to write; when left out, named as the folder and beside it: `barn` gives barn.json
    #[arg(value_name = "FILE")]
    pub file: Option<PathBuf>,
    /// Write over a file that is already there
    #[arg(long)]
    pub force: bool,
}

/// `flow`.
#[derive(Debug, Args)]
pub struct FlowArguments {
    /// A building file, or a scenario whose attack flow is given by a building.
    #[command(flatten)]
    pub scenario: Scenario,
    /// The rule that counts; what the file names when left out
    #[arg(long)]
    pub standard: Option<Standard>,
    /// Put the building and its rule into the attack flow of this scenario, in place of its greatest step
    #[arg(long, value_name = "SCENARIO")]
    pub write: Option<PathBuf>,
}

/// `drill`.
#[derive(Debug, Args)]
pub struct DrillArguments {
    /// The log: text with any usual separator (.csv, .tsv, .txt) or a spreadsheet (.xlsx, .ods)
    #[arg(value_name = "LOG", required_unless_present = "sheet")]
    pub log: Option<PathBuf>,
    /// The scenario that was drilled (JSON)
    #[arg(value_name = "FILE", required_unless_present = "sheet")]
    pub file: Option<PathBuf>,
    /// How to show the answer.
    #[command(flatten)]
    pub showing: Showing,
    /// What is changed beside the file, for the chance and what to train; the day is played back as it was.
    #[command(flatten)]
    pub changes: Changes,
    /// Put the measured times into the scenario, or into a copy of it: --write=COPY
    #[arg(long, value_name = "COPY", num_args = 0..=1, require_equals = true)]
    pub write: Option<Option<PathBuf>>,
    /// When the alarm was, on the log's clock; worked out from who came first when left out
    #[arg(long, value_name = "TIME", value_parser = time_of_day)]
    pub alarm: Option<f64>,
    /// What the model expects if a tanker is lost, as "Tanker 5@40": minutes after the alarm
    #[arg(long, value_name = "TANKER@MINUTE", value_parser = lost_at)]
    pub lost: Option<LostAt>,
    /// Leave the readings of these rows out
    #[arg(long, value_name = "ROW", value_delimiter = ',')]
    pub leave_out: Vec<usize>,
    /// Print a blank log instead: its headings for a spreadsheet, or a page to print (HTML)
    #[arg(long, value_name = "KIND", num_args = 0..=1, require_equals = true,
        default_missing_value = "csv", conflicts_with_all = ["log", "file"])]
    pub sheet: Option<SheetKind>,
    /// The batch.
    #[command(flatten)]
    pub batch: Batch,
    /// The charts.
    #[command(flatten)]
    pub charts: Charts,
}

/// `page`.
#[derive(Debug, Args)]
pub struct PageArguments {
    /// The scenario to begin with (JSON); an invented fire when left out
    pub file: Option<PathBuf>,
    /// Folder for the page; out/ and the name of the scenario's file when left out
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
}
