//! The greatest of something that still holds in a stated share of runs: a flow, a distance.
//!
//! What is tried lies on a grid of steps from 1 up, easy to hard. Each step is sampled in growing looks
//! until it is clear on which side of the stated share it lies, so runs are spent where the answer is near.
//! All steps run on common random numbers: a run that breaks at one step nearly always breaks at the harder
//! ones, so bisection finds the place; its neighbours are looked at to be sure.
//!
//! The confidence of each look is raised so that all looks of all searches of one answer hold
//! simultaneously at 95% (Bonferroni over the most looks a search may take).

use serde::Serialize;
use shuttle_sim::Cause;

use crate::batch::{Control, Keep, Runs, run_batch};
use crate::demand::Trial;
use crate::statistics::confidence_for_each;
use crate::statistics::sequential::{Decision, confidence_sequence, decide};
use crate::tally::Tally;

/// The confidence asked for, and the runs allowed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Search {
    /// Share of runs in which it must hold, between 0 and 1.
    pub share: f64,
    /// Most runs for any one step.
    pub most_runs: u64,
    /// Seed of the random numbers.
    pub seed: u64,
    /// Threads to use.
    pub threads: usize,
    /// Searches of the whole answer, at least 1: their verdicts hold simultaneously at 95%.
    pub searches: usize,
}

/// On which side of the stated share a step lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Side {
    /// It is shown to hold in at least the share.
    Holds,
    /// It is shown not to.
    Fails,
    /// Not clear from the runs made.
    NotClear,
}

/// One step looked at.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Look {
    /// Which step.
    pub step: u32,
    /// Runs made.
    pub runs: u64,
    /// Runs in which it did not hold.
    pub broken: u64,
    /// Of these, runs in which the crew had no water in time.
    pub late: u64,
    /// Lower end of the confidence sequence of the share that holds.
    pub holds_low: f64,
    /// Upper end of it.
    pub holds_high: f64,
    /// The side.
    pub side: Side,
    /// The cause of the most first breaks, and its share of them.
    pub main_cause: Option<(&'static str, f64)>,
}

/// What a search found.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Greatest {
    /// The greatest step that is shown to hold; `None` if none does.
    pub holds: Option<u32>,
    /// The least step above it that is shown to fail; `None` if the search met none.
    pub fails: Option<u32>,
    /// A harder step was seen to hold where an easier one fails: the answer is the lower one.
    pub uneven: bool,
    /// Every look, in order.
    pub looks: Vec<Look>,
}

impl Greatest {
    /// The look at a step, if there was one.
    pub fn look(&self, step: u32) -> Option<&Look> {
        self.looks.iter().find(|look| look.step == step)
    }

    /// Steps above `holds` and below `fails`: not clear from the runs made.
    pub fn unclear_up_to(&self) -> Option<u32> {
        let below = self.holds.unwrap_or(0);
        let last = self.fails.map(|fails| fails - 1).or_else(|| {
            (self.looks.iter())
                .filter(|look| look.side == Side::NotClear)
                .map(|look| look.step)
                .max()
        })?;
        (last > below).then_some(last)
    }

    /// Runs made in all.
    pub fn runs(&self) -> u64 {
        self.looks.iter().map(|look| look.runs).sum()
    }
}

/// Runs in the first look at a step.
const FIRST_LOOK: u64 = 64;
/// Most steps one search looks at; bisection of 4,000 steps takes 12, an unclear stretch as many again.
const MOST_LOOKS: usize = 32;

/// Finds the greatest step that holds.
///
/// - Given: `first`, steps to look at before any other, from 1 to `top`; `trial_at`, what to run
///   at a step, or `None` where it cannot work at all.
pub fn greatest_step(
    first: &[u32],
    top: u32,
    search: Search,
    control: &Control,
    trial_at: impl Fn(u32) -> Option<Trial>,
) -> Greatest {
    let mut found = Greatest { holds: None, fails: None, uneven: false, looks: Vec::new() };
    let look = |found: &mut Greatest, step: u32| {
        let look = look_at(step, trial_at(step), search, control);
        // A look cut short says nothing unless it was already clear.
        if !(control.is_stopped() && look.side == Side::NotClear) {
            found.looks.push(look);
        }
    };
    for step in first.iter().map(|step| (*step).clamp(1, top)) {
        // A step that failed rules out harder ones; a step that held covers easier ones.
        let (low, high) = bracket(&found, top);
        if low < step && step < high && found.look(step).is_none() && !control.is_stopped() {
            look(&mut found, step);
        }
    }
    let has_room = |found: &Greatest| found.looks.len() < MOST_LOOKS && !control.is_stopped();
    while let Some(step) = next_step(&found, top).filter(|_| has_room(&found)) {
        look(&mut found, step);
    }
    (found.holds, found.fails) = ends(&found);
    let neighbours = [found.holds.map(|step| step - 1), found.fails.map(|step| step + 1)];
    for step in neighbours.into_iter().flatten().filter(|step| (1..=top).contains(step)) {
        if found.look(step).is_none() && has_room(&found) {
            look(&mut found, step);
        }
    }
    (found.holds, found.fails) = ends(&found);
    found.uneven = (found.fails).is_some_and(|fails| {
        found.looks.iter().any(|look| look.side == Side::Holds && look.step > fails)
    });
    found
}

/// The greatest step that holds below every one that fails, and the least that fails.
fn ends(found: &Greatest) -> (Option<u32>, Option<u32>) {
    let of =
        |side: Side| found.looks.iter().filter(move |look| look.side == side).map(|look| look.step);
    let fails = of(Side::Fails).min();
    let holds = of(Side::Holds).filter(|step| fails.is_none_or(|fails| *step < fails)).max();
    (holds, fails)
}

