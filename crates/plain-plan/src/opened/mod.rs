//! A scenario read back into the plan it was made of; or what of it such a plan cannot say.
//!
//! There is one judge: the scenario is made of the plan again and held against the file. So a field that is read wrongly
//! here, or not at all, is told as one that would be lost, and never lost.

pub(crate) mod not_kept;

use scenario_file::{Alarm, Units};
use serde_json::{Map, Value};

use crate::amount::Amount;
use crate::first_plan::{DropTank, Engine, FirstPlan, Source, Start, Tanker};
use crate::scenario_text::{generated_notes, scenario, usual};
use not_kept::{NotKept, not_kept};

/// Reads a scenario back.
///
/// - Given: the text of a scenario, which was read and found sound.
/// - Errors: every field that a plan of this kind cannot say, in the order of the file; one where it is no JSON object.
pub fn opened(text: &str) -> Result<FirstPlan, Vec<NotKept>> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let file: Value = serde_json::from_str(text).unwrap_or_default();
    let plan = plan_of(&file);
    let lost = not_kept(&file, &scenario(&plan));
    if lost.is_empty() { Ok(plan) } else { Err(lost) }
}

/// What of `supply` is kept as it stands there.
const OF_DRAFTING: [&str; 2] = ["draft_limit", "failure"];

/// The plan, with a stand-in for what cannot be read.
fn plan_of(file: &Value) -> FirstPlan {
    let units = if file["units"] == "metric" { Units::Metric } else { Units::Us };
    let incident = &file["incident"];
    let (flow, start) = flow(&incident["attack_flow"]);
    let list = |key: &str| file[key].as_array().into_iter().flatten();
    let supply = &file["supply"]["engine"];
    let mut plan = FirstPlan {
        units,
        title: words(&file["title"]).unwrap_or_default(),
        flow,
        start,
        duration: sure(amount(&incident["duration"])),
        reserve: sure(amount(&incident["reserve"])),
        attack_engine: engine(&file["attack_engine"]),
        supply_engine: supply.is_object().then(|| engine(supply)),
        // Of two the file has what both move and how they stand in for each other, which is kept, and a note.
        second_supply_engine: None,
        drafting: Map::new(),
        own: list("tankers")
            .map(|one| tanker(one, &file["alarms"], is_as_of_others(one)))
            .collect(),
        aid: list("aid").map(|one| tanker(one, &file["alarms"], true)).collect(),
        drop_tanks: list("drop_tanks").map(drop_tank).collect(),
        sources: list("fill_sites").map(source).collect(),
        notes: Vec::new(),
        beside: Map::new(),
    };
    // What no plan of this kind has stays as it is.
    let made = scenario(&plan);
    for key in OF_DRAFTING.iter().filter(|key| file["supply"][**key] != made["supply"][**key]) {
        plan.drafting.insert((*key).to_owned(), file["supply"][*key].clone());
    }
    let known = |key: &String| made.get(key).is_some() || key == "alarms";
    let beside = file.as_object().into_iter().flatten().filter(|(key, _)| !known(key));
    plan.beside = beside.map(|(key, value)| (key.clone(), value.clone())).collect();
    let generated = generated_notes(&plan);
    let notes = file["notes"].as_array().into_iter().flatten().filter_map(words);
    plan.notes = notes.filter(|note| !generated.contains(note)).collect();
    plan
}

fn words(value: &Value) -> Option<String> {
    value.as_str().map(str::to_owned)
}

/// A number, with or without its unit.
fn amount(value: &Value) -> Option<Amount> {
    (value.is_number() || value.is_string()).then(|| Amount::of_json(value))
}

/// The mean of a duration.
fn mean(value: &Value) -> Option<Amount> {
    amount(&value["mean"])
}

/// What stands in for a number that cannot be read: the judge tells of that.
fn sure(amount: Option<Amount>) -> Amount {
    amount.unwrap_or(Amount::plain(0.0))
}

