//! To whom a line of the story happens.

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_sim::{Plan, Subject};

use crate::say;
use crate::say::{Sentence, name};
use crate::shared::Whom;
use crate::shared::quantities::count;

/// To whom something happens.
#[derive(Debug, Clone, Serialize, JsonSchema)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum Who {
    /// The whole fire.
    WholeFire,
    /// The attack lines.
    AttackLines,
    /// The watch.
    Watch,
    /// A unit or a source.
    #[serde(untagged)]
    One(Whom),
}

impl Who {
    /// A unit or a source of the plan.
    pub fn one(of: Subject, plan: &Plan) -> Who {
        Who::One(Whom::new(of, plan))
    }

    /// In words.
    pub fn words(&self) -> Sentence {
        match self {
            Who::WholeFire => say!["this fire"],
            Who::AttackLines => say!["attack lines"],
            Who::Watch => say!["the watch"],
            Who::One(Whom::DropTank { number }) => say!["drop tank ", count(*number as u64)],
            Who::One(
                Whom::AttackEngine { name: one }
                | Whom::SupplyEngine { name: one }
                | Whom::Tanker { name: one }
                | Whom::FillSite { name: one }
                | Whom::SourcePump { name: one },
            ) => say![name(one)],
        }
    }
}
