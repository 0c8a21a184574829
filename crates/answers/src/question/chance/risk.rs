//! How often the lines run short, when, why, and what would help.

mod cures;
mod figures;
mod pictures;
mod tables;

use scenario_file::Scenario;
use shuttle_report::batch::Control;
use shuttle_report::doubt::asked::doubt;
use shuttle_report::options_compared::{Apart, Interval};
use shuttle_report::summary::Summary;
use shuttle_report::what_would_help::{CountsOn, Help, Shortens, changes_to_try, risk as run_risk};

use crate::answer::{Advice, Answer, Basis, Block, Label, Told};
use crate::question::Budget;
use crate::say;
use crate::say::{Chances, Piece, Sentence, joined};
use crate::shared::asked::path_as_argument;
use crate::shared::changes::change_words;
use crate::shared::doubt::{
    DoubtFigures, advice_in_doubt, anywhere, more as more_of_doubt, worth_timing,
};
use crate::shared::luck::SharedLuck;
use crate::shared::shares_in_words;
use crate::shared::{aid_not_asked, headline, notes_that_matter};

pub use figures::RiskFigures;

/// Changes that help are told up to this number: more than that is no advice.
const MOST_ADVICE: usize = 4;
/// Where they only make it shorter, up to this number.
const MOST_SHORTENING: usize = 3;
/// A pump operator who never gates down is warned of where that costs at least this share of fires, and of
/// those that run short anyway: less is no reason for a drill. Judgement.
const WORTH_A_WARNING: f64 = 0.005;
const WORTH_A_WARNING_OF_SHORT: f64 = 0.02;

/// How often the lines run short.
///
/// - Given: whether to try what would help as well.
pub fn risk(
    scenario: &Scenario,
    budget: Budget,
    tries_help: bool,
    control: &Control,
) -> Answer<RiskFigures> {
    let plan = &scenario.plan;
    let found = run_risk(
        plan,
        scenario.units,
        tries_help,
        budget.replications,
        budget.same_luck(),
        control,
    );
    let (summary, helps, counts_on) = (found.summary, found.helps, found.counts_on);
    let (all_tried, shortens) = (found.tried, found.shortens);
    let basis = Basis {
        replications: summary.replications,
        seed: budget.seed,
        ended_early: found.ended_early,
    };
    let tried = tries_help && !basis.ended_early;
    let in_doubt = in_doubt(scenario, &helps, budget, control);
    let luck = SharedLuck::of(plan);
    let mut told = told(scenario, &summary, (&helps, counts_on.as_ref()));
    if tried {
        told.points.extend(shorter(&summary, (&helps, &shortens)));
        told.points.extend(cures::points(
            &scenario.plan,
            &summary,
            (&all_tried, &shortens),
            (MOST_ADVICE, MOST_SHORTENING),
        ));
    }
    if summary.replications > 0 {
        told.points.push(luck.line());
    }
    if let Some(doubt) = &in_doubt {
        told.verdict = told.verdict.then(anywhere(doubt));
        told.points.extend(advice_in_doubt(doubt));
        told.points.extend(worth_timing(doubt));
        told.more.extend(more_of_doubt(doubt));
    }
    Answer {
        question: "risk",
        title: plan.facts().title.clone(),
        asked: scenario.asked.clone(),
        told,
        basis,
        pictures: pictures::pictures(&summary, plan, in_doubt.as_ref()),
        figures: RiskFigures::new(
            plan,
            summary,
            (&helps, &shortens, &all_tried),
            counts_on,
            in_doubt,
        ),
    }
}

/// How far the chance can be trusted, and whether the first change told still helps; `None` where every input is
/// taken as known.
fn in_doubt(
    scenario: &Scenario,
    helps: &[Help],
    budget: Budget,
    control: &Control,
) -> Option<DoubtFigures> {
    let plan = &scenario.plan;
    let changed = helps.first().and_then(|help| {
        let all = changes_to_try(plan, scenario.units);
        all.into_iter().find(|one| one.change == help.change)
    });
    let changes: Vec<_> = changed.iter().map(|one| &one.plan).collect();
    let found = doubt(plan, &changes, budget.replications, budget.same_luck(), control)?;
    Some(DoubtFigures::new(&found, None))
}

