//! Drill logs made from simulated shuttles whose every moment is known: what is read from the log must be what
//! happened, waiting told apart from work, and the parameters come back within their error.

use std::path::Path;

use answers::question::drill::{course, timed};
use drill_log::{Course, Log, Measured, Step, measure, open_text, read};
use proptest::prelude::*;
use proptest::test_runner::TestCaseError;
use scenario_file::Scenario;
use shuttle_sim::{Doing, Happening, Luck, Shuttle, Trace};

/// A drill to be run: numbers of a scenario.
#[derive(Debug, Clone)]
struct Drill {
    tankers: usize,
    fill_positions: u32,
    dump_positions: u32,
    drop_tanks: usize,
    flow: f64,
    connect: f64,
    disconnect: f64,
    position: f64,
    clear: f64,
    drive: f64,
    attack_flow: f64,
    seed: u64,
}

const CV: f64 = 0.25;

fn drills() -> impl Strategy<Value = Drill> {
    let places = (2..6_usize, 1..4_u32, 1..3_u32, 1..3_usize);
    let times = (600.0..1_000.0, 0.8..2.0, 0.4..1.0, 0.5..1.2, 0.2..0.5, 2.0..6.0);
    (places, times, 300.0..1_200.0, 0..1_000_u64).prop_map(|(places, times, attack_flow, seed)| {
        Drill {
            tankers: places.0,
            fill_positions: places.1,
            dump_positions: places.2,
            drop_tanks: places.3,
            flow: times.0,
            connect: times.1,
            disconnect: times.2,
            position: times.3,
            clear: times.4,
            drive: times.5,
            attack_flow,
            seed,
        }
    })
}

impl Drill {
    fn scenario(&self) -> Scenario {
        let time = |mean: f64| format!(r#"{{"mean": {mean}, "cv": {CV}}}"#);
        let tank = |place: usize| {
            let transfer = if place > 0 { r#", "transfer": 600"# } else { "" };
            format!(
                r#"{{"capacity": 4000, "unusable": 100, "response": 0, "setup": 0, "dump_positions": {}{transfer}}}"#,
                self.dump_positions
            )
        };
        let tankers: Vec<String> = (0..self.tankers)
            .map(|place| {
                let capacity = 1_800 + 300 * place;
                format!(
                    r#"{{"name": "Tanker {}", "capacity": {capacity}, "response": {}, "waste": 0.05}}"#,
                    place + 1,
                    2 + place
                )
            })
            .collect();
        let tanks: Vec<String> = (0..self.drop_tanks).map(tank).collect();
        let text = format!(
            r#"{{"title": "A drill", "units": "us",
            "incident": {{"duration": 240, "attack_flow": {}, "reserve": 100}},
            "attack_engine": {{"name": "Engine", "tank": 1000, "response": 0, "water_on": 0}},
            "supply": {{"nurse": false, "setup": 0, "reprime": 1}},
            "drop_tanks": [{}], "tankers": [{}],
            "fill_sites": [{{"name": "Pond", "flow": {}, "positions": {}, "ready": 0,
              "out": {{"minutes": {drive}}}, "back": {{"minutes": {drive}}}}}],
            "handling": {{"fill_connect": {}, "fill_disconnect": {}, "dump_position": {}, "dump_clear": {}}}}}"#,
            self.attack_flow,
            tanks.join(", "),
            tankers.join(", "),
            self.flow,
            self.fill_positions,
            time(self.connect),
            time(self.disconnect),
            time(self.position),
            time(self.clear),
            drive = time(self.drive),
        );
        scenario_file::read(Path::new("drill.json"), &text).expect("a scenario")
    }
}

/// What happened to one load: the stamps, and the truth that no recorder sees.
#[derive(Debug, Clone, Default)]
struct Truth {
    tanker: usize,
    at: [Option<f64>; 8],
    began_connecting: Option<f64>,
    began_positioning: Option<f64>,
}

/// The trips of a run, as a recorder at both places who misses nothing would see them.
fn trips(trace: &Trace, tankers: usize) -> Vec<Truth> {
    let mut open: Vec<Option<Truth>> = vec![None; tankers];
    let mut all = Vec::new();
    for note in &trace.notes {
        let Happening::Tanker(tanker, doing) = note.happening else { continue };
        let trip = open[tanker].get_or_insert_with(|| Truth { tanker, ..Truth::default() });
        let at = Some(note.minute);
        match doing {
            Doing::WaitingToFill(_) => trip.at[0] = at,
            Doing::Connecting(_) => trip.began_connecting = at,
            Doing::Filling(_) => trip.at[1] = at,
            Doing::Disconnecting(_) => trip.at[2] = at,
            Doing::TravelingBack => trip.at[3] = at,
            Doing::WaitingAtScene => trip.at[4] = at,
            Doing::Positioning(_) => trip.began_positioning = at,
            Doing::Dumping(_) => trip.at[5] = at,
            Doing::Clearing(_) => trip.at[6] = at,
            Doing::TravelingOut(_) => {
                trip.at[7] = at;
                all.extend(open[tanker].take());
            }
            _ => {}
        }
    }
    all.extend(open.into_iter().flatten().filter(|trip| trip.at.iter().flatten().count() > 1));
    all
}

