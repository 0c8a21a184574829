//! What a grading of hauled water asks for, as data: each rule with its source and how far the
//! source was seen.
//!
//! Nothing here speaks for a grading body. The rules are recorded as the named pages give them; the body
//! decides by the edition in force and by what it sees on the ground.

use std::borrow::Cow;

use serde::Serialize;

use crate::units::{KM_PER_MILE, LITRES_PER_GALLON, Units};

/// How far a rule's numbers were verified.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Seen {
    /// The named source was read.
    Seen,
    /// It was read, but a part of it was cut off; what that was stands in the source's name.
    SeenInPart,
    /// Recalled from memory; to be looked up before anyone relies on it.
    Memory,
    /// It is the scenario's own.
    OfTheFile,
}

/// Whom a rule grades, and how high.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Class {
    /// A hauled supply.
    Hauled,
    /// Class 8B.
    Class8b,
    /// A local rule that counts own apparatus only.
    OwnApparatus,
    /// The Canadian accreditation, dwellings.
    CanadianDwellings,
    /// The Canadian accreditation, commercial.
    CanadianCommercial,
    /// A rule of the scenario's own, by its name there.
    Own(String),
}

/// What a rule asks for beyond the flow.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Condition {
    /// The scene must lie this near a station by road, miles.
    StationWithin(f64),
    /// The scene must lie this near a suction point, ft, or be reached with large hose by a procedure that is
    /// shown.
    SuctionPointWithin(f64),
    /// Every source must lie this near the scene by road, miles.
    SourceWithin(f64),
    /// Every source must be there all year and in a 50-year drought.
    AllYear,
    /// The first engine needs a pump of this flow or more at 150 psi, gpm.
    FirstEnginePump(f64),
    /// So many firefighters must respond on average.
    Firefighters(f64),
    /// Each needs so many hours of structural training a year.
    TrainingHours(f64),
    /// Such a share of the buildings must be in reach.
    BuildingsInReach(f64),
    /// Such a share of all credit must be earned.
    CreditShare(f64),
    /// So many points are needed for receiving and handling alarms.
    AlarmCredit(f64),
    /// A drop tank must be deployed and water shown so many minutes after the brake is set.
    WaterShownWithin(f64),
    /// The accreditation must be renewed every so many years.
    RenewedWithin(f64),
    /// A test must have been run at such a distance from the source or more, miles.
    TestedAt(f64),
}

/// One rule. Times count from the arrival of the first engine.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct GradingRule {
    /// What it is called on the command line.
    pub key: Cow<'static, str>,
    /// Whom it grades, and how high.
    pub class: Class,
    /// The flow without which there is no credit, gpm.
    pub minimum_gpm: f64,
    /// It must flow from this minute on.
    pub within_min: f64,
    /// A higher flow reached by this minute is credited; `None`: only the minimum counts.
    pub higher_within_min: Option<f64>,
    /// How long the flow must be kept, minutes.
    pub duration_min: f64,
    /// Whether only the department's own apparatus counts.
    pub own_only: bool,
    /// Whether the body takes 0.65 + 1.70 x miles for each way: where that credits less than the speeds stated, it is
    /// what is credited.
    pub travels_by_rule: bool,
    /// What else the rule asks for.
    pub conditions: Cow<'static, [Condition]>,
    /// Where it says that a sealed vacuum tank is counted without the 10% off; `None`: it is not.
    pub sealed_counts_whole: Option<&'static str>,
    /// Where the numbers are from.
    pub source: Cow<'static, str>,
    /// Its edition, as far as it is known.
    pub edition: Option<Cow<'static, str>>,
    /// Whether the source was read.
    pub seen: Seen,
}

const EVALUATION_PAGES: Cow<'static, str> = Cow::Borrowed("ISO water supply evaluation pages");
const ACCREDITATION: Cow<'static, str> =
    Cow::Borrowed("municipal notices of the Canadian tanker shuttle accreditation");
/// A sealed vacuum tank loses nothing on the road and empties whole (seen, informal).
const PRACTITIONERS: Option<&str> = Some("practitioners, informal");

const fn km(km: f64) -> f64 {
    km / KM_PER_MILE
}

