//! The search for the smallest set that is shown to be below the target.
//!
//! A set is sampled until its confidence sequence clears the target; the confidence of each is raised so that
//! a wrong decision about any set has a chance of at most 5% (Bonferroni).

use shuttle_sim::Plan;

use super::question_and_answer::{RequestQuestion, SizeRow};
use crate::aid_sets::{Aid, Set};
use crate::batch::Control;
use crate::fleet_size::Verdict;
use crate::side_by_side::{Record, SideBySide};
use crate::statistics::sequential::{Decision, confidence_sequence, decide};

/// Runs in the first look at a set.
const FIRST_LOOK: u64 = 64;
/// Sets of the right size that are below the target or still open are compared over this many runs.
const FINAL_RUNS: u64 = 2048;

/// A set that was tried.
pub(super) struct Tried {
    pub(super) set: Set,
    pub(super) record: Record,
    decision: Decision,
    /// Its confidence sequence: the running intersection over all looks, so that a decision is never
    /// reversed.
    pub(super) interval: (f64, f64),
}

impl Tried {
    fn rank(&self) -> (f64, f64) {
        (self.record.chance(), self.record.mean(self.record.minutes_short))
    }
}

/// The search in progress.
pub(super) struct Search<'p> {
    pub(super) aid: Aid<'p>,
    pub(super) question: RequestQuestion,
    pub(super) confidence: f64,
    pub(super) control: &'p Control,
    pub(super) sizes: Vec<SizeRow>,
}

impl Search<'_> {
    /// Every set, by size.
    pub(super) fn all_sets(&mut self, units: usize) -> Option<Tried> {
        for size in 0..=units {
            let sets = self.aid.sets_of(size);
            if let Some(best) = self.try_size(size, sets) {
                return Some(best);
            }
            if self.control.is_stopped() {
                return None;
            }
        }
        None
    }

    /// The best unit each time; then one less each time, while that is still shown to be below.
    pub(super) fn one_by_one(&mut self, units: usize) -> Option<Tried> {
        let mut set: Set = vec![0; self.aid.kinds.len()];
        let mut sets = vec![set.clone()];
        let mut found = None;
        for size in 0..=units {
            let (below, best) = self.try_all(&sets, FIRST_LOOK * 8);
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
                let record = &best.record;
                let (low, high) = best.interval;
                SizeRow {
                    units: size,
                    sets,
                    names: self.aid.names(&best.set),
                    runs: record.runs,
                    interruption_probability: record.chance(),
                    low,
                    high,
                    verdict: match best.decision {
                        Decision::Below => Verdict::Below,
                        Decision::Above => Verdict::Above,
                        Decision::NotClear => Verdict::NotClear,
                    },
                }
            }
            None => SizeRow {
                units: size,
                sets,
                names: Vec::new(),
                runs: 0,
                interruption_probability: 1.0,
                low: 1.0,
                high: 1.0,
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
        let mut side = SideBySide::new(plans.iter().collect(), self.question.luck);
        let mut open: Vec<usize> = (0..plans.len()).collect();
        let mut below: Vec<usize> = Vec::new();
        let mut clear_after = vec![0_u64; plans.len()];
        let mut intervals = vec![(0.0_f64, 1.0_f64); plans.len()];
        let decision = |record: &Record| {
            decide(record.interrupted, record.runs, self.question.target, self.confidence)
        };
        let mut look = first_look.min(most);
        loop {
            let running: Vec<usize> = merged(&open, &below);
            side.run_until(look, &running, self.control);
            for place in running {
                let record = &side.records()[place];
                let (low, high) =
                    confidence_sequence(record.interrupted, record.runs, self.confidence);
                let seen = &mut intervals[place];
                *seen = (seen.0.max(low), seen.1.min(high));
            }
            for place in std::mem::take(&mut open) {
                match decision(&side.records()[place]) {
                    Decision::Below => below.push(place),
                    Decision::Above => clear_after[place] = look,
                    Decision::NotClear => open.push(place),
                }
            }
            let settled = if below.is_empty() {
                open.is_empty() || look >= most
            } else {
                look >= FINAL_RUNS.min(most)
            };
            if settled || self.control.is_stopped() {
                break;
            }
            look = (2 * look).min(most);
        }
        let tried = |place: usize, decision: Decision| Tried {
            set: sets[place].clone(),
            record: side.records()[place].clone(),
            decision,
            interval: intervals[place],
        };
        let by_rank = |a: &Tried, b: &Tried| {
            let (a, b) = (a.rank(), b.rank());
            a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1))
        };
        let sure = below.iter().map(|place| tried(*place, Decision::Below)).min_by(by_rank);
        let best = if open.is_empty() {
            (0..plans.len())
                .min_by(|a, b| {
                    let rank = |place: usize| tried(place, Decision::Above).rank();
                    let (x, y) = (rank(*a), rank(*b));
                    (clear_after[*b].cmp(&clear_after[*a]))
                        .then(x.0.total_cmp(&y.0))
                        .then(x.1.total_cmp(&y.1))
                })
                .map(|place| tried(place, Decision::Above))
        } else {
            open.iter().map(|place| tried(*place, Decision::NotClear)).min_by(by_rank)
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
