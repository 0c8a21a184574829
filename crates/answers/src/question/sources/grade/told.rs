//! What `grade` says.

use scenario_file::Scenario;
use shuttle_report::conditions::State;
use shuttle_report::conditions::shown::Drilled;
use shuttle_report::evidence::Evidence;
use shuttle_report::grade::{GradeAnswer, RuleResult, SiteGrade, Verdict};
use shuttle_report::grading_rules::GradingRule;
use shuttle_report::site_sets::Travel;
use shuttle_report::units::Units;

use super::{cautions, letter, rules, sites, tables};
use crate::answer::{Block, Label, Told};
use crate::say;
use crate::say::{Piece, Sentence, joined, name, on_command};
use crate::shared::holding::why;
use crate::shared::luck::SharedLuck;
use crate::shared::notes_that_matter;
use crate::shared::station::station_words;

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
        points.push(Block::Point(Label::Binds, say![limits(best, units, false), "."]));
        if let (Some(rule), Some(sheet)) = (found.rules.first(), sheets.get(best.scenario)) {
            for (place, told) in cautions::cautions(best, rule, sheet).into_iter().enumerate() {
                let label = if place == 0 { Label::Careful } else { Label::Blank };
                points.push(Block::Point(label, told));
            }
        }
        let mut luck: Vec<SharedLuck> =
            scenarios.iter().map(|one| SharedLuck::of(&one.plan)).collect();
        luck.dedup();
        more.extend(luck.iter().map(SharedLuck::line));
        more.push(Block::Gap);
        points.extend([Block::Gap, Block::Table(tables::short(found))]);
        for table in (0..found.titles.len()).filter_map(|place| tables::by_aid(found, place)) {
            points.extend([Block::Gap, Block::Table(table)]);
        }
        let tables = (tables::full(found).into_iter())
            .chain([tables::by_hand(found), tables::assigned(found)])
            .chain(tables::conditions(found, best.scenario));
        for table in tables {
            more.extend([Block::Table(table), Block::Gap]);
        }
        for (place, one) in found.ranked.iter().enumerate() {
            let label = if place == 0 { Label::Binds } else { Label::Blank };
            more.push(Block::Point(
                label,
                say![sites(one, found), ": ", limits(one, units, true), "."],
            ));
        }
        more.push(Block::Gap);
    }
    more.extend(super::sheets_of(scenarios, sheets, found));
    Told {
        headline: headline(found),
        verdict: verdict(found, sheets),
        points,
        advice: Vec::new(),
        more,
        notes: scenarios.iter().flat_map(notes_that_matter).collect(),
        small_print: small_print(found),
        ask_next: vec!["risk"],
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

fn verdict(found: &GradeAnswer, sheets: &[Evidence]) -> Sentence {
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
            let credit = Piece::Flow(result.hand.credited_gpm);
            let unused = unused(best, result);
            let start = say!["Fill at ", who, unused, ": ", holds, "."];
            let speeds = rule.credits(result.hand.by_speeds_gpm);
            let differs = speeds > result.hand.credited_gpm + 0.5;
            let at_speeds = if result.hand.travel == Travel::Rule && differs {
                say![" (", Piece::Flow(speeds), " at the speeds stated)"]
            } else {
                Sentence::default()
            };
            let told = start.then(say![
                "By hand ",
                credit,
                " is credited",
                at_speeds,
                "; the least that counts is ",
                least,
                "."
            ]);
            let lacks = cautions::not_shown_in_short(&result.not_shown);
            if lacks.is_empty() {
                told
            } else {
                told.then(say!["Only the figures pass; not shown: ", lacks, "."])
            }
        }
        Verdict::NotClear => say![
            "Too close to tell whether any fill site holds the ",
            least,
            " that are the least credited; ",
            who,
            " comes nearest.",
        ],
        Verdict::Fail if result.flow == Verdict::Pass => say![
            "No fill site passes. The best is ",
            who,
            ": ",
            holds,
            ", but ",
            joined(against(result, rule, sheets.get(best.scenario)), "; ", " and "),
            ".",
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

/// Why a rule is not met although the flow holds.
pub fn against(result: &RuleResult, rule: &GradingRule, sheet: Option<&Evidence>) -> Vec<Sentence> {
    let mut told: Vec<Sentence> =
        not_met(result).map(|condition| say![condition, " is not met"]).collect();
    if !result.by_hand_reached {
        let carried = if result.minimum_above_cap {
            "; first loads and full tanks alone carry it, and are used up once"
        } else {
            ""
        };
        told.push(say![
            "by hand ",
            Piece::Flow(result.hand.counts_gpm),
            " is less than the ",
            Piece::Flow(rule.minimum_gpm),
            " asked for",
            carried,
        ]);
    }
    if let Drilled::FellShort(place) = result.drilled
        && let Some(drill) = sheet.and_then(|sheet| sheet.survey.drills.get(place))
    {
        told.push(cautions::drill_told(drill));
    }
    told
}

/// What the file says against a rule.
fn not_met(result: &RuleResult) -> impl Iterator<Item = Sentence> + '_ {
    (result.conditions.iter())
        .filter(|(_, state)| *state == State::NotMet)
        .map(|(condition, _)| rules::condition(condition))
}

/// ", Otter pond unused": sites of the best set that the flow which holds does without.
fn unused(best: &SiteGrade, result: &RuleResult) -> Sentence {
    let unused: Vec<Sentence> = (best.sites.iter())
        .filter(|site| !result.held_with.contains(site))
        .map(|site| say![name(site)])
        .collect();
    if unused.is_empty() {
        return Sentence::default();
    }
    say![" (", joined(unused, ", ", " and "), " left unused)"]
}

/// What is credited by hand where it is less than the tankers make; where first loads are told of, that is said
/// with them.
fn capped(one: &SiteGrade) -> Option<Sentence> {
    let hand = one.hand()?;
    let tells_first_loads =
        one.results.first().is_some_and(|first| first.first_loads_gal.is_some());
    (hand.counts_gpm < hand.made_gpm - 0.5 && !tells_first_loads).then(|| {
        let through = match &hand.scene {
            Some((station, gpm)) if *gpm < hand.passes_gpm => station_words(station),
            _ => say!["the fill sites"],
        };
        say![
            "by hand the ",
            Piece::Tankers,
            " make ",
            Piece::Flow(hand.made_gpm),
            ", but no more than ",
            Piece::Flow(hand.counts_gpm),
            " passes through ",
            through,
            ".",
        ]
    })
}

/// What holds one set back.
///
/// - Given: whether to say what passes by hand, too.
fn limits(one: &SiteGrade, units: Units, tells_cap: bool) -> Sentence {
    let Some(result) = one.results.first() else {
        return Sentence::default();
    };
    let mut parts: Vec<Sentence> = Vec::new();
    if one.sites.iter().any(|site| !result.held_with.contains(site)) {
        let used = result.held_with.iter().map(|site| say![name(site)]);
        parts.push(say!["it holds most with ", joined(used, ", ", " and "), " alone"]);
    }
    parts.extend(not_met(result).map(|told| say![told, ": not met"]));
    parts.push(breaks(result));
    if let Some((station, gpm)) = &result.tightest {
        let place = station_words(station);
        if let (Some(held), Some(gallons)) = (result.held_gpm, result.first_loads_gal) {
            let does = match result.flow {
                Verdict::Pass if result.minimum_above_cap => "it holds only, at ",
                _ => "it holds, at ",
            };
            parts.push(say![
                does,
                Piece::Flow(held),
                ", on about ",
                Piece::Volume(rounded(gallons, units)),
                " that first loads and full tanks bring once; when they are used up, loads as the file states them \
                 come to no more than ",
                Piece::Flow(*gpm),
                " through ",
                place,
                with_10_percent_off(one, result),
            ]);
        } else if tells_cap && result.hand.counts_gpm < result.hand.made_gpm - 0.5 {
            parts.push(say![
                "by hand no more than ",
                Piece::Flow(result.hand.counts_gpm),
                " of ",
                Piece::Flow(result.hand.made_gpm),
                " passes",
            ]);
        }
    }
    if result.uneven {
        parts.push(say!["a greater flow was seen to hold where a lesser one fails: take care"]);
    }
    joined(parts, "; ", "; ")
}

/// " (with 10% off, as credited, 195 gpm)", where the same sites bound the credit, too.
fn with_10_percent_off(one: &SiteGrade, result: &RuleResult) -> Sentence {
    let hand = &result.hand;
    let is_bound = hand.counts_gpm < hand.made_gpm - 0.5;
    if is_bound && one.sites.iter().all(|site| result.held_with.contains(site)) {
        say![" (with 10% off, as credited, ", Piece::Flow(hand.counts_gpm), ")"]
    } else {
        Sentence::default()
    }
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

fn small_print(found: &GradeAnswer) -> Vec<Sentence> {
    let weighed = if found.all_up_to_three {
        "every site alone, every pair, every three and all together"
    } else {
        "every site alone, and the best of them grown by one site at a time"
    };
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
            Piece::Number(found.weighed as f64, 0),
            " sets were weighed by hand (",
            weighed,
            "), ",
            Piece::Number(found.ranked.len() as f64, 0),
            " were simulated. By hand each ",
            Piece::Tanker,
            " goes to one site; in the simulation it goes where it should be back first, unless the file \
             assigns it. A set may leave a site unused.",
        ],
        say![
            "Own ",
            Piece::Tankers,
            " and those on automatic aid",
            on_command(" (`aid` of each)"),
            " are counted; those ",
            Piece::ByMedium { command: "under `aid` of the file", page: "listed as aid" },
            " only where all aid is named: aid counts only as the \
             grading body counts automatic aid. Nothing here is said on a grading body's behalf: it decides \
             alone, by its own edition and by what it sees.",
        ],
    ]
}
