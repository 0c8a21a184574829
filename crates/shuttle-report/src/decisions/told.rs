//! A plan against another on common random numbers: better, worse, or not told apart.

use serde::Serialize;

use crate::runs::tally::{Pairs, Tally};
use crate::statistics::binomial::exact_interval;
use crate::statistics::confidence_for_each;
use crate::statistics::paired::{Difference, PairedShares};
use crate::statistics::paired_means::PairedMeans;

/// A difference in minutes short below this, three seconds a fire, is not worth reporting.
pub const NO_MINUTES: f64 = 0.05;

/// To end the runs of a plan is to say nothing of it but what its intervals say, so an ordinary interval is
/// enough to see that more runs are not worth their while.
pub const LIKELY: f64 = 0.95;

/// What the 95% of an interval are of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, schemars::JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Interval {
    /// Of this interval by itself, for one figure.
    Single,
    /// Of all intervals of its kind in the result at once, however long was looked on: a confidence sequence.
    AllAtOnce,
}

/// A difference, the one less the other, with its interval.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, schemars::JsonSchema)]
pub struct Apart {
    /// The observed difference.
    pub by: f64,
    /// Lower end.
    pub ci_low: f64,
    /// Upper end.
    pub ci_high: f64,
    /// What the 95% of the interval are of.
    pub interval: Interval,
}

impl Apart {
    /// A difference of means.
    fn of(difference: Difference, interval: Interval) -> Apart {
        let Difference { value: by, low: ci_low, high: ci_high } = difference;
        Apart { by, ci_low, ci_high, interval }
    }

    /// A difference from a chance that happened in so many runs of so many: a chance that is p can be no more than p
    /// lower and no more than 1 - p higher. What p is is known as far as the runs tell, and that is how far an end may
    /// go; cut at the observed share, an interval would leave out what is possible.
    fn of_chances(self, hits: u64, runs: u64, confidence: f64) -> Apart {
        if runs == 0 {
            return self;
        }
        let (low, high) = exact_interval(hits, runs, 0.5 * (1.0 + confidence));
        Apart { ci_low: self.ci_low.max(-high), ci_high: self.ci_high.min(1.0 - low), ..self }
    }
}

/// What can be said of a plan against another.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Verdict {
    /// The chance of interruption is significantly lower.
    LowerChance,
    /// It is significantly higher.
    HigherChance,
    /// The chances cannot be told apart, but there are significantly fewer minutes short, by [`NO_MINUTES`]
    /// or more.
    FewerMinutes,
    /// The chances cannot be told apart, but there are significantly more minutes short.
    MoreMinutes,
    /// Neither can be told apart.
    NotToldApart,
}

/// How surely plans are told apart.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rule {
    /// Confidence of each measure of each statement at each look, so that all hold at once.
    pub together: f64,
    /// Confidence of an interval that is shown by itself, at each look, so that it holds whenever the runs
    /// ended.
    pub alone: f64,
    /// A difference of chances below this does not matter.
    pub nothing: f64,
}

impl Rule {
    /// So many statements, each on both measures (the chance, and minutes short), at so many looks.
    pub fn new(statements: usize, looks: usize, nothing: f64) -> Rule {
        let looks = looks.max(1);
        Rule {
            together: confidence_for_each(0.95, 2 * statements.max(1) * looks),
            alone: confidence_for_each(0.95, looks),
            nothing,
        }
    }

    /// The same for statements on the chance alone.
    pub fn of_chances(statements: usize, looks: usize, nothing: f64) -> Rule {
        let together = confidence_for_each(0.95, statements.max(1) * looks.max(1));
        Rule { together, ..Rule::new(statements, looks, nothing) }
    }

    /// What can be said.
    pub fn verdict(self, pairs: &Pairs) -> Verdict {
        let chance = pairs.interrupted.difference(self.together);
        let minutes = (pairs.minutes_short.difference(self.together))
            .filter(|minutes| minutes.value.abs() >= NO_MINUTES);
        if chance.high < 0.0 {
            Verdict::LowerChance
        } else if chance.low > 0.0 {
            Verdict::HigherChance
        } else if minutes.is_some_and(|minutes| minutes.high < 0.0) {
            Verdict::FewerMinutes
        } else if minutes.is_some_and(|minutes| minutes.low > 0.0) {
            Verdict::MoreMinutes
        } else {
            Verdict::NotToldApart
        }
    }

    /// Whether more runs are worth nothing: the chances differ, or hardly by as much as matters.
    pub fn is_settled(self, shares: &PairedShares) -> bool {
        self.is_settled_within(shares, self.nothing)
    }

