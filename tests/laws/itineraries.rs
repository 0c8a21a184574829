//! The trace read tanker by tanker: where each is, and what may follow what.

use shuttle_sim::{Doing, Happening, Plan, Trace};
use std::collections::VecDeque;

/// Times closer than this are one instant, minutes.
const SAME_INSTANT: f64 = 1e-9;

/// Which way a tanker goes, and over which one-lane stretch.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Crossing {
    /// `None` by the scene, else by this fill site.
    near_site: Option<usize>,
    out: bool,
}

/// One tanker as the trace tells it.
#[derive(Debug, Clone, Copy)]
struct Seen {
    doing: Doing,
    /// Between the scene and a fill site: outbound, and the open road already behind it.
    out: bool,
    driven: bool,
    /// The fill site it was last at or drives to.
    site: Option<usize>,
    crosses: Option<Crossing>,
}

/// Everything that the trace shows to be against the rules: a tanker that is where it cannot have
/// come from, more tankers at a place than it has positions, someone served out of turn, both
/// directions on a one-lane stretch, time that goes back.
pub fn misdeeds(plan: &Plan, trace: &Trace) -> Vec<String> {
    let facts = plan.facts();
    let mut found = Vec::new();
    let start =
        Seen { doing: Doing::Responding, out: false, driven: false, site: None, crosses: None };
    let mut seen = vec![start; facts.tankers.len()];
    let mut scene_line: VecDeque<usize> = VecDeque::new();
    let mut fill_lines = vec![VecDeque::new(); facts.fill_sites.len()];
    let mut last = f64::NEG_INFINITY;
    let may_nurse = facts.supply.nurse && !facts.drop_tanks.is_empty();
    let (mut has_drawn, mut has_failed) = (false, false);
    for note in &trace.notes {
        if note.minute < last {
            found.push(format!("time goes back from {last} to {}", note.minute));
        }
        if note.minute > last + SAME_INSTANT {
            found.extend(met_head_on(&seen, last));
        }
        last = note.minute;
        has_drawn |= note.happening == Happening::Primed;
        has_failed |= note.happening == Happening::PumpFailed;
        has_failed &= note.happening != Happening::PumpRepaired;
        let may_pass = may_nurse && (!has_drawn || has_failed);
        let Happening::Tanker(who, doing) = note.happening else { continue };
        let before = seen[who];
        let mut wrong = |what: &str| {
            found.push(format!(
                "{} tanker {who}, {:?} -> {doing:?}: {what}",
                note.minute, before.doing
            ));
        };
        if !may_follow(before.doing, doing) {
            wrong("it cannot have come from there");
        }
        if is_in_line(before.doing) && !is_in_line(doing) {
            let place = scene_line.iter().position(|waits| *waits == who);
            // Until the pump first draws, and while it has failed, those behind may pass.
            if place != Some(0) && !may_pass {
                wrong("out of turn at the scene");
            }
            place.map(|place| scene_line.remove(place));
        }
        if let Doing::WaitingToFill(site) = before.doing
            && fill_lines[site].pop_front() != Some(who)
        {
            wrong("out of turn at the fill site");
        }
        match doing {
            Doing::WaitingAtScene if !is_in_line(before.doing) => scene_line.push_back(who),
            Doing::WaitingToFill(site) => fill_lines[site].push_back(who),
            _ => {}
        }
        seen[who] = moved(before, doing);
        if let Some((place, positions)) = place_of(plan, doing) {
            let there =
                seen.iter().filter(|one| place_of(plan, one.doing) == Some((place, positions)));
            if there.count() > positions as usize {
                wrong("more than there are positions");
            }
        }
    }
    found.extend(met_head_on(&seen, last));
    found
}

/// Both directions on a one-lane stretch, once an instant is over: within it the trace may tell of
/// who drives on to the stretch before who leaves it.
fn met_head_on(seen: &[Seen], minute: f64) -> Option<String> {
    let crossings: Vec<Crossing> = seen.iter().filter_map(|one| one.crosses).collect();
    let meets = |one: &Crossing| {
        crossings.iter().any(|other| other.near_site == one.near_site && other.out != one.out)
    };
    crossings
        .iter()
        .any(meets)
        .then(|| format!("{minute} head on, on a one-lane stretch: {seen:?}"))
}

