//! The figures of `drill`.

use drill_log::{Figures, Place, Step};
use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::changes::input::Input;
use shuttle_report::playback::assumptions::Assumption;
use shuttle_report::playback::band::{Band, Fit};
use shuttle_report::statistics::binomial::exact_interval;

use super::Found;
use super::course::everyone;
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
    /// How far the chance can be trusted, where inputs rest on readings or guesses; else null.
    pub doubt: Option<DoubtFigures>,
    /// Rows of the log.
    pub trips: usize,
    /// All times are whole multiples of so many minutes.
    pub written_to_min: f64,
    /// Standard deviation of the error this brings into each reading, minutes.
    pub reading_error_min: f64,
    /// Every step, over all tankers and by tanker.
    pub steps: Vec<StepFigures>,
    /// What was waited for, which is no work.
    pub waits: Vec<WaitFigures>,
    /// Readings that stand out; they are counted.
    pub outliers: Vec<OutlierFigures>,
    /// More tankers at a place than it has positions.
    pub crowds: Vec<CrowdFigures>,
    /// Breakdowns.
    pub breakdowns: Vec<BreakdownFigures>,
    /// Breakdowns a trip; null where there was none.
    pub breakdown_per_trip: Option<f64>,
    /// What the measured times put in place of what.
    pub values: Vec<ValueFigures>,
    /// The file they were written into; null where none was.
    pub written: Option<String>,
    /// The day; null where the log has no loads to play back.
    pub day: Option<DayFigures>,
    /// What time saved at each step that a crew can train is worth, the best first.
    pub training: Vec<TrainingFigures>,
}

/// A step of the cycle.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum StepKey {
    /// The road to the fill site.
    DriveOut,
    /// Getting into place and connecting there.
    FillConnect,
    /// Taking water.
    Fill,
    /// Disconnecting.
    FillDisconnect,
    /// The road to the scene.
    DriveBack,
    /// Getting into place at the drop tank.
    DumpPosition,
    /// Dumping.
    Dump,
    /// Pulling clear.
    DumpClear,
}

impl From<Step> for StepKey {
    fn from(step: Step) -> StepKey {
        match step {
            Step::DriveOut => StepKey::DriveOut,
            Step::FillConnect => StepKey::FillConnect,
            Step::Fill => StepKey::Fill,
            Step::FillDisconnect => StepKey::FillDisconnect,
            Step::DriveBack => StepKey::DriveBack,
            Step::DumpPosition => StepKey::DumpPosition,
            Step::Dump => StepKey::Dump,
            Step::DumpClear => StepKey::DumpClear,
        }
    }
}

/// What many readings say.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct StepFigures {
    /// The step.
    pub step: StepKey,
    /// The tanker; null: all of them.
    pub tanker: Option<String>,
    /// How many readings.
    pub readings: usize,
    /// The middle one; null of none, as all that follow.
    pub median_min: Option<f64>,
    /// The least.
    pub low_min: Option<f64>,
    /// The greatest.
    pub high_min: Option<f64>,
    /// The mean.
    pub mean_min: Option<f64>,
    /// The standard deviation.
    pub deviation_min: Option<f64>,
    /// Rows in which it cannot be told apart from waiting, so that it is not counted; of all tankers only.
    pub untold_rows: Vec<usize>,
}

/// Waiting for a place.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct WaitFigures {
    /// What for: `fill_position`, `water`, `dump_position`.
    pub place: &'static str,
    /// At which fill site; null at the scene.
    pub site: Option<String>,
    /// The tanker.
    pub tanker: String,
    /// The row.
    pub row: usize,
    /// How long.
    pub wait_min: f64,
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
    pub site: Option<String>,
    /// The rows.
    pub rows: Vec<usize>,
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
    /// By how much.
    pub beyond_usual_min: Option<f64>,
}

/// A value of the scenario.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct ValueFigures {
    /// Path of keys.
    pub place: String,
    /// What stood there, as written; null where nothing did.
    pub before: Option<String>,
    /// What was measured, as written.
    pub after: String,
    /// On how many readings it rests.
    pub readings: usize,
}

/// The day beside what the model expects, minute by minute after the alarm.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct DayFigures {
    /// The alarm's time of the day, minutes after midnight; null of a stopwatch.
    pub alarm_min_of_day: Option<f64>,
    /// Whether the alarm was stated; else worked out from who came first.
    pub alarm_is_stated: bool,
    /// Loads poured.
    pub loads: usize,
    /// Rows with a load that has no time.
    pub rows_without_time: Vec<usize>,
    /// Minutes after the alarm.
    pub minute: Vec<f64>,
    /// What was poured by then.
    pub measured_gal: Vec<f64>,
    /// What the model expects from the measured times.
    pub expected: BandFigures,
    /// How the day lies to it.
    pub fit: FitFigures,
    /// With a tanker lost; null where none was asked about.
    pub lost: Option<LostFigures>,
    /// Assumptions that were tried, the best first; none where the day lies within what is expected.
    pub assumptions: Vec<AssumptionFigures>,
}

/// What many runs pour by each minute.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct BandFigures {
    /// Runs made.
    pub runs: u64,
    /// 5% of them have poured less.
    pub p5_gal: Vec<f64>,
    /// The middle one.
    pub p50_gal: Vec<f64>,
    /// 5% have poured more.
    pub p95_gal: Vec<f64>,
}

/// How a day lies to the runs.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct FitFigures {
    /// Share of the runs that stray as far at some minute.
    pub share_as_far: f64,
    /// From which minute on it lies further out than 19 runs of 20 ever do; null where it never does.
    pub parts_at_min: Option<f64>,
    /// Whether it lies below there.
    pub is_below: bool,
}