/// The log of these trips, times written to so many seconds.
fn written(trips: &[Truth], grain: f64) -> String {
    let mut text = String::from(
        "tanker,arrived at fill,connected,full,left fill,arrived at scene,started dump,empty,left scene\n",
    );
    for trip in trips {
        text.push_str(&format!("Tanker {}", trip.tanker + 1));
        for time in trip.at {
            text.push(',');
            if let Some(minute) = time {
                // The drill begins at ten in the evening, so that it goes on past midnight.
                let seconds = 22.0 * 3_600.0 + 60.0 * minute;
                let seconds = (seconds / grain).round() * grain;
                let whole = seconds.floor() as u64;
                let (hours, minutes) = (whole / 3_600 % 24, whole / 60 % 60);
                if grain >= 60.0 {
                    text.push_str(&format!("{hours}:{minutes:02}"));
                } else {
                    let rest = seconds - 60.0 * (whole / 60) as f64;
                    text.push_str(&format!("{hours}:{minutes:02}:{rest:06.3}"));
                }
            }
        }
        text.push('\n');
    }
    text
}

fn run(drill: &Drill) -> (Scenario, Course, Vec<Truth>) {
    let scenario = drill.scenario();
    let luck = Luck::Drawn { seed: drill.seed, replication: 0 };
    let (_, trace) = Shuttle::new(&scenario.plan).run_traced(luck);
    let course = course(&scenario);
    let trips = trips(&trace, drill.tankers);
    (scenario, course, trips)
}

fn measured(text: &str, course: &Course) -> Result<(Log, Measured), TestCaseError> {
    let table =
        open_text(text.as_bytes()).map_err(|error| TestCaseError::fail(error.to_string()))?;
    let log =
        read(&table, course).map_err(|error| TestCaseError::fail(format!("{error}\n{text}")))?;
    let measured = measure(&log, course);
    Ok((log, measured))
}

