//! What a run tells while it goes, what may be asked of it beside the plan, and which luck is whose.

use crate::common::assert_close;
use crate::common::world::{World, open_dump_site};
use shuttle_sim::{Cause, Doing, Happening, KeyedStream, Luck, Near, Purpose, Shuttle, TimeTaken};

/// T1(2000) 0:00 -> [3000] => at most 200 gpm => E(1000) 500 gpm
///
/// Drawn from 300 gal on, at 0:00:18, when the engine has 850 gal. It loses 300 gpm and is empty 2:50 later, at
/// 0:03:08: the lines then get 200 of the 500 gpm they want.
fn short_of_draft() -> World {
    World::new().draft_limit(200.0).tanker("T1", 2000.0, 0.0).watched(5.0)
}

#[test]
fn aa01_every_turn_of_a_level_is_told_with_what_the_lines_want_and_are_given() {
    let told = short_of_draft().told();
    // The drop tank gains 1,000 gpm, from 0:00:18 on 800, and from 0:02 on loses 200.
    let turns = [
        (0.0, 0.0, 1000.0, 500.0),
        (0.3, 300.0, 850.0, 500.0),
        (2.0, 1660.0, 340.0, 500.0),
        (2.0 + 340.0 / 300.0, 1660.0 - 200.0 * 340.0 / 300.0, 0.0, 200.0),
    ];
    for (minute, tank, engine, given) in turns {
        let place = told.trace.course.iter().rposition(|(at, _)| (at - minute).abs() < 1e-7);
        let place = place.unwrap_or_else(|| panic!("a turn at {minute}"));
        let levels = &told.trace.course[place].1;
        assert_eq!(levels.len(), 2, "a drop tank and the engine");
        assert_close(levels[0], tank, &format!("the drop tank at {minute}"));
        assert_close(levels[1], engine, &format!("the engine at {minute}"));
        let (wants, has) = told.trace.lines[place];
        assert_close(wants, 500.0, &format!("wanted at {minute}"));
        assert_close(has, given, &format!("given at {minute}"));
    }
    let (last, levels) = told.trace.course.last().expect("the end of the watch");
    assert_close(*last, 5.0, "the last turn");
    assert_close(levels[0], 1660.0 - 600.0, "what the drop tank holds at the end");
}

#[test]
fn aa02_a_shortfall_is_told_with_the_flow_that_is_left_and_the_levels_there() {
    let told = short_of_draft().told();
    let began = |note: &&shuttle_sim::Note| matches!(note.happening, Happening::ShortfallBegan(_));
    let place = told.trace.notes.iter().position(|note| began(&note)).expect("a shortfall");
    let note = told.trace.notes[place];
    assert_close(note.minute, 2.0 + 340.0 / 300.0, "it begins");
    assert_eq!(note.happening, Happening::ShortfallBegan(200.0));
    assert_eq!(told.trace.levels.len(), 2 * told.trace.notes.len());
    assert_close(told.trace.levels[2 * place], 1660.0 - 200.0 * 340.0 / 300.0, "the drop tank");
    assert_close(told.trace.levels[2 * place + 1], 0.0, "the engine");
}

#[test]
fn aa03_a_site_that_goes_dry_is_told_once() {
    // T1(2000) 0:00, T2(2000) 0:00, both assigned     Pond{1000} 3,000 gal, 2 positions: dry at 0:10 (see e10)
    let pond = |volume| {
        open_dump_site()
            .pond(move |site| (site.positions, site.volume) = (2, volume))
            .tanker("T1", 2000.0, 0.0)
            .tanker("T2", 2000.0, 0.0)
            .every_tanker(|tanker| tanker.fill_site = Some(0))
            .watched(18.0)
    };
    let dry = |world: World| -> Vec<f64> {
        let told = world.told();
        let notes = told.trace.notes.iter();
        notes
            .filter(|one| one.happening == Happening::FillSiteDry(0))
            .map(|one| one.minute)
            .collect()
    };
    assert_eq!(dry(pond(Some(3000.0))), [10.0]);
    assert!(dry(pond(Some(9000.0))).is_empty());
    assert!(dry(pond(None)).is_empty());
    // More runs in than is taken: it never is.
    assert!(dry(pond(Some(9000.0)).pond(|site| site.recharge = 2000.0)).is_empty());
}

