//! What `request` says.

mod instead;
mod spare;

use scenario_file::Scenario;

use self::instead::ask_instead;
use self::spare::{cure, departments, spare};

pub(super) use self::spare::cure_words;
use super::figures::{LateFigures, PumpFigures, RequestFigures};
use super::{Asked, tables};
use crate::answer::{Advice, Basis, Block, Label, Told};
use crate::say;
use crate::say::{Chances, Piece, Sentence, joined, list, name, on_command};
use crate::shared::against::Against;
use crate::shared::doubt::{anywhere, may_miss, more as more_of_doubt, worth_timing};
use crate::shared::holding::{most_held_words, stepped_up_words};
use crate::shared::target::{Side, more_would_tell};
use crate::shared::{headline, notes_that_matter};

/// So many units more are told at once.
const MOST_ADVICE: usize = 3;
/// Beside a request longer than this only the best one is.
const LONG: usize = 5;

/// The answer in words.
pub fn told(scenario: &Scenario, figures: &RequestFigures, asked: Asked, basis: &Basis) -> Told {
    let chances = Chances::of(figures.interruption_probability, basis.replications);
    let mut points = Vec::new();
    let search_ended = figures.meets_target || !basis.ended_early;
    if search_ended && !figures.request.is_empty() {
        points.extend([Block::Gap, Block::Table(tables::to_ask(figures)), Block::Gap]);
    }
    let is_hopeless = figures.is_hopeless();
    // What is missing stands before what need not be asked for: the front has room for one of them.
    let tells_no_gain_below =
        figures.spare.as_ref().is_some_and(|spare| !spare.not_made_up_for.is_empty());
    let mut point = |label, sentence: Option<Sentence>| {
        points.extend(sentence.map(|sentence| Block::Point(label, sentence)));
    };
    // What was found out about everyone there is says nothing of a search that was broken off.
    if search_ended {
        point(
            Label::Hold,
            figures.most_held.as_ref().map(|held| most_held_words(held, figures.target)),
        );
        point(Label::Careful, figures.most_held.as_ref().and_then(stepped_up_words));
        point(Label::Ask, ask_instead(scenario, figures, asked));
        for pump in &figures.pumps {
            point(Label::Ask, Some(pump_too(pump)));
        }
        point(Label::Spare, spare(figures));
        point(Label::Cure, cure(figures));
        point(Label::Careful, departments(figures));
        point(Label::Why, one_fewer(figures));
        point(Label::Unclear, perhaps_fewer(figures));
    }
    if search_ended && !is_hopeless {
        point(Label::Turnout, turnout(figures, chances));
        point(Label::Late, late(&figures.late));
        if !tells_no_gain_below {
            point(Label::NoGain, no_difference(&figures.no_difference));
        }
        point(Label::Worse, in_the_way(&figures.in_the_way));
    }
    let mut verdict = verdict(figures, chances, basis.ended_early);
    if basis.replications > 0 {
        points.push(figures.shared_luck.line());
    }
    let said = figures.doubt.as_ref().filter(|_| search_ended && !is_hopeless);
    if let Some(doubt) = said {
        verdict = verdict.then(anywhere(doubt));
        points.extend(may_miss(doubt, None).filter(|_| figures.meets_target));
        points.extend(worth_timing(doubt));
    }
    let mut more = Vec::new();
    if tells_no_gain_below && search_ended && !is_hopeless {
        let told = no_difference(&figures.no_difference);
        more.extend(
            told.into_iter().flat_map(|told| [Block::Point(Label::NoGain, told), Block::Gap]),
        );
    }
    if !figures.sizes.is_empty() {
        more.push(Block::Table(tables::sizes(figures)));
    }
    if let Some(losses) = tables::losses(figures) {
        more.extend([Block::Gap, Block::Table(losses)]);
    }
    if let Some(cures) = tables::cures(figures) {
        more.extend([Block::Gap, Block::Table(cures)]);
    }
    if let Some(changes) = tables::changes(figures) {
        more.extend([Block::Gap, Block::Table(changes)]);
    }
    more.extend(said.into_iter().flat_map(more_of_doubt));
    Told {
        headline: headline(&scenario.plan),
        verdict,
        points,
        advice: advice(figures, chances),
        more,
        notes: notes_that_matter(scenario),
        small_print: small_print(figures, chances),
        ask_next: if figures.meets_target {
            vec!["risk", "lose"]
        } else {
            vec!["hold", "risk", "levers"]
        },
    }
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
    let everyone = match (figures.aid_tankers, figures.request.as_slice()) {
        (_, [only]) => say![name(&only.name)],
        (2, _) => say!["both that could come"],
        (all, _) => say!["all ", Piece::Count(all), " that could come"],
    };
    say![
        "No request helps enough: even with ",
        everyone,
        " the lines run short in ",
        Piece::Fires(chances),
        ". The target is under ",
        target,
        ".",
    ]
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

/// What that some units may not come costs.
fn turnout(figures: &RequestFigures, chances: Chances) -> Option<Sentence> {
    let all = figures.all_come.as_ref()?;
    // Then there is nothing to say of it: it is counted in the chance above.
    if all.verdict == Against::NotToldApart {
        return None;
    }
    Some(say![
        "were every unit sure to come, short in ",
        Piece::Fires(all.chances()),
        " instead of ",
        Piece::Fires(chances),
        "."
    ])
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
    let told = say![
        "with ",
        Piece::Count(row.units),
        " it is too close to the target to tell: ",
        Piece::Fires(row.chances()),
        ".",
    ];
    Some(told.then(more_would_tell()))
}

fn late(late: &[LateFigures]) -> Option<Sentence> {
    let latest = late.last()?;
    if late.iter().all(|one| one.change.verdict == Against::NotToldApart) {
        let told = say!["asking up to ", Piece::Minutes(latest.later_by_min), " later"];
        return Some(told.then(say!["makes no difference to speak of."]));
    }
    let of_a_hundred = late[0].change.chances().is_of_a_hundred();
    let parts = late.iter().enumerate().map(|(place, one)| {
        let chances = one.change.chances();
        let by = if place == 0 {
            say!["all asked for ", Piece::Minutes(one.later_by_min), " later:"]
        } else {
            say![Piece::Number(one.later_by_min, 0), " later:"]
        };
        by.then(if place > 0 && of_a_hundred {
            Piece::OfHundred(chances, 0)
        } else {
            Piece::Fires(chances)
        })
    });
    Some(say![joined(parts, "; ", "; "), "."])
}

fn names(of: &[String]) -> Sentence {
    list(of.iter().map(|one| say![name(one)]))
}

fn no_difference(of: &[String]) -> Option<Sentence> {
    match of {
        [] => None,
        _ => Some(say![names(of), ": no difference to speak of beside the others."]),
    }
}

fn in_the_way(of: &[String]) -> Option<Sentence> {
    match of {
        [] => None,
        [_] => Some(say![names(of), ": it is in the way; do not ask for it."]),
        _ => Some(say![names(of), ": each is in the way; do not ask for them."]),
    }
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
