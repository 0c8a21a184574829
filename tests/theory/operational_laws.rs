//! The operational laws on every scenario, with what is seen from outside, the trace, on one side and
//! the engine's own accounts on the other (Denning and Buzen 1978; Little 1961). They hold for every
//! run without assumption, so they are held to rounding.

use shuttle_sim::{Doing, Happening, Luck, Part, PartMinutes, Plan, RunResult, Shuttle, Trace};
use std::path::{Path, PathBuf};

fn scenarios() -> Vec<PathBuf> {
    let directory = Path::new(env!("CARGO_MANIFEST_DIR")).join("../scenarios");
    let files = std::fs::read_dir(directory).unwrap().map(|entry| entry.unwrap().path());
    let found: Vec<PathBuf> = files
        .filter(|path| path.extension().is_some_and(|end| end == "json"))
        .filter(|path| !path.ends_with("scenario.schema.json"))
        .collect();
    assert!(found.len() >= 7, "{found:?}");
    found
}

/// One thing a tanker did, from when to when.
#[derive(Debug, Clone, Copy)]
struct Stay {
    doing: Doing,
    from: f64,
    to: f64,
}

fn stays(trace: &Trace, tanker: usize, end: f64) -> Vec<Stay> {
    let mut stays: Vec<Stay> = Vec::new();
    for note in &trace.notes {
        if let Happening::Tanker(who, doing) = note.happening
            && who == tanker
        {
            if let Some(last) = stays.last_mut() {
                last.to = note.minute;
            }
            stays.push(Stay { doing, from: note.minute, to: end });
        }
    }
    stays
}

/// Where a place is held.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Station {
    Fill(usize),
    Dump(usize),
    Intake,
}

fn holds(doing: Doing) -> Option<Station> {
    match doing {
        Doing::Connecting(site) | Doing::Filling(site) | Doing::Disconnecting(site) => {
            Some(Station::Fill(site))
        }
        Doing::Positioning(tank) | Doing::Dumping(tank) | Doing::Clearing(tank) => {
            Some(Station::Dump(tank))
        }
        // Breaking off gives up the position and takes the intake, both at once.
        Doing::BreakingOff(_)
        | Doing::NurseConnecting
        | Doing::PumpingOff
        | Doing::NurseDisconnecting => Some(Station::Intake),
        _ => None,
    }
}

/// A mean number of tankers at a station, times the time watched: how many are there, moment by
/// moment, as the trace tells it.
fn area(trace: &Trace, station: Station, tankers: usize, from: f64, to: f64) -> f64 {
    let mut is_there = vec![false; tankers];
    let (mut there, mut area, mut since) = (0, 0.0, from);
    for note in &trace.notes {
        if let Happening::Tanker(who, doing) = note.happening {
            let minute = note.minute.clamp(from, to);
            area += f64::from(there) * (minute - since);
            since = minute;
            there -= i32::from(is_there[who]);
            is_there[who] = holds(doing) == Some(station);
            there += i32::from(is_there[who]);
        }
    }
    area + f64::from(there) * (to - since)
}

fn differ(what: &str, got: f64, expected: f64) -> Option<String> {
    let off = (got - expected).abs() > 1e-6 * expected.abs().max(1.0);
    off.then(|| format!("{what}: {got}, by the law {expected}"))
}

/// Utilization law: what the engine counts as held is the mean number there times the time.
fn utilization_misses(plan: &Plan, run: &RunResult, trace: &Trace) -> Vec<String> {
    let facts = plan.facts();
    let mut stations = vec![(Station::Intake, run.intake_held)];
    stations.extend(run.fill_held.iter().enumerate().map(|(at, held)| (Station::Fill(at), *held)));
    stations.extend(run.dump_held.iter().enumerate().map(|(at, held)| (Station::Dump(at), *held)));
    let (from, to) = (run.first_water, run.end);
    (stations.into_iter())
        .filter_map(|(station, held)| {
            let law = area(trace, station, facts.tankers.len(), from, to);
            differ(&format!("minutes held at {station:?}"), held, law)
        })
        .collect()
}

