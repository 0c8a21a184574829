//! What many seeds of a long run give, with its standard error.

use crate::common::world::World;
use shuttle_sim::{Luck, RunResult, Shuttle};

/// Independent runs.
const SEEDS: u64 = 20;
/// Minutes left out at the beginning of each, until the start is forgotten.
pub const WARM_UP: f64 = 2_000.0;
/// Minutes counted of each.
pub const COUNTED: f64 = 20_000.0;
/// How far a mean may lie from theory, in standard errors.
const ALLOWED: f64 = 4.0;

/// A mean over independent runs.
#[derive(Debug, Clone, Copy)]
pub struct Estimate {
    pub mean: f64,
    pub standard_error: f64,
}

impl Estimate {
    pub fn of(values: &[f64]) -> Estimate {
        let count = values.len() as f64;
        let mean = values.iter().sum::<f64>() / count;
        let squares: f64 = values.iter().map(|value| (value - mean).powi(2)).sum();
        Estimate { mean, standard_error: (squares / (count - 1.0) / count).sqrt() }
    }

    /// - Errors: what is wrong, if theory lies further off than chance explains.
    pub fn agrees_with(self, theory: f64, what: &str) -> Result<(), String> {
        let off = (self.mean - theory) / self.standard_error;
        if off.abs() <= ALLOWED {
            return Ok(());
        }
        let Estimate { mean, standard_error } = self;
        Err(format!(
            "{what}: {mean} +- {standard_error}, theory {theory}: off by {off:.1} standard errors"
        ))
    }
}

/// What `count` grows by while `per` grows by one, once the start is forgotten.
pub fn growth(
    world: &World,
    count: impl Fn(&RunResult) -> f64,
    per: impl Fn(&RunResult) -> f64,
) -> Estimate {
    // The same luck to an earlier and a later end: the difference is what lies between.
    let mut to_warm_up = Shuttle::new(&world.clone().watched(WARM_UP).plan());
    let mut to_end = Shuttle::new(&world.clone().watched(WARM_UP + COUNTED).plan());
    let values: Vec<f64> = (0..SEEDS)
        .map(|seed| {
            let luck = Luck::Drawn { seed, replication: 0 };
            let (early, late) = (to_warm_up.run(luck), to_end.run(luck));
            (count(late) - count(early)) / (per(late) - per(early))
        })
        .collect();
    Estimate::of(&values)
}

/// Loads brought in so far.
pub fn trips(run: &RunResult) -> f64 {
    run.tankers.iter().map(|tanker| f64::from(tanker.trips)).sum()
}

/// Minutes since the alarm.
pub fn minutes(run: &RunResult) -> f64 {
    run.end
}

/// The values of one seed after another at the level marks of the first drop tank, averaged over
/// each run from minute `WARM_UP` on.
pub fn mean_level(world: &World) -> Estimate {
    let plan = world.clone().watched(WARM_UP + COUNTED).plan();
    let columns = plan.facts().drop_tanks.len() + 1;
    let marks: Vec<f64> = shuttle_sim::marks(WARM_UP + COUNTED).collect();
    let mut shuttle = Shuttle::new(&plan);
    let values: Vec<f64> = (0..SEEDS)
        .map(|seed| {
            let run = shuttle.run(Luck::Drawn { seed, replication: 0 });
            let levels = run.levels.iter().step_by(columns);
            let counted: Vec<f64> = (levels.zip(&marks))
                .filter(|(_, minute)| **minute >= WARM_UP)
                .map(|(level, _)| *level)
                .collect();
            counted.iter().sum::<f64>() / counted.len() as f64
        })
        .collect();
    Estimate::of(&values)
}
