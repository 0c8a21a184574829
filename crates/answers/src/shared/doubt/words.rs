//! Doubt in sentences and tables.

use shuttle_report::chart::chance_in_doubt::{Kind, Row};
use shuttle_report::doubt::asked::HARDLY;

use super::MAY_OVERTURN;
use super::figures::{DoubtFigures, RestsOnFigures};
use super::inputs::{input, rests_on};
use crate::Reader;
use crate::answer::{Block, Label};
use crate::say;
use crate::say::{Align, Chances, Piece, Sentence, Table, joined};

/// Of the readings that would help so many are told in the first answer.
const FEW: usize = 2;

/// "With these timings, anywhere from 9 to 31.": behind how many fires of 100 it is.
pub fn anywhere(doubt: &DoubtFigures) -> Sentence {
    let (low, high) = (doubt.interruption_probability_low, doubt.interruption_probability_high);
    if high - low < HARDLY {
        return say![on_what(doubt), " hardly more or less."];
    }
    say![on_what(doubt), " anywhere from ", end(doubt, low), " to ", end(doubt, high), "."]
}

/// "With these timings", "With these guesses", "With these timings and guesses".
fn on_what(doubt: &DoubtFigures) -> &'static str {
    let guessed =
        doubt.inputs.iter().any(|input| matches!(input.rests_on, RestsOnFigures::Guess { .. }));
    let timed =
        doubt.inputs.iter().any(|input| matches!(input.rests_on, RestsOnFigures::Readings { .. }));
    match (timed, guessed) {
        (true, true) => "With these timings and guesses,",
        (true, false) => "With these timings,",
        _ => "With these guesses,",
    }
}

fn end(doubt: &DoubtFigures, share: f64) -> Piece {
    Piece::OfHundred(Chances::of(share, doubt.fires()), 0)
}

/// That the first change that is recommended may not help after all; `None` where it surely enough does.
pub fn advice_in_doubt(doubt: &DoubtFigures) -> Option<Block> {
    let change = doubt.first_change.filter(|change| change.does_not_help >= MAY_OVERTURN)?;
    let told = say![
        "doubt can overturn the first advice: in ",
        share_of_cases(change.does_not_help),
        " of what may be true it does not help.",
    ];
    Some(Block::Point(Label::Careful, told))
}

/// "20 cases of 100".
fn share_of_cases(share: f64) -> Sentence {
    say![Piece::Number(100.0 * share, 0), " cases of 100"]
}

/// Which few readings would settle most.
pub fn worth_timing(doubt: &DoubtFigures) -> Option<Block> {
    let worth = doubt.worth_timing.iter().take(FEW).enumerate();
    let steps: Vec<Sentence> = worth
        .map(|(place, worth)| {
            let narrows = match place {
                0 => ", ten times: the range should narrow to about ",
                _ => ": to ",
            };
            let (low, high) =
                (worth.interruption_probability_low, worth.interruption_probability_high);
            let range = say![end(doubt, low), " to ", end(doubt, high)];
            say![input(&doubt.inputs[worth.input]), narrows, range]
        })
        .collect();
    if steps.is_empty() {
        return None;
    }
    let told = say![joined(steps, "; ", "; "), "."];
    Some(Block::Point(Label::TimeIt, told))
}

/// What rests on what, what each makes of the range, and what ten readings would.
pub fn more(doubt: &DoubtFigures) -> Vec<Block> {
    let mut table = Table::new(vec![
        (say!["in doubt"], Align::Left),
        (say!["rests on"], Align::Left),
        (say!["of the variance"], Align::Right),
        (say!["range with ten readings more"], Align::Left),
    ]);
    for (place, one) in doubt.inputs.iter().enumerate() {
        let worth = doubt.worth_timing.iter().find(|worth| worth.input == place);
        let range = worth.map_or_else(Sentence::default, |worth| {
            say![
                end(doubt, worth.interruption_probability_low),
                " to ",
                end(doubt, worth.interruption_probability_high),
            ]
        });
        table.row(vec![
            input(one),
            rests_on(one.rests_on),
            say![Piece::Number(100.0 * one.share_of_variance, 0), "%"],
            range,
        ]);
    }
    let how = say![
        "The range holds ",
        Piece::Number(100.0 * doubt.level, 0),
        " of 100 cases of what the inputs may be: ",
        Piece::Number(doubt.draws as f64, 0),
        " draws of them, ",
        Piece::Number(doubt.fires_each as f64, 0),
        " fires under each, without the luck of so few fires. What is not listed was taken as known. What readings \
         would do is what is to be expected; they will move the middle too.",
    ];
    vec![Block::Gap, Block::Table(table), Block::Paragraph(how)]
}

/// How often what is recommended misses the target after all; `None` where the range never reaches it.
///
/// - Given: where it was looked at, what one more would do: its name in words and the share of cases.
pub fn may_miss(doubt: &DoubtFigures, one_more: Option<(Sentence, f64)>) -> Option<Block> {
    let misses = doubt.misses_target.filter(|misses| *misses >= 0.005)?;
    let overturns = misses >= MAY_OVERTURN;
    let told = say![
        if overturns { "doubt can overturn this: in " } else { "in " },
        share_of_cases(misses),
        " of what may be true the target is missed",
        match one_more {
            Some((more, share)) => say!["; with ", more, ", in ", Piece::Number(100.0 * share, 0)],
            None => say![],
        },
        ".",
    ];
    Some(Block::Point(if overturns { Label::Careful } else { Label::Doubt }, told))
}

/// The rows of the picture: the chance if the inputs are right, its range, and what readings would make of that.
///
/// - Given: `right`, the chance if the inputs are right with the ends of its interval.
pub fn ranges(doubt: &DoubtFigures, right: [f64; 3], reader: &Reader) -> Vec<Row> {
    let row = |label: String, at: Option<f64>, low: f64, high: f64, kind: Kind| Row {
        label,
        at,
        low,
        high,
        kind,
    };
    let mut rows = vec![
        row("if the inputs are right".to_owned(), Some(right[0]), right[1], right[2], Kind::Runs),
        row(
            "over what they may be".to_owned(),
            None,
            doubt.interruption_probability_low,
            doubt.interruption_probability_high,
            Kind::Inputs,
        ),
    ];
    for worth in &doubt.worth_timing {
        let what = reader.put(&input(&doubt.inputs[worth.input]));
        let (low, high) = (worth.interruption_probability_low, worth.interruption_probability_high);
        rows.push(row(format!("after ten readings: {what}"), None, low, high, Kind::ToBeExpected));
    }
    rows
}
