//! The number in a cell of a table of addresses, and where it goes.

use std::ops::{Bound, RangeBounds};

use drill_log::Cell;
use fireground::travel::travel_time;
use scenario_file::one_number;
use shuttle_report::survey::{Address, AddressRoad};
use shuttle_sim::{Leg, Plan, TimeTaken};

use super::columns::{Column, Measures, Unit, plain, unit_of};

/// The farthest suction point, ft, as in a scenario. Judgement: about ten miles.
const FARTHEST_SUCTION_FT: f64 = 50_000.0;

/// A number in miles, minutes or feet.
///
/// - Errors: what is wrong with the cell, and what would put it right.
pub(super) fn value(cell: &Cell, column: &Column) -> Result<f64, (String, String)> {
    let shown = cell.shown();
    let (Column::Station(unit) | Column::Suction(unit) | Column::Road(_, unit)) = column else {
        return Ok(0.0);
    };
    let Some((number, own)) = number_of(cell) else {
        let cure = match cell {
            Cell::Time(_) => "write minutes as a plain number, as 7.5",
            _ => "write a number, as 1200.5; its unit stands in the heading",
        };
        return Err((format!("\"{shown}\" is no number"), cure.to_owned()));
    };
    let written_in = own.unwrap_or(*unit);
    if written_in.measures() != unit.measures() {
        let cure = format!("write it in {}, as the heading says", unit.words());
        return Err((format!("\"{shown}\" is not in {}", unit.words()), cure));
    }
    let value = number / written_in.in_one();
    let (least, most) = match unit.measures() {
        Measures::Road => ends(Plan::LIMITS.miles),
        Measures::Time => ends(Plan::LIMITS.minutes),
        Measures::Ground => (0.0, FARTHEST_SUCTION_FT),
    };
    // A road without length takes no time by the travel rule.
    let is_road = matches!(column, Column::Road(..)) && unit.measures() == Measures::Road;
    if !(least..=most).contains(&value) || (is_road && value <= 0.0) {
        let limit = |value: f64| {
            let whole = format!("{:.1}", value * unit.in_one());
            whole.trim_end_matches(".0").to_owned()
        };
        return Err((
            format!(
                "{shown} is beyond what this column may hold, {}{} to {} {}",
                if is_road { "above " } else { "" },
                limit(least),
                limit(most),
                unit.words(),
            ),
            "check the number and the unit in the heading; leave the cell empty where nothing is known"
                .to_owned(),
        ));
    }
    Ok(value)
}

/// A number as people write it, with its unit where one stands behind it.
fn number_of(cell: &Cell) -> Option<(f64, Option<Unit>)> {
    let text = match cell {
        Cell::Number(number) => return Some((*number, None)),
        Cell::Text(text) => text.trim(),
        _ => return None,
    };
    let end = text.rfind(|letter: char| letter.is_ascii_digit() || letter == '.')? + 1;
    let (written, word) = text.split_at(end);
    let unit = match plain(word).as_str() {
        "" => None,
        word => Some(unit_of(word)?),
    };
    let number = written.parse().ok().or_else(|| one_number(written)?.parse().ok());
    number.filter(|number: &f64| number.is_finite()).map(|number| (number, unit))
}

/// The least and the most.
fn ends(bounds: impl RangeBounds<f64>) -> (f64, f64) {
    let end = |bound: Bound<&f64>, open: f64| match bound {
        Bound::Included(value) | Bound::Excluded(value) => *value,
        Bound::Unbounded => open,
    };
    (end(bounds.start_bound(), f64::NEG_INFINITY), end(bounds.end_bound(), f64::INFINITY))
}

/// Puts a value where its column says.
pub(super) fn put(address: &mut Address, column: &Column, value: f64) {
    match column {
        Column::Name => {}
        Column::Station(_) => address.station_miles = Some(value),
        Column::Suction(_) => address.suction_point_ft = Some(value),
        Column::Road(site, unit) => {
            let (miles, minutes) = match unit {
                Unit::Minutes => (None, value),
                _ => (Some(value), travel_time(value).map_or(value, |worked| worked.value)),
            };
            let leg = Leg { miles, time: TimeTaken::Fixed(minutes) };
            address.roads.push(AddressRoad { site: site.clone(), leg });
        }
    }
}
