//! What a place in a scenario is called among people: "drop tank 2", a tanker by its name.

use crate::errors::message::{Message, count, says, typed};
use crate::errors::mistakes::FileMistakes;
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
pub(crate) fn subject(root: &Node, path: &str) -> Message {
    let mut steps = path.split('.');
    let part = steps.next().unwrap_or_default();
    let within = steps.next().unwrap_or_default();
    let (list, number) = match part.strip_suffix(']').and_then(|part| part.split_once('[')) {
        Some((list, index)) => (list, index.parse::<usize>().map_or(1, |index| index + 1)),
        None => (part, 1),
    };
    let named = |place: &str, otherwise: Message| {
        name_at(root, place).map_or(otherwise, |name| typed(name).into())
    };
    match (list, within) {
        (TANKERS, _) => named(part, says!["{tanker} ", count(number)]),
        (AID, _) => named(part, says!["{tanker} ", count(number), " of the aid"]),
        (FILL_SITES, leg) => {
            let site = named(part, says!["fill site ", count(number)]);
            match leg {
                OUT => says![site, ", the way out"],
                BACK => says![site, ", the way back"],
                _ => site,
            }
        }
        (DROP_TANKS, _) => says!["drop tank ", count(number)],
        (ONE_LANE, _) => "the one-lane stretch".into(),
        (ATTACK_ENGINE, _) => named(part, "the attack engine".into()),
        (SUPPLY, ENGINE) => named(&format!("{SUPPLY}.{ENGINE}"), "the supply engine".into()),
        (INCIDENT, step) if step.starts_with(OfIncident::ATTACK_FLOW.key()) => {
            "the attack flow".into()
        }
        (INCIDENT, _) => "the incident".into(),
        (SUPPLY, _) => "the supply".into(),
        (HANDLING, _) => "the handling".into(),
        (BUILDING, _) => "the building".into(),
        (HOSE, _) => "the hose".into(),
        (CREW, _) => "the crew".into(),
        _ => Message::default(),
    }
}

/// The mistakes, each with what it is about.
pub(crate) fn with_subjects(mut mistakes: FileMistakes, root: &Node) -> FileMistakes {
    for mistake in &mut mistakes.list {
        mistake.subject = subject(root, &mistake.place);
    }
    mistakes
}

fn name_at(root: &Node, place: &str) -> Option<String> {
    // The key is the same for all that have a name.
    let (holder, true) = root.reach(place) else { return None };
    match &holder.child(OfTanker::NAME.key())?.value {
        Value::Text(name) => Some(name.clone()),
        _ => None,
    }
}
