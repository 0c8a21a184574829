//! What must be known before anyone relies on a figure: what is not shown, what holds less than is credited, who counts
//! and who does not.

use shuttle_report::conditions::State;
use shuttle_report::conditions::shown::{Drilled, NotShown};
use shuttle_report::evidence::Evidence;
use shuttle_report::grade::{RuleResult, SiteGrade};
use shuttle_report::grading_rules::{Condition, GradingRule};
use shuttle_report::site_sets::Travel;
use shuttle_report::survey::{HeldDrill, Survey};

use super::rules;
use crate::say;
use crate::say::{Piece, Sentence, joined, list, name, on_command};

/// Flows that are less apart are told alike, gpm.
const SAME_GPM: f64 = 0.5;

/// Before anyone relies on the best set under the first rule, the worst first.
pub fn cautions(best: &SiteGrade, rule: &GradingRule, sheet: &Evidence) -> Vec<Sentence> {
    let Some(result) = best.results.first() else { return Vec::new() };
    let told = [
        holds_less(result),
        drilled_less(result, rule, &sheet.survey),
        other_travel(result, rule),
        aid_not_stated(sheet),
        asked_later(result),
        late(result, rule),
    ];
    told.into_iter().flatten().chain([decides(best)]).collect()
}

/// More is credited by hand than holds.
fn holds_less(result: &RuleResult) -> Option<Sentence> {
    let credited = result.hand.credited_gpm;
    let fails = result.fails_gpm.filter(|fails| result.by_hand_reached && credited >= *fails)?;
    Some(say![
        "by hand ",
        Piece::Flow(credited),
        " is credited, but ",
        Piece::Flow(fails),
        " is shown not to hold: claim no more than a drill holds.",
    ])
}

/// What is credited was not held at any drill that is stated.
fn drilled_less(result: &RuleResult, rule: &GradingRule, survey: &Survey) -> Option<Sentence> {
    let credited = result.hand.credited_gpm;
    match result.drilled {
        Drilled::FellShort(place) => {
            let drill = survey.drills.get(place)?;
            Some(say![drill_told(drill), ", less than ", rules::title(rule), "."])
        }
        Drilled::NotShown | Drilled::Held(_) => {
            let held = survey.drills.iter().filter_map(|drill| drill.flow_gpm);
            let most = held.reduce(f64::max)?;
            (credited > most + SAME_GPM).then(|| {
                say![
                    "by hand ",
                    Piece::Flow(credited),
                    " is credited; no drill that the file states held more than ",
                    Piece::Flow(most),
                    ".",
                ]
            })
        }
    }
}

/// "The drill of 1 May held 180 gpm for 40 minutes, water shown after 9.0 min".
pub fn drill_told(drill: &HeldDrill) -> Sentence {
    let mut told = say!["the drill of ", name(&drill.date), " held "];
    told.push(match drill.flow_gpm {
        Some(gpm) => say![Piece::Flow(gpm)],
        None => say!["a flow that is not stated"],
    });
    if let Some(minutes) = drill.minutes {
        told.push(say![" for ", Piece::Duration(minutes)]);
    }
    if let Some(shown) = drill.water_shown_min {
        told.push(say![", water shown after ", Piece::Number(shown, 1), " min"]);
    }
    told
}

/// What a body that takes the travel rule would credit, where it is less and not taken.
fn other_travel(result: &RuleResult, rule: &GradingRule) -> Option<Sentence> {
    let hand = &result.hand;
    let by_rule = rule.credits(hand.by_travel_rule_gpm?);
    let is_lower = hand.travel == Travel::Stated && by_rule < hand.credited_gpm - SAME_GPM;
    is_lower.then(|| {
        say![
            "credited by the speeds stated; a body that takes ",
            rules::travel_rule(),
            " credits ",
            Piece::Flow(by_rule),
            ".",
        ]
    })
}

/// Who counts as own because nothing is said.
fn aid_not_stated(sheet: &Evidence) -> Option<Sentence> {
    let silent = sheet.tankers.iter().filter(|one| !one.survey.aid_is_stated).count();
    (silent > 0).then(|| counted_as_own(silent))
}