/// A tanker lost.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct LostFigures {
    /// The tanker.
    pub tanker: String,
    /// From when on, minutes after the alarm.
    pub from_min: f64,
    /// What the model then expects.
    pub expected: BandFigures,
    /// How the day lies to it.
    pub fit: FitFigures,
}

/// An assumption.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct AssumptionFigures {
    /// What is assumed: `fill_positions`, `dump_positions`, `fill_flow`, `attack_flow`, `driving`, `handling`,
    /// `breakdown`.
    pub assumed: &'static str,
    /// The fill site, the drop tank (from 1) or the tanker it is about.
    pub about: Option<String>,
    /// How many, what share, how many times, or how many minutes; null: for good.
    pub amount: Option<f64>,
    /// How the day lies to the runs made with it.
    pub fit: FitFigures,
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
            doubt: found.in_doubt.clone(),
            trips,
            written_to_min: timed.log.grain,
            reading_error_min: timed.log.reading_error(),
            steps: steps(found),
            waits: (measured.waits.iter())
                .map(|wait| {
                    let (place, at) = match wait.place {
                        Place::Fill(at) => ("fill_position", Some(at)),
                        Place::Water(at) => ("water", Some(at)),
                        Place::Dump => ("dump_position", None),
                    };
                    WaitFigures {
                        place,
                        site: at.map(site),
                        tanker: tanker(wait.tanker),
                        row: wait.row,
                        wait_min: wait.minutes,
                    }
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
                    site: match crowd.place {
                        Place::Fill(at) | Place::Water(at) => Some(site(at)),
                        Place::Dump => None,
                    },
                    rows: crowd.rows.clone(),
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
                    place: put.place.clone(),
                    before: put.before.clone(),
                    after: put.after.clone(),
                    readings: timed.values[put.of].readings,
                })
                .collect(),
            written: found.asked.written.as_ref().map(|path| path.display().to_string()),
            day: day(found),
            training: training(found),
        }
    }
}

fn steps(found: &Found<'_>) -> Vec<StepFigures> {
    let facts = everyone(found.scenario);
    let mut all = Vec::new();
    for step in Step::ALL {
        let untold = (found.timed.measured.untold.iter())
            .filter(|one| one.step == step)
            .map(|one| one.row)
            .collect();
        all.push(step_figures(step, None, found.timed.figures(step, None, None), untold));
        for (place, tanker) in facts.tankers.iter().enumerate() {
            if let Some(of) = found.timed.figures(step, Some(place), None) {
                all.push(step_figures(step, Some(&tanker.name), Some(of), Vec::new()));
            }
        }
    }
    all
}

fn step_figures(
    step: Step,
    tanker: Option<&str>,
    of: Option<Figures>,
    untold_rows: Vec<usize>,
) -> StepFigures {
    StepFigures {
        step: step.into(),
        tanker: tanker.map(str::to_owned),
        readings: of.map_or(0, |of| of.readings),
        median_min: of.map(|of| of.median),
        low_min: of.map(|of| of.low),
        high_min: of.map(|of| of.high),
        mean_min: of.map(|of| of.mean),
        deviation_min: of.map(|of| of.deviation),
        untold_rows,
    }
}

fn day(found: &Found<'_>) -> Option<DayFigures> {
    let played = found.played.as_ref()?;
    let facts = everyone(found.scenario);
    let day = &played.day;
    let tanker_of = |in_plan: usize| {
        let place = day.places.iter().position(|place| *place == Some(in_plan));
        place.map(|place| facts.tankers[place].name.clone())
    };
    Some(DayFigures {
        alarm_min_of_day: day.alarm_clock.map(|seconds| seconds / 60.0),
        alarm_is_stated: day.alarm_is_stated,
        loads: day.loads.len(),
        rows_without_time: day.unplaced.clone(),
        minute: day.minutes.clone(),
        measured_gal: played.poured.clone(),
        expected: (&played.expected).into(),
        fit: played.fit.into(),
        lost: played.lost.as_ref().map(|(lost, band, fit)| LostFigures {
            tanker: facts.tankers[lost.tanker].name.clone(),
            from_min: lost.minute,
            expected: band.into(),
            fit: (*fit).into(),
        }),
        assumptions: (played.tried.iter())
            .map(|one| {
                let site = |at: usize| Some(facts.fill_sites[at].name.clone());
                let (assumed, about, amount) = match one.assumption {
                    Assumption::FillPositions { site: at, positions } => {
                        ("fill_positions", site(at), Some(f64::from(positions)))
                    }
                    Assumption::DumpPositions { tank, positions } => {
                        ("dump_positions", Some((tank + 1).to_string()), Some(f64::from(positions)))
                    }
                    Assumption::Fill { site: at, share } => ("fill_flow", site(at), Some(share)),
                    Assumption::AttackFlow { share } => ("attack_flow", None, Some(share)),
                    Assumption::Driving { times } => ("driving", None, Some(times)),
                    Assumption::Handling { times } => ("handling", None, Some(times)),
                    Assumption::Out(absent) => {
                        ("breakdown", tanker_of(absent.tanker), absent.minutes)
                    }
                };
                AssumptionFigures { assumed, about, amount, fit: one.fit.into() }
            })
            .collect(),
    })
}

impl From<&Band> for BandFigures {
    fn from(band: &Band) -> BandFigures {
        BandFigures {
            runs: band.runs,
            p5_gal: band.low.clone(),
            p50_gal: band.middle.clone(),
            p95_gal: band.high.clone(),
        }
    }
}

impl From<Fit> for FitFigures {
    fn from(fit: Fit) -> FitFigures {
        FitFigures {
            share_as_far: fit.share_as_far,
            parts_at_min: fit.parts_at,
            is_below: fit.is_below,
        }
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