/// Little's law, tanker by tanker: a tanker is one customer, so its cycles times the mean minutes of
/// a part are the minutes it spent in that part, from the end of its first trip to that of its last.
fn little_misses(run: &RunResult, trace: &Trace) -> Vec<String> {
    let mut misses = Vec::new();
    for (tanker, record) in run.tankers.iter().enumerate() {
        let stays = stays(trace, tanker, run.end);
        let ends: Vec<f64> = (stays.iter())
            .filter(|stay| matches!(stay.doing, Doing::Clearing(_) | Doing::NurseDisconnecting))
            .filter(|stay| stay.to < run.end - 1e-9)
            .map(|stay| stay.to)
            .collect();
        let whole = ends.len().saturating_sub(1) as f64;
        misses.extend(differ("cycles", f64::from(record.cycles), whole));
        let (Some(first), Some(last)) = (ends.first(), ends.last()) else { continue };
        let mut spent = PartMinutes::default();
        let mut off_duty = 0.0;
        for stay in stays.iter().filter(|stay| stay.from >= *first && stay.to <= *last) {
            match part(stay.doing) {
                Some(part) => spent[part as usize] += stay.to - stay.from,
                None => off_duty += stay.to - stay.from,
            }
        }
        let of_cycle: f64 = record.parts.iter().sum();
        misses.extend(differ("minutes in cycles", of_cycle, last - first - off_duty));
        // A one-lane stretch counts as travel the way it is crossed; the trace does not say which.
        let out_and_back = |parts: &PartMinutes| {
            parts[Part::TravelOut as usize] + parts[Part::TravelBack as usize]
        };
        misses.extend(differ("travel", out_and_back(&record.parts), out_and_back(&spent)));
        for part in Part::ALL {
            if !matches!(part, Part::TravelOut | Part::TravelBack) {
                let at = part as usize;
                misses.extend(differ(part.key(), record.parts[at], spent[at]));
            }
        }
    }
    misses
}

fn part(doing: Doing) -> Option<Part> {
    Some(match doing {
        Doing::Responding | Doing::InRepair | Doing::OutOfService | Doing::StandingBy => {
            return None;
        }
        Doing::WaitingAtScene | Doing::OnDeck => Part::SceneWait,
        Doing::NurseConnecting => Part::NurseConnect,
        Doing::PumpingOff => Part::PumpOff,
        Doing::NurseDisconnecting => Part::NurseDisconnect,
        Doing::Positioning(_) => Part::DumpPosition,
        Doing::Dumping(_) => Part::Dump,
        Doing::Clearing(_) | Doing::BreakingOff(_) => Part::DumpClear,
        Doing::WaitingForRoad => Part::RoadWait,
        Doing::CrossingOneLane | Doing::TravelingOut(_) => Part::TravelOut,
        Doing::WaitingToFill(_) => Part::FillWait,
        Doing::Connecting(_) => Part::FillConnect,
        Doing::Filling(_) => Part::Fill,
        Doing::Disconnecting(_) => Part::FillDisconnect,
        Doing::TravelingBack => Part::TravelBack,
    })
}

/// Calls `look` with every scenario's runs.
fn each_run(look: impl Fn(&str, &Plan, &RunResult, &Trace)) {
    for path in scenarios() {
        let plan = scenario_file::load(&path).unwrap().plan;
        let mut shuttle = Shuttle::new(&plan);
        for replication in 0..50 {
            let (run, trace) = shuttle.run_traced(Luck::Drawn { seed: 11, replication });
            look(&path.display().to_string(), &plan, &run, &trace);
        }
    }
}

#[test]
fn what_is_held_is_how_many_are_there_moment_by_moment() {
    each_run(|name, plan, run, trace| {
        let misses = utilization_misses(plan, run, trace);
        assert!(misses.is_empty(), "{name}: {misses:?}");
    });
}

#[test]
fn cycles_times_mean_minutes_are_the_minutes_spent() {
    each_run(|name, _, run, trace| {
        let misses = little_misses(run, trace);
        assert!(misses.is_empty(), "{name}: {misses:?}");
    });
}

/// What a tanker that pulls clear at this minute still has to deliver, gal.
fn rest_aboard(trace: &Trace, tanker: usize, minute: f64) -> f64 {
    (trace.notes.iter())
        .find_map(|note| match note.happening {
            Happening::RestAboard(who, rest) if who == tanker && note.minute == minute => {
                Some(rest)
            }
            _ => None,
        })
        .unwrap_or(0.0)
}

