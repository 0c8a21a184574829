//! Sums and counts over the runs of one plan: the one accumulator.
//!
//! What every answer needs is always counted; what only the picture of one plan needs is in [`Details`] and
//! is kept when asked for.

use shuttle_sim::{Cause, Plan, RunResult};

use super::details::Details;
use crate::statistics::paired::PairedShares;
use crate::statistics::paired_means::PairedMeans;

/// Sums and counts over runs.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Tally {
    /// Runs counted.
    pub runs: u64,
    /// Runs with an interruption.
    pub interrupted: u64,
    /// Runs in which the reserve was touched.
    pub reserve_touched: u64,
    /// First interruptions by cause, as in [`Cause::ALL`].
    pub first_causes: [u64; Cause::ALL.len()],
    /// Minutes short: sum, and sum of squares.
    pub minutes_short: [f64; 2],
    /// Lowest engine levels, gal: sum.
    pub lowest_engine: f64,
    /// Lowest levels of the first drop tank, gal: sum over runs in which it was drawn from.
    pub lowest_tank: f64,
    /// Those runs.
    pub tank_drawn: u64,
    /// Flow delivered, gpm, mean over each watch: sum.
    pub flow: f64,
    /// For each run in order, whether it was interrupted: 64 to a word.
    pub interrupted_runs: Vec<u64>,
    /// Against the same runs of the plan it is compared with; empty where there is none.
    pub pairs: Pairs,
    /// What the picture of one plan needs, where it was kept.
    pub details: Option<Box<Details>>,
}

/// One plan against another on common random numbers: this one minus the other.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Pairs {
    /// Interruption.
    pub interrupted: PairedShares,
    /// Reserve touched.
    pub reserve_touched: PairedShares,
    /// Minutes short.
    pub minutes_short: PairedMeans,
    /// The attack engine's lowest level, gal.
    pub lowest_engine: PairedMeans,
    /// Flow delivered, gpm.
    pub flow: PairedMeans,
}

impl Pairs {
    /// Counts one pair of runs.
    pub(crate) fn add(&mut self, own: &Figures, other: &Figures) {
        self.interrupted.add(own.interrupted, other.interrupted);
        self.reserve_touched.add(own.reserve_touched, other.reserve_touched);
        self.minutes_short.add(own.minutes_short, other.minutes_short);
        self.lowest_engine.add(own.lowest_engine, other.lowest_engine);
        self.flow.add(own.flow, other.flow);
    }

    /// Whether nothing that is compared differs in any run: not the chances, and not by how much.
    pub fn are_the_same(&self) -> bool {
        self.interrupted.are_the_same()
            && self.reserve_touched.are_the_same()
            && self.minutes_short.are_the_same()
            && self.lowest_engine.are_the_same()
            && self.flow.are_the_same()
    }
}

/// What is kept of one run until its pairs are done.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Figures {
    pub interrupted: bool,
    reserve_touched: bool,
    pub minutes_short: f64,
    lowest_engine: f64,
    flow: f64,
}

impl Figures {
    pub(crate) fn of(run: &RunResult) -> Figures {
        Figures {
            interrupted: !run.interruptions.is_empty(),
            reserve_touched: run.reserve_touched,
            minutes_short: run.minutes_short[0] + run.minutes_short[1],
            lowest_engine: run.lowest_engine,
            flow: run.delivered / (run.end - run.first_water).max(f64::MIN_POSITIVE),
        }
    }
}

impl Tally {
    /// Nothing counted yet, with room for the details of this plan.
    pub fn in_detail(plan: &Plan) -> Tally {
        Tally { details: Some(Box::new(Details::new(plan))), ..Tally::default() }
    }

    /// The share of runs with an interruption; 0 with no runs.
    pub fn chance(&self) -> f64 {
        self.mean(self.interrupted as f64)
    }

    /// A sum over runs as a mean; 0 with no runs.
    pub fn mean(&self, sum: f64) -> f64 {
        sum / self.runs.max(1) as f64
    }

