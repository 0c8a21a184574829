use shuttle_report::units::Units;

use super::figures::{
    ChangeInDoubtFigures, InputFigures, OwnerFigures, RestsOnFigures, WorthTimingFigures,
};
use super::*;
use crate::Reader;
use crate::answer::{Block, Label};

const US: Reader = Reader { units: Units::Us, tender: false };

fn doubt() -> DoubtFigures {
    DoubtFigures {
        level: 0.8,
        draws: 256,
        fires_each: 128,
        interruption_probability_mean: 0.28,
        interruption_probability_low: 0.09,
        interruption_probability_high: 0.55,
        inputs: vec![
            InputFigures {
                of: OwnerFigures::FillSite { name: "Quarry pond".to_owned() },
                facts: vec!["out", "back"],
                rests_on: RestsOnFigures::Guess { factor: 1.25 },
                share_of_variance: 0.7,
            },
            InputFigures {
                of: OwnerFigures::EveryTanker,
                facts: vec!["fill_connect"],
                rests_on: RestsOnFigures::Readings { readings: 8 },
                share_of_variance: 0.2,
            },
        ],
        worth_timing: vec![WorthTimingFigures {
            input: 0,
            readings: 10,
            interruption_probability_low: 0.18,
            interruption_probability_high: 0.4,
        }],
        misses_target: None,
        first_change: None,
    }
}

fn point(block: Option<Block>) -> Option<(Label, String)> {
    match block? {
        Block::Point(label, sentence) => Some((label, US.put(&sentence))),
        other => panic!("{other:?}"),
    }
}

#[test]
fn the_range_is_said_in_the_breath_of_the_chance() {
    let both = doubt();
    assert_eq!(US.put(&anywhere(&both)), "With these timings and guesses, anywhere from 9 to 55.");
    let timed = DoubtFigures { inputs: both.inputs[1..].to_vec(), ..both.clone() };
    assert_eq!(US.put(&anywhere(&timed)), "With these timings, anywhere from 9 to 55.");
    let guessed = DoubtFigures { inputs: both.inputs[..1].to_vec(), ..both.clone() };
    assert_eq!(US.put(&anywhere(&guessed)), "With these guesses, anywhere from 9 to 55.");
    let close = DoubtFigures { interruption_probability_high: 0.095, ..guessed };
    assert_eq!(US.put(&anywhere(&close)), "With these guesses, hardly more or less.");
}

#[test]
fn what_to_time_is_named_with_the_range_to_be_expected() {
    let (label, told) = point(worth_timing(&doubt())).expect("one is worth it");
    assert_eq!(label, Label::TimeIt);
    assert_eq!(
        told,
        "the drive to Quarry pond and back, ten times: the range should narrow to about 18 to 40."
    );
    assert!(worth_timing(&DoubtFigures { worth_timing: Vec::new(), ..doubt() }).is_none());
}

#[test]
fn an_advice_that_doubt_can_overturn_says_so_and_a_sure_one_does_not() {
    let with = |does_not_help| DoubtFigures {
        first_change: Some(ChangeInDoubtFigures {
            higher_by_low: -0.2,
            higher_by_high: 0.01,
            does_not_help,
        }),
        ..doubt()
    };
    let (label, told) = point(advice_in_doubt(&with(0.22))).expect("it can");
    assert_eq!(label, Label::Careful);
    assert!(told.contains("22 cases of 100"), "{told}");
    assert!(advice_in_doubt(&with(0.05)).is_none());
    assert!(advice_in_doubt(&doubt()).is_none());
}

#[test]
fn a_target_that_may_be_missed_is_told_with_what_one_more_would_do() {
    let with = |misses| DoubtFigures { misses_target: Some(misses), ..doubt() };
    let one_more = Some((crate::say!["seven tankers"], 0.09));
    let (label, told) = point(may_miss(&with(0.38), one_more)).expect("it may");
    assert_eq!(label, Label::Careful);
    assert_eq!(
        told,
        "doubt can overturn this: in 38 cases of 100 of what may be true the target is missed; with seven \
         tankers, in 9."
    );
    assert_eq!(point(may_miss(&with(0.04), None)).expect("seldom").0, Label::Doubt);
    assert!(may_miss(&with(0.0), None).is_none());
}
