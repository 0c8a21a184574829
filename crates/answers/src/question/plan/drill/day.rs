//! The day of the drill: its clock from the alarm, what was poured, and the plan as it was driven.

use drill_log::{Log, Stamp, Step, Trip, Zero};
use scenario_file::Scenario;
use shuttle_report::playback::band::Absent;
use shuttle_report::playback::poured::Poured;
use shuttle_sim::{Brought, Call, Plan, PlanDraft, TimeTaken, WholeFire};

use super::course::everyone;
use super::timed::Timed;

/// The day of a drill.
#[derive(Debug, Clone)]
pub(super) struct Day {
    /// The alarm, minutes after the log's minute 0.
    pub alarm: f64,
    /// Whether it was stated; else worked out.
    pub alarm_is_stated: bool,
    /// The alarm's time of the day, seconds; `None` of a stopwatch.
    pub alarm_clock: Option<f64>,
    /// The loads poured, minutes after the alarm.
    pub loads: Vec<Poured>,
    /// Rows with a load that cannot be placed in time.
    pub unplaced: Vec<usize>,
    /// Whole minutes from the alarm to the last time in the log.
    pub minutes: Vec<f64>,
    /// The plan as it was driven; `None` where it cannot run.
    pub plan: Option<Plan>,
    /// For each tanker of the course its place in that plan.
    pub places: Vec<Option<usize>>,
    /// Breakdowns of the log as absences in that plan.
    pub known: Vec<Absent>,
}

/// The first minute of a trip at the scene.
fn at_scene(trip: &Trip) -> Option<f64> {
    [Stamp::ArrivedAtScene, Stamp::StartedDump, Stamp::Empty, Stamp::LeftScene]
        .into_iter()
        .find_map(|stamp| trip.time(stamp))
}

/// Minutes from a stated alarm to the first time in the log; below zero where the alarm is later.
///
/// - Given: the alarm as a time of the day, seconds.
pub fn from_alarm_to_log(log: &Log, alarm: f64) -> f64 {
    let first = log.trips.iter().flat_map(|trip| trip.at).flatten().fold(f64::INFINITY, f64::min);
    first - on_the_log(log, alarm)
}

/// A stated alarm in minutes after the log's minute 0.
fn on_the_log(log: &Log, alarm: f64) -> f64 {
    match log.zero {
        Zero::OfDay(zero) => {
            let after = ((alarm - zero) / 60.0).rem_euclid(1_440.0);
            if after > 720.0 { after - 1_440.0 } else { after }
        }
        // What was typed as hours and minutes are minutes and seconds of a stopwatch.
        Zero::Stopwatch => alarm / 3_600.0,
    }
}

/// Plays the clock: the day of this log.
///
/// - Given: the scenario with the measured times; the alarm as a time of the day, seconds, if it was stated.
pub(super) fn day(scenario: &Scenario, timed: &Timed, alarm: Option<f64>) -> Day {
    let facts = everyone(scenario);
    let log = &timed.log;
    let stated = alarm.map(|seconds| on_the_log(log, seconds));
    let first: Vec<Option<f64>> = (0..facts.tankers.len())
        .map(|tanker| log.trips.iter().filter(|trip| trip.tanker == tanker).find_map(at_scene))
        .collect();
    let earliest = (0..first.len())
        .filter_map(|tanker| first[tanker].map(|first| (first, tanker)))
        .min_by(|a, b| a.0.total_cmp(&b.0));
    let worked_out = earliest.map_or(0.0, |(first, tanker)| {
        let call = &facts.tankers[tanker].call;
        first - call.requested_at - call.response.mean()
    });
    let alarm = stated.unwrap_or(worked_out);
    let last = log.last() - alarm;
    let (loads, unplaced) = loads(facts, log, alarm);
    let comes: Vec<bool> = first.iter().map(Option::is_some).collect();
    let places: Vec<Option<usize>> = (0..comes.len())
        .map(|tanker| comes[tanker].then(|| comes[..tanker].iter().filter(|one| **one).count()))
        .collect();
    let arrivals: Vec<f64> =
        first.iter().map(|first| first.map_or(0.0, |first| (first - alarm).max(0.0))).collect();
    let known = (timed.measured.breakdowns.iter())
        .filter_map(|one| {
            let minutes = one.cost.map(|(_, minutes)| minutes);
            // On the way out it is lost behind the row's last time, else before it. In the plan it is lost
            // at the end of the trip that is then under way.
            let within = one.cost.filter(|(step, _)| *step != Step::DriveOut).map(|cost| cost.1);
            let from = one.at.map(|at| at - alarm - within.unwrap_or(0.0) - 2.0)?;
            Some(Absent { tanker: places[one.tanker]?, from: from.max(0.0), minutes })
        })
        .collect();
    Day {
        alarm,
        alarm_is_stated: stated.is_some(),
        alarm_clock: match log.zero {
            Zero::OfDay(zero) => Some((zero + 60.0 * alarm).rem_euclid(86_400.0)),
            Zero::Stopwatch => None,
        },
        loads,
        unplaced,
        minutes: (0..=last.max(1.0).ceil().min(1_440.0) as u32).map(f64::from).collect(),
        plan: driven(facts, log, alarm, &comes, &arrivals, last),
        places,
        known,
    }
}

