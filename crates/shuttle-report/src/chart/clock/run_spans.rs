//! Spans of time read from the story of one run.

use shuttle_sim::{Doing, Happening, Subject, Trace};

use crate::chart::elements::style::{self, Look};

/// A stretch of time, minutes after the alarm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Span {
    /// When it begins.
    pub from: f64,
    /// When it ends.
    pub to: f64,
}

/// What a tanker does, as a reader tells it apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Activity {
    /// On the way for the first time.
    Responding,
    /// Waiting for a place at a fill site.
    WaitingToFill,
    /// Waiting for a one-lane stretch.
    WaitingForRoad,
    /// Waiting at the scene for a place or an intake.
    WaitingAtScene,
    /// Standing at a drop tank that is full: no more runs in than is drawn from it.
    AtFullTank,
    /// Getting into place, connecting, disconnecting, pulling clear.
    Handling,
    /// Dumping or pumping off.
    Giving,
    /// On the road to a fill site.
    TravelingOut,
    /// Taking water.
    Filling,
    /// On the road to the scene.
    TravelingBack,
    /// Broken down or standing by.
    OutOfService,
}

impl Activity {
    /// All, in the order of a tanker's day.
    pub const ALL: [Activity; 11] = [
        Activity::Responding,
        Activity::WaitingAtScene,
        Activity::Handling,
        Activity::Giving,
        Activity::AtFullTank,
        Activity::TravelingOut,
        Activity::WaitingForRoad,
        Activity::WaitingToFill,
        Activity::Filling,
        Activity::TravelingBack,
        Activity::OutOfService,
    ];

    /// In the words of reports.
    pub fn words(self) -> &'static str {
        match self {
            Activity::Responding => "responding",
            Activity::WaitingToFill => "waiting to fill",
            Activity::WaitingForRoad => "waiting for the road",
            Activity::WaitingAtScene => "waiting at the scene",
            Activity::AtFullTank => "waiting at a full drop tank",
            Activity::Handling => "positioning, connecting, clearing",
            Activity::Giving => "dumping or pumping off",
            Activity::TravelingOut => "traveling out (empty)",
            Activity::Filling => "filling",
            Activity::TravelingBack => "traveling back (loaded)",
            Activity::OutOfService => "out of service or standing by",
        }
    }

    /// How it looks.
    pub fn look(self) -> Look {
        match self {
            Activity::Responding => style::RESPONDING,
            Activity::WaitingToFill => style::WAITING,
            Activity::WaitingForRoad => style::WAITING_FOR_ROAD,
            Activity::WaitingAtScene => style::WAITING_AT_SCENE,
            Activity::AtFullTank => style::WAITING_AT_FULL_TANK,
            Activity::Handling => style::HANDLING,
            Activity::Giving => style::DUMPING,
            Activity::TravelingOut => style::OUT,
            Activity::Filling => style::FILLING,
            Activity::TravelingBack => style::BACK,
            Activity::OutOfService => style::OUT_OF_SERVICE,
        }
    }

    /// `is_loaded` tells which way a tanker crosses a one-lane stretch.
    fn of(doing: Doing, is_loaded: bool) -> Activity {
        match doing {
            Doing::Responding => Activity::Responding,
            Doing::WaitingAtScene | Doing::OnDeck => Activity::WaitingAtScene,
            Doing::WaitingForRoad => Activity::WaitingForRoad,
            Doing::WaitingToFill(_) => Activity::WaitingToFill,
            Doing::NurseConnecting
            | Doing::NurseDisconnecting
            | Doing::Positioning(_)
            | Doing::Clearing(_)
            | Doing::BreakingOff(_)
            | Doing::Connecting(_)
            | Doing::Disconnecting(_) => Activity::Handling,
            Doing::PumpingOff | Doing::Dumping(_) => Activity::Giving,
            Doing::InRepair | Doing::OutOfService | Doing::StandingBy => Activity::OutOfService,
            Doing::CrossingOneLane if is_loaded => Activity::TravelingBack,
            Doing::CrossingOneLane => Activity::TravelingOut,
            Doing::TravelingOut(_) => Activity::TravelingOut,
            Doing::Filling(_) => Activity::Filling,
            Doing::TravelingBack => Activity::TravelingBack,
        }
    }
}

/// What one tanker does until `end`, without spans of no length; neighbors that are alike are one.
///
/// Its story begins when it reaches the scene. From `requested_at` (minutes after the alarm) until
/// then it is responding; nothing is said of a tanker that stays away, nor in a story without notes.
///
/// - Given: `capacities` of the drop tanks, gal, to tell when one is full.
pub fn tanker_spans(
    trace: &Trace,
    tanker: usize,
    requested_at: f64,
    end: f64,
    capacities: &[f64],
) -> Vec<(Span, Activity)> {
    let mut spans: Vec<(Span, Activity)> = Vec::new();
    if never_came(trace, tanker) == Some(NeverCame::StaysAway) {
        return spans;
    }
    let mut is_loaded = true;
    let mut now = (!trace.notes.is_empty()).then_some((requested_at, Activity::Responding, None));
    let mut close = |from: f64, to: f64, activity: Activity| {
        let to = to.min(end);
        match spans.last_mut() {
            Some((last, alike)) if *alike == activity && last.to >= from => last.to = to,
            _ if to > from => spans.push((Span { from, to }, activity)),
            _ => {}
        }
    };
    for (minute, doing) in doings(trace, tanker) {
        match doing {
            Doing::Filling(_) => is_loaded = true,
            Doing::Dumping(_) | Doing::PumpingOff => is_loaded = false,
            _ => {}
        }
        let then = Activity::of(doing, is_loaded);
        if let Some((from, activity, tank)) = now.replace((minute, then, tank_dumped_into(doing))) {
            for (span, activity) in told_full(trace, (from, minute), activity, tank, capacities) {
                close(span.from, span.to, activity);
            }
        }
    }
    if let Some((from, activity, tank)) = now {
        for (span, activity) in told_full(trace, (from, end), activity, tank, capacities) {
            close(span.from, span.to, activity);
        }
    }
    spans
}

