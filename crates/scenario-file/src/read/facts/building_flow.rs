//! A flow that a building asks for, with what every rule asks.

use fireground::side_by_side::{Asked, Rule};
use fireground::surveyed_building::Building;

/// A flow that a building asks for.
#[derive(Debug, Clone, PartialEq)]
pub struct BuildingFlow {
    /// Path of keys, such as `incident.attack_flow[1].flow`.
    pub place: String,
    /// The building.
    pub building: Building,
    /// The rule that counts.
    pub rule: Rule,
    /// What every rule asks for.
    pub rows: Vec<Asked>,
}

impl BuildingFlow {
    /// What a rule asks for.
    pub fn asked(&self, rule: Rule) -> &Asked {
        match self.rows.iter().find(|row| row.rule == rule && row.taken) {
            Some(row) => row,
            None => unreachable!("{rule:?} is not among the rows of the building"),
        }
    }
}
