use shuttle_report::options_compared::{Apart, Interval};
use shuttle_report::units::Units;

use super::*;
use crate::Reader;
use crate::question::compare::figures::DifferenceFigures;

const US: Reader = Reader { units: Units::Us, tender: true };

/// An option with its share of fires short, what can be said of it, its cost and whether it is worth that.
fn option(
    name: &str,
    share: f64,
    verdict: Option<Against>,
    worth: Option<(f64, bool)>,
) -> OptionFigures {
    let none = Apart { by: 0.0, ci_low: 0.0, ci_high: 0.0, interval: Interval::Single };
    let by = share - 0.29;
    let apart = Apart { by, ci_low: by - 0.01, ci_high: by + 0.01, interval: Interval::Single };
    OptionFigures {
        name: name.to_owned(),
        cost: worth.map(|(cost, _)| cost),
        replications: 20_000,
        interruption_probability: share,
        ci_low: share,
        ci_high: share,
        interval: Interval::Single,
        reserve_touched: 0.0,
        interrupted_minutes_mean: 0.0,
        lowest_engine_gal_mean: 900.0,
        lowest_drop_tank_gal_mean: None,
        flow_gpm_mean: 500.0,
        higher_by: verdict.map(|_| DifferenceFigures {
            interruption_probability: apart,
            reserve_touched: none,
            interrupted_minutes_mean: None,
            lowest_engine_gal_mean: None,
            flow_gpm_mean: None,
        }),
        verdict,
        never_binds: false,
        cost_of_one_in_100: worth.map(|(cost, _)| cost / (-100.0 * by)),
        worth_having: worth.map(|(_, is_worth)| is_worth),
    }
}

fn lower(name: &str, share: f64, worth: Option<(f64, bool)>) -> OptionFigures {
    option(name, share, Some(Against::LowerChance), worth)
}

/// The plan as it stands, short in 29 fires of 100 or so many, and these options.
fn among(base: f64, options: Vec<OptionFigures>) -> CompareFigures {
    let costs = options.iter().any(|one| one.cost.is_some());
    let base = option("as it stands", base, None, None);
    let base = OptionFigures { worth_having: costs.then_some(true), ..base };
    let mut all = vec![base];
    all.extend(options);
    let best = (1..all.len()).filter(|place| all[*place].lowers_chance()).min_by(|a, b| {
        all[*a].interruption_probability.total_cmp(&all[*b].interruption_probability)
    });
    CompareFigures {
        best,
        as_good_as_best: Vec::new(),
        none_saves: all.iter().all(|one| one.interruption_probability > 0.5),
        unlike: None,
        together: crate::question::compare::TogetherFigures::default(),
        options: all,
    }
}

fn said(figures: &CompareFigures) -> String {
    US.put(&verdict(figures, &Base { stands: say!["as it stands"], others: "options" }))
}

#[test]
fn what_is_worth_its_money_is_named_with_its_price() {
    let one = among(
        0.29,
        vec![
            lower("second tank", 0.06, Some((2400.0, true))),
            lower("pump", 0.06, Some((9000.0, false))),
        ],
    );
    assert_eq!(
        said(&one),
        "Buy second tank for 2,400: the lines then run short in 6 fires of 100 instead of 29."
    );
    assert_eq!(
        cost(&one).map(|told| US.put(&told)).as_deref(),
        Some("each fire of 100 that no longer runs short costs 100.")
    );
    let told = advice(&one);
    assert_eq!(told.len(), 1);
    assert_eq!((US.put(&told[0].what).as_str(), told[0].cost), ("second tank", Some(2400.0)));
    let several = among(
        0.29,
        vec![lower("12", 0.02, Some((9000.0, true))), lower("drill", 0.2, Some((0.0, true)))],
    );
    assert_eq!(
        said(&several),
        "Worth their money, the dearer the better: drill at no cost or 12 for 9,000. With the last the lines \
         run short in 2 fires of 100 instead of 29."
    );
    let none = among(0.29, vec![lower("pump", 0.28, Some((9000.0, false)))]);
    assert!(said(&none).starts_with("Buy none of these: "), "{}", said(&none));
}

#[test]
fn without_costs_the_best_is_named() {
    let figures = among(0.29, vec![lower("Stone tanker", 0.1, None), lower("B", 0.2, None)]);
    assert_eq!(
        said(&figures),
        "Best is Stone tanker: the lines then run short in 10 fires of 100 instead of 29."
    );
    assert_eq!(advice(&figures).len(), 2);
    assert_eq!(cost(&figures), None);
}

#[test]
fn what_does_not_help_is_not_sold() {
    let hopeless = among(0.97, vec![lower("A", 0.9, Some((100.0, true)))]);
    assert_eq!(
        said(&hopeless),
        "None of these saves the plan: even with the best of them, A, the lines run short in 90 fires of 100."
    );
    assert_eq!((advice(&hopeless).len(), cost(&hopeless)), (0, None));
    let hopeless = among(1.0, vec![option("A", 1.0, Some(Against::NotToldApart), None)]);
    assert_eq!(
        said(&hopeless),
        "None of these saves the plan: the lines run short in every one of 20,000 fires as it stands, and \
         nothing here makes that rarer."
    );
    let worse = among(0.29, vec![option("A", 0.4, Some(Against::HigherChance), None)]);
    assert_eq!(
        said(&worse),
        "It gets worse with A: the lines then run short in 40 fires of 100 instead of 29."
    );
    let same = |name: &str| option(name, 0.29, Some(Against::NotToldApart), None);
    assert_eq!(
        said(&among(0.29, vec![same("A")])),
        "Shortfalls get no rarer with A: the lines run short in 29 fires of 100 as it stands."
    );
    assert_eq!(
        said(&among(0.0, vec![same("A"), same("B")])),
        "None of the two options makes shortfalls rarer: the lines run short in none of 20,000 fires as it \
         stands."
    );
}

#[test]
fn an_option_that_changes_nothing_in_any_fire_never_binds() {
    let same = OptionFigures {
        never_binds: true,
        replications: 512,
        ..option("gate down", 0.29, Some(Against::NotToldApart), None)
    };
    let figures = among(0.29, vec![same]);
    let told = never_bind(&without_effect(&figures)).map(|told| US.put(&told));
    assert_eq!(told.as_deref(), Some("gate down: no difference in any of 512 fires."));
    let other = option("gate down", 0.29, Some(Against::NotToldApart), None);
    assert_eq!(without_effect(&among(0.29, vec![other])).len(), 0);
}