    /// The same with another difference that does not matter.
    pub fn is_settled_within(self, shares: &PairedShares, nothing: f64) -> bool {
        let likely = shares.difference(LIKELY);
        shares.difference(self.together).is_clear()
            || (likely.low > -nothing && likely.high < nothing)
    }

    /// The chance of a plan that has made some of the base's runs, with its interval.
    ///
    /// What the base's other runs say of the luck of these is used too: it is the base's chance and the
    /// difference on common runs, and so agrees with both as they are shown. Its interval adds up theirs, each
    /// with half the error. With as many runs as the base, or where all or none of its runs are interrupted, it is the
    /// plain share with its exact interval.
    pub fn chance_beside(self, base: &Tally, tally: &Tally) -> (f64, (f64, f64)) {
        let beside = base.chance() + tally.pairs.interrupted.difference(self.alone).value;
        let at_an_end = tally.interrupted == 0 || tally.interrupted == tally.runs;
        if tally.runs == base.runs || !(beside > 0.0 && beside < 1.0) || at_an_end {
            let interval = exact_interval(tally.interrupted, tally.runs, self.alone);
            return (tally.chance(), interval);
        }
        let each = 0.5 * (1.0 + self.alone);
        let (low, high) = exact_interval(base.interrupted, base.runs, each);
        let apart = tally.pairs.interrupted.difference(each);
        (beside, ((low + apart.low).max(0.0), (high + apart.high).min(1.0)))
    }

    /// The confidence of an interval.
    fn confidence(self, interval: Interval) -> f64 {
        match interval {
            Interval::Single => self.alone,
            Interval::AllAtOnce => self.together,
        }
    }

    /// The difference of a plan's chance from the base's, with such an interval.
    ///
    /// It is the difference on common runs. Where that leads to a chance beyond 0 or 1, or all or none of the plan's
    /// runs are interrupted, a reader who subtracts the chances would find another: there it is the plain
    /// difference of both, and its interval adds up theirs, each with half the error.
    pub fn apart_from(self, base: &Tally, tally: &Tally, interval: Interval) -> Apart {
        let confidence = self.confidence(interval);
        let on_common_runs = Apart::of(tally.pairs.interrupted.difference(confidence), interval);
        let beside = base.chance() + on_common_runs.by;
        let at_an_end = tally.interrupted == 0 || tally.interrupted == tally.runs;
        if tally.runs == base.runs || (beside > 0.0 && beside < 1.0 && !at_an_end) {
            return on_common_runs.of_chances(base.interrupted, base.runs, confidence);
        }
        let each = 0.5 * (1.0 + confidence);
        let (base_low, base_high) = exact_interval(base.interrupted, base.runs, each);
        let (low, high) = exact_interval(tally.interrupted, tally.runs, each);
        let by = tally.chance() - base.chance();
        Apart { by, ci_low: low - base_high, ci_high: high - base_low, interval }
    }

    /// A difference of chances as it is shown by itself.
    pub fn shown(self, shares: &PairedShares) -> Apart {
        let apart = Apart::of(shares.difference(self.alone), Interval::Single);
        apart.of_chances(shares.only_second + shares.both, shares.pairs(), self.alone)
    }

