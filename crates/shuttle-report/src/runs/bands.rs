//! Levels minute by minute, over runs.

use shuttle_sim::{Plan, RunResult, marks};

use crate::statistics::histogram::LevelHistogram;

/// Bins of each minute's level histogram: half a percent of the tank.
const BAND_BINS: usize = 200;

/// Levels minute by minute.
#[derive(Debug, Clone)]
pub struct Bands {
    /// Minutes after first water.
    pub minutes: Vec<f64>,
    /// One row a minute; in a row the drop tanks, then the attack engine.
    rows: Vec<LevelHistogram>,
    columns: usize,
}

impl Bands {
    /// Nothing counted yet.
    pub fn new(plan: &Plan) -> Bands {
        let facts = plan.facts();
        let minutes: Vec<f64> = marks(facts.incident.duration).collect();
        let tops: Vec<f64> = (facts.drop_tanks.iter().map(|tank| tank.capacity))
            .chain([facts.attack_engine.tank])
            .collect();
        let rows = (minutes.iter())
            .flat_map(|_| tops.iter().map(|top| LevelHistogram::new(*top, BAND_BINS)))
            .collect();
        Bands { minutes, rows, columns: tops.len() }
    }

    /// Adds one run.
    pub fn add(&mut self, run: &RunResult) {
        for (row, level) in self.rows.iter_mut().zip(&run.levels) {
            row.add(*level);
        }
    }

    /// Adds the runs of other bands of the same plan, in any order: they are counts.
    pub fn merge(&mut self, other: &Bands) {
        for (mine, others) in self.rows.iter_mut().zip(&other.rows) {
            mine.merge(others);
        }
    }

    /// A quantile of one column's level, minute by minute, gal. Columns: the drop tanks in order,
    /// then the attack engine. Zero where no run was counted.
    pub fn quantile(&self, column: usize, q: f64) -> Vec<f64> {
        (self.rows.iter().skip(column).step_by(self.columns))
            .map(|row| row.quantile(q).unwrap_or(0.0))
            .collect()
    }
}
