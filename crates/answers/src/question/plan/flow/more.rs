//! The tables and paragraphs of `flow` for who asks for more: every sum, sources, exposures, heat, hose.

use fireground::told::{Part, Unit};
use scenario_file::WaterWanted;

use super::Sheet;
use crate::answer::{Block, Label};
use crate::say;
use crate::say::{Align, Piece, Sentence, Table, list};
use crate::shared::quantities::{count, flow, size};
use crate::shared::{hose, people};

/// Distance to which the Canadian insurers charge exposures, ft: 45 m. Source: as the rule.
const CANADIAN_REACH_FT: f64 = 45.0 / 0.3048;

/// Every sum, exposures, heat, the lays in full, people by place, sources.
pub fn more(wanted: &WaterWanted, sheet: &Sheet) -> Vec<Block> {
    let mut blocks = vec![
        Block::Table(sums(wanted)),
        Block::Gap,
        Block::Paragraph(exposures(sheet)),
        Block::Paragraph(heat(sheet)),
    ];
    let mut label = Label::Hose;
    for one in &sheet.hose {
        blocks.push(Block::Point(label, hose::in_full(one, &wanted.hose)));
        label = Label::Blank;
    }
    if !sheet.hose.is_empty() {
        blocks.push(Block::Point(label, hose::rests_on(&wanted.hose)));
    }
    if let Some(scenario) = &wanted.scenario {
        let needed = people::needed(scenario);
        blocks.push(Block::Point(Label::People, people::by_place(&needed, scenario)));
    }
    blocks.push(Block::Gap);
    blocks.push(Block::Table(sources(wanted)));
    blocks
}

/// The rules with their sums and their warnings.
fn sums(wanted: &WaterWanted) -> Table {
    let mut table = Table::new(vec![(say!["rule"], Align::Left), (say!["how"], Align::Left)]);
    for row in &wanted.flow.rows {
        let mut how: Sentence = (&row.flow.how).into();
        for warning in &row.flow.warnings {
            how = say![how, ". Careful: ", warning];
        }
        table.row(vec![say![row.name()], how]);
    }
    table
}

/// Where each rule comes from.
fn sources(wanted: &WaterWanted) -> Table {
    let mut table = Table::new(vec![(say!["rule"], Align::Left), (say!["source"], Align::Left)]);
    for row in &wanted.flow.rows {
        table.row(vec![say![row.name()], say![row.flow.source]]);
    }
    table
}

fn exposures(sheet: &Sheet) -> Sentence {
    if sheet.near.is_empty() {
        return say!["No building near is stated."];
    }
    let hazards = sheet.near.iter().filter(|near| near.hazard).count();
    let each = sheet.near.iter().map(|near| {
        let hazard = if near.hazard { " away a hazard" } else { " away no hazard" };
        say![size(near.distance_ft), hazard]
    });
    say![
        count(hazards as u64),
        " of ",
        count(sheet.near.len() as u64),
        if sheet.near.len() == 1 { " building near" } else { " buildings near" },
        if hazards == 1 { " counts" } else { " count" },
        " as an exposure hazard by NFPA 1142 (within ",
        size(50.0),
        " and ",
        Piece::Worked(Part::Of(100.0, Unit::SquareFeet, 0)),
        ", or a class 3 or 4): ",
        list(each),
        ".",
    ]
    .then(say![
        "Each rule has a line of its own, so that a step nearer may ask for more: there NFPA 1142 asks for half as \
         much again, area / 3 for a quarter of the full flow; US insurers charge a building within ",
        size(40.0),
        ", Canadian ones by steps within ",
        size(CANADIAN_REACH_FT),
        "; the table for dwellings stands beside its row."
    ])
    .then(sheet.exposures_only.as_ref().map(|cover| {
        say!["Given up: ", &cover.how, " (", cover.source, ")."]
    }))
}

/// What the water takes up.
fn heat(sheet: &Sheet) -> Sentence {
    let taken = Part::Of(sheet.heat.value / 1e6, Unit::MillionBtuAMinute, 1);
    say![
        flow(sheet.flow),
        " with half of it to steam (judgement) take up ",
        Piece::Worked(taken),
        " of heat.",
    ]
}
