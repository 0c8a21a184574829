//! What `grade` says.

use scenario_file::Scenario;
use shuttle_report::evidence::Evidence;
use shuttle_report::grade::{GradeAnswer, RuleResult, SiteGrade, Verdict};
use shuttle_report::grading_rules::GradingRule;
use shuttle_report::units::Units;

use super::{evidence, letter, rules, sites, tables, words_of_tightest};
use crate::answer::{Block, Label, Told};
use crate::say;
use crate::say::{Piece, Sentence, joined, name};
use crate::shared::holding::why;
use crate::shared::notes;

/// Water from first loads is rounded to a hundred gallons or litres: the cap behind it is a mean.
const ROUND_VOLUME: f64 = 100.0;

/// More of the fires than this without water in time, and that is what breaks the flow. Judgement.
const OFTEN_LATE: f64 = 0.05;

/// The answer in sentences.
pub fn told(scenarios: &[Scenario], found: &GradeAnswer, sheets: &[Evidence]) -> Told {
    let units = scenarios.first().map_or(Units::Us, |first| first.units);
    let mut points = Vec::new();
    let mut more = Vec::new();
    if let Some(best) = found.ranked.first() {
        points.extend(capped(best).map(|told| Block::Point(Label::AtMost, told)));
        points.push(Block::Point(Label::Binds, say![limits(best, found, units, false), "."]));
        points.push(Block::Point(
            Label::Careful,
            say!["the grading body alone decides; aid counts only as it counts automatic aid."],
        ));
        points.extend([Block::Gap, Block::Table(tables::short(found))]);
        for table in tables::full(found).into_iter().chain([tables::by_hand(found)]) {
            more.extend([Block::Table(table), Block::Gap]);
        }
        for (place, one) in found.ranked.iter().enumerate() {
            let label = if place == 0 { Label::Binds } else { Label::Blank };
            more.push(Block::Point(
                label,
                say![sites(one, found), ": ", limits(one, found, units, true), "."],
            ));
        }
        more.push(Block::Gap);
    }
    for (place, sheet) in sheets.iter().enumerate() {
        more.extend(evidence::sheet(sheet, place, found));
        more.push(Block::Gap);
    }
    more.extend(found.rules.iter().map(|rule| Block::Paragraph(rules::in_full(rule))));
    Told {
        headline: headline(found),
        verdict: verdict(found),
        points,
        advice: Vec::new(),
        more,
        notes: scenarios.iter().flat_map(notes).collect(),
        small_print: small_print(found, scenarios),
        ask_next: vec!["risk", "reach", "check"],
    }
}

fn headline(found: &GradeAnswer) -> Sentence {
    if let [only] = found.titles.as_slice() {
        return say![name(only), ". Fill sites compared for a grading."];
    }
    let places = (found.titles.iter().enumerate())
        .map(|(place, title)| say![letter(place), " ", name(title)]);
    say![
        Piece::Count(found.titles.len()),
        " places, their fill sites compared for a grading: ",
        joined(places, "; ", "; "),
        ".",
    ]
}

fn verdict(found: &GradeAnswer) -> Sentence {
    let (Some(best), Some(rule)) = (found.ranked.first(), found.rules.first()) else {
        return say!["Ended before anything was clear."];
    };
    let Some(result) = best.results.first() else {
        return say!["No rule was asked about."];
    };
    let least = Piece::Flow(rule.minimum_gpm);
    let who = sites(best, found);
    let holds = held(result, rule, found.share);
    match result.verdict {
        Verdict::Pass => {
            let credit = Piece::Flow(best.counts_gpm);
            let start = say!["Fill at ", who, ": ", holds, "."];
            start.then(say![
                "By hand ",
                credit,
                " is credited; the least that counts is ",
                least,
                "."
            ])
        }
        Verdict::NotClear => say![
            "Too close to tell whether any fill site holds the ",
            least,
            " that are the least credited; ",
            who,
            " comes nearest.",
        ],
        Verdict::Fail if result.near_enough == Some(false) => say![
            "No fill site passes. The best is ",
            who,
            ": ",
            holds,
            ", but it lies farther than the rule allows.",
        ],
        Verdict::Fail => say![
            "No fill site holds the ",
            least,
            " that are the least credited. The best is ",
            who,
            ": ",
            holds,
            ".",
        ],
    }
}

