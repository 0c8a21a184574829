//! What drills and papers show of a rule, as figures.

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::conditions::shown::{Drilled, NotShown};

/// What drills say of a rule's flow.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum DrillKey {
    /// One held it for its time.
    Held,
    /// None did, and one held less or had its water too late.
    FellShort,
    /// No drill says enough to tell.
    NotShown,
}

/// Something that a survey sees and the scenario does not state.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct NotShownFigures {
    /// What it is.
    #[serde(rename = "missing")]
    pub what: NotShownKey,
    /// The fill site it is about, if it is about one.
    pub fill_site: Option<String>,
}

/// What is not shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum NotShownKey {
    /// Written procedures.
    Procedures,
    /// Agreements for aid.
    Agreements,
    /// A drill that held the rule's flow for its time.
    Drill,
    /// A flow test of the source.
    FlowTest,
    /// The agreement of its owner.
    OwnersAgreement,
    /// The certificate that it is there in a drought.
    Certificate,
}

/// What drills say, as a key.
pub fn drill_key(drilled: Drilled) -> DrillKey {
    match drilled {
        Drilled::Held(_) => DrillKey::Held,
        Drilled::FellShort(_) => DrillKey::FellShort,
        Drilled::NotShown => DrillKey::NotShown,
    }
}

/// What is not shown, as figures.
pub fn not_shown(one: &NotShown) -> NotShownFigures {
    let (what, fill_site) = match one {
        NotShown::Procedures => (NotShownKey::Procedures, None),
        NotShown::Agreements => (NotShownKey::Agreements, None),
        NotShown::Drill => (NotShownKey::Drill, None),
        NotShown::FlowTest(site) => (NotShownKey::FlowTest, Some(site)),
        NotShown::OwnersAgreement(site) => (NotShownKey::OwnersAgreement, Some(site)),
        NotShown::Certificate(site) => (NotShownKey::Certificate, Some(site)),
    };
    NotShownFigures { what, fill_site: fill_site.cloned() }
}
