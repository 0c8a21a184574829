//! Sums and counts over the runs of a batch.

use shuttle_sim::{Cause, Part, Plan, RunResult, TankerRecord, marks};

use crate::statistics::histogram::LevelHistogram;
use crate::statistics::paired::PairedShares;

/// Bins of the histograms from which "worst 5%" figures are read.
const FINE_BINS: usize = 2_000;
/// Bins of each minute's level histogram: half a percent of the tank.
const BAND_BINS: usize = 200;

/// Sums and counts over runs.
#[derive(Debug, Clone)]
pub struct Tally {
    /// Runs counted.
    pub runs: u64,
    /// Runs with an interruption.
    pub interrupted: u64,
    /// Runs with one that began before the supply was established.
    pub interrupted_before: u64,
    /// Runs with one that began after.
    pub interrupted_after: u64,
    /// Runs in which the reserve was touched.
    pub reserve_touched: u64,
    /// Runs in which the supply was established within the watch.
    pub established: u64,
    /// Interruptions over all runs.
    pub interruptions: u64,
    /// First interruptions by cause, as in [`Cause::ALL`].
    pub first_causes: [u64; Cause::ALL.len()],
    /// First interruptions by whole minute after first water.
    pub first_minutes: Vec<u64>,
    /// All interruptions by the whole minute after first water in which they began.
    pub start_minutes: Vec<u64>,
    /// Sum of the times the supply was established, minutes after the alarm.
    pub established_minutes: f64,
    /// Sum over interrupted runs of the first interruption's minute after first water.
    pub first_minute_sum: f64,
    /// Sum of the first water's minute after the alarm.
    pub first_water: f64,
    /// Minutes short: sum, and sum of squares.
    pub minutes_short: [f64; 2],
    /// Minutes short before and after the supply was established.
    pub minutes_short_split: [f64; 2],
    /// Gallons wanted and not delivered: sum, and sum of squares.
    pub unmet: [f64; 2],
    /// Gallons delivered: sum, and sum of squares.
    pub delivered: [f64; 2],
    /// Gallons wanted.
    pub wanted: f64,
    /// Lowest engine levels: sum.
    pub lowest_engine: f64,
    /// Lowest levels of the first drop tank: sum over runs in which it was drawn from.
    pub lowest_tank: f64,
    /// By tanker.
    pub tankers: Vec<TankerRecord>,
    /// Position-minutes held, by fill site.
    pub fill_held: Vec<f64>,
    /// Position-minutes held, by drop tank.
    pub dump_held: Vec<f64>,
    /// Intake-minutes held.
    pub intake_held: f64,
    /// Gallons taken, by fill site.
    pub taken: Vec<f64>,
    /// Greatest water imbalance of any run, gal.
    pub worst_balance: f64,
    /// Events applied.
    pub events: u64,
    /// Spread of minutes short.
    pub minutes_short_spread: LevelHistogram,
    /// Spread of the first interruption's minute after first water, over interrupted runs.
    pub first_minute_spread: LevelHistogram,
    /// Spread of gallons delivered.
    pub delivered_spread: LevelHistogram,
    /// Spread of the engine's lowest level.
    pub lowest_engine_spread: LevelHistogram,
    /// Spread of the first drop tank's lowest level, over runs in which it was drawn from.
    pub lowest_tank_spread: Option<LevelHistogram>,
    /// The run with most minutes short, counted from this tally's first, and its minutes; `None` while
    /// none was interrupted.
    pub worst_run: Option<(u64, f64)>,
    /// For each run in order, whether it was interrupted: 64 to a word.
    pub interrupted_runs: Vec<u64>,
}

impl Tally {
    /// Nothing counted yet.
    pub fn new(plan: &Plan) -> Tally {
        let facts = plan.facts();
        let duration = facts.incident.duration;
        let minutes = duration.ceil() as usize + 1;
        let wanted = wanted_gallons(plan);
        Tally {
            runs: 0,
            interrupted: 0,
            interrupted_before: 0,
            interrupted_after: 0,
            reserve_touched: 0,
            established: 0,
            interruptions: 0,
            first_causes: [0; Cause::ALL.len()],
            first_minutes: vec![0; minutes],
            start_minutes: vec![0; minutes],
            established_minutes: 0.0,
            first_minute_sum: 0.0,
            first_water: 0.0,
            minutes_short: [0.0; 2],
            minutes_short_split: [0.0; 2],
            unmet: [0.0; 2],
            delivered: [0.0; 2],
            wanted: 0.0,
            lowest_engine: 0.0,
            lowest_tank: 0.0,
            tankers: vec![TankerRecord::default(); facts.tankers.len()],
            fill_held: vec![0.0; facts.fill_sites.len()],
            dump_held: vec![0.0; facts.drop_tanks.len()],
            intake_held: 0.0,
            taken: vec![0.0; facts.fill_sites.len()],
            worst_balance: 0.0,
            events: 0,
            minutes_short_spread: LevelHistogram::new(duration, FINE_BINS),
            first_minute_spread: LevelHistogram::new(duration, FINE_BINS),
            delivered_spread: LevelHistogram::new(wanted, FINE_BINS),
            lowest_engine_spread: LevelHistogram::new(facts.attack_engine.tank, FINE_BINS),
            lowest_tank_spread: (facts.drop_tanks.first())
                .map(|tank| LevelHistogram::new(tank.capacity, FINE_BINS)),
            worst_run: None,
            interrupted_runs: Vec::new(),
        }
    }

