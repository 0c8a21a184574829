//! `flow`: how much water a building wants, by every rule side by side.

use std::fmt::Write;
use std::path::Path;

use fireground::attack_lines::{AttackLines, LineFlows, attack_lines};
use fireground::building::total_water;
use fireground::heat::{BTU_TO_BOIL_A_POUND, POUNDS_PER_GALLON, heat_absorbed};
use fireground::minimum_supply::{enclosed_volume, is_exposure_hazard, minimum_supply};
use fireground::side_by_side::Rule;
use fireground::{FactError, PSI_PER_FOOT, Worked};
use serde::Serialize;
use shuttle_report::units::{LITRES_PER_GALLON, Units, whole};
use shuttle_sim::{Luck, Shuttle};

use super::hose_instead::{self, Compared, HoseInstead};
use super::{CAUTION, duration, feet, people};
use crate::arguments::{FlowArguments, Standard};
use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::output::{WIDTH, Words, paragraph, print, wrapped, write_file};
use crate::scenario_file::{Replaced, WaterWanted, in_units, load_building, with_building_flow};

/// Temperature of the water at the nozzle for the heat it takes up, F. Judgement: well water.
const WATER_F: f64 = 62.0;

/// Share of the water that turns to steam, for the heat it takes up. Judgement.
const STEAM_SHARE: f64 = 0.5;

/// Ratio of greatest to least flow up to which rules may be said to agree. Judgement.
const AGREE: f64 = 1.1;

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
struct ExposureTold {
    distance_ft: f64,
    area_ft2: f64,
    hazard: bool,
}

/// The program's own figures of water, and the heat that the attack flow takes up.
#[derive(Serialize)]
struct Water {
    temperature_f: f64,
    psi_per_foot: f64,
    pounds_per_gallon: f64,
    btu_to_boil_a_pound: f64,
    btu_a_gallon_to_steam: f64,
    steam_share: f64,
    btu_a_minute: f64,
}

#[derive(Serialize)]
struct Written {
    file: String,
    place: String,
    before_gpm: f64,
    after_gpm: f64,
}

/// What is worked out for the rule that counts.
struct Sheet {
    rule: Rule,
    flow: f64,
    lines: AttackLines,
    total: Worked,
    volume: Worked,
    supply: Worked,
    exposures: Vec<ExposureTold>,
    water: Water,
    hose: Vec<HoseInstead>,
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
            hazard: is_exposure_hazard(
                near.distance_ft,
                near.area_ft2,
                building.occupancy,
                near.occupancy,
            )?,
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
    };
    vec![hose_instead::compare(&wanted.hose, compared)]
}

/// Least and greatest of what the rules ask for, gpm.
fn range(wanted: &WaterWanted) -> (f64, f64) {
    let flows = wanted.flow.rows.iter().map(|row| row.flow.value);
    flows.fold((f64::INFINITY, 0.0), |(least, most), flow| (least.min(flow), most.max(flow)))
}

fn json<'a>(
    wanted: &'a WaterWanted,
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

fn answer(
    wanted: &WaterWanted,
    sheet: &Sheet,
    replaced: Option<(&Path, &Replaced)>,
    words: Words,
) -> String {
    let units = wanted.units;
    let mut text = headline(wanted, units);
    text.push('\n');
    text.push_str(&first_sentence(wanted, sheet, units));
    text.push('\n');
    text.push_str(&rows(wanted, sheet, units));
    text.push('\n');
    let lines = with_warnings(&sheet.lines.how, &sheet.lines.warnings);
    text.push_str(&paragraph("Lines", &in_units(&lines, units)));
    text.push_str(&paragraph(
        "Water",
        &format!(
            "{} for {} is {}. The minimum supply is {} in all, however long it takes",
            units.gpm(sheet.flow),
            duration(wanted.duration),
            units.gallons(sheet.total.value),
            units.gallons(sheet.supply.value)
        ),
    ));
    text.push_str(&paragraph("Exposures", &exposures(sheet, units)));
    text.push_str(&paragraph("Heat", &heat(sheet, units)));
    for (place, one) in sheet.hose.iter().enumerate() {
        let label = if place == 0 { "Hose instead" } else { "" };
        text.push_str(&paragraph(label, &hose_instead::told(one, &wanted.hose, units)));
    }
    if !sheet.hose.is_empty() {
        text.push_str(&paragraph("", &hose_instead::rests_on(&wanted.hose, units)));
    }
    if let Some(scenario) = &wanted.scenario {
        let needed = people::needed(scenario);
        text.push_str(&paragraph("People", &people::told(&needed, scenario, words)));
    }
    text.push_str(&paragraph("Sources", &sources(wanted)));
    for warning in &wanted.warnings {
        text.push_str(&paragraph("Odd", &warning.to_string()));
    }
    if let Some((path, replaced)) = replaced {
        text.push('\n');
        text.push_str(&wrapped(&written(path, replaced, sheet.rule)));
    }
    text.push_str(&wrapped(
        "\nThe rules were made for different ends. Which one binds you, the local code and the authority \
         having jurisdiction say; how much water the fire gets, the incident commander.",
    ));
    let _ = writeln!(text, "{CAUTION}");
    text
}

