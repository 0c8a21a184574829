//! CPU seconds of every answer on every scenario, by running the release program as a person would: charts
//! and all, each command at its defaults.
//!
//! `cargo build --release -p bucketline`, then `cargo bench -p bucketline-benches --bench answers`. After
//! `--`: `--before PROGRAM` runs another build of the program too and prints the ratio; `--only WORD` keeps
//! the commands and scenarios with that word. Times on a busy machine vary by a fifth and more, and CPU
//! seconds are of all threads together. Linux only: it reads `/proc`.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

const COMMANDS: [&str; 10] =
    ["check", "replay", "lose", "size", "risk", "compare", "levers", "request", "grade", "reach"];
/// Commands that draw no chart.
const NO_CHART: [&str; 2] = ["check", "grade"];

fn main() {
    let arguments: Vec<String> = std::env::args().collect();
    let after = |flag: &str| {
        let place = arguments.iter().position(|argument| argument == flag)?;
        arguments.get(place + 1).cloned()
    };
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    let now = here.join("../target/release/bucketline");
    let before = after("--before").map(PathBuf::from);
    let only = after("--only").unwrap_or_default();
    let charts = std::env::temp_dir().join("bucketline-answers");
    println!("{:<32} {:<8} {:>8} {:>8} {:>6}", "scenario", "command", "before", "now", "ratio");
    for scenario in scenarios(&here.join("../scenarios")) {
        let name = scenario.file_stem().unwrap_or_default().to_string_lossy().into_owned();
        for command in COMMANDS {
            if !name.contains(&only) && !command.contains(&only) {
                continue;
            }
            let Some(seconds) = cpu_seconds(&now, command, &scenario, &charts) else { continue };
            let before = (before.as_ref())
                .and_then(|program| cpu_seconds(program, command, &scenario, &charts));
            let told = before.map_or_else(String::new, |before| format!("{before:.2}"));
            let ratio = before
                .map_or_else(String::new, |before| format!("{:.2}", seconds / before.max(0.01)));
            println!("{name:<32} {command:<8} {told:>8} {seconds:>8.2} {ratio:>6}");
        }
    }
}

/// The scenarios of a folder and those of its drills.
fn scenarios(folder: &Path) -> Vec<PathBuf> {
    let mut files: Vec<PathBuf> = [folder.to_owned(), folder.join("drills")]
        .iter()
        .flat_map(|folder| std::fs::read_dir(folder).expect("the scenarios folder"))
        .filter_map(|entry| Some(entry.ok()?.path()))
        .filter(|path| path.extension().is_some_and(|end| end == "json"))
        .filter(|path| !path.to_string_lossy().contains("schema"))
        .collect();
    files.sort();
    files
}

/// CPU seconds of one answer; `None` where the scenario does not ask for it.
fn cpu_seconds(program: &Path, command: &str, scenario: &Path, charts: &Path) -> Option<f64> {
    let before = of_children();
    let mut run = Command::new(program);
    run.arg(command).arg(scenario).stdout(Stdio::null()).stderr(Stdio::null());
    if !NO_CHART.contains(&command) {
        run.arg("--out").arg(charts);
    }
    let ended = run.status().expect("the program can be run: build it first");
    ended.success().then(|| of_children() - before)
}

/// CPU seconds of all children that have ended: the sum of "cutime" and "cstime", in hundredths (proc(5)).
fn of_children() -> f64 {
    let stat = std::fs::read_to_string("/proc/self/stat").expect("Linux");
    let after_the_name = stat.rsplit_once(')').expect("a name in brackets").1;
    let fields: Vec<&str> = after_the_name.split_whitespace().collect();
    let ticks = |place: usize| fields[place].parse::<f64>().expect("ticks");
    // The name is the second field, so the sixteenth and seventeenth come here as 13 and 14.
    (ticks(13) + ticks(14)) / 100.0
}
