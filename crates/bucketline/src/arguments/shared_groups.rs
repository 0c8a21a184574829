//! Groups of arguments that several commands share.

use std::path::PathBuf;

use answers::question::Budget;
use clap::Args;
use shuttle_report::side_by_side::SameLuck;

use super::values::share;

/// A scenario and how to show the answer.
#[derive(Debug, Args)]
pub struct Scenario {
    /// The scenario file (JSON)
    pub file: PathBuf,
    /// How to show the answer.
    #[command(flatten)]
    pub showing: Showing,
}

/// How to show an answer.
#[derive(Debug, Clone, Copy, Args)]
pub struct Showing {
    /// Print the result as JSON instead of text
    #[arg(long)]
    pub json: bool,
    /// Print the tables and the small print as well
    #[arg(long)]
    pub more: bool,
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
    /// Luck number: the same number meets the same fires again, and so gives the same answer
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
    pub fn same_luck(&self) -> SameLuck {
        SameLuck { seed: self.seed, threads: self.threads() }
    }

    /// Threads to use.
    pub fn threads(&self) -> usize {
        threads_or_all(self.threads)
    }

    /// The same as a budget.
    pub fn budget(&self) -> Budget {
        Budget { replications: self.runs, seed: self.seed, threads: self.threads() }
    }
}

/// Where charts go.
#[derive(Debug, Args)]
pub struct Charts {
    /// Folder for the charts; out/ and the name of the scenario's file when left out
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
    /// Write no charts
    #[arg(long, conflicts_with = "out")]
    pub no_charts: bool,
    /// Draw the charts as large as an A3 sheet, for a wall or a projector
    #[arg(long, conflicts_with = "no_charts")]
    pub wall: bool,
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
    /// Luck number: the same number meets the same fires again
    #[arg(long, default_value = "1")]
    pub seed: u64,
    /// Threads to use; all cores when left out
    #[arg(long, value_parser = clap::value_parser!(u16).range(1..=1024))]
    pub threads: Option<u16>,
}

impl Hold {
    /// Runs, seed and threads as a budget.
    pub fn budget(&self) -> Budget {
        Budget { replications: self.runs, seed: self.seed, threads: threads_or_all(self.threads) }
    }
}
