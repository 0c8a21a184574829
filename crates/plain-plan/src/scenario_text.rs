//! From a first plan to the text of a scenario: what was said, and for the rest what is usual.

use std::path::Path;

use scenario_file::{Measure, ScenarioError, Units, Warning, bare_number};
use serde_json::{Map, Value, json};

use crate::alarms::greater_alarms;
use crate::amount::Amount;
use crate::first_plan::{DropTank, Engine, FirstPlan, Tanker, alike};
use crate::part::{OfSource, OfUnit, Part};
use crate::source_text::{contradictions, fill_site};
use crate::tidy_json::tidy;

/// What is wrong with a part, found by the scenario file's own check.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WrongPart {
    /// The part; `None`: it concerns the whole.
    pub part: Option<Part>,
    /// What is wrong.
    pub problem: String,
    /// What is allowed, where that says more than the problem.
    pub limit: Option<String>,
    /// What would likely put it right.
    pub cure: String,
}

/// The scenario, as a text that was read and found sound.
///
/// - Errors: every part that is wrong.
pub fn scenario_text(plan: &FirstPlan) -> Result<String, Vec<WrongPart>> {
    checked(plan).map(|(text, _)| text)
}

/// The scenario, and what a person should know of it.
///
/// - Errors: as [`scenario_text()`].
pub(crate) fn checked(plan: &FirstPlan) -> Result<(String, Vec<Warning>), Vec<WrongPart>> {
    let text = tidy(&scenario(plan));
    let mut wrong = second_names(plan);
    wrong.extend(contradictions(plan));
    match scenario_file::read(Path::new("the plan"), &text) {
        Ok(read) if wrong.is_empty() => Ok((text, read.warnings)),
        Ok(_) => Err(wrong),
        Err(error) => {
            let told: Vec<Part> = wrong.iter().filter_map(|one| one.part).collect();
            let also = wrong_parts(plan, error).into_iter();
            wrong.extend(also.filter(|one| one.part.is_none_or(|part| !told.contains(&part))));
            Err(wrong)
        }
    }
}

/// Every part that is wrong, those too that are only looked at once the others are sound.
pub(crate) fn all_wrong_parts(plan: &FirstPlan) -> Vec<WrongPart> {
    let mut plan = plan.clone();
    let mut all: Vec<WrongPart> = Vec::new();
    while let Err(wrong) = scenario_text(&plan) {
        // What concerns no part cannot be put right; what was put right is not told again.
        let parts: Vec<Part> = wrong.iter().filter_map(|one| one.part).collect();
        let new = wrong.into_iter().filter(|one| {
            one.part.is_none_or(|part| all.iter().all(|known| known.part != Some(part)))
        });
        let before = all.len();
        let new: Vec<WrongPart> = new.collect();
        all.extend(new);
        if parts.is_empty() || all.len() == before {
            break;
        }
        for part in parts {
            // Its bringer named anew, a drop tank would be brought by nobody.
            if matches!(part, Part::Own(_, OfUnit::Name) | Part::Aid(_, OfUnit::Name)) {
                plan.drop_tanks.clear();
            }
            part.make_sound(&mut plan);
        }
    }
    all
}

