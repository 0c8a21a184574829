//! The figures of many addresses.

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::district::{Fails, PlaceResult, PlaceRow};
use shuttle_report::grading_rules::GradingRule;

use super::Found;
use crate::question::grade::figures::Passes;
use crate::question::grade::rule_figures::{
    ConditionFigures, RuleFigures, condition, rule_figures,
};
use crate::question::grade::shown_figures::{NotShownFigures, not_shown};

/// The figures of `grade` for many addresses: only the least that each rule credits is simulated.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct AddressFigures {
    /// Share of fires in which a flow must hold.
    pub share: f64,
    /// The rules, in the order asked.
    pub rules: Vec<RuleFigures>,
    /// The edition of their schedules that the scenarios state; null where they state none, or not one and the same.
    pub edition: Option<String>,
    /// How many addresses pass, one a rule.
    #[serde(rename = "counts_by_rule")]
    pub counts: Vec<RuleCounts>,
    /// What a survey sees and the first scenario does not state, under the first rule.
    pub not_shown: Vec<NotShownFigures>,
    /// Tankers that count as own because the scenarios do not say whose they are.
    pub counted_as_own: usize,
    /// One an address.
    pub addresses: Vec<AddressRow>,
    /// The scenarios' options, the one with which most more addresses pass first.
    #[serde(rename = "option_effects")]
    pub options: Vec<OptionFigures>,
}

/// How many addresses meet a rule. The text calls those open that are counted as neither passing nor failing.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct RuleCounts {
    /// The rule.
    pub grading_rule: String,
    /// That pass.
    pub pass_count: usize,
    /// That pass as far as the file says, which says nothing of something the rule asks for.
    pub as_far_as_stated_count: usize,
    /// Without a road to a fill site.
    pub no_road_count: usize,
    /// Too close to tell from the fires simulated.
    pub not_clear_count: usize,
    /// That fail.
    pub fail_count: usize,
}

/// One address.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct AddressRow {
    /// Its name.
    pub name: String,
    /// The fill site with the most credit by hand; null where none serves it.
    pub best_site: Option<String>,
    /// Its road, one way.
    pub best_site_mi: Option<f64>,
    /// The set of fill sites with the most credit by hand.
    pub best_set: Vec<String>,
    /// What that is credited with, the first rule's tankers.
    pub credit_gpm: f64,
    /// What counts by the travel rule; null where a distance is not stated.
    pub by_travel_rule_gpm: Option<f64>,
    /// With the own tankers alone, and the best set for them.
    pub own_gpm: f64,
    /// With all aid, and the best set for it.
    pub with_all_aid_gpm: f64,
    /// Road from the station; null where it is not stated.
    pub station_mi: Option<f64>,
    /// To the nearest suction point; null where it is not stated.
    pub suction_point_ft: Option<f64>,
    /// One a rule.
    #[serde(rename = "by_rule")]
    pub results: Vec<AddressResult>,
}

/// A rule at an address.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct AddressResult {
    /// The rule.
    pub grading_rule: String,
    /// Whether it is met.
    pub passes: Passes,
    /// The fill sites with which.
    pub with: Vec<String>,
    /// Conditions that are not met.
    pub not_met: Vec<ConditionFigures>,
    /// What counts by hand, where that is less than the minimum.
    pub too_little_gpm: Option<f64>,
    /// Whether a drill held less, or had its water too late.
    pub drill_fell_short: bool,
    /// Whether no road to a fill site is stated.
    pub no_road: bool,
    /// Whether the flow does not hold.
    pub flow_fails: bool,
    /// The cause of the most first breaks of the flow.
    #[schemars(schema_with = "crate::shared::closed_words::cause_or_null")]
    pub flow_breaks_by: Option<&'static str>,
    /// Whether the crew has no water in time.
    #[serde(rename = "no_water_in_time")]
    pub late: bool,
    /// Conditions of which the file says nothing.
    pub not_known: Vec<ConditionFigures>,
    /// Fires simulated.
    pub replications: u64,
}

