//! The laws can fail: a run that keeps them all is altered in one figure or one event, and the law
//! that it then breaks says so.

use crate::common::world::World;
use crate::itineraries::misdeeds;
use crate::of_one_run::{broken_laws, run_to_its_end};
use shuttle_sim::Doing::*;
use shuttle_sim::{Doing, Happening, Luck, Near, Note, Plan, RunResult, Trace};

/// Three tankers that come at once: lines at the scene and at the pond, whose one position and
/// limited water they share, and attack lines that run short again and again.
fn honest() -> (Plan, RunResult, Trace) {
    let mut world = World::new().watched(90.0).attack_flow(500.0).pond(|site| {
        site.flow = 250.0;
        site.volume = Some(50_000.0);
    });
    for number in 1..=3 {
        world = world.tanker(&format!("T{number}"), 2_000.0, 1.0);
    }
    let plan = world.plan();
    let (run, trace) = run_to_its_end(&plan, Luck::Planned);
    (plan, run, trace)
}

/// One alteration of the result, and the words of the law that it breaks.
type Figure = (&'static str, fn(&mut RunResult));

const FIGURES: [Figure; 24] = [
    ("the balance is off", |run| run.remaining -= 1.0),
    ("the balance is off", |run| run.arrived += 0.01),
    ("the balance is off", |run| run.spilled += 0.01),
    ("more delivered than wanted", |run| run.delivered = run.wanted + 0.01),
    ("unmet", |run| run.unmet[1] += 0.01),
    ("less than nothing", |run| run.spilled = -0.01),
    ("taken from", |run| run.taken[0] = 50_001.0),
    ("more than its flow", |run| run.taken[0] = 250.0 * run.end + 1.0),
    ("more delivered than brought", |run| run.tankers[0].delivered = 0.0),
    ("a level of", |run| run.levels[4] = 3_000.1),
    ("a level of", |run| run.levels[4] = -0.1),
    ("levels at", |run| run.levels.truncate(100)),
    ("lowest engine level", |run| run.lowest_engine = -0.1),
    ("is not the lowest", |run| run.lowest_engine = 1_000.0),
    ("overlap or are out of order", |run| run.interruptions.swap(0, 1)),
    ("overlap or are out of order", |run| {
        run.interruptions[0].minutes =
            run.interruptions[1].start - run.interruptions[0].start + 0.1;
    }),
    ("of no length", |run| run.interruptions[0].minutes = 0.0),
    ("shorter than the tolerance", |run| run.interruptions[0].minutes = 0.09),
    ("on the wrong side", |run| {
        run.interruptions[0].before_supply = !run.interruptions[0].before_supply;
    }),
    ("beyond the watch", |run| run.interruptions.last_mut().unwrap().minutes += 91.0),
    ("the trace tells", |run| run.minutes_short[1] += 0.001),
    ("not watched for the duration", |run| run.end += 0.001),
    ("a busy share", |run| run.fill_held[0] = 90.1),
    ("more cycles than trips", |run| run.tankers[1].cycles = run.tankers[1].trips + 1),
];

/// The law that speaks of an altered run, if any does.
fn is_refused(plan: &Plan, run: &RunResult, trace: &Trace, words: &str) -> Result<(), String> {
    let broken = broken_laws(plan, run, trace);
    if broken.iter().any(|law| law.contains(words)) {
        return Ok(());
    }
    Err(format!("\"{words}\" is not told of, but: {broken:?}"))
}

#[test]
fn the_run_that_is_altered_keeps_every_law() {
    let (plan, run, trace) = honest();
    assert_eq!(broken_laws(&plan, &run, &trace), Vec::<String>::new());
    assert!(run.interruptions.len() >= 2, "{:?}", run.interruptions);
}

#[test]
fn a_figure_altered_is_refused_by_its_law() {
    let (plan, run, trace) = honest();
    for (words, alter) in FIGURES {
        let mut altered = run.clone();
        alter(&mut altered);
        is_refused(&plan, &altered, &trace, words).unwrap();
    }
    let mut altered = run.clone();
    altered.tankers[1].parts[0] = -0.001;
    is_refused(&plan, &altered, &trace, "less than no time").unwrap();
    altered.tankers[1].parts[0] = 1_000.0;
    is_refused(&plan, &altered, &trace, "cycles longer than the run").unwrap();
    altered.minutes_short[1] = 90.1;
    is_refused(&plan, &altered, &trace, "short for longer than was watched").unwrap();
    altered.minutes_short = [0.0; 2];
    is_refused(&plan, &altered, &trace, "interrupted for longer than short").unwrap();
}

#[test]
fn a_level_in_the_trace_beyond_its_tank_is_refused() {
    let (plan, run, trace) = honest();
    let mut altered = trace.clone();
    altered.levels[8] = 3_000.1;
    is_refused(&plan, &run, &altered, "a level of 3000.1 in a tank of 3000").unwrap();
    let mut altered = trace.clone();
    altered.course[5].1[1] = -0.1;
    is_refused(&plan, &run, &altered, "a level of -0.1").unwrap();
}

/// The first note from `from` on that tells this of a tanker, and of which.
fn told(trace: &Trace, from: usize, what: Doing) -> (usize, usize) {
    let tells = |note: &Note| match note.happening {
        Happening::Tanker(who, doing) if doing == what => Some(who),
        _ => None,
    };
    let mut notes = trace.notes.iter().enumerate().skip(from);
    notes.find_map(|(at, note)| Some((at, tells(note)?))).expect("it is told")
}

/// Someone else is named in this note.
fn rename(trace: &mut Trace, at: usize, who: usize) {
    let Happening::Tanker(_, doing) = trace.notes[at].happening else { panic!("no tanker") };
    trace.notes[at].happening = Happening::Tanker(who, doing);
}

#[test]
fn an_order_swapped_is_refused() {
    let (plan, run, trace) = honest();
    for (line, words) in [
        (WaitingAtScene, "out of turn at the scene"),
        (WaitingToFill(0), "out of turn at the fill site"),
    ] {
        // Two that stand in line one behind the other: each comes in the other's place.
        let (at, _) = told(&trace, 0, line);
        let (first, one) = told(&trace, at + 1, line);
        let (second, other) = told(&trace, first + 1, line);
        assert_ne!(one, other);
        let mut altered = trace.clone();
        rename(&mut altered, first, other);
        rename(&mut altered, second, one);
        is_refused(&plan, &run, &altered, words).unwrap();
    }
}

#[test]
fn a_position_used_twice_is_refused() {
    let (plan, run, trace) = honest();
    // The third tanker moves up while the one position is still taken.
    for (waits, moves_up) in [(WaitingAtScene, Positioning(0)), (WaitingToFill(0), Connecting(0))] {
        let (first, _) = told(&trace, 0, waits);
        let (at, who) = told(&trace, first + 1, waits);
        let mut altered = trace.clone();
        let minute = trace.notes[at].minute;
        let note = Note { minute, happening: Happening::Tanker(who, moves_up) };
        altered.notes.insert(at + 1, note);
        // Its own taking the place is told already.
        let (again, _) = told(&altered, at + 2, moves_up);
        assert!(altered.notes[again].minute >= minute);
        let found = misdeeds(&plan, &altered);
        let is_told = found.iter().any(|what| what.contains("more than there are positions"));
        assert!(is_told, "{moves_up:?}: {found:?}");
    }
    assert_eq!(misdeeds(&plan, &trace), Vec::<String>::new());
    assert!(run.tankers.iter().all(|tanker| tanker.trips > 1));
}

#[test]
fn a_tanker_that_skips_the_road_is_refused() {
    let (plan, run, trace) = honest();
    for skipped in [TravelingOut(0), TravelingBack, Positioning(0), Filling(0)] {
        let mut altered = trace.clone();
        altered.notes.remove(told(&trace, 0, skipped).0);
        is_refused(&plan, &run, &altered, "it cannot have come from there").unwrap();
    }
}

#[test]
fn time_that_goes_back_is_refused() {
    let (plan, run, trace) = honest();
    let at = trace.notes.len() / 2;
    let mut altered = trace.clone();
    altered.notes[at].minute = altered.notes[at - 1].minute - 0.001;
    is_refused(&plan, &run, &altered, "time goes back").unwrap();
}

#[test]
fn a_shortfall_told_too_late_is_refused() {
    let (plan, run, trace) = honest();
    let mut altered = trace.clone();
    let began = |note: &&mut Note| matches!(note.happening, Happening::ShortfallBegan(_));
    altered.notes.iter_mut().find(began).unwrap().minute += 0.001;
    is_refused(&plan, &run, &altered, "the trace tells").unwrap();
}

#[test]
fn a_shortfall_in_which_all_comes_is_refused() {
    let (plan, run, mut altered) = honest();
    let given = altered.notes.iter_mut().find_map(|note| match &mut note.happening {
        Happening::ShortfallBegan(given) => Some(given),
        _ => None,
    });
    *given.unwrap() = 1e6;
    is_refused(&plan, &run, &altered, "all that is wanted comes").unwrap();
}

#[test]
fn two_that_meet_on_a_one_lane_stretch_are_refused() {
    let plan = World::new().one_lane(Near::Scene, 1.0).tanker("T1", 2_000.0, 0.0);
    let plan = plan.tanker("T2", 2_000.0, 0.0).plan();
    let story = |returns_at: f64| {
        let tanker = |minute, who, doing| Note { minute, happening: Happening::Tanker(who, doing) };
        let mut trace = Trace::default();
        for (who, from) in [(0, 0.0), (1, returns_at)] {
            trace.notes.extend([
                tanker(from, who, WaitingAtScene),
                tanker(from, who, Positioning(0)),
                tanker(from, who, Dumping(0)),
                tanker(from + 2.0, who, Clearing(0)),
                tanker(from + 2.0, who, CrossingOneLane),
                tanker(from + 3.0, who, TravelingOut(0)),
                tanker(from + 8.0, who, WaitingToFill(0)),
                tanker(from + 8.0, who, Connecting(0)),
                tanker(from + 8.0, who, Filling(0)),
                tanker(from + 10.0, who, Disconnecting(0)),
                tanker(from + 10.0, who, TravelingBack),
                tanker(from + 15.0, who, CrossingOneLane),
                tanker(from + 16.0, who, WaitingAtScene),
            ]);
        }
        trace.notes.sort_by(|one, other| one.minute.total_cmp(&other.minute));
        misdeeds(&plan, &trace)
    };
    // The first comes back over the stretch from 15 to 16, the second goes out two minutes after
    // it came.
    assert_eq!(story(14.0), Vec::<String>::new());
    let met = story(13.5);
    assert!(!met.is_empty() && met.iter().all(|what| what.contains("head on")), "{met:?}");
}