/// Units and sources that are called as another one is, but for capitals, spaces and quotes. Two rows of one tanker would
/// count it twice; which of them is meant nobody can know.
fn second_names(plan: &FirstPlan) -> Vec<WrongPart> {
    let tankers = |list: &'_ [Tanker], part: fn(usize, OfUnit) -> Part| -> Vec<(Part, String)> {
        let named = list.iter().enumerate();
        named.map(|(place, one)| (part(place, OfUnit::Name), one.name.clone())).collect()
    };
    let mut units = vec![(Part::AttackEngine(OfUnit::Name), plan.attack_engine.name.clone())];
    let supply = plan.supply_engine.as_ref();
    units.extend(supply.map(|engine| (Part::SupplyEngine(OfUnit::Name), engine.name.clone())));
    let second = plan.second_supply_engine.as_ref();
    units.extend(second.map(|engine| (Part::SecondSupplyEngine, engine.name.clone())));
    units.extend(tankers(&plan.own, Part::Own));
    units.extend(tankers(&plan.aid, Part::Aid));
    let sources = plan.sources.iter().enumerate();
    let sources: Vec<(Part, String)> = sources
        .map(|(place, one)| (Part::Source(place, OfSource::Name), one.name.clone()))
        .collect();
    let mut wrong = Vec::new();
    for (what, named) in [("unit", units), ("source", sources)] {
        for (place, (part, name)) in named.iter().enumerate() {
            let Some((_, first)) = named[..place].iter().find(|(_, one)| alike(one, name)) else {
                continue;
            };
            wrong.push(WrongPart {
                part: Some(*part),
                problem: format!("there is a {what} called {first} already"),
                limit: None,
                cure: format!(
                    "if it is the same one, leave this one out; else give it another name, such as {name} B"
                ),
            });
        }
    }
    wrong
}

fn wrong_parts(plan: &FirstPlan, error: ScenarioError) -> Vec<WrongPart> {
    let ScenarioError::Wrong(mistakes) = error else {
        return vec![WrongPart {
            part: None,
            problem: error.to_string(),
            limit: None,
            cure: "make the plan smaller".to_owned(),
        }];
    };
    let mut wrong: Vec<WrongPart> = Vec::new();
    for mistake in mistakes.list {
        let found = WrongPart {
            part: Part::at(plan, &mistake.place),
            problem: mistake.problem.in_file(),
            limit: mistake.limit.map(|limit| limit.in_file()),
            cure: mistake.cure.in_file(),
        };
        // The way out and the way back are one answer.
        if !wrong.contains(&found) {
            wrong.push(found);
        }
    }
    wrong
}

/// What is taken where nothing was said; all judgement, as in the starter, and told in the notes.
pub(crate) mod usual {
    /// Spread of the responses of own units, and of aid.
    pub const OWN_CV: f64 = 0.15;
    pub const AID_CV: f64 = 0.2;
    /// Chance that own units come, and that aid does.
    pub const OWN_TURNOUT: f64 = 1.0;
    pub const AID_TURNOUT: f64 = 0.9;
    /// How much crews differ from fire to fire.
    pub const OWN_CREW_CV: f64 = 0.1;
    pub const AID_CREW_CV: f64 = 0.2;
    /// Share of a load that is spilled or not filled, and that never leaves.
    pub const WASTE: f64 = 0.05;
    pub const RESIDUAL: f64 = 0.02;
    /// Share of the engine's tank, where it says nothing else, that stays for backing out.
    pub const UNUSABLE_SHARE: f64 = 0.06;
}

