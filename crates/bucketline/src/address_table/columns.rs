//! What each column of a table of addresses holds, by its heading.

use std::collections::HashMap;

use drill_log::Cell;
use scenario_file::Scenario;
use shuttle_report::units::{KM_PER_MILE, METRES_PER_FOOT, Units};

use super::{TableMistake, name_of};

/// In what a column measures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub(super) enum Unit {
    Miles,
    Km,
    Minutes,
    Feet,
    Metres,
}

/// What a unit measures.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Measures {
    Road,
    Time,
    Ground,
}

impl Unit {
    pub(super) fn measures(self) -> Measures {
        match self {
            Unit::Miles | Unit::Km => Measures::Road,
            Unit::Minutes => Measures::Time,
            Unit::Feet | Unit::Metres => Measures::Ground,
        }
    }

    /// So many of it are a mile, a minute, a foot.
    pub(super) fn in_one(self) -> f64 {
        match self {
            Unit::Miles | Unit::Minutes | Unit::Feet => 1.0,
            Unit::Km => KM_PER_MILE,
            Unit::Metres => METRES_PER_FOOT,
        }
    }

    pub(super) fn words(self) -> &'static str {
        match self {
            Unit::Miles => "miles",
            Unit::Km => "km",
            Unit::Minutes => "minutes",
            Unit::Feet => "feet",
            Unit::Metres => "m",
        }
    }
}

/// What a column holds.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub(super) enum Column {
    Name,
    Station(Unit),
    Suction(Unit),
    Road(String, Unit),
}

/// Lower case, letters and digits, single spaces between.
pub(super) fn plain(text: &str) -> String {
    let letters: String = (text.to_lowercase().chars())
        .map(|letter| if letter.is_alphanumeric() { letter } else { ' ' })
        .collect();
    letters.split_whitespace().collect::<Vec<_>>().join(" ")
}

pub(super) fn unit_of(word: &str) -> Option<Unit> {
    match word {
        "mi" | "mile" | "miles" => Some(Unit::Miles),
        "km" | "kilometers" | "kilometres" => Some(Unit::Km),
        "min" | "minute" | "minutes" => Some(Unit::Minutes),
        "ft" | "foot" | "feet" => Some(Unit::Feet),
        "m" | "meters" | "metres" => Some(Unit::Metres),
        _ => None,
    }
}

/// What each column holds, with its heading; `None` where it is not known or has no heading.
pub(super) fn columns(
    head: &[Cell],
    row: usize,
    scenario: &Scenario,
    mistakes: &mut Vec<TableMistake>,
) -> Vec<(String, Option<Column>)> {
    let sites = sites(scenario);
    let mut known: HashMap<String, String> = HashMap::new();
    let mut columns = Vec::new();
    for (place, cell) in head.iter().enumerate() {
        let heading = name_of(cell);
        let mut mistake = |problem: String, cure: String| {
            mistakes.push(TableMistake {
                row,
                column: heading.clone(),
                number: place + 1,
                problem,
                cure,
            });
        };
        if plain(&heading).is_empty() {
            columns.push((heading, None));
            continue;
        }
        let column = column_of(&heading, &sites, scenario.units);
        match &column {
            None => mistake("nothing is known by this heading".to_owned(), headings_cure(scenario)),
            Some(column) => {
                let what = match column {
                    Column::Name => "name".to_owned(),
                    Column::Station(_) => "station".to_owned(),
                    Column::Suction(_) => "suction".to_owned(),
                    Column::Road(site, _) => format!("road {site}"),
                };
                if let Some(first) = known.insert(what, heading.clone()) {
                    mistake(
                        format!("the column '{first}' says the same"),
                        "keep one of the two".to_owned(),
                    );
                }
            }
        }
        columns.push((heading, column));
    }
    let mut lacks = |is_there: bool, problem: &str| {
        if !is_there {
            mistakes.push(TableMistake {
                row,
                column: String::new(),
                number: 0,
                problem: problem.to_owned(),
                cure: headings_cure(scenario),
            });
        }
    };
    let any =
        |test: fn(&Column) -> bool| columns.iter().any(|(_, one)| one.as_ref().is_some_and(test));
    lacks(any(|one| *one == Column::Name), "no column has the names of the addresses");
    lacks(any(|one| matches!(one, Column::Road(..))), "no column has the roads to a fill site");
    columns
}

/// Fill sites of the scenario and of its options.
fn sites(scenario: &Scenario) -> Vec<String> {
    let plans = [&scenario.aid.everyone]
        .into_iter()
        .chain(scenario.options.iter().map(|option| &option.everyone));
    let mut sites: Vec<String> = Vec::new();
    for site in plans.flat_map(|plan| &plan.facts().fill_sites) {
        if !sites.contains(&site.name) {
            sites.push(site.name.clone());
        }
    }
    sites
}

pub(super) fn headings_cure(scenario: &Scenario) -> String {
    let (road, short) = match scenario.units {
        Units::Us => ("miles", "feet"),
        Units::Metric => ("km", "m"),
    };
    let sites: Vec<String> =
        sites(scenario).iter().map(|site| format!("'{site} {road}'")).collect();
    format!(
        "head the columns 'name', 'station {road}', 'suction {short}', and one for each fill site, in {road} or \
         minutes: {}",
        sites.join(", ")
    )
}

fn column_of(heading: &str, sites: &[String], units: Units) -> Option<Column> {
    let (road, length) = match units {
        Units::Us => (Unit::Miles, Unit::Feet),
        Units::Metric => (Unit::Km, Unit::Metres),
    };
    let told = plain(heading);
    // The whole heading may be the name of a site, even where it ends like a unit.
    if let Some(site) = sites.iter().find(|site| plain(site) == told) {
        return Some(Column::Road(site.clone(), road));
    }
    let (what, unit) = match told.rsplit_once(' ') {
        Some((what, last)) if unit_of(last).is_some() => (what.to_owned(), unit_of(last)),
        _ => (told, None),
    };
    if let Some(site) = sites.iter().find(|site| plain(site) == what) {
        let unit = unit.unwrap_or(road);
        let is_road = matches!(unit, Unit::Miles | Unit::Km | Unit::Minutes);
        return is_road.then(|| Column::Road(site.clone(), unit));
    }
    match what.as_str() {
        "name" | "address" => Some(Column::Name),
        "station" => {
            let unit = unit.unwrap_or(road);
            matches!(unit, Unit::Miles | Unit::Km).then_some(Column::Station(unit))
        }
        "suction" | "suction point" => {
            let unit = unit.unwrap_or(length);
            matches!(unit, Unit::Feet | Unit::Metres).then_some(Column::Suction(unit))
        }
        _ => None,
    }
}
