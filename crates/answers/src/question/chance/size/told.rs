//! What `size` says.

use scenario_file::Scenario;

use super::figures::{FleetFigures, SizeFigures};
use super::tables;
use crate::answer::{Basis, Block, Label, Told};
use crate::question::request::has_aid;
use crate::say;
use crate::say::{Chances, Piece, Sentence, list, name};
use crate::shared::doubt::{anywhere, may_miss, more as more_of_doubt, worth_timing};
use crate::shared::held_back::held_back;
use crate::shared::holding::most_held_words;
use crate::shared::target::more_would_tell;
use crate::shared::{headline, notes_that_matter};

/// The answer in words.
pub fn told(scenario: &Scenario, figures: &SizeFigures, basis: &Basis) -> Told {
    let plan = &scenario.plan;
    let mut points = Vec::new();
    let mut point = |label, sentence: Option<Sentence>| {
        points.extend(sentence.map(|sentence| Block::Point(label, sentence)));
    };
    point(Label::Ask, whom(figures));
    point(
        Label::Hold,
        figures.most_held.as_ref().map(|held| most_held_words(held, figures.target)),
    );
    point(Label::Fails, held_back(&figures.held_back_by, plan));
    point(Label::AtMost, figures.bottleneck.as_ref().map(|found| found.words()));
    if let Some(row) = figures.tankers.and_then(|number| figures.row(number)) {
        point(Label::Unclear, perhaps_fewer(figures));
        point(Label::Careful, left_behind(figures, row));
        point(Label::Reserve, reserve(row, figures.reserve_gal));
    }
    point(Label::Careful, far_away(figures));
    point(Label::More, figures.no_difference_beyond.map(beyond));
    let mut verdict = verdict(figures, basis.ended_early);
    let mut more = Vec::new();
    if !figures.rows.is_empty() {
        points.push(figures.shared_luck.line());
        more.push(Block::Table(tables::all(figures)));
    }
    if let Some((doubt, number)) = figures.doubt.as_ref().zip(figures.tankers) {
        verdict = verdict.then(anywhere(doubt));
        let one_more = figures.one_more_misses_target;
        let one_more = one_more.map(|share| (say![Piece::TankerCount(number + 1)], share));
        points.extend(may_miss(doubt, one_more));
        points.extend(worth_timing(doubt));
        more.extend(more_of_doubt(doubt));
    }
    // A table of fires that are all short tells nothing.
    let tells =
        figures.tankers.is_some() || figures.best().is_some_and(|best| !chances(best).is_always());
    if tells {
        points.extend([Block::Gap, Block::Table(tables::around(figures))]);
    }
    Told {
        headline: headline(plan),
        verdict,
        points,
        advice: Vec::new(),
        more,
        notes: notes_that_matter(scenario),
        small_print: small_print(figures),
        ask_next: match figures.tankers {
            Some(_) if has_aid(scenario) => vec!["risk", "request", "lose"],
            Some(_) => vec!["risk", "lose"],
            None => vec!["hold", "risk", "levers"],
        },
    }
}

/// "tankers that nobody lists are taken to be like County tanker, there at minute 28: nearer ones do more."
fn far_away(figures: &SizeFigures) -> Option<Sentence> {
    let arrives = figures.beyond_arrive_min?;
    let last = figures.row(figures.listed + figures.aid)?;
    let counts = figures.tankers.is_none_or(|tankers| tankers > figures.listed + figures.aid);
    (counts && figures.rows.iter().any(|row| !row.listed)).then(|| {
        say![
            Piece::Tankers,
            " that nobody lists are taken to be like ",
            name(&last.adds),
            ", there at ",
            Piece::Clock(arrives),
            ": nearer ones do more."
        ]
    })
}

fn chances(row: &FleetFigures) -> Chances {
    Chances::of(row.interruption_probability, row.replications)
}

fn verdict(figures: &SizeFigures, ended_early: bool) -> Sentence {
    let target = Piece::Share(figures.target);
    if let Some(row) = figures.tankers.and_then(|number| figures.row(number)) {
        return say![
            so_many(row.tankers, figures.listed),
            ": the lines then run short in ",
            Piece::Fires(chances(row)),
            ", under the target of ",
            target,
            ".",
        ];
    }
    if ended_early {
        return say!["Ended before it was clear how many ", Piece::Tankers, " are enough."];
    }
    if let Some(row) = figures.perhaps.and_then(|number| figures.row(number)) {
        return say![
            "With ",
            Piece::TankerCount(row.tankers),
            " it is too close to tell: the lines run short in ",
            Piece::Fires(chances(row)),
            ", and the target is under ",
            target,
            ".",
        ]
        .then(more_would_tell());
    }
    match figures.best() {
        Some(best) if chances(best).is_always() => say![
            "More ",
            Piece::Tankers,
            " alone will not do: with any number up to ",
            Piece::Count(figures.rows.len()),
            " the lines run short in ",
            Piece::Fires(chances(best)),
            ". The target is under ",
            target,
            ".",
        ],
        Some(best) => say![
            "More ",
            Piece::Tankers,
            " alone will not do: with ",
            Piece::Count(best.tankers),
            ", the best number tried, the lines still run short in ",
            Piece::Fires(chances(best)),
            ". The target is under ",
            target,
            ".",
        ],
        None => say![
            "The plan cannot work with any number of ",
            Piece::Tankers,
            " tried: no drop tank comes, and nursing is not allowed."
        ],
    }
}