    /// Adds one run.
    pub fn add(&mut self, run: &RunResult) {
        let interrupted = !run.interruptions.is_empty();
        self.mark_run(interrupted);
        if interrupted {
            self.keep_worst(self.runs, run.minutes_short.iter().sum());
        }
        self.runs += 1;
        self.interrupted += u64::from(interrupted);
        self.interrupted_before += u64::from(run.interruptions.iter().any(|one| one.before_supply));
        self.interrupted_after += u64::from(run.interruptions.iter().any(|one| !one.before_supply));
        self.reserve_touched += u64::from(run.reserve_touched);
        self.interruptions += run.interruptions.len() as u64;
        if let Some(established) = run.established {
            self.established += 1;
            self.established_minutes += established;
        }
        if let (Some(first), Some(minute)) = (run.interruptions.first(), run.first_interruption()) {
            self.first_causes[first.cause as usize] += 1;
            self.first_minute_sum += minute;
            self.first_minute_spread.add(minute);
            let last = self.first_minutes.len() - 1;
            self.first_minutes[(minute as usize).min(last)] += 1;
            for one in &run.interruptions {
                let minute = (one.start - run.first_water) as usize;
                self.start_minutes[minute.min(last)] += 1;
            }
        }
        let short = run.minutes_short[0] + run.minutes_short[1];
        add_with_square(&mut self.minutes_short, short);
        self.minutes_short_spread.add(short);
        add_each(&mut self.minutes_short_split, &run.minutes_short);
        add_with_square(&mut self.unmet, run.unmet[0] + run.unmet[1]);
        add_with_square(&mut self.delivered, run.delivered);
        self.delivered_spread.add(run.delivered);
        self.wanted += run.wanted;
        self.first_water += run.first_water;
        self.lowest_engine += run.lowest_engine;
        self.lowest_engine_spread.add(run.lowest_engine);
        if let (Some(&lowest), Some(spread)) =
            (run.lowest_tanks.first(), &mut self.lowest_tank_spread)
            && lowest.is_finite()
        {
            self.lowest_tank += lowest;
            spread.add(lowest);
        }
        add_tankers(&mut self.tankers, &run.tankers);
        add_each(&mut self.fill_held, &run.fill_held);
        add_each(&mut self.dump_held, &run.dump_held);
        add_each(&mut self.taken, &run.taken);
        self.intake_held += run.intake_held;
        self.worst_balance = self.worst_balance.max(run.balance().abs());
        self.events += run.events;
    }

    fn keep_worst(&mut self, run: u64, minutes: f64) {
        if self.worst_run.is_none_or(|(_, worst)| minutes > worst) {
            self.worst_run = Some((run, minutes));
        }
    }

    fn mark_run(&mut self, interrupted: bool) {
        if self.runs.is_multiple_of(64) {
            self.interrupted_runs.push(0);
        }
        if let Some(word) = self.interrupted_runs.last_mut() {
            *word |= u64::from(interrupted) << (self.runs % 64);
        }
    }