/// An option, and what it does under the first rule. Here an address passes that does so as far as is stated, too.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct OptionFigures {
    /// Its name.
    pub name: String,
    /// What it costs.
    pub cost: Option<f64>,
    /// Addresses that pass with it and not without.
    pub more_pass: Vec<String>,
    /// Addresses that pass without it and not with it.
    pub fewer_pass: Vec<String>,
}

impl AddressFigures {
    /// From what was found.
    pub(super) fn new(found: &Found) -> AddressFigures {
        AddressFigures {
            share: found.share,
            rules: found.rules.iter().map(rule_figures).collect(),
            edition: found.edition.clone(),
            counts: (found.rules.iter().enumerate())
                .map(|(place, rule)| RuleCounts::of(found, place, rule))
                .collect(),
            not_shown: found.not_shown.iter().map(not_shown).collect(),
            counted_as_own: found.silent_aid,
            addresses: found.rows.rows.iter().map(|one| row(&found.rules, one)).collect(),
            options: (found.options.iter())
                .map(|one| OptionFigures {
                    name: one.name.clone(),
                    cost: one.cost,
                    more_pass: one.more.clone(),
                    fewer_pass: one.fewer.clone(),
                })
                .collect(),
        }
    }
}

impl RuleCounts {
    /// Under a rule, by its place in the list.
    pub(super) fn of(found: &Found, place: usize, rule: &GradingRule) -> RuleCounts {
        let number = |test: &dyn Fn(&PlaceResult) -> bool| {
            let results = found.rows.rows.iter().filter_map(|row| row.results.get(place));
            results.filter(|one| test(one)).count()
        };
        RuleCounts {
            grading_rule: rule.key.to_string(),
            pass_count: number(&|one| passes(one) == Passes::Yes),
            as_far_as_stated_count: number(&|one| passes(one) == Passes::AsFarAsStated),
            no_road_count: number(&|one| one.no_road),
            not_clear_count: number(&|one| passes(one) == Passes::NotClear && !one.no_road),
            fail_count: number(&|one| passes(one) == Passes::No),
        }
    }
}

/// Whether a rule is met at an address.
pub(super) fn passes(one: &PlaceResult) -> Passes {
    Passes::of(one.verdict, !one.open.is_empty())
}

fn row(rules: &[GradingRule], row: &PlaceRow) -> AddressRow {
    let hand = row.hand.as_ref();
    AddressRow {
        name: row.name.clone(),
        best_site: row.best_site.as_ref().map(|(site, _)| site.clone()),
        best_site_mi: row.best_site.as_ref().and_then(|(_, miles)| *miles),
        best_set: row.best_set.clone(),
        credit_gpm: hand.map_or(0.0, |hand| hand.credited_gpm),
        by_travel_rule_gpm: hand.and_then(|hand| hand.by_travel_rule_gpm),
        own_gpm: row.own_gpm,
        with_all_aid_gpm: row.all_gpm,
        station_mi: row.station_miles,
        suction_point_ft: row.suction_point_ft,
        results: (rules.iter().zip(&row.results)).map(|(rule, one)| result(rule, one)).collect(),
    }
}

fn result(rule: &GradingRule, one: &PlaceResult) -> AddressResult {
    let not_met = one.fails.iter().filter_map(|fails| match fails {
        Fails::Condition(not_met) => Some(condition(not_met)),
        _ => None,
    });
    let flow = one.fails.iter().find_map(|fails| match fails {
        Fails::Flow(cause) => Some(*cause),
        _ => None,
    });
    let late = one.fails.contains(&Fails::Late);
    AddressResult {
        grading_rule: rule.key.to_string(),
        passes: passes(one),
        with: one.with.clone(),
        not_met: not_met.collect(),
        too_little_gpm: one.fails.iter().find_map(|fails| match fails {
            Fails::ByHand(gpm) => Some(*gpm),
            _ => None,
        }),
        drill_fell_short: one.fails.iter().any(|fails| matches!(fails, Fails::Drill(_))),
        no_road: one.no_road,
        flow_fails: flow.is_some() || late,
        flow_breaks_by: flow.flatten(),
        late,
        not_known: one.open.iter().map(condition).collect(),
        replications: one.replications,
    }
}
