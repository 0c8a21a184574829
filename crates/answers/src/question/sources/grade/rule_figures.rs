//! Rules and their conditions as figures.

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::conditions::State;
use shuttle_report::grading_rules::{Condition, GradingRule, Seen};

/// A rule. Times count from the arrival of the first engine.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct RuleFigures {
    /// What it is called on the command line.
    #[serde(rename = "grading_rule")]
    pub key: String,
    /// The flow without which there is no credit.
    pub minimum_gpm: f64,
    /// It must flow from then on, minutes after the first engine arrives.
    pub within_min: f64,
    /// A higher flow reached by then is credited, minutes after the first engine arrives; null: only the minimum counts.
    pub higher_within_min: Option<f64>,
    /// How long the flow must be kept.
    pub duration_min: f64,
    /// Whether only the department's own apparatus counts.
    pub own_apparatus_only: bool,
    /// Whether the body takes 0.65 + 1.70 x miles for each leg where that credits less than the speeds stated.
    pub travels_by_rule: bool,
    /// Who says that a sealed vacuum tank counts without 10% off; null: it does not.
    pub sealed_counts_whole: Option<&'static str>,
    /// What else it asks for.
    pub conditions: Vec<ConditionFigures>,
    /// Where the numbers are from.
    #[serde(rename = "reference")]
    pub source: String,
    /// Its edition; null: ask the grading body.
    pub edition: Option<String>,
    /// Whether the source was read.
    pub source_seen: SourceSeen,
}

/// How far a rule's source was read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum SourceSeen {
    /// It was read.
    Read,
    /// It was read in part.
    InPart,
    /// The numbers are from memory.
    FromMemory,
    /// The rule is the scenario's own.
    OfTheFile,
}

/// What a rule asks for beyond the flow.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct ConditionFigures {
    /// What it is about.
    #[serde(rename = "asks_for")]
    pub about: ConditionKey,
    /// Its limit by road.
    pub limit_mi: Option<f64>,
    /// Its limit on the ground.
    pub limit_ft: Option<f64>,
    /// Its limit as a flow.
    pub limit_gpm: Option<f64>,
    /// Its limit as a number of `limit_unit`.
    #[serde(rename = "limit_number")]
    pub limit: Option<f64>,
    /// What `limit_number` counts; null where the limit is not such a number.
    pub limit_unit: Option<LimitUnit>,
}

/// What the limit of a condition counts where it is neither a road, a length nor a flow.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum LimitUnit {
    /// People on average.
    People,
    /// Hours a year each.
    HoursAYear,
    /// A share, 0 to 1.
    Share,
    /// Points of the schedule.
    Points,
    /// Minutes from the brake set.
    Minutes,
    /// Years.
    Years,
}

/// What a condition is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum ConditionKey {
    /// Road to the station, no more than the limit.
    Station,
    /// To a suction point, no more than the limit, or large hose by a procedure that is shown.
    SuctionPoint,
    /// Road to every source, no more than the limit.
    Source,
    /// Every source all year and in a 50-year drought.
    SourceAllYear,
    /// The first engine's pump at 150 psi, the limit or more.
    FirstEnginePump,
    /// Firefighters on average, so many or more.
    Firefighters,
    /// Structural training each has in a year, so many hours or more.
    TrainingHours,
    /// Share of buildings in reach, so much or more.
    BuildingsInReach,
    /// Share of all credit earned, so much or more.
    CreditShare,
    /// Points for receiving and handling alarms, so many or more.
    AlarmCredit,
    /// From the brake set to water shown, no more than so many minutes.
    WaterShown,
    /// Years since it was renewed, no more than so many.
    Renewed,
    /// A test run at the limit from the source or more.
    TestedAt,
}

/// A condition and whether it is met.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct ConditionChecked {
    /// What the rule asks for.
    pub condition: ConditionFigures,
    /// Whether that is met.
    pub is_met: IsMet,
}

/// Whether a condition is met.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum IsMet {
    /// What the scenario states meets it.
    Met,
    /// What the scenario states does not.
    NotMet,
    /// The scenario says nothing of it.
    NotKnown,
}

/// A rule as figures.
pub fn rule_figures(rule: &GradingRule) -> RuleFigures {
    RuleFigures {
        key: rule.key.to_string(),
        minimum_gpm: rule.minimum_gpm,
        within_min: rule.within_min,
        higher_within_min: rule.higher_within_min,
        duration_min: rule.duration_min,
        own_apparatus_only: rule.own_only,
        travels_by_rule: rule.travels_by_rule,
        sealed_counts_whole: rule.sealed_counts_whole,
        conditions: rule.conditions.iter().map(condition).collect(),
        source: rule.source.to_string(),
        edition: rule.edition.as_ref().map(ToString::to_string),
        source_seen: match rule.seen {
            Seen::Seen => SourceSeen::Read,
            Seen::SeenInPart => SourceSeen::InPart,
            Seen::Memory => SourceSeen::FromMemory,
            Seen::OfTheFile => SourceSeen::OfTheFile,
        },
    }
}

/// A condition as figures.
pub fn condition(condition: &Condition) -> ConditionFigures {
    let bare = |about: ConditionKey| ConditionFigures {
        about,
        limit_mi: None,
        limit_ft: None,
        limit_gpm: None,
        limit: None,
        limit_unit: None,
    };
    let road = |about, miles| ConditionFigures { limit_mi: Some(miles), ..bare(about) };
    let flow = |about, gpm| ConditionFigures { limit_gpm: Some(gpm), ..bare(about) };
    let number = |about, value, unit| ConditionFigures {
        limit: Some(value),
        limit_unit: Some(unit),
        ..bare(about)
    };
    match *condition {
        Condition::StationWithin(miles) => road(ConditionKey::Station, miles),
        Condition::SuctionPointWithin(feet) => {
            ConditionFigures { limit_ft: Some(feet), ..bare(ConditionKey::SuctionPoint) }
        }
        Condition::SourceWithin(miles) => road(ConditionKey::Source, miles),
        Condition::AllYear => bare(ConditionKey::SourceAllYear),
        Condition::FirstEnginePump(gpm) => flow(ConditionKey::FirstEnginePump, gpm),
        Condition::Firefighters(count) => {
            number(ConditionKey::Firefighters, count, LimitUnit::People)
        }
        Condition::TrainingHours(hours) => {
            number(ConditionKey::TrainingHours, hours, LimitUnit::HoursAYear)
        }
        Condition::BuildingsInReach(share) => {
            number(ConditionKey::BuildingsInReach, share, LimitUnit::Share)
        }
        Condition::CreditShare(share) => number(ConditionKey::CreditShare, share, LimitUnit::Share),
        Condition::AlarmCredit(points) => {
            number(ConditionKey::AlarmCredit, points, LimitUnit::Points)
        }
        Condition::WaterShownWithin(minutes) => {
            number(ConditionKey::WaterShown, minutes, LimitUnit::Minutes)
        }
        Condition::RenewedWithin(years) => number(ConditionKey::Renewed, years, LimitUnit::Years),
        Condition::TestedAt(miles) => road(ConditionKey::TestedAt, miles),
    }
}

/// Whether a condition is met, as a key.
pub fn is_met(state: State) -> IsMet {
    match state {
        State::Met => IsMet::Met,
        State::NotMet => IsMet::NotMet,
        State::NotKnown => IsMet::NotKnown,
    }
}
