//! Instructions a run, counted under valgrind: the same on a busy machine as on a free one.
//!
//! `cargo bench -p bucketline-benches --bench instructions` prints one line a scenario beside the
//! record in `instructions.txt`; `-- --record` writes the record anew. It needs valgrind.

use std::path::Path;
use std::process::Command;

use bucketline_benches::{here, plan_in, recorded};
use shuttle_report::batch::{Control, Keep, Runs, run_batch};

/// Runs in the smaller and the larger of two counts; their difference leaves out reading the file.
const RUNS: (u64, u64) = (200, 1200);

fn main() {
    let arguments: Vec<String> = std::env::args().collect();
    if let Some(place) = arguments.iter().position(|argument| argument == "--only-run") {
        let runs = arguments[place + 2].parse().expect("a number of runs");
        println!("{}", run(Path::new(&arguments[place + 1]), runs));
        return;
    }
    let record = here().join("instructions.txt");
    let before = std::fs::read_to_string(&record).unwrap_or_default();
    let mut text = String::new();
    println!("{:<30} {:>12} {:>10} {:>9}", "instructions", "a run", "an event", "recorded");
    for measured in recorded() {
        let (name, file) = (&measured.name, &measured.file);
        let events = (run(file, RUNS.1) - run(file, RUNS.0)) as f64;
        let instructions = (count(file, RUNS.1) - count(file, RUNS.0)) as f64;
        let a_run = instructions / (RUNS.1 - RUNS.0) as f64;
        let before: Option<f64> = (before.lines())
            .filter_map(|line| line.split_once(' '))
            .find(|(other, _)| other == name)
            .and_then(|(_, number)| number.trim().parse().ok());
        let ratio = before.map_or_else(String::new, |before| format!("{:.3}", a_run / before));
        println!("{name:<30} {a_run:>12.0} {:>10.0} {ratio:>9}", instructions / events);
        text.push_str(&format!("{name} {a_run:.0}\n"));
    }
    if arguments.iter().any(|argument| argument == "--record") {
        std::fs::write(record, text).expect("the record can be written");
    }
}

/// Runs it on one thread; returns the events.
fn run(file: &Path, runs: u64) -> u64 {
    let runs = Runs { first: 0, count: runs, seed: 1, threads: 1 };
    let tally = run_batch(&plan_in(file), runs, Keep::Sums, &Control::default()).tally;
    tally.details.expect("kept").events
}

fn count(file: &Path, runs: u64) -> u64 {
    let output = Command::new("valgrind")
        .args(["--tool=callgrind", "--callgrind-out-file=/dev/null"])
        .arg(std::env::current_exe().expect("this program"))
        .arg("--only-run")
        .arg(file)
        .arg(runs.to_string())
        .output()
        .expect("valgrind runs");
    let told = String::from_utf8_lossy(&output.stderr).into_owned();
    let counted =
        told.lines().find_map(|line| line.split_once("Collected :")?.1.trim().parse().ok());
    counted.unwrap_or_else(|| panic!("no count in what valgrind told:\n{told}"))
}
