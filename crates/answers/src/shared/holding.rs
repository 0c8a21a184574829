//! What `grade`, `reach` and `hold` share: flows that hold, and what breaks greater ones.

use scenario_file::Scenario;
use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::batch::Control;
use shuttle_report::by_minute::{MinuteAnswer, MinuteQuestion, flow_by_minute};
use shuttle_report::units::{LITRES_PER_GALLON, Units};
use shuttle_sim::Cause;

use crate::question::hold::{HeldFigures, StepFigures};
use crate::say;
use crate::say::{Chances, Piece, Sentence};
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

/// What flow holds from which minute: as the plan stands and, where the file lists aid, with all of it.
///
/// - Given: `minutes` after the alarm, `None` for the usual ones; the share of fires in which a flow must hold.
pub fn held(
    scenario: &Scenario,
    minutes: Option<Vec<f64>>,
    share: f64,
    budget: Budget,
    control: &Control,
) -> MinuteAnswer {
    let question = MinuteQuestion {
        minutes,
        share,
        step_gpm: step_gpm(scenario.units),
        most_runs: budget.replications,
        luck: budget.same_luck(),
    };
    let everyone = Some(&scenario.aid.everyone).filter(|_| scenario.aid.is_listed());
    flow_by_minute(&scenario.plan, everyone, &question, control)
}

/// Most fires for any one flow unless `hold` is asked for others: the default of its `--runs`.
pub const USUAL_FIRES: u64 = 2_500;

/// What everyone there is holds where no plan meets the wish: the same figures as `hold` gives.
///
/// - Given: `target`, the chance to stay below; a flow that holds stays short of it.
pub fn most_held(
    scenario: &Scenario,
    target: f64,
    budget: Budget,
    control: &Control,
) -> HeldFigures {
    let budget = Budget { replications: budget.replications.min(USUAL_FIRES), ..budget };
    let found = held(scenario, None, 1.0 - target, budget, control);
    HeldFigures::of(found.with_aid.as_ref().unwrap_or(&found.as_it_stands))
}

/// "with all nine tankers you can hold 250 gpm from minute 12."
pub fn most_held_words(held: &HeldFigures, target: f64) -> Sentence {
    let who = match held.tankers.len() {
        1 => say!["with the one ", Piece::Tanker],
        all => say!["with all ", Piece::TankerCount(all)],
    };
    let sure = say!["in ", Piece::Share(1.0 - target), " of fires"];
    match held_in_words(held) {
        Some(flows) => say![who, " you can hold, ", sure, ", ", flows, "."],
        None => say![who, " no flow is shown to hold to the end of the watch ", sure, "."],
    }
}

/// "from first water on", or "from minute 19 and no water before".
pub fn from_words(step: &StepFigures) -> Sentence {
    match step.at_first_water {
        true => say!["from first water on"],
        false => say!["from ", Piece::Clock(step.from_min), " and no water before"],
    }
}

/// "150 gpm from first water on, or wait with all water until minute 30 for 500 gpm, the most you can get"; `None` where
/// nothing holds.
///
/// The last words are said where waiting from the last minute but one to the last has brought nothing, and no more
/// is left open.
pub fn held_in_words(held: &HeldFigures) -> Option<Sentence> {
    /// More than this above the last flow is told where it is not clear.
    const OPEN: f64 = 1.05;
    let (first, later) = held.steps.split_first()?;
    // Each alone: whether they hold one after the other is told beside.
    let mut told = say![Piece::Flow(first.flow_gpm), " ", from_words(first)];
    for (place, step) in later.iter().enumerate() {
        let wait = if place == 0 { ", or wait with all water until " } else { ", until " };
        told = say![told, wait, Piece::Clock(step.from_min), " for ", Piece::Flow(step.flow_gpm)];
    }
    let flows = held.flows();
    let (_, most) = *flows.last()?;
    // From first water on and from one minute say nothing of later ones.
    let levels_off = matches!(flows[..], [_, .., before, last] if last.1 <= 1.02 * before.1);
    let open = held.rows.iter().filter_map(|row| row.not_clear_up_to_gpm).fold(most, f64::max);
    let last_told = held.steps.last().map_or(first.flow_gpm, |step| step.flow_gpm);
    Some(if open > OPEN * most {
        say![told, "; up to ", Piece::BareFlow(open), " is too close to tell"]
    } else if !levels_off {
        told
    } else if last_told >= most {
        say![told, ", the most you can get"]
    } else {
        say![told, "; ", Piece::BareFlow(most), " is all you can get"]
    })
}

/// "going up from one to the next, the lines run short in 9 fires of 100. Once you flow 530 gpm from minute 13, go no
/// higher than 580 gpm, at minute 20."; `None` where only one flow is told, or they hold together.
pub fn stepped_up_words(held: &HeldFigures) -> Option<Sentence> {
    let together = held.stepped_up.as_ref()?;
    let chances = Chances::of(together.interruption_probability, together.replications);
    let (first, last) = (held.steps.first()?, held.steps.last()?);
    let may_be = match together.after_the_first_gpm {
        // It holds as it is told.
        Some(gpm) if gpm >= last.flow_gpm => return None,
        Some(gpm) => {
            say![" go no higher than ", Piece::Flow(gpm), ", at ", Piece::Clock(last.from_min), "."]
        }
        None => say![" stay there: no more is shown to hold later."],
    };
    Some(say![
        "going up from one to the next, the lines run short in ",
        Piece::Fires(chances),
        ". Once you flow ",
        Piece::Flow(first.flow_gpm),
        if first.at_first_water {
            say![" from first water on,"]
        } else {
            say![" from ", Piece::Clock(first.from_min), ","]
        },
        may_be
    ])
}

/// Why a flow breaks.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct Binds {
    /// The cause of the most first shortfalls.
    #[schemars(schema_with = "crate::shared::closed_words::cause")]
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
