//! The sheets of sources and of the fire.

use scenario_file::Units;

use super::columns::Column;
use super::mistakes::{SheetMistake, Spot};
use super::rows::Sheet;
use crate::amount::{Amount, unquoted};
use crate::first_plan::{Source, Start};
use crate::part::{OfSource, Part};

/// Reads the sheet of sources.
pub(crate) fn sources(
    sheet: &Sheet,
    wrong: &mut Vec<SheetMistake>,
) -> (Vec<Source>, Vec<(Part, Spot)>) {
    let mut sources = Vec::new();
    let mut spots = Vec::new();
    for (number, row) in sheet.rows.iter().enumerate() {
        let name = sheet.needed_text(row, Column::Source, wrong);
        let mut needed = |column, stand_in| {
            let found = sheet.needed_amount(row, column, wrong);
            found.unwrap_or_else(|| Amount::plain(stand_in))
        };
        let flow = needed(Column::Flow, 500.0);
        let road = needed(Column::Road, 2.0);
        let pumped_by = sheet.text(row, Column::PumpedBy).map(|name| unquoted(&name));
        // Where a unit brings the pump it may be left to that: that is looked at when all units are known.
        let ready = match &pumped_by {
            Some(_) => sheet.amount(row, Column::Ready, wrong),
            None => {
                let found = sheet.needed_amount(row, Column::Ready, wrong);
                Some(found.unwrap_or_else(|| Amount::plain(10.0)))
            }
        };
        sources.push(Source {
            name: name.unwrap_or_else(|| format!("the source of row {}", row.number)),
            flow,
            ready,
            pumped_by,
            pump_draws_in: None,
            // Silence is always.
            pump_turnout: (sheet.amount(row, Column::PumpTurnout, wrong))
                .filter(|often| !often.is_number(1.0)),
            road,
            positions: sheet.amount(row, Column::AtOnce, wrong),
            speed: sheet.amount(row, Column::Speed, wrong),
            gravel: sheet.amount(row, Column::Gravel, wrong),
            gravel_speed: sheet.amount(row, Column::GravelSpeed, wrong),
            holds: sheet.amount(row, Column::Holds, wrong),
        });
        for (of, column) in [
            (OfSource::Name, Column::Source),
            (OfSource::Flow, Column::Flow),
            (OfSource::Positions, Column::AtOnce),
            (OfSource::Ready, Column::Ready),
            (OfSource::PumpedBy, Column::PumpedBy),
            (OfSource::PumpTurnout, Column::PumpTurnout),
            (OfSource::Road, Column::Road),
            (OfSource::Speed, Column::Speed),
            (OfSource::Gravel, Column::Gravel),
            (OfSource::GravelSpeed, Column::GravelSpeed),
            (OfSource::Holds, Column::Holds),
        ] {
            spots.push((Part::Source(number, of), sheet.spot(row, column)));
        }
    }
    if sources.is_empty() && wrong.iter().all(|one| one.at.file != sheet.file) {
        wrong.push(SheetMistake::new(
            Spot::file(&sheet.file),
            "there are no rows below the headings",
            "write one row for each pond, hydrant or other place where tankers fill",
        ));
    }
    (sources, spots)
}

/// What the sheet of the fire says.
pub(crate) struct Fire {
    pub(crate) units: Units,
    pub(crate) title: String,
    pub(crate) flow: Amount,
    pub(crate) start: Option<Start>,
    pub(crate) duration: Amount,
    pub(crate) reserve: Option<Amount>,
    pub(crate) spots: Vec<(Part, Spot)>,
}

/// Reads the sheet of the fire: its one row.
pub(crate) fn fire(sheet: &Sheet, wrong: &mut Vec<SheetMistake>) -> Option<Fire> {
    let Some((row, others)) = sheet.rows.split_first() else {
        if wrong.iter().all(|one| one.at.file != sheet.file) {
            wrong.push(SheetMistake::new(
                Spot::file(&sheet.file),
                "there is no row below the headings",
                "write one row: the fire, the flow its lines need, how long",
            ));
        }
        return None;
    };
    for other in others {
        wrong.push(SheetMistake::new(
            sheet.spot(other, Column::Fire),
            "a plan is for one fire, and this row is a second one",
            "keep one row here; import each fire from a folder of its own",
        ));
    }
    let units = match sheet.text(row, Column::Units).map(|text| unquoted(&text).to_lowercase()) {
        None => Units::Us,
        Some(word) => units_of(&word).unwrap_or_else(|| {
            wrong.push(SheetMistake::new(
                sheet.spot(row, Column::Units),
                "there are no such units",
                "write us (gallons, miles) or metric (litres, kilometres)",
            ));
            Units::Us
        }),
    };
    let title = sheet.needed_text(row, Column::Fire, wrong).unwrap_or_else(|| "no name".to_owned());
    let mut needed = |column, stand_in| {
        let found = sheet.needed_amount(row, column, wrong);
        found.unwrap_or_else(|| Amount::plain(stand_in))
    };
    let flow = needed(Column::Flow, 400.0);
    let duration = needed(Column::HowLong, 120.0);
    let first = sheet.amount(row, Column::StartFlow, wrong);
    let until = sheet.amount(row, Column::StartMinutes, wrong);
    let start = match (first, until) {
        (Some(flow), Some(until)) => Some(Start { flow, until }),
        (None, None) => None,
        (first, _) => {
            let (blank, other) = if first.is_some() {
                (Column::StartMinutes, Column::StartFlow)
            } else {
                (Column::StartFlow, Column::StartMinutes)
            };
            // A cell that is filled and wrong has its own mistake.
            if sheet.text(row, blank).is_none() {
                wrong.push(SheetMistake::new(
                    sheet.spot(row, blank),
                    format!("it is blank, and '{}' is not", other.heading()),
                    "fill in both, or neither where the lines need the whole flow at once",
                ));
            }
            None
        }
    };
    let spots = [
        (Part::Title, Column::Fire),
        (Part::Flow, Column::Flow),
        (Part::StartFlow, Column::StartFlow),
        (Part::StartUntil, Column::StartMinutes),
        (Part::Duration, Column::HowLong),
        (Part::Reserve, Column::KeptBack),
    ]
    .map(|(part, column)| (part, sheet.spot(row, column)));
    let reserve = sheet.amount(row, Column::KeptBack, wrong);
    Some(Fire { units, title, flow, start, duration, reserve, spots: spots.into() })
}

/// The units that a word means.
pub(crate) fn units_of(word: &str) -> Option<Units> {
    match word {
        "us" | "gal" | "gallon" | "gallons" | "miles" => Some(Units::Us),
        "metric" | "l" | "liter" | "liters" | "litre" | "litres" | "km" => Some(Units::Metric),
        _ => None,
    }
}
