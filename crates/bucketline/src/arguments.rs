//! The command line.

use std::path::PathBuf;

use clap::{Args, Parser, Subcommand};

use crate::exit_code;

/// Plans hauled water for a rural fire.
#[derive(Debug, Parser)]
#[command(
    name = "bucketline",
    version,
    about = "Plans hauled water for a rural fire: the chance that the attack lines lose water, why, \
             and how many tankers to ask for.",
    after_help = "\
Examples:
  bucketline new barn.json             write a starter scenario, then edit it
  bucketline check barn.json           is it sound, and what does a pencil say
  bucketline flow my_barn.json         how much water a building asks for
  bucketline risk barn.json            the chance of losing water, why, and what would help
  bucketline size barn.json            how many tankers to ask for
  bucketline compare barn.json         its options side by side: what to buy
  bucketline request barn.json         whom to ask for
  bucketline lose barn.json            what if one thing is lost
  bucketline levers barn.json          what a minute or 100 gpm is worth
  bucketline grade barn.json           fill sites compared for an insurance grading
  bucketline reach barn.json           how far from water so many tankers hold a flow
  bucketline replay barn.json --run 7  one simulated fire, minute by minute

A plan on paper. The incident commander, local rules and what you see on the ground come first.",
    after_long_help = exit_code_help(),
    disable_help_subcommand = true
)]
pub struct Arguments {
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
}

fn exit_code_help() -> String {
    format!(
        "Examples:\n  \
         bucketline new barn.json             write a starter scenario, then edit it\n  \
         bucketline check barn.json           is it sound, and what does a pencil say\n  \
         bucketline flow my_barn.json         how much water a building asks for\n  \
         bucketline risk barn.json            the chance of losing water, why, and what would help\n  \
         bucketline size barn.json            how many tankers to ask for\n  \
         bucketline compare barn.json         its options side by side: what to buy\n  \
         bucketline request barn.json         whom to ask for\n  \
         bucketline lose barn.json            what if one thing is lost\n  \
         bucketline levers barn.json          what a minute or 100 gpm is worth\n  \
         bucketline grade barn.json           fill sites compared for an insurance grading\n  \
         bucketline reach barn.json           how far from water so many tankers hold a flow\n  \
         bucketline replay barn.json --run 7  one simulated fire, minute by minute\n\n\
         {}\n\n\
         A plan on paper. The incident commander, local rules and what you see on the ground come \
         first.",
        exit_code::IN_HELP
    )
}

/// What to do.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Check a scenario and work it out by hand: cycles, gpm, caps, water on wheels
    #[command(after_help = "Example:\n  bucketline check scenarios/hay_barn_two_tankers.json")]
    Check(CheckArguments),
    /// The chance that the attack lines lose water, why, and what would help
    #[command(after_help = "Examples:\n  \
        bucketline risk scenarios/hay_barn_two_tankers.json\n  \
        bucketline risk scenarios/hay_barn_two_tankers.json --runs 100000 --seed 7 --json")]
    Risk(RiskArguments),
    /// The fewest tankers that keep that chance below a target
    #[command(after_help = "Example:\n  \
        bucketline size scenarios/hay_barn_two_tankers.json --target 5%")]
    Size(SizeArguments),
    /// Options side by side: what to buy, what to change
    #[command(after_help = "Examples:\n  \
        bucketline compare scenarios/hay_barn_what_to_buy.json\n  \
        bucketline compare scenarios/hay_barn_two_tankers.json scenarios/hay_barn_second_drop_tank.json")]
    Compare(CompareArguments),
    /// The mutual-aid request: the fewest of the aid there is that keep that chance below a target
    #[command(after_help = "Example:\n  \
        bucketline request scenarios/feed_mill_mutual_aid.json --target 5%")]
    Request(RequestArguments),
    /// What the plan cannot do without: everything lost once
    #[command(after_help = "Example:\n  \
        bucketline lose scenarios/sawmill_two_fill_sites.json --target 5%")]
    Lose(LoseArguments),
    /// What one minute or one hundred gpm is worth, for every input
    #[command(after_help = "Example:\n  \
        bucketline levers scenarios/hay_barn_two_tankers.json")]
    Levers(LeversArguments),
    /// Fill sites compared for an insurance grading, with the evidence sheet
    #[command(after_help = "Examples:\n  \
        bucketline grade scenarios/schoolhouse_three_fill_sites.json\n  \
        bucketline grade north.json east.json --share 98% --rule us-2h")]
    Grade(GradeArguments),
    /// How far from water so many tankers hold a flow: table and wall chart
    #[command(after_help = "Examples:\n  \
        bucketline reach scenarios/sawmill_two_fill_sites.json\n  \
        bucketline reach scenarios/sawmill_two_fill_sites.json --flow 500")]
    Reach(ReachArguments),
    /// One simulated fire, told minute by minute
    #[command(after_help = "Examples:\n  \
        bucketline replay scenarios/hay_barn_two_tankers.json --run 7\n  \
        bucketline replay scenarios/hay_barn_two_tankers.json --planned")]
    Replay(ReplayArguments),
    /// Write a starter scenario that runs
    #[command(after_help = "Example:\n  bucketline new barn.json")]
    New(NewArguments),
    /// How much water a building wants: every rule side by side, the lines that carry it
    #[command(after_help = "Examples:\n  \
        bucketline flow scenarios/buildings/hay_barn.json\n  \
        bucketline flow scenarios/buildings/hay_barn.json --standard minimum-supply\n  \
        bucketline flow scenarios/buildings/hay_barn.json --write barn.json")]
    Flow(FlowArguments),
    /// Print the JSON Schema of scenario files, for editors
    #[command(after_help = "Example:\n  bucketline schema > scenario.schema.json")]
    Schema {
        /// That of building files instead
        #[arg(long)]
        building: bool,
    },
    /// Print completions for a shell
    #[command(
        after_help = "Example:\n  bucketline completions bash > /etc/bash_completion.d/bucketline"
    )]
    Completions {
        /// The shell
        shell: clap_complete::Shell,
    },
    /// Print the manual page
    #[command(after_help = "Example:\n  bucketline man > bucketline.1")]
    Man,
}

