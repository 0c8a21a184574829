//! What `levers` says.

use scenario_file::Scenario;
use shuttle_report::levers::{LeverAnswer, LeverRow, Moved};
use shuttle_report::options_compared::Verdict;

use super::inputs::{amount_words, input_words, is_demand, is_reserve, moved_words, now_words};
use super::{as_it_stands, chances, interval, is_unexpected, minutes_digits, moves, tables};
use crate::answer::{Block, Label, Told};
use crate::say;
use crate::say::{Chances, Piece, Sentence, column_digits, joined};
use crate::shared::never_binds::never_bind;
use crate::shared::{aid_not_asked, headline, notes_that_matter};

/// Shares nearer than this to none or all are not told in fires of 100. Judgement.
const RARE: f64 = 0.01;

/// An input and one way it was moved.
type Move<'a> = (&'a LeverRow, &'a Moved);

/// The answer in sentences.
pub fn told(scenario: &Scenario, found: &LeverAnswer) -> Told {
    let is_empty = found.replications == 0;
    let (mut points, mut more) = (Vec::new(), Vec::new());
    if !is_empty {
        points.extend(worse(found).map(|told| Block::Point(Label::Worse, told)));
        points.extend(reserve(found).map(|told| Block::Point(Label::Reserve, told)));
        points.extend(unexpected(found).map(|told| Block::Point(Label::Careful, told)));
        points.extend(
            never_bind(&without_effect(found)).map(|told| Block::Point(Label::NoGain, told)),
        );
        points.extend(aid_not_asked(scenario));
        if let Some(table) = tables::short(found) {
            points.extend([Block::Gap, Block::Table(table)]);
        }
        for (place, table) in tables::exact(found).into_iter().enumerate() {
            more.extend((place > 0).then_some(Block::Gap));
            more.push(Block::Table(table));
        }
        if let Some(told) = no_gain(found) {
            more.extend([Block::Gap, Block::Point(Label::NoGain, told)]);
        }
    }
    Told {
        headline: headline(&scenario.plan),
        verdict: if is_empty {
            say!["Ended before the first fires were simulated: nothing to say."]
        } else {
            verdict(found)
        },
        points,
        advice: Vec::new(),
        more,
        notes: notes_that_matter(scenario),
        small_print: if is_empty { Vec::new() } else { small_print(found) },
        ask_next: vec!["compare", "size", "lose"],
    }
}

/// The move that does most in a direction; the demand only where nothing else does, as no purchase lowers it.
fn greatest(found: &LeverAnswer, verdict: Verdict) -> Option<Move<'_>> {
    let best = |of_demand: bool| {
        (found.rows.iter())
            .filter(|row| is_demand(row) == of_demand)
            .flat_map(|row| moves(row).map(move |moved| (row, moved)))
            .filter(|(_, moved)| moved.verdict == verdict)
            .max_by(|a, b| worth(a.1).total_cmp(&worth(b.1)))
    };
    best(false).or_else(|| best(true))
}

/// How great the difference is in what shows it.
fn worth(moved: &Moved) -> f64 {
    match moved.verdict {
        Verdict::FewerMinutes | Verdict::MoreMinutes => {
            moved.more_minutes.map_or(0.0, |minutes| minutes.by.abs())
        }
        _ => moved.higher_by.by.abs(),
    }
}

fn verdict(found: &LeverAnswer) -> Sentence {
    let now = Piece::Fires(as_it_stands(found));
    let moved = |(row, moved): Move<'_>| say![input_words(row), ", ", moved_words(row, moved)];
    let longer = greatest(found, Verdict::FewerMinutes).filter(|(row, _)| !is_demand(row));
    let only_the_flow = |best: &Move<'_>| is_demand(best.0) && longer.is_some();
    let best = greatest(found, Verdict::LowerChance);
    let asks_less = best.as_ref().is_some_and(only_the_flow);
    if let Some(best) = best.filter(|_| !asks_less) {
        return say![
            "Worth most: ",
            moved(best),
            ". The lines then run short in ",
            Piece::Fires(chances(best.1)),
            "; as it stands, in ",
            now,
            ".",
        ];
    }
    if as_it_stands(found).is_never() {
        return say!["As it stands the lines run short in ", now, ": no move can better that."];
    }
    if !asks_less && greatest(found, Verdict::HigherChance).is_some() {
        return say![
            "Nothing that was moved a little surely helps: the lines run short in ",
            now,
            " as it stands.",
        ];
    }
    let nothing = if asks_less {
        "Nothing but a lower flow shows in how often the lines run short, "
    } else {
        "Nothing that was moved a little shows in how often the lines run short, "
    };
    let start = say![nothing, now, "."];
    let Some((row, minutes)) = greatest(found, Verdict::FewerMinutes) else {
        return start;
    };
    let mean = found.interrupted_minutes_mean;
    let less = minutes.more_minutes.map_or(0.0, |apart| apart.by);
    let minutes_short = |value: f64| Piece::Number(value, minutes_digits(found));
    start.then(say![
        "It shows in the minutes short, most with ",
        moved((row, minutes)),
        ": ",
        minutes_short(mean),
        " -> ",
        minutes_short(mean + less),
        " a fire.",
    ])
}

