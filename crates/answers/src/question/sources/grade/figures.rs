//! The figures of `grade`.

mod by_hand;

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::by_aid::HeldWith;
use shuttle_report::evidence::Evidence;
use shuttle_report::grade::{GradeAnswer, RuleResult, SiteGrade, Verdict};

pub use self::by_hand::{AidKey, aid_key};
use self::by_hand::{AloneFigures, HandFigures, alone, hand_figures};
use super::evidence::EvidenceFigures;
use super::evidence::others_known;
use super::rule_figures::{ConditionChecked, RuleFigures, condition, is_met, rule_figures};
use super::shown_figures::{DrillKey, NotShownFigures, drill_key, not_shown};
use super::tables::has_open;
use crate::shared::holding::Binds;
use crate::shared::luck::SharedLuck;
use crate::shared::people::PeopleFigures;
use crate::shared::station::CapFigures;

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
    /// Rules that are known and were not asked about.
    pub other_rules: Vec<RuleFigures>,
    /// Sets weighed by hand; those with a flow that was simulated are in `ranked`.
    pub sets_weighed: usize,
    /// Whether these were every site alone, every pair, every three and all together; else the best were grown site
    /// by site.
    pub all_up_to_three: bool,
    /// Sets of fill sites, best first.
    pub ranked: Vec<RankedSites>,
    /// What each place is credited with and holds with the own tankers, with automatic aid, with all, each with the
    /// best set for it; empty where no aid is listed.
    pub by_aid: Vec<ByAid>,
    /// Every fill site with all tankers at it, by hand, under the first rule.
    pub all_at_one_site: Vec<AloneFigures>,
    /// What a survey asks for, one sheet a place.
    pub evidence: Vec<EvidenceFigures>,
}

/// A place that is graded.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct Place {
    /// Its number, from 1, in the order asked.
    pub place_number: usize,
    /// The scenario's title.
    pub title: String,
    /// What a whole fire was taken to share.
    pub shared_luck: SharedLuck,
    /// People for the water.
    pub people: PeopleFigures,
}

/// A set of fill sites of one place.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct RankedSites {
    /// Its place: the number it has among the `places`.
    #[serde(rename = "place_number", serialize_with = "crate::shared::closed_words::from_one")]
    pub place: usize,
    /// Its number, from 1, the best first.
    pub set_number: usize,
    /// Fires simulated, all rules together.
    pub replications: u64,
    /// The fill sites of the set.
    pub sites: Vec<SiteFigures>,
    /// One a rule.
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

/// A place by whose tankers come, each time with the best set of fill sites.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct ByAid {
    /// The place: the number it has among the `places`.
    #[serde(rename = "place_number", serialize_with = "crate::shared::closed_words::from_one")]
    pub place: usize,
    /// Whose tankers come: those, and all before them in the list.
    pub aid: AidKey,
    /// How many there are.
    #[serde(rename = "tanker_count")]
    pub tankers: usize,
    /// The most that any set of fill sites is credited with by hand under the first rule.
    pub credit_gpm: f64,
    /// The fill sites of that set.
    pub credit_with: Vec<String>,
    /// The greatest flow shown to hold.
    pub held_gpm: Option<f64>,
    /// The fill sites with which.
    pub held_with: Vec<String>,
    /// Flows up to this one may hold too.
    pub not_clear_up_to_gpm: Option<f64>,
}

/// Whether a rule is met.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Passes {
    /// The minimum is shown to hold, it is credited by hand, and everything else the rule asks for is stated and met.
    Yes,
    /// The same, but the scenario says nothing of something the rule asks for: the text says "passes?". Never of a flow
    /// alone.
    AsFarAsStated,
    /// It is shown not to, less is credited by hand, a condition is not met, or a drill fell short.
    No,
    /// Not clear from the fires simulated.
    NotClear,
}

/// One rule and one set of fill sites.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct ResultFigures {
    /// The rule.
    #[serde(rename = "grading_rule")]
    pub rule: String,
    /// Whether it is met.
    pub passes: Passes,
    /// Whether the flow alone is enough.
    pub flow_passes: Passes,
    /// What else it asks for, and whether that is met.
    #[serde(rename = "conditions_checked")]
    pub conditions: Vec<ConditionChecked>,
    /// What drills say of the rule's flow.
    pub drill: DrillKey,
    /// What a survey sees and the scenario does not state.
    pub not_shown: Vec<NotShownFigures>,
    /// Whether what counts by hand is the minimum or more.
    pub by_hand_reached: bool,
    /// What is credited by hand.
    pub hand: HandFigures,
    /// The fill sites that the flow which holds is taken from; others of the set are left unused.
    pub held_with: Vec<String>,
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
    /// Where least passes by hand over the rule's time, however many tankers come.
    pub tightest: Option<CapFigures>,
    /// What of the flow that holds comes only once, from first loads and full tanks.
    pub first_loads_gal: Option<f64>,
    /// Whether the rule's minimum itself is more than passes there: then first loads alone carry it.
    pub minimum_above_cap: bool,
    /// Whether a greater flow was seen to hold where a lesser one fails.
    pub uneven: bool,
    /// Fires simulated.
    pub replications: u64,
}