/// A scenario and how to show the answer.
#[derive(Debug, Args)]
pub struct Scenario {
    /// The scenario file (JSON)
    pub file: PathBuf,
    /// Print the result as JSON instead of text
    #[arg(long)]
    pub json: bool,
    /// Call the truck that carries water a tender instead of a tanker
    #[arg(long)]
    pub tender: bool,
}

/// How to run a batch.
#[derive(Debug, Args)]
pub struct Batch {
    /// How many simulated fires
    #[arg(long, default_value = "20000", value_parser = clap::value_parser!(u64).range(1..=1_000_000_000))]
    pub runs: u64,
    /// Seed of all luck: the same seed gives the same answer, on any number of threads
    #[arg(long, default_value = "1")]
    pub seed: u64,
    /// Threads to use; all cores when left out
    #[arg(long, value_parser = clap::value_parser!(u16).range(1..=1024))]
    pub threads: Option<u16>,
}

/// The threads asked for, or as many as there are cores.
pub fn threads_or_all(asked: Option<u16>) -> usize {
    let cores = || std::thread::available_parallelism().map_or(1, usize::from);
    asked.map_or_else(cores, usize::from)
}

impl Batch {
    /// The luck of plans that are run side by side.
    pub fn same_luck(&self) -> shuttle_report::side_by_side::SameLuck {
        shuttle_report::side_by_side::SameLuck { seed: self.seed, threads: self.threads() }
    }

    /// Threads to use.
    pub fn threads(&self) -> usize {
        threads_or_all(self.threads)
    }
}

/// Where charts go.
#[derive(Debug, Args)]
pub struct Charts {
    /// Folder for the charts; out/ and the scenario's title when left out
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
    /// Write no charts
    #[arg(long, conflicts_with = "out")]
    pub no_charts: bool,
}

/// `check`.
#[derive(Debug, Args)]
pub struct CheckArguments {
    /// The scenario.
    #[command(flatten)]
    pub scenario: Scenario,
}

/// `risk`.
#[derive(Debug, Args)]
pub struct RiskArguments {
    /// The scenario.
    #[command(flatten)]
    pub scenario: Scenario,
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
    /// Chance of interruption to stay below, as 5% or 0.05
    #[arg(long, default_value = "5%", value_parser = share)]
    pub target: f64,
    /// Most simulated fires for any one number of tankers
    #[arg(long, default_value = "100000", value_parser = clap::value_parser!(u64).range(1..=1_000_000_000))]
    pub runs: u64,
    /// Seed of all luck
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
    /// Print the result as JSON instead of text
    #[arg(long)]
    pub json: bool,
    /// Call the truck that carries water a tender instead of a tanker
    #[arg(long)]
    pub tender: bool,
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
    /// Chance of interruption to stay below, as 5% or 0.05
    #[arg(long, default_value = "5%", value_parser = share)]
    pub target: f64,
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
    /// The batch, for each input; it ends earlier when an input is clear.
    #[command(flatten)]
    pub batch: Batch,
    /// The charts.
    #[command(flatten)]
    pub charts: Charts,
}

