//! What may be lost, by the names the plan has.

use serde::Serialize;

/// What is lost.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Kind {
    /// A tanker, with the drop tanks it brings.
    Tanker,
    /// A fill site.
    FillSite,
    /// Half a fill site's flow: not the loss of a whole unit, and not counted as one.
    HalfFlow,
    /// A drop tank.
    DropTank,
    /// The supply engine, with the drop tanks it brings.
    SupplyEngine,
    /// The pump that someone brings to a fill site.
    SourcePump,
    /// A department that comes whole or not at all: one refusal.
    WholeDepartment,
    /// Several tankers that have no more than their department's name in common: several refusals.
    NamedDepartment,
}

impl Kind {
    /// Whether its loss is that of one thing: half a flow is none, and several that may each refuse are more.
    pub fn is_one_thing(self) -> bool {
        !matches!(self, Kind::HalfFlow | Kind::NamedDepartment)
    }
}

/// What is lost, by the names the plan has.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, schemars::JsonSchema)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum Lost {
    /// A tanker, with the drop tanks it brings: one of these, which are identical except for their names.
    OneTankerOf {
        /// Their names; those listed one behind the other stand together.
        #[serde(rename = "alike", serialize_with = "in_rows")]
        #[schemars(with = "Vec<InARow>")]
        names: Vec<Vec<String>>,
        /// Drop tanks that it brings.
        #[serde(rename = "drop_tanks_gone")]
        drop_tanks: usize,
    },
    /// A fill site.
    FillSite {
        /// Its name.
        name: String,
    },
    /// Half of what a fill site gives.
    HalfTheFlow {
        /// The site's name.
        #[serde(rename = "fill_site")]
        site: String,
    },
    /// A drop tank.
    DropTank {
        /// Its place among the drop tanks, from 0; a result counts it from 1.
        #[serde(rename = "number", serialize_with = "crate::changes::input::from_one")]
        place: usize,
        /// How many there are.
        of: usize,
    },
    /// The supply engine, with the drop tanks it brings.
    SupplyEngine {
        /// Its name.
        name: String,
        /// Drop tanks that it brings.
        #[serde(rename = "drop_tanks_gone")]
        drop_tanks: usize,
    },
    /// The pump, or the engine that pumps, at a fill site.
    SourcePump {
        /// Its name.
        name: String,
        /// The site's name.
        #[serde(rename = "fill_site")]
        site: String,
        /// The unit of the plan that brings it; null where it comes by itself.
        #[serde(rename = "pump_brought_by")]
        brought_by: Option<String>,
    },
    /// Every tanker of a department that comes with several: all stay home.
    Department {
        /// The department's name.
        #[serde(rename = "department")]
        name: String,
        /// The names of its tankers that come otherwise.
        #[serde(rename = "tanker_names")]
        tankers: Vec<String>,
        /// Whether it comes whole or not at all, so that this is one refusal.
        comes_whole: bool,
        /// Drop tanks that they bring.
        #[serde(rename = "drop_tanks_gone")]
        drop_tanks: usize,
    },
}

/// Tankers listed one behind the other, as a result has them.
#[derive(Serialize, schemars::JsonSchema)]
struct InARow<'a> {
    /// Their names.
    names: &'a [String],
}

fn in_rows<S: serde::Serializer>(names: &[Vec<String>], to: S) -> Result<S::Ok, S::Error> {
    to.collect_seq(names.iter().map(|names| InARow { names }))
}

impl Lost {
    /// The kind of thing it is.
    pub fn kind(&self) -> Kind {
        match self {
            Lost::OneTankerOf { .. } => Kind::Tanker,
            Lost::FillSite { .. } => Kind::FillSite,
            Lost::HalfTheFlow { .. } => Kind::HalfFlow,
            Lost::DropTank { .. } => Kind::DropTank,
            Lost::SupplyEngine { .. } => Kind::SupplyEngine,
            Lost::SourcePump { .. } => Kind::SourcePump,
            Lost::Department { comes_whole: true, .. } => Kind::WholeDepartment,
            Lost::Department { .. } => Kind::NamedDepartment,
        }
    }
}
