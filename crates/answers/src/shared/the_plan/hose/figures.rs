//! The figures of hose in place of tankers.

use fireground::long_lay::Ends;
use schemars::JsonSchema;
use serde::Serialize;

use super::{Cannot, HoseInstead};

/// A lay from one source, compared with the shuttle.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct HoseFigures {
    /// The source, if it has a name.
    pub source: Option<String>,
    /// From the source to the fire; null: not known, and the figures are for 1,000 ft.
    pub distance_ft: Option<f64>,
    /// Flow wanted.
    pub flow_gpm: f64,
    /// Inside diameter of the hose.
    pub hose_diameter_inches: f64,
    /// Parallel lines.
    pub lines: u32,
    /// The lay itself, if it can be made at all.
    pub lay: Option<LayFigures>,
    /// Why it cannot, or does not give the flow.
    pub cannot: Option<CannotFigures>,
    /// Pressure at each engine.
    pub discharge_psi: f64,
    /// Flow at which the hose is filled.
    pub fill_gpm: f64,
    /// What the shuttle makes by hand.
    pub shuttle_gpm: Option<f64>,
    /// Whether, by what is known, it can be made over the distance; null: the distance is not known.
    pub can_be_laid: Option<bool>,
    /// Whether it gives water no later than the shuttle's supply stands; null: there is nothing to compare.
    pub is_sooner: Option<bool>,
    /// When the shuttle's supply is established, minutes after the alarm, every duration at its mean.
    pub shuttle_established_min: Option<f64>,
    /// Distance beyond which the shuttle wins; null: nothing known limits a lay.
    pub shuttle_wins_beyond_ft: Option<f64>,
    /// What limits a lay there.
    pub ended_by: Option<EndedBy>,
    /// Whether sizes and speeds are in part common practice rather than stated.
    pub common_practice: bool,
}

/// What a lay takes and when it gives water.
#[derive(Debug, Clone, Copy, Serialize, JsonSchema)]
pub struct LayFigures {
    /// Hose in all lines.
    pub hose_ft: f64,
    /// Engines that pump, the one at the source included.
    pub engines: u32,
    /// The farthest one engine pumps.
    pub greatest_spacing_ft: f64,
    /// The greatest discharge pressure at each engine.
    pub discharge_psi: f64,
    /// Water to fill it.
    pub fill_gal: f64,
    /// First water out of it, minutes after the alarm, or after the start where no shuttle is compared.
    pub first_water_min: f64,
}

/// What limits a lay.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum EndedBy {
    /// The hose on hand.
    HoseOnHand,
    /// The engines on hand.
    EnginesOnHand,
    /// Beyond it hose gives water later than the shuttle.
    Time,
}

/// Why a lay cannot be made, or does not give the flow.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum CannotKey {
    /// The source gives less.
    SourceTooSmall,
    /// The pumps give less.
    PumpTooSmall,
    /// More engines than can be run.
    TooManyEngines,
    /// The intake pressure takes all the discharge pressure.
    IntakeTakesAll,
    /// Pumps are not rated to that pressure.
    BeyondRating,
    /// A fact does not fit.
    FactDoesNotFit,
}

/// Why a lay cannot be made, with its numbers.
#[derive(Debug, Clone, Copy, Serialize, JsonSchema)]
pub struct CannotFigures {
    /// Why.
    pub why: CannotKey,
    /// What source or pump gives, where that is why.
    pub gives_gpm: Option<f64>,
    /// Whether two such lays side by side would do, where the pump is too small.
    pub two_lays_would_do: Option<bool>,
    /// The smallest standard rating of pumps that would do, where one would.
    pub rating_that_would_do_gpm: Option<f64>,
}

impl HoseFigures {
    /// The figures of a comparison.
    pub fn new(one: &HoseInstead) -> HoseFigures {
        HoseFigures {
            source: one.source.clone(),
            distance_ft: one.distance_ft,
            flow_gpm: one.flow_gpm,
            hose_diameter_inches: one.size.diameter_in(),
            lines: one.lines,
            lay: one.lay.as_ref().map(|lay| LayFigures {
                hose_ft: lay.hose_ft,
                engines: lay.engines,
                greatest_spacing_ft: lay.greatest_spacing_ft,
                discharge_psi: one.discharge_psi,
                fill_gal: lay.fill_gal,
                first_water_min: lay.first_water_min,
            }),
            cannot: one.cannot.as_ref().map(cannot),
            discharge_psi: one.discharge_psi,
            fill_gpm: one.fill_gpm,
            shuttle_gpm: one.shuttle_gpm,
            can_be_laid: one.can_be_laid,
            is_sooner: one.is_sooner,
            shuttle_established_min: one.shuttle_established_min,
            shuttle_wins_beyond_ft: one.shuttle_wins_beyond_ft,
            ended_by: one.ended_by.map(|ends| match ends {
                Ends::Hose => EndedBy::HoseOnHand,
                Ends::Engines => EndedBy::EnginesOnHand,
                Ends::Time => EndedBy::Time,
            }),
            common_practice: one.common_practice,
        }
    }
}

fn cannot(of: &Cannot) -> CannotFigures {
    let why = |why| CannotFigures {
        why,
        gives_gpm: None,
        two_lays_would_do: None,
        rating_that_would_do_gpm: None,
    };
    match of {
        Cannot::SourceGives(gpm) => {
            CannotFigures { gives_gpm: Some(*gpm), ..why(CannotKey::SourceTooSmall) }
        }
        Cannot::PumpGives { gives_gpm, two_lays_would_do, rating_that_would_do_gpm, .. } => {
            CannotFigures {
                why: CannotKey::PumpTooSmall,
                gives_gpm: Some(*gives_gpm),
                two_lays_would_do: Some(*two_lays_would_do),
                rating_that_would_do_gpm: *rating_that_would_do_gpm,
            }
        }
        Cannot::TooManyEngines => why(CannotKey::TooManyEngines),
        Cannot::IntakeTakesAll => why(CannotKey::IntakeTakesAll),
        Cannot::BeyondRating => why(CannotKey::BeyondRating),
        Cannot::Fact(_) => why(CannotKey::FactDoesNotFit),
    }
}