fn flow(value: &Value) -> (Amount, Option<Start>) {
    match value.as_array().map(Vec::as_slice) {
        Some([first, all]) => {
            let start =
                Start { flow: sure(amount(&first["flow"])), until: sure(amount(&all["from"])) };
            (sure(amount(&all["flow"])), Some(start))
        }
        _ => (sure(amount(value)), None),
    }
}

fn engine(value: &Value) -> Engine {
    Engine {
        name: words(&value["name"]).unwrap_or_default(),
        water: amount(&value["tank"]),
        minutes: sure(mean(&value["response"])),
    }
}

/// Whether a tanker that comes with the alarm has the spread of those of others.
fn is_as_of_others(value: &Value) -> bool {
    value["crew_cv"] == usual::AID_CREW_CV && value["response"]["cv"] == usual::AID_CV
}

fn tanker(value: &Value, alarms: &Value, of_others: bool) -> Tanker {
    let usual_turnout = if of_others { usual::AID_TURNOUT } else { usual::OWN_TURNOUT };
    let water = sure(amount(&value["capacity"]));
    let alarm = Alarm::ALL.into_iter().find(|alarm| value["alarm"] == alarm.key());
    Tanker {
        name: words(&value["name"]).unwrap_or_default(),
        department: words(&value["department"]),
        of_others,
        comes_whole: value["comes_whole"] == true,
        alarm,
        empties_in: amount(&value["dump_rate"]).and_then(|rate| water.emptied_at(&rate)),
        water,
        minutes: sure(mean(&value["response"])),
        turnout: amount(&value["turnout"]).filter(|often| !often.is_number(usual_turnout)),
        called_at: match alarm {
            None => amount(&value["requested_at"]),
            Some(alarm) => amount(&alarms[alarm.key()]),
        },
    }
}

fn drop_tank(value: &Value) -> DropTank {
    DropTank {
        brought_by: words(&value["brought_by"]).unwrap_or_default(),
        holds: sure(amount(&value["capacity"])),
    }
}

fn source(value: &Value) -> Source {
    let pump = &value["source_pump"];
    let bringer = words(&pump["brought_by"]);
    let is_brought = bringer.is_some();
    let ready = match (is_brought, pump.is_object()) {
        (true, _) => None,
        (false, true) => Some(sure(mean(&pump["response"]))),
        (false, false) => Some(sure(mean(&value["ready"]))),
    };
    let mut source = Source {
        name: words(&value["name"]).unwrap_or_default(),
        flow: sure(amount(&value["flow"])),
        positions: amount(&value["positions"]),
        ready,
        pumped_by: bringer.or_else(|| words(&pump["name"])),
        pump_draws_in: mean(&pump["setup"]).filter(|_| is_brought),
        pump_turnout: amount(&pump["turnout"]),
        road: Amount::plain(0.0),
        speed: None,
        gravel: None,
        gravel_speed: None,
        holds: amount(&value["volume"]),
    };
    let way = &value["out"];
    match way["stretches"].as_array().map(Vec::as_slice) {
        Some([rest, gravel]) => {
            let (rest, gravel) = (way_and_speed(rest), way_and_speed(gravel));
            source.road =
                sure(rest.0.zip(gravel.0.as_ref()).and_then(|(rest, gravel)| rest.plus(gravel)));
            (source.speed, source.gravel, source.gravel_speed) = (rest.1, gravel.0, gravel.1);
        }
        _ => {
            let (road, speed) = way_and_speed(way);
            (source.road, source.speed) = (sure(road), speed);
        }
    }
    source
}

/// The length of a road and the speed on it.
fn way_and_speed(value: &Value) -> (Option<Amount>, Option<Amount>) {
    let one_of = |keys: [&str; 2]| keys.iter().find_map(|key| amount(&value[*key]));
    (one_of(["miles", "km"]), one_of(["mph", "kmh"]))
}
