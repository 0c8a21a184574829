//! The search for the smallest set that is shown to be below the target.
//!
//! A set is sampled until its confidence sequence clears the target; the confidence of each is raised so that
//! a wrong decision about any set has a chance of at most 5% (Bonferroni).

use shuttle_sim::Plan;

use super::question_and_answer::{RequestQuestion, SizeRow};
use crate::changes::aid_sets::{Aid, Set};
use crate::decisions::looks::looks_from;
use crate::decisions::target::{Target, Verdict};
use crate::runs::batch::Keep;
use crate::runs::control::Control;
use crate::runs::side_by_side::SideBySide;
use crate::runs::tally::Tally;

/// Runs in the first look at a set.
const FIRST_LOOK: u64 = 64;
/// Sets of the right size that are below the target or still open are compared over this many runs.
const FINAL_RUNS: u64 = 2048;

/// A set that was tried.
pub(super) struct Tried {
    pub(super) set: Set,
    pub(super) tally: Tally,
    verdict: Verdict,
    /// Its confidence sequence: the running intersection over all looks, so that a decision is never
    /// reversed.
    pub(super) interval: (f64, f64),
}

impl Tried {
    fn rank(&self) -> (f64, f64) {
        (self.tally.chance(), self.tally.minutes_short_mean())
    }
}

/// The search in progress.
pub(super) struct Search<'p> {
    pub(super) aid: Aid<'p>,
    pub(super) question: RequestQuestion,
    pub(super) target: Target,
    pub(super) control: &'p Control,
    pub(super) sizes: Vec<SizeRow>,
}