/// How surely a flow must hold, and with how many runs that is found out.
#[derive(Debug, Args)]
pub struct Hold {
    /// Share of fires in which the flow must hold, as 95% or 0.95
    #[arg(long, default_value = "95%", value_parser = share)]
    pub share: f64,
    /// Most simulated fires for any one flow
    #[arg(long, default_value = "20000", value_parser = clap::value_parser!(u64).range(1..=1_000_000_000))]
    pub runs: u64,
    /// Seed of all luck
    #[arg(long, default_value = "1")]
    pub seed: u64,
    /// Threads to use; all cores when left out
    #[arg(long, value_parser = clap::value_parser!(u16).range(1..=1024))]
    pub threads: Option<u16>,
}

impl Hold {
    /// Threads to use.
    pub fn threads(&self) -> usize {
        threads_or_all(self.threads)
    }
}

/// `grade`.
#[derive(Debug, Args)]
pub struct GradeArguments {
    /// The scenario files (JSON), one a place in the district
    #[arg(required = true)]
    pub files: Vec<PathBuf>,
    /// Print the result as JSON instead of text
    #[arg(long)]
    pub json: bool,
    /// Call the truck that carries water a tender instead of a tanker
    #[arg(long)]
    pub tender: bool,
    /// Rules to grade by, the first ranks; those of the first scenario's units when left out
    #[arg(long, value_parser = crate::commands::grade::rule_keys())]
    pub rule: Vec<String>,
    /// How surely.
    #[command(flatten)]
    pub hold: Hold,
}

/// `reach`.
#[derive(Debug, Args)]
pub struct ReachArguments {
    /// The scenario.
    #[command(flatten)]
    pub scenario: Scenario,
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
    /// Which run of the batch, from 1
    #[arg(long, default_value = "1", value_parser = clap::value_parser!(u64).range(1..))]
    pub run: u64,
    /// Every duration at its mean, nothing breaks down
    #[arg(long, conflicts_with_all = ["run", "seed"])]
    pub planned: bool,
    /// Seed of the batch
    #[arg(long, default_value = "1")]
    pub seed: u64,
    /// The charts.
    #[command(flatten)]
    pub charts: Charts,
}

/// `new`.
#[derive(Debug, Args)]
pub struct NewArguments {
    /// The file to write
    pub file: PathBuf,
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

/// A rule for the attack flow, as the command line names it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
pub enum Standard {
    /// Area / 3
    Area,
    /// Volume / 100
    Volume,
    /// The delivery rate of the minimum water supply (NFPA 1142)
    MinimumSupply,
    /// The insurance needed fire flow, or its table for small dwellings
    Insurance,
}

impl Standard {
    /// The rule itself.
    pub fn rule(self) -> fireground::side_by_side::Rule {
        use fireground::side_by_side::Rule;
        match self {
            Standard::Area => Rule::Area,
            Standard::Volume => Rule::Volume,
            Standard::MinimumSupply => Rule::MinimumSupply,
            Standard::Insurance => Rule::Insurance,
        }
    }
}

/// A share written as "5%" or "0.05", strictly between 0 and 1.
fn share(text: &str) -> Result<f64, String> {
    let (number, scale) = match text.trim().strip_suffix('%') {
        Some(number) => (number.trim(), 0.01),
        None => (text.trim(), 1.0),
    };
    let value = number
        .parse::<f64>()
        .map(|value| value * scale)
        .map_err(|_| "write it as 5% or 0.05".to_owned())?;
    if value > 0.0 && value < 1.0 {
        Ok(value)
    } else if value >= 1.0 && scale == 1.0 {
        Err(format!("it must lie between 0 and 1; for percent write {text}%"))
    } else {
        Err("it must lie between 0% and 100%".to_owned())
    }
}

/// A flow above nothing, within what a plan may state.
fn flow(text: &str) -> Result<f64, String> {
    let value = text.trim().parse::<f64>().map_err(|_| "write a number, as 500".to_owned())?;
    if (1.0..=20_000.0).contains(&value) {
        Ok(value)
    } else {
        Err("it must lie between 1 and 20,000".to_owned())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use clap::CommandFactory;

    #[test]
    fn the_command_line_is_sound() {
        Arguments::command().debug_assert();
    }

    #[test]
    fn a_target_is_a_percentage_or_a_share() {
        assert_eq!(share("5%"), Ok(0.05));
        assert_eq!(share("0.05"), Ok(0.05));
        for wrong in ["5", "0", "0%", "100%", "-1%", "nan", "five", ""] {
            assert!(share(wrong).is_err(), "{wrong}");
        }
    }
}
