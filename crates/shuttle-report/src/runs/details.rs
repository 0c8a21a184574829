//! Sums over the runs of one plan that only its own picture needs: spreads, minutes, cycles, stations.

use std::collections::BTreeMap;

use shuttle_sim::{Cause, CauseKind, Part, Plan, RunResult, Subject, TankerRecord};

use crate::statistics::histogram::LevelHistogram;

/// Bins of the histograms from which "worst 5%" figures are read.
const FINE_BINS: usize = 2_000;

/// What is summed beside the [`Tally`](super::tally::Tally).
#[derive(Debug, Clone, PartialEq)]
pub struct Details {
    /// Runs with an interruption that began before the supply was established.
    pub interrupted_before: u64,
    /// Runs with one that began after.
    pub interrupted_after: u64,
    /// Runs in which the supply was established within the watch.
    pub established: u64,
    /// Interruptions over all runs.
    pub interruptions: u64,
    /// First interruptions by whole minute after first water.
    pub first_minutes: Vec<u64>,
    /// First interruptions by cause and by whom or what that is about, where it is one.
    pub first_about: BTreeMap<(Cause, Subject), u64>,
    /// First interruptions by what held within their cause, where it can be told further.
    pub first_kinds: BTreeMap<CauseKind, u64>,
    /// First interruptions by whole minute after the alarm, as far as there are any.
    pub first_by_alarm: Vec<u64>,
    /// Runs interrupted at some time within each whole minute after the alarm, as far as there are any.
    pub short_by_alarm: Vec<u64>,
    /// Sum of the times the supply was established, minutes after the alarm.
    pub established_minutes: f64,
    /// Sum over interrupted runs of the first interruption's minute after first water.
    pub first_minute_sum: f64,
    /// The same of its minute after the alarm.
    pub first_alarm_sum: f64,
    /// Minutes short before and after the supply was established.
    pub minutes_short_split: [f64; 2],
    /// Gallons wanted and not delivered: sum, and sum of squares.
    pub unmet: [f64; 2],
    /// Gallons delivered: sum, and sum of squares.
    pub delivered: [f64; 2],
    /// Gallons wanted.
    pub wanted: f64,
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
    /// The run with most minutes short, counted from the first, and its minutes; `None` while none was
    /// interrupted.
    pub worst_run: Option<(u64, f64)>,
}

impl Details {
    /// Nothing counted yet.
    pub fn new(plan: &Plan) -> Details {
        let facts = plan.facts();
        let duration = facts.incident.duration;
        let minutes = duration.ceil() as usize + 1;
        Details {
            interrupted_before: 0,
            interrupted_after: 0,
            established: 0,
            interruptions: 0,
            first_minutes: vec![0; minutes],
            first_about: BTreeMap::new(),
            first_kinds: BTreeMap::new(),
            first_by_alarm: Vec::new(),
            short_by_alarm: Vec::new(),
            established_minutes: 0.0,
            first_minute_sum: 0.0,
            first_alarm_sum: 0.0,
            minutes_short_split: [0.0; 2],
            unmet: [0.0; 2],
            delivered: [0.0; 2],
            wanted: 0.0,
            tankers: vec![TankerRecord::default(); facts.tankers.len()],
            fill_held: vec![0.0; facts.fill_sites.len()],
            dump_held: vec![0.0; facts.drop_tanks.len()],
            intake_held: 0.0,
            taken: vec![0.0; facts.fill_sites.len()],
            worst_balance: 0.0,
            events: 0,
            minutes_short_spread: LevelHistogram::new(duration, FINE_BINS),
            first_minute_spread: LevelHistogram::new(duration, FINE_BINS),
            delivered_spread: LevelHistogram::new(wanted_gallons(plan), FINE_BINS),
            lowest_engine_spread: LevelHistogram::new(facts.attack_engine.tank, FINE_BINS),
            lowest_tank_spread: (facts.drop_tanks.first())
                .map(|tank| LevelHistogram::new(tank.capacity, FINE_BINS)),
            worst_run: None,
        }
    }

