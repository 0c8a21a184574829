//! Which kind of file a text is: a scenario, or a building by itself.

use std::path::Path;

use jsonc_parser::ast;
use jsonc_parser::common::Ranged;

use crate::errors::finding::Finding;
use crate::format::description::{Kind, Object};
use crate::format::whole_files::{BUILDING_FILE, SCENARIO};

/// What a file may hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Holds {
    /// A whole scenario.
    Scenario,
    /// A building alone.
    Building,
}

impl Holds {
    pub(super) fn kind(self) -> Kind {
        const SCENARIOS: Kind = Kind::Shapes(&[&SCENARIO]);
        const BUILDINGS: Kind = Kind::Shapes(&[&BUILDING_FILE]);
        match self {
            Holds::Scenario => SCENARIOS,
            Holds::Building => BUILDINGS,
        }
    }

    pub(super) fn object(self) -> &'static Object {
        match self {
            Holds::Scenario => &SCENARIO,
            Holds::Building => &BUILDING_FILE,
        }
    }
}

/// A building file has a building at its top and no incident.
pub(crate) fn what_it_holds(value: &ast::Value<'_>) -> Holds {
    let has = |key: &str| {
        (value.as_object())
            .is_some_and(|root| root.properties.iter().any(|p| p.name.as_str() == key))
    };
    if has("building") && !has("incident") { Holds::Building } else { Holds::Scenario }
}

/// The mistake where a scenario is wanted and the file describes a building: one finding, and not a list of
/// everything a scenario would have.
pub(super) fn not_a_scenario(path: &Path, value: &ast::Value<'_>) -> Option<Finding> {
    let root = value.as_object().filter(|_| what_it_holds(value) == Holds::Building)?;
    let building = root.properties.iter().find(|p| p.name.as_str() == "building")?;
    let range = building.name.range();
    Some(Finding {
        place: String::new(),
        span: range.start..range.end,
        problem: "this is a building file, not a scenario".to_string(),
        limit: Some("a scenario, which has an `incident`".to_string()),
        cure: Some(format!("use `bucketline flow {}`", path.display())),
    })
}
