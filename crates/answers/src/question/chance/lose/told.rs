//! What `lose` says.

use scenario_file::Scenario;
use shuttle_report::fleet_size::Verdict;
use shuttle_report::losses::{DRY_ANYHOW, Kind, LossAnswer, LossRow, Stands};

use super::{chances, tables, words_of_loss};
use crate::answer::{Block, Label, Told};
use crate::say;
use crate::say::{Chances, Piece, Sentence, column_digits, joined};
use crate::shared::lost::all_at_home;
use crate::shared::luck::SharedLuck;
use crate::shared::{aid_not_asked, headline, notes_that_matter};

/// The answer in sentences.
pub fn told(scenario: &Scenario, found: &LossAnswer) -> Told {
    let is_empty = found.whole.replications == 0;
    let mut points = Vec::new();
    if !is_empty {
        points.extend(worst(found).map(|told| Block::Point(Label::Fails, told)));
        points.extend(spare(found).map(|told| Block::Point(Label::Spare, told)));
        points.extend(departments(found).map(|told| Block::Point(Label::Careful, told)));
        points.extend(unclear(found).map(|told| Block::Point(Label::Unclear, told)));
        points.extend(cannot_work(found).map(|told| Block::Point(Label::Careful, told)));
        points.push(SharedLuck::of(&scenario.plan).line());
        points.extend(aid_not_asked(scenario));
        points.push(Block::Gap);
        points.push(Block::Table(tables::short(found)));
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
        more: if is_empty { Vec::new() } else { vec![Block::Table(tables::exact(found))] },
        notes: notes_that_matter(scenario),
        small_print: if is_empty { Vec::new() } else { small_print(found) },
        ask_next: vec!["request", "size", "levers"],
    }
}

fn verdict(found: &LossAnswer) -> Sentence {
    let target = Piece::Share(found.target);
    let whole = Piece::Fires(chances(&found.whole));
    match found.stands {
        Stands::AnyOne => say![
            "The plan can lose any one thing: whatever is lost, the lines run short in less than ",
            target,
            " of fires. With everything in service: ",
            whole,
            ".",
        ],
        Stands::NotAnyOne => {
            let broken =
                named(found, |verdict| matches!(verdict, Verdict::Above | Verdict::CannotWork));
            let without = if broken.len() == 1 { "without it" } else { "without any one of them" };
            say![
                "The plan can't lose ",
                some_of(broken, "; or "),
                ": ",
                without,
                " the lines run short in more than ",
                target,
                " of fires. With everything in service: ",
                whole,
                ".",
            ]
        }
        Stands::NotEvenWhole => say![
            "Even with everything in service the lines run short in ",
            whole,
            "; wanted: less than ",
            target,
            ".",
        ],
        Stands::NotClear => {
            let close = named(found, |verdict| verdict == Verdict::NotClear);
            say![
                "No single loss surely breaks the plan, but without ",
                some_of(close, "; or "),
                " it is too close to ",
                target,
                " of fires to tell. With everything in service: ",
                whole,
                ".",
            ]
        }
    }
}

/// The one that hurts most, where the verdict does not name those that break the plan; where no water comes at
/// all that is told elsewhere.
fn worst(found: &LossAnswer) -> Option<Sentence> {
    let worst = whole_losses(found).next()?;
    if found.stands == Stands::NotAnyOne || worst.verdict == Verdict::CannotWork {
        return None;
    }
    // Short in every fire anyway: then how long tells.
    let then = if is_dry_anyhow(found) {
        say![
            "the lines are short for ",
            Piece::Minutes(worst.interrupted_minutes_mean),
            " a fire, with everything for ",
            Piece::Number(found.whole.interrupted_minutes_mean, 1),
        ]
    } else {
        say!["the lines run short in ", Piece::Fires(chances(worst))]
    };
    Some(say!["worst to lose is ", words_of_loss(worst), ": then ", then, "."])
}

/// Whether nearly every fire is short with everything in service.
fn is_dry_anyhow(found: &LossAnswer) -> bool {
    found.whole.interruption_probability >= DRY_ANYHOW
}

/// Whether the fires show no harm of a loss: not in how often the lines run short, nor in how long.
pub(super) fn shows_no_harm(row: &LossRow, whole: &LossRow) -> bool {
    /// More minutes short than these, or than this part of what there are, are harm. Judgement.
    const MINUTES: f64 = 0.05;
    const PART: f64 = 0.05;
    let most = whole.interrupted_minutes_mean * (1.0 + PART) + MINUTES;
    row.higher_by.is_some_and(|apart| apart.ci_low <= 0.0) && row.interrupted_minutes_mean <= most
}