fn headline(wanted: &WaterWanted, units: Units) -> String {
    let building = wanted.building();
    let stories = match building.stories {
        1 => "1 story".to_owned(),
        more => format!("{more} stories"),
    };
    wrapped(&format!(
        "{}: {} x {}, {stories}, {} to the eaves",
        wanted.title,
        feet(units, building.length_ft),
        feet(units, building.width_ft),
        feet(units, building.eaves_ft)
    ))
}

fn first_sentence(wanted: &WaterWanted, sheet: &Sheet, units: Units) -> String {
    let (least, greatest) = range(wanted);
    let agree = if greatest / least <= AGREE {
        format!("The rules agree: {} to {}.", whole(units.flow(least)), units.gpm(greatest))
    } else {
        format!(
            "The rules disagree: they ask for {} to {}, the most {:.1} times the least.",
            whole(units.flow(least)),
            units.gpm(greatest),
            greatest / least
        )
    };
    wrapped(&format!(
        "By {}, the rule that counts here, the attack flow is {}. {agree} Choose with --standard.",
        sheet.rule.name(),
        units.gpm(sheet.flow)
    ))
}

/// The rules, one under the other; each with its sum, its limits and its warnings.
fn rows(wanted: &WaterWanted, sheet: &Sheet, units: Units) -> String {
    const NAME: usize = 30;
    const FLOW: usize = 8;
    let mut text = format!("  {:<NAME$} {:>FLOW$}   how, in US units\n", "rule", units.flow_sign());
    for row in &wanted.flow.rows {
        let star = if row.rule == sheet.rule && row.taken { '*' } else { ' ' };
        let first =
            format!("{star} {:<NAME$} {:>FLOW$}   ", row.name, whole(units.flow(row.flow.value)));
        let other = " ".repeat(first.chars().count());
        text.push_str(&hanging(&first, &other, &row.flow.how));
        text.push_str(&hanging(&other, &other, &format!("made for {}", row.limits)));
        for warning in &row.flow.warnings {
            text.push_str(&hanging(&other, &other, &format!("Careful: {warning}")));
        }
    }
    text.push_str("* the rule that counts\n");
    text
}

/// Where each rule comes from.
fn sources(wanted: &WaterWanted) -> String {
    let each: Vec<String> =
        (wanted.flow.rows.iter()).map(|row| format!("{}: {}", row.name, row.flow.source)).collect();
    format!("{}.", each.join("; "))
}

/// What the water takes up.
fn heat(sheet: &Sheet, units: Units) -> String {
    /// Exact to the figures shown (international table Btu, NIST SP 811).
    const JOULES_PER_BTU: f64 = 1_055.056;
    let (gallon, minute) = (sheet.water.btu_a_gallon_to_steam, sheet.water.btu_a_minute);
    let (each, all) = match units {
        Units::Us => (
            format!("a gallon from {} F to steam takes up {} Btu", whole(WATER_F), whole(gallon)),
            format!("{:.1} million Btu a minute", minute / 1e6),
        ),
        Units::Metric => (
            format!(
                "a litre from {} C to steam takes up {:.1} MJ",
                whole((WATER_F - 32.0) / 1.8),
                gallon * JOULES_PER_BTU / 1e6 / LITRES_PER_GALLON
            ),
            format!("{:.0} MW", minute * JOULES_PER_BTU / 60.0 / 1e6),
        ),
    };
    let flow = units.gpm(sheet.flow);
    format!("{each}; {flow} with half of it to steam (judgement) {all}")
}

fn hanging(first: &str, other: &str, text: &str) -> String {
    let options = textwrap::Options::new(WIDTH)
        .initial_indent(first)
        .subsequent_indent(other)
        .break_words(false)
        .word_splitter(textwrap::WordSplitter::NoHyphenation);
    let mut out = textwrap::fill(text, options);
    out.push('\n');
    out
}

fn with_warnings(how: &str, warnings: &[String]) -> String {
    let mut text = format!("{how}.");
    for warning in warnings {
        let _ = write!(text, " Careful: {warning}.");
    }
    text
}

fn exposures(sheet: &Sheet, units: Units) -> String {
    if sheet.exposures.is_empty() {
        return "none is stated".to_owned();
    }
    let hazards = sheet.exposures.iter().filter(|near| near.hazard).count();
    let each: Vec<String> = (sheet.exposures.iter())
        .map(|near| {
            let hazard = if near.hazard { "a hazard" } else { "no hazard" };
            format!("{} away {hazard}", feet(units, near.distance_ft))
        })
        .collect();
    format!(
        "{hazards} of {} count{} as an exposure hazard by NFPA 1142 (within 50 ft and 100 ft2, or a class 3 \
         or 4): {}",
        sheet.exposures.len(),
        if hazards == 1 { "s" } else { "" },
        each.join(", ")
    )
}

fn written(path: &Path, replaced: &Replaced, rule: Rule) -> String {
    let units = replaced.scenario.units;
    let file = path.display();
    let mut text = format!(
        "{file} is written: {} was {} and is now given by the building, {} by {}.",
        replaced.place,
        units.gpm(replaced.before),
        units.gpm(replaced.after),
        rule.name()
    );
    let steps = &replaced.scenario.plan.facts().incident.attack_flow;
    let most = steps.iter().fold(0.0_f64, |most, step| most.max(step.flow));
    if most > replaced.after {
        let _ = write!(text, " Another step asks for more: {}.", units.gpm(most));
    }
    let _ = write!(text, " Next: bucketline check {file}");
    text
}
