//! The sheet of what could be bought or changed: each row is one other value in one of the other sheets.
//!
//! Rows of the same name are one option. The plan is made once more with the changed cells, and what then differs in
//! the scenario is the option's change: so every column of the other sheets can be changed, and no limit is kept twice.

use drill_log::{Cell, Row};
use serde_json::{Value, json};

use super::Sheets;
use super::columns::{Column, PLAN, SOURCES, UNITS};
use super::mistakes::SheetMistake;
use super::rows::{Sheet, column_of};
use super::units_sheet::{SUPPLY_ENGINE, engine_kind};
use crate::amount::{Amount, unquoted};
use crate::first_plan::alike;
use crate::scenario_text::scenario_text;

/// What stands in place of a column where a unit or source is to be had once more.
const ANOTHER: [&str; 2] = ["another one", "another"];

/// What an option begins with that only shows how a row looks.
const EXAMPLE: &str = "example";

/// Takes out the rows that are marked as examples.
///
/// - Returns: how many they are.
pub(crate) fn leave_out_examples(sheet: &mut Sheet) -> usize {
    let before = sheet.rows.len();
    let all = std::mem::take(&mut sheet.rows);
    let is_example = |row: &Row| {
        let name = sheet.text(row, Column::Option).map(|name| unquoted(&name).to_lowercase());
        name.is_some_and(|name| name.starts_with(EXAMPLE))
    };
    let kept: Vec<Row> = all.into_iter().filter(|row| !is_example(row)).collect();
    sheet.rows = kept;
    before - sheet.rows.len()
}

/// The options of the sheet, as they stand in a scenario.
///
/// - Given: the other sheets, sound; the scenario that is made of them.
pub(crate) fn options(
    sheet: &Sheet,
    others: &Sheets,
    scenario: &Value,
    wrong: &mut Vec<SheetMistake>,
) -> Vec<Value> {
    let mut names: Vec<String> = Vec::new();
    for row in &sheet.rows {
        if let Some(name) = sheet.needed_text(row, Column::Option, wrong)
            && !names.contains(&name)
        {
            names.push(name);
        }
    }
    let option = |name: &String| {
        let is_of = |row: &&Row| sheet.text(row, Column::Option).as_ref() == Some(name);
        let rows: Vec<&Row> = sheet.rows.iter().filter(is_of).collect();
        let costs: Vec<Amount> =
            rows.iter().filter_map(|row| sheet.amount(row, Column::Cost, wrong)).collect();
        if told_twice(sheet, &rows, wrong) {
            return None;
        }
        let changed = rows
            .iter()
            .try_fold(others.clone(), |sheets, row| changed(sheet, row, sheets, wrong))?;
        let last = rows.last()?;
        let changes = changes(sheet, last, &changed, scenario, wrong)?;
        let mut option = json!({"name": name, "changes": changes});
        if let Some(cost) = sum(&costs) {
            option["cost"] = cost;
        }
        Some(option)
    };
    names.iter().filter_map(option).collect()
}

/// Whether two rows of one option change the same thing, so that the last would stand in place of the others.
fn told_twice(sheet: &Sheet, rows: &[&Row], wrong: &mut Vec<SheetMistake>) -> bool {
    let cell = |row: &Row, column| sheet.text(row, column).unwrap_or_default();
    let is_again = |row: &Row| ANOTHER.contains(&cell(row, Column::What).to_lowercase().as_str());
    let mut any = false;
    for (place, row) in rows.iter().enumerate() {
        let same = |other: &&&Row| {
            [Column::Of, Column::What].iter().all(|one| alike(&cell(other, *one), &cell(row, *one)))
        };
        let Some(first) = rows[..place].iter().find(same).filter(|_| !is_again(row)) else {
            continue;
        };
        wrong.push(SheetMistake::new(
            sheet.spot(row, Column::What),
            format!("row {} of this option changes the same", first.number),
            "keep one of the two rows; if they are two things to choose from, give them two names",
        ));
        any = true;
    }
    any
}

/// Whether it is a name, and neither blank nor an amount such as "3,000 gal" or "drop tank 3000 gal".
fn is_a_name(typed: Option<&str>) -> bool {
    let Some(typed) = typed else { return false };
    let tail = typed.trim_start_matches(|c: char| !c.is_ascii_digit());
    // A number and a unit behind it.
    let is_amount = Amount::typed(tail).is_ok_and(|amount| amount.json().is_string());
    !is_amount && Amount::typed(typed).is_err()
}

