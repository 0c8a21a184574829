//! The worksheet of a building in words.

use std::fmt::Write;
use std::path::Path;

use fireground::side_by_side::Rule;
use shuttle_report::units::{LITRES_PER_GALLON, Units, whole};

use super::closing::CAUTION;
use super::figures::{METRES_PER_FOOT, duration, hose_size};
use super::flow_sheet::{Sheet, WATER_F, range};
use super::{hose_in_words, people};
use crate::answer_text::{WIDTH, Words, paragraph, wrapped};
use scenario_file::{Replaced, WaterWanted, in_round_units, round_flow, round_volume};

/// Ratio of greatest to least flow up to which rules may be said to agree. Judgement.
const AGREE: f64 = 1.1;

/// The whole answer.
pub fn answer(
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
    text.push_str(&paragraph("Lines", &lines(sheet, units)));
    text.push_str(&paragraph(
        "Water",
        &format!(
            "plan for {} over {}, which is {}; the minimum supply, {} in all, is the least that NFPA 1142 \
             wants brought, however long it takes.",
            round_flow(sheet.flow, units),
            duration(wanted.duration),
            round_volume(sheet.total.value, units),
            round_volume(sheet.supply.value, units)
        ),
    ));
    text.push_str(&paragraph("Exposures", &exposures(sheet, units)));
    text.push_str(&paragraph("Heat", &heat(sheet, units)));
    for (place, one) in sheet.hose.iter().enumerate() {
        let label = if place == 0 { "Hose instead" } else { "" };
        text.push_str(&paragraph(label, &hose_in_words::told(one, &wanted.hose, units)));
    }
    if !sheet.hose.is_empty() {
        text.push_str(&paragraph("", &words.put(&hose_in_words::rests_on(&wanted.hose, units))));
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
        to_a_tenth(units, building.length_ft),
        to_a_tenth(units, building.width_ft),
        to_a_tenth(units, building.eaves_ft)
    ))
}

fn first_sentence(wanted: &WaterWanted, sheet: &Sheet, units: Units) -> String {
    let (least, greatest) = range(wanted);
    let agree = if greatest / least <= AGREE {
        format!(
            "The rules agree: {} to {}.",
            flow_number(least, units),
            round_flow(greatest, units)
        )
    } else {
        format!(
            "The rules disagree: they ask for {} to {}, the most {:.1} times the least.",
            flow_number(least, units),
            round_flow(greatest, units),
            greatest / least
        )
    };
    // Doubts about a figure belong beside it, not at the end.
    let mut doubts = String::new();
    let counted = wanted.flow.rows.iter().find(|row| row.rule == sheet.rule && row.taken);
    for warning in counted.iter().flat_map(|row| &row.flow.warnings) {
        doubts.push_str(&said(&format!(" Careful: {warning}."), sheet, units));
    }
    for warning in &wanted.warnings {
        let warning = warning.to_string();
        if warning.contains("`involved` is not stated") {
            doubts.push_str(" It takes the whole building as burning: `involved` is not stated.");
        }
    }
    wrapped(&format!(
        "By {}, the rule that counts here, the attack flow is {}.{doubts} {agree} Choose with --standard.",
        sheet.rule.name(),
        round_flow(sheet.flow, units)
    ))
}

/// The attack lines, their sizes as the trade writes them.
fn lines(sheet: &Sheet, units: Units) -> String {
    let mut text = with_warnings(&sheet.lines.how, &sheet.lines.warnings);
    for group in &sheet.lines.groups {
        let of_size = |size: &str| format!("{} x {size} at ", group.count);
        let (us, own) = (group.size.name(), hose_size(group.size, units));
        text = text.replace(&of_size(us), &of_size(own));
    }
    // The flow that is wanted stands there once without its unit.
    let bare = |flow: &str| format!(", not {flow}:");
    text = text.replace(&bare(&whole(sheet.flow)), &bare(&flow_number(sheet.flow, units)));
    said(&text, sheet, units)
}

/// The written-out sums in the units of the file. The flow that counts is filled in before rounding, so
/// that it reads the same everywhere.
fn said(text: &str, sheet: &Sheet, units: Units) -> String {
    let flow = format!(" {} gpm", whole(sheet.flow));
    let text = text.replace(&flow, &format!(" {}", round_flow(sheet.flow, units)));
    in_round_units(&text, units)
}

/// A flow without its unit.
fn flow_number(gpm: f64, units: Units) -> String {
    round_flow(gpm, units).trim_end_matches(|c: char| !c.is_ascii_digit()).to_owned()
}

/// "12.2 m", "80 ft": a size of a building, to a tenth where it is not whole.
fn to_a_tenth(units: Units, feet: f64) -> String {
    let (size, sign) = match units {
        Units::Us => (feet, "ft"),
        Units::Metric => (feet * METRES_PER_FOOT, "m"),
    };
    let tenths = format!("{:.1}", size - size.trunc());
    if matches!(tenths.as_str(), "0.0" | "1.0") || size >= 1_000.0 {
        return format!("{} {sign}", whole(size));
    }
    format!("{size:.1} {sign}")
}

/// The rules, one under the other; each with its sum, its limits and its warnings.
fn rows(wanted: &WaterWanted, sheet: &Sheet, units: Units) -> String {
    const NAME: usize = 30;
    const FLOW: usize = 8;
    let mut text = format!("  {:<NAME$} {:>FLOW$}   how, in US units\n", "rule", units.flow_sign());
    for row in &wanted.flow.rows {
        let star = if row.rule == sheet.rule && row.taken { '*' } else { ' ' };
        let first =
            format!("{star} {:<NAME$} {:>FLOW$}   ", row.name, flow_number(row.flow.value, units));
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
    let flow = round_flow(sheet.flow, units);
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
            format!("{} away {hazard}", to_a_tenth(units, near.distance_ft))
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
        round_flow(replaced.before, units),
        round_flow(replaced.after, units),
        rule.name()
    );
    let steps = &replaced.scenario.plan.facts().incident.attack_flow;
    let most = steps.iter().fold(0.0_f64, |most, step| most.max(step.flow));
    if most > replaced.after {
        let _ = write!(text, " Another step asks for more: {}.", round_flow(most, units));
    }
    let _ = write!(text, " Next: bucketline check {file}");
    text
}
