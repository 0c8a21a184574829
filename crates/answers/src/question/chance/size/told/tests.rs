use shuttle_report::options_compared::Interval;
use std::path::Path;

use scenario_file::{STARTER, read};
use shuttle_report::units::Units;

use super::*;
use crate::Reader;
use crate::question::size::figures::LeftBehind;
use crate::shared::held_back::CauseShare;
use crate::shared::luck::SharedLuck;
use crate::shared::target::Side;

const TENDERS: Reader = Reader { units: Units::Us, tender: true };

/// So many of 512 fires run short with one, two, three tankers and so on; the target is 5%.
fn with(short: &[u64], listed: usize) -> SizeFigures {
    let row = |(place, hits): (usize, &u64)| FleetFigures {
        tankers: place + 1,
        adds: format!("Tanker {}", 3 + place),
        listed: place < listed,
        of_the_aid: false,
        replications: 512,
        interruption_probability: *hits as f64 / 512.0,
        ci_low: 0.0,
        ci_high: 1.0,
        interval: Interval::AllAtOnce,
        reserve_touched: 0.0,
        drop_tanks: 1,
        interrupted_minutes_mean: 0.0,
        verdict: if *hits < 20 { Side::Below } else { Side::Above },
    };
    let rows: Vec<FleetFigures> = short.iter().enumerate().map(row).collect();
    SizeFigures {
        beyond_arrive_min: None,
        target: 0.05,
        tankers: rows.iter().find(|row| row.verdict == Side::Below).map(|row| row.tankers),
        listed,
        aid: 0,
        perhaps: None,
        no_difference_beyond: None,
        held_back_by: Vec::new(),
        bottleneck: None,
        drop_tanks_left_behind: Vec::new(),
        reserve_gal: 400.0,
        most_held: None,
        rows,
        doubt: None,
        one_more_misses_target: None,
        shared_luck: SharedLuck::nothing(),
    }
}

fn said(figures: &SizeFigures) -> String {
    TENDERS.put(&verdict(figures, false))
}

#[test]
fn the_verdict_says_what_to_ask_for() {
    let rows = [
        (
            with(&[512, 10], 2),
            "The two tenders in the plan are enough: the lines then run short in 2 fires of 100, under the target of 5%.",
        ),
        (
            with(&[0], 2),
            "Of the two tenders in the plan one is enough: the lines then run short in none of 512 fires, under the target of 5%.",
        ),
        (
            with(&[512, 300, 1], 1),
            "It takes three tenders, the one in the plan and two more: the lines then run short in 1 fire of 510, under the target of 5%.",
        ),
    ];
    for (figures, wanted) in rows {
        assert_eq!(said(&figures), wanted);
    }
}

#[test]
fn where_no_number_is_enough_the_best_is_told() {
    let some = "More tenders alone will not do: with three, the best number tried, the lines still run short \
                in 20 fires of 100. The target is under 5%.";
    assert_eq!(said(&with(&[512, 200, 100, 101], 2)), some);
    let all = "More tenders alone will not do: with any number up to three the lines run short in every one \
               of 512 fires. The target is under 5%.";
    assert_eq!(said(&with(&[512, 512, 512], 2)), all);
    let mut no_tank = with(&[512], 1);
    no_tank.rows[0].verdict = Side::CannotWork;
    let cannot = "The plan cannot work with any number of tenders tried: no drop tank comes, and nursing is \
                  not allowed.";
    assert_eq!(said(&no_tank), cannot);
}

#[test]
fn what_too_few_fires_cannot_tell_is_said() {
    let mut close = with(&[512, 27], 2);
    close.perhaps = Some(2);
    let told = "With two tenders it is too close to tell: the lines run short in 5 fires of 100, and the \
                target is under 5%. More fires (--runs) would tell.";
    assert_eq!(said(&close), told);
    let ended = TENDERS.put(&verdict(&with(&[], 2), true));
    assert_eq!(ended, "Ended before it was clear how many tenders are enough.");
}

#[test]
fn what_holds_the_plan_back_comes_with_its_cure() {
    let scenario = read(Path::new("starter.json"), STARTER).expect("the starter");
    let mut figures = with(&[512, 512], 2);
    figures.held_back_by = vec![
        CauseShare { cause: "source_not_ready", share: 0.9 },
        CauseShare { cause: "haul_too_long", share: 0.08 },
        CauseShare { cause: "prime_lost", share: 0.02 },
    ];
    let told = held_back(&figures.held_back_by, &scenario.plan).expect("two causes");
    assert_eq!(
        TENDERS.put(&told),
        "tenders waited for a source that was not ready or had run down (90 of 100 shortfalls): a source \
         that is ready sooner and does not run down; the haul was too long for the tenders there are (8): a \
         nearer fill site or bigger loads."
    );
}

#[test]
fn a_name_with_our_words_stays_whole() {
    let mut figures = with(&[512, 3, 2], 2);
    figures.drop_tanks_left_behind =
        vec![LeftBehind { name: "Stone tanker, 3,000 gal".to_owned() }];
    let row = figures.rows[1].clone();
    let told = left_behind(&figures, &row).expect("a tank stays away");
    let told = Reader { units: Units::Metric, tender: true }.put(&told);
    assert_eq!(
        told,
        "with two tenders only one drop tank comes. Stone tanker, 3,000 gal would bring one more."
    );
}
