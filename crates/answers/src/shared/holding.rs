//! What `grade`, `reach` and `hold` share: flows that hold, and what breaks greater ones.

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::batch::Control;
use shuttle_report::by_minute::{HeldBy, MinuteQuestion, flow_by_minute};
use shuttle_report::units::{LITRES_PER_GALLON, Units};
use shuttle_sim::{Cause, Plan};

use crate::question::hold::HeldFigures;
use crate::say;
use crate::say::{Piece, Sentence, joined};
use crate::shared::budget::Budget;
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

/// What a plan holds where it does not meet the wish: the most there is to be had, by minute.
///
/// - Given: `target`, the chance to stay below; a flow that holds stays short of it.
pub fn most_held(
    plan: &Plan,
    units: Units,
    target: f64,
    budget: Budget,
    control: &Control,
) -> HeldBy {
    /// It stands beside another answer: a few percent are near enough.
    const MOST_RUNS: u64 = 1_500;
    let question = MinuteQuestion {
        minutes: None,
        share: 1.0 - target,
        step_gpm: step_gpm(units),
        most_runs: budget.replications.min(MOST_RUNS),
        luck: budget.same_luck(),
    };
    flow_by_minute(plan, None, &question, control).as_it_stands
}

/// "with all nine tankers you can hold 250 gpm from minute 12."
pub fn most_held_words(held: &HeldFigures, target: f64) -> Sentence {
    let who = match held.tankers.len() {
        1 => say!["with the one ", Piece::Tanker],
        all => say!["with all ", Piece::TankerCount(all)],
    };
    let sure = say![" in ", Piece::Share(1.0 - target), " of fires"];
    match held_in_words(&held.flows()) {
        Some(flows) => say![who, " you can hold ", flows, sure, "."],
        None => say![who, " no flow holds to the end of the watch", sure, "."],
    }
}

/// A flow is worth a clause of its own where it is so much more than the one before.
const LEAST_RISE: f64 = 1.15;
/// The same for the last minute asked about.
const LAST_RISE: f64 = 1.05;

/// "250 gpm from minute 12, 500 gpm from minute 30; that is all you can get"; `None` where nothing holds.
///
/// - Given: minutes after the alarm with the flow that holds from each, gpm.
///
/// The last words are said where waiting from the last minute but one to the last has brought nothing.
pub fn held_in_words(flows: &[(f64, f64)]) -> Option<Sentence> {
    let mut told: Vec<(f64, f64)> = Vec::new();
    for (place, (minute, gpm)) in flows.iter().enumerate() {
        let is_last = place + 1 == flows.len();
        let rises = told.last().is_none_or(|(_, before)| *gpm >= LEAST_RISE * before);
        if rises || (is_last && told.last().is_some_and(|(_, before)| *gpm >= LAST_RISE * before)) {
            told.push((*minute, *gpm));
        }
    }
    // First, last, and the greatest step between them: three are heard over the radio.
    if let [first, between @ .., last] = told.as_slice()
        && between.len() > 1
    {
        let middle = between[between.len() / 2];
        told = vec![*first, middle, *last];
    }
    let (_, most) = *flows.last()?;
    // A flow is had from the first minute at which it holds, not from the one at which it was chosen to be told.
    let first_of =
        |gpm: f64| flows.iter().find(|(_, held)| *held >= gpm).map(|(minute, _)| *minute);
    let clauses = (told.iter()).map(|(minute, gpm)| {
        say![Piece::Flow(*gpm), " from ", Piece::Clock(first_of(*gpm).unwrap_or(*minute))]
    });
    let flows_told = joined(clauses, ", ", ", ");
    let levels_off = matches!(flows, [.., before, last] if last.1 <= 1.02 * before.1);
    Some(if levels_off {
        say![flows_told, "; ", Piece::BareFlow(most), " is all you can get"]
    } else {
        flows_told
    })
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
        signs.push(say![
            "? too close to tell; more fires",
            crate::say::on_command(" (--runs)"),
            " would."
        ]);
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
