//! The figures of `drill`.

pub(super) mod played_back;
mod read;
mod steps;

use drill_log::Place;
use schemars::JsonSchema;
use serde::Serialize;
use serde_json::Value;
use shuttle_report::changes::input::Input;
use shuttle_report::options_compared::Interval;
use shuttle_report::statistics::binomial::exact_interval;

use self::played_back::{DayFigures, day};
use self::read::{ReadFigures, read};
use self::steps::{StepFigures, StepKey, steps};
use super::Found;
use super::course::everyone;
use super::told::written::{absent, kept_as_facts, new_values, too_few};
use super::told::{steps_read, unlike, waited_at};
use crate::shared::changes::QuantityFigures;
use crate::shared::doubt::DoubtFigures;

/// The figures of `drill`.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct DrillFigures {
    /// Share of fires in which the lines run short with the measured times.
    pub interruption_probability: f64,
    /// Lower end of its exact binomial 95% interval.
    pub ci_low: f64,
    /// Upper end.
    pub ci_high: f64,
    /// What the 95% of that interval are of.
    pub interval: Interval,
    /// How far the chance can be trusted, where inputs rest on readings or guesses; else null.
    pub doubt: Option<DoubtFigures>,
    /// Rows of the log.
    pub trips: usize,
    /// How the log was read, where it could have been read otherwise.
    pub read_as: Vec<ReadFigures>,
    /// Steps of which there is any reading.
    pub steps_read: usize,
    /// All times are whole multiples of so many minutes.
    pub written_to_min: f64,
    /// Standard deviation of the error this brings into each reading, minutes.
    pub reading_error_min: f64,
    /// Every step, over all tankers and by tanker.
    pub steps: Vec<StepFigures>,
    /// What was waited for, which is no work.
    pub waits: Vec<WaitFigures>,
    /// The same by place.
    pub waits_by_place: Vec<WaitsAtPlace>,
    /// Readings that stand out; they are counted.
    pub outliers: Vec<OutlierFigures>,
    /// More tankers at a place than it has positions.
    pub crowds: Vec<CrowdFigures>,
    /// Breakdowns.
    pub breakdowns: Vec<BreakdownFigures>,
    /// Breakdowns a trip; null where there was none.
    pub breakdown_per_trip: Option<f64>,
    /// What the measured times put in place of what.
    #[serde(rename = "measured_values")]
    pub values: Vec<ValueFigures>,
    /// How many of them the scenario does not have already.
    pub new_values: usize,
    /// Steps with too few readings for the scenario, which keeps what it has.
    pub too_few_readings: Vec<StepKey>,
    /// Flows that stand in the scenario as facts and stay.
    pub kept_as_facts: Vec<KeptFigures>,
    /// Tankers of the scenario that no row of the log is of.
    pub tankers_not_in_log: Vec<String>,
    /// The step that the scenario had most wrong; null where none is far off.
    pub most_wrong: Option<MostWrong>,
    /// The file they were written into; null where none was.
    #[serde(rename = "written_into")]
    pub written: Option<String>,
    /// The day; null where the log has no loads to play back.
    pub day: Option<DayFigures>,
    /// What time saved at each step that a crew can train is worth, the best first.
    pub training: Vec<TrainingFigures>,
}

/// Waiting for a place.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct WaitFigures {
    /// What for.
    pub waited_for: WaitedFor,
    /// At which fill site; null at the scene.
    pub fill_site: Option<String>,
    /// The tanker.
    pub tanker: String,
    /// The row.
    pub row: usize,
    /// How long.
    pub wait_min: f64,
}

/// What a tanker waited for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum WaitedFor {
    /// A place at the fill site.
    FillPosition,
    /// Connected there, for water.
    Water,
    /// A place at the drop tanks.
    DumpPosition,
}

/// All waiting for one thing.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct WaitsAtPlace {
    /// What for.
    pub waited_for: WaitedFor,
    /// At which fill site; null at the scene.
    pub fill_site: Option<String>,
    /// How often.
    pub times: usize,
    /// In all.
    pub wait_min: f64,
}

/// A flow that is given by the facts behind it.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct KeptFigures {
    /// Path of keys.
    pub field: String,
    /// What was measured.
    pub measured: Value,
}

/// A step as the scenario has it and as it was.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct MostWrong {
    /// The step.
    pub step: StepKey,
    /// Of which fill site; null where it is of none.
    pub fill_site: Option<String>,
    /// What the scenario has, mean.
    pub stated_min: f64,
    /// What it took, mean.
    pub took_min: f64,
}

/// A reading that stands out.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct OutlierFigures {
    /// The row.
    pub row: usize,
    /// The tanker.
    pub tanker: String,
    /// The step.
    pub step: StepKey,
    /// How long it took.
    pub took_min: f64,
    /// What is usual for such a load.
    pub usual_min: f64,
}

/// More tankers at a place than it has positions.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct CrowdFigures {
    /// The fill site; null: the drop tanks.
    pub fill_site: Option<String>,
    /// The rows of the log.
    pub log_rows: Vec<usize>,
    /// Positions that the scenario has there.
    pub positions: u32,
}

/// A breakdown.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct BreakdownFigures {
    /// The row.
    pub row: usize,
    /// The tanker.
    pub tanker: String,
    /// The step that took longer for it; null where none is known to have.
    pub step: Option<StepKey>,
    /// By how much longer than usual.
    pub beyond_usual_min: Option<f64>,
}

/// A value of the scenario.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct ValueFigures {
    /// Path of keys.
    pub field: String,
    /// What stood there; null where nothing did.
    pub before: Option<Value>,
    /// What was measured.
    pub after: Value,
    /// On how many readings it rests.
    pub readings: usize,
}

