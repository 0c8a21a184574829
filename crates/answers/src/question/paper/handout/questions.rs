//! The questions of a handout: each can be worked out from what stands on the trainees' sheet, to the digits that stand
//! there.

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::units::Units;
use shuttle_report::worksheet::HAND_ALLOWANCE;

use crate::question::card::{CardFigures, CellFigures, Role, Water, WiresFigures};
use crate::question::check::{CheckFigures, TankerByHand};
use crate::question::risk::RiskFigures;
use crate::shared::as_shown;
use crate::shared::station::CapFigures;

/// Cycles side by side on the sheet; of tankers that are alike one is enough to time.
pub const MOST_CYCLES: usize = 3;
/// Levels side by side on the sheet.
const MOST_LEVELS: usize = 6;

/// A question to the crew with what answers it.
#[derive(Debug, Clone, Serialize, JsonSchema)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum DrillQuestion {
    /// How long one cycle takes by the plan.
    Cycle {
        /// Whose.
        tanker: String,
        /// Its parts as they stand on the sheet, minutes.
        parts_min: Vec<f64>,
        /// Decimal places in which they stand there.
        decimals: usize,
        /// Minutes, nobody waiting: the parts added up as they stand there.
        #[serde(rename = "whole_cycle_min")]
        cycle_min: f64,
        /// Minutes in the simulated fires, mean, waiting included; null where it makes no whole cycle.
        #[serde(rename = "cycle_with_waiting_min")]
        with_waiting_min: Option<f64>,
    },
    /// How often a load must come in.
    LoadEvery {
        /// For which flow.
        wanted_gpm: f64,
        /// What a load delivers, mean.
        load_gal: f64,
        /// Minutes: the one over the other, as they stand on the sheet.
        load_every_min: f64,
    },
    /// What a tanker brings by hand, and which place passes least.
    Pinch {
        /// The tanker.
        tanker: String,
        /// Its tank.
        tank_gal: f64,
        /// That less 10%.
        counted_gal: f64,
        /// Minutes of its cycle, as they stand on the sheet.
        #[serde(rename = "whole_cycle_min")]
        cycle_min: f64,
        /// Decimal places in which they stand there.
        decimals: usize,
        /// What it brings: its tank less 10% over that cycle, as it is written.
        one_tanker_gpm: f64,
        /// How many tankers there are beside it.
        other_tankers: usize,
        /// What those bring together by hand.
        others_gpm: f64,
        /// What all tankers bring by hand: the two added up.
        tankers_gpm: f64,
        /// What each place passes at most, each fill site by itself.
        #[serde(rename = "caps_of_places")]
        places: Vec<CapFigures>,
        /// The tightest of them, fill sites taken together; null where nothing caps the plan.
        tightest: Option<CapFigures>,
        /// The flow that is wanted.
        wanted_gpm: f64,
    },
    /// At which level to gate down with no tanker in sight.
    GateDown {
        /// Share of all fires in which the lines run short.
        interruption_probability: f64,
        /// Which water.
        water: Water,
        /// Minutes within which a tanker that is in sight pours.
        in_sight_min: f64,
        /// From this share of fires on that ran short, gate down.
        gate_down_from_share: f64,
        /// Levels from the highest, with how often the lines ran short from there: those that tell something.
        levels: Vec<CellFigures>,
        /// What of the water the lines do not get: no pump reaches it, or it is kept for backing out.
        kept_gal: f64,
        /// The flow that is wanted.
        wanted_gpm: f64,
        /// The level; null where none of them calls for it.
        level_gal: Option<f64>,
        /// Minutes that the level lasts, or the lowest of them where none calls for it: from what stands on the sheet.
        lasts_min: f64,
        /// Share of the fires that came so far in which the lines ran short.
        ran_short: Option<f64>,
        /// Those fires.
        fires: u64,
    },
    /// How long the attack engine's own tank lasts: where no level tells anything.
    EngineTank {
        /// The engine.
        engine: Option<String>,
        /// Its tank.
        tank_gal: f64,
        /// What of it is kept for backing out.
        kept_gal: f64,
        /// The flow that is wanted.
        wanted_gpm: f64,
        /// Minutes that the rest lasts, as both stand on the sheet.
        lasts_min: f64,
    },
}

/// Minutes of the parts of a cycle.
fn parts(tanker: &TankerByHand) -> Vec<f64> {
    tanker.parts.iter().map(|part| part.mean_min).collect()
}

/// What a tanker brings in a cycle of so many minutes, as it is written, gpm.
fn brings(tanker: &TankerByHand, cycle_min: f64, units: Units) -> f64 {
    let counted = as_shown::whole(tanker.tank_gal, units) * (1.0 - HAND_ALLOWANCE);
    as_shown::worked_flow(counted / cycle_min, units)
}

/// Decimal places of the cycles on the sheet: with these they add up to what every other page says of them, and give the
/// same flow.
pub(super) fn decimals(tankers: &[TankerByHand], units: Units) -> usize {
    let of_one = |tanker: &TankerByHand| {
        let exact = as_shown::worked_flow(tanker.hand_gpm, units);
        let same_flow = |cycle_min: f64| brings(tanker, cycle_min, units) == exact;
        as_shown::digits_that_add_up(&parts(tanker), tanker.cycle_min, same_flow)
    };
    tankers.iter().take(MOST_CYCLES).map(of_one).max().unwrap_or(1)
}

