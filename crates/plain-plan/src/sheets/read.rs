//! The sheets of a folder, made into a scenario; or every mistake in them.

use std::path::Path;

use scenario_file::ScenarioError;
use serde_json::{Map, Value};

use super::columns::{OPTIONS, PLAN, SOURCES, UNITS};
use super::mistakes::{SheetMistake, SheetMistakes, Spot};
use super::rows::Sheet;
use super::{SHEET_NAMES, Sheets, options_sheet, sources_and_plan, units_sheet};
use crate::amount::Amount;
use crate::careful::{Careful, careful};
use crate::first_plan::{Engine, FirstPlan, Source, Tanker, engines_at_sources, nearest_unit};
use crate::scenario_text::{WrongPart, all_wrong_parts, checked};
use crate::tidy_json::tidy;

/// What was imported.
#[derive(Debug, Clone, PartialEq)]
pub struct Imported {
    /// What the sheets say.
    pub plan: FirstPlan,
    /// The scenario made of it.
    pub text: String,
    /// How many rows of them are marked as examples, and were left out.
    pub examples: usize,
    /// What is allowed and likely a slip, each with its cell.
    pub careful: Vec<SheetMistake>,
    /// Who pumps at a source and is none of the plan's units, so is taken as an engine of its own that drives there.
    pub engines_of_their_own: Vec<EngineAtSource>,
}

/// An engine that pumps at a source.
#[derive(Debug, Clone, PartialEq)]
pub struct EngineAtSource {
    /// What it is called.
    pub name: String,
    /// The source.
    pub source: String,
    /// The unit of the plan whose name is nearest, if one is near.
    pub near: Option<String>,
}

/// Reads the sheets in a folder: units, sources and plan, and options where there are any, each as .csv, .xlsx or .ods.
///
/// - Errors: every mistake in all of them, in the order of files, rows and columns.
pub fn read_sheets(folder: &Path) -> Result<Imported, SheetMistakes> {
    if !folder.is_dir() {
        return Err(SheetMistakes(vec![SheetMistake::new(
            Spot::file(&folder.display().to_string()),
            "there is no such folder",
            "check its name; `bucketline new --csv FOLDER` makes one with the three sheets",
        )]));
    }
    let mut wrong = Vec::new();
    let [units, sources, plan, bought] = SHEET_NAMES;
    let sheets = Sheets {
        units: Sheet::open(folder, units, &UNITS, &mut wrong),
        sources: Sheet::open(folder, sources, &SOURCES, &mut wrong),
        fire: Sheet::open(folder, plan, &PLAN, &mut wrong),
    };
    let mut bought = Sheet::open(folder, bought, &OPTIONS, &mut wrong);
    let examples = options_sheet::leave_out_examples(&mut bought);
    let files = [&sheets.units, &sheets.sources, &sheets.fire, &bought].map(|one| one.file.clone());
    let (plan, spots) = sheets.plan(&mut wrong);
    let made = match &plan {
        Some(plan) if !plan.sources.is_empty() => checked(plan).ok(),
        // Nothing to check: something is wrong already.
        _ => None,
    };
    let made = match made {
        Some((text, warnings)) if wrong.is_empty() => {
            with_options(text, &bought, &sheets, &mut wrong).map(|text| (text, warnings))
        }
        other => other,
    };
    match (plan, made) {
        (Some(plan), Some((text, warnings))) if wrong.is_empty() => {
            let at_source = |(source, name): (&Source, &str)| EngineAtSource {
                name: name.to_owned(),
                source: source.name.clone(),
                near: nearest_unit(&plan, name),
            };
            let engines_of_their_own =
                engines_at_sources(&plan).into_iter().map(at_source).collect();
            let told = careful(&plan, &warnings).into_iter();
            let careful = told.map(|one| at_its_cell(one, &spots)).collect();
            let plan = FirstPlan { beside: options_of(&text), ..plan.settled() };
            Ok(Imported { plan, text, examples, careful, engines_of_their_own })
        }
        (plan, _) => {
            let parts = plan.filter(|plan| !plan.sources.is_empty());
            let parts = parts.iter().flat_map(all_wrong_parts);
            wrong.extend(parts.filter_map(|one| of_part(one, &spots)));
            let place = |spot: &Spot| files.iter().position(|file| *file == spot.file);
            wrong.sort_by_key(|one| (place(&one.at), one.at.row));
            Err(SheetMistakes(wrong))
        }
    }
}