    /// Adds the runs of another tally, which follow this one's.
    ///
    /// This one must hold a multiple of 64 runs, unless the other is empty.
    pub fn merge(&mut self, other: &Tally) {
        debug_assert!(self.runs.is_multiple_of(64) || other.runs == 0);
        if let Some((run, minutes)) = other.worst_run {
            self.keep_worst(self.runs + run, minutes);
        }
        self.runs += other.runs;
        self.interrupted += other.interrupted;
        self.interrupted_before += other.interrupted_before;
        self.interrupted_after += other.interrupted_after;
        self.reserve_touched += other.reserve_touched;
        self.established += other.established;
        self.interruptions += other.interruptions;
        add_counts(&mut self.first_causes, &other.first_causes);
        add_counts(&mut self.first_minutes, &other.first_minutes);
        add_counts(&mut self.start_minutes, &other.start_minutes);
        self.established_minutes += other.established_minutes;
        self.first_minute_sum += other.first_minute_sum;
        self.first_water += other.first_water;
        add_each(&mut self.minutes_short, &other.minutes_short);
        add_each(&mut self.minutes_short_split, &other.minutes_short_split);
        add_each(&mut self.unmet, &other.unmet);
        add_each(&mut self.delivered, &other.delivered);
        self.wanted += other.wanted;
        self.lowest_engine += other.lowest_engine;
        self.lowest_tank += other.lowest_tank;
        add_tankers(&mut self.tankers, &other.tankers);
        add_each(&mut self.fill_held, &other.fill_held);
        add_each(&mut self.dump_held, &other.dump_held);
        add_each(&mut self.taken, &other.taken);
        self.intake_held += other.intake_held;
        self.worst_balance = self.worst_balance.max(other.worst_balance);
        self.events += other.events;
        self.minutes_short_spread.merge(&other.minutes_short_spread);
        self.first_minute_spread.merge(&other.first_minute_spread);
        self.delivered_spread.merge(&other.delivered_spread);
        self.lowest_engine_spread.merge(&other.lowest_engine_spread);
        if let (Some(mine), Some(others)) =
            (&mut self.lowest_tank_spread, &other.lowest_tank_spread)
        {
            mine.merge(others);
        }
        self.interrupted_runs.extend_from_slice(&other.interrupted_runs);
    }
}

/// How two plans fared on common random numbers, run by run.
pub fn paired(first: &Tally, second: &Tally) -> PairedShares {
    PairedShares::of_bits(
        (&first.interrupted_runs, first.runs),
        (&second.interrupted_runs, second.runs),
    )
}

/// Gallons the lines want over the whole watch.
pub fn wanted_gallons(plan: &Plan) -> f64 {
    let incident = &plan.facts().incident;
    let steps = &incident.attack_flow;
    (steps.iter().enumerate())
        .map(|(place, step)| {
            let until = steps.get(place + 1).map_or(incident.duration, |next| next.from);
            step.flow * (until.min(incident.duration) - step.from).max(0.0)
        })
        .sum()
}

/// Levels minute by minute.
#[derive(Debug, Clone)]
pub struct Bands {
    /// Minutes after first water.
    pub minutes: Vec<f64>,
    /// One row a minute; in a row the drop tanks, then the attack engine.
    rows: Vec<LevelHistogram>,
    columns: usize,
}

impl Bands {
    /// Nothing counted yet.
    pub fn new(plan: &Plan) -> Bands {
        let facts = plan.facts();
        let minutes: Vec<f64> = marks(facts.incident.duration).collect();
        let tops: Vec<f64> = (facts.drop_tanks.iter().map(|tank| tank.capacity))
            .chain([facts.attack_engine.tank])
            .collect();
        let rows = (minutes.iter())
            .flat_map(|_| tops.iter().map(|top| LevelHistogram::new(*top, BAND_BINS)))
            .collect();
        Bands { minutes, rows, columns: tops.len() }
    }

    /// Adds one run.
    pub fn add(&mut self, run: &RunResult) {
        for (row, level) in self.rows.iter_mut().zip(&run.levels) {
            row.add(*level);
        }
    }

    /// Adds the runs of other bands of the same plan.
    pub fn merge(&mut self, other: &Bands) {
        for (mine, others) in self.rows.iter_mut().zip(&other.rows) {
            mine.merge(others);
        }
    }

    /// A quantile of one column's level, minute by minute, gal. Columns: the drop tanks in order,
    /// then the attack engine. Zero where no run was counted.
    pub fn quantile(&self, column: usize, q: f64) -> Vec<f64> {
        (self.rows.iter().skip(column).step_by(self.columns))
            .map(|row| row.quantile(q).unwrap_or(0.0))
            .collect()
    }
}

fn add_with_square(sums: &mut [f64; 2], value: f64) {
    sums[0] += value;
    sums[1] += value * value;
}

fn add_each(sums: &mut [f64], values: &[f64]) {
    for (sum, value) in sums.iter_mut().zip(values) {
        *sum += value;
    }
}

fn add_counts(sums: &mut [u64], values: &[u64]) {
    for (sum, value) in sums.iter_mut().zip(values) {
        *sum += value;
    }
}

fn add_tankers(sums: &mut [TankerRecord], values: &[TankerRecord]) {
    for (sum, value) in sums.iter_mut().zip(values) {
        sum.trips += value.trips;
        sum.cycles += value.cycles;
        sum.delivered += value.delivered;
        for part in Part::ALL {
            sum.parts[part as usize] += value.parts[part as usize];
        }
    }
}
