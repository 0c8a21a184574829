//! What `request` says.

mod around;
mod instead;
mod spare;

use scenario_file::Scenario;

use self::around::{in_the_way, late, names, no_difference, turnout};
use self::instead::{any_one_lost, ask_instead, can_be_held};
use self::spare::{cure, departments, spare};

pub use self::instead::{flow_argument, flows};
pub(super) use self::spare::cure_words;
use super::figures::{PumpFigures, RequestFigures};
use super::{Asked, tables};
use crate::answer::{Advice, Basis, Block, Label, Told};
use crate::say;
use crate::say::{Chances, Piece, Sentence, list, name, on_command};
use crate::shared::against::Against;
use crate::shared::doubt::{anywhere, may_miss, more as more_of_doubt, worth_timing};
use crate::shared::held_back::held_back;
use crate::shared::holding::{most_held_words, stepped_up_words};
use crate::shared::target::{Side, more_would_tell};
use crate::shared::{headline, notes_that_matter};

/// So many units more are told at once.
const MOST_ADVICE: usize = 3;
/// Beside a request longer than this only the best one is.
const LONG: usize = 5;

/// The answer in words. Where no request is enough and one for less is, that is told.
pub fn told(scenario: &Scenario, figures: &RequestFigures, asked: Asked, basis: &Basis) -> Told {
    let of = figures.told_of();
    let chances = Chances::of(of.interruption_probability, basis.replications);
    let mut points = Vec::new();
    let search_ended = figures.meets_target || !basis.ended_early;
    if search_ended && !of.request.is_empty() {
        points.extend([Block::Gap, Block::Table(tables::to_ask(of)), Block::Gap]);
    }
    let is_hopeless = of.is_hopeless();
    let is_instead = figures.request_instead.is_some();
    // What is missing stands before what need not be asked for: the front has room for one of them.
    let tells_no_gain_below =
        of.spare.as_ref().is_some_and(|spare| !spare.not_made_up_for.is_empty());
    let mut point = |label, sentence: Option<Sentence>| {
        points.extend(sentence.map(|sentence| Block::Point(label, sentence)));
    };
    // What was found out about everyone there is says nothing of a search that was broken off.
    if search_ended {
        let fails = held_back(&figures.held_back_by, &scenario.aid.everyone);
        point(Label::Fails, fails.map(|told| say!["the flow that is wanted: ", told]));
        let held = figures.most_held.as_ref();
        point(Label::Hold, held.map(|held| most_held_words(held, figures.target)));
        // Of a request for what holds it is told how often that holds.
        point(Label::Careful, held.filter(|_| !is_instead).and_then(stepped_up_words));
        point(Label::AtMost, figures.bottleneck.as_ref().map(|found| found.words()));
        point(Label::Ask, ask_instead(scenario, figures, asked));
        for pump in &of.pumps {
            point(Label::Ask, Some(pump_too(pump)));
        }
        point(Label::Spare, spare(of));
        point(Label::Spare, any_one_lost(scenario, figures, asked));
        point(Label::Reserve, reserve(scenario, of, chances));
    }
    // Beside two answers there is no room for what may be asked of the second by itself.
    let mut beside = Vec::new();
    let mut point = |label, sentence: Option<Sentence>| {
        beside.extend(sentence.map(|sentence| Block::Point(label, sentence)));
    };
    if search_ended {
        point(Label::Cure, cure(of));
        point(Label::Careful, departments(of));
        point(Label::Why, one_fewer(of));
        point(Label::Unclear, perhaps_fewer(of));
    }
    if search_ended && !is_hopeless {
        point(Label::Turnout, turnout(of, chances));
        point(Label::Late, late(&of.late));
        if !tells_no_gain_below {
            point(Label::NoGain, no_difference(&of.no_difference));
        }
        point(Label::Worse, in_the_way(&of.in_the_way));
    }
    let mut more = Vec::new();
    if is_instead {
        more.append(&mut beside);
        more.push(Block::Gap);
    } else {
        points.append(&mut beside);
    }
    let mut verdict = whole_verdict(scenario, figures, basis);
    if basis.replications > 0 {
        points.push(of.shared_luck.line());
    }
    let said = of.doubt.as_ref().filter(|_| search_ended && !is_hopeless);
    if let Some(doubt) = said {
        verdict = verdict.then(anywhere(doubt));
        points.extend(may_miss(doubt, None).filter(|_| of.meets_target));
        points.extend(worth_timing(doubt));
    }
    if tells_no_gain_below && search_ended && !is_hopeless {
        let told = no_difference(&of.no_difference);
        more.extend(
            told.into_iter().flat_map(|told| [Block::Point(Label::NoGain, told), Block::Gap]),
        );
    }
    if !of.sizes.is_empty() {
        more.push(Block::Table(tables::sizes(of)));
    }
    if let Some(losses) = tables::losses(of) {
        more.extend([Block::Gap, Block::Table(losses)]);
    }
    if let Some(cures) = tables::cures(of) {
        more.extend([Block::Gap, Block::Table(cures)]);
    }
    if let Some(changes) = tables::changes(of) {
        more.extend([Block::Gap, Block::Table(changes)]);
    }
    more.extend(said.into_iter().flat_map(more_of_doubt));
    Told {
        headline: headline(&scenario.plan),
        verdict,
        points,
        advice: advice(of, chances),
        more,
        notes: notes_that_matter(scenario),
        small_print: small_print(of, chances),
        ask_next: if figures.meets_target {
            // The answers of the file as it stands are those without this request.
            vec!["request --write", "card"]
        } else {
            vec!["hold", "risk", "levers"]
        },
    }
}

