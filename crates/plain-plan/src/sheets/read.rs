//! The three sheets of a folder, made into a scenario; or every mistake in them.

use std::path::Path;

use super::columns::{PLAN, SOURCES, UNITS};
use super::mistakes::{SheetMistake, SheetMistakes, Spot};
use super::rows::Sheet;
use super::{SHEET_NAMES, sources_and_plan, units_sheet};
use crate::amount::Amount;
use crate::first_plan::{Engine, FirstPlan, Source, Tanker, engines_at_sources, nearest_unit};
use crate::scenario_text::{WrongPart, all_wrong_parts, scenario_text};

/// What was imported.
#[derive(Debug, Clone, PartialEq)]
pub struct Imported {
    /// What the sheets say.
    pub plan: FirstPlan,
    /// The scenario made of it.
    pub text: String,
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

/// Reads the sheets in a folder: units, sources and plan, each as .csv, .xlsx or .ods.
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
    let [units, sources, plan] = SHEET_NAMES;
    let units = Sheet::open(folder, units, &UNITS, &mut wrong);
    let sources = Sheet::open(folder, sources, &SOURCES, &mut wrong);
    let fire = Sheet::open(folder, plan, &PLAN, &mut wrong);
    let files = [units.file.clone(), sources.file.clone(), fire.file.clone()];
    let units = units_sheet::read(&units, &mut wrong);
    let (sources, of_sources) = sources_and_plan::sources(&sources, &mut wrong);
    let fire = sources_and_plan::fire(&fire, &mut wrong);
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
            own: if units.own.is_empty() { vec![some_tanker()] } else { units.own },
            aid: units.aid,
            drop_tanks: units.drop_tanks,
            sources,
        }
    });
    let made = match &plan {
        Some(plan) if !plan.sources.is_empty() => scenario_text(plan).ok(),
        // Nothing to check: something is wrong already.
        _ => None,
    };
    match (plan, made) {
        (Some(plan), Some(text)) if wrong.is_empty() => {
            let at_source = |(source, name): (&Source, &str)| EngineAtSource {
                name: name.to_owned(),
                source: source.name.clone(),
                near: nearest_unit(&plan, name),
            };
            let engines_of_their_own =
                engines_at_sources(&plan).into_iter().map(at_source).collect();
            Ok(Imported { plan, text, engines_of_their_own })
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

fn some_tanker() -> Tanker {
    Tanker {
        name: "a tanker of no row".to_owned(),
        department: None,
        comes_whole: false,
        alarm: None,
        water: Amount::plain(2_000.0),
        empties_in: None,
        turnout: None,
        minutes: Amount::plain(10.0),
        called_at: None,
    }
}

/// The mistake at its cell; `None`: of a stand-in, whose own mistake is told.
fn of_part(wrong: WrongPart, spots: &[(crate::Part, Spot)]) -> Option<SheetMistake> {
    let at = match wrong.part {
        None => Spot { file: "the three sheets together".to_owned(), ..Spot::file("") },
        Some(part) => spots.iter().find(|(one, _)| *one == part)?.1.clone(),
    };
    Some(SheetMistake { at, problem: wrong.problem, limit: wrong.limit, cure: wrong.cure })
}
