//! Thousands of files with a few things changed each: whatever comes, it is read or refused in good order, and
//! what is read runs.
//!
//! Each run of the tests tries 2,000. More by hand, each file known by its number:
//!
//! ```text
//! BUCKETLINE_MUTATIONS=200000 cargo test --release --test mutations
//! BUCKETLINE_MUTATIONS=1234..1235 cargo test --test mutations    # one file again
//! ```

mod mutator;

use std::fs;
use std::ops::Range;
use std::panic::catch_unwind;
use std::path::{Path, PathBuf};

use mutator::mutated;
use scenario_file::{FileMistake, STARTER, Scenario, ScenarioError, harmless, read};
use shuttle_sim::{Luck, Shuttle};

/// Files tried in each run of the tests.
const EACH_TIME: u64 = 2_000;

/// The texts that are changed: every scenario that comes with the program, the starter, the buildings.
fn originals() -> Vec<String> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../scenarios");
    let mut files: Vec<PathBuf> = ["", "drills", "buildings"]
        .into_iter()
        .flat_map(|folder| fs::read_dir(root.join(folder)).expect("the scenarios are there"))
        .map(|entry| entry.expect("an entry").path())
        .filter(|file| file.to_string_lossy().ends_with(".json"))
        .filter(|file| !file.to_string_lossy().ends_with(".schema.json"))
        .collect();
    files.sort();
    let texts = files.iter().map(|file| fs::read_to_string(file).expect("a text"));
    texts.chain([STARTER.to_owned()]).collect()
}

fn numbers() -> Range<u64> {
    let Ok(asked) = std::env::var("BUCKETLINE_MUTATIONS") else { return 0..EACH_TIME };
    let number = |text: &str| text.parse().expect("a number, or two with .. between");
    match asked.split_once("..") {
        Some((from, to)) => number(from)..number(to),
        None => 0..number(&asked),
    }
}

#[test]
fn every_mutated_file_is_read_or_refused_with_lines_and_cures() {
    let originals = originals();
    assert!(originals.len() > 15, "only {} files", originals.len());
    let (mut taken, mut refused, mut mistakes) = (0, 0, 0);
    for number in numbers() {
        let text = mutated(&originals, number);
        let path = Path::new("mutated.json");
        let answer = catch_unwind(|| read(path, &text));
        match answer.unwrap_or_else(|_| panic!("file {number} panics: {text}")) {
            Ok(scenario) => {
                taken += 1;
                runs(&scenario, number);
            }
            Err(ScenarioError::Wrong(wrong)) => {
                refused += 1;
                mistakes += wrong.list.len();
                let told = wrong.to_string();
                assert!(
                    told.contains("cure: ") && told.contains("mutated.json:"),
                    "file {number}: {told}"
                );
                assert_eq!(told, harmless(&told), "file {number} steers the terminal");
                assert!(!wrong.list.is_empty(), "file {number}");
                wrong.list.iter().for_each(|mistake| is_complete(mistake, &text, number));
            }
            Err(other) => panic!("file {number}: {other}"),
        }
    }
    println!("{taken} read, {refused} refused with {mistakes} mistakes");
    // The mutations are neither too mild nor too wild to try both.
    if numbers() == (0..EACH_TIME) {
        assert!(
            taken > EACH_TIME / 10 && refused > EACH_TIME / 3,
            "{taken} read, {refused} refused"
        );
    }
}

fn is_complete(mistake: &FileMistake, text: &str, number: u64) {
    let lines = text.split('\n').count();
    assert!((1..=lines).contains(&mistake.line), "file {number}: {mistake:?}");
    assert!(mistake.column >= 1, "file {number}: {mistake:?}");
    assert!(!mistake.problem.in_file().trim().is_empty(), "file {number}: {mistake:?}");
    assert!(mistake.cure.in_file().trim().len() > 3, "file {number}: {mistake:?}");
}

/// A plan that was taken runs, and all that comes out is a number.
fn runs(scenario: &Scenario, number: u64) {
    let plans = scenario.options.iter().map(|option| &option.plan).chain([&scenario.plan]);
    for plan in plans {
        let run = || Shuttle::new(plan).run(Luck::Drawn { seed: number, replication: 0 }).clone();
        let run = catch_unwind(std::panic::AssertUnwindSafe(run));
        let result = run.unwrap_or_else(|_| panic!("file {number} panics when it runs: {plan:?}"));
        for (name, value) in [
            ("delivered", result.delivered),
            ("spilled", result.spilled),
            ("remaining", result.remaining),
            ("wanted", result.wanted),
            ("end", result.end),
        ] {
            assert!(value.is_finite(), "file {number}: {name} is {value}");
        }
    }
}
