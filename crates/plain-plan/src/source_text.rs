//! A source of a first plan as a fill site of a scenario: its pump, and its road stretch by stretch.

use scenario_file::{Measure, bare_number};
use serde_json::{Map, Value, json};

use crate::alarms::greater_alarms;
use crate::amount::Amount;
use crate::first_plan::{FirstPlan, Source, pump_bringer};
use crate::part::{OfSource, Part};
use crate::scenario_text::{WrongPart, around};
use scenario_file::Units;

/// Spread of the drives; judgement.
const ROAD_CV: f64 = 0.15;
/// Spread of when a source can fill, and of how long a pump is set up; judgement.
const READY_CV: f64 = 0.2;

/// The fill site.
pub(crate) fn fill_site(source: &Source, plan: &FirstPlan) -> Value {
    let mut made = Map::new();
    made.insert("name".to_owned(), json!(source.name));
    made.insert("flow".to_owned(), source.flow.json());
    if let Some(positions) = &source.positions {
        made.insert("positions".to_owned(), positions.json());
    }
    // Where it is not said, that is a contradiction.
    let ready = || around(source.ready.as_ref().unwrap_or(&Amount::plain(10.0)), READY_CV);
    match (&source.pumped_by, pump_bringer(plan, source)) {
        (None, _) => made.insert("ready".to_owned(), ready()),
        (Some(_), Some(bringer)) => made.insert(
            "source_pump".to_owned(),
            json!({"brought_by": bringer, "setup": setup(source, plan, &bringer)}),
        ),
        (Some(engine), None) => made.insert(
            "source_pump".to_owned(),
            engine_there(engine, ready(), source.pump_turnout.as_ref()),
        ),
    };
    made.insert(
        "failure".to_owned(),
        json!({"chance": 0.03, "repair": {"low": 5, "likely": 15, "high": 40}}),
    );
    if let Some(holds) = &source.holds {
        made.insert("volume".to_owned(), holds.json());
    }
    let leg = leg(source, plan.units);
    made.insert("out".to_owned(), leg.clone());
    made.insert("back".to_owned(), leg);
    Value::Object(made)
}

/// An engine of its own that drives there; silence about how often it comes is always.
fn engine_there(name: &str, ready: Value, turnout: Option<&Amount>) -> Value {
    let mut made = json!({"name": name, "response": ready});
    if let Some(often) = turnout {
        made["turnout"] = often.json();
    }
    made["setup"] = json!(0);
    made
}

/// How long the pump is set up once its unit is there.
fn setup(source: &Source, plan: &FirstPlan, bringer: &str) -> Value {
    match (&source.pump_draws_in, minutes_left(source, plan, bringer)) {
        (Some(minutes), _) => around(minutes, READY_CV),
        (None, Some(left)) if left > 0.0 => around(&Amount::plain(left), READY_CV),
        // Judgement: from the arrival at the water to a primed pump.
        (None, _) => json!({"low": 5, "likely": 8, "high": 12}),
    }
}

/// Minutes from the arrival of the unit that brings the pump to the minute at which the source is said to fill.
pub(crate) fn minutes_left(source: &Source, plan: &FirstPlan, bringer: &str) -> Option<f64> {
    let bare = |amount: &Amount| bare_number(&amount.json(), Measure::Time, plan.units);
    Some(bare(source.ready.as_ref()?)? - arrival(plan, bringer)?)
}

/// When a unit is there, minutes after the alarm.
pub(crate) fn arrival(plan: &FirstPlan, name: &str) -> Option<f64> {
    let bare = |amount: &Amount| bare_number(&amount.json(), Measure::Time, plan.units);
    let engines = [Some(&plan.attack_engine), plan.supply_engine.as_ref()];
    if let Some(engine) = engines.into_iter().flatten().find(|engine| engine.name == name) {
        return bare(&engine.minutes);
    }
    let tanker = plan.own.iter().chain(&plan.aid).find(|tanker| tanker.name == name)?;
    let alarms = greater_alarms(&plan.aid);
    let called = match tanker.alarm {
        Some(alarm) => alarms.iter().find(|(one, ..)| *one == alarm).map(|(.., minute)| *minute),
        None => tanker.called_at.as_ref(),
    };
    Some(called.map_or(Some(0.0), bare)? + bare(&tanker.minutes)?)
}

