//! Many simulated fires: how often the lines ran short after the water on hand fell through a level with no load
//! to come, and the levels that follow from it.

use shuttle_sim::{Luck, Plan, Shuttle};

use super::dips::{Watched, dips};
use crate::runs::batch::BLOCK;
use crate::runs::control::{Control, Runs};
use crate::runs::in_order::in_order;
use crate::statistics::binomial::exact_interval;

/// Fewer fires than these say nothing of a level. Judgement.
pub const FEWEST_FIRES: u64 = 100;

/// What is asked.
#[derive(Debug, Clone, PartialEq)]
pub struct Question {
    /// Levels to look at, gal, in falling order.
    pub levels: Vec<f64>,
    /// Minutes within which no load comes, in rising order.
    pub no_load_within: Vec<f64>,
    /// From this share of fires running short on, a level calls for asking where the next load is.
    pub ask_from: f64,
    /// From this share on, for gating down.
    pub gate_down_from: f64,
}

/// Fires that fell through one level with no load within so many minutes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cell {
    /// The level, gal.
    pub level: f64,
    /// Minutes within which no load began to pour.
    pub no_load_within: f64,
    /// Fires in which that happened at least once.
    pub fires: u64,
    /// Those of them in which the lines ran short before the water stood above the level again.
    pub ran_short: u64,
}

impl Cell {
    /// Share of the fires that ran short; nothing where too few fell through the level so.
    pub fn share(&self) -> Option<f64> {
        (self.fires >= FEWEST_FIRES).then(|| self.ran_short as f64 / self.fires as f64)
    }

    /// The exact binomial 95% interval of that share.
    pub fn interval(&self) -> (f64, f64) {
        exact_interval(self.ran_short, self.fires, 0.95)
    }
}

/// The levels to act at when no load comes for so many minutes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wire {
    /// Minutes within which no load comes.
    pub no_load_within: f64,
    /// The highest level at which to ask where the next load is.
    pub ask: Option<Cell>,
    /// The highest level at which to say that the lines be gated down.
    pub gate_down: Option<Cell>,
}

/// What was found.
#[derive(Debug, Clone, PartialEq)]
pub struct TripWires {
    /// Which water is watched.
    pub watched: Watched,
    /// Simulated fires.
    pub fires: u64,
    /// Those of them in which the lines ran short at all.
    pub ran_short: u64,
    /// Every level with every number of minutes: level by level as asked.
    pub cells: Vec<Cell>,
    /// One for each number of minutes asked.
    pub wires: Vec<Wire>,
}

/// Runs the plan, reads every fire, and chooses the levels.
///
/// - Returns: what was found in runs `first` to `first + count - 1`; in fewer, from the first on, if it was stopped
///   early. The same on any number of threads: all are counts.
pub fn trip_wires(plan: &Plan, question: &Question, runs: Runs, control: &Control) -> TripWires {
    let watched = Watched::of(plan);
    let columns = question.no_load_within.len();
    let mut counts = vec![[0_u64; 2]; question.levels.len() * columns];
    let (mut fires, mut ran_short) = (0, 0);
    let work = |shuttle: &mut Shuttle, block: u64| {
        let (first, last) = (block * BLOCK, ((block + 1) * BLOCK).min(runs.count));
        let mut counts = vec![[0_u64; 2]; question.levels.len() * columns];
        let mut short = 0;
        for run in first..last {
            let luck = Luck::Drawn { seed: runs.seed, replication: runs.first + run };
            let (result, trace) = shuttle.run_traced(luck);
            short += u64::from(!result.interruptions.is_empty());
            for (row, level) in question.levels.iter().enumerate() {
                let dips = dips(&result, &trace, watched, *level);
                for (column, minutes) in question.no_load_within.iter().enumerate() {
                    // Of what the end of the watch cuts off nobody knows whether a load would have come.
                    let mut bare = (dips.iter())
                        .filter(|dip| dip.next_load > *minutes && dip.to_the_end > *minutes)
                        .peekable();
                    let count = &mut counts[row * columns + column];
                    count[0] += u64::from(bare.peek().is_some());
                    count[1] += u64::from(bare.any(|dip| dip.ran_short));
                }
            }
        }
        control.add_done(last - first);
        (last - first, short, counts)
    };
    let blocks = runs.count.div_ceil(BLOCK);
    in_order(
        blocks,
        runs.threads,
        control,
        || Shuttle::new(plan),
        work,
        |_, (ran, short, own)| {
            fires += ran;
            ran_short += short;
            for (sum, count) in counts.iter_mut().zip(own) {
                sum[0] += count[0];
                sum[1] += count[1];
            }
        },
    );
    let cells: Vec<Cell> = (counts.into_iter().enumerate())
        .map(|(place, [fires, ran_short])| Cell {
            level: question.levels[place / columns],
            no_load_within: question.no_load_within[place % columns],
            fires,
            ran_short,
        })
        .collect();
    let anyway = ran_short as f64 / (fires as f64).max(1.0);
    let wires =
        (0..columns).map(|column| wire(&cells, column, columns, question, anyway)).collect();
    TripWires { watched, fires, ran_short, cells, wires }
}

/// The levels of one number of minutes: of each share the highest level that has it and tells something. One that
/// tells nothing is passed in every fire, good or bad: the lines run short after it no more often than anyway.
///
/// - Given: the share of all fires in which the lines ran short.
fn wire(cells: &[Cell], column: usize, columns: usize, question: &Question, anyway: f64) -> Wire {
    let highest = |least: f64| {
        let mut of_column = cells.iter().skip(column).step_by(columns);
        let calls = |cell: &&Cell| cell.share().is_some_and(|share| share >= least);
        of_column.find(|cell| calls(cell) && cell.interval().0 > anyway).copied()
    };
    Wire {
        no_load_within: question.no_load_within[column],
        ask: highest(question.ask_from),
        gate_down: highest(question.gate_down_from),
    }
}
