//! The plain loop here and on two general-purpose simulators, in one call: microseconds a run and the
//! ratio. The peers keep only a tank level; here the whole model runs.
//!
//! `cargo bench -p bucketline-benches --bench against_peers`; simpy is looked for in `target/peers`,
//! which `tests/run` makes.

use std::hint::black_box;
use std::path::Path;
use std::process::Command;
use std::time::Instant;

use shuttle_report::batch::{Control, Keep, Runs, run_batch};

#[path = "peers/loop_desque.rs"]
mod loop_desque;

/// Runs of the compiled loops; a hundredth of them is enough for the other.
const RUNS: u64 = 20_000;
/// The best of so many takes: what other work on the machine does only adds.
const TAKES: u32 = 5;

fn main() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR"));
    let file = folder.join("scenarios/plain_loop_six_tankers.json");
    let scenario = scenario_file::load(&file).expect("a sound scenario");
    let ours = best(|| {
        let runs = Runs { first: 0, count: RUNS, seed: 1, threads: 1 };
        let began = Instant::now();
        black_box(run_batch(&scenario.plan, runs, Keep::Sums, &Control::default()));
        began.elapsed().as_secs_f64() / RUNS as f64
    });
    let desque = best(|| {
        let began = Instant::now();
        black_box(loop_desque::run(RUNS));
        began.elapsed().as_secs_f64() / RUNS as f64
    });
    println!("{:<28} {:>8.2} us a run", "bucketline, whole model", 1e6 * ours);
    let line = |name: &str, theirs: f64| {
        println!("{name:<28} {:>8.2} us a run, {:.2} times ours", 1e6 * theirs, theirs / ours);
    };
    line("desque, the loop alone", desque);
    let python = folder.join("../target/peers/bin/python");
    let simpy = || {
        let runs = RUNS / 100;
        let script = folder.join("peers/loop_simpy.py");
        let output = Command::new(&python).arg(script).arg(runs.to_string()).output().ok()?;
        let seconds: f64 = String::from_utf8_lossy(&output.stdout).trim().parse().ok()?;
        Some(seconds / runs as f64)
    };
    match simpy() {
        Some(_) => line("simpy, the loop alone", best(|| simpy().unwrap_or(f64::INFINITY))),
        None => println!("simpy: not found in target/peers; `bash tests/run` makes it"),
    }
}

fn best(mut take: impl FnMut() -> f64) -> f64 {
    (0..TAKES).map(|_| take()).fold(f64::INFINITY, f64::min)
}