/// The same with the ends of the grid where nothing is known yet.
fn bracket(found: &Greatest, top: u32) -> (u32, u32) {
    let (holds, fails) = ends(found);
    (holds.unwrap_or(0), fails.unwrap_or(top + 1))
}

/// The step most worth looking at, or `None` when everything that can be settled is.
fn next_step(found: &Greatest, top: u32) -> Option<u32> {
    let (low, high) = bracket(found, top);
    let unclear = || {
        (found.looks.iter())
            .filter(|look| look.side == Side::NotClear && low < look.step && look.step < high)
            .map(|look| look.step)
    };
    let (first, last) = (unclear().min().unwrap_or(high), unclear().max().unwrap_or(low));
    if high <= top || first < high {
        let above = if high <= top { halfway(last, high) } else { None };
        if let Some(step) = halfway(low, first).or(above) {
            return Some(step);
        }
    }
    // Nothing fails yet: take growing strides from the hardest step looked at.
    let reached = low.max(last);
    (high > top && reached < top).then(|| (reached + (reached / 4).max(4)).min(top))
}

/// The step in the middle of two that are known, if there is one between them.
fn halfway(low: u32, high: u32) -> Option<u32> {
    (high > low + 1).then(|| low + (high - low) / 2)
}

/// Runs a step in growing looks until its side is clear.
fn look_at(step: u32, trial: Option<Trial>, search: Search, control: &Control) -> Look {
    let Some(trial) = trial else {
        return Look {
            step,
            runs: 0,
            broken: 0,
            late: 0,
            holds_low: 0.0,
            holds_high: 0.0,
            side: Side::Fails,
            main_cause: None,
        };
    };
    let confidence = confidence_for_each(0.95, search.searches.max(1) * MOST_LOOKS);
    let mut tally = Tally::new(&trial.plan);
    let (mut broken, mut late) = (0, 0);
    loop {
        let wanted = if tally.runs == 0 { FIRST_LOOK } else { tally.runs };
        let runs = Runs {
            first: tally.runs,
            count: wanted.min(search.most_runs - tally.runs),
            seed: search.seed,
            threads: search.threads,
        };
        let more = run_batch(&trial.plan, runs, Keep::Sums, control).tally;
        for (late_bits, broken_bits) in
            trial.late_runs(runs, more.runs).iter().zip(&more.interrupted_runs)
        {
            late += u64::from(late_bits.count_ones());
            broken += u64::from((late_bits | broken_bits).count_ones());
        }
        tally.merge(&more);
        let side = match decide(broken, tally.runs, 1.0 - search.share, confidence) {
            Decision::Below => Side::Holds,
            Decision::Above => Side::Fails,
            Decision::NotClear => Side::NotClear,
        };
        let done = tally.runs >= search.most_runs || control.is_stopped();
        if done || side != Side::NotClear {
            let (low, high) = confidence_sequence(broken, tally.runs, confidence);
            return Look {
                step,
                runs: tally.runs,
                broken,
                late,
                holds_low: 1.0 - high,
                holds_high: 1.0 - low,
                side,
                main_cause: main_cause(&tally),
            };
        }
    }
}

/// The cause of the most first breaks, and its share of them.
fn main_cause(tally: &Tally) -> Option<(&'static str, f64)> {
    let all: u64 = tally.first_causes.iter().sum();
    let most = (Cause::ALL.into_iter()).max_by_key(|cause| tally.first_causes[*cause as usize])?;
    (all > 0).then(|| (most.key(), tally.first_causes[most as usize] as f64 / all as f64))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A search over steps that hold by a rule, without runs.
    fn found(first: &[u32], top: u32, side: impl Fn(u32) -> Side) -> Greatest {
        let mut found = Greatest { holds: None, fails: None, uneven: false, looks: Vec::new() };
        let blank = |step| Look {
            step,
            runs: 1,
            broken: 0,
            late: 0,
            holds_low: 0.0,
            holds_high: 1.0,
            side: side(step),
            main_cause: None,
        };
        found.looks.extend(first.iter().map(|step| blank(*step)));
        while let Some(step) = next_step(&found, top) {
            found.looks.push(blank(step));
            assert!(found.looks.len() < 100, "the search ends: {found:?}");
        }
        (found.holds, found.fails) = ends(&found);
        found
    }

    #[test]
    fn the_place_is_found_from_wherever_the_search_begins() {
        for begin in [1, 20, 50, 51, 90, 400] {
            for edge in [0, 1, 50, 399, 400] {
                let side = |step| if step <= edge { Side::Holds } else { Side::Fails };
                let found = found(&[begin], 400, side);
                assert_eq!(found.holds, (edge > 0).then_some(edge), "from {begin}");
                assert_eq!(found.fails, (edge < 400).then_some(edge + 1), "from {begin}");
                assert!(found.looks.len() < MOST_LOOKS, "{} looks", found.looks.len());
            }
        }
    }

    #[test]
    fn both_ends_of_an_unclear_stretch_are_found() {
        for (low, high) in [(40, 45), (40, 42), (0, 3), (395, 401)] {
            let side = |step| match step {
                step if step <= low => Side::Holds,
                step if step >= high => Side::Fails,
                _ => Side::NotClear,
            };
            let found = found(&[25], 400, side);
            assert_eq!(found.holds, (low > 0).then_some(low));
            assert_eq!(found.fails, (high <= 400).then_some(high));
            let unclear = (high > low + 1).then_some((high - 1).min(400));
            assert_eq!(found.unclear_up_to(), unclear);
        }
    }
}
