//! The figures of `replay`.

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::units::Units;
use shuttle_sim::{CauseKind, Plan};

use super::what::{At, Factors, Line, What};
use super::who::Who;
use super::{Fire, Which};
use crate::reader::Reader;
use crate::shared::Whom;

/// The figures of `replay`. Times count from the alarm.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct ReplayFigures {
    /// Whether every duration is at its mean.
    #[serde(rename = "is_planned")]
    pub planned: bool,
    /// Which fire of the seed, from 1; null where it is the planned one.
    pub run: Option<u64>,
    /// First water, minutes after the alarm.
    pub first_water_min: f64,
    /// End of the watch, minutes after the alarm.
    pub end_min: f64,
    /// Supply established, minutes after the alarm; null: never.
    pub established_min: Option<f64>,
    /// Shortfalls long enough to count, in order.
    pub interruptions: Vec<InterruptionFigures>,
    /// Minutes short, every shortfall counted.
    #[serde(rename = "short_min")]
    pub minutes_short: f64,
    /// Water wanted and not delivered.
    pub unmet_gal: f64,
    /// Water delivered to the lines.
    pub delivered_gal: f64,
    /// Water wanted by the lines.
    pub wanted_gal: f64,
    /// Water spilled or underfilled.
    pub spilled_gal: f64,
    /// Water that came on scene, the attack engine's own tank included.
    pub arrived_gal: f64,
    /// Water still on scene at the end.
    pub remaining_gal: f64,
    /// Water carried away again by tankers that pulled clear with a rest.
    pub carried_away_gal: f64,
    /// Water kept in the attack engine for backing out.
    pub reserve_gal: f64,
    /// Whether the attack engine's tank fell below it.
    #[serde(rename = "is_reserve_touched")]
    pub reserve_touched: bool,
    /// Lowest level of the attack engine's tank.
    #[serde(rename = "lowest_engine_level_gal")]
    pub lowest_engine_gal: f64,
    /// Lowest level of each drop tank since the pump first drew; null if it never did.
    pub lowest_drop_tanks_gal: Vec<Option<f64>>,
    /// By tanker.
    #[serde(rename = "tanker_trips")]
    pub tankers: Vec<TankerFigures>,
    /// Every line of the story, in order.
    pub timeline: Vec<LineFigures>,
}

/// A shortfall.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct InterruptionFigures {
    /// When it begins, minutes after the alarm.
    pub start_min: f64,
    /// How long it lasts.
    #[serde(rename = "lasts_min")]
    pub minutes: f64,
    /// Whether it begins before the supply is established.
    #[serde(rename = "is_before_supply")]
    pub before_supply: bool,
    /// Why it begins.
    #[schemars(schema_with = "crate::shared::closed_words::cause")]
    pub cause: &'static str,
    /// What held within that cause, as `causes_of_which` of `risk` has it; null where it is not told further.
    #[serde(rename = "of_which")]
    #[schemars(schema_with = "crate::shared::closed_words::of_which_or_null")]
    pub kind: Option<&'static str>,
    /// Whom or what that is about, where it is one.
    pub about: Option<Whom>,
}

/// What one tanker did.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct TankerFigures {
    /// Its name.
    pub name: String,
    /// Loads brought in and emptied.
    pub trips: u32,
    /// Water it delivered.
    pub delivered_gal: f64,
}

/// One line of the story.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct LineFigures {
    /// Minutes after the alarm.
    #[serde(rename = "at_min")]
    pub minute: f64,
    /// To whom it happens.
    pub who: Who,
    /// What happens.
    pub what: What,
    /// Where, if it has a place.
    pub at: Option<At>,
    /// The flow wanted from now on, where that changes; the flow that comes, where a shortfall begins.
    pub flow_gpm: Option<f64>,
    /// The rest that stays aboard, where one does.
    pub rest_gal: Option<f64>,
    /// What this fire, or a crew, multiplies times by.
    pub factors: Option<Factors>,
    /// What happens in words, quantities left to the fields above.
    pub says: String,
    /// Levels of the drop tanks at that moment.
    #[serde(rename = "drop_tank_levels_gal")]
    pub drop_tanks_gal: Vec<f64>,
    /// Level of the attack engine's tank.
    #[serde(rename = "engine_level_gal")]
    pub attack_engine_gal: f64,
}

impl ReplayFigures {
    /// From one fire.
    pub(super) fn new(plan: &Plan, fire: &Fire) -> ReplayFigures {
        let (facts, result) = (plan.facts(), &fire.result);
        let columns = facts.drop_tanks.len() + 1;
        let run = match fire.which {
            Which::Planned => None,
            Which::Drawn { run, .. } => Some(run),
        };
        ReplayFigures {
            planned: run.is_none(),
            run,
            first_water_min: result.first_water,
            end_min: result.end,
            established_min: result.established,
            interruptions: (result.interruptions.iter())
                .map(|one| InterruptionFigures {
                    start_min: one.start,
                    minutes: one.minutes,
                    before_supply: one.before_supply,
                    cause: one.cause.key(),
                    kind: one.kind.map(CauseKind::key),
                    about: one.about.map(|about| Whom::new(about, plan)),
                })
                .collect(),
            minutes_short: result.minutes_short.iter().sum(),
            unmet_gal: result.unmet.iter().sum(),
            delivered_gal: result.delivered,
            wanted_gal: result.wanted,
            spilled_gal: result.spilled,
            arrived_gal: result.arrived,
            remaining_gal: result.remaining,
            carried_away_gal: result.carried_away,
            reserve_gal: facts.incident.reserve,
            reserve_touched: result.reserve_touched,
            lowest_engine_gal: result.lowest_engine,
            lowest_drop_tanks_gal: (result.lowest_tanks.iter())
                .map(|level| level.is_finite().then_some(*level))
                .collect(),
            tankers: (facts.tankers.iter().zip(&result.tankers))
                .map(|(tanker, record)| TankerFigures {
                    name: tanker.name.clone(),
                    trips: record.trips,
                    delivered_gal: record.delivered,
                })
                .collect(),
            timeline: (fire.trace.notes.iter().zip(fire.trace.levels.chunks(columns)))
                .map(|(note, levels)| line(&Line::new(plan, note), levels))
                .collect(),
        }
    }
}

fn line(line: &Line, levels: &[f64]) -> LineFigures {
    // Neither names nor these words depend on the reader.
    let reader = Reader { units: Units::Us, tender: false };
    let (attack_engine_gal, drop_tanks_gal) =
        levels.split_last().map_or((0.0, &[] as &[f64]), |(engine, tanks)| (*engine, tanks));
    LineFigures {
        minute: line.minute,
        who: line.who.clone(),
        what: line.what,
        at: line.at.clone(),
        flow_gpm: line.flow_gpm,
        rest_gal: line.rest_gal,
        factors: line.factors,
        says: reader.put(&line.words_without_quantity()),
        drop_tanks_gal: drop_tanks_gal.to_vec(),
        attack_engine_gal,
    }
}
