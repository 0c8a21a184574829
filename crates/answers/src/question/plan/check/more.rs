//! The tables and paragraphs of `check` for who asks for more.

use scenario_file::Scenario;
use shuttle_report::chart::part_words;
use shuttle_report::worksheet::{HAND_ALLOWANCE, TankerSheet, Worksheet};

use super::{ByHand, sources};
use crate::answer::{Block, Label};
use crate::say;
use crate::say::{Align, Piece, Sentence, Table, joined, list, name};
use crate::shared::quantities::{bare_flow, count, flow, volume};
use crate::shared::station::{capped_by_words, station_words};
use crate::shared::{as_shown, hose, key_words, people};

/// One row for tankers that are alike by hand: how many, from where, a cycle, what they make.
pub fn cycles(sheet: &Worksheet) -> Table {
    let mut table = Table::new(vec![
        (say![Piece::Tankers], Align::Left),
        (say!["fills at"], Align::Left),
        (say!["cycle, min"], Align::Right),
        (say!["each, by hand ", Piece::FlowSign], Align::Right),
    ]);
    for alike in groups(sheet) {
        let first = &alike[0];
        table.row(vec![
            names(alike),
            say![name(&first.fill_site)],
            say![Piece::Number(first.cycle_min, 1)],
            say![bare_flow(first.hand_gpm)],
        ]);
    }
    table
}

/// Tankers listed one behind the other that are alike by hand.
fn groups(sheet: &Worksheet) -> impl Iterator<Item = &[TankerSheet]> {
    sheet.tankers.chunk_by(|a, b| {
        a.parts == b.parts && a.fill_site == b.fill_site && a.hand_gpm == b.hand_gpm
    })
}

fn names(alike: &[TankerSheet]) -> Sentence {
    match alike {
        [first, _, _, .., last] => {
            say![name(&first.name), " to ", name(&last.name), " (", count(alike.len() as u64), ")",]
        }
        few => list(few.iter().map(|one| say![name(&one.name)])),
    }
}

/// How cycles and caps are worked out, people by place, the lays in full, values from facts.
pub fn more(scenario: &Scenario, by_hand: &ByHand) -> Vec<Block> {
    let sheet = &by_hand.sheet;
    let mut blocks = Vec::new();
    let mut point = |label: &mut Label, told: Sentence| {
        blocks.push(Block::Point(*label, told));
        *label = Label::Blank;
    };
    let mut label = Label::Cycle;
    for alike in groups(sheet) {
        point(&mut label, parts(alike));
        point(&mut label, rate(&alike[0]));
    }
    point(&mut label, together(sheet));
    label = Label::AtMost;
    for cap in sheet.fill_caps.iter().chain(&sheet.other_caps) {
        let (place, how) = (station_words(&cap.at), capped_by_words(cap.by));
        point(&mut label, say![flow(cap.gpm), " through ", place, ": ", how]);
    }
    if sheet.site_credits.len() > 1 {
        for told in by_site(sheet) {
            point(&mut label, told);
        }
    }
    if let Some(knee) = sheet.knee {
        let ratio = Piece::Number(knee, 2);
        point(
            &mut label,
            say!["the least of them over the rate of one ", Piece::Tanker, ": ", ratio],
        );
    }
    label = Label::Water;
    for told in sources(scenario, sheet, |times| times >= super::AMPLE) {
        point(&mut label, told);
    }
    point(&mut Label::People.clone(), people::by_place(&by_hand.people, scenario));
    label = Label::Hose;
    for one in &by_hand.hose {
        point(&mut label, hose::in_full(one, &scenario.hose));
    }
    let rests_on = if by_hand.hose.is_empty() {
        say![
            "not known: no leg is given by its length, nor ",
            Piece::ByMedium { command: "`hose.distance`", page: "the distance for hose" },
            "."
        ]
    } else {
        hose::rests_on(&scenario.hose)
    };
    point(&mut label, rests_on);
    label = Label::Facts;
    for one in &scenario.derived {
        let rule = match one.rule {
            Some(rule) => say![rule.name(), ": "],
            None => Sentence::default(),
        };
        point(&mut label, say![key_words(&one.place, scenario), ": ", rule, &one.how]);
    }
    blocks
}

/// "Tanker 3, from Quarry pond: travel out 4.13 · connect 1.20 = 18.75 min": with as many decimal places as it takes for
/// whoever adds them up to come to the cycle that is told elsewhere, and the sum is that of the parts as they stand there.
fn parts(alike: &[TankerSheet]) -> Sentence {
    let first = &alike[0];
    let minutes: Vec<f64> = first.parts.iter().map(|(_, mean)| *mean).collect();
    let digits = as_shown::digits_that_add_up(&minutes, first.cycle_min, |_| true);
    let each = (first.parts.iter())
        .map(|(part, mean)| say![part_words(*part), " ", Piece::Number(*mean, digits)]);
    say![
        names(alike),
        ", from ",
        name(&first.fill_site),
        ": ",
        joined(each, " · ", " · "),
        " = ",
        Piece::Number(as_shown::added_up(&minutes, digits), digits),
        " min",
    ]
}

fn rate(one: &TankerSheet) -> Sentence {
    let capacity = one.hand_gpm * one.cycle_min / (1.0 - HAND_ALLOWANCE);
    say![
        "by hand (",
        volume(capacity),
        " less ",
        Piece::Number(100.0 * HAND_ALLOWANCE, 0),
        "%) / ",
        Piece::Number(one.cycle_min, 1),
        " min = ",
        flow(one.hand_gpm),
        "; with the scenario's own waste ",
        volume(one.load_gal),
        " a load, ",
        flow(one.plan_gpm),
    ]
}

/// What each of several fill sites passes of what its tankers make: "Otter pond: four tankers make 563 gpm, keep
/// 1.0 positions busy, pass 563 gpm".
fn by_site(sheet: &Worksheet) -> Vec<Sentence> {
    let mut told: Vec<Sentence> = (sheet.fill_caps.iter().zip(&sheet.site_credits))
        .map(|(cap, site)| {
            let place = station_words(&cap.at);
            if site.tankers == 0 {
                return say![place, ": left unused"];
            }
            let several = site.tankers > 1;
            say![
                place,
                ": ",
                Piece::TankerCount(site.tankers),
                if several { " make " } else { " makes " },
                flow(site.made_gpm),
                if several { ", keep " } else { ", keeps " },
                Piece::Number(site.busy, 1),
                " positions busy, ",
                if several { "pass " } else { "passes " },
                flow(site.gpm),
            ]
        })
        .collect();
    told.push(say![
        "by hand each ",
        Piece::Tanker,
        " goes to one site, ",
        if sheet.exact { "by the best assignment of all" } else { "by the best assignment found" },
        ": ",
        flow(sheet.passes_gpm),
    ]);
    told
}

fn together(sheet: &Worksheet) -> Sentence {
    say![
        "together ",
        flow(sheet.hand_gpm),
        " by hand, ",
        flow(sheet.plan_gpm),
        " with the scenario's own waste",
    ]
}
