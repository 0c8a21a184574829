//! Runs here beside two kinds of peers, in one call: microseconds a run and the ratio.
//!
//! - The plain loop on two general-purpose simulators, which keep the loop and one tank level alone; here the
//!   whole model runs.
//! - The recorded plans in the plain reference in Python (`tests/peers/reference`), which runs the same model.
//!
//! `cargo bench -p bucketline-benches --bench against_peers`; Python with simpy is looked for in
//! `target/peers`, which `tests/run` makes.

use std::hint::black_box;
use std::path::Path;
use std::process::Command;
use std::time::Instant;

use bucketline_benches::{here, plain_loop, plan_in, recorded};
use shuttle_report::batch::{Control, Keep, Runs, run_batch};
use shuttle_sim::Plan;

#[path = "peers/loop_desque.rs"]
mod loop_desque;

/// Runs of the compiled loops; a hundredth of them is enough for simpy.
const RUNS: u64 = 20_000;
/// Runs of the reference in the smaller and the larger of two counts; their difference leaves out starting
/// Python and reading the file.
const OF_REFERENCE: (u64, u64) = (5, 45);
/// The best of so many takes: what other work on the machine does only adds.
const TAKES: u32 = 3;

fn main() {
    let ours = of_ours(&plan_in(&plain_loop()));
    println!("{:<42} {:>10.2} us a run", "plain loop here, whole model", 1e6 * ours);
    let line = |name: &str, theirs: f64, ours: f64| {
        println!("{name:<42} {:>10.2} us a run, {:.2} times ours", 1e6 * theirs, theirs / ours);
    };
    let desque = best(|| {
        let began = Instant::now();
        black_box(loop_desque::run(RUNS));
        began.elapsed().as_secs_f64() / RUNS as f64
    });
    line("plain loop on desque, the loop alone", desque, ours);
    let python = here().join("../target/peers/bin/python");
    if !python.exists() {
        println!("no Python in target/peers; `bash tests/run` makes it");
        return;
    }
    line("plain loop on simpy, the loop alone", best(|| of_simpy(&python)), ours);
    for measured in recorded() {
        let ours = of_ours(&measured.plan());
        println!("{:<42} {:>10.2} us a run", measured.name, 1e6 * ours);
        let (few, many) = OF_REFERENCE;
        let takes = |runs| reference(&python, &measured.file, runs);
        match takes(1) {
            Ok(_) => {
                let theirs = best(|| (sure(takes(many)) - sure(takes(few))) / (many - few) as f64);
                line("  in the plain reference", theirs, ours);
            }
            Err(reason) => println!("  the plain reference does not read it: {reason}"),
        }
    }
}

fn of_ours(plan: &Plan) -> f64 {
    best(|| {
        let runs = Runs { first: 0, count: RUNS, seed: 1, threads: 1 };
        let began = Instant::now();
        black_box(run_batch(plan, runs, Keep::Sums, &Control::default()));
        began.elapsed().as_secs_f64() / RUNS as f64
    })
}

fn of_simpy(python: &Path) -> f64 {
    let runs = RUNS / 100;
    let script = here().join("peers/loop_simpy.py");
    let output = Command::new(python).arg(script).arg(runs.to_string()).output();
    let text = String::from_utf8(output.expect("simpy runs").stdout).expect("text");
    text.trim().parse::<f64>().expect("seconds") / runs as f64
}

fn sure(seconds: Result<f64, String>) -> f64 {
    seconds.expect("what was read once is read again")
}

/// Seconds that the reference takes for so many runs, its start included; or why it cannot.
fn reference(python: &Path, file: &Path, runs: u64) -> Result<f64, String> {
    let script = here().join("../tests/peers/reference/shuttle_reference.py");
    let began = Instant::now();
    let output =
        Command::new(python).arg(script).arg(file).args(["--runs", &runs.to_string()]).output();
    let output = output.expect("Python runs");
    if output.status.success() {
        Ok(began.elapsed().as_secs_f64())
    } else {
        Err(String::from_utf8_lossy(&output.stderr).trim().to_owned())
    }
}

fn best(mut take: impl FnMut() -> f64) -> f64 {
    (0..TAKES).map(|_| take()).fold(f64::INFINITY, f64::min)
}
