//! The question as a whole: how far a chance can be trusted, whether a change still helps, and what to time.

use shuttle_sim::{Owner, Plan, PlanPart, RestsOn};

use super::outer::{OuterDraws, fires_each, under_each};
use super::range::{Figures, Paired, Range};
use super::readings::{left_by_readings, shares, width_left};
use super::{DRAWS, LEVEL};
use crate::runs::control::{Control, SameLuck};

/// So many inputs at most are named as worth timing.
const MOST_WORTH: usize = 3;
/// Readings that narrow the range by less than this share of it are not worth naming.
const WORTH: f64 = 0.05;
/// A range no wider than this, one fire of 100, need not be narrowed.
pub const HARDLY: f64 = 0.01;

/// How far the chance of a plan can be trusted.
#[derive(Debug, Clone)]
pub struct Doubt {
    /// The share of the draws within the range.
    pub level: f64,
    /// Draws of the inputs.
    pub draws: usize,
    /// Fires under each.
    pub fires_each: u64,
    /// The chance over the draws.
    pub range: Range,
    /// What it rests on, by input.
    pub inputs: Vec<Doubted>,
    /// The readings that would narrow the range most, best first.
    pub worth_timing: Vec<WorthTiming>,
    /// By change asked about, in that order.
    pub changes: Vec<ChangeInDoubt>,
    chances: Figures,
}

/// An input that rests on readings or a guess.
#[derive(Debug, Clone, PartialEq)]
pub struct Doubted {
    /// What it belongs to.
    pub of: Owner,
    /// Which facts of it.
    pub parts: Vec<PlanPart>,
    /// What it rests on.
    pub rests_on: RestsOn,
    /// The share of the variance of the chance that it makes by itself.
    pub share: f64,
}

/// What ten readings more of an input should make of the range.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WorthTiming {
    /// Its place among the inputs.
    pub input: usize,
    /// The low end then, to be expected.
    pub low: f64,
    /// The high end.
    pub high: f64,
}

/// What a change does over what the inputs may be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ChangeInDoubt {
    /// How much higher the chance is with it; negative: lower.
    pub higher_by: Range,
    /// The share of the draws in which it does not lower the chance.
    pub does_not_help: f64,
}

impl Doubt {
    /// The share of what the inputs may be in which the chance is not below a target.
    pub fn misses(&self, target: f64) -> f64 {
        self.chances.share_at_least(target)
    }
}

/// How far the chance of a plan can be trusted.
///
/// - Given: `most_runs` that the answer itself may make; `changes`, plans to hold against it draw by draw.
/// - Returns: `None` where every input is taken as known, or it was stopped before the end.
pub fn doubt(
    plan: &Plan,
    changes: &[&Plan],
    most_runs: u64,
    luck: SameLuck,
    control: &Control,
) -> Option<Doubt> {
    let draws = OuterDraws::of(plan, luck.seed, DRAWS)?;
    let fires = fires_each(most_runs);
    let short = |plan: &Plan, draws: &OuterDraws| {
        under_each(plan, draws, (DRAWS, fires), luck, control, |run| !run.interruptions.is_empty())
    };
    let base = short(plan, &draws)?;
    let hits = |runs: &[Vec<bool>]| -> Vec<u64> {
        runs.iter().map(|runs| runs.iter().filter(|short| **short).count() as u64).collect()
    };
    let hits = hits(&base);
    let chances = Figures::of_chances(&hits, fires);
    let range = chances.range;
    let raw: Vec<f64> = hits.iter().map(|hits| *hits as f64 / fires as f64).collect();
    let shares = shares(&raw, &draws.off_by(), range.variance);
    let changes = changes.iter().map(|changed| {
        let own = OuterDraws::of(changed, luck.seed, DRAWS);
        let runs = short(changed, own.as_ref().unwrap_or(&draws))?;
        let pairs: Vec<Paired> =
            base.iter().zip(&runs).map(|(base, runs)| paired(base, runs)).collect();
        let figures = Figures::of_differences(&pairs, fires);
        Some(ChangeInDoubt { higher_by: figures.range, does_not_help: figures.share_at_least(0.0) })
    });
    let changes = changes.collect::<Option<Vec<ChangeInDoubt>>>()?;
    Some(Doubt {
        level: LEVEL,
        draws: DRAWS,
        fires_each: fires,
        range,
        worth_timing: worth_timing(&draws, &shares, range),
        inputs: (draws.inputs().zip(shares))
            .map(|(input, share)| Doubted {
                of: input.of.clone(),
                parts: input.parts.clone(),
                rests_on: input.rests_on,
                share,
            })
            .collect(),
        changes,
        chances,
    })
}

fn paired(first: &[bool], second: &[bool]) -> Paired {
    let count = |wanted: (bool, bool)| {
        first.iter().zip(second).filter(|(a, b)| (**a, **b) == wanted).count() as u64
    };
    Paired { only_first: count((true, false)), only_second: count((false, true)) }
}

fn worth_timing(draws: &OuterDraws, shares: &[f64], range: Range) -> Vec<WorthTiming> {
    if range.high - range.low < HARDLY {
        return Vec::new();
    }
    let spreads = draws.spread_of_a_reading();
    let mut worth: Vec<(f64, WorthTiming)> = (draws.inputs().zip(shares).zip(spreads))
        .enumerate()
        .map(|(input, ((unsure, share), spread))| {
            let width = width_left(*share, left_by_readings(unsure.rests_on, spread));
            let end = |end: f64| range.median + width * (end - range.median);
            (width, WorthTiming { input, low: end(range.low), high: end(range.high) })
        })
        .filter(|(width, _)| *width <= 1.0 - WORTH)
        .collect();
    worth.sort_by(|a, b| a.0.total_cmp(&b.0));
    worth.into_iter().take(MOST_WORTH).map(|(_, worth)| worth).collect()
}

#[cfg(test)]
mod tests;
