//! The figures of `hold`.

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::by_minute::{HeldBy, MinuteAnswer, MinuteRow};

use crate::shared::holding::Binds;

/// The figures of `hold`. A flow that holds is unbroken from its minute to the end of the watch in at least
/// `share` of fires; all of them hold together at 95%. Minutes count from the alarm.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct HoldFigures {
    /// Share of fires in which a flow must hold.
    pub share: f64,
    /// First water, by means, minutes after the alarm.
    pub first_water_min: f64,
    /// The end of the watch, by means, minutes after the alarm.
    pub end_min: f64,
    /// The plan as it stands.
    pub as_it_stands: HeldFigures,
    /// With all aid that the file lists; null where it lists none.
    pub with_aid: Option<HeldFigures>,
}

/// What a number of tankers holds.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct HeldFigures {
    /// The names of the tankers.
    #[serde(rename = "with_tankers")]
    pub tankers: Vec<String>,
    /// The flows worth telling, each from the first minute at which it holds; with nothing used before.
    #[serde(rename = "holds")]
    pub steps: Vec<StepFigures>,
    /// Those steps taken one after another in one fire; null for fewer than two.
    pub stepped_up: Option<SteppedUpFigures>,
    /// When the first load that was filled again is at work, every time at its mean; null where none ever is.
    pub first_refill_min: Option<f64>,
    /// A flow that is asked for from first water on, whenever that comes; null: not reached.
    pub at_first_water: Option<MinuteFigures>,
    /// One a minute asked about.
    #[serde(rename = "by_minute")]
    pub rows: Vec<MinuteFigures>,
}

/// A flow worth telling.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct StepFigures {
    /// Whether it holds from first water on, whenever that comes; else only where no water is used before its minute.
    #[serde(rename = "from_first_water")]
    pub at_first_water: bool,
    /// From when it holds, minutes after the alarm; first water as it comes by means.
    pub from_min: f64,
    /// The flow.
    pub flow_gpm: f64,
}

/// Flows taken one after another in one fire.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct SteppedUpFigures {
    /// Simulated fires.
    pub replications: u64,
    /// Share of fires in which the lines run short.
    pub interruption_probability: f64,
    /// The most that holds from the minute of the last step where the flow of the first was given from its minute; null
    /// where no more than that flow is shown to hold.
    pub after_the_first_gpm: Option<f64>,
}

/// One minute.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct MinuteFigures {
    /// From when the flow is asked for, minutes after the alarm; first water as it comes by means.
    pub from_min: f64,
    /// The greatest flow shown to hold; null where none is.
    pub held_gpm: Option<f64>,
    /// Flows up to this one may hold too: not clear from the fires simulated.
    pub not_clear_up_to_gpm: Option<f64>,
    /// Whether a greater flow was seen to hold where a lesser one fails.
    pub uneven: bool,
    /// Whether the first water itself comes too late too often.
    pub no_water_yet: bool,
    /// To when the first loads alone carry that flow in the same share of fires, minutes after the alarm.
    pub first_loads_until_min: Option<f64>,
    /// What breaks a greater flow.
    pub binds: Option<Binds>,
    /// Simulated fires.
    pub replications: u64,
}

impl HoldFigures {
    /// Of what was found.
    pub fn new(found: &MinuteAnswer) -> HoldFigures {
        HoldFigures {
            share: found.share,
            first_water_min: found.first_water_min,
            end_min: found.end_min,
            as_it_stands: HeldFigures::of(&found.as_it_stands),
            with_aid: found.with_aid.as_ref().map(HeldFigures::of),
        }
    }
}

impl HeldFigures {
    /// First water and the minutes, with the flow that holds from each.
    pub fn flows(&self) -> Vec<(f64, f64)> {
        let all = self.at_first_water.iter().chain(&self.rows);
        all.filter_map(|row| Some((row.from_min, row.held_gpm?))).collect()
    }

    /// Of what was found for these tankers.
    pub fn of(held: &HeldBy) -> HeldFigures {
        let row = |row: &MinuteRow| MinuteFigures {
            from_min: row.minute,
            held_gpm: row.held_gpm,
            not_clear_up_to_gpm: row.not_clear_up_to_gpm,
            uneven: row.uneven,
            no_water_yet: row.no_water_yet,
            first_loads_until_min: row.first_loads_until_min,
            binds: row.binds.map(Binds::of),
            replications: row.replications,
        };
        HeldFigures {
            tankers: held.tankers.clone(),
            steps: (held.steps.iter())
                .map(|step| StepFigures {
                    at_first_water: step.at_first_water,
                    from_min: step.minute,
                    flow_gpm: step.gpm,
                })
                .collect(),
            stepped_up: held.stepped_up.as_ref().map(|stepped| SteppedUpFigures {
                replications: stepped.replications,
                interruption_probability: stepped.short as f64 / stepped.replications as f64,
                after_the_first_gpm: stepped.after_the_first_gpm,
            }),
            first_refill_min: held.first_refill_min,
            at_first_water: held.at_first_water.as_ref().map(row),
            rows: held.rows.iter().map(row).collect(),
        }
    }
}