/// The scenario with what could be bought or changed.
fn with_options(
    text: String,
    bought: &Sheet,
    sheets: &Sheets,
    wrong: &mut Vec<SheetMistake>,
) -> Option<String> {
    if bought.rows.is_empty() {
        return Some(text);
    }
    let mut scenario: Value = serde_json::from_str(&text).ok()?;
    let options = options_sheet::options(bought, sheets, &scenario, wrong);
    scenario["options"] = Value::Array(options);
    let text = tidy(&scenario);
    // The options' own limits: their names, their costs.
    if wrong.is_empty()
        && let Err(error) = scenario_file::read(Path::new("the plan"), &text)
    {
        let whole = || Spot::file(&bought.file);
        match error {
            ScenarioError::Wrong(mistakes) => {
                wrong.extend(mistakes.list.into_iter().map(|one| SheetMistake {
                    at: whole(),
                    problem: one.problem.in_file(),
                    limit: one.limit.map(|limit| limit.in_file()),
                    cure: one.cure.in_file(),
                }))
            }
            other => wrong.push(SheetMistake::new(whole(), other.to_string(), "take rows out")),
        }
    }
    Some(text)
}

/// What could be bought or changed, beside the plan as it stands in the scenario.
fn options_of(text: &str) -> Map<String, Value> {
    let scenario: Value = serde_json::from_str(text).unwrap_or_default();
    let options = scenario.get("options").map(|options| ("options".to_owned(), options.clone()));
    options.into_iter().collect()
}

impl Sheets {
    /// The plan of the sheets, with a stand-in for what is missing or wrong, and the cell of each of its parts; `None`
    /// where there is no fire.
    pub(crate) fn plan(
        &self,
        wrong: &mut Vec<SheetMistake>,
    ) -> (Option<FirstPlan>, Vec<(crate::Part, Spot)>) {
        let units = units_sheet::read(&self.units, wrong);
        let (sources, of_sources) = sources_and_plan::sources(&self.sources, wrong);
        let fire = sources_and_plan::fire(&self.fire, wrong);
        let mut spots = units.spots;
        spots.extend(of_sources);
        // What is there is checked against the limits also where something else is missing.
        let stand_in = Engine {
            name: "the attack engine".to_owned(),
            water: Some(Amount::plain(5_000.0)),
            minutes: Amount::plain(10.0),
        };
        let plan = fire.map(|fire| {
            spots.extend(fire.spots);
            FirstPlan {
                units: fire.units,
                title: fire.title,
                flow: fire.flow,
                start: fire.start,
                duration: fire.duration,
                reserve: fire.reserve.unwrap_or_else(|| Amount::plain(0.0)),
                attack_engine: units.attack_engine.unwrap_or(stand_in),
                supply_engine: units.supply_engine,
                second_supply_engine: units.second_supply_engine,
                drafting: Map::new(),
                own: if units.own.is_empty() { vec![some_tanker()] } else { units.own },
                aid: units.aid,
                drop_tanks: units.drop_tanks,
                sources,
                notes: Vec::new(),
                beside: Map::new(),
            }
        });
        (plan, spots)
    }
}

fn some_tanker() -> Tanker {
    Tanker {
        name: "a tanker of no row".to_owned(),
        department: None,
        of_others: false,
        comes_whole: false,
        alarm: None,
        water: Amount::plain(2_000.0),
        empties_in: None,
        turnout: None,
        minutes: Amount::plain(10.0),
        called_at: None,
    }
}

/// What to be careful of at its cell, or of the sheets as a whole.
fn at_its_cell(careful: Careful, spots: &[(crate::Part, Spot)]) -> SheetMistake {
    let found = spots.iter().find(|(one, _)| Some(*one) == careful.part);
    let at =
        found.map_or_else(|| Spot::file("the three sheets together"), |(_, spot)| spot.clone());
    SheetMistake::new(at, careful.told, "write it anew if something else is meant")
}

/// The mistake at its cell; `None`: of a stand-in, whose own mistake is told.
fn of_part(wrong: WrongPart, spots: &[(crate::Part, Spot)]) -> Option<SheetMistake> {
    let at = match wrong.part {
        None => Spot { file: "the three sheets together".to_owned(), ..Spot::file("") },
        Some(part) => spots.iter().find(|(one, _)| *one == part)?.1.clone(),
    };
    Some(SheetMistake { at, problem: wrong.problem, limit: wrong.limit, cure: wrong.cure })
}