impl Search<'_> {
    /// Every set, by size.
    pub(super) fn all_sets(&mut self, units: usize) -> Option<Tried> {
        for size in 0..=units {
            let sets = self.aid.sets_of(size);
            // Calls that bring several may leave a number out.
            if sets.is_empty() {
                continue;
            }
            if let Some(best) = self.try_size(size, sets) {
                return Some(best);
            }
            if self.control.is_stopped() {
                return None;
            }
        }
        None
    }

    /// The best call each time; then one less each time, while that is still shown to be below.
    pub(super) fn one_by_one(&mut self) -> Option<Tried> {
        let mut set: Set = vec![0; self.aid.kinds.len()];
        let mut sets = vec![set.clone()];
        let mut found = None;
        for _ in 0..=self.aid.calls() {
            let (below, best) = self.try_all(&sets, FIRST_LOOK * 8);
            let tried = below.as_ref().or(best.as_ref()).map(|tried| &tried.set);
            let size = self.aid.units_of(tried.or(sets.first()).unwrap_or(&set));
            self.note(size, sets.len(), below.as_ref().or(best.as_ref()));
            if below.is_some() || self.control.is_stopped() {
                found = below;
                break;
            }
            if let Some(best) = best {
                set = best.set;
            } else if let Some(first) = sets.first() {
                set.clone_from(first);
            }
            sets = self.aid.neighbours(&set, true).into_iter().map(|(_, set)| set).collect();
        }
        let mut found = found?;
        while !self.control.is_stopped() {
            let sets: Vec<Set> =
                self.aid.neighbours(&found.set, false).into_iter().map(|(_, set)| set).collect();
            match self.try_all(&sets, FIRST_LOOK).0 {
                Some(smaller) => found = smaller,
                None => break,
            }
        }
        Some(found)
    }

    /// All sets of one size; the best of those shown to be below, if any is.
    fn try_size(&mut self, size: usize, sets: Vec<Set>) -> Option<Tried> {
        let (below, best) = self.try_all(&sets, FIRST_LOOK);
        self.note(size, sets.len(), below.as_ref().or(best.as_ref()));
        below
    }

    fn note(&mut self, size: usize, sets: usize, best: Option<&Tried>) {
        let row = match best {
            Some(best) => {
                let (ci_low, ci_high) = best.interval;
                SizeRow {
                    units: size,
                    sets,
                    names: self.aid.names(&best.set),
                    replications: best.tally.runs,
                    interruption_probability: best.tally.chance(),
                    ci_low,
                    ci_high,
                    verdict: best.verdict,
                }
            }
            None => SizeRow {
                units: size,
                sets,
                names: Vec::new(),
                replications: 0,
                interruption_probability: 1.0,
                ci_low: 1.0,
                ci_high: 1.0,
                verdict: Verdict::CannotWork,
            },
        };
        if !self.control.is_stopped() {
            self.sizes.push(row);
        }
    }

    /// Samples sets on common random numbers until each is clear, or one of them is shown to be below.
    ///
    /// - Returns: the best of those shown to be below, and else the best of all that can work: one that is
    ///   not clear before one that is shown to be above, then the one that took longest to decide.
    fn try_all(&self, sets: &[Set], first_look: u64) -> (Option<Tried>, Option<Tried>) {
        let (sets, plans): (Vec<&Set>, Vec<Plan>) =
            sets.iter().filter_map(|set| Some((set, self.aid.plan(set)?))).unzip();
        if plans.is_empty() {
            return (None, None);
        }
        let most = self.question.most_runs;
        let mut side = SideBySide::new(plans.iter().collect(), self.question.luck, Keep::Counts);
        let mut open: Vec<usize> = (0..plans.len()).collect();
        let mut below: Vec<usize> = Vec::new();
        let mut clear_after = vec![0_u64; plans.len()];
        let mut intervals = vec![(0.0_f64, 1.0_f64); plans.len()];
        for look in looks_from(first_look, most) {
            let running: Vec<usize> = merged(&open, &below);
            let who: Vec<usize> = running.iter().copied().filter(|place| *place > 0).collect();
            side.run_until(look, &who, self.control);
            for place in running {
                let (low, high) = self.target.interval_of(side.tally(place));
                let seen = &mut intervals[place];
                *seen = (seen.0.max(low), seen.1.min(high));
            }
            for place in std::mem::take(&mut open) {
                match self.target.verdict_of(side.tally(place)) {
                    Verdict::Below => below.push(place),
                    Verdict::Above | Verdict::CannotWork => clear_after[place] = look,
                    Verdict::NotClear => open.push(place),
                }
            }
            let settled =
                if below.is_empty() { open.is_empty() } else { look >= FINAL_RUNS.min(most) };
            if settled || self.control.is_stopped() {
                break;
            }
        }
        let tried = |place: usize, verdict: Verdict| Tried {
            set: sets[place].clone(),
            tally: side.tally(place).clone(),
            verdict,
            interval: intervals[place],
        };
        let by_rank = |a: &Tried, b: &Tried| {
            let (a, b) = (a.rank(), b.rank());
            a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1))
        };
        let soonest = |tried: &Tried| {
            if self.question.spare { self.aid.latest_arrival(&tried.set) } else { 0.0 }
        };
        let sure = (below.iter().map(|place| tried(*place, Verdict::Below)))
            .min_by(|a, b| soonest(a).total_cmp(&soonest(b)).then(by_rank(a, b)));
        let best = if open.is_empty() {
            (0..plans.len())
                .min_by(|a, b| {
                    let rank = |place: usize| tried(place, Verdict::Above).rank();
                    let (x, y) = (rank(*a), rank(*b));
                    (clear_after[*b].cmp(&clear_after[*a]))
                        .then(x.0.total_cmp(&y.0))
                        .then(x.1.total_cmp(&y.1))
                })
                .map(|place| tried(place, Verdict::Above))
        } else {
            open.iter().map(|place| tried(*place, Verdict::NotClear)).min_by(by_rank)
        };
        (sure, best)
    }
}

/// Two lists of places as one, in rising order.
fn merged(a: &[usize], b: &[usize]) -> Vec<usize> {
    let mut all: Vec<usize> = a.iter().chain(b).copied().collect();
    all.sort_unstable();
    all
}
