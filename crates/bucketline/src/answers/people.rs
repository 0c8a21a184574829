//! How many people a plan needs, and whether they are there.

use std::fmt::Write;

use fireground::crew::{Posts, people};
use serde::Serialize;

use crate::answer_text::Words;
use scenario_file::Scenario;

/// People by place.
#[derive(Debug, Serialize)]
pub struct PeopleNeeded {
    /// All of them.
    pub total: u64,
    /// On the tankers.
    pub road: u64,
    /// At the fill sites, with their pumps.
    pub fill_sites: u64,
    /// At the dump site.
    pub dump_site: u64,
    /// At the pumps at the fire.
    pub pumps: u64,
    /// In charge of the water supply.
    pub officer: u64,
    /// Who can be counted on, if stated.
    pub on_hand: Option<u32>,
    /// Whether crews are in part common practice rather than stated.
    pub common_practice: bool,
}

/// People that a scenario needs for its water.
pub fn needed(scenario: &Scenario) -> PeopleNeeded {
    let facts = scenario.plan.facts();
    let posts = Posts {
        tankers: facts.tankers.len() as u32,
        fill_sites: facts.fill_sites.len() as u32,
        fill_pumps: scenario.fill_pumps,
        dump_sites: 1,
        fire_pumps: 1 + u32::from(facts.supply.engine.is_some()),
    };
    let people = people(&posts, &scenario.crew.sizes);
    PeopleNeeded {
        total: people.total(),
        road: people.road,
        fill_sites: people.fill,
        dump_site: people.dump,
        pumps: people.pumps,
        officer: people.officer,
        on_hand: scenario.crew.on_hand,
        common_practice: scenario.crew.common_practice,
    }
}

/// The need as a paragraph.
pub fn told(needed: &PeopleNeeded, scenario: &Scenario, words: Words) -> String {
    let facts = scenario.plan.facts();
    let sites = facts.fill_sites.len();
    let pumps = if facts.supply.engine.is_some() { "pumps" } else { "pump" };
    let mut text = format!(
        "{} for the water: {} on the road ({} on each of {}), {} at the fill site{}{}, {} at the dump site, \
         {} at the {pumps} at the fire, {} in charge; the attack lines and relief come on top",
        needed.total,
        needed.road,
        scenario.crew.sizes.tanker,
        words.count(facts.tankers.len()),
        needed.fill_sites,
        if sites == 1 { "" } else { "s" },
        if scenario.fill_pumps > 0 { " with pump" } else { "" },
        needed.dump_site,
        needed.pumps,
        needed.officer
    );
    let _ = match needed.on_hand.map(u64::from) {
        Some(there) if there < needed.total => {
            write!(text, ". {there} are on hand: {} too few.", needed.total - there)
        }
        Some(there) => write!(text, ". {there} are on hand: enough."),
        None => write!(text, "."),
    };
    if needed.common_practice {
        text.push_str(" Crews by common practice where `crew` is silent.");
    }
    text
}