fn leg(source: &Source, units: Units) -> Value {
    let (road, speed) = if units == Units::Us { ("miles", "mph") } else { ("km", "kmh") };
    let of = |way: &Amount, at: Option<&Amount>| {
        let mut stretch = Map::new();
        stretch.insert(road.to_owned(), way.json());
        if let Some(at) = at {
            stretch.insert(speed.to_owned(), at.json());
        }
        stretch
    };
    let mut leg = match stretches(source, units) {
        None => of(&source.road, source.speed.as_ref()),
        Some((rest, _)) if rest.is_number_of(0.0) => of(&source.road, source.gravel_speed.as_ref()),
        Some((rest, gravel)) => {
            // Where nothing is left, or a unit is wrong, what was said is held against its own limits.
            let rest = if rest.is_at_least(0.0) { &rest } else { &source.road };
            let stretches =
                [of(rest, source.speed.as_ref()), of(&gravel, source.gravel_speed.as_ref())];
            Map::from_iter([("stretches".to_owned(), json!(stretches))])
        }
    };
    leg.insert("cv".to_owned(), json!(ROAD_CV));
    Value::Object(leg)
}

/// The road without its gravel, and that, to a thousandth: in the unit in which both are written, else in that of a bare
/// number. Where a unit is of something else the whole road and the gravel, for their own limits.
///
/// - Returns: `None` where there is no gravel.
pub(crate) fn stretches(source: &Source, units: Units) -> Option<(Amount, Amount)> {
    let gravel = source.gravel.as_ref().filter(|gravel| !gravel.is_number_of(0.0))?;
    if let Some(rest) = source.road.minus(gravel) {
        return Some((rest, gravel.clone()));
    }
    let bare = |amount: &Amount| {
        let number = bare_number(&amount.json(), Measure::Road, units)?;
        Amount::plain(number).plus(&Amount::plain(0.0))
    };
    let both = bare(&source.road).zip(bare(gravel));
    let told = both.and_then(|(road, gravel)| Some((road.minus(&gravel)?, gravel)));
    Some(told.unwrap_or_else(|| (source.road.clone(), gravel.clone())))
}

/// What cannot be so together, though each answer alone can.
pub(crate) fn contradictions(plan: &FirstPlan) -> Vec<WrongPart> {
    let mut wrong = Vec::new();
    for (place, source) in plan.sources.iter().enumerate() {
        let mut tell = |of, problem: String, cure: &str| {
            let part = Some(Part::Source(place, of));
            wrong.push(WrongPart { part, problem, limit: None, cure: cure.to_owned() });
        };
        match (&source.gravel, &source.gravel_speed) {
            (Some(_), None) => tell(
                OfSource::GravelSpeed,
                "the speed on the gravel is not said".to_owned(),
                "write it, such as 20 mph or 30 km/h",
            ),
            (None, Some(_)) => tell(
                OfSource::Gravel,
                "there is a speed on gravel and no gravel".to_owned(),
                "write how much of the road is gravel, or leave both blank",
            ),
            _ => {}
        }
        match stretches(source, plan.units).map(|(rest, _)| rest) {
            Some(rest) if !rest.is_at_least(0.0) => tell(
                OfSource::Gravel,
                "the gravel is longer than the whole road".to_owned(),
                "write how much of the road one way is gravel",
            ),
            Some(rest) if !rest.is_number_of(0.0) && source.speed.is_none() => tell(
                OfSource::Speed,
                "the speed on the rest of the road is not said".to_owned(),
                "write it: with some gravel no one travel rule holds for the whole road",
            ),
            _ => {}
        }
        let bringer = pump_bringer(plan, source);
        match (&source.pump_turnout, &source.pumped_by, &bringer) {
            (Some(_), _, Some(bringer)) => tell(
                OfSource::PumpTurnout,
                format!("{bringer} brings the pump, and how often that comes stands with it"),
                "leave this blank, and say it of the unit",
            ),
            (Some(_), None, _) => tell(
                OfSource::PumpTurnout,
                "nothing says which engine pumps there".to_owned(),
                "name the engine that drives there to pump, or leave this blank",
            ),
            _ => {}
        }
        match bringer {
            Some(bringer) if source.pump_draws_in.is_none() => {
                let left = minutes_left(source, plan, &bringer).filter(|left| *left <= 0.0);
                if let Some((left, there)) = left.zip(arrival(plan, &bringer)) {
                    tell(
                        OfSource::Ready,
                        format!(
                            "it can fill at minute {}, and {bringer}, which brings its pump, is there at minute {there}",
                            there + left
                        ),
                        "write the minute at which the pump draws, or leave it blank: then it draws some 8 minutes after it is there",
                    );
                }
            }
            None if source.ready.is_none() => tell(
                OfSource::Ready,
                "nothing says when it can fill".to_owned(),
                "write the minute after the alarm, such as 15",
            ),
            _ => {}
        }
    }
    wrong
}
