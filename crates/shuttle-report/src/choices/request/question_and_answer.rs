//! What is asked of a mutual-aid request, and what is answered.

use serde::Serialize;

use super::spare::Spare;
use crate::decisions::target::Verdict;
use crate::decisions::told::{Apart, Verdict as Told};
use crate::runs::control::SameLuck;
use crate::units::Units;

/// What is asked.
#[derive(Debug, Clone, Copy)]
pub struct RequestQuestion {
    /// Chance of interruption to stay below.
    pub target: f64,
    /// Most runs for any one set.
    pub most_runs: u64,
    /// The seed and threads for all sets.
    pub luck: SameLuck,
    /// Most sets that are all tried; with more, units are added one by one. Usual: [`MOST_SETS`](super::MOST_SETS).
    pub most_sets: usize,
    /// Whether it is to stand the loss of any one unit or source as well, and of sets that do the one that is there
    /// soonest is taken.
    pub spare: bool,
    /// Units in which what makes up for a loss is round.
    pub units: Units,
}

/// A unit to ask for.
#[derive(Debug, Clone, Serialize)]
pub struct Unit {
    /// Its name.
    pub name: String,
    /// Its capacity, gal.
    pub capacity_gal: f64,
    /// When it is asked for, minutes after the alarm.
    pub requested_at_min: f64,
    /// How long it takes to come, minutes, mean.
    pub response_min: f64,
    /// Share of calls to which it comes.
    pub turnout: f64,
    /// Whether it brings a drop tank.
    pub brings_drop_tank: bool,
    /// The names of the fill sites whose pump it brings.
    pub brings_pump_to: Vec<String>,
    /// The call that brings it, from 0 in the order to ask; units of one call come together or not at all.
    pub call: usize,
    /// The request without it and those that come with it, or without one that is identical except for its name,
    /// where that was tried.
    pub without_it: Option<Around>,
}

/// The best set of one size.
#[derive(Debug, Clone, Serialize)]
pub struct SizeRow {
    /// How many units are asked for.
    pub units: usize,
    /// Sets of this size that were tried.
    pub sets: usize,
    /// The best of them.
    pub names: Vec<String>,
    /// Its runs.
    pub replications: u64,
    /// Its chance of interruption.
    pub interruption_probability: f64,
    /// Lower end of its confidence sequence, for all sets tried at once.
    pub ci_low: f64,
    /// Upper end.
    pub ci_high: f64,
    /// `Below` if the best is; `Above` if all are; `NotClear` otherwise.
    pub verdict: Verdict,
}

/// A change to a request.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum AidChange {
    /// Without this call, by the names of its units.
    Without(Vec<String>),
    /// With this one call more, by the names of its units.
    OneMore(Vec<String>),
    /// All of it asked for so many minutes later.
    Later(f64),
    /// Every unit, own ones too, sure to come.
    AllCome,
}

/// The request changed a little.
#[derive(Debug, Clone, Serialize)]
pub struct Around {
    /// What is changed.
    pub change: AidChange,
    /// Runs made with the request; where the same set stands among the losses, those, or in the table of sizes with
    /// more, those.
    pub replications: u64,
    /// Chance of interruption then, of those runs.
    pub interruption_probability: f64,
    /// How much higher the chance is than with the request as it stands; the intervals hold simultaneously.
    pub higher_by: Apart,
    /// What can be said, for all changes to the request simultaneously.
    pub told: Told,
}

/// The answer.
#[derive(Debug, Clone, Serialize)]
pub struct RequestAnswer {
    /// The plan's title.
    pub title: String,
    /// Chance of interruption to stay below.
    pub target: f64,
    /// Whether some set is shown to be below the target.
    pub meets_target: bool,
    /// What to ask for, in the order to ask; all available aid if no set meets the target.
    pub request: Vec<Unit>,
    /// Runs of that: all that are allowed.
    pub replications: u64,
    /// Its chance of interruption.
    pub interruption_probability: f64,
    /// Lower end.
    pub ci_low: f64,
    /// Upper end.
    pub ci_high: f64,
    /// By number of units, from none.
    pub sizes: Vec<SizeRow>,
    /// A smaller number that may already do, where the runs allowed did not make it clear.
    pub perhaps: Option<usize>,
    /// Every unit sure to come, where some may not.
    pub all_come: Option<Around>,
    /// Whether all sets up to the answer's size were tried, or units were added one by one.
    pub all_sets_tried: bool,
    /// Asked for later, by [`LATE`](super::LATE).
    pub late: Vec<Around>,
    /// One more of the units that are not asked for.
    pub one_more: Vec<Around>,
    /// Names of units whose coming makes no difference that is clear.
    pub add_nothing: Vec<String>,
    /// Names of units whose coming makes it significantly worse.
    pub in_the_way: Vec<String>,
    /// What it takes to have something to spare; `None` where that was not asked, or no set meets the target.
    pub spare: Option<Spare>,
    /// Share of its runs in which the reserve was touched.
    pub reserve_touched: f64,
    /// Where no set meets the target: causes of first shortfalls with all there are, by their keys, and their shares.
    pub held_back_by: Vec<(&'static str, f64)>,
    /// Seed of the random numbers.
    pub seed: u64,
    /// Whether it was stopped early.
    pub ended_early: bool,
}