/// The first sentences: of the wish, and where that cannot be had of what can.
fn whole_verdict(scenario: &Scenario, figures: &RequestFigures, basis: &Basis) -> Sentence {
    let wished = Chances::of(figures.interruption_probability, basis.replications);
    match of_whom(scenario, figures, basis) {
        Some(instead) => say![not_enough(figures, wished), "."].then(instead),
        None => verdict(figures, wished, basis.ended_early),
    }
}

/// "What can be held is 190 gpm, then 200 gpm from 11 minutes after first water. Ask for all five tankers there are:
/// ..." - the request for what can be held where the wish cannot; `None` where the wish can.
pub fn of_whom(scenario: &Scenario, figures: &RequestFigures, basis: &Basis) -> Option<Sentence> {
    let (steps, instead) = figures.ask_instead.as_ref().zip(figures.request_instead.as_deref())?;
    let chances = Chances::of(instead.interruption_probability, basis.replications);
    let spare = instead.spare.as_ref().is_some_and(|spare| spare.stands);
    Some(can_be_held(scenario, steps, spare).then(verdict(instead, chances, false)))
}

fn verdict(figures: &RequestFigures, chances: Chances, ended_early: bool) -> Sentence {
    let target = Piece::Share(figures.target);
    if figures.meets_target {
        let bare = figures.spare.as_ref().filter(|spare| spare.bare.is_empty());
        if let Some(spare) = bare.filter(|_| !figures.request.is_empty()) {
            let bare = Chances::of(spare.bare_interruption_probability, spare.bare_replications);
            return say![
                "Nobody more is needed: with ",
                those_who_come(figures.own_tankers),
                " the lines run short in ",
                Piece::Fires(bare),
                ". So that one may be lost, ask for ",
                asked(figures),
                ": then in ",
                Piece::Fires(chances),
                "."
            ];
        }
        let ask = if figures.request.is_empty() {
            say!["Ask for nobody: with ", those_who_come(figures.own_tankers)]
        } else {
            say!["Ask for ", asked(figures), beside_own(figures.own_tankers), ": then"]
        };
        return say![
            ask,
            " the lines run short in ",
            Piece::Fires(chances),
            ", under the target of ",
            target,
            ".",
        ];
    }
    if ended_early {
        return say!["Ended before it was clear whom to ask for."];
    }
    if let Some(row) = figures.perhaps.and_then(|units| figures.of_size(units)) {
        let asking = match row.units {
            0 => say!["Asking for nobody"],
            units => say!["Asking for ", Piece::TankerCount(units)],
        };
        return say![
            asking,
            " is too close to tell: the lines run short in ",
            Piece::Fires(row.chances()),
            ", and the target is under ",
            target,
            ".",
        ]
        .then(more_would_tell());
    }
    say![not_enough(figures, chances), ". The target is under ", target, "."]
}

/// "No request helps enough: even with all five that could come the lines run short in 40 fires of 100".
fn not_enough(figures: &RequestFigures, chances: Chances) -> Sentence {
    let everyone = match (figures.aid_tankers, figures.request.as_slice()) {
        (_, [only]) => say![name(&only.name)],
        (2, _) => say!["both that could come"],
        (all, _) => say!["all ", Piece::Count(all), " that could come"],
    };
    say![
        "No request helps enough: even with ",
        everyone,
        " the lines run short in ",
        Piece::Fires(chances)
    ]
}

/// "the 300 gal for backing out are touched in 16 fires of 100." - where that is more than the lines may run short.
fn reserve(scenario: &Scenario, figures: &RequestFigures, chances: Chances) -> Option<Sentence> {
    let touched = Chances::of(figures.reserve_touched, chances.fires);
    (figures.reserve_touched > figures.target).then(|| {
        let reserve = scenario.aid.everyone.facts().incident.reserve;
        say![
            "the ",
            Piece::Volume(reserve),
            " for backing out are touched in ",
            Piece::Fires(touched),
            "."
        ]
    })
}

/// "the one tanker that comes anyway", "the two tankers that come anyway".
fn those_who_come(own: usize) -> Sentence {
    let comes = if own == 1 { "comes" } else { "come" };
    say!["the ", Piece::TankerCount(own), " that ", comes, " anyway"]
}