    /// A difference of means as it is shown by itself; `None`: of fewer than two pairs.
    pub fn shown_mean(self, means: &PairedMeans) -> Option<Apart> {
        means.difference(self.alone).map(|difference| Apart::of(difference, Interval::Single))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Without a true difference each pair that differs goes either way like a coin, so the words of a whole
    /// table of looks can be counted exactly: the chance that the interval leaves out zero at some look.
    #[test]
    fn at_no_difference_a_wrong_word_is_ever_said_less_often_than_shared_out() {
        // One pair of ten differs; looks at 512, 1024, ... 8192 pairs.
        let looks = [512_u64, 1024, 2048, 4096, 8192];
        for (statements, differs) in [(1, 0.1), (10, 0.1), (30, 0.02)] {
            let rule = Rule::new(statements, looks.len(), 0.005);
            let wrong = ever_clear(&looks, differs, rule.together);
            // Half the error of a statement is for the minutes.
            let allowed = 0.05 / (2.0 * f64::from(statements as u32));
            assert!(wrong <= 1.1 * allowed, "{statements}, {differs}: {wrong} of {allowed}");
            assert!(wrong > 0.1 * allowed, "{statements}, {differs}: {wrong} of {allowed}");
            // An interval for one look, looked at again and again, fails the same check.
            let naive = confidence_for_each(0.95, 2 * statements);
            let wrong = ever_clear(&looks, differs, naive);
            assert!(wrong > 1.5 * allowed, "looked at naively: {wrong} of {allowed}");
        }
    }

    /// The chance that the interval of a paired difference leaves out zero at one of the looks, where the truth
    /// is zero: worked out pair by pair over (pairs that differ as a fixed share, wins less losses).
    fn ever_clear(looks: &[u64], differs: f64, confidence: f64) -> f64 {
        let most = (*looks.last().expect("looks") as f64 * differs) as usize;
        // Wins less losses, from -most to most.
        let mut open = vec![0.0; 2 * most + 1];
        open[most] = 1.0;
        let (mut done, mut wrong) = (0, 0.0);
        for look in looks {
            let differing = (*look as f64 * differs) as usize;
            while done < differing {
                let mut next = vec![0.0; open.len()];
                for (place, chance) in open.iter().enumerate().filter(|(_, chance)| **chance > 0.0)
                {
                    next[place - 1] += 0.5 * chance;
                    next[place + 1] += 0.5 * chance;
                }
                open = next;
                done += 1;
            }
            for (place, chance) in open.iter_mut().enumerate().filter(|(_, chance)| **chance > 0.0)
            {
                let lead = place as i64 - most as i64;
                let wins = ((done as i64 + lead) / 2) as u64;
                let shares = PairedShares {
                    only_first: wins,
                    only_second: done as u64 - wins,
                    both: 0,
                    neither: look - done as u64,
                };
                if shares.difference(confidence).is_clear() {
                    wrong += std::mem::take(chance);
                }
            }
        }
        wrong
    }

    /// Pairs of runs of which so many are interrupted on both sides, before only, and after only.
    fn tally_of(runs: u64, both: u64, before: u64, after: u64) -> Tally {
        let mut tally = Tally { runs, interrupted: both + after, ..Tally::default() };
        for place in 0..runs {
            let is_before = place < both + before;
            let is_after = place < both || (both + before..both + before + after).contains(&place);
            tally.pairs.interrupted.add(is_after, is_before);
        }
        tally
    }

    /// A chance and its difference are what a reader finds by subtracting, also where the common runs were unlucky.
    #[test]
    fn a_difference_is_that_of_the_chances_shown() {
        let rule = Rule::new(1, 1, 0.005);
        // 6% of all runs, but 9% of the common ones; with the change none of them is interrupted.
        let base = Tally { runs: 20_000, interrupted: 1_200, ..Tally::default() };
        let rows = [
            (tally_of(500, 0, 45, 0), 0.0, -0.06),
            (tally_of(500, 45, 0, 455), 1.0, 0.94),
            // In between it is the difference on common runs.
            (tally_of(500, 45, 0, 50), 0.16, 0.1),
        ];
        for (tally, chance, by) in rows {
            let apart = rule.apart_from(&base, &tally, Interval::Single);
            assert!((rule.chance_beside(&base, &tally).0 - chance).abs() < 1e-12, "{chance}");
            assert!((apart.by - by).abs() < 1e-12, "{apart:?}");
            assert!(apart.ci_low < by && by < apart.ci_high, "{apart:?}");
        }
    }

    /// By hand: 6% of 20,000 runs are 5.6% to 6.4%, with half the error of an interval (6% and 2.24 times the root of
    /// 0.06 x 0.94 / 20,000). So a chance can be no more than 6.4% lower and no more than 94.4% higher, whatever few
    /// common runs leave open.
    #[test]
    fn no_difference_of_chances_leads_beyond_what_the_base_leaves() {
        let rule = Rule::new(1, 1, 0.005);
        let base = Tally { runs: 20_000, interrupted: 1_200, ..Tally::default() };
        for interval in [Interval::Single, Interval::AllAtOnce] {
            let confidence = rule.confidence(interval);
            let lower = tally_of(64, 1, 3, 0);
            assert!(lower.pairs.interrupted.difference(confidence).low < -0.1);
            let apart = rule.apart_from(&base, &lower, interval);
            assert!((-0.066..-0.06).contains(&apart.ci_low), "{apart:?}");
            assert!(apart.ci_low < apart.by && apart.by < apart.ci_high, "{apart:?}");
            assert_eq!(apart.interval, interval);
            let higher = tally_of(64, 4, 0, 58);
            assert!(higher.pairs.interrupted.difference(confidence).high > 0.946);
            let apart = rule.apart_from(&base, &higher, interval);
            assert!((0.94..0.946).contains(&apart.ci_high), "{apart:?}");
            assert!(apart.ci_low < apart.by && apart.by < apart.ci_high, "{apart:?}");
        }
    }
}