/// What its rows cost together; `None`: not said.
fn sum(costs: &[Amount]) -> Option<Value> {
    match costs {
        [] => None,
        [one] => Some(one.json()),
        more => {
            let numbers: Option<Vec<f64>> = more.iter().map(|one| one.json().as_f64()).collect();
            // With a unit behind it, it is no sum of money: that is told of the first.
            Some(numbers.map_or(more[0].json(), |all| Amount::plain(all.iter().sum()).json()))
        }
    }
}

/// The sheets with the change of one row.
fn changed(
    sheet: &Sheet,
    row: &Row,
    others: Sheets,
    wrong: &mut Vec<SheetMistake>,
) -> Option<Sheets> {
    let what = sheet.needed_text(row, Column::What, wrong)?;
    let again = ANOTHER.contains(&what.to_lowercase().as_str());
    if again && !is_a_name(sheet.text(row, Column::Becomes).as_deref()) {
        wrong.push(SheetMistake::new(
            sheet.spot(row, Column::Becomes),
            "here stands what the one more is called",
            format!(
                "write its name, such as Tanker 6; for a drop tank write '{}' into '{}' and what it holds here",
                Column::DropTank.heading(),
                Column::What.heading()
            ),
        ));
        return None;
    }
    sheet.needed_text(row, Column::Becomes, wrong)?;
    let becomes = sheet.cell(row, Column::Becomes)?.clone();
    let of = sheet.text(row, Column::Of);
    let mut tell = |column, problem: String, cure: String| {
        wrong.push(SheetMistake::new(sheet.spot(row, column), problem, cure));
        None
    };
    let Some(of) = of else {
        // Of nobody: of the fire.
        return match column_of(&what, &PLAN) {
            Some(column) => {
                Some(Sheets { fire: others.fire.with_cell(0, column, becomes), ..others })
            }
            None => tell(
                Column::What,
                "the sheet of the fire has no such column".to_owned(),
                format!(
                    "write one of its headings, such as '{}', or say of which unit or source",
                    Column::Flow.heading()
                ),
            ),
        };
    };
    let unit = others.units.row_named(Column::Unit, &of);
    let source = others.sources.row_named(Column::Source, &of);
    let pumped = others.sources.row_named(Column::PumpedBy, &of);
    match (unit, source) {
        (None, None) if again && pumped.is_some() => {
            let at = pumped.unwrap_or_default();
            let there = &others.sources.rows[at];
            if others.sources.text(there, Column::Holds).is_some() {
                return tell(
                    Column::Of,
                    format!("{of} pumps at a source that holds so much water and no more"),
                    format!(
                        "a second engine there draws on the same water: write the source's name here, and what both give \
                         under '{}' and '{}' in two rows of this option",
                        Column::Flow.heading(),
                        Column::AtOnce.heading()
                    ),
                );
            }
            // The same water with one more place to fill: a second source beside the first one.
            let place = others.sources.text(there, Column::Source).unwrap_or_default();
            let named = Cell::Text(format!("{place} by {}", becomes.shown()));
            let with = others.sources.with_another(at, Column::Source, named);
            let last = with.rows.len() - 1;
            Some(Sheets { sources: with.with_cell(last, Column::PumpedBy, becomes), ..others })
        }
        (Some(at), _) => match column_of(&what, &UNITS) {
            _ if again => {
                let with = others.units.with_another(at, Column::Unit, becomes);
                let engine = engine_kind(&others.units, &others.units.rows[at]);
                let last = with.rows.len() - 1;
                let mut units = match engine {
                    // One more engine at the fire is one that drafts.
                    Some(_) => {
                        let kind = Cell::Text(SUPPLY_ENGINE.to_owned());
                        with.with_cell(last, Column::Kind, kind)
                    }
                    None => with,
                };
                // What the first one brings it brings once.
                if engine.is_some() {
                    units = units.with_cell(last, Column::DropTank, Cell::Empty);
                }
                Some(Sheets { units, ..others })
            }
            Some(column) => {
                Some(Sheets { units: others.units.with_cell(at, column, becomes), ..others })
            }
            None => tell(Column::What, no_column("units"), headings(&UNITS)),
        },
        (None, Some(at)) => match column_of(&what, &SOURCES) {
            _ if again => Some(Sheets {
                sources: others.sources.with_another(at, Column::Source, becomes),
                ..others
            }),
            Some(column) => {
                Some(Sheets { sources: others.sources.with_cell(at, column, becomes), ..others })
            }
            None => tell(Column::What, no_column("sources"), headings(&SOURCES)),
        },
        (None, None) => tell(
            Column::Of,
            "no unit and no source is named so".to_owned(),
            "write its name as in the other sheets, or leave it blank for the fire".to_owned(),
        ),
    }
}

