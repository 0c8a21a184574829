//! The greatest of something that still holds in a stated share of runs: a flow, a distance.
//!
//! What is tried lies on a grid of steps from 1 up, easy to hard. A glance at a few runs a step finds where the
//! answer lies; there steps are sampled until it is clear on which side of the stated share they lie, ever
//! longer, until the greatest that is shown to hold and the least that is shown to fail are near enough to each
//! other or the runs allowed are used up.
//!
//! # What is guaranteed
//!
//! Every step is decided by a confidence sequence (Ville's inequality), so it may be looked at after any number
//! of runs, and those of the glance count too. All steps run on common random numbers. Where a run that breaks
//! at a step breaks at every harder one, a harder step has never fewer broken runs than an easier one: then
//! "holds" is wrong of any step too hard only if it would be wrong of the easiest of them, and "fails" of any
//! step easy enough only if of the hardest of these. So however a search chooses its steps, it makes two
//! statements that can be wrong, and the two sides of one confidence sequence pay for both. All searches of
//! one answer hold simultaneously at 95% (Bonferroni). As the order of runs is not quite strict (more flow
//! now and then moves a tanker's turn to the better), each search is given a `MARGIN` of so many times the
//! confidence: as if so many pairs of steps had been fixed beforehand.

use serde::Serialize;

use super::demand::Trial;
use super::tried::Tried;
use crate::decisions::target::{Target, Verdict};
use crate::runs::control::{Control, SameLuck};

/// The confidence asked for, and the runs allowed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Search {
    /// Share of runs in which it must hold, between 0 and 1.
    pub share: f64,
    /// Most runs for any one step.
    pub most_runs: u64,
    /// The seed and threads.
    pub luck: SameLuck,
    /// Searches of the whole answer, at least 1: their verdicts hold simultaneously at 95%.
    pub searches: usize,
    /// Runs of a step that are worth making to find the very next step.
    pub to_be_exact: u64,
    /// Beyond these runs, the part of the answer that may stay unclear between the step that holds and the one
    /// that fails: at least one step where that is a tenth of it or less.
    pub within: f64,
}

/// One step looked at.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Look {
    /// Which step.
    pub step: u32,
    /// Runs made.
    pub replications: u64,
    /// Runs in which it did not hold.
    pub broken: u64,
    /// Of these, runs in which the crew had no water in time.
    pub late: u64,
    /// Lower end of the confidence sequence of the share that holds.
    pub holds_low: f64,
    /// Upper end of it.
    pub holds_high: f64,
    /// Of the chance that it does not hold: below what is allowed, it holds; above, it fails.
    pub verdict: Verdict,
    /// The cause of the most first breaks, and its share of them.
    pub main_cause: Option<(&'static str, f64)>,
}

impl Look {
    /// Shown to hold.
    pub fn holds(&self) -> bool {
        self.verdict == Verdict::Below
    }

    /// Shown to fail.
    pub fn fails(&self) -> bool {
        matches!(self.verdict, Verdict::Above | Verdict::CannotWork)
    }
}

/// What a search found.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Greatest {
    /// The greatest step that is shown to hold; `None` if none does.
    pub holds: Option<u32>,
    /// The least step above it that is shown to fail; `None` if the search met none.
    pub fails: Option<u32>,
    /// A harder step was seen to hold where an easier one fails: the answer is the lower one.
    pub uneven: bool,
    /// Every step looked at, in rising order.
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
                .filter(|look| look.verdict == Verdict::NotClear)
                .map(|look| look.step)
                .max()
        })?;
        (last > below).then_some(last)
    }

    /// Runs made in all.
    pub fn replications(&self) -> u64 {
        self.looks.iter().map(|look| look.replications).sum()
    }
}

/// How many times surer than its share of the error each search is made; see the head of this module.
const MARGIN: usize = 2;
/// Runs of each unclear step in the first round; twice as many in each that follows.
const FIRST_ROUND: u64 = 256;
/// Most steps one search looks at; bisection of 4,000 steps takes 12, an unclear stretch as many again.
const MOST_STEPS: usize = 40;

/// Finds the greatest step that holds.
///
/// - Given: `likely`, where to begin, from 1 to `top`; `asked`, a step whose side must be known, if one must;
///   `trial_at`, what to run at a step, or `None` where it cannot work at all.
pub fn greatest_step(
    likely: u32,
    asked: Option<u32>,
    top: u32,
    search: Search,
    control: &Control,
    trial_at: impl Fn(u32) -> Option<Trial>,
) -> Greatest {
    let target = Target::for_all(1.0 - search.share, search.searches.max(1) * MARGIN);
    let mut hunt = Hunt { steps: Steps::new(), top, search, target, control, trial_at };
    if let Some(asked) = asked {
        hunt.run(asked, search.most_runs);
    }
    let place = hunt.glance_about(likely.clamp(1, top));
    let slack = hunt.slack(place, FIRST_ROUND);
    hunt.run(place.saturating_sub(slack / 2).max(1), FIRST_ROUND);
    hunt.run((place + slack.div_ceil(2) + 1).min(top), FIRST_ROUND);
    let mut most = FIRST_ROUND.min(search.most_runs);
    loop {
        while let Some(step) = hunt.next_step(most).filter(|_| hunt.may_go_on()) {
            hunt.run(step, most);
        }
        if most >= search.most_runs || !hunt.may_go_on() || hunt.is_near_enough(most) {
            break;
        }
        most = (2 * most).min(search.most_runs);
    }
    if search.to_be_exact > 0 {
        hunt.look_beside(search.most_runs);
    }
    hunt.found()
}

