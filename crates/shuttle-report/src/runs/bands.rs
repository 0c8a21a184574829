//! Levels minute by minute after the alarm, over runs.

use shuttle_sim::{Plan, RunResult, marks};

use crate::statistics::histogram::LevelHistogram;

/// Bins of each minute's level histogram: half a percent of the tank.
const BAND_BINS: usize = 200;
/// Most counts that are kept, 8 bytes each and once a thread: a day with a drop tank, minute by minute, needs half.
const MOST_COUNTS: usize = 1_000_000;

/// Levels minute by minute after the alarm. Each run adds its levels from its own first water to its own end.
#[derive(Debug, Clone)]
pub struct Bands {
    /// Minutes between the marks of a run.
    step: f64,
    /// Every so many marks of a run are kept: 1, but for long watches and many drop tanks.
    stride: usize,
    /// One row a mark, from the alarm on; in a row the drop tanks, then the attack engine.
    rows: Vec<LevelHistogram>,
    /// What each column's tank holds, gal.
    tops: Vec<f64>,
    /// Marks of a run beyond these are not kept: a fire whose first water is later than its watch is long.
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
        let stride = (most * tops.len() * BAND_BINS).div_ceil(MOST_COUNTS);
        Bands { step, stride, rows: Vec::new(), tops, most }
    }

    /// Minutes after the alarm, one a mark: from the first that any run has a level for to the last.
    pub fn minutes(&self) -> Vec<f64> {
        let apart = self.step * self.stride as f64;
        (0..self.rows.len() / self.tops.len()).map(|mark| mark as f64 * apart).collect()
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
            if !mark.is_multiple_of(self.stride) {
                continue;
            }
            let kept = mark / self.stride;
            self.make_room((kept + 1) * columns);
            for (row, level) in self.rows[kept * columns..].iter_mut().zip(levels) {
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

    /// A long watch with many drop tanks keeps fewer minutes, each with the levels of that minute.
    #[test]
    fn what_is_kept_does_not_grow_with_the_watch_and_the_drop_tanks() {
        let plan = demo::plan(3, 600.0, 20);
        let mut shuttle = Shuttle::new(&plan);
        shuttle.note_levels_by_alarm();
        let run = shuttle.run(Luck::Drawn { seed: 5, replication: 0 }).clone();
        let mut bands = Bands::new(&plan);
        bands.add(&run);
        assert!(bands.rows.len() * BAND_BINS <= MOST_COUNTS, "{} rows", bands.rows.len());
        let (minutes, runs) = (bands.minutes(), bands.runs());
        let apart = minutes[1];
        assert!(apart > 1.0 && apart.fract() == 0.0, "{apart}");
        assert!(minutes.last().is_some_and(|last| run.end - last < apart + 1.0), "{minutes:?}");
        let first = run.first_water.ceil();
        for column in [0, 20] {
            let told = bands.quantile(column, 0.5);
            let from = minutes.iter().position(|minute| *minute >= first).expect("a minute");
            for place in from..minutes.len() {
                assert_eq!(runs[place], 1);
                let noted = run.levels[(minutes[place] - first) as usize * 21 + column];
                let bin = bands.tops[column] / BAND_BINS as f64;
                assert!((told[place] - noted).abs() <= bin, "minute {}", minutes[place]);
            }
        }
    }
}
