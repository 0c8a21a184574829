//! Addresses from a spreadsheet: a name, the station's distance, a suction point, and a column for each fill site.
//!
//! A road in miles or km takes 0.65 + 1.70 x miles minutes, as where a scenario states no speed; one in minutes takes
//! those. An empty cell is not stated; without a road the site does not serve the address. Numbers are read as people
//! write them, with thousands separated and their unit behind.

use std::collections::HashMap;
use std::ops::{Bound, RangeBounds};

use drill_log::{Cell, Table};
use fireground::travel::travel_time;
use scenario_file::{MOST_ADDRESSES, Scenario, one_number};
use shuttle_report::survey::{Address, AddressRoad};
use shuttle_report::units::{KM_PER_MILE, METRES_PER_FOOT, Units};
use shuttle_sim::{Leg, Plan, TimeTaken};

/// The farthest suction point, ft, as in a scenario. Judgement: about ten miles.
const FARTHEST_SUCTION_FT: f64 = 50_000.0;

/// What is wrong with a cell, a heading or the whole table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TableMistake {
    /// The line of a text, the row of a spreadsheet, from 1.
    pub row: usize,
    /// The column by its heading; empty: the whole row.
    pub column: String,
    /// Its number, from 1; 0: the whole row.
    pub number: usize,
    /// What is wrong.
    pub problem: String,
    /// What would put it right.
    pub cure: String,
}

impl std::fmt::Display for TableMistake {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "row {}", self.row)?;
        if !self.column.is_empty() {
            write!(f, ", column '{}'", self.column)?;
        }
        write!(f, ": {}\n  cure: {}", self.problem, self.cure)
    }
}

/// In what a column measures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
enum Unit {
    Miles,
    Km,
    Minutes,
    Feet,
    Metres,
}

/// What a unit measures.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Measures {
    Road,
    Time,
    Ground,
}

impl Unit {
    fn measures(self) -> Measures {
        match self {
            Unit::Miles | Unit::Km => Measures::Road,
            Unit::Minutes => Measures::Time,
            Unit::Feet | Unit::Metres => Measures::Ground,
        }
    }

    /// So many of it are a mile, a minute, a foot.
    fn in_one(self) -> f64 {
        match self {
            Unit::Miles | Unit::Minutes | Unit::Feet => 1.0,
            Unit::Km => KM_PER_MILE,
            Unit::Metres => METRES_PER_FOOT,
        }
    }

    fn words(self) -> &'static str {
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
enum Column {
    Name,
    Station(Unit),
    Suction(Unit),
    Road(String, Unit),
}

/// The addresses of a table.
///
/// - Given: the scenario, for its units, its fill sites and those of its options, and the addresses it has.
/// - Errors: every mistake, with its row and column.
pub fn addresses(table: &Table, scenario: &Scenario) -> Result<Vec<Address>, Vec<TableMistake>> {
    let mut mistakes = Vec::new();
    let Some((head, rows)) = table.rows.split_first() else {
        return Err(vec![TableMistake {
            row: 1,
            column: String::new(),
            number: 0,
            problem: "there is nothing in it".to_owned(),
            cure: headings_cure(scenario),
        }]);
    };
    let there = scenario.survey.addresses.len();
    if let Some(beyond) = rows.get(MOST_ADDRESSES.saturating_sub(there)) {
        return Err(vec![too_many(beyond.number, rows.len(), there)]);
    }
    let columns = columns(&head.cells, head.number, scenario, &mut mistakes);
    let mut names: HashMap<String, String> = (scenario.survey.addresses.iter())
        .map(|one| (spoken(&one.name), one.name.clone()))
        .collect();
    let mut found = Vec::new();
    for row in rows {
        let mut address = Address {
            name: String::new(),
            station_miles: None,
            suction_point_ft: None,
            roads: Vec::new(),
        };
        for (place, (heading, column)) in columns.iter().enumerate() {
            let (Some(column), Some(cell)) = (column, row.cells.get(place)) else { continue };
            let mut mistake = |problem: String, cure: String| {
                mistakes.push(TableMistake {
                    row: row.number,
                    column: heading.clone(),
                    number: place + 1,
                    problem,
                    cure,
                });
            };
            if *column == Column::Name {
                address.name = name_of(cell);
                continue;
            }
            if cell.is_blank() {
                continue;
            }
            match value(cell, column) {
                Ok(value) => put(&mut address, column, value),
                Err((problem, cure)) => mistake(problem, cure),
            }
        }
        let mut whole_row = |problem: String, cure: &str| {
            let at = columns.iter().position(|(_, column)| *column == Some(Column::Name));
            mistakes.push(TableMistake {
                row: row.number,
                column: at.map(|at| columns[at].0.clone()).unwrap_or_default(),
                number: at.map_or(0, |at| at + 1),
                problem,
                cure: cure.to_owned(),
            });
        };
        if address.name.is_empty() {
            if columns.iter().any(|(_, column)| *column == Some(Column::Name)) {
                whole_row("the address has no name".to_owned(), "give it one");
            }
        } else if let Some(first) = names.insert(spoken(&address.name), address.name.clone()) {
            let problem = if first == address.name {
                format!("a second address is called \"{first}\"")
            } else {
                format!(
                    "\"{}\" and \"{first}\" are one name, but for capitals and spaces",
                    address.name
                )
            };
            whole_row(problem, "give each address a name of its own, here and in the scenario");
        }
        found.push(address);
    }
    if rows.is_empty() {
        mistakes.push(TableMistake {
            row: head.number,
            column: String::new(),
            number: 0,
            problem: "there are headings and no addresses below".to_owned(),
            cure: "put one address into each row".to_owned(),
        });
    }
    mistakes.sort_by_key(|one| (one.row, one.number));
    if mistakes.is_empty() { Ok(found) } else { Err(mistakes) }
}

/// More addresses than are graded at once.
fn too_many(row: usize, rows: usize, there: usize) -> TableMistake {
    let with_those = if there == 0 {
        String::new()
    } else {
        format!(", with the {} of the scenario {}", grouped(there), grouped(rows + there))
    };
    TableMistake {
        row,
        column: String::new(),
        number: 0,
        problem: format!(
            "there are {} addresses{with_those}, and at most {} are graded at once",
            grouped(rows),
            grouped(MOST_ADDRESSES)
        ),
        cure: "split the table, as by station, and grade the parts one after the other".to_owned(),
    }
}

/// "5,000"
fn grouped(count: usize) -> String {
    match (count / 1_000, count % 1_000) {
        (0, rest) => rest.to_string(),
        (thousands, rest) => format!("{},{rest:03}", grouped(thousands)),
    }
}

fn name_of(cell: &Cell) -> String {
    match cell {
        Cell::Text(text) => text.trim().to_owned(),
        other => other.shown(),
    }
}

/// A name as it is said: without capitals, single spaces between.
fn spoken(name: &str) -> String {
    name.to_lowercase().split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Lower case, letters and digits, single spaces between.
fn plain(text: &str) -> String {
    let letters: String = (text.to_lowercase().chars())
        .map(|letter| if letter.is_alphanumeric() { letter } else { ' ' })
        .collect();
    letters.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn unit_of(word: &str) -> Option<Unit> {
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
fn columns(
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

fn headings_cure(scenario: &Scenario) -> String {
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

/// A number in miles, minutes or feet.
///
/// - Errors: what is wrong with the cell, and what would put it right.
fn value(cell: &Cell, column: &Column) -> Result<f64, (String, String)> {
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

fn put(address: &mut Address, column: &Column, value: f64) {
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
