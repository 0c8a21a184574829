//! The figures of `grade`.

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::by_aid::HeldWith;
use shuttle_report::evidence::Evidence;
use shuttle_report::grade::{self, GradeAnswer, RuleResult, SiteGrade};
use shuttle_report::site_sets::{HandCredit, Travel};
use shuttle_report::survey::Aid;
use shuttle_report::worksheet::assignment::SiteBound;

use super::evidence::EvidenceFigures;
use super::rule_figures::{ConditionChecked, RuleFigures, condition, is_met, rule_figures};
use super::shown_figures::{DrillKey, NotShownFigures, drill_key, not_shown};
use crate::shared::holding::Binds;
use crate::shared::luck::SharedLuck;
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
}

/// A set of fill sites of one place.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct RankedSites {
    /// Its place: the number it has among the `places`.
    #[serde(rename = "place_number", serialize_with = "crate::shared::closed_words::from_one")]
    pub place: usize,
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

/// What a set is credited with by hand under a rule: each tanker goes to one site, by the best assignment.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct HandFigures {
    /// What each tanker is credited with.
    pub credits: Vec<Credit>,
    /// What each site passes.
    #[serde(rename = "site_credits")]
    pub sites: Vec<SiteCredit>,
    /// The sum of the credits.
    pub made_gpm: f64,
    /// What the sites pass of it.
    pub passes_gpm: f64,
    /// Where least passes at the scene; null where nothing limits.
    pub scene: Option<CapFigures>,
    /// What counts: what the sites pass, no more than the scene does.
    pub counts_gpm: f64,
    /// What the rule credits of that: without a higher flow its own and no more.
    pub credited_gpm: f64,
    /// How the road is reckoned in all that stands above: the lower of the two where the rule's `travels_by_rule` says
    /// so.
    pub travel: TravelKey,
    /// What counts by the speeds or minutes stated.
    pub by_speeds_gpm: f64,
    /// What counts with 0.65 + 1.70 x miles for each leg in place of them; null where a distance is not stated.
    pub by_travel_rule_gpm: Option<f64>,
    /// What counts with the department's own tankers alone.
    pub own_gpm: f64,
    /// With automatic aid.
    pub with_automatic_aid_gpm: f64,
    /// With all aid that is listed.
    pub with_all_aid_gpm: f64,
    /// Whether every assignment was weighed; else it was searched for.
    pub exact: bool,
    /// Tankers that would count and are left to stand: with them in line less would pass.
    pub stand_by: Vec<String>,
    /// Tankers that would count and come after the minute by which the flow must be reached: they are left out.
    #[serde(rename = "come_too_late")]
    pub late: Vec<String>,
    /// Tankers on automatic aid that are asked for after the alarm.
    pub asked_later: Vec<String>,
}

/// How the road is reckoned.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum TravelKey {
    /// By the speeds or minutes stated.
    Stated,
    /// By 0.65 + 1.70 x miles for each leg.
    Rule,
}

/// What one tanker is credited with by hand.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct Credit {
    /// Its name.
    pub name: String,
    /// Whose it is.
    pub aid: AidKey,
    /// The site it is assigned to.
    pub fill_site: String,
    /// Its tank.
    pub tank_gal: f64,
    /// Whether the tank is counted without 10% off.
    pub counted_whole: bool,
    /// Fill, round trip and discharge with all handling.
    #[serde(rename = "whole_cycle_min")]
    pub cycle_min: f64,
    /// The load counted over that.
    pub credit_gpm: f64,
    /// The cycle with 0.65 + 1.70 x miles for each leg; null where a distance is not stated.
    pub cycle_by_travel_rule_min: Option<f64>,
    /// The load counted over that.
    pub credit_by_travel_rule_gpm: Option<f64>,
}

/// Whose a tanker is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum AidKey {
    /// The department's own.
    Own,
    /// Sent by agreement with the first alarm.
    Automatic,
    /// Comes when it is asked for.
    Mutual,
}

/// What one site of a set is credited with by hand.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct SiteCredit {
    /// Its name.
    pub name: String,
    /// Whether the rule credits it, as far as the scenario says.
    pub creditable: bool,
    /// Tankers assigned to it; 0: it is left unused.
    #[serde(rename = "tanker_count")]
    pub tankers: usize,
    /// The sum of their credits.
    pub made_gpm: f64,
    /// Fill positions they keep busy: the sum of service / cycle.
    pub busy_positions: f64,
    /// What it passes.
    pub passes_gpm: f64,
    /// What binds it.
    pub bound_by: SiteBoundKey,
}

