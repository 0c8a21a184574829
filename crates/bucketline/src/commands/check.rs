//! `check`: is the scenario sound, and what does a hand calculation say.

use std::fmt::Write;

use serde::Serialize;
use shuttle_report::units::{minutes, whole};
use shuttle_report::worksheet::{HAND_ALLOWANCE, TankerSheet, Worksheet, worksheet};
use shuttle_sim::{Luck, Shuttle};

use crate::answer_text::{Words, paragraph, wrapped};
use crate::answers::closing::CAUTION;
use crate::answers::figures::headline;
use crate::answers::hose_in_words;
use crate::answers::hose_instead::{self, HoseInstead};
use crate::answers::people::{self, PeopleNeeded};
use crate::arguments::CheckArguments;
use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::output::{print, print_json};
use scenario_file::{self, Scenario, Warning};

/// Everything `--json` prints.
#[derive(Serialize)]
struct Json<'a> {
    title: &'a str,
    sound: bool,
    warnings: Vec<String>,
    derived: Vec<String>,
    worksheet: &'a Worksheet,
    people: PeopleNeeded,
    hose_instead: Vec<HoseInstead>,
}

/// Runs the command.
pub fn run(arguments: &CheckArguments) -> Result<Exit, Failure> {
    let scenario = scenario_file::load(&arguments.scenario.file)?;
    let sheet = worksheet(&scenario.plan);
    if arguments.scenario.showing.json {
        let json = Json {
            title: &scenario.plan.facts().title,
            sound: true,
            warnings: all_warnings(&scenario).map(ToString::to_string).collect(),
            derived: scenario
                .derived
                .iter()
                .map(|one| format!("{}: {}", one.place, one.text))
                .collect(),
            worksheet: &sheet,
            people: people::needed(&scenario),
            hose_instead: lays(&scenario, &sheet),
        };
        print_json(&json)?;
    } else {
        print(&answer(&scenario, &sheet, Words::new(arguments.scenario.showing.tender)))?;
    }
    Ok(Exit::Answered)
}

fn answer(scenario: &Scenario, sheet: &Worksheet, words: Words) -> String {
    let mut text = headline(&scenario.plan, scenario.units, words);
    text.push('\n');
    text.push_str(&first_sentence(scenario, sheet, words));
    text.push('\n');
    text.push_str(&paragraph("The start", &start(scenario, words)));
    text.push('\n');
    for warning in all_warnings(scenario) {
        text.push_str(&paragraph("Odd", &warning.to_string()));
    }
    for derived in &scenario.derived {
        text.push_str(&paragraph("From facts", &format!("{}: {}", derived.place, derived.text)));
    }
    if all_warnings(scenario).next().is_some() || !scenario.derived.is_empty() {
        text.push('\n');
    }
    text.push_str(&cycles(scenario, sheet, words));
    text.push('\n');
    text.push_str(&caps(scenario, sheet, words));
    text.push('\n');
    text.push_str(&cover(scenario, sheet));
    text.push('\n');
    text.push_str(&people_and_hose(scenario, sheet, words));
    text.push_str(&wrapped(
        "\nBy hand: mean times, nobody waits, nothing breaks down. It says what the plan can make at \
         best; `bucketline risk` says how often it fails.",
    ));
    let _ = writeln!(text, "{CAUTION}");
    text
}

/// What is odd with the scenario as it stands, then what is odd with an option and not without it.
fn all_warnings(scenario: &Scenario) -> impl Iterator<Item = &Warning> {
    let of_options = scenario.options.iter().flat_map(|option| &option.warnings);
    scenario.warnings.iter().chain(of_options)
}

fn first_sentence(scenario: &Scenario, sheet: &Worksheet, words: Words) -> String {
    let units = scenario.units;
    let (makes, wants) = (sheet.hand_gpm, sheet.peak_flow_gpm);
    let capped = (sheet.tightest.as_ref()).filter(|(_, gpm)| *gpm < makes);
    let best = capped.map_or(makes, |(_, gpm)| *gpm);
    let margin = 100.0 * (best / wants - 1.0);
    let mut text = format!(
        "The scenario is sound. By hand {} {} {}",
        words.count(sheet.tankers.len()),
        if sheet.tankers.len() == 1 { "makes" } else { "make" },
        units.gpm(makes)
    );
    if let Some((place, gpm)) = capped {
        let _ = write!(text, ", but {place} cannot pass on more than {}", units.gpm(*gpm));
    }
    let _ = match margin {
        short if short < 0.0 => write!(
            text,
            ": {:.0}% less than the {} wanted. The lines will run dry once the water on wheels is gone.",
            -short,
            units.gpm(wants)
        ),
        thin => write!(
            text,
            " against {} wanted: {thin:.0}% more on paper. A late truck can still leave the lines dry.",
            units.gpm(wants)
        ),
    };
    wrapped(&text)
}

/// How the first minutes go with every duration at its mean.
fn start(scenario: &Scenario, words: Words) -> String {
    let result = Shuttle::new(&scenario.plan).run(Luck::Planned).clone();
    let supply = result.established.map_or_else(
        || "the supply is never established".to_owned(),
        |established| format!("supply established at minute {}", minutes(established)),
    );
    let short = match result.interruptions.first() {
        None => "the lines never run short".to_owned(),
        Some(first) => format!(
            "the lines first run short at minute {}, {} minutes in all: {}",
            minutes(first.start),
            minutes(result.minutes_short.iter().sum()),
            words.put(first.cause.words())
        ),
    };
    format!(
        "with every duration at its mean, minutes after the alarm: first water at minute {}, {supply}; \
         {short}.",
        minutes(result.first_water)
    )
}