/// "It takes five tankers, the two in the plan and three more", "The two tankers in the plan are enough", "Of the five
/// tankers in the plan two are enough".
fn so_many(tankers: usize, listed: usize) -> Sentence {
    let (all, in_the_plan) = (Piece::TankerCount(tankers), Piece::Count(listed));
    let is = if tankers == 1 { " is enough" } else { " are enough" };
    match tankers.cmp(&listed) {
        std::cmp::Ordering::Less => {
            say!["Of the ", Piece::TankerCount(listed), " in the plan ", Piece::Count(tankers), is]
        }
        std::cmp::Ordering::Equal => say!["The ", all, " in the plan", is],
        std::cmp::Ordering::Greater => say![
            "It takes ",
            all,
            ", the ",
            in_the_plan,
            " in the plan and ",
            Piece::Count(tankers - listed),
            " more"
        ],
    }
}

/// Who they are beyond those that come anyway: first the aid there is, then tankers that nobody has yet.
fn whom(figures: &SizeFigures) -> Option<Sentence> {
    let beyond = |number: usize| figures.rows.iter().filter(move |row| row.tankers <= number);
    let Some(number) = figures.tankers else {
        return (figures.aid > 0).then(|| {
            let tried = figures.rows.iter().filter(|row| row.of_the_aid).count();
            say![
                "all ",
                Piece::TankerCount(tried),
                " that the file lists as aid are counted, in the order in which they would arrive, before any that \
                 nobody has."
            ]
        });
    };
    let aid: Vec<&str> =
        beyond(number).filter(|row| row.of_the_aid).map(|row| row.adds.as_str()).collect();
    let invented = number.saturating_sub(figures.listed + figures.aid);
    let last = figures.row(figures.listed + figures.aid);
    let more = last.filter(|_| invented > 0).map(|last| {
        let another = if invented == 1 {
            say!["another ", Piece::Tanker, " like "]
        } else {
            say![Piece::Count(invented), " other ", Piece::Tankers, " like "]
        };
        say![another, name(&last.adds), ", not yours to ask for yet"]
    });
    let aid = aid.into_iter().map(|one| say![name(one)]);
    let whom = list(aid.chain(more));
    let order = (figures.aid > 0).then(|| {
        let best =
            Piece::ByMedium { command: "`request` picks", page: "the question whom to ask picks" };
        say!["; aid in the order in which it would arrive, ", best, " the best"]
    });
    (!whom.is_empty()).then(|| say![whom, order.unwrap_or_default(), "."])
}

/// Fewer may do as well; which is not known.
fn perhaps_fewer(figures: &SizeFigures) -> Option<Sentence> {
    let row = figures.row(figures.perhaps?)?;
    let told = say![
        "with ",
        Piece::Count(row.tankers),
        " it is too close to the target to tell: ",
        Piece::Fires(chances(row)),
        ".",
    ];
    Some(told.then(more_would_tell()))
}

/// The drop tanks that stay away with the tankers that would bring them.
fn left_behind(figures: &SizeFigures, row: &FleetFigures) -> Option<Sentence> {
    let bringers = &figures.drop_tanks_left_behind;
    if bringers.is_empty() {
        return None;
    }
    let rest = match row.drop_tanks {
        0 => say!["no drop tank comes: the ", Piece::Tankers, " can only nurse the engine"],
        1 => say!["only one drop tank comes"],
        more => say!["only ", Piece::Count(more), " drop tanks come"],
    };
    Some(say![
        "with ",
        Piece::TankerCount(row.tankers),
        " ",
        rest,
        ". ",
        list(bringers.iter().map(|one| say![name(&one.name)])),
        if bringers.len() == 1 { " would bring one more." } else { " would bring one more each." },
    ])
}

/// How often the water kept for backing out is drawn on with that many.
fn reserve(row: &FleetFigures, reserve: f64) -> Option<Sentence> {
    let drawn_on = Chances::of(row.reserve_touched, row.replications);
    (reserve > 0.0 && !drawn_on.is_never()).then(|| {
        say![
            "with ",
            Piece::TankerCount(row.tankers),
            ", the ",
            Piece::Volume(reserve),
            " for backing out are drawn on in ",
            Piece::Fires(drawn_on),
            ".",
        ]
    })
}

fn beyond(number: usize) -> Sentence {
    say!["beyond ", Piece::TankerCount(number), ", one more makes no difference to speak of."]
}

fn small_print(figures: &SizeFigures) -> Vec<Sentence> {
    let Some(most) = figures.rows.iter().map(|row| row.replications).max().filter(|most| *most > 0)
    else {
        return Vec::new();
    };
    let mut told = Vec::new();
    if let Some(row) = figures.tankers.and_then(|number| figures.row(number)) {
        let of = |share| Piece::Percent(Chances::of(share, row.replications));
        told.push(say![
            "In percent, with ",
            Piece::TankerCount(row.tankers),
            ": ",
            of(row.interruption_probability),
            ", at most ",
            of(row.ci_high),
            " with 95% confidence.",
        ]);
    }
    told.push(say![
        "Up to ",
        Piece::Number(most as f64, 0),
        " fires for each number of ",
        Piece::Tankers,
        ", the same luck for all. The 95% intervals hold for the whole table at once.",
    ]);
    told
}

#[cfg(test)]
mod tests;
