//! What may be said of plans, on counts made up so that the answer is plain.

use super::target::Target;
use super::told::{Rule, Verdict};
use crate::runs::tally::{Pairs, Tally};
use crate::statistics::binomial::exact_interval;
use crate::statistics::paired::PairedShares;
use crate::statistics::sequential::confidence_sequence;

/// 400 pairs.
fn shares(only_first: u64, only_second: u64) -> PairedShares {
    PairedShares { only_first, only_second, both: 100, neither: 300 - only_first - only_second }
}

fn close(got: f64, right: f64) {
    assert!((got - right).abs() < 1e-12, "{got}, by hand {right}");
}

#[test]
fn the_error_is_shared_over_measures_statements_and_looks() {
    // Bonferroni: 5% over 2 measures, 3 statements and 4 looks; on the chance alone over 3 and 4.
    let (both, chance) = (Rule::new(3, 4, 0.02), Rule::of_chances(3, 4, 0.02));
    close(both.together, 1.0 - 0.05 / 24.0);
    close(chance.together, 1.0 - 0.05 / 12.0);
    for rule in [both, chance] {
        close(rule.alone, 1.0 - 0.05 / 4.0);
        close(rule.nothing, 0.02);
    }
}

#[test]
fn a_chance_comes_before_minutes_and_what_hardly_matters_is_not_told() {
    let verdict = |only_first, only_second, minutes: f64| {
        let mut pairs = Pairs { interrupted: shares(only_first, only_second), ..Pairs::default() };
        for k in 0..400 {
            // A little spread around the difference.
            pairs.minutes_short.add(5.0 + minutes + 0.01 * f64::from(k % 3 - 1), 5.0);
        }
        Rule::new(1, 1, 0.02).verdict(&pairs)
    };
    assert_eq!(verdict(5, 60, 1.0), Verdict::LowerChance);
    assert_eq!(verdict(60, 5, -1.0), Verdict::HigherChance);
    assert_eq!(verdict(30, 30, -1.0), Verdict::FewerMinutes);
    assert_eq!(verdict(30, 30, 1.0), Verdict::MoreMinutes);
    // Three seconds a fire, 0.05 min, is the least that is told.
    assert_eq!(verdict(30, 30, -0.06), Verdict::FewerMinutes);
    assert_eq!(verdict(30, 30, -0.04), Verdict::NotToldApart);
    assert_eq!(verdict(30, 30, 0.04), Verdict::NotToldApart);
    // Minutes as wide apart as they are long tell nothing.
    let mut wide = Pairs { interrupted: shares(30, 30), ..Pairs::default() };
    (0..40).for_each(|k| wide.minutes_short.add(if k % 2 == 0 { 10.0 } else { -9.0 }, 0.0));
    assert_eq!(Rule::new(1, 1, 0.02).verdict(&wide), Verdict::NotToldApart);
}

#[test]
fn more_runs_are_worth_nothing_where_plans_differ_or_hardly_do() {
    let rule = Rule::new(1, 1, 0.02);
    assert!(rule.is_settled(&shares(60, 5)) && rule.is_settled(&shares(5, 60)));
    // Two of 400 either way: at most 1.2 of 100 apart, by 1.96 sqrt(4) / 400 and a little.
    assert!(rule.is_settled(&shares(2, 2)));
    assert!(!rule.is_settled_within(&shares(2, 2), 0.005));
    // 30 either way may be 3.8 of 100 apart.
    assert!(!rule.is_settled(&shares(30, 30)));
    assert!(rule.is_settled_within(&shares(30, 30), 0.05));
    // 1.5 of 100 apart, and perhaps 4, on either side.
    assert!(!rule.is_settled(&shares(10, 16)) && !rule.is_settled(&shares(16, 10)));
}

fn tally(runs: u64, interrupted: u64) -> Tally {
    Tally { runs, interrupted, ..Tally::default() }
}

#[test]
fn a_plan_with_fewer_runs_has_the_chance_of_the_base_and_what_it_differs_by() {
    let rule = Rule { together: 0.99, alone: 0.95, nothing: 0.02 };
    let beside = |base_hits, own, pairs| {
        let own = Tally { pairs: Pairs { interrupted: pairs, ..Pairs::default() }, ..own };
        rule.chance_beside(&tally(1000, base_hits), &own)
    };
    // 30 of 100, and 5 of 100 more on common runs; each interval with half the error.
    let pairs = shares(40, 20);
    let (chance, (low, high)) = beside(300, tally(400, 140), pairs);
    close(chance, 0.35);
    let (base, apart) = (exact_interval(300, 1000, 0.975), pairs.difference(0.975));
    close(low, base.0 + apart.low);
    close(high, base.1 + apart.high);
    assert!(low > 0.2 && high < 0.5);
    // With as many runs as the base, and where the sum is no chance, it is the plain share.
    let plain = |hits, runs| (hits as f64 / runs as f64, exact_interval(hits, runs, 0.95));
    assert_eq!(beside(300, tally(1000, 340), pairs), plain(340, 1000));
    assert_eq!(beside(10, tally(400, 3), shares(0, 40)), plain(3, 400));
    assert_eq!(beside(990, tally(400, 399), shares(40, 0)), plain(399, 400));
    // An end beyond 0 or 1 is 0 or 1.
    assert_eq!(beside(120, tally(400, 10), shares(0, 40)).1.0, 0.0);
    assert_eq!(beside(880, tally(400, 390), shares(40, 0)).1.1, 1.0);
}

#[test]
fn the_interval_of_a_target_is_the_confidence_sequence_at_its_confidence() {
    let target = Target::for_all(0.05, 5);
    close(target.confidence, 0.99);
    let right = confidence_sequence(12, 200, 0.99);
    assert_eq!(target.interval(12, 200), right);
    assert_eq!(target.interval_of(&tally(200, 12)), right);
}
