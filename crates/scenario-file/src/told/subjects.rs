//! What a place in a scenario is called among people: "drop tank 2", a tanker by its name.

use crate::format::fire::incident_and_supply::{OfIncident, OfSupply};
use crate::format::haul::fill_sites::OfFillSite;
use crate::format::haul::tankers::OfTanker;
use crate::format::whole_files::{OfBuildingFile, OfScenario};
use crate::structure::checked_value::{Node, Value};

const TANKERS: &str = OfScenario::TANKERS.key();
const AID: &str = OfScenario::AID.key();
const FILL_SITES: &str = OfScenario::FILL_SITES.key();
const OUT: &str = OfFillSite::OUT.key();
const BACK: &str = OfFillSite::BACK.key();
const DROP_TANKS: &str = OfScenario::DROP_TANKS.key();
const ONE_LANE: &str = OfScenario::ONE_LANE.key();
const ATTACK_ENGINE: &str = OfScenario::ATTACK_ENGINE.key();
const SUPPLY: &str = OfScenario::SUPPLY.key();
const ENGINE: &str = OfSupply::ENGINE.key();
const INCIDENT: &str = OfScenario::INCIDENT.key();
const HANDLING: &str = OfScenario::HANDLING.key();
const BUILDING: &str = OfBuildingFile::BUILDING.key();
const HOSE: &str = OfScenario::HOSE.key();
const CREW: &str = OfScenario::CREW.key();

/// What a path such as `drop_tanks[1].transfer` is about, in words; empty: the whole scenario.
pub(crate) fn subject(root: &Node, path: &str) -> String {
    let mut steps = path.split('.');
    let part = steps.next().unwrap_or_default();
    let within = steps.next().unwrap_or_default();
    let (list, number) = match part.strip_suffix(']').and_then(|part| part.split_once('[')) {
        Some((list, index)) => (list, index.parse::<usize>().map_or(1, |index| index + 1)),
        None => (part, 1),
    };
    let named = |place: &str, otherwise: String| name_at(root, place).unwrap_or(otherwise);
    match (list, within) {
        (TANKERS, _) => named(part, format!("tanker {number}")),
        (AID, _) => named(part, format!("tanker {number} of the aid")),
        (FILL_SITES, leg) => {
            let site = named(part, format!("fill site {number}"));
            match leg {
                OUT => format!("{site}, the way out"),
                BACK => format!("{site}, the way back"),
                _ => site,
            }
        }
        (DROP_TANKS, _) => format!("drop tank {number}"),
        (ONE_LANE, _) => "the one-lane stretch".to_string(),
        (ATTACK_ENGINE, _) => named(part, "the attack engine".to_string()),
        (SUPPLY, ENGINE) => named(&format!("{SUPPLY}.{ENGINE}"), "the supply engine".to_string()),
        (INCIDENT, step) if step.starts_with(OfIncident::ATTACK_FLOW.key()) => {
            "the attack flow".to_string()
        }
        (INCIDENT | SUPPLY | HANDLING | BUILDING | HOSE | CREW, _) => {
            format!("the {list}")
        }
        _ => String::new(),
    }
}

fn name_at(root: &Node, place: &str) -> Option<String> {
    // The key is the same for all that have a name.
    let (holder, true) = root.reach(place) else { return None };
    match &holder.child(OfTanker::NAME.key())?.value {
        Value::Text(name) => Some(name.clone()),
        _ => None,
    }
}