/// All rules: first those in gpm, then those in L/min.
pub static RULES: [GradingRule; 5] = [
    GradingRule {
        key: Cow::Borrowed("us-2h"),
        class: Class::Hauled,
        minimum_gpm: 250.0,
        within_min: 5.0,
        higher_within_min: Some(15.0),
        duration_min: 120.0,
        own_only: false,
        travels_by_rule: true,
        conditions: Cow::Borrowed(&[
            Condition::StationWithin(5.0),
            Condition::SuctionPointWithin(1_000.0),
            Condition::AllYear,
        ]),
        sealed_counts_whole: PRACTITIONERS,
        source: EVALUATION_PAGES,
        edition: None,
        seen: Seen::Seen,
    },
    GradingRule {
        key: Cow::Borrowed("class-8b"),
        class: Class::Class8b,
        minimum_gpm: 200.0,
        within_min: 5.0,
        higher_within_min: None,
        duration_min: 20.0,
        own_only: false,
        travels_by_rule: true,
        conditions: Cow::Borrowed(&[
            // As for every hauled supply; common practice for this class.
            Condition::StationWithin(5.0),
            Condition::FirstEnginePump(250.0),
            Condition::Firefighters(6.0),
            Condition::TrainingHours(24.0),
            Condition::BuildingsInReach(0.85),
            Condition::CreditShare(0.20),
            Condition::AlarmCredit(5.0),
        ]),
        sealed_counts_whole: PRACTITIONERS,
        source: Cow::Borrowed(
            "FSRS item 800, the clause on 85% of the buildings cut off; five road miles to the station by common \
             practice",
        ),
        edition: None,
        seen: Seen::SeenInPart,
    },
    GradingRule {
        key: Cow::Borrowed("own-30min"),
        class: Class::OwnApparatus,
        minimum_gpm: 250.0,
        within_min: 5.0,
        higher_within_min: None,
        duration_min: 30.0,
        own_only: true,
        travels_by_rule: false,
        conditions: Cow::Borrowed(&[Condition::WaterShownWithin(5.0)]),
        sealed_counts_whole: PRACTITIONERS,
        source: Cow::Borrowed("a state's local handbook"),
        edition: None,
        seen: Seen::Seen,
    },
    GradingRule {
        key: Cow::Borrowed("canada-dwelling"),
        class: Class::CanadianDwellings,
        minimum_gpm: 950.0 / LITRES_PER_GALLON,
        within_min: 5.0,
        higher_within_min: Some(10.0),
        duration_min: 120.0,
        own_only: false,
        travels_by_rule: false,
        conditions: Cow::Borrowed(&[
            Condition::StationWithin(km(8.0)),
            Condition::SourceWithin(km(5.0)),
            Condition::AllYear,
            Condition::TestedAt(km(5.0)),
            Condition::RenewedWithin(5.0),
        ]),
        sealed_counts_whole: None,
        source: ACCREDITATION,
        edition: None,
        seen: Seen::Seen,
    },
    GradingRule {
        key: Cow::Borrowed("canada-commercial"),
        class: Class::CanadianCommercial,
        minimum_gpm: 1_900.0 / LITRES_PER_GALLON,
        within_min: 5.0,
        higher_within_min: Some(10.0),
        duration_min: 120.0,
        own_only: false,
        travels_by_rule: false,
        conditions: Cow::Borrowed(&[
            Condition::StationWithin(km(5.0)),
            Condition::SourceWithin(km(5.0)),
            Condition::AllYear,
            Condition::TestedAt(km(5.0)),
            Condition::RenewedWithin(5.0),
        ]),
        sealed_counts_whole: None,
        source: ACCREDITATION,
        edition: None,
        seen: Seen::Seen,
    },
];

impl GradingRule {
    /// By this minute the flow that is credited must be reached: who comes later does not count.
    pub fn reached_by_min(&self) -> f64 {
        self.higher_within_min.unwrap_or(self.within_min)
    }

    /// What is credited of what counts by hand, gpm: without a higher flow the rule's own and no more.
    pub fn credits(&self, counts_gpm: f64) -> f64 {
        match self.higher_within_min {
            Some(_) => counts_gpm,
            None => counts_gpm.min(self.minimum_gpm),
        }
    }

    /// Whether what counts by hand is the rule's minimum or more.
    pub fn is_reached_by(&self, counts_gpm: f64) -> bool {
        /// Rounding of a flow that was stated in other units: a share of it.
        const ROUNDING: f64 = 1e-9;
        counts_gpm >= self.minimum_gpm * (1.0 - ROUNDING)
    }

    /// The rules of a region, by the units its scenarios are in.
    pub fn usual(units: Units) -> &'static [GradingRule] {
        match units {
            Units::Us => &RULES[..2],
            Units::Metric => &RULES[3..],
        }
    }

    /// The rule of this key.
    pub fn named(key: &str) -> Option<&'static GradingRule> {
        RULES.iter().find(|rule| rule.key == key)
    }
}
