//! Arguments of commands that make pages.

use std::path::PathBuf;

use answers::Date;
use clap::Args;
use scenario_file::Units;

use super::plan_changes::Changes;
use super::shared_groups::{Batch, Charts, Scenario};
use super::values::{day, share};
use crate::today::today;

/// A size of paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
pub enum PaperSize {
    /// 8.5 x 11 in
    Letter,
    /// 210 x 297 mm
    A4,
}

/// Where pages go, and on which paper.
#[derive(Debug, Args)]
pub struct Pages {
    /// Folder for the pages; out/ and the name of the scenario's file when left out
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
    /// Write no pages
    #[arg(long, conflicts_with = "out")]
    pub no_pages: bool,
    /// The paper; letter for a scenario in US units and a4 for a metric one when left out
    #[arg(long, value_name = "SIZE")]
    pub paper: Option<PaperSize>,
    /// The day on the pages, as 2026-03-01; today when left out
    #[arg(long, value_name = "DAY", value_parser = day)]
    pub date: Option<Date>,
}

impl Pages {
    /// Where they go, as for charts.
    pub fn charts(&self) -> Charts {
        Charts { out: self.out.clone(), no_charts: self.no_pages, wall: false }
    }

    /// The paper for a scenario in these units.
    pub fn format(&self, units: Units) -> paper::Format {
        match (self.paper, units) {
            (Some(PaperSize::Letter), _) | (None, Units::Us) => paper::Format::Letter,
            (Some(PaperSize::A4), _) | (None, Units::Metric) => paper::Format::A4,
        }
    }

    /// The day on them.
    pub fn day(&self) -> Date {
        self.date.unwrap_or_else(today)
    }
}

/// `card`, `handout`.
#[derive(Debug, Args)]
pub struct PaperArguments {
    /// The scenario.
    #[command(flatten)]
    pub scenario: Scenario,
    /// The plan, changed.
    #[command(flatten)]
    pub changes: Changes,
    /// The batch.
    #[command(flatten)]
    pub batch: Batch,
    /// The pages.
    #[command(flatten)]
    pub pages: Pages,
}

/// `report`.
#[derive(Debug, Args)]
pub struct ReportArguments {
    /// As the others.
    #[command(flatten)]
    pub paper: PaperArguments,
    /// Chance of interruption to stay below, as 5% or 0.05
    #[arg(long, default_value = "5%", value_parser = share)]
    pub target: f64,
}
