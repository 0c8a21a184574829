//! Dips told by hand, of stories made up for the purpose.

use shuttle_sim::{Cause, Doing, Happening, Interruption, Note, RunResult, Trace};

use super::dips::{Dip, dips};
use super::{Question, Watched, trip_wires};
use crate::batch::{Control, Runs};
use crate::chart::demo;

fn note(minute: f64, happening: Happening) -> Note {
    Note { minute, happening }
}

/// Drawn from at 100 gpm from minute 10 on: 1,000 gal fall to 400 at minute 16; a load pours to minute 18 and
/// brings them to 1,200, which last to minute 30; the lines are short from then to minute 32, when a load comes.
fn story() -> (RunResult, Trace) {
    let levels = |minute: f64, tank: f64| (minute, vec![tank, 500.0]);
    let trace = Trace {
        notes: vec![
            note(10.0, Happening::Primed),
            note(16.0, Happening::Tanker(0, Doing::Dumping(0))),
            note(18.0, Happening::Tanker(0, Doing::Clearing(0))),
            note(32.0, Happening::Tanker(0, Doing::Dumping(0))),
            note(34.0, Happening::Tanker(0, Doing::Clearing(0))),
        ],
        course: vec![
            levels(9.0, 0.0),
            levels(10.0, 1_000.0),
            levels(16.0, 400.0),
            levels(18.0, 1_200.0),
            levels(30.0, 0.0),
            levels(32.0, 0.0),
            levels(34.0, 900.0),
            levels(40.0, 300.0),
        ],
        ..Trace::default()
    };
    let short = Interruption {
        start: 30.0,
        minutes: 2.0,
        before_supply: false,
        cause: Cause::HaulTooLong,
        kind: None,
        about: None,
    };
    let result = RunResult { end: 40.0, interruptions: vec![short], ..RunResult::default() };
    (result, trace)
}

#[test]
fn a_dip_is_told_with_the_wait_for_the_next_load_and_what_came_of_it() {
    let (result, trace) = story();
    // Worked out by hand: 500 gal are passed at minute 15 with a load a minute later; at minute 25, seven minutes
    // before the next load, and the lines run short; at minute 38 with none to come before the end.
    let expected = [
        Dip { next_load: 1.0, to_the_end: 25.0, ran_short: false },
        Dip { next_load: 7.0, to_the_end: 15.0, ran_short: true },
        Dip { next_load: f64::INFINITY, to_the_end: 2.0, ran_short: false },
    ];
    let found = dips(&result, &trace, Watched::DropTanks, 500.0);
    assert_eq!(found.len(), expected.len(), "{found:?}");
    for (one, other) in found.iter().zip(&expected) {
        assert!((one.next_load - other.next_load).abs() < 1e-9 || one.next_load == other.next_load);
        assert!((one.to_the_end - other.to_the_end).abs() < 1e-9, "{one:?}");
        assert_eq!(one.ran_short, other.ran_short, "{one:?}");
    }
    assert_eq!(dips(&result, &trace, Watched::EngineTank, 400.0), []);
}

#[test]
fn the_lines_short_already_give_no_warning() {
    let (mut result, trace) = story();
    result.interruptions[0].start = 24.0;
    result.interruptions[0].minutes = 8.0;
    let found = dips(&result, &trace, Watched::DropTanks, 500.0);
    assert_eq!(found.len(), 2, "the dip of minute 25 is left out: {found:?}");
}

#[test]
fn the_same_is_found_on_any_number_of_threads() {
    let plan = demo::plan(2, 90.0, 1);
    let question = Question {
        levels: vec![1_500.0, 1_000.0, 500.0],
        no_load_within: vec![1.0, 3.0],
        ask_from: 0.1,
        gate_down_from: 0.5,
    };
    let on = |threads| {
        let runs = Runs { first: 0, count: 300, seed: 3, threads };
        trip_wires(&plan, &question, runs, &Control::default())
    };
    let alone = on(1);
    assert_eq!(alone, on(3));
    assert_eq!(alone.fires, 300);
    assert!(alone.cells.iter().any(|cell| cell.fires > 0), "{alone:?}");
    for pair in alone.cells.chunks(2) {
        assert!(pair[1].fires <= pair[0].fires, "a longer wait is rarer: {pair:?}");
    }
}

/// A plan that always fails: every level is followed by a shortfall, and so none of them warns of one.
#[test]
fn a_level_that_is_followed_by_a_shortfall_no_more_often_than_any_fire_is_no_trip_wire() {
    let question = Question {
        levels: vec![2_000.0, 1_500.0, 1_000.0, 500.0],
        no_load_within: vec![1.0, 3.0],
        ask_from: 0.1,
        gate_down_from: 0.5,
    };
    let of = |tankers| {
        let runs = Runs { first: 0, count: 400, seed: 3, threads: 2 };
        trip_wires(&demo::plan(tankers, 120.0, 1), &question, runs, &Control::default())
    };
    let lost = of(1);
    assert_eq!(lost.ran_short, lost.fires, "one tanker is never enough");
    assert!(lost.cells.iter().any(|cell| cell.share() == Some(1.0)), "{:?}", lost.cells);
    assert!(lost.wires.iter().all(|wire| wire.ask.is_none() && wire.gate_down.is_none()));
    // And where there is one, it is followed by a shortfall more often than a fire is short at all.
    let some = of(3);
    let anyway = some.ran_short as f64 / some.fires as f64;
    let told: Vec<_> = some.wires.iter().filter_map(|wire| wire.gate_down).collect();
    assert!(!told.is_empty() && anyway < 1.0, "{some:?}");
    assert!(told.iter().all(|cell| cell.share().is_some_and(|share| share > anyway)), "{told:?}");
}
