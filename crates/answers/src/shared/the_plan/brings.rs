//! What brings a drop tank.

use schemars::JsonSchema;
use serde::Serialize;

/// What brings a drop tank.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum BringsFigures {
    /// The unit of this name.
    Unit {
        /// Its name.
        name: String,
    },
    /// A vehicle of its own.
    Itself,
}
