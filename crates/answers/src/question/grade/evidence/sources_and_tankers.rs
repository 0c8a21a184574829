//! Sources, tankers, and what each makes at each source.

use shuttle_report::chart::part_words;
use shuttle_report::evidence::{Evidence, Figure, Source};
use shuttle_report::grade::Alone;

use super::sheet::whose;
use super::{BLANK, flow, length, road, text, yes_or_no};
use crate::say;
use crate::say::{Align, Piece, Sentence, Table, name};
use crate::shared::station::station_words;

/// All that is asked of one source.
pub fn source(source: &Source) -> Table {
    let survey = &source.survey;
    let mut table =
        Table::new(vec![(say![name(&source.name)], Align::Left), (say![""], Align::Left)]);
    let quantity = match (source.quantity_gal, source.recharge_gpm) {
        (Some(gal), Some(more)) if more > 0.0 => {
            say![Piece::Volume(gal), " and ", Piece::Flow(more), " running in"]
        }
        (Some(gal), _) => say![Piece::Volume(gal)],
        (None, _) => say![BLANK, " ", Piece::VolumeSign, ", counted without end"],
    };
    let positions = Piece::Number(f64::from(source.positions), 0);
    table.row(vec![say!["from the fire, by road, one way"], road(source.from_fire_miles)]);
    table.row(vec![
        say!["rate"],
        say![
            Piece::Flow(source.rate_gpm),
            " through ",
            positions,
            if source.positions == 1 { " position" } else { " positions" },
        ],
    ]);
    table.row(vec![say!["quantity"], quantity]);
    table.row(vec![
        say!["supply pump there"],
        say![
            "rated ",
            flow(survey.pump_rated_gpm),
            ", lift ",
            length(survey.pump_lift_ft),
            ", ",
            length(survey.pump_to_water_ft),
            " from the water",
        ],
    ]);
    table.row(vec![
        say!["all year, in a 50-year drought"],
        say![
            yes_or_no(survey.all_year),
            "; certificate ",
            text(survey.drought_certificate.as_ref()),
        ],
    ]);
    table.row(vec![
        say!["flow test"],
        say![
            text(survey.flow_test.as_ref()),
            "; witness ",
            text(survey.flow_test_witness.as_ref()),
        ],
    ]);
    table.row(vec![say!["last inspected"], text(survey.inspected.as_ref())]);
    table.row(vec![say!["owner's agreement"], text(survey.agreement.as_ref())]);
    table
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
    ]);
    // A figure is followed by an `a` where it is assumed.
    let marked = |figure: Figure, told: Sentence| {
        if figure.assumed { say![told, "a"] } else { told }
    };
    for tanker in &sheet.tankers {
        let flow = |figure: Figure| marked(figure, say![Piece::BareFlow(figure.value)]);
        let waste = say![Piece::Number(100.0 * tanker.waste.value, 0), "%"];
        let tank = say![Piece::BareVolume(tanker.tank_gal)];
        table.row(vec![
            say![name(&tanker.name)],
            whose(tanker.survey.aid),
            if tanker.survey.vacuum { say![tank, "v"] } else { tank },
            flow(tanker.discharge_gpm),
            flow(tanker.fill_gpm),
            marked(tanker.waste, waste),
        ]);
    }
    let assumed = (sheet.tankers.iter())
        .flat_map(|one| [one.discharge_gpm, one.fill_gpm, one.waste])
        .any(|figure| figure.assumed);
    if assumed {
        table.feet.push(say![
            "a assumed, not stated: the format's usual rates; for waste what NFPA 1142 allows.",
        ]);
    }
    if sheet.tankers.iter().any(|one| one.survey.vacuum) {
        table.feet.push(say!["v sealed, fills and empties by vacuum."]);
    }
    table
}

/// The cycle of each tanker at one site, part by part.
pub fn cycles(one: &Alone) -> Table {
    let mut columns = vec![(say!["cycle at ", name(&one.site), ", min"], Align::Left)];
    let parts = one.hand.tankers.first().map(|tanker| tanker.parts.as_slice()).unwrap_or_default();
    columns.extend(parts.iter().map(|(part, _)| (say![part_words(*part)], Align::Right)));
    columns.push((say!["all"], Align::Right));
    let mut table = Table::new(columns);
    for tanker in &one.hand.tankers {
        let mut row = vec![say![name(&tanker.name)]];
        row.extend(tanker.parts.iter().map(|(_, mean)| say![Piece::Number(*mean, 1)]));
        row.push(say![Piece::Number(tanker.cycle_min, 1)]);
        table.row(row);
    }
    table
}

/// The hand credit of each tanker at each fill site alone, and what counts of their sum.
pub fn credits(alone: &[&Alone]) -> Table {
    let mut table = Table::new(vec![
        (say!["hand credit, all at"], Align::Left),
        (say![Piece::Tanker], Align::Left),
        (say!["cycle, min"], Align::Right),
        (say!["credit, ", Piece::FlowSign], Align::Right),
    ]);
    for one in alone {
        let mut site = say![name(&one.site)];
        for credit in &one.hand.tankers {
            let gpm = say![Piece::BareFlow(credit.credit_gpm)];
            table.row(vec![
                std::mem::take(&mut site),
                say![name(&credit.name)],
                say![Piece::Number(credit.cycle_min, 1)],
                if credit.counted_whole { say![gpm, "w"] } else { gpm },
            ]);
        }
        let mut row = |what: Sentence, gpm: Sentence| {
            table.row(vec![say![""], what, say![""], gpm]);
        };
        row(say!["together"], say![Piece::BareFlow(one.hand.made_gpm)]);
        row(say!["the site passes"], say![Piece::BareFlow(one.hand.passes_gpm)]);
        if let Some((station, gpm)) = &one.hand.scene {
            row(say!["most that passes ", station_words(station)], say![Piece::BareFlow(*gpm)]);
        }
        row(say!["counts by hand: the least"], say![Piece::BareFlow(one.hand.counts_gpm)]);
    }
    let whole = alone.iter().flat_map(|one| &one.hand.tankers).any(|credit| credit.counted_whole);
    table.feet.push(say!["Credit: (tank less 10%) / cycle, with mean times."]);
    if whole {
        table.feet.push(say!["w the whole tank: sealed, as far as the grading body accepts it."]);
    }
    table
}