/// The scenario, whether it is sound or not.
pub(crate) fn scenario(plan: &FirstPlan) -> Value {
    let us = plan.units == Units::Us;
    // Round figures in either system.
    let pick = |gallons: f64, litres: f64| Amount::plain(if us { gallons } else { litres }).json();
    let mut whole = Map::new();
    let mut put = |key: &str, value: Value| {
        whole.insert(key.to_owned(), value);
    };
    put("title", json!(plan.title));
    put("notes", generated_notes(plan).into_iter().chain(plan.notes.clone()).collect());
    put("units", json!(if us { "us" } else { "metric" }));
    put("whole_fire", json!({"driving_cv": 0.1, "handling_cv": 0.15, "response_cv": 0.15}));
    put(
        "incident",
        json!({
            "duration": plan.duration.json(),
            "attack_flow": flow(plan),
            "reserve": plan.reserve.json(),
            "tolerance": 0.1,
        }),
    );
    put("attack_engine", attack_engine(&plan.attack_engine, pick(500.0, 1_900.0)));
    put("supply", supply(plan, drafts_at_most(plan).json()));
    let unusable = |holds: &Amount| match bare_number(&holds.json(), Measure::Volume, plan.units) {
        // Of a common drop tank of 3,500 gal the starter's 200 gal.
        Some(holds) => Amount::plain((holds * usual::UNUSABLE_SHARE / 10.0).round() * 10.0).json(),
        None => pick(200.0, 750.0),
    };
    put(
        "drop_tanks",
        (plan.drop_tanks.iter().enumerate())
            .map(|(place, tank)| {
                let mut made = drop_tank(tank, unusable(&tank.holds));
                // The first is the one that is drafted from.
                if place > 0 {
                    made["transfer"] = pick(500.0, 1_900.0);
                }
                made
            })
            .collect(),
    );
    let alarms = greater_alarms(&plan.aid);
    if !alarms.is_empty() {
        let minutes: Map<String, Value> = (alarms.into_iter())
            .map(|(alarm, _, minute)| (alarm.key().to_owned(), minute.json()))
            .collect();
        put("alarms", Value::Object(minutes));
    }
    put("tankers", plan.own.iter().map(tanker).collect());
    put("aid", plan.aid.iter().map(tanker).collect());
    put("fill_sites", plan.sources.iter().map(|one| fill_site(one, plan)).collect());
    put(
        "handling",
        json!({
            "nurse_connect": {"mean": 1, "cv": 0.3},
            "nurse_disconnect": {"mean": 0.7, "cv": 0.3},
            "dump_position": {"mean": 0.8, "cv": 0.3},
            "dump_clear": {"mean": 0.2, "cv": 0.3},
            "fill_connect": {"mean": 1.2, "cv": 0.3},
            "fill_disconnect": {"mean": 0.7, "cv": 0.3},
        }),
    );
    whole.extend(plan.beside.clone());
    Value::Object(whole)
}

/// What is drafted at most: what a plan that is there says, else twice as much by two engines as by one.
pub(crate) fn drafts_at_most(plan: &FirstPlan) -> Amount {
    let stated = plan.drafting.get("draft_limit").filter(|limit| !limit.is_null());
    stated.map(Amount::of_json).unwrap_or_else(|| {
        let engines = if plan.second_supply_engine.is_some() { 2.0 } else { 1.0 };
        Amount::plain(engines * if plan.units == Units::Us { 1_000.0 } else { 3_800.0 })
    })
}

/// What was taken where nothing was said.
pub(crate) fn generated_notes(plan: &FirstPlan) -> Vec<String> {
    let draft = drafts_at_most(plan).told_in(if plan.units == Units::Us { "gpm" } else { "L/min" });
    let mut notes = vec![
        "Made of what was asked or of three spreadsheets. What was not asked is judgement, no measurement: put your own times in.".to_owned(),
        "What a whole fire shares: all driving 10% more or less from fire to fire, all handling 15%, all responses 15%; a tanker's crew 10% of its own (aid 20%).".to_owned(),
        "Where it was not said how often a unit comes, own ones come to every fire, aid to 90 of 100: say what your call records show.".to_owned(),
        format!("The pump at the drop tank moves {draft} at most; it fails in 2 of 100 fires, a source in 3."),
        "Handling times are common ones: time your crews (`bucketline drill`) and put the samples in.".to_owned(),
        "A plan on paper. The incident commander, local rules and what you see on the ground come first.".to_owned(),
    ];
    if let (Some(first), Some(second)) = (&plan.supply_engine, &plan.second_supply_engine) {
        notes.push(format!(
            "{} drafts beside {}: together they move twice as much, and where one fails the other is hooked up in its place. It is taken to be there when {} is.",
            second.name, first.name, first.name
        ));
    }
    notes
}

fn flow(plan: &FirstPlan) -> Value {
    match &plan.start {
        None => plan.flow.json(),
        Some(start) => json!([
            {"from": 0, "flow": start.flow.json()},
            {"from": start.until.json(), "flow": plan.flow.json()},
        ]),
    }
}

