//! Levels minute by minute after the alarm, over runs.

use shuttle_sim::{Plan, RunResult, marks};

use crate::statistics::histogram::LevelHistogram;

/// Bins of each minute's level histogram: half a percent of the tank.
const BAND_BINS: usize = 200;

/// Levels minute by minute after the alarm. Each run adds its levels from its own first water to its own end.
#[derive(Debug, Clone)]
pub struct Bands {
    /// Minutes between marks.
    step: f64,
    /// One row a mark, from the alarm on; in a row the drop tanks, then the attack engine.
    rows: Vec<LevelHistogram>,
    /// What each column's tank holds, gal.
    tops: Vec<f64>,
    /// Marks beyond these are not kept: a fire whose first water is later than its watch is long.
    most: usize,
}

impl Bands {
    /// Nothing counted yet.
    pub fn new(plan: &Plan) -> Bands {
        let facts = plan.facts();
        let marks: Vec<f64> = marks(facts.incident.duration).take(2).collect();
        let step = marks.get(1).copied().unwrap_or(1.0);
        let tops: Vec<f64> = (facts.drop_tanks.iter().map(|tank| tank.capacity))
            .chain([facts.attack_engine.tank])
            .collect();
        let most = 2 * (facts.incident.duration / step).ceil() as usize + 1;
        Bands { step, rows: Vec::new(), tops, most }
    }

    /// Minutes after the alarm, one a mark: from the first that any run has a level for to the last.
    pub fn minutes(&self) -> Vec<f64> {
        (0..self.rows.len() / self.tops.len()).map(|mark| mark as f64 * self.step).collect()
    }

    /// Runs that have a level at each mark.
    pub fn runs(&self) -> Vec<u64> {
        self.rows.iter().step_by(self.tops.len()).map(LevelHistogram::count).collect()
    }

    /// Adds one run, whose levels are noted by the alarm's clock.
    pub fn add(&mut self, run: &RunResult) {
        let first = (run.first_water / self.step).ceil() as usize;
        let columns = self.tops.len();
        for (place, levels) in run.levels.chunks(columns).enumerate() {
            let mark = first + place;
            if mark as f64 * self.step > run.end || mark >= self.most {
                break;
            }
            self.make_room((mark + 1) * columns);
            for (row, level) in self.rows[mark * columns..].iter_mut().zip(levels) {
                row.add(*level);
            }
        }
    }

    fn make_room(&mut self, rows: usize) {
        while self.rows.len() < rows {
            let top = self.tops[self.rows.len() % self.tops.len()];
            self.rows.push(LevelHistogram::new(top, BAND_BINS));
        }
    }

    /// Adds the runs of other bands of the same plan, in any order: they are counts.
    pub fn merge(&mut self, other: &Bands) {
        self.make_room(other.rows.len());
        for (mine, others) in self.rows.iter_mut().zip(&other.rows) {
            mine.merge(others);
        }
    }

    /// A quantile of one column's level, mark by mark, gal. Columns: the drop tanks in order, then the attack
    /// engine. Zero where no run was counted.
    pub fn quantile(&self, column: usize, q: f64) -> Vec<f64> {
        (self.rows.iter().skip(column).step_by(self.tops.len()))
            .map(|row| row.quantile(q).unwrap_or(0.0))
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use shuttle_sim::{Luck, Shuttle};

    use super::*;
    use crate::chart::demo;

    /// Against the run's own story, which is kept event by event: between two events levels are straight lines.
    #[test]
    fn levels_are_those_of_the_whole_minutes_after_the_alarm() {
        let plan = demo::plan(3, 60.0, 1);
        let mut shuttle = Shuttle::new(&plan);
        shuttle.note_levels_by_alarm();
        for replication in 0..20 {
            let (run, trace) = shuttle.run_traced(Luck::Drawn { seed: 5, replication });
            let mut bands = Bands::new(&plan);
            bands.add(&run);
            let minutes = bands.minutes();
            let first = run.first_water.ceil();
            assert!(run.first_water < first, "this plan's first water is at no whole minute");
            assert_eq!(minutes.last().copied(), Some(run.end.floor()));
            for (minute, runs) in minutes.iter().zip(bands.runs()) {
                assert_eq!(runs, u64::from(*minute >= first), "minute {minute}");
            }
            for (place, levels) in run.levels.chunks(2).enumerate() {
                let minute = first + place as f64;
                let Some(pair) = (trace.course.windows(2))
                    .find(|pair| pair[0].0 <= minute && minute < pair[1].0)
                else {
                    continue;
                };
                let [(from, before), (to, after)] = pair else { unreachable!() };
                for (column, level) in levels.iter().enumerate() {
                    let share = (minute - from) / (to - from);
                    let expected = before[column] + share * (after[column] - before[column]);
                    assert!(
                        (level - expected).abs() < 1e-3,
                        "minute {minute}: {level}, {expected}"
                    );
                }
            }
        }
    }
}