/// So many tankers are counted as own because nothing is said of them.
pub fn counted_as_own(silent: usize) -> Sentence {
    say![
        Piece::TankerCount(silent),
        if silent == 1 { " counts" } else { " count" },
        " as own because ",
        Piece::ByMedium { command: "the file does not say whose", page: "nothing says whose" },
        if silent == 1 { " it is" } else { " they are" },
        on_command(" (`aid`)"),
        ".",
    ]
}

fn names(of: &[String]) -> Sentence {
    list(of.iter().map(|one| say![name(one)]))
}

fn asked_later(result: &RuleResult) -> Option<Sentence> {
    let those = &result.hand.asked_later;
    (!those.is_empty()).then(|| {
        say!["automatic aid is sent at the alarm; asked for only later: ", names(those), ".",]
    })
}

fn late(result: &RuleResult, rule: &GradingRule) -> Option<Sentence> {
    let those = &result.hand.late;
    (!those.is_empty()).then(|| {
        say![
            "not counted, there only after minute ",
            Piece::Number(rule.reached_by_min(), 0),
            " from the first engine's arrival: ",
            names(those),
            ".",
        ]
    })
}

/// Whose decision it is, and how much of what the rules ask for the file does not say.
fn decides(best: &SiteGrade) -> Sentence {
    let mut open: Vec<Condition> = Vec::new();
    for (condition, state) in best.results.iter().flat_map(|result| &result.conditions) {
        if *state == State::NotKnown && !open.contains(condition) {
            open.push(*condition);
        }
    }
    let decides = say!["the grading body alone decides; "];
    match open.len() {
        0 => say![decides, "aid counts only as it counts automatic aid."],
        1 => say![decides, "one thing the rules ask for is not stated."],
        open => {
            say![decides, Piece::Count(open), " things the rules ask for are not stated."]
        }
    }
}

/// "written procedures, a drill that held the flow for its time, flow test and owner's agreement of three sources".
pub fn not_shown_in_short(lacks: &[NotShown]) -> Sentence {
    let of_sources: Vec<(&'static str, Vec<&String>)> = of_sources(lacks);
    let mut sources: Vec<&String> =
        of_sources.iter().flat_map(|(_, sites)| sites.clone()).collect();
    sources.sort();
    sources.dedup();
    let kinds = list(of_sources.iter().map(|(what, _)| say![*what]));
    let kinds = match sources.len() {
        0 => None,
        1 => Some(say![kinds, " of the source"]),
        many => Some(say![kinds, " of ", Piece::Count(many), " sources"]),
    };
    joined(of_the_department(lacks).chain(kinds), ", ", ", ")
}

/// The same with the sources by name: "flow test (Mill pond)".
pub fn not_shown(lacks: &[NotShown]) -> Sentence {
    let named = |(what, sites): (&'static str, Vec<&String>)| {
        say![what, " (", list(sites.into_iter().map(|site| say![name(site)])), ")"]
    };
    list(of_the_department(lacks).chain(of_sources(lacks).into_iter().map(named)))
}

fn of_the_department(lacks: &[NotShown]) -> impl Iterator<Item = Sentence> + '_ {
    [
        (NotShown::Procedures, "written procedures"),
        (NotShown::Agreements, "agreements for aid"),
        (NotShown::Drill, "a drill that held the flow for its time"),
    ]
    .into_iter()
    .filter(|(what, _)| lacks.contains(what))
    .map(|(_, told)| say![told])
}

/// What is lacking of which sources.
fn of_sources(lacks: &[NotShown]) -> Vec<(&'static str, Vec<&String>)> {
    let of = |site: fn(&NotShown) -> Option<&String>| lacks.iter().filter_map(site).collect();
    let kinds: [(&'static str, Vec<&String>); 3] = [
        (
            "flow test",
            of(|one| match one {
                NotShown::FlowTest(site) => Some(site),
                _ => None,
            }),
        ),
        (
            "owner's agreement",
            of(|one| match one {
                NotShown::OwnersAgreement(site) => Some(site),
                _ => None,
            }),
        ),
        (
            "drought certificate",
            of(|one| match one {
                NotShown::Certificate(site) => Some(site),
                _ => None,
            }),
        ),
    ];
    kinds.into_iter().filter(|(_, sites)| !sites.is_empty()).collect()
}
