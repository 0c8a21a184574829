//! `flow`: how much water a building wants, by every rule side by side.

use std::path::Path;

use fireground::attack_lines::{AttackLines, LineFlows, attack_lines};
use fireground::building::total_water;
use fireground::heat::{BTU_TO_BOIL_A_POUND, POUNDS_PER_GALLON, heat_absorbed};
use fireground::minimum_supply::{enclosed_volume, minimum_supply};
use fireground::side_by_side::Rule;
use fireground::{FactError, PSI_PER_FOOT, Worked};
use serde::Serialize;
use shuttle_sim::{Luck, Shuttle};

use super::flow_answer::answer;
use super::hose_instead::{self, Compared, HoseInstead};
use crate::arguments::{FlowArguments, Standard};
use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::output::{Words, print, write_file};
use crate::scenario_file::{Replaced, WaterWanted, load_building, with_building_flow};

/// Temperature of the water at the nozzle for the heat it takes up, F. Judgement: well water.
pub(super) const WATER_F: f64 = 62.0;

/// Share of the water that turns to steam, for the heat it takes up. Judgement.
const STEAM_SHARE: f64 = 0.5;

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
pub(super) struct ExposureTold {
    pub(super) distance_ft: f64,
    pub(super) area_ft2: f64,
    pub(super) hazard: bool,
}

/// The program's own figures of water, and the heat that the attack flow takes up.
#[derive(Serialize)]
pub(super) struct Water {
    pub(super) temperature_f: f64,
    pub(super) psi_per_foot: f64,
    pub(super) pounds_per_gallon: f64,
    pub(super) btu_to_boil_a_pound: f64,
    pub(super) btu_a_gallon_to_steam: f64,
    pub(super) steam_share: f64,
    pub(super) btu_a_minute: f64,
}

#[derive(Serialize)]
struct Written {
    file: String,
    place: String,
    before_gpm: f64,
    after_gpm: f64,
}

/// What is worked out for the rule that counts.
pub(super) struct Sheet {
    pub(super) rule: Rule,
    pub(super) flow: f64,
    pub(super) lines: AttackLines,
    pub(super) total: Worked,
    pub(super) volume: Worked,
    pub(super) supply: Worked,
    pub(super) exposures: Vec<ExposureTold>,
    pub(super) water: Water,
    pub(super) hose: Vec<HoseInstead>,
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
    let text = if arguments.scenario.json {
        let mut text =
            serde_json::to_string_pretty(&json(&wanted, sheet, replaced)).unwrap_or_default();
        text.push('\n');
        text
    } else {
        let words = Words::new(arguments.scenario.tender);
        let replaced = replaced.as_ref().map(|(path, replaced)| (*path, replaced));
        answer(&wanted, &sheet, replaced, words)
    };
    print(&text)?;
    Ok(Exit::Answered)
}

fn sheet(wanted: &WaterWanted, rule: Rule) -> Result<Sheet, FactError> {
    let building = wanted.building();
    let flow = wanted.flow.asked(rule).flow.value;
    let rural = building.rural()?;
    let mut exposures = Vec::new();
    for near in &building.exposures {
        exposures.push(ExposureTold {
            distance_ft: near.distance_ft,
            area_ft2: near.area_ft2,
            hazard: building.is_hazard(near)?,
        });
    }
    Ok(Sheet {
        rule,
        flow,
        lines: attack_lines(flow, &LineFlows::default())?,
        total: total_water(flow, wanted.duration)?,
        volume: enclosed_volume(&rural)?,
        supply: minimum_supply(&rural)?,
        exposures,
        water: Water {
            temperature_f: WATER_F,
            psi_per_foot: PSI_PER_FOOT,
            pounds_per_gallon: POUNDS_PER_GALLON,
            btu_to_boil_a_pound: BTU_TO_BOIL_A_POUND,
            // One gpm for one minute is a gallon.
            btu_a_gallon_to_steam: heat_absorbed(1.0, 1.0, WATER_F)?.value,
            steam_share: STEAM_SHARE,
            btu_a_minute: heat_absorbed(flow, STEAM_SHARE, WATER_F)?.value,
        },
        hose: hose(wanted, flow),
    })
}

fn hose(wanted: &WaterWanted, flow_gpm: f64) -> Vec<HoseInstead> {
    if let Some(scenario) = &wanted.scenario {
        let established = Shuttle::new(&scenario.plan).run(Luck::Planned).established;
        return hose_instead::of_scenario(scenario, flow_gpm, established);
    }
    let compared = Compared {
        source: None,
        source_gpm: None,
        distance_ft: wanted.hose.distance_ft,
        flow_gpm,
        start_min: wanted.hose.start_min.unwrap_or(0.0),
        shuttle_min: None,
        shuttle_gpm: None,
    };
    vec![hose_instead::compare(&wanted.hose, compared)]
}

/// Least and greatest of what the rules ask for, gpm.
pub(super) fn range(wanted: &WaterWanted) -> (f64, f64) {
    let flows = wanted.flow.rows.iter().map(|row| row.flow.value);
    flows.fold((f64::INFINITY, 0.0), |(least, most), flow| (least.min(flow), most.max(flow)))
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
