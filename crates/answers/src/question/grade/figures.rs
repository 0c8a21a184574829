//! The figures of `grade`.

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::evidence::Evidence;
use shuttle_report::grade::{self, GradeAnswer, RuleResult, SiteGrade};
use shuttle_report::grading_rules::{Also, GradingRule, Seen};

use super::evidence::EvidenceFigures;
use crate::shared::holding::Binds;

/// The figures of `grade`. A flow that holds is unbroken in at least `share` of fires, from the minute the rule
/// names to the end.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct GradeFigures {
    /// Share of fires in which a flow must hold.
    pub share: f64,
    /// The places, one a scenario.
    pub places: Vec<Place>,
    /// The rules, in the order asked: the first ranks.
    pub rules: Vec<RuleFigures>,
    /// Sets of fill sites, best first.
    pub ranked: Vec<RankedSites>,
    /// What a survey asks for, one sheet a place.
    pub evidence: Vec<EvidenceFigures>,
}

/// A place that is graded.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct Place {
    /// The scenario's title.
    pub title: String,
}

/// A rule. Times count from the arrival of the first engine.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct RuleFigures {
    /// What it is called on the command line.
    pub key: &'static str,
    /// The flow without which there is no credit.
    pub minimum_gpm: f64,
    /// It must flow from this minute on.
    pub within_min: f64,
    /// A higher flow reached by this minute is credited; null: only the minimum counts.
    pub higher_within_min: Option<f64>,
    /// How long the flow must be kept.
    pub duration_min: f64,
    /// The farthest a source may lie, one way.
    pub source_within_mi: Option<f64>,
    /// Where the numbers are from.
    pub source: &'static str,
    /// Its edition.
    pub edition: &'static str,
    /// Whether the source was read; else the numbers are from memory.
    pub source_was_read: bool,
    /// What else it asks for and a scenario does not say.
    pub not_known: NotKnown,
}

/// What a rule asks for and a scenario does not say.
#[derive(Debug, Clone, Default, Serialize, JsonSchema)]
pub struct NotKnown {
    /// Whether the source must be there all year and in a 50-year drought.
    pub source_all_year: bool,
    /// How near a suction point the scene must lie.
    pub suction_point_within_ft: Option<f64>,
    /// The pump that the first engine needs.
    pub first_engine_pump_gpm: Option<f64>,
    /// How near the fire station the property must lie.
    pub station_within_mi: Option<f64>,
}

/// A set of fill sites of one place.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct RankedSites {
    /// Its place, counted from 0.
    pub place: usize,
    /// The fill sites used.
    pub sites: Vec<SiteFigures>,
    /// What each tanker is credited with by hand.
    pub credits: Vec<Credit>,
    /// Their sum.
    pub hand_gpm: f64,
    /// Where least passes by hand; null where nothing limits.
    pub tightest: Option<Tightest>,
    /// What counts by hand: the sum, no more than passes there.
    pub counts_gpm: f64,
    /// One a rule, in their order.
    pub results: Vec<ResultFigures>,
}

/// A fill site of a set.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct SiteFigures {
    /// Its name.
    pub name: String,
    /// Its distance, the longer of the two ways; null where it is not stated.
    pub one_way_mi: Option<f64>,
}

/// What one tanker is credited with by hand.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct Credit {
    /// Its name.
    pub name: String,
    /// The site it fills at.
    pub fill_site: String,
    /// Its tank.
    pub tank_gal: f64,
    /// Fill, round trip and discharge with all handling.
    pub cycle_min: f64,
    /// Tank less 10% over that.
    pub credit_gpm: f64,
}

/// Where least passes by hand.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct Tightest {
    /// The place.
    pub name: String,
    /// What passes.
    pub cap_gpm: f64,
}

/// Whether a rule is met.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Passes {
    /// The minimum is shown to hold.
    Yes,
    /// It is shown not to, or the source lies too far.
    No,
    /// Not clear from the fires simulated.
    NotClear,
}

