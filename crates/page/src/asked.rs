//! What the page may ask.

use scenario_file::Units;
use serde::Deserialize;

/// A question with all it depends on.
#[derive(Debug, Clone, Deserialize)]
pub struct Ask {
    /// Which question.
    #[serde(flatten)]
    pub question: Question,
    /// Most simulated fires, as the command's `--runs`.
    #[serde(default = "usual_runs")]
    pub runs: u64,
    /// Seed of all luck.
    #[serde(default = "usual_seed")]
    pub seed: u64,
    /// Whether a truck that carries water is a tender to the reader.
    #[serde(default)]
    pub tender: bool,
    /// Units of the answer; those of the scenario where they are not stated.
    #[serde(default)]
    pub units: Option<Unit>,
    /// Whether its pictures are wanted too.
    #[serde(default)]
    pub draws: bool,
}

/// As the command does where nothing else is said.
fn usual_runs() -> u64 {
    20_000
}

fn usual_seed() -> u64 {
    1
}

fn usual_target() -> f64 {
    0.05
}

fn usual_share() -> f64 {
    0.95
}

fn usual_beyond() -> usize {
    6
}

/// Units by their word in a scenario.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Unit {
    /// US gallons and miles.
    Us,
    /// Litres and kilometres.
    Metric,
}

impl From<Unit> for Units {
    fn from(unit: Unit) -> Units {
        match unit {
            Unit::Us => Units::Us,
            Unit::Metric => Units::Metric,
        }
    }
}

/// A question: the name of the command, and what the command can be told.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(tag = "question", rename_all = "snake_case")]
pub enum Question {
    /// How often the lines run short.
    Risk {
        /// Whether changes that may help are tried as well.
        tries_help: bool,
    },
    /// What the plan comes to by hand.
    Check,
    /// How many tankers.
    Size {
        /// Chance of running short to stay below.
        #[serde(default = "usual_target")]
        target: f64,
        /// Tankers to try beyond those listed.
        #[serde(default = "usual_beyond")]
        beyond: usize,
    },
    /// Whom to ask, and when.
    Request {
        /// Chance of running short to stay below.
        #[serde(default = "usual_target")]
        target: f64,
    },
    /// What if one thing is lost.
    Lose {
        /// Chance of running short to stay below.
        #[serde(default = "usual_target")]
        target: f64,
    },
    /// What flow can be held, and from which minute.
    Hold {
        /// Share of fires in which the flow must hold.
        #[serde(default = "usual_share")]
        share: f64,
    },
    /// What a minute or a hundred gpm is worth.
    Levers,
    /// Which fill site is good for what.
    Grade {
        /// Share of fires in which the flow must hold.
        #[serde(default = "usual_share")]
        share: f64,
    },
    /// How far from water a flow holds.
    Reach {
        /// The fill site that moves, by place in the list.
        #[serde(default)]
        site: usize,
        /// Share of fires in which the flow must hold.
        #[serde(default = "usual_share")]
        share: f64,
        /// The day, for the chart: nothing here knows a clock.
        today: Day,
    },
    /// Options side by side.
    Compare,
    /// What goes on the run card: whom to ask, the clock, and the levels that warn.
    Card,
}

/// A day, as the browser knows it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
pub struct Day {
    /// Year.
    pub year: i64,
    /// Month, from 1.
    pub month: u32,
    /// Day of the month, from 1.
    pub day: u32,
}

impl From<Day> for answers::Date {
    fn from(Day { year, month, day }: Day) -> answers::Date {
        answers::Date { year, month, day }
    }
}

impl Ask {
    /// Whether every number is one that the command line would take.
    pub(crate) fn is_within_limits(&self) -> bool {
        let share = match self.question {
            Question::Size { target, .. }
            | Question::Request { target }
            | Question::Lose { target } => target,
            Question::Grade { share }
            | Question::Reach { share, .. }
            | Question::Hold { share } => share,
            Question::Risk { .. }
            | Question::Check
            | Question::Levers
            | Question::Compare
            | Question::Card => 0.5,
        };
        let beyond = match self.question {
            Question::Size { beyond, .. } => beyond,
            _ => 0,
        };
        share > 0.0 && share < 1.0 && beyond <= 100 && (1..=1_000_000_000).contains(&self.runs)
    }
}
