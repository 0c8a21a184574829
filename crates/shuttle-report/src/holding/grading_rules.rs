//! What a grading of hauled water asks for, as data: each rule with its source and how far the
//! source was seen.
//!
//! Nothing here speaks for a grading body. The rules are recorded as the named pages give them; the body
//! decides by the edition in force and by what it sees on the ground.

use serde::Serialize;

use crate::units::{KM_PER_MILE, LITRES_PER_GALLON, Units};

/// How far a rule's numbers were verified.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Seen {
    /// The named source was read.
    Seen,
    /// Recalled from memory; to be looked up before anyone relies on it.
    Memory,
}

/// Whom a rule grades, and how high.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Class {
    /// A hauled supply.
    Hauled,
    /// The same in a lesser class.
    HauledLesser,
    /// The Canadian accreditation, dwellings.
    CanadianDwellings,
    /// The Canadian accreditation, commercial.
    CanadianCommercial,
}

/// What a rule asks for and a scenario does not say.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Also {
    /// The source must be there all year and in a 50-year drought.
    AllYear,
    /// The scene must lie this near a suction point, ft, or be reached with large hose by a procedure that is
    /// shown.
    SuctionPointWithin(f64),
    /// The first engine needs a pump of this flow or more, gpm.
    FirstEnginePump(f64),
    /// The property must lie this near the fire station, miles.
    PropertyWithin(f64),
}

/// One rule. Times count from the arrival of the first engine.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct GradingRule {
    /// What it is called on the command line.
    pub key: &'static str,
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
    /// The farthest a source may lie, one way, miles.
    pub source_within_miles: Option<f64>,
    /// What else the rule asks for and a scenario does not say.
    pub also: &'static [Also],
    /// Where the numbers are from.
    pub source: &'static str,
    /// Its edition, as far as it is known.
    pub edition: &'static str,
    /// Whether the source was read.
    pub seen: Seen,
}

const EVALUATION_PAGES: &str = "ISO water supply evaluation pages";
const ACCREDITATION: &str = "municipal notices of the Canadian tanker shuttle accreditation";
const NO_EDITION: &str = "as published on the web; the pages state no edition";

/// All rules: first those in gpm, then those in L/min.
pub static RULES: [GradingRule; 4] = [
    GradingRule {
        key: "us-2h",
        class: Class::Hauled,
        minimum_gpm: 250.0,
        within_min: 5.0,
        higher_within_min: Some(15.0),
        duration_min: 120.0,
        source_within_miles: Some(5.0),
        also: &[Also::AllYear, Also::SuctionPointWithin(1_000.0)],
        source: EVALUATION_PAGES,
        edition: NO_EDITION,
        seen: Seen::Seen,
    },
    GradingRule {
        key: "us-20min",
        class: Class::HauledLesser,
        minimum_gpm: 200.0,
        within_min: 5.0,
        higher_within_min: None,
        duration_min: 20.0,
        source_within_miles: None,
        also: &[Also::FirstEnginePump(250.0)],
        source: "FSRS item 800",
        edition: "edition not noted when it was read",
        seen: Seen::Seen,
    },
    GradingRule {
        key: "canada-dwelling",
        class: Class::CanadianDwellings,
        minimum_gpm: 950.0 / LITRES_PER_GALLON,
        within_min: 5.0,
        higher_within_min: Some(10.0),
        duration_min: 120.0,
        source_within_miles: Some(5.0 / KM_PER_MILE),
        also: &[Also::PropertyWithin(8.0 / KM_PER_MILE)],
        source: ACCREDITATION,
        edition: NO_EDITION,
        seen: Seen::Seen,
    },
    GradingRule {
        key: "canada-commercial",
        class: Class::CanadianCommercial,
        minimum_gpm: 1_900.0 / LITRES_PER_GALLON,
        within_min: 5.0,
        higher_within_min: Some(10.0),
        duration_min: 120.0,
        source_within_miles: Some(5.0 / KM_PER_MILE),
        also: &[Also::PropertyWithin(5.0 / KM_PER_MILE)],
        source: ACCREDITATION,
        edition: NO_EDITION,
        seen: Seen::Seen,
    },
];

impl GradingRule {
    /// The rules of a region, by the units its scenarios are in.
    pub fn usual(units: Units) -> &'static [GradingRule] {
        match units {
            Units::Us => &RULES[..2],
            Units::Metric => &RULES[2..],
        }
    }

    /// The rule of this key.
    pub fn named(key: &str) -> Option<&'static GradingRule> {
        RULES.iter().find(|rule| rule.key == key)
    }
}
