//! What `grade` and `reach` share: flows that hold, and what breaks greater ones.

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::units::{LITRES_PER_GALLON, Units};
use shuttle_sim::Cause;

use crate::say;
use crate::say::{Piece, Sentence};
use crate::shared::cause_words;

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

/// What holds, as a cell of a table: "790", "790+" where a little more may hold too, "none", "?".
pub fn held_or_open(held: Option<Sentence>, may_be_more: bool) -> Sentence {
    match (held, may_be_more) {
        (Some(held), true) => say![held, "+"],
        (Some(held), false) => held,
        (None, true) => say!["?"],
        (None, false) => say!["none"],
    }
}

/// What the signs of [`held_or_open`] mean, of those that stand in a table.
pub fn signs(of: impl Iterator<Item = (bool, bool)>) -> Vec<Sentence> {
    let (mut more, mut open) = (false, false);
    for (is_held, may_be_more) in of {
        more |= is_held && may_be_more;
        open |= !is_held && may_be_more;
    }
    let mut signs = Vec::new();
    if more {
        signs.push(say!["+ surely this much; a little more is too close to tell."]);
    }
    if open {
        signs.push(say!["? too close to tell; more fires (--runs) would."]);
    }
    signs
}

/// The cause with this key.
pub fn cause_of(key: &str) -> Option<Cause> {
    Cause::ALL.into_iter().find(|cause| cause.key() == key)
}

/// Why it breaks, with the share of first shortfalls where that is not all of them.
///
/// - Given: a cause by its key, with its share.
pub fn why((key, share): (&'static str, f64)) -> Option<Sentence> {
    let cause = cause_words(cause_of(key)?);
    Some(if share > 0.995 {
        cause
    } else {
        say![cause, " (", Piece::Number(100.0 * share, 0), " of 100 first shortfalls)"]
    })
}