pub(crate) fn around(mean: &Amount, cv: f64) -> Value {
    json!({"mean": mean.json(), "cv": cv})
}

fn attack_engine(engine: &Engine, refill: Value) -> Value {
    json!({
        "name": engine.name,
        "tank": engine.water.as_ref().map_or(Value::Null, Amount::json),
        "response": around(&engine.minutes, usual::OWN_CV),
        "water_on": {"mean": 1.5, "cv": 0.3},
        "intakes": 1,
        "tank_refill": refill,
    })
}

fn supply(plan: &FirstPlan, draft_limit: Value) -> Value {
    let engine = plan.supply_engine.as_ref();
    let setup = json!({"low": 3, "likely": 5, "high": 8});
    // Judgement: a pump that fails is worked on, or the other engine is hooked up in its place as the first one was.
    let repair = match plan.second_supply_engine {
        Some(_) => setup.clone(),
        None => json!({"low": 5, "likely": 10, "high": 30}),
    };
    let mut supply = Map::new();
    supply.insert("nurse".to_owned(), json!(true));
    match engine {
        Some(engine) => supply.insert(
            "engine".to_owned(),
            json!({
                "name": engine.name,
                "response": around(&engine.minutes, usual::OWN_CV),
                "setup": setup,
            }),
        ),
        None => supply.insert("setup".to_owned(), setup),
    };
    supply.insert("draft_limit".to_owned(), draft_limit);
    supply.insert("reprime".to_owned(), json!({"low": 0.5, "likely": 1, "high": 3}));
    // Without a drop tank nothing is drafted that could fail.
    if !plan.drop_tanks.is_empty() {
        supply.insert("failure".to_owned(), json!({"chance": 0.02, "repair": repair}));
    }
    supply.insert("low_water".to_owned(), json!("throttle"));
    for (key, value) in &plan.drafting {
        if value.is_null() {
            supply.remove(key);
        } else {
            supply.insert(key.clone(), value.clone());
        }
    }
    Value::Object(supply)
}

fn drop_tank(tank: &DropTank, unusable: Value) -> Value {
    json!({
        "capacity": tank.holds.json(),
        "unusable": unusable,
        "brought_by": tank.brought_by,
        "setup": {"low": 2.5, "likely": 3.5, "high": 5},
        "dump_positions": 1,
    })
}

fn tanker(tanker: &Tanker) -> Value {
    let (cv, turnout, crew_cv) = if tanker.of_others {
        (usual::AID_CV, usual::AID_TURNOUT, usual::AID_CREW_CV)
    } else {
        (usual::OWN_CV, usual::OWN_TURNOUT, usual::OWN_CREW_CV)
    };
    let mut made = Map::new();
    made.insert("name".to_owned(), json!(tanker.name));
    if let Some(department) = &tanker.department {
        made.insert("department".to_owned(), json!(department));
    }
    if tanker.comes_whole {
        made.insert("comes_whole".to_owned(), json!(true));
    }
    if let Some(alarm) = tanker.alarm {
        made.insert("alarm".to_owned(), json!(alarm.key()));
    }
    made.insert("capacity".to_owned(), tanker.water.json());
    // Who is on an alarm is called with that.
    if let Some(at) = tanker.called_at.as_ref().filter(|_| tanker.alarm.is_none()) {
        made.insert("requested_at".to_owned(), at.json());
    }
    made.insert("response".to_owned(), around(&tanker.minutes, cv));
    if let Some(minutes) = &tanker.empties_in {
        made.insert("dump_rate".to_owned(), tanker.water.in_minutes(minutes).json());
    }
    let turnout = tanker.turnout.clone().unwrap_or(Amount::plain(turnout));
    made.insert("turnout".to_owned(), turnout.json());
    made.insert("crew_cv".to_owned(), json!(crew_cv));
    made.insert("waste".to_owned(), json!(usual::WASTE));
    made.insert("residual".to_owned(), json!(usual::RESIDUAL));
    Value::Object(made)
}