/// Line `n` of the text is trip `n - 2`.
fn truth_of(trips: &[Truth], row: usize) -> &Truth {
    &trips[row - 2]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    /// Law: a reading of a whole log is what happened, to the written thousandth of a second, however long the
    /// tanker stood in line before; and with one dump position and one for filling nothing is left untold.
    #[test]
    fn what_is_read_as_work_is_the_work(drill in drills()) {
        let (_, course, trips) = run(&drill);
        let (_, measured) = measured(&written(&trips, 0.001), &course)?;
        prop_assert!(measured.crowds.is_empty(), "{:?}", measured.crowds);
        let mut read = 0;
        for one in &measured.readings {
            let truth = truth_of(&trips, one.row);
            let span = |from: Option<f64>, to: usize| Some(truth.at[to]? - from?);
            let expected = match one.step {
                Step::FillConnect => span(truth.began_connecting, 1),
                Step::DumpPosition => span(truth.began_positioning, 5),
                Step::FillDisconnect => span(truth.at[2], 3),
                Step::DumpClear => span(truth.at[6], 7),
                Step::DriveBack => span(truth.at[3], 4),
                _ => continue,
            };
            let expected = expected.expect("it happened");
            prop_assert!((one.minutes - expected).abs() < 2e-4, "{:?} of {} min", one, expected);
            read += 1;
        }
        prop_assert!(read > 10);
        if drill.dump_positions == 1 && drill.drop_tanks == 1 {
            prop_assert!(measured.untold.iter().all(|one| one.step != Step::DumpPosition));
        }
        if drill.fill_positions == 1 {
            prop_assert!(measured.untold.iter().all(|one| one.step != Step::FillConnect), "{:?}", measured.untold);
        }
        // A site that one tanker draws empty fills each in capacity / flow, whatever it waited for the water.
        for one in measured.readings.iter().filter(|one| one.step == Step::Fill) {
            let capacity = 1_800.0 + 300.0 * one.tanker as f64;
            prop_assert!((one.minutes - capacity / drill.flow).abs() < 2e-4, "{:?}", one);
        }
    }

    /// The parameters come back: means within 4.5 standard errors of what was drawn (of ten steps in 96 drills
    /// one in 150,000 would be off by that much, were they normal), and the fill rate to a tenth.
    #[test]
    fn parameters_come_back_within_their_error(drill in drills()) {
        let (scenario, course, trips) = run(&drill);
        let (log, _) = measured(&written(&trips, 1.0), &course)?;
        let timed = timed(&scenario, log, &[]);
        for (step, mean) in [
            (Step::FillConnect, drill.connect),
            (Step::FillDisconnect, drill.disconnect),
            (Step::DriveOut, drill.drive),
            (Step::DriveBack, drill.drive),
        ] {
            let Some(of) = timed.figures(step, None, None) else { continue };
            let error = mean * CV / (of.readings as f64).sqrt();
            prop_assert!((of.mean - mean).abs() < 5.0 * error + 0.01, "{:?}: {:?} of {}", step, of, mean);
        }
        let flow = timed.values.iter().find(|value| value.put.place == "fill_sites[0].flow");
        if let Some(value) = flow {
            // With how far it may be off, or bare where the readings do not differ.
            let put = &value.put.value;
            let got = put.get("value").unwrap_or(put).as_f64().expect("a number");
            prop_assert!((got - drill.flow).abs() < 15.0, "{} of {}", got, drill.flow);
        }
    }

    /// A recorder who writes whole minutes, misses one time in five (but no tanker altogether) and hands in his rows in no order: nothing
    /// that was waited is read as work beyond the minute's rounding, and means come back within a larger error.
    #[test]
    fn a_log_with_gaps_in_whole_minutes_still_tells_no_waiting_as_work(
        drill in drills(),
        missing in proptest::collection::vec(0..5_u8, 4_000).no_shrink(),
        order in any::<u64>(),
    ) {
        let (_, course, mut trips) = run(&drill);
        let mut kinds = missing.into_iter();
        for trip in &mut trips {
            for there in [0..4, 4..8] {
                let whole = trip.at;
                for time in &mut trip.at[there.clone()] {
                    *time = time.filter(|_| kinds.next() != Some(0));
                }
                if trip.at[there.clone()].iter().all(Option::is_none) {
                    // He sees every tanker at every place at least once.
                    let seen = there.into_iter().find(|place| whole[*place].is_some());
                    if let Some(place) = seen {
                        trip.at[place] = whole[place];
                    }
                }
            }
        }
        // No order: by a key of each place that depends on the drawn number alone.
        let mut keyed: Vec<(u64, Truth)> = (trips.into_iter().enumerate())
            .map(|(place, trip)| ((place as u64 + 1).wrapping_mul(order | 1).rotate_left(17), trip))
            .collect();
        keyed.sort_by_key(|(key, _)| *key);
        let trips: Vec<Truth> = keyed.into_iter().map(|(_, trip)| trip).collect();
        let (log, measured) = measured(&written(&trips, 60.0), &course)?;
        prop_assert_eq!(log.grain, 1.0);
        for one in &measured.readings {
            let truth = truth_of(&trips, one.row);
            let expected = match one.step {
                Step::FillConnect => truth.began_connecting.zip(truth.at[1]),
                Step::DumpPosition => truth.began_positioning.zip(truth.at[5]),
                _ => continue,
            };
            if let Some((from, to)) = expected {
                prop_assert!(one.minutes <= to - from + 1.0 + 1e-6, "{:?} of {} min", one, to - from);
            }
        }
        let connecting: Vec<f64> = (measured.readings.iter())
            .filter(|one| one.step == Step::FillConnect)
            .map(|one| one.minutes)
            .collect();
        if connecting.len() >= 5 {
            let count = connecting.len() as f64;
            let mean = connecting.iter().sum::<f64>() / count;
            let error = ((drill.connect * CV).powi(2) + log.reading_error().powi(2)).sqrt() / count.sqrt();
            prop_assert!((mean - drill.connect).abs() < 5.0 * error + 0.05, "{} of {}", mean, drill.connect);
        }
    }
}

/// The engine's own gravity dump gives the stated rate back.
#[test]
fn the_dump_rate_comes_back_with_either_curve() {
    for (curve, residual) in [("steady", 0.0), ("gravity", 0.0), ("gravity", 0.03)] {
        let text = format!(
            r#"{{"title": "A drill", "units": "us",
            "incident": {{"duration": 120, "attack_flow": 300, "reserve": 100}},
            "attack_engine": {{"name": "Engine", "tank": 1000, "response": 0, "water_on": 0}},
            "supply": {{"nurse": false, "setup": 0, "reprime": 1}},
            "drop_tanks": [{{"capacity": 20000, "unusable": 100, "response": 0, "setup": 0}}],
            "tankers": [{{"name": "Tanker 1", "capacity": 3000, "response": 2, "dump_rate": 870,
                "dump_curve": "{curve}", "residual": {residual}, "waste": 0}}],
            "fill_sites": [{{"name": "Pond", "flow": 1000, "ready": 0, "out": {{"minutes": 3}}, "back": {{"minutes": 3}}}}]}}"#
        );
        let scenario = scenario_file::read(Path::new("drill.json"), &text).expect("a scenario");
        let (_, trace) = Shuttle::new(&scenario.plan).run_traced(Luck::Planned);
        let course = course(&scenario);
        let (log, _) = measured(&written(&trips(&trace, 1), 0.001), &course).expect("a log");
        let timed = timed(&scenario, log, &[]);
        let rate = timed.values.iter().find(|value| value.put.place == "tankers[0].dump_rate");
        let rate = &rate.expect("a rate").put.value;
        assert_eq!(*rate.get("value").unwrap_or(rate), 870, "{curve} {residual}");
    }
}