/// "three of the eight tankers there are", "both tankers there are", "the one tanker there is".
fn asked(figures: &RequestFigures) -> Sentence {
    match (figures.request.len(), figures.aid_tankers) {
        (1, 1) => say!["the one ", Piece::Tanker, " there is"],
        (2, 2) => say!["both ", Piece::Tankers, " there are"],
        (all, there) if all == there => say!["all ", Piece::TankerCount(all), " there are"],
        (some, there) => {
            say![Piece::Count(some), " of the ", Piece::TankerCount(there), " there are"]
        }
    }
}

/// ", beside the two that come anyway".
fn beside_own(own: usize) -> Sentence {
    match own {
        0 => say![],
        1 => say![", beside the one that comes anyway"],
        several => say![", beside the ", Piece::Count(several), " that come anyway"],
    }
}

/// "also Cole Creek engine, which pumps at Farm pond, at the alarm: 18 minutes away; without it nobody fills there."
fn pump_too(pump: &PumpFigures) -> Sentence {
    let when = match pump.requested_at_min {
        0.0 => say!["at the alarm"],
        at => say!["at ", Piece::Clock(at)],
    };
    say![
        "also, ",
        when,
        ", ",
        name(&pump.name),
        ", which pumps at ",
        name(&pump.fill_site),
        ": ",
        Piece::Minutes(pump.response_min),
        " away; without it nobody fills there."
    ]
}

/// What the best set of one unit fewer does, where that was tried and is not enough.
fn one_fewer(figures: &RequestFigures) -> Option<Sentence> {
    // What is asked for beyond need is told by what it is to spare for.
    let needed = figures.request.len();
    let has_more = figures.spare.as_ref().is_some_and(|spare| spare.bare.len() < needed);
    let fewer = needed.checked_sub(1).filter(|_| figures.meets_target && !has_more)?;
    let row = figures.of_size(fewer)?;
    let with = say!["with one fewer"];
    let what = match (row.verdict, fewer) {
        (Side::NotClear | Side::Below, _) => return None,
        (Side::CannotWork, _) => {
            return Some(say![with, " no water can reach the engine."]);
        }
        (Side::Above, 0) => say!["without aid"],
        (Side::Above, _) => {
            say![with, ", at best ", list(row.names.iter().map(|one| say![name(one)])), ","]
        }
    };
    Some(say![what, " the lines run short in ", Piece::Fires(row.chances()), "."])
}

/// A smaller request may do as well; which is not known. Where no request does, the verdict says so.
fn perhaps_fewer(figures: &RequestFigures) -> Option<Sentence> {
    let row = figures.of_size(figures.perhaps.filter(|_| figures.meets_target)?)?;
    let with = if row.units == 0 { say!["none of them"] } else { say![Piece::Count(row.units)] };
    let told = say![
        "with ",
        with,
        " it is too close to the target to tell: ",
        Piece::Fires(row.chances()),
        ".",
    ];
    Some(told.then(more_would_tell()))
}

/// One unit more, where that helps: the best first.
fn advice(figures: &RequestFigures, chances: Chances) -> Vec<Advice> {
    let mut helping: Vec<_> = (figures.one_more.iter())
        .filter(|more| more.change.verdict == Against::LowerChance)
        .collect();
    helping.sort_by(|a, b| a.change.higher_by.by.total_cmp(&b.change.higher_by.by));
    let most = if figures.request.len() > LONG { 1 } else { MOST_ADVICE };
    (helping.into_iter().take(most))
        .map(|more| Advice {
            what: say!["ask for ", names(&more.names), " as well"],
            before: chances,
            after: more.change.chances(),
            higher_by: more.change.higher_by,
            cost: None,
        })
        .collect()
}

fn small_print(figures: &RequestFigures, chances: Chances) -> Vec<Sentence> {
    if chances.fires == 0 {
        return Vec::new();
    }
    let of = |share| Piece::Percent(Chances::of(share, chances.fires));
    let exact = say![
        "In percent: ",
        of(figures.interruption_probability),
        ", at most ",
        of(figures.ci_high),
        " with 95% confidence.",
    ];
    let how = if figures.all_sets_tried {
        say![
            "Every set of the aid there is was tried, by its ",
            Piece::Tankers,
            ", up to the first number that does; ",
            Piece::Tankers,
            " alike but for their names once.",
        ]
    } else {
        say![
            "There are too many sets to try all: ",
            Piece::Tankers,
            " were added one by one, each time the one that helps most, of those not told apart by a few fires \
             the one that is there soonest, and then each was tried to be left out. A smaller set that differs in more than one is not ruled out.",
        ]
    };
    let most = figures.sizes.iter().map(|row| row.replications).max().unwrap_or(0);
    let fires = say![
        "Up to ",
        Piece::Number(most as f64, 0),
        " fires for each set, the same luck for all. The 95% intervals hold for all sets at once.",
    ];
    let losses = figures.spare.as_ref().filter(|spare| !spare.losses.is_empty()).map(|_| {
        say![
            "The losses are those of the plan with this request",
            on_command(
                ", as `lose` tells them of the file that `--write` makes; of the file as it stands, or with \
                 `--all-aid`, it tells those of another set of units"
            ),
            "."
        ]
    });
    [exact, how, fires].into_iter().chain(losses).collect()
}

#[cfg(test)]
mod tests;
