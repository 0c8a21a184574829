//! A batch in figures: the result format, and what the answer and the charts are made from.

use serde::Serialize;
use shuttle_sim::{Cause, CauseKind, Part, Plan, Subject};
use std::collections::BTreeMap;

use crate::decisions::told::Interval;
use crate::runs::bands::Bands;
use crate::runs::batch::Batch;
use crate::runs::details::Details;
use crate::statistics::binomial::Share;

/// A chance with its exact binomial 95% interval.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, schemars::JsonSchema)]
pub struct Chance {
    /// Share of runs.
    pub probability: f64,
    /// Lower end of the interval.
    pub ci_low: f64,
    /// Upper end of the interval.
    pub ci_high: f64,
    /// What the 95% of the interval are of.
    pub interval: Interval,
}

impl Chance {
    /// From `hits` of `of` runs.
    pub fn of(hits: u64, of: u64) -> Chance {
        let share = Share::exact(hits, of);
        Chance {
            probability: if of == 0 { 0.0 } else { share.value },
            ci_low: share.low,
            ci_high: share.high,
            interval: Interval::Single,
        }
    }
}

/// A mean with its standard error, and the value that only the worst 5% of runs go beyond.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, schemars::JsonSchema)]
pub struct Spread {
    /// Mean over runs.
    pub mean: f64,
    /// The worst 5% begin here; `None` where there were no runs to tell from.
    pub worst_5_percent: Option<f64>,
}

/// Five quantiles of a level, one of each a mark.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Band {
    /// 5%, gal.
    pub p5: Vec<f64>,
    /// 25%, gal.
    pub p25: Vec<f64>,
    /// 50%, gal.
    pub p50: Vec<f64>,
    /// 75%, gal.
    pub p75: Vec<f64>,
    /// 95%, gal.
    pub p95: Vec<f64>,
}

/// Levels over time, where at least half of the fires are being watched.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Levels {
    /// Minutes after the alarm, one a mark.
    pub minute: Vec<f64>,
    /// One band a drop tank, gal.
    pub drop_tanks: Vec<Band>,
    /// The attack engine's tank, gal.
    pub attack_engine: Band,
}

/// Utilization of stations over the watch.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Busy {
    /// By fill site: share of its positions' time.
    pub fill_positions: BTreeMap<String, f64>,
    /// By drop tank, in order: share of its positions' time.
    pub dump_positions: Vec<f64>,
    /// Share of the intakes' time.
    pub intakes: f64,
}

/// One tanker's means over runs.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TankerMeans {
    /// Its name.
    pub name: String,
    /// Loads brought in a run.
    pub trips_mean: f64,
    /// Gallons delivered in a run.
    pub delivered_gal_mean: f64,
    /// Minutes of a cycle by part; empty if it never made a whole cycle.
    pub cycle_min: BTreeMap<&'static str, f64>,
    /// Of those of `dump`, minutes that a full drop tank held it up.
    pub held_up_min: f64,
}

