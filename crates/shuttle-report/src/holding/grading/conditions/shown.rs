//! What a rule's figures are shown by: drills that were held, and papers.

use serde::Serialize;
use shuttle_sim::FillSite;

use crate::holding::grading::grading_rules::{Condition, GradingRule};
use crate::holding::grading::survey::{Aid, HeldDrill, SiteSurvey, Survey};

/// What the drills say of a rule's flow.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Drilled {
    /// One held it for as long as the rule asks for, with water in time as far as that is stated; by its place.
    Held(usize),
    /// None did, and this one had its water later than the rule allows, or held less and not for as long.
    FellShort(usize),
    /// No drill says enough to tell; one that held less for as long as the rule asks for shows no more than that.
    NotShown,
}

/// Something that a survey sees and the scenario does not state.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum NotShown {
    /// Written procedures.
    Procedures,
    /// Agreements for the aid that counts.
    Agreements,
    /// A drill that held the rule's flow for its time.
    Drill,
    /// A flow test of this source.
    FlowTest(String),
    /// The owner's agreement for this source.
    OwnersAgreement(String),
    /// The certificate that this source is there in a drought, which the rule asks for.
    Certificate(String),
}

/// Rounding of a flow or time that was stated in other units: a share of it.
const ROUNDING: f64 = 1e-9;

/// What the drills say of a rule's flow.
pub fn drilled(drills: &[HeldDrill], rule: &GradingRule) -> Drilled {
    let is_late = |drill: &HeldDrill| {
        drill.water_shown_min.is_some_and(|shown| shown > rule.within_min * (1.0 + ROUNDING))
    };
    let reaches =
        |stated: Option<f64>, asked: f64| stated.map(|stated| stated >= asked * (1.0 - ROUNDING));
    let flow = |drill: &HeldDrill| reaches(drill.flow_gpm, rule.minimum_gpm);
    let holds = |drill: &HeldDrill| {
        flow(drill) == Some(true)
            && reaches(drill.minutes, rule.duration_min) == Some(true)
            && !is_late(drill)
    };
    if let Some(place) = drills.iter().position(holds) {
        return Drilled::Held(place);
    }
    let broke_off = |drill: &HeldDrill| {
        flow(drill) == Some(false) && reaches(drill.minutes, rule.duration_min) == Some(false)
    };
    let falls_short = |drill: &HeldDrill| broke_off(drill) || is_late(drill);
    drills.iter().position(falls_short).map_or(Drilled::NotShown, Drilled::FellShort)
}

/// What is not stated of all that the figures rest on, with these sources.
pub fn not_shown<'s>(
    rule: &GradingRule,
    survey: &Survey,
    sites: impl Iterator<Item = (&'s FillSite, Option<&'s SiteSurvey>)>,
) -> Vec<NotShown> {
    let mut lacks = Vec::new();
    if survey.procedures.is_none() {
        lacks.push(NotShown::Procedures);
    }
    let aid_counts = !rule.own_only && survey.tankers.iter().any(|one| one.aid == Aid::Automatic);
    if aid_counts && survey.agreements.is_none() {
        lacks.push(NotShown::Agreements);
    }
    if drilled(&survey.drills, rule) == Drilled::NotShown {
        lacks.push(NotShown::Drill);
    }
    let silent = SiteSurvey::default();
    for (site, stated) in sites {
        let stated = stated.unwrap_or(&silent);
        let name = || site.name.clone();
        if stated.flow_test.is_none() && stated.flow_tested.is_none() {
            lacks.push(NotShown::FlowTest(name()));
        }
        if stated.agreement.is_none() {
            lacks.push(NotShown::OwnersAgreement(name()));
        }
        if rule.conditions.contains(&Condition::AllYear) && stated.drought_certificate.is_none() {
            lacks.push(NotShown::Certificate(name()));
        }
    }
    lacks
}