type Steps = std::collections::BTreeMap<u32, Tried>;

/// A search in progress.
struct Hunt<'c, At> {
    steps: Steps,
    top: u32,
    search: Search,
    target: Target,
    control: &'c Control,
    trial_at: At,
}

impl<At: Fn(u32) -> Option<Trial>> Hunt<'_, At> {
    fn step(&mut self, step: u32) -> &mut Tried {
        self.steps.entry(step).or_insert_with(|| Tried::new((self.trial_at)(step)))
    }

    fn run(&mut self, step: u32, most: u64) {
        let (target, luck, control) = (self.target, self.search.luck, self.control);
        let most = most.min(self.search.most_runs);
        self.step(step).run_until(most, target, luck, control);
    }

    fn may_go_on(&self) -> bool {
        self.steps.len() < MOST_STEPS && !self.control.is_stopped()
    }

    /// How many steps may stay unclear where the answer is about this one, once they have so many runs.
    fn slack(&self, step: u32, runs: u64) -> u32 {
        if runs < self.search.to_be_exact || step < 10 {
            return 0;
        }
        ((self.search.within * f64::from(step)) as u32).max(1)
    }

    /// About where the answer is: the greatest step of which few runs show no more breaks than are allowed.
    fn glance_about(&mut self, likely: u32) -> u32 {
        let allowed = 1.0 - self.search.share;
        // Enough to see one or two breaks where as many break as may.
        let runs = (1.6 / allowed).clamp(32.0, 1024.0);
        let few = (runs * allowed) as u64;
        let runs = (runs as u64).min(self.search.most_runs);
        let (luck, control) = (self.search.luck, self.control);
        let (mut low, mut high) = bracket(&ends_of(&self.steps), self.top);
        let mut step = likely;
        while high - low > 1 + self.slack(low, FIRST_ROUND) && !control.is_stopped() {
            step = step.clamp(low + 1, high - 1);
            let stride = (step / 5).max(1);
            if self.step(step).glance(runs, few, luck, control) {
                low = step;
                step = if high > self.top { step + stride } else { low.midpoint(high) };
            } else {
                high = step;
                step = if low == 0 { step - stride } else { low.midpoint(high) };
            }
        }
        low.max(1)
    }

    fn is_near_enough(&self, runs: u64) -> bool {
        let (low, high) = bracket(&ends_of(&self.steps), self.top);
        low > 0 && high - low <= 1 + self.slack(low, runs)
    }

    /// The step most worth running, with up to `most` runs, or `None` when all that can be settled with so many
    /// is, or the answer is near enough.
    fn next_step(&self, most: u64) -> Option<u32> {
        if self.is_near_enough(most) {
            return None;
        }
        let looked: Vec<(u32, Verdict, u64)> = (self.steps.iter())
            .filter(|(_, tried)| !tried.only_glanced)
            .map(|(step, tried)| (*step, tried.verdict, tried.counts.runs))
            .collect();
        next_step(&looked, self.top, most)
    }

    /// The steps next to the answer, to see whether the order of steps is odd there.
    fn look_beside(&mut self, most: u64) {
        let (holds, fails) = ends_of(&self.steps);
        for step in [holds.map(|step| step - 1), fails.map(|step| step + 1)].into_iter().flatten() {
            if (1..=self.top).contains(&step) && self.may_go_on() {
                self.run(step, most);
            }
        }
    }

    fn found(self) -> Greatest {
        let (holds, fails) = ends_of(&self.steps);
        let looks: Vec<Look> = (self.steps.into_iter())
            .filter(|(_, tried)| !tried.only_glanced)
            .map(|(step, tried)| Look {
                step,
                replications: tried.counts.runs,
                broken: tried.counts.broken,
                late: tried.counts.late,
                holds_low: 1.0 - tried.interval.1,
                holds_high: 1.0 - tried.interval.0,
                verdict: tried.verdict,
                main_cause: tried.counts.main_cause().map(|(cause, share)| (cause.key(), share)),
            })
            .collect();
        let uneven =
            fails.is_some_and(|fails| looks.iter().any(|look| look.holds() && look.step > fails));
        Greatest { holds, fails, uneven, looks }
    }
}