fn told(
    scenario: &Scenario,
    summary: &Summary,
    (helps, counts_on): (&[Help], Option<&CountsOn>),
) -> Told {
    let mut points = Vec::new();
    let mut more = Vec::new();
    if summary.replications > 0 {
        if let Some(when) = when(summary) {
            points.push(Block::Point(Label::When, when));
            points.push(Block::Point(Label::Why, shares_in_words(summary, &scenario.plan)));
        } else {
            points.push(Block::Point(Label::Why, never(summary)));
        }
        points.extend(
            (counts_on.filter(|never| {
                let least = WORTH_A_WARNING_OF_SHORT * summary.interruption_probability;
                never.higher_by.by >= least.max(WORTH_A_WARNING)
            }))
            .map(|never| Block::Point(Label::Careful, never_gating_down(never))),
        );
        points.extend(reserve(scenario, summary).map(|told| Block::Point(Label::Reserve, told)));
        points.extend(aid_not_asked(scenario));
        points.extend(watch(scenario, summary).map(|told| Block::Point(Label::Watch, told)));
        more = tables::more(scenario, summary);
    }
    Told {
        headline: headline(&scenario.plan),
        verdict: verdict(summary),
        points,
        advice: helps.iter().take(MOST_ADVICE).map(|help| advice(summary, help)).collect(),
        more,
        notes: notes_that_matter(scenario),
        small_print: small_print(summary),
        ask_next: vec!["request", "size", "lose", "levers"],
    }
}

fn chances(summary: &Summary) -> Chances {
    Chances::of(summary.interruption_probability, summary.replications)
}

/// Where no change makes it rarer that the lines run short: those that make it shorter, or that none does.
fn shorter(summary: &Summary, (helps, shortens): (&[Help], &[Shortens])) -> Option<Block> {
    if !helps.is_empty() || summary.interruption_probability == 0.0 {
        return None;
    }
    let Some(first) = shortens.first() else {
        return Some(Block::Point(
            Label::Best,
            say!["no single change that was tried helps clearly."],
        ));
    };
    let minutes = |value| Piece::Number(value, 1);
    let each = (shortens.iter().take(MOST_SHORTENING))
        .map(|one| say![change_words(&one.change), " to ", minutes(one.minutes)]);
    let told = say![
        "no single change makes that rarer. These make it shorter, from ",
        minutes(first.minutes_before),
        " minutes a fire: ",
        joined(each, "; ", "; "),
        "."
    ];
    Some(Block::Point(Label::Shorter, told))
}

fn verdict(summary: &Summary) -> Sentence {
    let chances = chances(summary);
    if summary.replications == 0 {
        say!["Ended before the first fires were simulated: nothing to say."]
    } else if chances.is_never() {
        say![
            "The lines keep their flow in all of ",
            Piece::Number(chances.fires as f64, 0),
            " fires."
        ]
    } else if chances.is_always() {
        // How often says nothing any more: how long, and how much of the water comes.
        say![
            "The lines run short in ",
            Piece::Fires(chances),
            ", for ",
            Piece::Minutes(summary.interrupted_minutes_mean),
            " on average: ",
            Piece::Volume(summary.wanted_gal - summary.unmet_gal_mean),
            " of ",
            Piece::Volume(summary.wanted_gal),
            " get there."
        ]
    } else {
        say!["The lines run short in ", Piece::Fires(chances), "."]
    }
}

/// "mostly from minute 18 to 24 after the alarm, before the drop tank feeds the engine."
fn when(summary: &Summary) -> Option<Sentence> {
    let [before, after] = [summary.before_supply, summary.after_supply].map(|one| one.probability);
    let phase = if after == 0.0 {
        say!["before the supply is established"]
    } else if before == 0.0 {
        say!["after the supply is established"]
    } else {
        let of = |share| Piece::Fires(Chances::of(share, summary.replications));
        let both = before + after - summary.interruption_probability;
        let told =
            say!["before the supply is established in ", of(before), ", after it in ", of(after)];
        if both < 0.005 { told } else { say![told, " (some fires both)"] }
    };
    let clock = mostly(summary)?;
    let mut told = say![clock, " after the alarm, ", phase, "."];
    if summary.established_share < 0.9995 {
        let never = Chances::of(1.0 - summary.established_share, summary.replications);
        told = told.then(say!["In ", Piece::Fires(never), " the supply is never established.",]);
    }
    Some(told)
}