/// One rule and one set of fill sites.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct ResultFigures {
    /// The rule's key.
    pub rule: &'static str,
    /// Whether it is met.
    pub passes: Passes,
    /// Whether every source lies near enough; null where no distance or no limit is stated.
    pub near_enough: Option<bool>,
    /// The greatest flow shown to hold; null where none is.
    pub held_gpm: Option<f64>,
    /// Flows up to this one may hold too: not clear from the fires simulated.
    pub not_clear_up_to_gpm: Option<f64>,
    /// The least flow above it that is shown not to hold.
    pub fails_gpm: Option<f64>,
    /// Why that one breaks.
    pub binds: Option<Binds>,
    /// Share of that flow's fires in which the crew had no water in time.
    pub late_share: f64,
    /// What of the flow that holds comes only once, from first loads and full tanks.
    pub first_loads_gal: Option<f64>,
    /// Whether the rule's minimum itself is more than passes by hand: then it passes on first loads only.
    pub minimum_above_cap: bool,
    /// Whether a greater flow was seen to hold where a lesser one fails.
    pub uneven: bool,
    /// Fires simulated.
    pub replications: u64,
}

impl GradeFigures {
    /// From what was found.
    pub fn new(found: &GradeAnswer, sheets: &[Evidence]) -> GradeFigures {
        GradeFigures {
            share: found.share,
            places: found.titles.iter().map(|title| Place { title: title.clone() }).collect(),
            rules: found.rules.iter().map(|rule| rule_figures(rule)).collect(),
            ranked: found.ranked.iter().map(ranked).collect(),
            evidence: sheets.iter().map(EvidenceFigures::new).collect(),
        }
    }
}

fn rule_figures(rule: &GradingRule) -> RuleFigures {
    let mut not_known = NotKnown::default();
    for also in rule.also {
        match *also {
            Also::AllYear => not_known.source_all_year = true,
            Also::SuctionPointWithin(feet) => not_known.suction_point_within_ft = Some(feet),
            Also::FirstEnginePump(gpm) => not_known.first_engine_pump_gpm = Some(gpm),
            Also::PropertyWithin(miles) => not_known.station_within_mi = Some(miles),
        }
    }
    RuleFigures {
        key: rule.key,
        minimum_gpm: rule.minimum_gpm,
        within_min: rule.within_min,
        higher_within_min: rule.higher_within_min,
        duration_min: rule.duration_min,
        source_within_mi: rule.source_within_miles,
        source: rule.source,
        edition: rule.edition,
        source_was_read: rule.seen == Seen::Seen,
        not_known,
    }
}

fn ranked(one: &SiteGrade) -> RankedSites {
    RankedSites {
        place: one.scenario,
        sites: (one.sites.iter().zip(&one.site_miles))
            .map(|(name, miles)| SiteFigures { name: name.clone(), one_way_mi: *miles })
            .collect(),
        credits: (one.credits.iter())
            .map(|credit| Credit {
                name: credit.name.clone(),
                fill_site: credit.fill_site.clone(),
                tank_gal: credit.tank_gal,
                cycle_min: credit.cycle_min,
                credit_gpm: credit.credit_gpm,
            })
            .collect(),
        hand_gpm: one.hand_gpm,
        tightest: (one.tightest.as_ref())
            .map(|(name, cap)| Tightest { name: name.clone(), cap_gpm: *cap }),
        counts_gpm: one.counts_gpm,
        results: one.results.iter().map(result).collect(),
    }
}

fn result(one: &RuleResult) -> ResultFigures {
    ResultFigures {
        rule: one.rule,
        passes: match one.verdict {
            grade::Verdict::Pass => Passes::Yes,
            grade::Verdict::Fail => Passes::No,
            grade::Verdict::NotClear => Passes::NotClear,
        },
        near_enough: one.near_enough,
        held_gpm: one.held_gpm,
        not_clear_up_to_gpm: one.not_clear_up_to_gpm,
        fails_gpm: one.fails_gpm,
        binds: one.binds.map(Binds::of),
        late_share: one.late_share,
        first_loads_gal: one.first_loads_gal,
        minimum_above_cap: one.minimum_above_cap,
        uneven: one.uneven,
        replications: one.replications,
    }
}
