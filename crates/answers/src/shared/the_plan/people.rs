//! How many people a plan needs, and whether they are there.

use fireground::crew::{Posts, people};
use scenario_file::Scenario;
use schemars::JsonSchema;
use serde::Serialize;

use crate::say;
use crate::say::{Piece, Sentence};
use crate::shared::quantities::count;

/// People by place.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
pub struct PeopleFigures {
    /// All of them.
    pub total: u64,
    /// On the tankers.
    #[serde(rename = "on_road")]
    pub road: u64,
    /// At the fill sites, with their pumps.
    #[serde(rename = "at_fill_sites")]
    pub fill_sites: u64,
    /// At the dump site.
    #[serde(rename = "at_dump_site")]
    pub dump_site: u64,
    /// At the pumps at the fire.
    #[serde(rename = "at_pumps")]
    pub pumps: u64,
    /// In charge of the water supply.
    pub officer: u64,
    /// Who can be counted on, if stated.
    pub on_hand: Option<u32>,
    /// Whether crews are in part common practice rather than stated.
    pub common_practice: bool,
}

/// People that a scenario needs for its water.
pub fn needed(scenario: &Scenario) -> PeopleFigures {
    let facts = scenario.plan.facts();
    let posts = Posts {
        tankers: facts.tankers.len() as u32,
        fill_sites: facts.fill_sites.len() as u32,
        fill_pumps: scenario.fill_pumps,
        dump_sites: 1,
        fire_pumps: 1 + u32::from(facts.supply.engine.is_some()),
    };
    let people = people(&posts, &scenario.crew.sizes);
    PeopleFigures {
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

/// "11 for the water; 9 are on hand: 2 too few."
pub fn in_short(needed: &PeopleFigures) -> Sentence {
    let told = say![count(needed.total), " for the water"];
    match needed.on_hand.map(u64::from) {
        Some(there) if there < needed.total => say![
            told,
            "; ",
            count(there),
            if there == 1 { " is" } else { " are" },
            " on hand: ",
            count(needed.total - there),
            " too few.",
        ],
        Some(there) => say![told, "; ", count(there), " are on hand: enough."],
        None => say![told, "; the attack lines and relief come on top."],
    }
}

/// Where they stand.
pub fn by_place(needed: &PeopleFigures, scenario: &Scenario) -> Sentence {
    let facts = scenario.plan.facts();
    let sites =
        if facts.fill_sites.len() == 1 { " at the fill site" } else { " at the fill sites" };
    let pumps = if facts.supply.engine.is_some() {
        " at the pumps at the fire, "
    } else {
        " at the pump at the fire, "
    };
    let mut told = say![
        count(needed.road),
        " on the road (",
        count(scenario.crew.sizes.tanker),
        " on each ",
        Piece::Tanker,
        "), ",
        count(needed.fill_sites),
        sites,
        if scenario.fill_pumps > 0 { " with pump, " } else { ", " },
        count(needed.dump_site),
        " at the dump site, ",
        count(needed.pumps),
        pumps,
        count(needed.officer),
        " in charge; the attack lines and relief come on top.",
    ];
    if needed.common_practice {
        told = told.then("Crews by common practice where the file is silent.");
    }
    told
}

#[cfg(test)]
mod tests {
    use shuttle_report::units::Units;

    use super::*;
    use crate::Reader;

    #[test]
    fn too_few_and_enough_are_said() {
        let of = |on_hand| PeopleFigures {
            total: 11,
            road: 4,
            fill_sites: 3,
            dump_site: 2,
            pumps: 1,
            officer: 1,
            on_hand,
            common_practice: true,
        };
        let reader = Reader { units: Units::Us, tender: false };
        for (on_hand, said) in [
            (Some(9), "11 for the water; 9 are on hand: 2 too few."),
            (Some(1), "11 for the water; 1 is on hand: 10 too few."),
            (Some(11), "11 for the water; 11 are on hand: enough."),
            (None, "11 for the water; the attack lines and relief come on top."),
        ] {
            assert_eq!(reader.put(&in_short(&of(on_hand))), said);
        }
    }
}
