//! One simulated fire: when the water on hand fell through a level, when the next load came, what came of it.

use shuttle_sim::{Doing, Happening, Plan, RunResult, Trace};

/// Which water is watched.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Watched {
    /// All drop tanks together, from when the pump first drew.
    DropTanks,
    /// The attack engine's own tank, from first water: where there are no drop tanks.
    EngineTank,
}

impl Watched {
    /// What there is to watch in a plan.
    pub fn of(plan: &Plan) -> Watched {
        if plan.facts().drop_tanks.is_empty() { Watched::EngineTank } else { Watched::DropTanks }
    }

    /// What it holds when full, and how much of that no pump reaches: gal.
    pub fn capacity_and_unusable(self, plan: &Plan) -> (f64, f64) {
        let facts = plan.facts();
        match self {
            Watched::EngineTank => (facts.attack_engine.tank, 0.0),
            Watched::DropTanks => {
                let tanks = &facts.drop_tanks;
                let capacity = tanks.iter().map(|tank| tank.capacity).sum();
                (capacity, tanks.iter().map(|tank| tank.unusable).sum())
            }
        }
    }

    /// How much there is, of the levels as a trace has them: the drop tanks, then the attack engine.
    fn water(self, levels: &[f64]) -> f64 {
        match (self, levels.split_last()) {
            (_, None) => 0.0,
            (Watched::EngineTank, Some((engine, _))) => *engine,
            (Watched::DropTanks, Some((_, tanks))) => tanks.iter().sum(),
        }
    }
}

/// The water on hand fell through a level while the lines had their flow.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Dip {
    /// Minutes from then until a load next began to pour; 0 where one was pouring, infinite where none came.
    pub next_load: f64,
    /// Minutes from then until the watch ended.
    pub to_the_end: f64,
    /// Whether the lines ran short before the water stood above the level again with the pump drawing.
    pub ran_short: bool,
}

/// All falls through one level, in order of time; the next begins only when the one before is over.
///
/// - Given: a run and its story; the level, gal.
pub fn dips(result: &RunResult, trace: &Trace, watched: Watched, level: f64) -> Vec<Dip> {
    let Some(from) = watched_from(result, trace, watched) else { return Vec::new() };
    let pours = pours(trace, result.end);
    let unprimed = unprimed(trace, result.end);
    let mut dips = Vec::new();
    let mut began: Option<f64> = None;
    let mut before: Option<(f64, f64)> = None;
    for (minute, levels) in trace.course.iter().filter(|(minute, _)| *minute >= from) {
        let water = watched.water(levels);
        match (began, before) {
            (Some(since), _) if water > level && !within(&unprimed, *minute) => {
                dips.extend(dip(result, &pours, since, *minute));
                began = None;
            }
            (None, Some((at, was))) if was > level && water <= level => {
                // Levels move in straight lines between turning points.
                began = Some(at + (minute - at) * (was - level) / (was - water));
            }
            _ => {}
        }
        before = Some((*minute, water));
    }
    if let Some(since) = began {
        dips.extend(dip(result, &pours, since, result.end));
    }
    dips
}

/// When the watch over the water begins, minutes after the alarm.
fn watched_from(result: &RunResult, trace: &Trace, watched: Watched) -> Option<f64> {
    match watched {
        Watched::EngineTank => Some(result.first_water),
        Watched::DropTanks => (trace.notes.iter())
            .find(|note| note.happening == Happening::Primed)
            .map(|note| note.minute),
    }
}

/// What came of a fall through a level; nothing where the lines were short already.
fn dip(result: &RunResult, pours: &[(f64, f64)], since: f64, over: f64) -> Option<Dip> {
    let short = &result.interruptions;
    if short.iter().any(|one| one.start < since && since < one.start + one.minutes) {
        return None;
    }
    let next_load = if within(pours, since) {
        0.0
    } else {
        (pours.iter().map(|(from, _)| from - since))
            .filter(|wait| *wait >= 0.0)
            .fold(f64::INFINITY, f64::min)
    };
    Some(Dip {
        next_load,
        to_the_end: result.end - since,
        ran_short: short.iter().any(|one| (since..=over).contains(&one.start)),
    })
}

/// From when to when water poured out of a tanker, minutes after the alarm.
fn pours(trace: &Trace, end: f64) -> Vec<(f64, f64)> {
    let mut open: Vec<(usize, f64)> = Vec::new();
    let mut pours = Vec::new();
    for note in &trace.notes {
        let Happening::Tanker(tanker, doing) = note.happening else { continue };
        if let Some(place) = open.iter().position(|(who, _)| *who == tanker) {
            pours.push((open.swap_remove(place).1, note.minute));
        }
        if matches!(doing, Doing::Dumping(_) | Doing::PumpingOff) {
            open.push((tanker, note.minute));
        }
    }
    pours.extend(open.into_iter().map(|(_, from)| (from, end)));
    pours
}

/// From when to when the pump had lost its prime.
fn unprimed(trace: &Trace, end: f64) -> Vec<(f64, f64)> {
    let mut spans = Vec::new();
    let mut since = None;
    for note in &trace.notes {
        match note.happening {
            Happening::PrimeLost => since = since.or(Some(note.minute)),
            Happening::PrimeBack => spans.extend(since.take().map(|from| (from, note.minute))),
            _ => {}
        }
    }
    spans.extend(since.map(|from| (from, end)));
    spans
}

fn within(spans: &[(f64, f64)], minute: f64) -> bool {
    spans.iter().any(|(from, to)| (*from..*to).contains(&minute))
}