/// A batch in figures. Keys carry their units; gallons and minutes whatever the scenario's units.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Summary {
    /// The plan's title.
    pub title: String,
    /// Runs made.
    pub replications: u64,
    /// Their seed.
    pub seed: u64,
    /// Chance of at least one interruption.
    pub interruption_probability: f64,
    /// Lower end of its exact binomial 95% interval.
    pub ci_low: f64,
    /// Upper end of its exact binomial 95% interval.
    pub ci_high: f64,
    /// Chance of one that begins before the supply is established.
    pub before_supply: Chance,
    /// Chance of one that begins after.
    pub after_supply: Chance,
    /// Chance that the reserve is touched.
    pub reserve_touched: Chance,
    /// Interruptions a run, mean.
    pub interruptions_mean: f64,
    /// Minutes short a run, every shortfall counted: mean.
    pub interrupted_minutes_mean: f64,
    /// Its standard error.
    pub interrupted_minutes_se: f64,
    /// Minutes short before the supply is established, mean.
    pub interrupted_minutes_before_mean: f64,
    /// Minutes short after it, mean.
    pub interrupted_minutes_after_mean: f64,
    /// Minutes short that only 5% of runs exceed.
    pub interrupted_minutes_worst_5_percent: Option<f64>,
    /// Gallons wanted and not delivered, mean.
    pub unmet_gal_mean: f64,
    /// Its standard error.
    pub unmet_gal_se: f64,
    /// Gallons delivered, mean.
    pub delivered_gal_mean: f64,
    /// Its standard error.
    pub delivered_gal_se: f64,
    /// Gallons delivered that only 5% of runs stay below.
    pub delivered_gal_worst_5_percent: Option<f64>,
    /// Gallons wanted over the watch.
    pub wanted_gal: f64,
    /// First water, minutes after the alarm: the mean that the plan gives it, the same for every question and seed.
    pub first_water_min_mean: f64,
    /// When the supply was established, minutes after the alarm: mean over the runs where it was.
    pub established_min_mean: Option<f64>,
    /// Share of runs where it was.
    pub established_share: f64,
    /// Minute after first water of the first interruption, over interrupted runs.
    pub first_interruption_min: Option<Spread>,
    /// The same by the alarm's clock.
    pub first_interruption_alarm_min: Option<Spread>,
    /// Lowest level of the attack engine's tank, gal.
    pub lowest_engine_gal: Spread,
    /// Lowest level of the first drop tank since the pump first drew, gal.
    pub lowest_drop_tank_gal: Option<Spread>,
    /// Share of first interruptions by cause; empty if there were none.
    pub causes: BTreeMap<&'static str, f64>,
    /// Of those, whom or what a cause is about, where it is one: share of all first interruptions, greatest
    /// first.
    #[serde(skip)]
    pub causes_about: Vec<(Cause, Subject, f64)>,
    /// What held within the causes, where it can be told further: share of all first interruptions, in the order in
    /// which it is asked about.
    #[serde(skip)]
    pub causes_of_which: Vec<(CauseKind, f64)>,
    /// First interruptions by whole minute after first water, share of runs.
    pub first_interruption_by_minute: Vec<f64>,
    /// First interruptions by whole minute after the alarm, share of runs; up to the last there is.
    pub first_interruption_by_alarm_minute: Vec<f64>,
    /// Share of runs interrupted at some time within each whole minute after the alarm; up to the last there is.
    pub short_by_alarm_minute: Vec<f64>,
    /// Minutes of a cycle by part, mean over all tankers' whole cycles; empty if there were none.
    pub cycle_min: BTreeMap<&'static str, f64>,
    /// Of those of `dump`, minutes that a full drop tank held tankers up.
    pub held_up_min: f64,
    /// Whole cycles over all runs and tankers.
    pub cycles: u64,
    /// Utilization of stations.
    pub busy: Busy,
    /// By tanker.
    pub tankers: Vec<TankerMeans>,
    /// Gallons taken by fill site, mean.
    pub taken_gal_mean: BTreeMap<String, f64>,
    /// Levels over time, where they were kept.
    pub level: Option<Levels>,
    /// Greatest imbalance of water in any run, gal: rounding.
    pub water_balance_worst_gal: f64,
    /// The run with most minutes short, from 1 as `replay --run` counts; `None` if none was interrupted.
    pub worst_run: Option<u64>,
    /// Events applied over all runs.
    pub events: u64,
}