/// What binds a site.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum SiteBoundKey {
    /// Nothing but what its tankers bring.
    Tankers,
    /// Its fill positions.
    Positions,
    /// Its flow.
    Flow,
    /// Its quantity over the rule's time.
    Quantity,
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
    /// The minimum is shown to hold, it is credited by hand, and nothing stated stands against it.
    Yes,
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
    /// Whether it is met, as far as the scenario says.
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
        shared_luck: Vec<SharedLuck>,
    ) -> GradeFigures {
        GradeFigures {
            share: found.share,
            places: (found.titles.iter().zip(shared_luck).enumerate())
                .map(|(place, (title, shared_luck))| Place {
                    place_number: place + 1,
                    title: title.clone(),
                    shared_luck,
                })
                .collect(),
            rules: found.rules.iter().map(rule_figures).collect(),
            sets_weighed: found.weighed,
            all_up_to_three: found.all_up_to_three,
            ranked: found.ranked.iter().map(ranked).collect(),
            by_aid: found.held_with.iter().map(by_aid).collect(),
            evidence: sheets.iter().map(EvidenceFigures::new).collect(),
        }
    }
}

/// Whose a tanker is, as a key.
pub(super) fn aid_key(aid: Aid) -> AidKey {
    match aid {
        Aid::Own => AidKey::Own,
        Aid::Automatic => AidKey::Automatic,
        Aid::Mutual => AidKey::Mutual,
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

fn ranked(one: &SiteGrade) -> RankedSites {
    RankedSites {
        place: one.scenario,
        sites: (one.sites.iter().zip(&one.site_miles))
            .map(|(name, miles)| SiteFigures { name: name.clone(), one_way_mi: *miles })
            .collect(),
        results: one.results.iter().map(result).collect(),
    }
}

fn hand_figures(hand: &HandCredit) -> HandFigures {
    HandFigures {
        credits: (hand.tankers.iter())
            .map(|credit| Credit {
                name: credit.name.clone(),
                aid: aid_key(credit.aid),
                fill_site: credit.fill_site.clone(),
                tank_gal: credit.tank_gal,
                counted_whole: credit.counted_whole,
                cycle_min: credit.cycle_min,
                credit_gpm: credit.credit_gpm,
                cycle_by_travel_rule_min: credit.by_travel_rule.map(|one| one.cycle_min),
                credit_by_travel_rule_gpm: credit.by_travel_rule.map(|one| one.credit_gpm),
            })
            .collect(),
        sites: (hand.sites.iter())
            .map(|site| SiteCredit {
                name: site.name.clone(),
                creditable: site.creditable,
                tankers: site.credit.tankers,
                made_gpm: site.credit.made_gpm,
                busy_positions: site.credit.busy,
                passes_gpm: site.credit.gpm,
                bound_by: match site.credit.bound {
                    SiteBound::Tankers => SiteBoundKey::Tankers,
                    SiteBound::Positions => SiteBoundKey::Positions,
                    SiteBound::Flow => SiteBoundKey::Flow,
                    SiteBound::Quantity => SiteBoundKey::Quantity,
                },
            })
            .collect(),
        made_gpm: hand.made_gpm,
        passes_gpm: hand.passes_gpm,
        scene: hand.scene.as_ref().map(|(station, gpm)| CapFigures::of(station, *gpm)),
        counts_gpm: hand.counts_gpm,
        credited_gpm: hand.credited_gpm,
        travel: match hand.travel {
            Travel::Stated => TravelKey::Stated,
            Travel::Rule => TravelKey::Rule,
        },
        by_speeds_gpm: hand.by_speeds_gpm,
        by_travel_rule_gpm: hand.by_travel_rule_gpm,
        own_gpm: hand.own_gpm,
        with_automatic_aid_gpm: hand.automatic_gpm,
        with_all_aid_gpm: hand.all_gpm,
        exact: hand.exact,
        stand_by: hand.stand_by.clone(),
        late: hand.late.clone(),
        asked_later: hand.asked_later.clone(),
    }
}

/// A verdict as a key.
pub(super) fn passes(verdict: grade::Verdict) -> Passes {
    match verdict {
        grade::Verdict::Pass => Passes::Yes,
        grade::Verdict::Fail => Passes::No,
        grade::Verdict::NotClear => Passes::NotClear,
    }
}

fn result(one: &RuleResult) -> ResultFigures {
    ResultFigures {
        rule: one.rule.to_string(),
        passes: passes(one.verdict),
        flow_passes: passes(one.flow),
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