fn tank_dumped_into(doing: Doing) -> Option<usize> {
    match doing {
        Doing::Dumping(tank) => Some(tank),
        _ => None,
    }
}

/// A span as it is; of one in which a tanker dumps into a drop tank, those stretches apart in which that tank is full
/// from end to end.
fn told_full(
    trace: &Trace,
    (from, to): (f64, f64),
    activity: Activity,
    tank: Option<usize>,
    capacities: &[f64],
) -> Vec<(Span, Activity)> {
    let Some((tank, capacity)) = tank.and_then(|tank| Some((tank, *capacities.get(tank)?))) else {
        return vec![(Span { from, to }, activity)];
    };
    let is_full = |levels: &[f64]| levels.get(tank).is_some_and(|level| *level >= capacity);
    let mut spans = Vec::new();
    let mut at = from;
    for pair in trace.course.windows(2) {
        let [(begin, before), (over, after)] = pair else { continue };
        if *over <= at || *begin >= to || !is_full(before) || !is_full(after) {
            continue;
        }
        let (begin, over) = (begin.max(at), over.min(to));
        spans.extend([
            (Span { from: at, to: begin }, activity),
            (Span { from: begin, to: over }, Activity::AtFullTank),
        ]);
        at = over;
    }
    spans.push((Span { from: at, to }, activity));
    spans
}

/// Why a tanker is not in the story of a fire.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NeverCame {
    /// It was asked for and stays away.
    StaysAway,
    /// The watch ends before it is there.
    TooLate,
}

impl NeverCame {
    /// In the words of its lane.
    pub fn words(self) -> &'static str {
        match self {
            NeverCame::StaysAway => "asked for, does not come",
            NeverCame::TooLate => "not there before the end",
        }
    }
}

/// Whether a tanker never reached the scene, and why; nothing in a story without notes.
pub fn never_came(trace: &Trace, tanker: usize) -> Option<NeverCame> {
    if trace.notes.is_empty() || doings(trace, tanker).next().is_some() {
        return None;
    }
    let away = Happening::StaysAway(Subject::Tanker(tanker));
    let stays_away = trace.notes.iter().any(|note| note.happening == away);
    Some(if stays_away { NeverCame::StaysAway } else { NeverCame::TooLate })
}

/// Loads a tanker brought in and emptied.
pub fn loads_given(trace: &Trace, tanker: usize) -> usize {
    doings(trace, tanker)
        .filter(|(_, doing)| matches!(doing, Doing::Clearing(_) | Doing::NurseDisconnecting))
        .count()
}

fn doings(trace: &Trace, tanker: usize) -> impl Iterator<Item = (f64, Doing)> {
    trace.notes.iter().filter_map(move |note| match note.happening {
        Happening::Tanker(who, doing) if who == tanker => Some((note.minute, doing)),
        _ => None,
    })
}

/// When the attack lines are short.
pub fn shortfalls(trace: &Trace, end: f64) -> Vec<Span> {
    let spans = spans_between(trace, end, |happening| match happening {
        Happening::ShortfallBegan(_) => Some(true),
        Happening::ShortfallEnded => Some(false),
        _ => None,
    });
    spans.into_iter().filter(|(_, is_short)| *is_short).map(|(span, _)| span).collect()
}

/// From the first draw on: when the pump has prime (`true`) and when it has lost it.
pub fn draft_spans(trace: &Trace, end: f64) -> Vec<(Span, bool)> {
    spans_between(trace, end, |happening| match happening {
        Happening::Primed | Happening::PrimeBack => Some(true),
        Happening::PrimeLost => Some(false),
        _ => None,
    })
}

/// Spans between the notes that turn something on or off.
fn spans_between(
    trace: &Trace,
    end: f64,
    turns: impl Fn(Happening) -> Option<bool>,
) -> Vec<(Span, bool)> {
    let mut spans = Vec::new();
    let mut now: Option<(f64, bool)> = None;
    let turns =
        trace.notes.iter().filter_map(|note| Some((note.minute, Some(turns(note.happening)?))));
    for (minute, is_on) in turns.chain([(end, None)]) {
        if let Some((from, was_on)) = now
            && minute.min(end) > from
        {
            spans.push((Span { from, to: minute.min(end) }, was_on));
        }
        now = is_on.map(|is_on| (minute, is_on));
    }
    spans
}

#[cfg(test)]
mod tests;