/// The four questions, fewer where no tanker comes.
///
/// - Given: the reader's units.
pub(super) fn questions(
    risk: &RiskFigures,
    by_hand: &CheckFigures,
    card: &CardFigures,
    units: Units,
) -> Vec<DrillQuestion> {
    let tankers = &by_hand.worksheet.tankers;
    let first = tankers.first();
    let decimals = decimals(tankers, units);
    let mut questions = Vec::new();
    questions.extend(first.map(|tanker| {
        let simulated = risk.tankers.iter().find(|one| one.name == tanker.name);
        let minutes: f64 = simulated.iter().flat_map(|one| one.cycle_min.values()).sum();
        let parts = parts(tanker);
        DrillQuestion::Cycle {
            tanker: tanker.name.clone(),
            parts_min: parts.iter().map(|part| as_shown::to(*part, decimals)).collect(),
            decimals,
            cycle_min: as_shown::added_up(&parts, decimals),
            with_waiting_min: (minutes > 0.0).then_some(minutes),
        }
    }));
    questions.push(DrillQuestion::LoadEvery {
        wanted_gpm: card.peak_flow_gpm,
        load_gal: card.load_gal,
        load_every_min: card.load_every_min,
    });
    questions.extend(first.map(|tanker| pinch(tanker, by_hand, decimals, units)));
    questions.push(gate_down(card, units));
    questions
}

fn pinch(
    tanker: &TankerByHand,
    by_hand: &CheckFigures,
    decimals: usize,
    units: Units,
) -> DrillQuestion {
    let sheet = &by_hand.worksheet;
    let cycle_min = as_shown::added_up(&parts(tanker), decimals);
    let one_tanker_gpm = brings(tanker, cycle_min, units);
    let other_tankers = sheet.tankers.len() - 1;
    // What all bring is one figure on every page; the others bring the rest of it.
    let all = as_shown::worked_flow(sheet.hand_gpm, units);
    let tankers_gpm = if other_tankers == 0 { one_tanker_gpm } else { all };
    DrillQuestion::Pinch {
        tanker: tanker.name.clone(),
        tank_gal: tanker.tank_gal,
        counted_gal: as_shown::whole(tanker.tank_gal, units) * (1.0 - HAND_ALLOWANCE),
        cycle_min,
        decimals,
        one_tanker_gpm,
        other_tankers,
        others_gpm: tankers_gpm - one_tanker_gpm,
        tankers_gpm,
        places: sheet.caps.iter().filter(|cap| cap.cap_gpm.is_finite()).cloned().collect(),
        tightest: sheet.tightest.clone().filter(|cap| cap.cap_gpm.is_finite()),
        wanted_gpm: sheet.peak_flow_gpm,
    }
}

/// Levels that tell something, the highest first: with no tanker in sight fires ran short after them surely more often
/// than anyway.
fn telling(wires: &WiresFigures, anyway: f64) -> Vec<CellFigures> {
    (wires.table.iter())
        .filter(|cell| cell.no_load_within_min == wires.in_sight_min)
        .filter(|cell| cell.ran_short.is_some() && cell.ci_low > anyway)
        .copied()
        .collect()
}

fn gate_down(card: &CardFigures, units: Units) -> DrillQuestion {
    let wires = &card.trip_wires;
    let shown = |of: f64| as_shown::whole(of, units);
    let peak = shown(card.peak_flow_gpm);
    let gate_down = wires.in_sight().and_then(|wire| wire.gate_down);
    let mut levels = telling(wires, card.interruption_probability);
    // Every level, every second, every third, whatever fits, and the one that is asked for.
    let apart = levels.len().div_ceil(MOST_LEVELS).max(1);
    let at = levels.iter().position(|cell| gate_down == Some(*cell)).unwrap_or(0);
    levels = (levels.into_iter().enumerate())
        .filter(|(place, _)| place % apart == at % apart)
        .map(|(_, cell)| cell)
        .collect();
    let Some(asked) = gate_down.or_else(|| levels.last().copied()).filter(|_| levels.len() > 1)
    else {
        let engine = card.units.iter().find(|unit| unit.role == Role::AttackEngine);
        let (tank_gal, kept_gal) = (card.engine_tank_gal, card.reserve_gal);
        return DrillQuestion::EngineTank {
            engine: engine.and_then(|unit| unit.name.clone()),
            tank_gal,
            kept_gal,
            wanted_gpm: card.peak_flow_gpm,
            lasts_min: (shown(tank_gal) - shown(kept_gal)).max(0.0) / peak,
        };
    };
    let kept_gal = match wires.water {
        Water::DropTanks => wires.unusable_gal,
        Water::EngineTank => wires.unusable_gal.max(card.reserve_gal),
    };
    DrillQuestion::GateDown {
        interruption_probability: card.interruption_probability,
        water: wires.water,
        in_sight_min: wires.in_sight_min,
        gate_down_from_share: wires.gate_down_from_share,
        kept_gal,
        wanted_gpm: card.peak_flow_gpm,
        level_gal: gate_down.map(|cell| cell.level_gal),
        lasts_min: (shown(asked.level_gal) - shown(kept_gal)).max(0.0) / peak,
        ran_short: gate_down.and_then(|cell| cell.ran_short),
        fires: gate_down.map_or(0, |cell| cell.fires),
        levels,
    }
}