/// The loads of the log, in minutes after the alarm, and rows with one that has no time.
fn loads(facts: &PlanDraft, log: &Log, alarm: f64) -> (Vec<Poured>, Vec<usize>) {
    let (mut loads, mut unplaced) = (Vec::new(), Vec::new());
    for trip in &log.trips {
        let tanker = &facts.tankers[trip.tanker];
        let gallons = tanker.load();
        let rate = if trip.nursed { tanker.pump_off } else { tanker.dump_rate };
        let usual = gallons / rate;
        let time = |stamp| trip.time(stamp).map(|at: f64| at - alarm);
        let cleared = time(Stamp::LeftScene).map(|left| left - tanker.handling.dump_clear.mean());
        let span = match (time(Stamp::StartedDump), time(Stamp::Empty).or(cleared)) {
            (Some(from), Some(to)) => Some((from, to.max(from))),
            (Some(from), None) => Some((from, from + usual)),
            (None, Some(to)) => Some((to - usual, to)),
            (None, None) => None,
        };
        match span {
            Some((from, to)) => loads.push(Poured { from, to, gallons }),
            None if at_scene(trip).is_some() => unplaced.push(trip.row),
            None => {}
        }
    }
    (loads, unplaced)
}

/// The plan as it was driven: who came, when each was first at the scene, and everything in place by the time
/// it was used. What a whole fire shares, breakdowns and failures are out: the day's own times are in the plan.
fn driven(
    facts: &PlanDraft,
    log: &Log,
    alarm: f64,
    comes: &[bool],
    arrivals: &[f64],
    last: f64,
) -> Option<Plan> {
    let mut draft = facts.clone();
    let earliest = |stamp: Stamp, site: Option<usize>| {
        (log.trips.iter())
            .filter(|trip| site.is_none() || trip.site == site)
            .filter_map(|trip| trip.time(stamp))
            .fold(f64::INFINITY, f64::min)
            - alarm
    };
    let first_dump = earliest(Stamp::StartedDump, None).max(0.0);
    for (place, tanker) in draft.tankers.iter_mut().enumerate() {
        tanker.call = Call::sure(0.0, TimeTaken::Fixed(arrivals[place]));
        tanker.breakdown_per_trip = 0.0;
        tanker.repair = None;
        tanker.crew_cv = 0.0;
    }
    for tank in &mut draft.drop_tanks {
        let arrives = match &tank.brought {
            Brought::ByTanker(tanker) if !comes[*tanker] => {
                let call = facts.tankers[*tanker].call.clone();
                let arrives = call.requested_at + call.response.mean();
                tank.brought = Brought::Itself(Call::sure(0.0, TimeTaken::Fixed(arrives)));
                arrives
            }
            Brought::ByTanker(tanker) => arrivals[*tanker],
            Brought::ByAttackEngine => expected(&facts.attack_engine.call),
            Brought::BySupplyEngine => {
                facts.supply.engine.as_ref().map_or(0.0, |engine| expected(&engine.call))
            }
            Brought::Itself(call) => expected(call),
        };
        if arrives + tank.setup.mean() > first_dump {
            tank.brought = Brought::Itself(Call::sure(0.0, TimeTaken::Fixed(first_dump)));
            tank.setup = TimeTaken::NONE;
        }
    }
    for (place, site) in draft.fill_sites.iter_mut().enumerate() {
        let used = earliest(Stamp::ArrivedAtFill, Some(place)).max(0.0);
        site.ready = TimeTaken::Fixed(site.ready.mean().min(used));
        site.failure = None;
    }
    draft.supply.failure = None;
    draft.whole_fire = WholeFire::default();
    let first_water = expected(&draft.attack_engine.call) + draft.attack_engine.water_on.mean();
    draft.incident.duration = (last - first_water + 15.0).max(15.0);
    let mut place = 0;
    draft.tankers.retain(|_| {
        place += 1;
        comes[place - 1]
    });
    for tank in &mut draft.drop_tanks {
        if let Brought::ByTanker(tanker) = &mut tank.brought {
            *tanker = comes[..*tanker].iter().filter(|one| **one).count();
        }
    }
    Plan::check(draft).ok()
}

fn expected(call: &Call) -> f64 {
    call.requested_at + call.response.mean()
}