fn worse(found: &LeverAnswer) -> Option<Sentence> {
    let (row, moved) = greatest(found, Verdict::HigherChance)?;
    Some(say![
        "hurts most: ",
        input_words(row),
        ", ",
        moved_words(row, moved),
        ": short in ",
        Piece::Fires(chances(moved)),
        ".",
    ])
}

/// What another reserve would mean: it moves no water.
fn reserve(found: &LeverAnswer) -> Option<Sentence> {
    let row = found.rows.iter().find(|row| is_reserve(row))?;
    let used = |share: f64, fires: u64| Chances::of(share.clamp(0.0, 1.0), fires);
    let now = used(found.reserve_touched, found.replications);
    // What is rare is told as "1 fire of 290", and so is what it is held against.
    let is_rare = !(RARE..=1.0 - RARE).contains(&now.share);
    let mut told = say!["the ", now_words(row), " for backing out are used in ", Piece::Fires(now)];
    for moved in moves(row) {
        let then = used(found.reserve_touched + moved.reserve_touched_by.by, moved.replications);
        // Always, or never: the same again says nothing.
        if then.share == now.share {
            continue;
        }
        let then =
            if is_rare { say!["in ", Piece::Fires(then)] } else { say![Piece::OfHundred(then, 0)] };
        told.push(say!["; with ", moved_words(row, moved), " ", then]);
    }
    told.push(".");
    Some(told)
}

/// What hurts although one would expect help.
fn unexpected(found: &LeverAnswer) -> Option<Sentence> {
    let all: Vec<Sentence> = (found.rows.iter())
        .flat_map(|row| moves(row).map(move |moved| (row, moved)))
        .filter(|(row, moved)| is_unexpected(row, moved))
        .map(|(row, moved)| say![input_words(row), ", ", moved_words(row, moved)])
        .collect();
    (!all.is_empty())
        .then(|| say!["hurts although one would expect help: ", joined(all, "; ", "; "), "."])
}

/// Moves that change nothing in any fire, each with its fires; of an input moved either way at once.
fn without_effect(found: &LeverAnswer) -> Vec<(Sentence, u64)> {
    let without = |row| moves(row).filter(|moved| moved.never_binds);
    (found.rows.iter().filter(|row| !is_reserve(row)))
        .filter_map(|row| {
            let fires = without(row).map(|moved| moved.replications).min()?;
            let by: Vec<Sentence> = without(row).map(|moved| moved_words(row, moved)).collect();
            let by = if by.len() == 1 {
                by[0].clone()
            } else {
                say![amount_words(row), " more or less"]
            };
            Some((say![input_words(row), " (", by, ")"], fires))
        })
        .collect()
}

/// Inputs that show no difference.
fn no_gain(found: &LeverAnswer) -> Option<Sentence> {
    let all: Vec<Sentence> = (found.rows.iter())
        .filter(|row| !row.is_clear && !is_reserve(row))
        .map(|row| say![input_words(row), " (", amount_words(row), ")"])
        .collect();
    (!all.is_empty())
        .then(|| say!["no difference that these fires show: ", joined(all, "; ", "; "), "."])
}

fn small_print(found: &LeverAnswer) -> Vec<Sentence> {
    // As many digits for the ends of the interval as for the share.
    let digits = column_digits([as_it_stands(found)]);
    let of = |share| Piece::PercentTo(Chances::of(share, found.replications), digits);
    let (low, high) = interval(found);
    let exact = say![
        "In percent, as it stands: ",
        of(found.interruption_probability),
        " of fires, 95% interval ",
        of(low),
        " to ",
        of(high),
        "; ",
        Piece::Number(found.interrupted_minutes_mean, 2),
        " minutes short a fire.",
    ];
    let how = say![
        "Every move was run on the same luck, in as many fires as it took to tell; what is said to make a \
         difference does so at 95% for all inputs at once. Times are moved with their spread in proportion. A \
         shorter drive means a nearer fill site, never more speed.",
    ];
    vec![exact, how]
}
