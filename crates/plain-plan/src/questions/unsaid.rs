//! What a plan has before anybody said anything: sound, so that each answer is checked in its place, and usual, so that
//! Enter takes it. All figures are common practice and rounded, in US units and in metric.

use scenario_file::Units;
use serde_json::Map;

use crate::amount::Amount;
use crate::first_plan::{DropTank, Engine, FirstPlan, Source, Tanker};

/// A figure in the plan's units.
pub(super) fn usual(units: Units, us: (f64, &str), metric: (f64, &str)) -> Amount {
    let (number, unit) = if units == Units::Us { us } else { metric };
    let number = Amount::plain(number);
    number.bare_in(unit).unwrap_or(number)
}

/// The plan.
pub(super) fn unsaid(units: Units) -> FirstPlan {
    FirstPlan {
        units,
        title: "?".to_owned(),
        flow: usual(units, (400.0, "gpm"), (1_500.0, "L/min")),
        start: None,
        duration: usual(units, (120.0, "min"), (120.0, "min")),
        reserve: usual(units, (300.0, "gal"), (1_000.0, "L")),
        attack_engine: Engine {
            name: "?engine".to_owned(),
            water: Some(usual(units, (1_000.0, "gal"), (4_000.0, "L"))),
            minutes: Amount::plain(10.0),
        },
        supply_engine: None,
        second_supply_engine: None,
        drafting: Map::new(),
        own: vec![unsaid_own(units, "?tanker".to_owned())],
        aid: Vec::new(),
        drop_tanks: Vec::new(),
        sources: vec![unsaid_source(units, "?source".to_owned())],
        notes: Vec::new(),
        beside: Map::new(),
    }
}

/// A supply engine.
pub(super) fn unsaid_supply(name: String) -> Engine {
    Engine { name, water: None, minutes: Amount::plain(12.0) }
}

/// An own tanker.
pub(super) fn unsaid_own(units: Units, name: String) -> Tanker {
    Tanker {
        name,
        department: None,
        of_others: false,
        comes_whole: false,
        alarm: None,
        water: usual(units, (2_000.0, "gal"), (8_000.0, "L")),
        empties_in: None,
        minutes: Amount::plain(12.0),
        turnout: None,
        called_at: None,
    }
}

/// A tanker that could be asked for, of the department of the one that was named before it.
pub(super) fn unsaid_aid(units: Units, name: String, before: Option<&Tanker>) -> Tanker {
    Tanker {
        of_others: true,
        department: before.and_then(|one| one.department.clone()),
        water: usual(units, (2_500.0, "gal"), (10_000.0, "L")),
        minutes: before.map_or(Amount::plain(20.0), |one| one.minutes.clone()),
        called_at: Some(Amount::plain(0.0)),
        ..unsaid_own(units, name)
    }
}

/// A source.
pub(super) fn unsaid_source(units: Units, name: String) -> Source {
    Source {
        name,
        flow: usual(units, (750.0, "gpm"), (2_800.0, "L/min")),
        positions: Some(Amount::plain(1.0)),
        ready: Some(Amount::plain(15.0)),
        pumped_by: None,
        pump_draws_in: None,
        pump_turnout: None,
        road: usual(units, (2.0, "mi"), (3.0, "km")),
        speed: Some(usual(units, (30.0, "mph"), (50.0, "km/h"))),
        gravel: None,
        gravel_speed: None,
        holds: None,
    }
}

/// A drop tank.
pub(super) fn unsaid_drop_tank(units: Units, brought_by: String) -> DropTank {
    DropTank { brought_by, holds: usual(units, (2_500.0, "gal"), (9_500.0, "L")) }
}