#[test]
fn aa04_the_last_run_stays_to_be_looked_at_and_levels_are_noted_if_wanted() {
    let plan = short_of_draft().plan();
    let mut shuttle = Shuttle::new(&plan);
    let run = shuttle.run(Luck::Planned).clone();
    assert_eq!(run.levels.len(), 2 * 6, "minutes 0 to 5");
    assert_eq!(*shuttle.result(), run);
    shuttle.keep_levels(false);
    assert!(shuttle.run(Luck::Planned).levels.is_empty());
    shuttle.keep_levels(true);
    assert_eq!(shuttle.run(Luck::Planned).levels, run.levels);
}

#[test]
fn aa05_levels_by_the_alarms_clock_begin_at_its_first_whole_minute_with_water() {
    // E(1000) there 0:04:30, 100 gpm, watched for 3 min: the minutes 5, 6 and 7 and the end at 7.5.
    let world = |minutes| {
        World::new()
            .no_drop_tank()
            .engine_comes(4.5, 0.0)
            .attack_flow(100.0)
            .tanker("T1", 1000.0, 90.0)
            .watched(minutes)
    };
    let levels = |world: World| {
        let mut shuttle = Shuttle::new(&world.plan());
        shuttle.note_levels_by_alarm();
        shuttle.run(Luck::Planned).levels.clone()
    };
    for (got, right) in levels(world(3.0)).iter().zip([950.0, 850.0, 750.0, 700.0]) {
        assert_close(*got, right, "a level");
    }
    assert_eq!(levels(world(3.0)).len(), 4);
    // Over 2,000 minutes only every second is noted: the first of them is minute 6.
    assert_close(levels(world(2000.0))[0], 850.0, "the level at 0:06");
    assert_close(levels(world(2000.0))[1], 650.0, "the level at 0:08");
}

#[test]
fn aa06_no_step_of_the_attack_flow_is_asked_for_before_the_minute_stated() {
    // E(1000) 100 gpm from 0:00, 300 from 0:02; asked for from 0:03 on: 300 gpm then, 1,000 gal last to 0:06:20.
    let world = World::new()
        .no_drop_tank()
        .attack_steps(&[(0.0, 100.0), (2.0, 300.0)])
        .tanker("T1", 1000.0, 90.0)
        .watched(10.0);
    let mut shuttle = Shuttle::new(&world.plan());
    shuttle.ask_from(3.0);
    let run = shuttle.run(Luck::Planned);
    assert_close(run.wanted, 7.0 * 300.0, "wanted");
    assert_close(run.interruptions[0].start, 3.0 + 1000.0 / 300.0, "short");
    assert_close(run.end, 10.0, "the end of the watch stays");
}