    /// Adds one run, which is number `place` from the first.
    pub(super) fn add(&mut self, place: u64, run: &RunResult) {
        let short = run.minutes_short[0] + run.minutes_short[1];
        if !run.interruptions.is_empty() {
            self.keep_worst(place, short);
        }
        if let Some((cause, about)) =
            run.interruptions.first().and_then(|first| Some((first.cause, first.about?)))
        {
            *self.first_about.entry((cause, about)).or_default() += 1;
        }
        if let Some(kind) = run.interruptions.first().and_then(|first| first.kind) {
            *self.first_kinds.entry(kind).or_default() += 1;
        }
        self.interrupted_before += u64::from(run.interruptions.iter().any(|one| one.before_supply));
        self.interrupted_after += u64::from(run.interruptions.iter().any(|one| !one.before_supply));
        self.interruptions += run.interruptions.len() as u64;
        if let Some(established) = run.established {
            self.established += 1;
            self.established_minutes += established;
        }
        if let Some(minute) = run.first_interruption() {
            self.first_minute_sum += minute;
            self.first_minute_spread.add(minute);
            let last = self.first_minutes.len() - 1;
            self.first_minutes[(minute as usize).min(last)] += 1;
        }
        self.add_by_alarm(run);
        self.minutes_short_spread.add(short);
        add_each(&mut self.minutes_short_split, &run.minutes_short);
        add_with_square(&mut self.unmet, run.unmet[0] + run.unmet[1]);
        add_with_square(&mut self.delivered, run.delivered);
        self.delivered_spread.add(run.delivered);
        self.wanted += run.wanted;
        self.lowest_engine_spread.add(run.lowest_engine);
        if let (Some(&lowest), Some(spread)) =
            (run.lowest_tanks.first(), &mut self.lowest_tank_spread)
            && lowest.is_finite()
        {
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

    /// When the run was interrupted, by the alarm's clock; a minute counts once however often it was.
    fn add_by_alarm(&mut self, run: &RunResult) {
        if let Some(first) = run.interruptions.first() {
            count_at(&mut self.first_by_alarm, first.start as usize);
            self.first_alarm_sum += first.start;
        }
        let mut counted = 0;
        for one in &run.interruptions {
            let (from, to) = (one.start, (one.start + one.minutes).min(run.end));
            // One that ends as a minute begins does not touch that minute.
            for minute in (from as usize).max(counted)..to.ceil() as usize {
                count_at(&mut self.short_by_alarm, minute);
                counted = minute + 1;
            }
        }
    }

    /// The minute after the alarm before which this share of first interruptions began, to a part of a minute; `None`
    /// where there are none.
    pub fn first_alarm_quantile(&self, q: f64) -> Option<f64> {
        let all: u64 = self.first_by_alarm.iter().sum();
        let wanted = q * all as f64;
        let mut before = 0.0;
        (self.first_by_alarm.iter().enumerate()).find_map(|(minute, count)| {
            let within = *count as f64;
            let is_here = within > 0.0 && before + within >= wanted;
            let minute = minute as f64 + ((wanted - before) / within).clamp(0.0, 1.0);
            before += within;
            is_here.then_some(minute)
        })
    }

    fn keep_worst(&mut self, run: u64, minutes: f64) {
        if self.worst_run.is_none_or(|(_, worst)| minutes > worst) {
            self.worst_run = Some((run, minutes));
        }
    }

    /// Adds those of the runs that follow the first `runs`.
    pub(super) fn merge(&mut self, runs: u64, other: &Details) {
        if let Some((run, minutes)) = other.worst_run {
            self.keep_worst(runs + run, minutes);
        }
        self.interrupted_before += other.interrupted_before;
        self.interrupted_after += other.interrupted_after;
        self.established += other.established;
        self.interruptions += other.interruptions;
        add_counts(&mut self.first_minutes, &other.first_minutes);
        for (about, count) in &other.first_about {
            *self.first_about.entry(*about).or_default() += count;
        }
        for (kind, count) in &other.first_kinds {
            *self.first_kinds.entry(*kind).or_default() += count;
        }
        for (mine, others) in [
            (&mut self.first_by_alarm, &other.first_by_alarm),
            (&mut self.short_by_alarm, &other.short_by_alarm),
        ] {
            mine.resize(mine.len().max(others.len()), 0);
            add_counts(mine, others);
        }
        self.established_minutes += other.established_minutes;
        self.first_minute_sum += other.first_minute_sum;
        self.first_alarm_sum += other.first_alarm_sum;
        add_each(&mut self.minutes_short_split, &other.minutes_short_split);
        add_each(&mut self.unmet, &other.unmet);
        add_each(&mut self.delivered, &other.delivered);
        self.wanted += other.wanted;
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
    }
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

/// One more at this place of a list that is as long as it needs to be.
fn count_at(counts: &mut Vec<u64>, place: usize) {
    if place >= counts.len() {
        counts.resize(place + 1, 0);
    }
    counts[place] += 1;
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
        sum.held_up += value.held_up;
        for part in Part::ALL {
            sum.parts[part as usize] += value.parts[part as usize];
        }
    }
}

#[cfg(test)]
mod tests {
    use shuttle_sim::Interruption;

    use super::*;
    use crate::chart::demo;

    /// Worked by hand: short from 20.5 to 21.5, from 21.7 to 21.9 and from 30 to 32.
    #[test]
    fn a_minute_counts_once_in_a_run_that_is_short_within_it() {
        let one = |start, minutes| Interruption {
            start,
            minutes,
            before_supply: false,
            cause: Cause::HaulTooLong,
            kind: None,
            about: None,
        };
        let run = RunResult {
            first_water: 9.5,
            end: 69.5,
            interruptions: vec![one(20.5, 1.0), one(21.7, 0.2), one(30.0, 2.0)],
            ..RunResult::default()
        };
        let plan = demo::plan(2, 60.0, 1);
        let mut details = Details::new(&plan);
        details.add(0, &run);
        let mut other = Details::new(&plan);
        other.add(0, &RunResult { interruptions: vec![one(21.0, 0.5)], ..run });
        details.merge(1, &other);
        let at = |counts: &[u64]| -> Vec<(usize, u64)> {
            counts.iter().copied().enumerate().filter(|(_, count)| *count > 0).collect()
        };
        assert_eq!(at(&details.first_by_alarm), [(20, 1), (21, 1)]);
        assert_eq!(details.first_alarm_sum, 20.5 + 21.0);
        // A twentieth of two is a tenth of the first, which is spread over its minute.
        assert!((details.first_alarm_quantile(0.05).expect("two") - 20.1).abs() < 1e-9);
        assert!((details.first_alarm_quantile(0.75).expect("two") - 21.5).abs() < 1e-9);
        assert_eq!(Details::new(&plan).first_alarm_quantile(0.05), None);
        assert_eq!(at(&details.short_by_alarm), [(20, 1), (21, 2), (30, 1), (31, 1)]);
    }
}
