//! What the README shows is what the program prints, and the schema in the repository is the
//! program's own.

use std::path::{Path, PathBuf};
use std::process::Command;

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

/// The program, which is built beside this test.
fn program() -> PathBuf {
    let mut path = std::env::current_exe().expect("this test's own path");
    path.pop();
    path.pop();
    path.join("bucketline")
}

#[test]
fn the_examples_in_the_readme_are_what_the_program_prints() {
    let readme = std::fs::read_to_string(root().join("README.md")).expect("the README");
    let folder = tempfile::tempdir().expect("a folder to run in");
    let scenarios = folder.path().join("scenarios");
    for folder in ["buildings", "logs"] {
        std::fs::create_dir_all(scenarios.join(folder)).expect("a folder for scenarios");
    }
    for name in [
        "hay_barn_two_tankers.json",
        "feed_mill_mutual_aid.json",
        "mill_crossing_addresses.json",
        "hay_barn_guessed.json",
        "buildings/hay_barn.json",
        "logs/quarry_lane_drill.json",
        "logs/spring_drill.csv",
    ] {
        std::fs::copy(root().join("scenarios").join(name), scenarios.join(name)).expect("a copy");
    }
    let mut seen = 0;
    for block in readme.split("```console\n").skip(1) {
        let block = block.split("```").next().expect("the end of the block");
        let (command, printed) = block.split_once('\n').expect("a command and what it prints");
        let words = command.strip_prefix("$ bucketline ").expect("a command of ours");
        let output = Command::new(program())
            .args(words.split(' '))
            .current_dir(folder.path())
            .output()
            .expect("the program runs");
        assert_eq!(String::from_utf8_lossy(&output.stdout), printed, "{command}");
        seen += 1;
    }
    assert_eq!(seen, 9, "the README shows every example");
}

#[test]
fn the_schema_in_the_repository_is_the_programs_own() {
    let kept = std::fs::read_to_string(root().join("scenarios/scenario.schema.json"))
        .expect("the schema in the repository");
    let printed = format!("{:#}\n", scenario_file::json_schema());
    assert!(kept == printed, "run: bucketline schema > scenarios/scenario.schema.json");
}

#[test]
fn the_schema_of_results_in_the_repository_is_the_programs_own() {
    let kept = std::fs::read_to_string(root().join("scenarios/results/results.schema.json"))
        .expect("the schema in the repository");
    let printed = format!("{}\n", answers::schema::answers_schema());
    assert!(
        kept == printed,
        "run: bucketline schema --answers > scenarios/results/results.schema.json"
    );
}
