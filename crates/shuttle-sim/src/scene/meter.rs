//! What the attack lines wanted and got, and how the levels went.

use crate::plan::Plan;
use crate::results::{mark_step, marks};
use crate::time::{Moment, Ticks};

/// What is measured as water moves.
#[derive(Debug)]
pub(crate) struct Meter {
    pub is_short: bool,
    pub is_established: bool,
    pub delivered: f64,
    pub wanted: f64,
    pub minutes_short: [f64; 2],
    pub unmet: [f64; 2],
    pub reserve: f64,
    pub reserve_touched: bool,
    pub lowest_engine: f64,
    pub levels: Vec<f64>,
    engine_tank: f64,
    step: Ticks,
    /// How many levels a run notes, and how many are still to come in this one.
    marks: usize,
    marks_left: usize,
    mark: Moment,
    end: Moment,
}

impl Meter {
    pub fn new(plan: &Plan) -> Meter {
        let facts = plan.facts();
        let marks = marks(facts.incident.duration).count();
        let columns = facts.drop_tanks.len() + 1;
        Meter {
            is_short: false,
            is_established: false,
            delivered: 0.0,
            wanted: 0.0,
            minutes_short: [0.0; 2],
            unmet: [0.0; 2],
            reserve: facts.incident.reserve,
            reserve_touched: false,
            lowest_engine: facts.attack_engine.tank,
            levels: Vec::with_capacity(columns * marks),
            engine_tank: facts.attack_engine.tank,
            step: Ticks::of(mark_step(facts.incident.duration)),
            marks,
            marks_left: 0,
            mark: Moment::NEVER,
            end: Moment::NEVER,
        }
    }

    pub fn reset(&mut self) {
        self.is_short = false;
        self.is_established = false;
        self.delivered = 0.0;
        self.wanted = 0.0;
        self.minutes_short = [0.0; 2];
        self.unmet = [0.0; 2];
        self.reserve_touched = false;
        self.lowest_engine = self.engine_tank;
        self.levels.clear();
        self.mark = Moment::NEVER;
        self.marks_left = 0;
    }

    /// The first whole number of steps after the alarm that is not before this moment.
    pub fn whole_step_from(&self, moment: Moment) -> Moment {
        moment.up_to_whole(self.step)
    }

    /// Levels are noted from here on.
    pub fn start_marks(&mut self, first: Moment, end: Moment) {
        self.marks_left = self.marks;
        self.mark = first;
        self.end = end;
    }

    /// The next mark, if it is to be noted by now.
    pub fn mark_due(&self, now: Moment) -> Option<Moment> {
        (self.marks_left > 0 && self.mark <= now).then_some(self.mark)
    }

    /// Notes the levels at the next mark.
    pub fn note_levels(&mut self, levels: impl Iterator<Item = f64>) {
        self.levels.extend(levels);
        self.marks_left -= 1;
        self.mark = if self.marks_left == 0 {
            Moment::NEVER
        } else {
            (self.mark + self.step).min(self.end)
        };
    }

    /// Notes what passed in one stretch of time without an event.
    pub fn passed(&mut self, minutes: f64, wanted: f64, delivered: f64, lowest_engine: f64) {
        self.wanted += wanted * minutes;
        self.delivered += delivered;
        if self.is_short {
            let side = usize::from(self.is_established);
            self.minutes_short[side] += minutes;
            self.unmet[side] += wanted * minutes - delivered;
        }
        self.lowest_engine = self.lowest_engine.min(lowest_engine);
        // A level that only meets the reserve does not touch it; rounding is far below this.
        self.reserve_touched |= lowest_engine < self.reserve - 1e-6;
    }
}