impl Summary {
    /// Puts a batch into figures. A batch without runs gives shares of zero with intervals from 0 to 1.
    pub fn new(plan: &Plan, batch: &Batch, seed: u64) -> Summary {
        let facts = plan.facts();
        let tally = &batch.tally;
        let empty;
        let details = match &tally.details {
            Some(details) => details,
            None => {
                empty = Box::new(Details::new(plan));
                &empty
            }
        };
        let runs = tally.runs.max(1) as f64;
        let chance = Chance::of(tally.interrupted, tally.runs);
        let share_of_time = |held: f64, positions: u32| {
            held / (runs * f64::from(positions) * facts.incident.duration)
        };
        let (minutes_mean, minutes_se) = mean_and_error(tally.minutes_short, tally.runs);
        let (unmet_mean, unmet_se) = mean_and_error(details.unmet, tally.runs);
        let (delivered_mean, delivered_se) = mean_and_error(details.delivered, tally.runs);
        let cycles: u64 = details.tankers.iter().map(|tanker| u64::from(tanker.cycles)).sum();
        // A histogram's bin may reach a little below the least level that can be.
        let unusable = facts.drop_tanks.first().map_or(0.0, |tank| tank.unusable);
        let level =
            batch.bands.as_ref().map(|bands| levels(bands, facts.drop_tanks.len(), tally.runs));
        Summary {
            title: facts.title.clone(),
            replications: tally.runs,
            seed,
            interruption_probability: chance.probability,
            ci_low: chance.ci_low,
            ci_high: chance.ci_high,
            before_supply: Chance::of(details.interrupted_before, tally.runs),
            after_supply: Chance::of(details.interrupted_after, tally.runs),
            reserve_touched: Chance::of(tally.reserve_touched, tally.runs),
            interruptions_mean: details.interruptions as f64 / runs,
            interrupted_minutes_mean: minutes_mean,
            interrupted_minutes_se: minutes_se,
            interrupted_minutes_before_mean: details.minutes_short_split[0] / runs,
            interrupted_minutes_after_mean: details.minutes_short_split[1] / runs,
            interrupted_minutes_worst_5_percent: details.minutes_short_spread.quantile(0.95),
            unmet_gal_mean: unmet_mean,
            unmet_gal_se: unmet_se,
            delivered_gal_mean: delivered_mean,
            delivered_gal_se: delivered_se,
            delivered_gal_worst_5_percent: details.delivered_spread.quantile(0.05),
            wanted_gal: details.wanted / runs,
            first_water_min_mean: facts.first_water_mean(),
            established_min_mean: (details.established > 0)
                .then(|| details.established_minutes / details.established as f64),
            established_share: details.established as f64 / runs,
            first_interruption_min: (tally.interrupted > 0).then(|| Spread {
                mean: details.first_minute_sum / tally.interrupted as f64,
                worst_5_percent: details.first_minute_spread.quantile(0.05),
            }),
            first_interruption_alarm_min: (tally.interrupted > 0).then(|| Spread {
                mean: details.first_alarm_sum / tally.interrupted as f64,
                worst_5_percent: details.first_alarm_quantile(0.05),
            }),
            lowest_engine_gal: Spread {
                mean: tally.lowest_engine / runs,
                worst_5_percent: details.lowest_engine_spread.quantile(0.05),
            },
            lowest_drop_tank_gal: (details.lowest_tank_spread.as_ref())
                .filter(|spread| spread.count() > 0)
                .map(|spread| Spread {
                    mean: tally.lowest_tank / spread.count() as f64,
                    worst_5_percent: spread.quantile(0.05).map(|level| level.max(unusable)),
                }),
            causes: (Cause::ALL.iter())
                .map(|cause| (cause, tally.first_causes[*cause as usize]))
                .filter(|(_, count)| *count > 0)
                .map(|(cause, count)| (cause.key(), count as f64 / tally.interrupted as f64))
                .collect(),
            causes_about: causes_about(details, tally.interrupted),
            causes_of_which: (details.first_kinds.iter())
                .map(|(kind, count)| (*kind, *count as f64 / tally.interrupted as f64))
                .collect(),
            first_interruption_by_minute: (details.first_minutes.iter())
                .map(|count| *count as f64 / runs)
                .collect(),
            first_interruption_by_alarm_minute: shares(&details.first_by_alarm, runs),
            short_by_alarm_minute: shares(&details.short_by_alarm, runs),
            cycle_min: cycle_minutes(details.tankers.iter()),
            held_up_min: held_up_minutes(details.tankers.iter()),
            cycles,
            busy: Busy {
                fill_positions: (facts.fill_sites.iter().zip(&details.fill_held))
                    .map(|(site, held)| (site.name.clone(), share_of_time(*held, site.positions)))
                    .collect(),
                dump_positions: (facts.drop_tanks.iter().zip(&details.dump_held))
                    .map(|(tank, held)| share_of_time(*held, tank.dump_positions))
                    .collect(),
                intakes: share_of_time(details.intake_held, facts.attack_engine.intakes),
            },
            tankers: (facts.tankers.iter().zip(&details.tankers))
                .map(|(tanker, record)| TankerMeans {
                    name: tanker.name.clone(),
                    trips_mean: f64::from(record.trips) / runs,
                    delivered_gal_mean: record.delivered / runs,
                    cycle_min: cycle_minutes([record].into_iter()),
                    held_up_min: held_up_minutes([record].into_iter()),
                })
                .collect(),
            taken_gal_mean: (facts.fill_sites.iter().zip(&details.taken))
                .map(|(site, taken)| (site.name.clone(), taken / runs))
                .collect(),
            level,
            water_balance_worst_gal: details.worst_balance,
            worst_run: details.worst_run.map(|(run, _)| run + 1),
            events: details.events,
        }
    }