/// "790 gpm holds without a break for 2 hours in at least 95% of fires".
fn held(result: &RuleResult, rule: &GradingRule, share: f64) -> Sentence {
    match result.held_gpm {
        Some(gpm) => say![
            Piece::Flow(gpm),
            " holds without a break for ",
            Piece::Duration(rule.duration_min),
            " in at least ",
            Piece::Share(share),
            " of fires",
        ],
        None => say!["no flow holds"],
    }
}

/// What is credited by hand where it is less than the tankers make; where first loads are told of, that is said
/// with them.
fn capped(one: &SiteGrade) -> Option<Sentence> {
    let (place, cap) = one.tightest.as_ref()?;
    let tells_first_loads =
        one.results.first().is_some_and(|first| first.first_loads_gal.is_some());
    (*cap < one.hand_gpm && !tells_first_loads).then(|| {
        say![
            "by hand the ",
            Piece::Tankers,
            " make ",
            Piece::Flow(one.hand_gpm),
            ", but no more than ",
            Piece::Flow(*cap),
            " passes through ",
            words_of_tightest(place, one),
            ".",
        ]
    })
}

/// What holds one set back.
///
/// - Given: whether to say what passes by hand, too.
fn limits(one: &SiteGrade, found: &GradeAnswer, units: Units, tells_cap: bool) -> Sentence {
    let Some(result) = one.results.first() else {
        return Sentence::default();
    };
    let mut parts = Vec::new();
    let most = found.rules.first().and_then(|rule| rule.source_within_miles);
    if result.near_enough == Some(false)
        && let (Some(miles), Some(most)) = (one.miles, most)
    {
        parts.push(say![
            Piece::Distance(miles),
            " is farther than the ",
            Piece::Distance(most),
            " the rule allows",
        ]);
    }
    parts.push(breaks(result));
    if let Some((place, gpm)) = &one.tightest {
        let place = words_of_tightest(place, one);
        if let (Some(held), Some(gallons)) = (result.held_gpm, result.first_loads_gal) {
            let does = match result.verdict {
                Verdict::Pass if result.minimum_above_cap => "passes only, at ",
                _ => "it holds, at ",
            };
            parts.push(say![
                does,
                Piece::Flow(held),
                ", on about ",
                Piece::Volume(rounded(gallons, units)),
                " that first loads and full tanks bring once; when they are used up, by hand no more than ",
                Piece::Flow(*gpm),
                " passes through ",
                place,
            ]);
        } else if tells_cap && *gpm < one.hand_gpm {
            parts.push(say![
                "by hand no more than ",
                Piece::Flow(*gpm),
                " can pass through ",
                place,
            ]);
        }
    }
    if result.uneven {
        parts.push(say!["a greater flow was seen to hold where a lesser one fails: take care"]);
    }
    joined(parts, "; ", "; ")
}

/// The volume rounded in the reader's units, gal.
fn rounded(gallons: f64, units: Units) -> f64 {
    let step = ROUND_VOLUME / units.volume(1.0);
    (gallons / step).round() * step
}

fn breaks(result: &RuleResult) -> Sentence {
    let Some(fails) = result.fails_gpm else {
        return match result.not_clear_up_to_gpm {
            Some(_) => say!["too close to tell what breaks it"],
            None => say!["no flow that was tried breaks it"],
        };
    };
    let at = Piece::Flow(fails);
    if result.late_share > OFTEN_LATE {
        let late = Piece::Number(100.0 * result.late_share, 0);
        return say!["at ", at, " the crew has no water in time in ", late, " fires of 100"];
    }
    match result.binds.and_then(why) {
        Some(why) => say!["at ", at, " it breaks: ", why],
        None => say![at, " cannot work at all"],
    }
}

fn small_print(found: &GradeAnswer, scenarios: &[Scenario]) -> Vec<Sentence> {
    let left_out = scenarios.iter().any(|scenario| scenario.aid.is_listed());
    vec![
        say![
            "Holds: unbroken in at least ",
            Piece::Share(found.share),
            " of fires, from the minute the rule names to the end. First loads and full tanks count, so it may \
             be more than passes by hand. The two hours of a higher flow are counted from the minute by which \
             it must be reached. Fires were simulated in numbers that it took to tell; all words of the table \
             hold together with 95% confidence.",
        ],
        say![
            "Every ",
            Piece::Tanker,
            " under `tankers` is counted, whosever it is",
            if left_out { "; those under `aid` are left out" } else { "" },
            ": aid counts only as the grading body counts automatic aid. Nothing here is said on a grading \
             body's behalf: it decides alone, by its own edition and by what it sees.",
        ],
    ]
}
