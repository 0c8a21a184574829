//! The run in the middle: as many go better as go worse.

use shuttle_sim::{Luck, Plan, RunResult, Shuttle};

/// So many runs are looked at, an odd number so that one is in the middle. Judgement: enough that it is none of the tails,
/// few enough that nobody waits.
const LOOKED_AT: u64 = 101;

/// The number, from 1 as people count, of the run of a batch that lies in the middle of its first ones by minutes short, then
/// by water that did not come, then by how low the attack engine's tank fell.
pub fn typical_run(plan: &Plan, seed: u64) -> u64 {
    let mut shuttle = Shuttle::new(plan);
    let mut runs: Vec<(Outcome, u64)> = (0..LOOKED_AT)
        .map(|replication| {
            let run = shuttle.run(Luck::Drawn { seed, replication });
            (Outcome::of(run), replication + 1)
        })
        .collect();
    runs.sort_by(|(a, _), (b, _)| a.against(b));
    runs[runs.len() / 2].1
}

/// How a run goes, the less of each the better but for the level.
struct Outcome {
    minutes_short: f64,
    unmet: f64,
    lowest_engine: f64,
}

impl Outcome {
    fn of(run: &RunResult) -> Outcome {
        Outcome {
            minutes_short: run.minutes_short.iter().sum(),
            unmet: run.unmet.iter().sum(),
            lowest_engine: run.lowest_engine,
        }
    }

    fn against(&self, other: &Outcome) -> std::cmp::Ordering {
        (self.minutes_short.total_cmp(&other.minutes_short))
            .then(self.unmet.total_cmp(&other.unmet))
            .then(other.lowest_engine.total_cmp(&self.lowest_engine))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chart::demo::{checked, draft};

    /// By counting, run by run: no more than half of those looked at are short for less, and no more than half for longer.
    #[test]
    fn as_many_runs_go_better_as_go_worse() {
        let plan = checked(draft(2, 120.0, 1));
        for seed in 1..=3 {
            let middle = typical_run(&plan, seed);
            let short = |run: u64| -> f64 {
                let luck = Luck::Drawn { seed, replication: run - 1 };
                Shuttle::new(&plan).run(luck).minutes_short.iter().sum()
            };
            let all: Vec<f64> = (1..=LOOKED_AT).map(short).collect();
            let of_middle = short(middle);
            let better = all.iter().filter(|one| **one < of_middle).count();
            let worse = all.iter().filter(|one| **one > of_middle).count();
            assert!(better <= 50 && worse <= 50, "{better} better, {worse} worse");
            assert!(all.iter().any(|one| *one != of_middle), "some run goes otherwise");
        }
    }
}
