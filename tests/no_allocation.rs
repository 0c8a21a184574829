//! Once a run has begun nothing is allocated: the room for a run is made once and used again.

use std::path::{Path, PathBuf};

use shuttle_sim::{Luck, Shuttle};

/// Runs that may still widen a list to what such runs need.
const FIRST_RUNS: u64 = 200;
const RUNS: u64 = 200;

fn scenario_files(folder: &str) -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("..").join(folder);
    let files = std::fs::read_dir(folder).expect("the folder");
    files
        .filter_map(|entry| Some(entry.ok()?.path()))
        .filter(|path| path.extension().is_some_and(|ending| ending == "json"))
        .filter(|path| !path.to_string_lossy().ends_with(".schema.json"))
        .collect()
}

#[test]
fn a_run_allocates_nothing() {
    let files = [scenario_files("scenarios"), scenario_files("benches/scenarios")].concat();
    assert!(files.len() > 8, "scenarios were found");
    for file in files {
        let scenario = scenario_file::load(&file).expect("a sound scenario");
        for keeps_levels in [false, true] {
            let mut shuttle = Shuttle::new(&scenario.plan);
            shuttle.keep_levels(keeps_levels);
            let run = |shuttle: &mut Shuttle, replication| {
                shuttle.run(Luck::Drawn { seed: 1, replication }).events
            };
            // The same runs, so that no list can be longer than it was.
            (0..FIRST_RUNS).for_each(|replication| {
                run(&mut shuttle, replication % RUNS);
            });
            let counted = allocation_counter::measure(|| {
                (0..RUNS).for_each(|replication| {
                    run(&mut shuttle, replication);
                });
            });
            assert_eq!(counted.count_total, 0, "{}, levels {keeps_levels}", file.display());
        }
    }
}

#[test]
fn the_count_does_count() {
    let counted = allocation_counter::measure(|| drop(std::hint::black_box(vec![1_u8])));
    assert_eq!(counted.count_total, 1);
}