#[test]
fn aa07_each_time_is_drawn_by_the_key_of_its_own_purpose_and_trip() {
    // T1(2000) 0:00, and one-lane stretches near the scene and near the Pond; each of its times is uniform from 1 to 3.
    // What a key gives is asked of the stream of T1 alone: its first number is that of trip 1.
    let some = || TimeTaken::Uniform { low: 1.0, high: 3.0 };
    let world = open_dump_site()
        .tanker("T1", 2000.0, 0.0)
        .handling(|handling| {
            handling.dump_position = some();
            handling.dump_clear = some();
            handling.fill_connect = some();
            handling.fill_disconnect = some();
        })
        .pond(|site| (site.out.time, site.back.time) = (some(), some()))
        .one_lane(Near::Scene, 2.0)
        .one_lane(Near::FillSite(0), 2.0)
        .with(|draft| draft.one_lanes.iter_mut().for_each(|lane| lane.crossing = some()))
        .watched(90.0);
    for replication in 0..5 {
        let told = world.told_with(Luck::Drawn { seed: 7, replication });
        let timed = told.trace.notes.iter().filter_map(|note| match note.happening {
            Happening::Tanker(0, doing) => Some((note.minute, doing)),
            _ => None,
        });
        let timed: Vec<(f64, Doing)> = timed.collect();
        // From the first time that it is clear of the drop tank to the second.
        let leaves = |(_, doing): &(f64, Doing)| matches!(doing, Doing::Clearing(_));
        let first = timed.iter().position(leaves).expect("clear") + 1;
        let drawn = |(_, doing): &(f64, Doing)| {
            !matches!(
                doing,
                Doing::WaitingForRoad
                    | Doing::WaitingToFill(_)
                    | Doing::Filling(_)
                    | Doing::WaitingAtScene
                    | Doing::Dumping(_)
            )
        };
        let lengths = timed[first..].windows(2).filter(|pair| drawn(&pair[0]));
        let lengths: Vec<f64> = lengths.map(|pair| pair[1].0 - pair[0].0).collect();
        let purposes = [
            Purpose::CrossSceneOut,
            Purpose::TravelOut,
            Purpose::CrossSiteOut,
            Purpose::FillConnect,
            Purpose::FillDisconnect,
            Purpose::CrossSiteBack,
            Purpose::TravelBack,
            Purpose::CrossSceneBack,
            Purpose::DumpPosition,
            Purpose::DumpClear,
        ];
        assert!(lengths.len() >= purposes.len(), "a whole cycle: {lengths:?}");
        for (length, purpose) in lengths.iter().zip(purposes) {
            let u = KeyedStream::new(7, replication, "T1").next_uniform(purpose);
            assert!((length - (1.0 + 2.0 * u)).abs() < 1e-8, "{purpose:?}: {length} by {u}");
        }
    }
}

#[test]
fn aa08_whether_a_plan_breaks_is_told_by_the_first_interruption_that_counts() {
    // Short from 0:03:08 on (see above): a break, of 0.1 min and more. Without a shortfall there is none.
    let first = |world: World| Shuttle::new(&world.plan()).first_break(Luck::Planned);
    assert_eq!(first(short_of_draft()), Some(Cause::DraftOrLayTooSmall));
    assert_eq!(first(short_of_draft().draft_limit(500.0).watched(3.0)), None);
    // At 0:03:14 it has lasted 0.1 min. One that is not yet as long as that at the end of the watch is none.
    assert_eq!(first(short_of_draft().watched(3.23)), None);
    assert_eq!(first(short_of_draft().watched(3.24)), Some(Cause::DraftOrLayTooSmall));
    // E(1000) 500 gpm is empty at 0:02, T1(2000) is there 0:05: the lines have water again at 0:05:18, and then
    // no more at 0:09. It is the first of the two that counts.
    let world = World::new().tank_refill(0.0).throttling().tanker("T1", 2000.0, 5.0).watched(12.0);
    assert_eq!(first(world), Some(Cause::NotCome));
}

#[test]
fn aa09_a_shuttle_that_has_run_runs_the_same_again() {
    // T1(2000) 0:00 crosses out from 0:02 to 0:06, and back from 0:18 to 0:22: the watch ends at 0:20 with the stretch
    // taken the other way.
    let plan = World::new()
        .tanker("T1", 2000.0, 0.0)
        .tanker("T2", 2000.0, 1.0)
        .one_lane(Near::Scene, 4.0)
        .watched(20.0)
        .plan();
    let mut shuttle = Shuttle::new(&plan);
    let first = shuttle.run_traced(Luck::Planned);
    assert_eq!(shuttle.run_traced(Luck::Planned), first);
    assert_eq!(*shuttle.run(Luck::Planned), first.0);
}
