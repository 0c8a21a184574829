//! The figures of `compare`.

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::options_compared::{Apart, Comparison, Differences, Interval, Row};

use super::together::TogetherFigures;
use super::unlike::Unlike;
use crate::say::Chances;
use crate::shared::against::Against;

/// The figures of `compare`.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct CompareFigures {
    /// The plan as it stands, then the options in the order given.
    pub options: Vec<OptionFigures>,
    /// Place in `options`, from 1, of the one with the lowest chance, of those with a lower one than as it stands.
    #[serde(serialize_with = "crate::shared::closed_words::from_one_or_null")]
    pub best: Option<usize>,
    /// Places in `options`, from 1, of those that cannot be told apart from the best.
    #[serde(serialize_with = "crate::shared::closed_words::all_from_one")]
    pub as_good_as_best: Vec<usize>,
    /// Whether the lines run short in more than half of the fires with every option.
    pub none_saves: bool,
    /// What the files compared ask for differently; none where all ask for the same fire and judge it alike.
    pub unlike: Option<Unlike>,
    /// What the options of one file do together.
    pub together: TogetherFigures,
}

/// An option, or first the plan as it stands.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct OptionFigures {
    /// Its name; `as it stands` or a scenario's title for the first.
    pub name: String,
    /// What it costs, in the scenario's own currency.
    pub cost: Option<f64>,
    /// Simulated fires.
    pub replications: u64,
    /// Share of fires in which the lines run short.
    pub interruption_probability: f64,
    /// Lower end of its 95% interval.
    pub ci_low: f64,
    /// Upper end.
    pub ci_high: f64,
    /// What the 95% of that interval are of.
    pub interval: Interval,
    /// Share of fires in which the reserve is drawn on.
    #[serde(rename = "reserve_touched_share")]
    pub reserve_touched: f64,
    /// Minutes short a fire, mean.
    pub interrupted_minutes_mean: f64,
    /// The attack engine's lowest level, mean.
    pub lowest_engine_gal_mean: f64,
    /// The first drop tank's lowest level since the pump first drew, mean.
    pub lowest_drop_tank_gal_mean: Option<f64>,
    /// Flow delivered over the watch, mean.
    pub flow_gpm_mean: f64,
    /// How much higher each figure is than as it stands; none for that plan itself.
    #[serde(rename = "differences")]
    pub higher_by: Option<DifferenceFigures>,
    /// What can be said against the plan as it stands; none for that plan itself.
    #[serde(rename = "effect")]
    pub verdict: Option<Against>,
    /// Whether it changes nothing in any of these fires.
    pub never_binds: bool,
    /// What each fire of 100 fewer that runs short costs; none unless the chance is lower and costs are known.
    pub cost_of_one_in_100: Option<f64>,
    /// Whether nothing at the same or lower cost does as well; none where a cost is not known.
    pub worth_having: Option<bool>,
}

/// Differences of one option from the plan as it stands, each with its 95% interval.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct DifferenceFigures {
    /// Share of fires in which the lines run short.
    #[serde(rename = "interruption_probability_higher_by")]
    pub interruption_probability: Apart,
    /// Share of fires in which the reserve is drawn on.
    #[serde(rename = "reserve_touched_higher_by")]
    pub reserve_touched: Apart,
    /// Minutes short a fire; none with fewer than two fires, as below.
    #[serde(rename = "interrupted_minutes_higher_by")]
    pub interrupted_minutes_mean: Option<Apart>,
    /// The attack engine's lowest level.
    #[serde(rename = "lowest_engine_gal_mean_higher_by")]
    pub lowest_engine_gal_mean: Option<Apart>,
    /// Flow delivered over the watch.
    #[serde(rename = "flow_gpm_mean_higher_by")]
    pub flow_gpm_mean: Option<Apart>,
}

impl CompareFigures {
    /// From what was found out.
    pub fn new(
        found: &Comparison,
        unlike: Option<Unlike>,
        together: TogetherFigures,
    ) -> CompareFigures {
        let options: Vec<OptionFigures> = found.rows.iter().map(option).collect();
        CompareFigures {
            best: found.best,
            as_good_as_best: found.as_good_as_best.clone(),
            none_saves: options.iter().all(|one| one.interruption_probability > 0.5),
            unlike,
            together,
            options,
        }
    }

    /// What is worth its cost, the dearest last; empty where costs are not known or nothing is.
    pub fn worth_buying(&self) -> Vec<&OptionFigures> {
        let mut bought: Vec<&OptionFigures> = (self.options.iter())
            .filter(|one| one.worth_having == Some(true) && one.lowers_chance())
            .collect();
        let cost = |one: &OptionFigures| one.cost.unwrap_or(0.0);
        bought.sort_by(|a, b| cost(a).total_cmp(&cost(b)));
        bought
    }

    /// Of those that make no shortfall rarer and each surely shorter the one that does most; none where nothing does.
    pub fn shortest(&self) -> Option<&OptionFigures> {
        let shorter = self.options.iter().filter(|one| one.verdict == Some(Against::FewerMinutes));
        shorter.min_by(|a, b| a.interrupted_minutes_mean.total_cmp(&b.interrupted_minutes_mean))
    }

    /// Whether every cost is known, so that something can be said of what to buy.
    pub fn has_costs(&self) -> bool {
        self.options.iter().any(|one| one.worth_having.is_some())
    }
}

impl OptionFigures {
    /// How often the lines run short.
    pub fn chances(&self) -> Chances {
        Chances::of(self.interruption_probability, self.replications)
    }

    /// Whether the lines run short less often than as it stands.
    pub fn lowers_chance(&self) -> bool {
        self.verdict == Some(Against::LowerChance)
    }
}

fn option(row: &Row) -> OptionFigures {
    OptionFigures {
        name: row.name.clone(),
        cost: row.cost,
        replications: row.replications,
        interruption_probability: row.interruption_probability,
        ci_low: row.ci_low,
        ci_high: row.ci_high,
        interval: Interval::Single,
        reserve_touched: row.reserve_touched,
        interrupted_minutes_mean: row.interrupted_minutes_mean,
        lowest_engine_gal_mean: row.lowest_engine_gal_mean,
        lowest_drop_tank_gal_mean: row.lowest_drop_tank_gal_mean,
        flow_gpm_mean: row.flow_gpm_mean,
        higher_by: row.differences.as_ref().map(differences),
        verdict: row.verdict.map(Against::from),
        never_binds: row.never_binds,
        cost_of_one_in_100: row.cost_of_a_point,
        worth_having: row.worth_having,
    }
}

fn differences(of: &Differences) -> DifferenceFigures {
    DifferenceFigures {
        interruption_probability: of.interruption_probability,
        reserve_touched: of.reserve_touched,
        interrupted_minutes_mean: of.interrupted_minutes_mean,
        lowest_engine_gal_mean: of.lowest_engine_gal_mean,
        flow_gpm_mean: of.flow_gpm_mean,
    }
}