/// What time saved at a step is worth.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct TrainingFigures {
    /// The step.
    pub input: Input,
    /// What it takes now, on average.
    pub now: QuantityFigures,
    /// What is saved.
    pub saved: QuantityFigures,
    /// Readings it rests on; 0: it was not timed.
    pub readings: usize,
    /// Standard error of the mean of the readings.
    pub standard_error_min: Option<f64>,
    /// Fires simulated with it.
    pub replications: u64,
    /// Share of fires in which the lines then run short.
    pub interruption_probability: f64,
    /// Whether that surely helps.
    pub helps: bool,
}

impl DrillFigures {
    pub(super) fn new(found: &Found<'_>) -> DrillFigures {
        let timed = found.timed;
        let facts = everyone(found.scenario);
        let tanker = |place: usize| facts.tankers[place].name.clone();
        let site = |place: usize| facts.fill_sites[place].name.clone();
        let (measured, tally) = (&timed.measured, &found.tally);
        let (ci_low, ci_high) = exact_interval(tally.interrupted, tally.runs, 0.95);
        let trips = timed.log.trips.len();
        let breakdowns = measured.breakdowns.len();
        DrillFigures {
            interruption_probability: tally.chance(),
            ci_low,
            ci_high,
            interval: Interval::Single,
            doubt: found.in_doubt.clone(),
            trips,
            read_as: timed.log.guesses.iter().map(read).collect(),
            steps_read: steps_read(found),
            written_to_min: timed.log.grain,
            reading_error_min: timed.log.reading_error(),
            steps: steps(found),
            waits: (measured.waits.iter())
                .map(|wait| {
                    let (waited_for, fill_site) = waited(wait.place, site);
                    WaitFigures {
                        waited_for,
                        fill_site,
                        tanker: tanker(wait.tanker),
                        row: wait.row,
                        wait_min: wait.minutes,
                    }
                })
                .collect(),
            waits_by_place: (waited_at(&measured.waits).into_iter())
                .map(|(place, times, wait_min)| {
                    let (waited_for, fill_site) = waited(place, site);
                    WaitsAtPlace { waited_for, fill_site, times, wait_min }
                })
                .collect(),
            outliers: (timed.outliers.iter())
                .map(|outlier| {
                    let one = &measured.readings[outlier.reading];
                    OutlierFigures {
                        row: one.row,
                        tanker: tanker(one.tanker),
                        step: one.step.into(),
                        took_min: one.minutes,
                        usual_min: outlier.usual,
                    }
                })
                .collect(),
            crowds: (measured.crowds.iter())
                .map(|crowd| CrowdFigures {
                    fill_site: match crowd.place {
                        Place::Fill(at) | Place::Water(at) => Some(site(at)),
                        Place::Dump => None,
                    },
                    positions: match crowd.place {
                        Place::Fill(at) | Place::Water(at) => facts.fill_sites[at].positions,
                        Place::Dump => timed.course.dump_positions,
                    },
                    log_rows: crowd.rows.clone(),
                })
                .collect(),
            breakdowns: (measured.breakdowns.iter())
                .map(|one| BreakdownFigures {
                    row: one.row,
                    tanker: tanker(one.tanker),
                    step: one.cost.map(|(step, _)| step.into()),
                    beyond_usual_min: one.cost.map(|(_, minutes)| minutes),
                })
                .collect(),
            breakdown_per_trip: (breakdowns > 0).then(|| breakdowns as f64 / trips.max(1) as f64),
            values: (found.with.put.iter())
                .map(|put| ValueFigures {
                    field: put.place.clone(),
                    before: put.before.as_deref().map(as_json),
                    after: as_json(&put.after),
                    readings: timed.values[put.of].readings,
                })
                .collect(),
            new_values: new_values(found),
            too_few_readings: too_few(found).into_iter().map(StepKey::from).collect(),
            kept_as_facts: (kept_as_facts(found))
                .map(|value| KeptFigures {
                    field: value.put.place.clone(),
                    measured: value.put.value.clone(),
                })
                .collect(),
            tankers_not_in_log: absent(found).map(|tanker| tanker.name.clone()).collect(),
            most_wrong: unlike::most(found).map(|most| MostWrong {
                step: most.step.into(),
                fill_site: most.site.map(site),
                stated_min: most.stated,
                took_min: most.took,
            }),
            written: found.asked.written.as_ref().map(|path| path.display().to_string()),
            day: day(found),
            training: training(found),
        }
    }
}

/// A value of the file; what is no JSON by itself is its text.
fn as_json(written: &str) -> Value {
    serde_json::from_str(written).unwrap_or_else(|_| written.into())
}

fn waited(place: Place, site: impl Fn(usize) -> String) -> (WaitedFor, Option<String>) {
    match place {
        Place::Fill(at) => (WaitedFor::FillPosition, Some(site(at))),
        Place::Water(at) => (WaitedFor::Water, Some(site(at))),
        Place::Dump => (WaitedFor::DumpPosition, None),
    }
}

fn training(found: &Found<'_>) -> Vec<TrainingFigures> {
    (found.training.worth.rows.iter().zip(&found.training.read))
        .filter_map(|(row, read)| {
            let better = row.better.as_ref()?;
            Some(TrainingFigures {
                input: row.input.clone(),
                now: row.now.into(),
                saved: row.amount.into(),
                readings: read.map_or(0, |of| of.readings),
                standard_error_min: read.map(|of| of.deviation / (of.readings as f64).sqrt()),
                replications: better.replications,
                interruption_probability: better.interruption_probability,
                helps: super::train::helps(row),
            })
        })
        .collect()
}
