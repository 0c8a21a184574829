//! Faults that were found once, each with the scenario that showed it. Expected instants come from
//! the independent reference in `peers/reference`, run on the same files, or from the arithmetic
//! in the test.

use std::path::Path;

use shuttle_sim::{
    Cause, Doing, DumpCurve, Happening, Luck, Plan, RunResult, Shuttle, TimeTaken, Trace,
};

fn path_of(name: &str) -> std::path::PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("regressions").join(name)
}

fn planned(name: &str) -> (RunResult, Trace) {
    let scenario = scenario_file::load(&path_of(name)).unwrap_or_else(|error| panic!("{error}"));
    Shuttle::new(&scenario.plan).run_traced(Luck::Planned)
}

/// When this tanker first does this.
fn began(trace: &Trace, tanker: usize, doing: Doing) -> Option<f64> {
    let note = trace.notes.iter().find(|note| note.happening == Happening::Tanker(tanker, doing));
    note.map(|note| note.minute)
}

#[test]
fn a_full_second_tank_never_takes_more_than_its_tanker_can_pour() {
    let (_, trace) = planned("full_second_tank_with_rising_outflow.json");
    let empty = began(&trace, 1, Doing::Clearing(1)).expect("B empties into the second tank");
    let reference = 19.39683176607489;
    assert!((empty - reference).abs() < 1e-6, "B is empty at {empty}, the reference {reference}");
}

#[test]
fn a_load_that_is_just_the_restart_level_lets_the_pump_draw() {
    let (run, _) = planned("one_load_is_the_restart_level.json");
    assert_eq!(run.established, Some(14.0));
}

#[test]
fn a_site_that_holds_exactly_half_a_load_can_give_half() {
    let (run, _) = planned("exactly_half_a_load_left.json");
    assert_eq!(run.tankers[0].trips, 3);
}

#[test]
fn a_dry_lay_fills_alike_whatever_else_arrives() {
    // 1,020 gal of lay: 500 gpm from the attack engine's arrival at minute 10, 600 gpm from first
    // water at minute 11, so it is full at 11.87; the engine's tank is full again soon after.
    for name in ["dry_lay.json", "dry_lay_and_one_more_tanker.json"] {
        let (run, _) = planned(name);
        let eight_minutes_in = run.levels[8 * 2 + 1];
        assert!((eight_minutes_in - 1500.0).abs() < 1e-6, "{name}: {eight_minutes_in} gal");
        // One minute in: t = (1,020 - 500) / 600 min at 100 gpm less, the rest of it 500 gpm more.
        let one_minute_in = run.levels[2 + 1];
        assert!((one_minute_in - (2500.0 - 1020.0)).abs() < 0.1, "{name}: {one_minute_in} gal");
    }
}

#[test]
fn what_would_never_end_is_refused() {
    for (name, field) in [
        ("restart_level_a_hair_above_unusable.json", "supply.restart_level"),
        ("a_road_that_takes_no_time.json", "the way takes no time"),
    ] {
        let error = scenario_file::load(&path_of(name)).expect_err("it would never end");
        assert!(error.to_string().contains(field), "{error}");
    }
}

#[test]
fn a_load_that_fills_the_drop_tank_to_the_brim_is_let_go() {
    // Nothing is drawn before the hook-up. By gravity a load is gone after T = 0.9 v0 / (rate (1 -
    // sqrt 0.1)), at a steady rate after v0 / rate; rounding must not keep a last drop aboard for good.
    let scenario = scenario_file::load(&path_of("two_loads_fill_the_drop_tank.json"))
        .expect("a sound scenario");
    for load in (0..500).map(|step| 1_000.0 + f64::from(step) * 1.7) {
        for curve in [DumpCurve::Gravity, DumpCurve::Steady] {
            let mut facts = scenario.plan.facts().clone();
            facts.drop_tanks[0].capacity = 2.0 * load;
            for tanker in &mut facts.tankers {
                (tanker.capacity, tanker.dump_curve) = (load, curve);
            }
            let plan = Plan::check(facts).expect("a sound plan");
            let (_, trace) = Shuttle::new(&plan).run_traced(Luck::Planned);
            let minutes = match curve {
                DumpCurve::Gravity => 0.9 * load / (1000.0 * (1.0 - 0.1_f64.sqrt())),
                DumpCurve::Steady => load / 1000.0,
            };
            let clears = began(&trace, 1, Doing::Clearing(0)).expect("the second tanker is let go");
            // The last millionth of a gallon by gravity takes some ten-thousandths of a minute.
            assert!((clears - 9.7 - minutes).abs() < 1e-3, "{load} gal, {curve:?}: {clears}");
        }
    }
}

#[test]
fn a_nurse_whose_load_is_gone_as_a_lull_begins_is_let_go() {
    // 1,000 gal at 200 gpm from minute 0, the first third of a minute from the engine's own tank, which
    // takes it back meanwhile: all is gone at minute 5, when the lines want nothing for an hour.
    let (_, trace) = planned("a_nurse_empty_as_a_lull_begins.json");
    let empty = began(&trace, 0, Doing::NurseDisconnecting).expect("the nurse is let go");
    assert!((empty - 5.0).abs() < 1e-6, "{empty}");
}

