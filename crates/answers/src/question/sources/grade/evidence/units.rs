//! Tankers, and what each makes at each source; those that are alike stand in one row.

use shuttle_report::chart::part_words;
use shuttle_report::evidence::{Evidence, Figure, TankerEvidence};
use shuttle_report::grade::Alone;
use shuttle_report::grading_rules::GradingRule;
use shuttle_report::site_sets::{TankerCredit, Travel};
use shuttle_report::survey::Aid;

use shuttle_sim::Part;

use super::super::rules;
use crate::say;
use crate::say::{Align, Piece, Sentence, Table, list, name};
use crate::shared::station::station_words;

/// Whose, in a word.
pub fn whose(aid: Aid) -> Sentence {
    match aid {
        Aid::Own => say!["own"],
        Aid::Automatic => say!["automatic aid"],
        Aid::Mutual => say!["mutual aid"],
    }
}

/// Tank and rates of each.
pub fn tankers(sheet: &Evidence) -> Table {
    let mut table = Table::new(vec![
        (say![Piece::Tanker], Align::Left),
        (say!["whose"], Align::Left),
        (say!["tank, ", Piece::VolumeSign], Align::Right),
        (say!["discharge, ", Piece::FlowSign], Align::Right),
        (say!["fills, ", Piece::FlowSign], Align::Right),
        (say!["waste"], Align::Right),
        (say!["seen"], Align::Left),
    ]);
    // A figure is followed by an `a` where it is assumed.
    let marked =
        |is_assumed: bool, told: Sentence| if is_assumed { say![told, " a"] } else { told };
    let alike = |a: &TankerEvidence, b: &TankerEvidence| {
        TankerEvidence { name: b.name.clone(), ..a.clone() } == *b
    };
    for group in sheet.tankers.chunk_by(alike) {
        let tanker = &group[0];
        let flow = |figure: Figure| marked(figure.assumed, say![Piece::BareFlow(figure.value)]);
        let waste = say![Piece::Number(100.0 * tanker.waste.value, 0), "%"];
        let tank = say![Piece::BareVolume(tanker.tank_gal)];
        let mut who = marked(!tanker.survey.aid_is_stated, whose(tanker.survey.aid));
        if let Some(department) = &tanker.department {
            who = say![who, ", ", name(department)];
        }
        table.row(vec![
            list(group.iter().map(|one| say![name(&one.name)])),
            who,
            if tanker.survey.vacuum { say![tank, " v"] } else { tank },
            flow(tanker.discharge_gpm),
            flow(tanker.fill_gpm),
            marked(tanker.waste.assumed, waste),
            say![super::TICK],
        ]);
    }
    let is_assumed = |one: &TankerEvidence| {
        !one.survey.aid_is_stated
            || [one.discharge_gpm, one.fill_gpm, one.waste].iter().any(|figure| figure.assumed)
    };
    if sheet.tankers.iter().any(is_assumed) {
        table.feet.push(say![
            "a assumed, not stated: own, where the file does not say whose; the format's usual rates; for waste \
             what NFPA 1142 allows.",
        ]);
    }
    if sheet.tankers.iter().any(|one| one.survey.vacuum) {
        table.feet.push(say!["v sealed, fills and empties by vacuum."]);
    }
    table
}

/// The road, the cycle and the credit of a tanker by the travel rule; what stays as it is is left out.
fn by_travel_rule(tanker: &TankerCredit) -> Vec<Sentence> {
    let mut row = vec![say!["- by road"]];
    let Some(by_rule) = tanker.by_travel_rule else {
        row.push(say!["-"]);
        row.extend((0..tanker.parts.len() + 1).map(|_| say![""]));
        return row;
    };
    let [out, back] = by_rule.road_min;
    row.extend(tanker.parts.iter().map(|(part, _)| match part {
        Part::TravelOut => say![Piece::Number(out, 1)],
        Part::TravelBack => say![Piece::Number(back, 1)],
        _ => say![""],
    }));
    row.push(say![Piece::Number(by_rule.cycle_min, 1)]);
    row.push(say![Piece::BareFlow(by_rule.credit_gpm)]);
    row
}

/// The cycle of each tanker at one site, part by part, its credit there, and what counts of all together.
pub fn credits(one: &Alone, rule: &GradingRule) -> Table {
    let mut columns = vec![(say!["all at ", name(&one.site), ", min"], Align::Left)];
    let parts = one.everyone.first().map(|tanker| tanker.parts.as_slice()).unwrap_or_default();
    columns.extend(parts.iter().map(|(part, _)| (say![part_words(*part)], Align::Right)));
    columns.push((say!["cycle"], Align::Right));
    columns.push((say!["credit, ", Piece::FlowSign], Align::Right));
    let blanks = columns.len() - 2;
    let mut table = Table::new(columns);
    let alike = |a: &TankerCredit, b: &TankerCredit| {
        TankerCredit { name: b.name.clone(), ..a.clone() } == *b
    };
    for group in one.everyone.chunk_by(alike) {
        let tanker = &group[0];
        let who = list(group.iter().map(|one| say![name(&one.name)]));
        let mut row = vec![if group.len() == 1 { who } else { say![who, ", each"] }];
        row.extend(tanker.parts.iter().map(|(_, mean)| say![Piece::Number(*mean, 1)]));
        row.push(say![Piece::Number(tanker.cycle_min, 1)]);
        let gpm = say![Piece::BareFlow(tanker.credit_gpm)];
        let gpm = if tanker.counted_whole { say![gpm, " w"] } else { gpm };
        row.push(gpm);
        table.row(row);
        table.row(by_travel_rule(tanker));
    }
    let mut sum = |what: Sentence, gpm: f64| {
        let mut row = vec![what];
        row.extend((0..blanks).map(|_| say![""]));
        row.push(say![Piece::BareFlow(gpm)]);
        table.row(row);
    };
    if one.creditable {
        let hand = &one.hand;
        let by = match hand.travel {
            Travel::Stated => "",
            Travel::Rule => ", by road",
        };
        sum(say!["together, those that count", by], hand.made_gpm);
        sum(say!["the site passes"], hand.passes_gpm);
        if let Some((station, gpm)) = &hand.scene {
            sum(say!["most that passes ", station_words(station)], *gpm);
        }
        sum(say!["counts by hand: the least"], hand.counts_gpm);
    }
    table.feet.push(say![
        "Credit: (tank less 10%) / cycle, with mean times, under ",
        rules::title(rule),
        ". By road: out and back by ",
        rules::travel_rule(),
        "; - where no distance is stated."
    ]);
    if !one.creditable {
        table.feet.push(say![
            "This rule does not credit the source as it is stated: nothing is claimed here.",
        ]);
    }
    if !one.hand.stand_by.is_empty() {
        let who = list(one.hand.stand_by.iter().map(|one| say![name(one)]));
        table.feet.push(say!["Left to stand, since in line with them less would pass: ", who, "."]);
    }
    if !one.hand.late.is_empty() {
        let who = list(one.hand.late.iter().map(|one| say![name(one)]));
        table.feet.push(say!["There too late to count: ", who, "."]);
    }
    if one.everyone.iter().any(|credit| credit.counted_whole) {
        table.feet.push(say!["w the whole tank: sealed, as far as the grading body accepts it."]);
    }
    table
}