    /// The cause of the most first interruptions, and its share of them.
    pub fn main_cause(&self) -> Option<(Cause, f64)> {
        (Cause::ALL.into_iter())
            .filter_map(|cause| Some((cause, *self.causes.get(cause.key())?)))
            .max_by(|a, b| a.1.total_cmp(&b.1))
    }

    /// Minutes of one whole cycle, mean.
    pub fn cycle_minutes(&self) -> Option<f64> {
        (self.cycles > 0).then(|| self.cycle_min.values().sum())
    }
}

/// Counts as shares of all runs.
fn shares(counts: &[u64], runs: f64) -> Vec<f64> {
    counts.iter().map(|count| *count as f64 / runs).collect()
}

/// Before half of the fires have first water, and once half are over, a band would tell of some fires only.
fn levels(bands: &Bands, drop_tanks: usize, runs: u64) -> Levels {
    let watched: Vec<usize> = (bands.runs().iter().enumerate())
        .filter(|(_, watched)| 2 * **watched >= runs.max(1))
        .map(|(mark, _)| mark)
        .collect();
    let minutes = bands.minutes();
    let quantile = |column, q| {
        let all = bands.quantile(column, q);
        watched.iter().map(|mark| all[*mark]).collect()
    };
    let band = |column| Band {
        p5: quantile(column, 0.05),
        p25: quantile(column, 0.25),
        p50: quantile(column, 0.50),
        p75: quantile(column, 0.75),
        p95: quantile(column, 0.95),
    };
    Levels {
        minute: watched.iter().map(|mark| minutes[*mark]).collect(),
        drop_tanks: (0..drop_tanks).map(band).collect(),
        attack_engine: band(drop_tanks),
    }
}

fn causes_about(details: &Details, interrupted: u64) -> Vec<(Cause, Subject, f64)> {
    let mut shares: Vec<(Cause, Subject, f64)> = (details.first_about.iter())
        .map(|(&(cause, about), &count)| (cause, about, count as f64 / interrupted as f64))
        .collect();
    shares.sort_by(|a, b| b.2.total_cmp(&a.2));
    shares
}

/// Mean minutes by part; parts that never happened are left out.
fn cycle_minutes<'a>(
    records: impl Iterator<Item = &'a shuttle_sim::TankerRecord> + Clone,
) -> BTreeMap<&'static str, f64> {
    let cycles: u64 = records.clone().map(|record| u64::from(record.cycles)).sum();
    if cycles == 0 {
        return BTreeMap::new();
    }
    (Part::ALL.iter())
        .map(|part| {
            let sum: f64 = records.clone().map(|record| record.parts[*part as usize]).sum();
            (part.key(), sum / cycles as f64)
        })
        .filter(|(_, minutes)| *minutes > 0.0)
        .collect()
}

/// Mean minutes of a whole cycle that a full drop tank held a tanker up; 0 without cycles.
fn held_up_minutes<'a>(
    records: impl Iterator<Item = &'a shuttle_sim::TankerRecord> + Clone,
) -> f64 {
    let cycles: u64 = records.clone().map(|record| u64::from(record.cycles)).sum();
    records.map(|record| record.held_up).sum::<f64>() / cycles.max(1) as f64
}

fn mean_and_error([sum, squares]: [f64; 2], runs: u64) -> (f64, f64) {
    let n = runs.max(1) as f64;
    let mean = sum / n;
    let variance = (squares / n - mean * mean).max(0.0) * n / (n - 1.0).max(1.0);
    (mean, (variance / n).sqrt())
}
