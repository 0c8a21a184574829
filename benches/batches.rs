//! Runs a second and events a second on every scenario, on one core and on all.
//!
//! `cargo bench -p bucketline-benches` prints one line a scenario. Times on a busy machine vary by
//! a fifth and more; compare lines of one call with each other, not with another day's.

use std::path::Path;
use std::time::Instant;

use shuttle_report::batch::{Control, Keep, Runs, run_batch};

const RUNS: u64 = 20_000;

fn main() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../scenarios");
    let mut files: Vec<_> = std::fs::read_dir(&folder)
        .expect("the scenarios folder")
        .filter_map(|entry| Some(entry.ok()?.path()))
        .filter(|path| path.extension().is_some_and(|ending| ending == "json"))
        .filter(|path| !path.to_string_lossy().ends_with(".schema.json"))
        .collect();
    files.sort();
    let cores = std::thread::available_parallelism().map_or(1, usize::from);
    println!("{RUNS} runs each");
    for file in files {
        let scenario = bucketline::scenario_file::load(&file).expect("a sound scenario");
        let timed = |threads| {
            let runs = Runs { first: 0, count: RUNS, seed: 1, threads };
            let began = Instant::now();
            let batch = run_batch(&scenario.plan, runs, Keep::Sums, &Control::default());
            (began.elapsed().as_secs_f64(), batch.tally.events)
        };
        let (one, events) = timed(1);
        let (all, _) = timed(cores);
        println!(
            "{:<36} {:>7.2} us a run, {:>6.1} ns an event, {cores} cores {:.2} times one",
            file.file_stem().unwrap_or_default().to_string_lossy(),
            1e6 * one / RUNS as f64,
            1e9 * one / events as f64,
            one / all
        );
    }
}