impl GradeFigures {
    /// From what was found.
    pub fn new(
        found: &GradeAnswer,
        sheets: &[Evidence],
        shared: Vec<(SharedLuck, PeopleFigures)>,
    ) -> GradeFigures {
        GradeFigures {
            share: found.share,
            places: (found.titles.iter().zip(shared).enumerate())
                .map(|(place, (title, (shared_luck, people)))| Place {
                    place_number: place + 1,
                    title: title.clone(),
                    shared_luck,
                    people,
                })
                .collect(),
            rules: found.rules.iter().map(rule_figures).collect(),
            other_rules: others_known(&found.rules).map(rule_figures).collect(),
            sets_weighed: found.weighed,
            all_up_to_three: found.all_up_to_three,
            ranked: (found.ranked.iter().enumerate())
                .map(|(number, one)| ranked(number + 1, one))
                .collect(),
            by_aid: found.held_with.iter().map(by_aid).collect(),
            all_at_one_site: found.alone.iter().map(alone).collect(),
            evidence: sheets.iter().map(EvidenceFigures::new).collect(),
        }
    }
}

fn by_aid(one: &HeldWith) -> ByAid {
    ByAid {
        place: one.scenario,
        aid: aid_key(one.aid),
        tankers: one.tankers,
        credit_gpm: one.credit_gpm,
        credit_with: one.credit_with.clone(),
        held_gpm: one.held_gpm,
        held_with: one.held_with.clone(),
        not_clear_up_to_gpm: one.not_clear_up_to_gpm,
    }
}

fn ranked(set_number: usize, one: &SiteGrade) -> RankedSites {
    RankedSites {
        place: one.scenario,
        set_number,
        replications: one.results.iter().map(|result| result.replications).sum(),
        sites: (one.sites.iter().zip(&one.site_miles))
            .map(|(name, miles)| SiteFigures { name: name.clone(), one_way_mi: *miles })
            .collect(),
        results: one.results.iter().map(result).collect(),
    }
}

impl Passes {
    /// A verdict by figures.
    ///
    /// - Given: whether the scenario says nothing of something the rule asks for.
    pub fn of(verdict: Verdict, has_open: bool) -> Passes {
        match verdict {
            Verdict::Pass if has_open => Passes::AsFarAsStated,
            Verdict::Pass => Passes::Yes,
            Verdict::Fail => Passes::No,
            Verdict::NotClear => Passes::NotClear,
        }
    }

    /// In a word: the same of one address by itself and in the table of all.
    pub fn word(self) -> &'static str {
        match self {
            Passes::Yes => "passes",
            Passes::AsFarAsStated => "passes?",
            Passes::No => "fails",
            Passes::NotClear => "open",
        }
    }
}

fn result(one: &RuleResult) -> ResultFigures {
    ResultFigures {
        rule: one.rule.to_string(),
        passes: Passes::of(one.verdict, has_open(one)),
        flow_passes: Passes::of(one.flow, false),
        conditions: (one.conditions.iter())
            .map(|(asked, state)| ConditionChecked {
                condition: condition(asked),
                is_met: is_met(*state),
            })
            .collect(),
        drill: drill_key(one.drilled),
        not_shown: one.not_shown.iter().map(not_shown).collect(),
        by_hand_reached: one.by_hand_reached,
        hand: hand_figures(&one.hand),
        held_with: one.held_with.clone(),
        held_gpm: one.held_gpm,
        not_clear_up_to_gpm: one.not_clear_up_to_gpm,
        fails_gpm: one.fails_gpm,
        binds: one.binds.map(Binds::of),
        late_share: one.late_share,
        tightest: one.tightest.as_ref().map(|(station, gpm)| CapFigures::of(station, *gpm)),
        first_loads_gal: one.first_loads_gal,
        minimum_above_cap: one.minimum_above_cap,
        uneven: one.uneven,
        replications: one.replications,
    }
}
