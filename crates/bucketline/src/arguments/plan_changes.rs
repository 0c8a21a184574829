//! Changes to a plan that every command which reads a scenario takes in the same words.

use clap::Args;
use scenario_file::Asks;

use super::values::minutes;

/// Where the help lists them.
const HEADING: &str = "The plan, changed without editing its file";

/// Changes to who and what is there, and to any value.
#[derive(Debug, Clone, Default, Args)]
pub struct PlanChanges {
    /// Leave a unit, a source or a drop tank out, with what it brings; again for more
    #[arg(long, value_name = "NAME", help_heading = HEADING)]
    pub without: Vec<String>,
    /// Let a unit of the file's aid join; again for more
    #[arg(long, value_name = "NAME", help_heading = HEADING)]
    pub with: Vec<String>,
    /// Let all of the file's aid join
    #[arg(long, help_heading = HEADING)]
    pub all_aid: bool,
    /// All aid, and whoever is asked for after the alarm, comes so many minutes later
    #[arg(long, value_name = "MIN", help_heading = HEADING, value_parser = minutes)]
    pub late: Option<f64>,
    /// Any other value by its path of names, as "fill_sites/Otter pond/flow=400 gpm"; again for more
    #[arg(long, value_name = "PATH=VALUE", help_heading = HEADING)]
    pub set: Vec<String>,
}

/// These, and another attack flow.
#[derive(Debug, Clone, Default, Args)]
pub struct Changes {
    /// Another attack flow: 400, or steps by minutes after first water, as 150@0,500@20; in the scenario's units
    #[arg(long, value_name = "FLOW", help_heading = HEADING, allow_hyphen_values = true)]
    pub flow: Option<String>,
    /// The others.
    #[command(flatten)]
    pub plan: PlanChanges,
}

impl PlanChanges {
    /// As the reading of a scenario takes them.
    pub fn asks(&self) -> Asks {
        Asks {
            flow: None,
            late: self.late,
            with: self.with.clone(),
            all_aid: self.all_aid,
            without: self.without.clone(),
            set: self.set.clone(),
        }
    }
}

impl Changes {
    /// As the reading of a scenario takes them.
    pub fn asks(&self) -> Asks {
        Asks { flow: self.flow.clone(), ..self.plan.asks() }
    }
}