/// Hose compared with the shuttle, every duration at its mean.
fn lays(scenario: &Scenario, sheet: &Worksheet) -> Vec<HoseInstead> {
    let established = Shuttle::new(&scenario.plan).run(Luck::Planned).established;
    hose_instead::of_scenario(scenario, sheet.peak_flow_gpm, established)
}

/// Whether the crew is there, and whether hose would do in place of tankers.
fn people_and_hose(scenario: &Scenario, sheet: &Worksheet, words: Words) -> String {
    let needed = people::needed(scenario);
    let mut text = paragraph("People", &people::told(&needed, scenario, words));
    let lays = lays(scenario, sheet);
    for (place, one) in lays.iter().enumerate() {
        let label = if place == 0 { "Hose instead" } else { "" };
        let told = hose_in_words::told(one, &scenario.hose, scenario.units);
        text.push_str(&paragraph(label, &told));
    }
    let last = if lays.is_empty() {
        "not known: no leg is given by its length, nor `hose.distance`.".to_owned()
    } else {
        hose_in_words::rests_on(&scenario.hose, scenario.units)
    };
    let label = if lays.is_empty() { "Hose instead" } else { "" };
    text.push_str(&paragraph(label, &words.put(&last)));
    text
}

fn cycles(scenario: &Scenario, sheet: &Worksheet, words: Words) -> String {
    let units = scenario.units;
    let mut text = String::new();
    let mut place = 0;
    while place < sheet.tankers.len() {
        let first = &sheet.tankers[place];
        let same = (sheet.tankers[place..].iter()).take_while(|other| alike(first, other)).count();
        let last = &sheet.tankers[place + same - 1];
        let name = if same == 1 {
            first.name.clone()
        } else {
            format!("{} to {}, each", first.name, last.name)
        };
        let parts: Vec<String> =
            (first.parts.iter()).map(|(part, mean)| format!("{part} {}", minutes(*mean))).collect();
        text.push_str(&paragraph(
            if place == 0 { "Cycles" } else { "" },
            &format!(
                "{name}, from {}: {} = {} min",
                first.fill_site,
                parts.join(" · "),
                minutes(first.cycle_min)
            ),
        ));
        let capacity = first.hand_gpm * first.cycle_min / (1.0 - HAND_ALLOWANCE);
        text.push_str(&paragraph(
            "",
            &format!(
                "by hand ({} less {:.0}%) / {} min = {}; with the scenario's own waste {} a load, {}",
                units.gallons(capacity),
                100.0 * HAND_ALLOWANCE,
                minutes(first.cycle_min),
                units.gpm(first.hand_gpm),
                units.gallons(first.load_gal),
                units.gpm(first.plan_gpm)
            ),
        ));
        place += same;
    }
    text.push_str(&paragraph(
        "Together",
        &format!(
            "{} by hand, {} with the scenario's own waste, for {}",
            units.gpm(sheet.hand_gpm),
            units.gpm(sheet.plan_gpm),
            words.count(sheet.tankers.len())
        ),
    ));
    text
}

fn alike(a: &TankerSheet, b: &TankerSheet) -> bool {
    a.parts == b.parts && a.fill_site == b.fill_site && a.hand_gpm == b.hand_gpm
}

fn caps(scenario: &Scenario, sheet: &Worksheet, words: Words) -> String {
    let units = scenario.units;
    let mut text = String::new();
    for (place, cap) in sheet.fill_caps.iter().chain(&sheet.other_caps).enumerate() {
        let label = if place == 0 { "At most" } else { "" };
        text.push_str(&paragraph(
            label,
            &format!("{} through {} ({})", units.gpm(cap.gpm), cap.place, words.put(&cap.how)),
        ));
    }
    if let (Some(knee), Some((place, _))) = (sheet.knee, &sheet.tightest) {
        let full = knee.floor();
        let more = if full < 1.0 {
            format!("{place} cannot even keep up with one")
        } else {
            format!(
                "{} {} fully; one more adds {:.0}% of itself, further ones nothing: {place} can then \
                 pass on no more",
                words.count(full as usize),
                if full < 2.0 { "adds" } else { "add" },
                100.0 * (knee - full)
            )
        };
        text.push_str(&paragraph("Enough", &format!("cap / rate of one = {knee:.2}: {more}")));
    }
    text
}

fn cover(scenario: &Scenario, sheet: &Worksheet) -> String {
    let units = scenario.units;
    let facts = scenario.plan.facts();
    let mut text = paragraph(
        "Water",
        &format!(
            "{} on wheels that can be delivered = {} min of {}; attack engine {} = {} min; full drop \
             tanks {} min; wanted over the whole watch {}",
            units.gallons(sheet.on_wheels_gal),
            minutes(sheet.on_wheels_min),
            units.gpm(sheet.peak_flow_gpm),
            units.gallons(facts.attack_engine.tank),
            minutes(sheet.engine_tank_min),
            minutes(sheet.drop_tanks_min),
            units.gallons(sheet.wanted_gal)
        ),
    );
    for site in &facts.fill_sites {
        if let Some(volume) = site.volume {
            let total = volume + site.recharge * facts.incident.duration;
            let share = total / sheet.wanted_gal;
            text.push_str(&paragraph(
                "",
                &format!(
                    "{} holds {}: {} times what is wanted",
                    site.name,
                    units.gallons(volume),
                    if share < 10.0 { format!("{share:.1}") } else { whole(share) }
                ),
            ));
        }
    }
    text
}
