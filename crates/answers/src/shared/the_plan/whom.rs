//! A unit or a source that something is about.

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_sim::{FillSite, Plan, Subject};

use crate::say;
use crate::say::{Sentence, name};
use crate::shared::quantities::count;

/// A unit or a source.
#[derive(Debug, Clone, Serialize, JsonSchema)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum Whom {
    /// The attack engine.
    AttackEngine {
        /// Its name.
        name: String,
    },
    /// The supply engine.
    SupplyEngine {
        /// Its name.
        name: String,
    },
    /// A drop tank.
    DropTank {
        /// Its place in the list, from 1.
        number: usize,
    },
    /// A tanker.
    Tanker {
        /// Its name.
        name: String,
    },
    /// A fill site.
    FillSite {
        /// Its name.
        name: String,
    },
    /// The pump that someone brings to a fill site.
    SourcePump {
        /// Its name.
        name: String,
    },
}

impl Whom {
    /// From its place in the plan.
    pub fn new(subject: Subject, plan: &Plan) -> Whom {
        let facts = plan.facts();
        let attack_engine = facts.attack_engine.name.clone();
        match subject {
            Subject::AttackEngine => Whom::AttackEngine { name: attack_engine },
            Subject::SupplyEngine => Whom::SupplyEngine {
                name: facts.supply.engine.as_ref().map_or(attack_engine, |one| one.name.clone()),
            },
            Subject::DropTank(place) => Whom::DropTank { number: place + 1 },
            Subject::Tanker(place) => Whom::Tanker { name: facts.tankers[place].name.clone() },
            Subject::FillSite(place) => {
                Whom::FillSite { name: facts.fill_sites[place].name.clone() }
            }
            Subject::SourcePump(place) => {
                Whom::SourcePump { name: pump_name(&facts.fill_sites[place]).to_owned() }
            }
        }
    }
}

/// Whom or what a cause is about.
pub fn subject_words(about: Subject, plan: &Plan) -> Sentence {
    let facts = plan.facts();
    let engine = || say![name(&facts.attack_engine.name)];
    match about {
        Subject::AttackEngine => engine(),
        Subject::SupplyEngine => {
            facts.supply.engine.as_ref().map_or_else(engine, |supply| say![name(&supply.name)])
        }
        Subject::DropTank(_) if facts.drop_tanks.len() == 1 => say!["the drop tank"],
        Subject::DropTank(place) => say!["drop tank ", count(place as u64 + 1)],
        Subject::Tanker(place) => say![name(&facts.tankers[place].name)],
        Subject::FillSite(place) => say![name(&facts.fill_sites[place].name)],
        Subject::SourcePump(place) => say![name(pump_name(&facts.fill_sites[place]))],
    }
}

/// The name of the pump that someone brings there; the site's own where nobody does.
fn pump_name(site: &FillSite) -> &str {
    site.source_pump.as_ref().map_or(&site.name, |pump| &pump.name)
}
