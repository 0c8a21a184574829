//! The day of a drill beside what the model expects, as figures.

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::playback::assumptions::Assumption;
use shuttle_report::playback::band::{Band, Fit};

use super::super::Found;
use super::super::course::everyone;
use super::super::day::Day;
use super::super::played::Played;

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
    /// What the loads come to.
    pub poured_gal: f64,
    /// From the first of them to the last.
    pub poured_over_min: f64,
    /// What that makes.
    pub poured_gpm: f64,
    /// Minutes after the alarm.
    pub minute: Vec<f64>,
    /// What was poured by then.
    pub measured_gal: Vec<f64>,
    /// What the model expects from the measured times.
    pub expected: BandFigures,
    /// How the day lies to it.
    pub fit: FitFigures,
    /// With a tanker lost; null where none was asked about.
    #[serde(rename = "tanker_lost")]
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

/// An assumption that was tried.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct AssumptionFigures {
    /// What is assumed.
    #[serde(flatten)]
    pub assumed: AssumedFigures,
    /// Whether it would explain the day.
    pub explains: bool,
    /// How the day lies to the runs made with it.
    pub fit: FitFigures,
}

/// What is assumed.
#[derive(Debug, Clone, Serialize, JsonSchema)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum AssumedFigures {
    /// So many fill positions.
    FillPositions {
        /// At this fill site.
        fill_site: String,
        /// How many.
        positions: u32,
    },
    /// So many dump positions.
    DumpPositions {
        /// At this drop tank, by its number from 1.
        number: usize,
        /// How many.
        positions: u32,
    },
    /// A fill site gave less than was measured.
    FillFlow {
        /// Which.
        fill_site: String,
        /// So much of it.
        share: f64,
    },
    /// The lines took less than planned.
    AttackFlow {
        /// So much of it.
        share: f64,
    },
    /// Every drive took longer or shorter.
    Driving {
        /// So many times as long.
        factor: f64,
    },
    /// All handling did.
    Handling {
        /// So many times as long.
        factor: f64,
    },
    /// A tanker was out.
    Breakdown {
        /// Which; null where it is not one of the log.
        tanker: Option<String>,
        /// From when on.
        from_min: f64,
        /// For how long; null: for good.
        out_min: Option<f64>,
    },
}

/// The day; nothing where the log has no loads.
pub(super) fn day(found: &Found<'_>) -> Option<DayFigures> {
    let played = found.played.as_ref()?;
    let facts = everyone(found.scenario);
    let day = &played.day;
    let poured = poured(day);
    Some(DayFigures {
        alarm_min_of_day: day.alarm_clock.map(|seconds| seconds / 60.0),
        alarm_is_stated: day.alarm_is_stated,
        loads: day.loads.len(),
        poured_gal: poured.gallons,
        poured_over_min: poured.minutes,
        poured_gpm: poured.gallons / poured.minutes,
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
            .map(|one| AssumptionFigures {
                assumed: assumed(found, played, one.assumption),
                explains: played.explained_by().any(|other| other.assumption == one.assumption),
                fit: one.fit.into(),
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

/// All loads of a day together.
pub(in super::super) struct AllPoured {
    pub gallons: f64,
    /// From the first to the last, one at least.
    pub minutes: f64,
}

/// What the loads of a day come to.
pub(in super::super) fn poured(day: &Day) -> AllPoured {
    let from = day.loads.iter().map(|load| load.from).fold(f64::INFINITY, f64::min);
    let to = day.loads.iter().map(|load| load.to).fold(0.0, f64::max);
    let gallons = day.loads.iter().map(|load| load.gallons).sum();
    AllPoured { gallons, minutes: (to - from).max(1.0) }
}

fn assumed(found: &Found<'_>, played: &Played, assumption: Assumption) -> AssumedFigures {
    let facts = everyone(found.scenario);
    let fill_site = |at: usize| facts.fill_sites[at].name.clone();
    match assumption {
        Assumption::FillPositions { site, positions } => {
            AssumedFigures::FillPositions { fill_site: fill_site(site), positions }
        }
        Assumption::DumpPositions { tank, positions } => {
            AssumedFigures::DumpPositions { number: tank + 1, positions }
        }
        Assumption::Fill { site, share } => {
            AssumedFigures::FillFlow { fill_site: fill_site(site), share }
        }
        Assumption::AttackFlow { share } => AssumedFigures::AttackFlow { share },
        Assumption::Driving { times } => AssumedFigures::Driving { factor: times },
        Assumption::Handling { times } => AssumedFigures::Handling { factor: times },
        Assumption::Out(absent) => {
            let tanker = played.day.places.iter().position(|place| *place == Some(absent.tanker));
            AssumedFigures::Breakdown {
                tanker: tanker.map(|place| facts.tankers[place].name.clone()),
                from_min: absent.from,
                out_min: absent.minutes,
            }
        }
    }
}