type Ends = (Option<u32>, Option<u32>);

fn ends_of(steps: &Steps) -> Ends {
    ends(steps.iter().map(|(step, tried)| (*step, tried.verdict)))
}

/// The greatest step that holds below every one that fails, and the least that fails.
fn ends(looked: impl Iterator<Item = (u32, Verdict)> + Clone) -> Ends {
    let fails = (looked.clone())
        .filter(|(_, verdict)| matches!(verdict, Verdict::Above | Verdict::CannotWork))
        .map(|(step, _)| step)
        .min();
    let holds = looked
        .filter(|(step, verdict)| {
            *verdict == Verdict::Below && fails.is_none_or(|fails| *step < fails)
        })
        .map(|(step, _)| step)
        .max();
    (holds, fails)
}

/// The same with the ends of the grid where nothing is known yet.
fn bracket((holds, fails): &Ends, top: u32) -> (u32, u32) {
    (holds.unwrap_or(0), fails.unwrap_or(top + 1))
}

/// The step most worth running next.
///
/// - Given: the steps looked at in rising order, with their verdicts and runs; `most`, the runs any may have.
fn next_step(looked: &[(u32, Verdict, u64)], top: u32, most: u64) -> Option<u32> {
    let (low, high) = bracket(&ends(looked.iter().map(|(step, side, _)| (*step, *side))), top);
    let unclear: Vec<(u32, u64)> = (looked.iter())
        .filter(|(step, side, _)| *side == Verdict::NotClear && low < *step && *step < high)
        .map(|(step, _, runs)| (*step, *runs))
        .collect();
    // One that is short of runs is run before anything else is built on it.
    if let Some((step, _)) =
        [unclear.first(), unclear.last()].into_iter().flatten().find(|(_, runs)| *runs < most)
    {
        return Some(*step);
    }
    let first = unclear.first().map_or(high, |(step, _)| *step);
    let last = unclear.last().map_or(low, |(step, _)| *step);
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

#[cfg(test)]
mod tests {
    use super::*;

    /// A search over steps that hold by a rule, without runs.
    fn found(first: &[u32], top: u32, side: impl Fn(u32) -> Verdict) -> Greatest {
        let mut looked: Vec<(u32, Verdict, u64)> =
            first.iter().map(|step| (*step, side(*step), 1)).collect();
        while let Some(step) = next_step(&looked, top, 1) {
            looked.push((step, side(step), 1));
            looked.sort_by_key(|(step, ..)| *step);
            assert!(looked.len() < 100, "the search ends: {looked:?}");
        }
        let (holds, fails) = ends(looked.iter().map(|(step, side, _)| (*step, *side)));
        let look = |(step, verdict, replications): (u32, Verdict, u64)| Look {
            step,
            replications,
            broken: 0,
            late: 0,
            holds_low: 0.0,
            holds_high: 1.0,
            verdict,
            main_cause: None,
        };
        Greatest { holds, fails, uneven: false, looks: looked.into_iter().map(look).collect() }
    }

    #[test]
    fn the_place_is_found_from_wherever_the_search_begins() {
        for begin in [1, 20, 50, 51, 90, 400] {
            for edge in [0, 1, 50, 399, 400] {
                let side = |step| if step <= edge { Verdict::Below } else { Verdict::Above };
                let found = found(&[begin], 400, side);
                assert_eq!(found.holds, (edge > 0).then_some(edge), "from {begin}");
                assert_eq!(found.fails, (edge < 400).then_some(edge + 1), "from {begin}");
                assert!(found.looks.len() < MOST_STEPS, "{} looks", found.looks.len());
            }
        }
    }

    #[test]
    fn both_ends_of_an_unclear_stretch_are_found() {
        for (low, high) in [(40, 45), (40, 42), (0, 3), (395, 401)] {
            let side = |step| match step {
                step if step <= low => Verdict::Below,
                step if step >= high => Verdict::Above,
                _ => Verdict::NotClear,
            };
            let found = found(&[25], 400, side);
            assert_eq!(found.holds, (low > 0).then_some(low));
            assert_eq!(found.fails, (high <= 400).then_some(high));
            let unclear = (high > low + 1).then_some((high - 1).min(400));
            assert_eq!(found.unclear_up_to(), unclear);
        }
    }

    #[test]
    fn an_unclear_step_at_an_end_is_run_longer_and_one_in_the_middle_is_not() {
        let side = |step, verdict, runs| (step, verdict, runs);
        let looked = [
            side(10, Verdict::Below, 300),
            side(11, Verdict::NotClear, 512),
            side(12, Verdict::NotClear, 256),
            side(13, Verdict::NotClear, 512),
            side(14, Verdict::Above, 100),
        ];
        assert_eq!(next_step(&looked, 400, 512), None);
        assert_eq!(next_step(&looked, 400, 1024), Some(11));
    }
}
