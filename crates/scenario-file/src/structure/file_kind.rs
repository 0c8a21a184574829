//! Which kind of file a text is: a scenario, or a building by itself.

use std::path::Path;

use jsonc_parser::ast;
use jsonc_parser::common::Ranged;

use crate::errors::finding::Finding;
use crate::errors::kinds::MistakeKind;
use crate::errors::message::{on_file, on_page, says, typed};
use crate::errors::shown::shell_quoted;
use crate::errors::similar_words::nearest;
use crate::format::description::{Kind, Object};
use crate::format::fire::building::BUILDING;
use crate::format::whole_files::{BUILDING_FILE, OfBuildingFile, OfScenario, SCENARIO};

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

/// Keys that only a scenario has at its top.
const OF_A_SCENARIO: [&str; 4] = [
    OfScenario::INCIDENT.key(),
    OfScenario::ATTACK_ENGINE.key(),
    OfScenario::TANKERS.key(),
    OfScenario::FILL_SITES.key(),
];

/// What a file was likely meant to hold; `None`: neither. Its mistakes are then told as those of such a file.
fn likely_holds(value: &ast::Value<'_>) -> Option<Holds> {
    let root = value.as_object()?;
    let keys = || root.properties.iter().map(|property| property.name.as_str());
    let of_a_building = |key: &&str| BUILDING.field(key).is_some();
    if keys().any(|key| OF_A_SCENARIO.contains(&key)) {
        Some(Holds::Scenario)
    } else if keys()
        .any(|key| nearest(key, std::iter::once(OfBuildingFile::BUILDING.key())).is_some())
        || keys().filter(of_a_building).count() > 1
    {
        Some(Holds::Building)
    } else {
        None
    }
}

/// Whether a file that may hold a building holds one, or a scenario.
///
/// - Errors: it holds neither; one finding, and not a list of everything a scenario would have.
pub(crate) fn building_or_scenario(value: &ast::Value<'_>) -> Result<Holds, Finding> {
    match likely_holds(value) {
        Some(holds) => Ok(holds),
        None if value.as_object().is_none() => Ok(Holds::Scenario),
        None => {
            let start = value.range().start;
            Err(Finding {
                place: String::new(),
                span: start..start + 1,
                kind: MistakeKind::WrongFile,
                problem: "this file has neither a building nor a fire".into(),
                limit: Some("a building file, or a scenario with a building".into()),
                cure: "add \"building\": {\"length\": 60, \"width\": 40, \"height\": 16, \"use\": \"barn\", \
                       \"construction\": \"wood frame\"} with the building's own facts"
                    .into(),
            })
        }
    }
}

/// The mistake where a scenario is wanted and the file describes a building: one finding, and not a list of
/// everything a scenario would have.
pub(super) fn not_a_scenario(path: &Path, value: &ast::Value<'_>) -> Option<Finding> {
    let root = value.as_object().filter(|_| likely_holds(value) == Some(Holds::Building))?;
    let is_it = |key: &str| key == OfBuildingFile::BUILDING.key() || BUILDING.field(key).is_some();
    let building = root.properties.iter().find(|p| is_it(p.name.as_str()));
    let range = building.or(root.properties.first())?.name.range();
    Some(Finding {
        place: String::new(),
        span: range.start..range.end,
        kind: MistakeKind::WrongFile,
        problem: "this is a building file, not a scenario".into(),
        limit: Some("a scenario, which has an `incident`".into()),
        cure: says![
            on_file(says![
                "use `bucketline flow ",
                typed(shell_quoted(&path.display().to_string())),
                "`"
            ]),
            on_page("choose a scenario, or state the building at the attack flow of one")
        ],
    })
}
