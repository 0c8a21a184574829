//! Runs a second and events a second on every scenario, on one core and on all; then the cost of an
//! event as the number of tankers grows.
//!
//! `cargo bench -p bucketline-benches` prints one line a scenario. Times on a busy machine vary by
//! a fifth and more; compare lines of one call with each other, not with another day's.

use std::path::{Path, PathBuf};
use std::time::Instant;

use bucketline_benches::{here, plain_loop, plan_in};
use shuttle_report::batch::{Control, Keep, Runs, run_batch};
use shuttle_report::variation::with_fleet_of;
use shuttle_sim::Plan;

const RUNS: u64 = 100_000;

fn main() {
    let here = here();
    let mut files =
        [scenarios(&here.join("scenarios")), scenarios(&here.join("../scenarios"))].concat();
    files.sort_by_key(|file| file.components().count());
    let cores = std::thread::available_parallelism().map_or(1, usize::from);
    println!("{RUNS} runs each");
    for file in &files {
        let plan = plan_in(file);
        let (one, events) = timed(&plan, RUNS, 1);
        let (all, _) = timed(&plan, RUNS, cores);
        println!(
            "{:<36} {:>7.2} us a run, {:>9.0} runs/s, {:>5.0} events a run, {:>6.1} ns an event, \
             {:>5.2} M events/s, {cores} cores {:.2} times one",
            file.file_stem().unwrap_or_default().to_string_lossy(),
            1e6 * one / RUNS as f64,
            RUNS as f64 / one,
            events as f64 / RUNS as f64,
            1e9 * one / events as f64,
            1e-6 * events as f64 / one,
            one / all
        );
    }
    let plain_loop = plan_in(&plain_loop());
    type Positions = fn(usize) -> u32;
    let ways: [(&str, Option<Positions>); 3] = [
        ("more tankers, nothing else", None),
        ("a position for every three tankers at either end", Some(third_of)),
        ("the same, two at least", Some(|tankers| third_of(tankers).max(2))),
    ];
    for (way, positions) in ways {
        println!("the plain loop with {way}");
        let mut of_two = None;
        for tankers in [2, 6, 20, 60, 200] {
            let runs = RUNS / tankers as u64;
            let plan = with_tankers(&plain_loop, tankers, positions);
            let (seconds, events) = timed(&plan, runs, 1);
            let an_event = 1e9 * seconds / events as f64;
            println!(
                "{tankers:>4} tankers {:>7.0} events a run, {an_event:>6.1} ns an event, {:.2} times that with two",
                events as f64 / runs as f64,
                an_event / *of_two.get_or_insert(an_event),
            );
        }
    }
}

fn scenarios(folder: &Path) -> Vec<PathBuf> {
    let mut files: Vec<PathBuf> = std::fs::read_dir(folder)
        .expect("the scenarios folder")
        .filter_map(|entry| Some(entry.ok()?.path()))
        .filter(|path| path.extension().is_some_and(|ending| ending == "json"))
        .filter(|path| !path.to_string_lossy().ends_with(".schema.json"))
        .collect();
    files.sort();
    files
}

/// Seconds and events; the best of some takes, as other work on the machine only adds.
fn timed(plan: &Plan, count: u64, threads: usize) -> (f64, u64) {
    let runs = Runs { first: 0, count, seed: 1, threads };
    let take = || {
        let began = Instant::now();
        let batch = run_batch(plan, runs, Keep::Sums, &Control::default());
        (began.elapsed().as_secs_f64(), batch.tally.details.expect("kept").events)
    };
    (0..3).map(|_| take()).min_by(|a, b| a.0.total_cmp(&b.0)).expect("a take")
}

fn third_of(tankers: usize) -> u32 {
    tankers.div_ceil(3) as u32
}

/// So many tankers; where positions are told, so many at either end, the fill site's flow in proportion to
/// them and the attack flow to the tankers.
fn with_tankers(plan: &Plan, tankers: usize, positions: Option<fn(usize) -> u32>) -> Plan {
    let mut facts = with_fleet_of(plan, tankers).expect("a plan").facts().clone();
    if let Some(positions) = positions {
        let positions = positions(tankers);
        facts.fill_sites[0].positions = positions;
        facts.fill_sites[0].flow *= f64::from(positions);
        facts.drop_tanks[0].dump_positions = positions;
        facts.incident.attack_flow[0].flow *= f64::from(third_of(tankers)) / 2.0;
    }
    Plan::check(facts).expect("a plan")
}