#[test]
fn tankers_empty_at_one_instant_leave_in_the_order_of_the_plan() {
    // Both are empty at minute 5 and fill for 10. By hand: by Near the first is back at 5 + 5 + 10 + 5 = 25,
    // by Far at 27. The second finds 10 minutes of work ahead at Near: 15 + 10 + 5 = 30, by Far 27.
    let (_, trace) = planned("two_tankers_empty_at_one_instant.json");
    assert_eq!(began(&trace, 0, Doing::TravelingOut(0)), Some(5.0));
    assert_eq!(began(&trace, 1, Doing::TravelingOut(1)), Some(5.0));
}

#[test]
fn a_fire_that_no_engine_reaches_for_months_ends() {
    // Allowed, though absurd: in some runs the engine takes longer than the engine's clock counts.
    let scenario = scenario_file::load(&path_of("dry_lay.json")).expect("a sound scenario");
    let mut facts = scenario.plan.facts().clone();
    facts.attack_engine.call.response = TimeTaken::Lognormal { mean: 10_000.0, cv: 5.0 };
    let plan = Plan::check(facts).expect("a sound plan");
    let mut shuttle = Shuttle::new(&plan);
    let late = (0..3_000).filter(|replication| {
        let run = shuttle.run(Luck::Drawn { seed: 1, replication: *replication });
        run.first_water > 187_000.0
    });
    assert!(late.count() > 0);
}

#[test]
fn loads_are_gone_at_round_times_however_many_went_before() {
    // 250 gpm leave the full drop tank, so one load of 2,000 gal is gone every 8 minutes, the first at
    // 5.05. Events come at whole ticks; the part of a tick between must not add up from load to load.
    let (_, trace) = planned("loads_gone_at_round_times.json");
    let clearing = |happening| matches!(happening, Happening::Tanker(_, Doing::Clearing(_)));
    let gone: Vec<f64> = (trace.notes.iter().filter(|note| clearing(note.happening)))
        .map(|note| note.minute)
        .collect();
    assert!(gone.len() > 25, "{gone:?}");
    for (load, minute) in gone.iter().enumerate() {
        let right = 5.05 + 8.0 * load as f64;
        assert!((minute - right).abs() < 1e-12, "load {load}: {minute}, not {right}");
    }
}

#[test]
fn the_engine_takes_no_part_of_a_tick_from_the_drop_tank() {
    // 3,000 gal from minute 2; whatever the refill, by minute 17 the lines have had 2 x 250 + 15 x 100 gal
    // and the engine's tank its 500 gal back, so the drop tank is full with the last 1,000.
    let scenario =
        scenario_file::load(&path_of("engine_tank_full_while_dumping.json")).expect("a scenario");
    for refill in [190.0, 350.0, 370.0, 450.0, 500.0, 700.0, 900.0] {
        let mut facts = scenario.plan.facts().clone();
        facts.attack_engine.tank_refill = refill;
        let plan = Plan::check(facts).expect("a sound plan");
        let (_, trace) = Shuttle::new(&plan).run_traced(Luck::Planned);
        let empty = began(&trace, 0, Doing::Clearing(0)).expect("the load is gone");
        assert!((empty - 17.0).abs() < 1e-12, "refill {refill} gpm: {empty}");
    }
}

#[test]
fn a_shortfall_at_the_instant_the_last_aid_comes_is_not_for_want_of_aid() {
    // The second tanker comes at 2.1, when the engine's tank is empty for the second time.
    let (run, _) = planned("short_at_a_round_minute.json");
    let second = run.interruptions[1];
    assert!((second.start - 2.1).abs() < 1e-12, "{second:?}");
    assert_eq!(second.cause, Cause::PrimeLost);
}

#[test]
fn a_level_that_turns_back_where_it_stands_does_not_stop_the_clock() {
    // The pour falls through what is drawn, a hundred-millionth of a gallon a minute apart.
    let scenario =
        scenario_file::load(&path_of("turns_back_at_the_unusable_level.json")).expect("a scenario");
    for step in -400..400 {
        let mut facts = scenario.plan.facts().clone();
        for flow in &mut facts.incident.attack_flow {
            flow.flow += f64::from(step) * 2.5e-10;
        }
        let plan = Plan::check(facts).expect("a sound plan");
        Shuttle::new(&plan).run(Luck::Planned);
    }
}

#[test]
fn a_tanker_that_still_connects_to_nurse_is_not_overtaken() {
    // "Slow" has connected at 17.5 and nurses beside the draft, while the other's second load, on the
    // road until minute 16, runs from 16.5 to 18.5.
    let scenario = scenario_file::load(&path_of("connects_to_nurse_while_the_draft_is_up.json"));
    let scenario = scenario.unwrap_or_else(|error| panic!("{error}"));
    let mut shuttle = Shuttle::new(&scenario.plan);
    let (run, trace) = shuttle.run_traced(Luck::Planned);
    assert_eq!(began(&trace, 0, Doing::PumpingOff), Some(17.5));
    assert!(trace.notes.iter().any(|note| {
        note.minute == 16.5 && note.happening == Happening::Tanker(1, Doing::Dumping(0))
    }));
    assert_eq!(*shuttle.run(Luck::Planned), run);
}
