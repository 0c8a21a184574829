//! `flow`: how much water a building wants, by every rule side by side.

use std::path::Path;

use serde::Serialize;

use crate::answer_text::Words;
use crate::answers::flow_in_words::answer;
use crate::answers::flow_sheet::{ExposureTold, Sheet, Water, range, sheet};
use crate::answers::hose_instead::HoseInstead;
use crate::arguments::{FlowArguments, Standard};
use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::output::{print, write_file};
use scenario_file::{Replaced, WaterWanted, load_building, with_building_flow};

/// Everything `--json` prints. Flows in gpm, volumes in gal, whatever the units of the file.
#[derive(Serialize)]
struct Json<'a> {
    title: &'a str,
    volume_ft3: f64,
    rules: Vec<RuleRow<'a>>,
    least_gpm: f64,
    greatest_gpm: f64,
    greatest_over_least: f64,
    standard: &'static str,
    attack_flow_gpm: f64,
    attack_lines: LinesTold<'a>,
    duration_min: f64,
    total_water_gal: f64,
    minimum_supply_gal: f64,
    exposures: Vec<ExposureTold>,
    water: Water,
    hose_instead: Vec<HoseInstead>,
    warnings: Vec<String>,
    written: Option<Written>,
}

#[derive(Serialize)]
struct RuleRow<'a> {
    name: &'static str,
    gpm: f64,
    how: &'a str,
    source: &'static str,
    limits: &'static str,
    counts: bool,
    warnings: &'a [String],
}

#[derive(Serialize)]
struct LinesTold<'a> {
    carried_gpm: f64,
    how: &'a str,
    warnings: &'a [String],
}

#[derive(Serialize)]
struct Written {
    file: String,
    place: String,
    before_gpm: f64,
    after_gpm: f64,
}

/// Runs the command.
pub fn run(arguments: &FlowArguments) -> Result<Exit, Failure> {
    let wanted = load_building(&arguments.scenario.file)?;
    let rule = arguments.standard.map_or(wanted.flow.rule, Standard::rule);
    // All facts of the building have been checked; what is left is a flow that no hand lines carry.
    let sheet = sheet(&wanted, rule).map_err(Failure::NoWorksheet)?;
    let replaced = match &arguments.write {
        Some(path) => {
            let replaced = with_building_flow(path, &wanted, rule)?;
            write_file(path, replaced.text.as_bytes())?;
            Some((path.as_path(), replaced))
        }
        None => None,
    };
    let text = if arguments.scenario.showing.json {
        let mut text =
            serde_json::to_string_pretty(&json(&wanted, sheet, replaced)).unwrap_or_default();
        text.push('\n');
        text
    } else {
        let words = Words::new(arguments.scenario.showing.tender);
        let replaced = replaced.as_ref().map(|(path, replaced)| (*path, replaced));
        answer(&wanted, &sheet, replaced, words)
    };
    print(&text)?;
    Ok(Exit::Answered)
}

fn json(
    wanted: &WaterWanted,
    sheet: Sheet,
    replaced: Option<(&Path, Replaced)>,
) -> serde_json::Value {
    let (least, greatest) = range(wanted);
    let json = Json {
        title: &wanted.title,
        volume_ft3: sheet.volume.value,
        rules: (wanted.flow.rows.iter())
            .map(|row| RuleRow {
                name: row.name,
                gpm: row.flow.value,
                how: &row.flow.how,
                source: row.flow.source,
                limits: row.limits,
                counts: row.rule == sheet.rule && row.taken,
                warnings: &row.flow.warnings,
            })
            .collect(),
        least_gpm: least,
        greatest_gpm: greatest,
        greatest_over_least: greatest / least,
        standard: sheet.rule.name(),
        attack_flow_gpm: sheet.flow,
        attack_lines: LinesTold {
            carried_gpm: sheet.lines.carried_gpm,
            how: &sheet.lines.how,
            warnings: &sheet.lines.warnings,
        },
        duration_min: wanted.duration,
        total_water_gal: sheet.total.value,
        minimum_supply_gal: sheet.supply.value,
        exposures: sheet.exposures,
        water: sheet.water,
        hose_instead: sheet.hose,
        warnings: wanted.warnings.iter().map(ToString::to_string).collect(),
        written: replaced.map(|(path, replaced)| Written {
            file: path.display().to_string(),
            place: replaced.place,
            before_gpm: replaced.before,
            after_gpm: replaced.after,
        }),
    };
    serde_json::to_value(&json).unwrap_or_default()
}
