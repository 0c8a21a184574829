//! What is credited by hand, as figures.

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::grade::Alone;
use shuttle_report::site_sets::{HandCredit, TankerCredit, Travel};
use shuttle_report::survey::Aid;
use shuttle_report::worksheet::assignment::SiteBound;

use crate::question::check::PartByHand;
use crate::shared::station::CapFigures;

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
    /// Minutes by part of the cycle, in order.
    pub parts: Vec<PartByHand>,
    /// Fill, round trip and discharge with all handling.
    #[serde(rename = "whole_cycle_min")]
    pub cycle_min: f64,
    /// The load counted over that.
    pub credit_gpm: f64,
    /// The road out by 0.65 + 1.70 x miles; null where a distance is not stated.
    pub out_by_travel_rule_min: Option<f64>,
    /// The road back.
    pub back_by_travel_rule_min: Option<f64>,
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

/// A fill site with every tanker at it, by hand, under the first rule.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct AloneFigures {
    /// The place: the number it has among the `places`.
    pub place_number: usize,
    /// The fill site.
    pub fill_site: String,
    /// Whether the rule credits it, as far as the scenario says.
    pub creditable: bool,
    /// What every tanker that is listed would be credited with there.
    pub all_at_it: Vec<Credit>,
    /// What it is credited with.
    pub hand: HandFigures,
}

/// Whose a tanker is, as a key.
pub fn aid_key(aid: Aid) -> AidKey {
    match aid {
        Aid::Own => AidKey::Own,
        Aid::Automatic => AidKey::Automatic,
        Aid::Mutual => AidKey::Mutual,
    }
}

/// What is credited by hand, as figures.
pub(super) fn hand_figures(hand: &HandCredit) -> HandFigures {
    HandFigures {
        credits: hand.tankers.iter().map(credit).collect(),
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

fn credit(of: &TankerCredit) -> Credit {
    Credit {
        name: of.name.clone(),
        aid: aid_key(of.aid),
        fill_site: of.fill_site.clone(),
        tank_gal: of.tank_gal,
        counted_whole: of.counted_whole,
        parts: (of.parts.iter())
            .map(|(part, mean)| PartByHand { part: part.key(), mean_min: *mean })
            .collect(),
        cycle_min: of.cycle_min,
        credit_gpm: of.credit_gpm,
        out_by_travel_rule_min: of.by_travel_rule.map(|one| one.road_min[0]),
        back_by_travel_rule_min: of.by_travel_rule.map(|one| one.road_min[1]),
        cycle_by_travel_rule_min: of.by_travel_rule.map(|one| one.cycle_min),
        credit_by_travel_rule_gpm: of.by_travel_rule.map(|one| one.credit_gpm),
    }
}

/// A site with every tanker at it, as figures.
pub(super) fn alone(of: &Alone) -> AloneFigures {
    AloneFigures {
        place_number: of.scenario + 1,
        fill_site: of.site.clone(),
        creditable: of.creditable,
        all_at_it: of.everyone.iter().map(credit).collect(),
        hand: hand_figures(&of.hand),
    }
}
