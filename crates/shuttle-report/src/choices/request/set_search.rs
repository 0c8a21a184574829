//! The search for the smallest set that is shown to be below the target.
//!
//! A set is sampled until its confidence sequence clears the target; the confidence of each is raised so that
//! a wrong decision about any set has a chance of at most 5% (Bonferroni).

use shuttle_sim::Plan;

use super::best_guess::best_guess;
use super::question_and_answer::{RequestQuestion, SizeRow};
use crate::changes::aid_sets::{Aid, Set};
use crate::choices::departments::Department;
use crate::decisions::looks::looks_from;
use crate::decisions::target::{Target, Verdict};
use crate::decisions::told::Rule;
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
    pub(super) departments: &'p [Department],
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

    /// The call each time that seems to help most, by a few fires; then one less each time, while that is still shown
    /// to be below.
    pub(super) fn one_by_one(&mut self) -> Option<Tried> {
        let mut sets = vec![vec![0; self.aid.kinds.len()]];
        let mut found = None;
        while let (None, Some(first)) = (&found, sets.first()) {
            let can_work: Vec<(Set, Plan)> =
                (sets.iter()).filter_map(|set| Some((set.clone(), self.aid.plan(set)?))).collect();
            let guess = best_guess(self, &can_work);
            let set = guess.map_or(first, |guess| &can_work[guess.soonest].0).clone();
            // The best by these fires may do where the soonest of those not told from it does not.
            let mut try_in_full = vec![set.clone()];
            if let Some(guess) = guess.filter(|guess| guess.best != guess.soonest) {
                try_in_full.push(can_work[guess.best].0.clone());
            }
            let (below, best) = self.try_all(&try_in_full, FIRST_LOOK);
            self.note(self.aid.units_of(&set), sets.len(), below.as_ref().or(best.as_ref()));
            found = below;
            if self.control.is_stopped() {
                break;
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
        let sure = self.preferred(&below, &sets, &side).map(|place| tried(place, Verdict::Below));
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

    /// Which to take of those that are shown to be below. Where there is to be something to spare, it is the one that
    /// is there soonest, as more is added anyway; else the one that runs short least, or, of those not told from it,
    /// the one that is there soonest.
    fn preferred(&self, below: &[usize], sets: &[&Set], side: &SideBySide<'_>) -> Option<usize> {
        let worth = |place: usize| {
            let tally = side.tally(place);
            (tally.chance(), tally.minutes_short_mean())
        };
        let lowest = below.iter().copied().min_by(|a, b| {
            let (a, b) = (worth(*a), worth(*b));
            a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1))
        })?;
        let rule = Rule::of_chances(below.len(), 1, 0.0);
        let as_good = |place: &usize| {
            let apart = side.tally(*place).against(side.tally(lowest));
            self.question.spare || *place == lowest || !apart.difference(rule.together).is_clear()
        };
        let as_good = below.iter().copied().filter(as_good);
        as_good.min_by(|a, b| {
            let (x, y) = (worth(*a), worth(*b));
            (self.aid.sooner(sets[*a], sets[*b]))
                .then(x.0.total_cmp(&y.0))
                .then(x.1.total_cmp(&y.1))
        })
    }
}

/// Two lists of places as one, in rising order.
fn merged(a: &[usize], b: &[usize]) -> Vec<usize> {
    let mut all: Vec<usize> = a.iter().chain(b).copied().collect();
    all.sort_unstable();
    all
}
