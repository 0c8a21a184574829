//! What the benchmarks share: the plans whose figures are recorded (`SPEED.md`), and plans at random
//! (`HELP.md`).

pub mod random;

use std::path::{Path, PathBuf};

use shuttle_sim::Plan;

/// A scenario for measuring, with its plan.
pub struct Measured {
    /// Its file's name, without the ending.
    pub name: String,
    /// Where its file is.
    pub file: PathBuf,
}

impl Measured {
    /// Reads the file.
    pub fn plan(&self) -> Plan {
        plan_in(&self.file)
    }
}

/// The plan in a scenario file.
pub fn plan_in(file: &Path) -> Plan {
    scenario_file::load(file).expect("a sound scenario").plan
}

/// The benchmarks' own folder.
pub fn here() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// The plain loop, which also runs on general-purpose simulators (`peers/`).
pub fn plain_loop() -> PathBuf {
    here().join("scenarios/plain_loop_six_tankers.json")
}

/// The plans in the record: two that a department would state, and three that weigh on one thing each.
pub fn recorded() -> Vec<Measured> {
    [
        "../scenarios/hay_barn_two_tankers.json",
        "../scenarios/sawmill_two_fill_sites.json",
        "scenarios/twelve_tankers_everything.json",
        "scenarios/plain_loop_six_tankers.json",
        "scenarios/five_tankers_nursing.json",
    ]
    .into_iter()
    .map(|file| {
        let file = here().join(file);
        let name = file.file_stem().unwrap_or_default().to_string_lossy().into_owned();
        Measured { name, file }
    })
    .collect()
}
