//! What `grade` and `reach` share: flows that hold, and what breaks greater ones.

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::units::{LITRES_PER_GALLON, Units};
use shuttle_sim::Cause;

/// Flows are tried this far apart, gpm; for metric readers in L/min.
const STEP_GPM: f64 = 10.0;
const STEP_LITRES: f64 = 50.0;

/// The step between flows tried, gpm.
pub fn step_gpm(units: Units) -> f64 {
    match units {
        Units::Us => STEP_GPM,
        Units::Metric => STEP_LITRES / LITRES_PER_GALLON,
    }
}

/// Why a flow breaks.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct Binds {
    /// The cause of the most first shortfalls.
    pub cause: &'static str,
    /// Its share of them.
    pub share: f64,
}

impl Binds {
    /// From a cause by its key, with its share.
    pub fn of((cause, share): (&'static str, f64)) -> Binds {
        Binds { cause, share }
    }
}

/// The cause with this key.
pub fn cause_of(key: &str) -> Option<Cause> {
    Cause::ALL.into_iter().find(|cause| cause.key() == key)
}