fn no_column(sheet: &str) -> String {
    format!("the sheet of {sheet} has no such column")
}

fn headings(columns: &[Column]) -> String {
    let all: Vec<&str> = columns.iter().map(|column| column.heading()).collect();
    format!(
        "write one of its headings: {}; or '{}' to have it once more",
        all.join(", "),
        ANOTHER[0]
    )
}

/// What differs in the scenario with the changed sheets, as JSON Patch; `None` where they are not sound or nothing does.
fn changes(
    sheet: &Sheet,
    row: &Row,
    changed: &Sheets,
    scenario: &Value,
    wrong: &mut Vec<SheetMistake>,
) -> Option<Vec<Value>> {
    let spot = || sheet.spot(row, Column::Becomes);
    let mut found = Vec::new();
    let (plan, _) = changed.plan(&mut found);
    let made = plan.as_ref().map(scenario_text);
    if let Some(Err(parts)) = &made {
        let parts = parts.iter().map(|one| SheetMistake {
            at: spot(),
            problem: one.problem.clone(),
            limit: one.limit.clone(),
            cure: one.cure.clone(),
        });
        found.extend(parts);
    }
    if !found.is_empty() {
        wrong.extend(found.into_iter().map(|one| SheetMistake { at: spot(), ..one }));
        return None;
    }
    let text = made?.ok()?;
    let after: Value = serde_json::from_str(&text).ok()?;
    let mut changes = Vec::new();
    differences(scenario, &after, String::new(), &mut changes);
    if changes.is_empty() {
        wrong.push(SheetMistake::new(
            spot(),
            "it is what the plan has already",
            "write another value, or take the row out",
        ));
        return None;
    }
    Some(changes)
}

/// Where a list has entries put in and is otherwise the same: the place of the first of them.
fn put_in(old: &[Value], new: &[Value]) -> Option<usize> {
    let first = old.iter().zip(new).take_while(|(old, new)| old == new).count();
    let last = old.iter().rev().zip(new.iter().rev()).take_while(|(old, new)| old == new).count();
    (first + last >= old.len()).then_some(first)
}

/// The changes that make one value of the other, by JSON Pointer. What a list has more is put in, so that two options can
/// each add something.
fn differences(before: &Value, after: &Value, at: String, changes: &mut Vec<Value>) {
    match (before, after) {
        _ if before == after => {}
        (Value::Object(old), Value::Object(new)) => {
            for key in old.keys().filter(|key| !new.contains_key(*key)) {
                changes.push(json!({"op": "remove", "path": format!("{at}/{key}")}));
            }
            for (key, value) in new {
                match old.get(key) {
                    Some(known) => differences(known, value, format!("{at}/{key}"), changes),
                    None => changes
                        .push(json!({"op": "add", "path": format!("{at}/{key}"), "value": value})),
                }
            }
        }
        (Value::Array(old), Value::Array(new))
            if old.len() < new.len() && put_in(old, new).is_some() =>
        {
            let first = put_in(old, new).unwrap_or(old.len());
            for (place, value) in new[first..].iter().take(new.len() - old.len()).enumerate() {
                // At the end whatever another option has put there.
                let place =
                    if first == old.len() { "-".to_owned() } else { (first + place).to_string() };
                changes.push(json!({"op": "add", "path": format!("{at}/{place}"), "value": value}));
            }
        }
        (Value::Array(old), Value::Array(new)) if old.len() <= new.len() => {
            for (place, (known, value)) in old.iter().zip(new).enumerate() {
                differences(known, value, format!("{at}/{place}"), changes);
            }
            for value in &new[old.len()..] {
                changes.push(json!({"op": "add", "path": format!("{at}/-"), "value": value}));
            }
        }
        _ => changes.push(json!({"op": "replace", "path": at, "value": after})),
    }
}
