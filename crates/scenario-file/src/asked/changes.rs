//! What can be asked for, as the command line has it, and what it came to.

use serde_json::Value as Json;
use shuttle_sim::FlowStep;

/// What is asked for, as it was typed.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Asks {
    /// The attack flow: `400`, or steps as `150@0,500@20`, minutes after first water.
    pub flow: Option<String>,
    /// Minutes by which all aid comes later.
    pub late: Option<f64>,
    /// Units of the file's aid that join.
    pub with: Vec<String>,
    /// All of the file's aid joins.
    pub all_aid: bool,
    /// Units, sources and drop tanks that are left out.
    pub without: Vec<String>,
    /// Other values, as `fill_sites/Otter pond/flow=400 gpm`.
    pub set: Vec<String>,
}

/// One thing asked for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Ask<'a> {
    Flow(&'a str),
    Late(f64),
    With(&'a str),
    AllAid,
    Without(&'a str),
    Set(&'a str),
}

impl Asks {
    /// Whether nothing is asked for.
    pub fn is_empty(&self) -> bool {
        self.each().is_empty()
    }

    /// One by one, in the order they are told.
    pub(super) fn each(&self) -> Vec<Ask<'_>> {
        let mut each: Vec<Ask<'_>> = self.flow.as_deref().map(Ask::Flow).into_iter().collect();
        each.extend(self.late.map(Ask::Late));
        each.extend(self.with.iter().map(|name| Ask::With(name)));
        each.extend(self.all_aid.then_some(Ask::AllAid));
        each.extend(self.without.iter().map(|name| Ask::Without(name)));
        each.extend(self.set.iter().map(|set| Ask::Set(set)));
        each
    }
}

impl Ask<'_> {
    /// As arguments of the command.
    pub(super) fn words(self) -> Vec<String> {
        let both = |option: &str, value: String| {
            // A value that looks like an option of its own goes behind "=".
            if value.starts_with('-') {
                vec![format!("{option}={value}")]
            } else {
                vec![option.to_owned(), value]
            }
        };
        match self {
            Ask::Flow(flow) => both("--flow", flow.to_owned()),
            Ask::Late(minutes) => both("--late", minutes.to_string()),
            Ask::With(name) => both("--with", name.to_owned()),
            Ask::AllAid => vec!["--all-aid".to_owned()],
            Ask::Without(name) => both("--without", name.to_owned()),
            Ask::Set(set) => both("--set", set.to_owned()),
        }
    }

    /// As a message names it: `--without "Otter pond"`.
    pub(super) fn argument(self) -> String {
        match self {
            Ask::Flow(value) => format!("--flow {value}"),
            Ask::Late(minutes) => format!("--late {minutes}"),
            Ask::AllAid => "--all-aid".to_owned(),
            Ask::With(value) => format!("--with \"{value}\""),
            Ask::Without(value) => format!("--without \"{value}\""),
            Ask::Set(value) => format!("--set \"{value}\""),
        }
    }
}

/// What was changed in a scenario beside its file.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Asked {
    /// The changes, in the order they are told; none: the scenario is as its file has it.
    pub changes: Vec<AskedChange>,
    /// The same as arguments of the command, to ask another question of the same plan.
    pub words: Vec<String>,
}

/// One change.
#[derive(Debug, Clone, PartialEq)]
pub enum AskedChange {
    /// Another attack flow: its steps, minutes after first water and gpm.
    Flow(Vec<FlowStep>),
    /// Everything that is not asked for at the alarm comes later, by minutes.
    Late {
        /// By how much, minutes.
        minutes: f64,
        /// Which units; entries of the file by their names.
        units: Vec<String>,
    },
    /// Units of the aid join, by name.
    With(Vec<String>),
    /// Something is left out.
    Without {
        /// Its name, as asked.
        name: String,
        /// What goes with it.
        goes_too: Vec<Gone>,
    },
    /// Another value.
    Set {
        /// Its path by name, as asked.
        path: String,
        /// The value, as asked.
        value: String,
        /// What the file has there, if anything.
        before: Option<Json>,
    },
}

/// What goes with something that is left out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Gone {
    /// A drop tank that it brings.
    DropTank,
    /// All drop tanks: the engine that stays is too far from them to draft.
    AllDropTanks,
    /// The fill site to which this tanker was assigned: it now chooses among those that are left.
    AssignmentOf(String),
    /// A one-lane stretch of the road to it.
    OneLane,
    /// The pump that it brings to this fill site.
    PumpAt(String),
}