fn a_site_went_dry(trace: &Trace) -> bool {
    trace.notes.iter().any(|note| matches!(note.happening, Happening::FillSiteDry(_)))
}

/// Forced flow: what left the fill sites is what the tankers came away with, and what they brought
/// is what came on scene with them. No law where a site went dry: fills are cut short then.
fn forced_flow_misses(plan: &Plan, run: &RunResult, trace: &Trace) -> Vec<String> {
    let facts = plan.facts();
    if a_site_went_dry(trace) {
        return vec![];
    }
    let mut came_away = vec![0.0; facts.fill_sites.len()];
    let mut arrived = facts.attack_engine.tank;
    for (tanker, stated) in facts.tankers.iter().enumerate() {
        // It comes full; with what it took last time, and a rest it pulled clear with, afterwards.
        let empty_fill = stated.capacity * (1.0 - stated.residual);
        let full_load = empty_fill * (1.0 - stated.waste);
        let mut aboard = empty_fill;
        let mut before = Doing::Responding;
        for stay in stays(trace, tanker, run.end) {
            match stay.doing {
                // Back from on deck it has not come again.
                Doing::WaitingAtScene if before != Doing::OnDeck => arrived += aboard,
                Doing::Clearing(_) => aboard = rest_aboard(trace, tanker, stay.from),
                Doing::NurseDisconnecting => aboard = 0.0,
                Doing::Disconnecting(site) => {
                    let fill = empty_fill * (1.0 - aboard / full_load);
                    aboard += fill;
                    came_away[site] += fill;
                }
                _ => {}
            }
            before = stay.doing;
        }
    }
    let mut misses: Vec<String> =
        differ("water on scene", run.arrived, arrived).into_iter().collect();
    for (taken, came_away) in run.taken.iter().zip(&came_away) {
        misses.extend(differ("water taken", *taken, *came_away));
    }
    misses
}

#[test]
fn the_same_loads_pass_every_station() {
    each_run(|name, plan, run, trace| {
        let misses = forced_flow_misses(plan, run, trace);
        assert!(misses.is_empty(), "{name}: {misses:?}");
    });
}

/// One load more in the accounts than the trace tells of, and tankers 2% larger than they are.
#[test]
fn loads_that_passed_no_station_are_found_out() {
    for path in scenarios() {
        let plan = scenario_file::load(&path).unwrap().plan;
        let mut shuttle = Shuttle::new(&plan);
        let (run, trace) = (0..50)
            .map(|replication| shuttle.run_traced(Luck::Drawn { seed: 11, replication }))
            .find(|(_, trace)| !a_site_went_dry(trace))
            .unwrap();
        let name = path.display();
        assert!(forced_flow_misses(&plan, &run, &trace).is_empty(), "{name}");
        let mut altered = run.clone();
        altered.taken[0] += plan.facts().tankers[0].capacity;
        assert!(!forced_flow_misses(&plan, &altered, &trace).is_empty(), "{name}: a load more");
        let mut facts = plan.facts().clone();
        facts.tankers.iter_mut().for_each(|tanker| tanker.capacity *= 1.02);
        let larger = Plan::check(facts).unwrap();
        assert!(!forced_flow_misses(&larger, &run, &trace).is_empty(), "{name}: larger tankers");
    }
}

/// The accounts of a plan with a fill 2% longer, held against the trace of the plan as it is.
#[test]
fn accounts_of_another_plan_are_found_out() {
    for path in scenarios() {
        let plan = scenario_file::load(&path).unwrap().plan;
        let mut facts = plan.facts().clone();
        for tanker in &mut facts.tankers {
            let disconnect = &mut tanker.handling.fill_disconnect;
            *disconnect = disconnect.scaled(1.02);
        }
        let slower = Plan::check(facts).unwrap();
        let luck = Luck::Drawn { seed: 11, replication: 0 };
        let trace = Shuttle::new(&plan).run_traced(luck).1;
        let run = Shuttle::new(&slower).run(luck).clone();
        let name = path.display();
        assert!(!utilization_misses(&plan, &run, &trace).is_empty(), "{name}: places held");
        assert!(!little_misses(&run, &trace).is_empty(), "{name}: minutes of the cycles");
    }
}