/// What can be lost one at a time, where not all can; or, where all is too often short already, what is not
/// missed.
fn spare(found: &LossAnswer) -> Option<Sentence> {
    let lost = match found.stands {
        Stands::AnyOne => return None,
        // That the lines are dry without it says nothing where they are dry with it.
        Stands::NotEvenWhole if is_dry_anyhow(found) => return None,
        Stands::NotAnyOne | Stands::NotClear => named(found, |verdict| verdict == Verdict::Below),
        Stands::NotEvenWhole => (whole_losses(found))
            .filter(|row| shows_no_harm(row, &found.whole))
            .map(words_of_loss)
            .collect(),
    };
    if lost.is_empty() {
        return None;
    }
    let is_one = lost.len() == 1;
    Some(match found.stands {
        Stands::NotEvenWhole => {
            say!["these fires show no harm without ", some_of(lost, "; or "), "."]
        }
        _ if is_one => say!["it can lose ", some_of(lost, "; or "), "."],
        _ => say!["it can lose, one at a time, ", some_of(lost, "; or "), "."],
    })
}

/// What is too close to call, where the verdict does not say so itself.
fn unclear(found: &LossAnswer) -> Option<Sentence> {
    let close = named(found, |verdict| verdict == Verdict::NotClear);
    if close.is_empty() {
        return None;
    }
    Some(match found.stands {
        Stands::NotClear => say!["more fires", crate::say::on_command(" (--runs)"), " would tell."],
        _ => say![
            "without ",
            some_of(close, "; or "),
            " it is too close to ",
            Piece::Share(found.target),
            " to tell; more fires",
            crate::say::on_command(" (--runs)"),
            " would.",
        ],
    })
}

fn cannot_work(found: &LossAnswer) -> Option<Sentence> {
    let all: Vec<Sentence> = (found.losses.iter())
        .filter(|row| row.verdict == Verdict::CannotWork)
        .map(words_of_loss)
        .collect();
    (!all.is_empty()).then(|| {
        say![
            "without ",
            some_of(all, "; or "),
            " no hauled water gets to the engine: no ",
            Piece::Tanker,
            " is left, or there is nothing to dump into and nursing is not allowed.",
        ]
    })
}

/// Losses of one whole thing: half a flow is none, and tankers that may each stay home are several.
fn whole_losses(found: &LossAnswer) -> impl Iterator<Item = &LossRow> {
    found.losses.iter().filter(|row| row.kind.is_none_or(Kind::is_one_thing))
}

/// What several of one department do that all stay home, where that is not shown to be withstood and the plan with
/// everything is.
fn departments(found: &LossAnswer) -> Option<Sentence> {
    let matters = |row: &&LossRow| {
        row.kind == Some(Kind::NamedDepartment)
            && row.verdict != Verdict::Below
            && found.stands != Stands::NotEvenWhole
    };
    let worth = found.losses.iter().filter(matters);
    all_at_home(worth.filter_map(|row| Some((row.lost.as_ref()?, chances(row)))))
}

fn named(found: &LossAnswer, is: impl Fn(Verdict) -> bool) -> Vec<Sentence> {
    whole_losses(found).filter(|row| is(row.verdict)).map(words_of_loss).collect()
}

/// "A; B; or C": the first few, then how many more.
fn some_of(mut all: Vec<Sentence>, before_last: &'static str) -> Sentence {
    const MOST: usize = 5;
    let others = all.len().saturating_sub(MOST);
    if others > 0 {
        all.truncate(MOST);
        all.push(say![Piece::Count(others), " more"]);
    }
    joined(all, "; ", before_last)
}

fn small_print(found: &LossAnswer) -> Vec<Sentence> {
    // As many digits for the ends of the interval as for the share.
    let digits = column_digits([chances(&found.whole)]);
    let of = |share| Piece::PercentTo(Chances::of(share, found.whole.replications), digits);
    vec![
        say![
            "In percent, with everything in service: ",
            of(found.whole.interruption_probability),
            ", interval ",
            of(found.whole.ci_low),
            " to ",
            of(found.whole.ci_high),
            "; 95% for all intervals of the table at once. Every loss was run on the same luck, in as many \
             fires as it took to tell.",
        ],
        say![
            "A loss is for the whole fire; half a flow is no loss of the site. A ",
            Piece::Tanker,
            " whose fill site is lost fills at another one. Without the supply engine the attack engine drafts \
             itself, if no lay lies between. The loss of the attack engine is not asked: with it the attack ends.",
        ],
    ]
}
