//! Addresses from a spreadsheet: a name, the station's distance, a suction point, and a column for each fill site.
//!
//! A road in miles or km takes 0.65 + 1.70 x miles minutes, as where a scenario states no speed; one in minutes takes
//! those. An empty cell is not stated; without a road the site does not serve the address. Numbers are read as people
//! write them, with thousands separated and their unit behind.

mod cells;
mod columns;

use std::collections::HashMap;

use drill_log::{Cell, Table};
use scenario_file::{MOST_ADDRESSES, Scenario};
use shuttle_report::survey::Address;

use cells::{put, value};
use columns::{Column, columns, headings_cure};

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