fn moved(before: Seen, doing: Doing) -> Seen {
    let mut now = Seen { doing, crosses: None, ..before };
    if before.crosses.is_some_and(|last| last.out && last.near_site.is_some())
        && matches!(doing, Doing::CrossingOneLane | Doing::WaitingForRoad)
    {
        // It came to a site that is dry for good and turns round without stopping.
        (now.out, now.driven) = (false, false);
    }
    match doing {
        Doing::Clearing(_) | Doing::NurseDisconnecting => (now.out, now.driven) = (true, false),
        Doing::TravelingOut(site) => (now.site, now.driven) = (Some(site), true),
        Doing::WaitingToFill(_) | Doing::Disconnecting(_) => (now.out, now.driven) = (false, false),
        Doing::TravelingBack => (now.out, now.driven) = (false, true),
        Doing::CrossingOneLane => {
            // By the scene first on the way out and last on the way back.
            let by_scene = now.out != now.driven;
            let near_site = if by_scene { None } else { now.site };
            now.crosses = Some(Crossing { near_site, out: now.out });
        }
        _ => {}
    }
    now
}

/// A place with a number of positions.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Place {
    Intakes,
    DropTank(usize),
    FillSite(usize),
}

/// The place whose position a tanker holds, and how many it has.
fn place_of(plan: &Plan, doing: Doing) -> Option<(Place, u32)> {
    let facts = plan.facts();
    match doing {
        Doing::BreakingOff(_)
        | Doing::NurseConnecting
        | Doing::PumpingOff
        | Doing::NurseDisconnecting => Some((Place::Intakes, facts.attack_engine.intakes)),
        Doing::Positioning(tank) | Doing::Dumping(tank) | Doing::Clearing(tank) => {
            Some((Place::DropTank(tank), facts.drop_tanks[tank].dump_positions))
        }
        Doing::Connecting(site) | Doing::Filling(site) | Doing::Disconnecting(site) => {
            Some((Place::FillSite(site), facts.fill_sites[site].positions))
        }
        _ => None,
    }
}

/// Whether a tanker that did `before` may do `after` next: it is at one place at a time and goes
/// from place to place by the road.
fn may_follow(before: Doing, after: Doing) -> bool {
    use Doing::*;
    match after {
        Responding => false,
        WaitingAtScene => matches!(before, Responding | TravelingBack | CrossingOneLane | OnDeck),
        OnDeck => before == WaitingAtScene,
        NurseConnecting => is_in_line(before) || matches!(before, BreakingOff(_)),
        Positioning(_) => is_in_line(before),
        BreakingOff(tank) => before == Dumping(tank),
        PumpingOff => before == NurseConnecting,
        NurseDisconnecting => before == PumpingOff,
        Dumping(tank) => before == Positioning(tank),
        Clearing(tank) => before == Dumping(tank),
        InRepair | OutOfService => matches!(before, Clearing(_) | NurseDisconnecting),
        StandingBy => matches!(before, Clearing(_) | NurseDisconnecting | InRepair | StandingBy),
        WaitingForRoad => is_by_a_road(before),
        CrossingOneLane => is_by_a_road(before) || before == WaitingForRoad,
        TravelingOut(_) => is_done_at_scene(before) || before == CrossingOneLane,
        WaitingToFill(site) => {
            matches!(before, TravelingOut(to) if to == site) || before == CrossingOneLane
        }
        Connecting(site) => before == WaitingToFill(site),
        Filling(site) => before == Connecting(site),
        Disconnecting(site) => before == Filling(site),
        // Away from a dry site also without having filled.
        TravelingBack => matches!(
            before,
            Disconnecting(_) | WaitingToFill(_) | TravelingOut(_) | CrossingOneLane
        ),
    }
}

fn is_in_line(doing: Doing) -> bool {
    matches!(doing, Doing::WaitingAtScene | Doing::OnDeck)
}

fn is_done_at_scene(before: Doing) -> bool {
    use Doing::*;
    matches!(before, Clearing(_) | NurseDisconnecting | InRepair | StandingBy)
}

/// At the beginning or the end of the open road, where a one-lane stretch may lie.
fn is_by_a_road(before: Doing) -> bool {
    use Doing::*;
    is_done_at_scene(before)
        || matches!(
            before,
            TravelingOut(_) | TravelingBack | Disconnecting(_) | WaitingToFill(_) | CrossingOneLane
        )
}
