//! `hold` in words.

use scenario_file::Scenario;
use shuttle_report::by_minute::{HeldBy, MinuteAnswer, MinuteRow};

use super::figures::{HeldFigures, HoldFigures};
use super::tables;
use crate::answer::{Block, Label, Told};
use crate::say;
use crate::say::{Piece, Sentence, list, name, on_command};
use crate::shared::holding::{held_in_words, stepped_up_words, why};
use crate::shared::target::more_would_tell;
use crate::shared::{headline, notes};

pub fn told(scenario: &Scenario, found: &MinuteAnswer, figures: &HoldFigures) -> Told {
    let mut points = Vec::new();
    if let (Some(aid), Some(held)) = (&found.with_aid, &figures.with_aid) {
        points.push(Block::Point(Label::Ask, with_aid(found, aid, held)));
    }
    // Told of everyone where there is aid: that is the sentence with the most steps.
    let stepped = figures.with_aid.as_ref().and_then(stepped_up_words);
    let stepped = stepped.or_else(|| stepped_up_words(&figures.as_it_stands));
    points.extend(stepped.map(|told| Block::Point(Label::Careful, told)));
    points.extend(start(found).map(|told| Block::Point(Label::Start, told)));
    points.extend(seldom_enough(scenario, found).map(|told| Block::Point(Label::Turnout, told)));
    points.extend(binds(found).map(|told| Block::Point(Label::Binds, told)));
    if !found.as_it_stands.rows.is_empty() {
        points.extend([Block::Gap, Block::Table(tables::short(found))]);
    }
    let ask_next = if found.with_aid.is_some() {
        vec!["request", "risk", "levers"]
    } else {
        vec!["risk", "size", "levers"]
    };
    Told {
        headline: headline(&scenario.plan),
        verdict: verdict(found, &figures.as_it_stands),
        points,
        advice: Vec::new(),
        more: tables::full(found)
            .into_iter()
            .flat_map(|one| [Block::Gap, Block::Table(one)])
            .collect(),
        notes: notes(scenario),
        small_print: small_print(found),
        ask_next,
    }
}

/// "As it stands 250 gpm from minute 12, 500 gpm from minute 30: more cannot be had."
fn verdict(found: &MinuteAnswer, held: &HeldFigures) -> Sentence {
    if held.rows.is_empty() {
        return say!["Ended before the first fires were simulated: nothing to say."];
    }
    match held_in_words(held) {
        Some(flows) => say!["As it stands you can hold ", flows, "."],
        None if held.rows.iter().any(|row| row.not_clear_up_to_gpm.is_some()) => say![
            "As it stands it is too close to tell whether any flow holds to the end of the watch in ",
            Piece::Share(found.share),
            " of fires."
        ]
        .then(more_would_tell()),
        None => say![
            "As it stands no flow holds to the end of the watch in ",
            Piece::Share(found.share),
            " of fires."
        ],
    }
}

fn with_aid(found: &MinuteAnswer, aid: &HeldBy, held: &HeldFigures) -> Sentence {
    let more = aid.tankers.len().saturating_sub(found.as_it_stands.tankers.len());
    let who = if more <= 3 {
        let own = &found.as_it_stands.tankers;
        let names = aid.tankers.iter().filter(|one| !own.contains(one));
        say!["with ", list(names.map(|one| say![name(one)]))]
    } else {
        say!["with all ", Piece::TankerCount(more), " of the aid"]
    };
    match held_in_words(held) {
        Some(flows) => say![who, " ", flows, "."],
        None => say![who, " no flow is shown to hold either."],
    }
}

/// When first water is on, and until when only first loads carry it.
fn start(found: &MinuteAnswer) -> Option<Sentence> {
    let held = &found.as_it_stands;
    held.rows.first()?;
    let first = say!["first water about ", Piece::Clock(found.first_water_min)];
    Some(match held.first_refill_min {
        Some(refill) => {
            say![first, "; the first refilled load is at work at about ", Piece::Clock(refill), "."]
        }
        None => {
            say![first, "; no load is ever filled again: what comes on wheels is all there is."]
        }
    })
}

/// "Tanker 3 comes to 95% of fires by the file, and a flow that needs it holds in no more."; `None` where every unit comes more often
/// than a flow must hold.
fn seldom_enough(scenario: &Scenario, found: &MinuteAnswer) -> Option<Sentence> {
    let facts = scenario.plan.facts();
    let seldom: Vec<(&String, f64)> = (facts.tankers.iter())
        .map(|tanker| (&tanker.name, tanker.call.turnout))
        .filter(|(_, turnout)| *turnout <= found.share)
        .collect();
    let (_, least) = seldom.iter().copied().min_by(|a, b| a.1.total_cmp(&b.1))?;
    let names = match seldom.len() {
        ..=3 => list(seldom.iter().map(|(tanker, _)| say![name(tanker)])),
        several => say![Piece::TankerCount(several)],
    };
    Some(match seldom.len() {
        1 => say![
            names,
            " comes to ",
            Piece::Share(least),
            " of fires by the file",
            on_command(" (`turnout`)"),
            ", and a flow that needs it holds in no more."
        ],
        _ => say![
            names,
            " may not come. The least sure comes to ",
            Piece::Share(least),
            " of fires by the file",
            on_command(" (`turnout`)"),
            ", and a flow that needs it holds in no more."
        ],
    })
}

/// What breaks more, of the last minute asked about.
fn binds(found: &MinuteAnswer) -> Option<Sentence> {
    let held = |row: &&MinuteRow| row.held_gpm.unwrap_or(0.0);
    let most = found.as_it_stands.all_rows().max_by(|a, b| held(a).total_cmp(&held(b)))?;
    let why = why(most.binds?)?;
    Some(say!["at more than ", Piece::Flow(most.held_gpm?), " the lines run short: ", why, "."])
}

fn small_print(found: &MinuteAnswer) -> Vec<Sentence> {
    vec![
        say![
            "A flow holds if the lines are short in no more than ",
            Piece::Share(1.0 - found.share),
            " of fires from its minute to the end of the watch, about ",
            Piece::Clock(found.end_min),
            "; nothing is asked for before. All flows of the table hold together at 95%.",
        ],
        say![
            "A flow between two that were tried is taken to hold where a greater one does; the search looks for \
             cases where that is not so.",
        ],
    ]
}
