//! What `levers` says at its edges: nothing shows, only the minutes do, nothing can be bettered.

use shuttle_report::changes::input::{Input, Quantity, Way};
use shuttle_report::levers::{LeverAnswer, LeverRow, Moved};
use shuttle_report::options_compared::{Apart, Interval, Verdict};
use shuttle_report::units::Units;

use super::told::told;
use crate::answer::{Block, Label, Told};
use crate::reader::Reader;
use crate::shared::in_tests::{self, starter};

const US: Reader = Reader { units: Units::Us, tender: false };

fn apart(by: f64) -> Apart {
    Apart { by, ci_low: by - 0.01, ci_high: by + 0.01, interval: Interval::Single }
}

fn moved(way: Way, share: f64, verdict: Verdict) -> Moved {
    Moved {
        way,
        replications: 1_000,
        interruption_probability: share,
        ci_low: share,
        ci_high: share,
        higher_by: apart(share - 0.1),
        more_minutes: Some(apart(-0.2)),
        reserve_touched_by: apart(0.1),
        verdict,
        never_binds: false,
    }
}

fn row(input: Input, moves: [Option<Moved>; 2]) -> LeverRow {
    let [better, worse] = moves;
    LeverRow {
        input,
        now: Quantity::Gpm(900.0),
        amount: Quantity::Gpm(100.0),
        is_clear: better.iter().chain(&worse).any(|one| one.verdict != Verdict::NotToldApart),
        better,
        worse,
    }
}

fn found(share: f64, rows: Vec<LeverRow>) -> LeverAnswer {
    LeverAnswer {
        title: "Barn".to_owned(),
        interruption_probability: share,
        ci_low: share,
        ci_high: share,
        reserve_touched: 0.3,
        interrupted_minutes_mean: 0.5,
        replications: 1_000,
        rows,
        seed: 1,
        ended_early: false,
    }
}

fn said(found: &LeverAnswer) -> Told {
    told(&starter(), found)
}

fn point(told: &Told, wanted: Label) -> Option<String> {
    in_tests::point(told, wanted, &US)
}

#[test]
fn the_best_and_the_worst_move_are_named() {
    let better = moved(Way::More, 0.02, Verdict::LowerChance);
    let worse = moved(Way::Less, 0.65, Verdict::HigherChance);
    let told = said(&found(
        0.1,
        vec![row(Input::SiteFlow { site: "gpm mill".to_owned() }, [Some(better), Some(worse)])],
    ));
    assert_eq!(
        US.put(&told.verdict),
        "Worth most: flow at gpm mill, 100 gpm more. The lines then run short in 2 fires of 100; as it \
         stands, in 10 fires of 100."
    );
    assert_eq!(
        point(&told, Label::Worse).as_deref(),
        Some("hurts most: flow at gpm mill, 100 gpm less: short in 65 fires of 100.")
    );
}

#[test]
fn where_only_the_minutes_short_show_they_are_told() {
    let better = moved(Way::More, 0.1, Verdict::FewerMinutes);
    let told = said(&found(0.1, vec![row(Input::PumpAndLay, [Some(better), None])]));
    assert_eq!(
        US.put(&told.verdict),
        "Nothing that was moved a little shows in how often the lines run short, 10 fires of 100. It shows \
         in the minutes short, most with flow through pump and lay, 100 gpm more: 0.50 -> 0.30 a fire."
    );
}

#[test]
fn where_nothing_shows_nothing_is_praised() {
    let same = moved(Way::More, 0.1, Verdict::NotToldApart);
    let told = said(&found(0.1, vec![row(Input::PumpAndLay, [Some(same.clone()), None])]));
    assert_eq!(
        US.put(&told.verdict),
        "Nothing that was moved a little shows in how often the lines run short, 10 fires of 100."
    );
    assert!(!told.points.iter().any(|block| matches!(block, Block::Table(_))));
    let told = said(&found(0.0, vec![row(Input::PumpAndLay, [Some(same), None])]));
    assert_eq!(
        US.put(&told.verdict),
        "As it stands the lines run short in none of 1,000 fires: no move can better that."
    );
}

#[test]
fn what_changes_nothing_in_any_fire_never_binds() {
    let same = |way| Moved { never_binds: true, ..moved(way, 0.1, Verdict::NotToldApart) };
    let unlike = moved(Way::Less, 0.1, Verdict::NotToldApart);
    let told = said(&found(
        0.1,
        vec![
            row(Input::PumpAndLay, [Some(same(Way::More)), Some(unlike)]),
            row(
                Input::SiteFlow { site: "mill".to_owned() },
                [Some(same(Way::More)), Some(same(Way::Less))],
            ),
        ],
    ));
    assert_eq!(
        point(&told, Label::NoGain).as_deref(),
        Some(
            "flow through pump and lay (100 gpm more) and flow at mill (100 gpm more or less): no difference in \
             any of 1,000 fires."
        )
    );
}

#[test]
fn what_hurts_although_it_should_help_is_told() {
    let odd = moved(Way::More, 0.4, Verdict::HigherChance);
    let told = said(&found(0.1, vec![row(Input::PumpAndLay, [Some(odd), None])]));
    assert_eq!(
        point(&told, Label::Careful).as_deref(),
        Some("hurts although one would expect help: flow through pump and lay, 100 gpm more.")
    );
    assert!(US.put(&told.verdict).starts_with("Nothing that was moved a little surely helps"));
}

#[test]
fn another_reserve_is_told_of_fires_of_a_hundred() {
    let more = moved(Way::More, 0.1, Verdict::NotToldApart);
    let told = said(&found(0.1, vec![row(Input::Reserve, [None, Some(more)])]));
    assert_eq!(
        point(&told, Label::Reserve).as_deref(),
        Some("the 900 gpm for backing out are used in 30 fires of 100; with 100 gpm more 40.")
    );
}