/// "mostly from minute 18 to 24"; `None` where no fire runs short.
fn mostly(summary: &Summary) -> Option<Sentence> {
    summary.first_interruption_min?;
    let (from, to) = middle_half(summary);
    Some(if to - from < 1.5 {
        say!["mostly about ", Piece::Clock(from)]
    } else {
        say!["mostly from ", Piece::Clock(from), " to ", Piece::Number(to, 0)]
    })
}

/// The minutes after the alarm between which the middle half of the first shortfalls begin.
pub(crate) fn middle_half(summary: &Summary) -> (f64, f64) {
    let shares = &summary.first_interruption_by_alarm_minute;
    let all: f64 = shares.iter().sum();
    let reached = |part: f64| {
        let mut sum = 0.0;
        let minute = shares.iter().position(|share| {
            sum += share;
            sum >= part * all
        });
        minute.unwrap_or(0) as f64 + 0.5
    };
    (reached(0.25), reached(0.75))
}

fn never(summary: &Summary) -> Sentence {
    let low = summary.lowest_engine_gal.worst_5_percent.unwrap_or(0.0);
    say![
        "in 95 fires of 100 the attack engine's tank never had less than ",
        Piece::Volume(low),
        ".",
    ]
}

fn never_gating_down(never: &CountsOn) -> Sentence {
    let then = Chances::of(never.interruption_probability, never.replications);
    say![
        "the pump operator has to gate down at low water. With one who never does the lines run short in ",
        Piece::Fires(then),
        "."
    ]
}

fn reserve(scenario: &Scenario, summary: &Summary) -> Option<Sentence> {
    let reserve = scenario.plan.facts().incident.reserve;
    let touched = Chances::of(summary.reserve_touched.probability, summary.replications);
    (reserve > 0.0 && !touched.is_never()).then(|| {
        say![
            "the ",
            Piece::Volume(reserve),
            " for backing out are touched in ",
            Piece::Fires(touched),
            "."
        ]
    })
}

/// How to see the worst of the fires.
fn watch(scenario: &Scenario, summary: &Summary) -> Option<Sentence> {
    let run = summary.worst_run?;
    let mut call = vec!["bucketline".to_owned(), "replay".to_owned(), path_as_argument(scenario)];
    // The fire of the plan that was asked about.
    call.extend(scenario.asked.words.iter().cloned());
    call.extend(["--run".to_owned(), run.to_string()]);
    if summary.seed != 1 {
        call.extend(["--seed".to_owned(), summary.seed.to_string()]);
    }
    Some(say!["the worst of these fires: ", Piece::Command(call)])
}

fn advice(summary: &Summary, help: &Help) -> Advice {
    let (low, high) = help.lower_by_ci;
    Advice {
        what: change_words(&help.change),
        before: chances(summary),
        after: Chances::of(help.interruption_probability, help.replications),
        higher_by: Apart {
            by: -help.lower_by,
            ci_low: -high,
            ci_high: -low,
            interval: Interval::AllAtOnce,
        },
        cost: None,
    }
}

fn small_print(summary: &Summary) -> Vec<Sentence> {
    let fires = summary.replications;
    if fires == 0 {
        return Vec::new();
    }
    let of = |share| Piece::Percent(Chances::of(share, fires));
    let exact = say![
        "In percent: ",
        of(summary.interruption_probability),
        ", 95% interval ",
        of(summary.ci_low),
        " to ",
        of(summary.ci_high),
        ". It covers the number of simulated fires, not what was guessed.",
    ];
    let advice = say![
        "Changes were run on the same luck; what is told helps at 95% for all that were tried at once.",
    ];
    vec![exact, advice]
}
