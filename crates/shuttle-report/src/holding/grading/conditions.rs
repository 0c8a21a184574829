//! Whether what a rule asks for beyond the flow is met, as far as a scenario states it.

pub mod shown;

use serde::Serialize;
use shuttle_sim::FillSite;

use super::grading_rules::{Condition, GradingRule};
use super::survey::{SiteSurvey, Survey};

/// Whether a condition is met.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum State {
    /// What is stated meets it.
    Met,
    /// What is stated does not.
    NotMet,
    /// Nothing is stated.
    NotKnown,
}

/// Rounding of a distance that was stated in other units, miles, ft, and so on: a share of it.
const ROUNDING: f64 = 1e-9;

fn at_most(stated: Option<f64>, limit: f64) -> State {
    match stated {
        None => State::NotKnown,
        Some(value) if value <= limit * (1.0 + ROUNDING) => State::Met,
        Some(_) => State::NotMet,
    }
}

fn at_least(stated: Option<f64>, limit: f64) -> State {
    match stated {
        None => State::NotKnown,
        Some(value) if value >= limit * (1.0 - ROUNDING) => State::Met,
        Some(_) => State::NotMet,
    }
}

/// All of them are met, or one is not, or one is not known.
fn all(states: impl Iterator<Item = State>) -> State {
    states.fold(State::Met, |all, one| match (all, one) {
        (State::NotMet, _) | (_, State::NotMet) => State::NotMet,
        (State::NotKnown, _) | (_, State::NotKnown) => State::NotKnown,
        _ => State::Met,
    })
}

/// One way to a site, the longer of the two ways, miles; `None` where it is not stated.
pub fn one_way_miles(site: &FillSite) -> Option<f64> {
    Some(site.out.miles?.max(site.back.miles?))
}

/// What a rule asks of one source; a rule without conditions on sources: met.
pub fn of_site(rule: &GradingRule, site: &FillSite, survey: Option<&SiteSurvey>) -> State {
    all(rule.conditions.iter().map(|condition| match condition {
        Condition::SourceWithin(miles) => at_most(one_way_miles(site), *miles),
        Condition::AllYear => match survey.and_then(|survey| survey.all_year) {
            None => State::NotKnown,
            Some(true) => State::Met,
            Some(false) => State::NotMet,
        },
        _ => State::Met,
    }))
}

/// Every condition of a rule with its state, for a set of sites that is used.
pub fn of_rule<'s>(
    rule: &GradingRule,
    survey: &Survey,
    sites: impl Iterator<Item = (&'s FillSite, Option<&'s SiteSurvey>)> + Clone,
) -> Vec<(Condition, State)> {
    let one = |condition: &Condition| match *condition {
        Condition::StationWithin(miles) => at_most(survey.station_miles, miles),
        Condition::SuctionPointWithin(feet) => match at_most(survey.suction_point_ft, feet) {
            State::Met => State::Met,
            _ if survey.large_hose_shown == Some(true) => State::Met,
            // Too far, but hose may reach it: open until it is said that no procedure is shown.
            State::NotMet if survey.large_hose_shown.is_none() => State::NotKnown,
            other => other,
        },
        Condition::SourceWithin(_) | Condition::AllYear => {
            let alone = GradingRule { conditions: vec![*condition].into(), ..rule.clone() };
            all(sites.clone().map(|(site, survey)| of_site(&alone, site, survey)))
        }
        Condition::FirstEnginePump(gpm) => at_least(survey.first_engine_pump_gpm, gpm),
        Condition::Firefighters(count) => at_least(survey.firefighters, count),
        Condition::TrainingHours(hours) => at_least(survey.training_hours, hours),
        Condition::BuildingsInReach(share) => at_least(survey.buildings_in_reach, share),
        Condition::CreditShare(share) => at_least(survey.credit_share, share),
        Condition::AlarmCredit(points) => at_least(survey.alarm_credit, points),
        Condition::WaterShownWithin(minutes) => at_most(survey.water_shown_min, minutes),
        Condition::RenewedWithin(years) => at_most(survey.renewed_years, years),
        Condition::TestedAt(miles) => {
            let farthest = survey.drills.iter().filter_map(|drill| drill.source_miles);
            at_least(farthest.reduce(f64::max), miles)
        }
    };
    rule.conditions.iter().map(|condition| (*condition, one(condition))).collect()
}

/// Whether none of them is known not to be met.
pub fn none_stands_against(conditions: &[(Condition, State)]) -> bool {
    conditions.iter().all(|(_, state)| *state != State::NotMet)
}