    /// Minutes short, mean.
    pub fn minutes_short_mean(&self) -> f64 {
        self.mean(self.minutes_short[0])
    }

    /// The first drop tank's lowest level, gal, mean; `None` if it was never drawn from.
    pub fn lowest_tank_mean(&self) -> Option<f64> {
        (self.tank_drawn > 0).then(|| self.lowest_tank / self.tank_drawn as f64)
    }

    /// Causes by share of first interruptions, greatest first.
    pub fn causes(&self) -> Vec<(Cause, f64)> {
        let all: u64 = self.first_causes.iter().sum();
        let mut shares: Vec<(Cause, f64)> = (Cause::ALL.into_iter())
            .map(|cause| (cause, self.first_causes[cause as usize]))
            .filter(|(_, count)| *count > 0)
            .map(|(cause, count)| (cause, count as f64 / all as f64))
            .collect();
        shares.sort_by(|a, b| b.1.total_cmp(&a.1));
        shares
    }

    /// Interruptions of this plan against another, this one first, over the runs that both made.
    pub fn against(&self, other: &Tally) -> PairedShares {
        PairedShares::of_bits(
            (&self.interrupted_runs, self.runs),
            (&other.interrupted_runs, other.runs),
        )
    }

    /// Adds one run.
    pub fn add(&mut self, run: &RunResult) {
        self.add_beside(run, None);
    }

    /// Adds one run and its pair with the same run of another plan.
    pub(crate) fn add_beside(&mut self, run: &RunResult, other: Option<&Figures>) {
        let own = Figures::of(run);
        if let Some(details) = &mut self.details {
            details.add(self.runs, run);
        }
        if self.runs.is_multiple_of(64) {
            self.interrupted_runs.push(0);
        }
        if let Some(word) = self.interrupted_runs.last_mut() {
            *word |= u64::from(own.interrupted) << (self.runs % 64);
        }
        self.runs += 1;
        self.interrupted += u64::from(own.interrupted);
        self.reserve_touched += u64::from(own.reserve_touched);
        if let Some(first) = run.interruptions.first() {
            self.first_causes[first.cause as usize] += 1;
        }
        self.minutes_short[0] += own.minutes_short;
        self.minutes_short[1] += own.minutes_short * own.minutes_short;
        self.lowest_engine += own.lowest_engine;
        if let Some(level) = run.lowest_tanks.first().filter(|level| level.is_finite()) {
            self.lowest_tank += level;
            self.tank_drawn += 1;
        }
        self.flow += own.flow;
        if let Some(other) = other {
            self.pairs.add(&own, other);
        }
    }

    /// Adds the runs of another tally, which follow this one's.
    ///
    /// This one must hold a multiple of 64 runs, unless the other is empty.
    pub fn merge(&mut self, other: &Tally) {
        debug_assert!(self.runs.is_multiple_of(64) || other.runs == 0);
        if let (Some(mine), Some(others)) = (&mut self.details, &other.details) {
            mine.merge(self.runs, others);
        }
        self.runs += other.runs;
        self.interrupted += other.interrupted;
        self.reserve_touched += other.reserve_touched;
        for (sum, count) in self.first_causes.iter_mut().zip(&other.first_causes) {
            *sum += count;
        }
        self.minutes_short[0] += other.minutes_short[0];
        self.minutes_short[1] += other.minutes_short[1];
        self.lowest_engine += other.lowest_engine;
        self.lowest_tank += other.lowest_tank;
        self.tank_drawn += other.tank_drawn;
        self.flow += other.flow;
        self.interrupted_runs.extend_from_slice(&other.interrupted_runs);
        self.pairs.interrupted.merge(&other.pairs.interrupted);
        self.pairs.reserve_touched.merge(&other.pairs.reserve_touched);
        self.pairs.minutes_short.merge(&other.pairs.minutes_short);
        self.pairs.lowest_engine.merge(&other.pairs.lowest_engine);
        self.pairs.flow.merge(&other.pairs.flow);
    }
}
