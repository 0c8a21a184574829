//! The figures of `handout`.

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::options_compared::Interval;
use shuttle_report::units::Units;
use shuttle_report::worksheet::HAND_ALLOWANCE;

use crate::answer::Answer;
use crate::question::card::{CardFigures, ClockFigures, Water};
use crate::question::check::{CheckFigures, TankerByHand};
use crate::question::risk::RiskFigures;
use crate::shared::changes::ChangeFigures;
use crate::shared::station::CapFigures;

/// The figures of `handout`. Times count from the alarm where nothing else is said.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct HandoutFigures {
    /// Share of fires in which the lines run short at least once.
    pub interruption_probability: f64,
    /// Lower end of its exact binomial 95% interval.
    pub ci_low: f64,
    /// Upper end of that interval.
    pub ci_high: f64,
    /// What the 95% of that interval are of.
    pub interval: Interval,
    /// How many fill sites there are to tell apart in a log.
    pub fill_sites: usize,
    /// The cycle of every tanker by hand: mean times, nobody waits.
    pub cycles: Vec<TankerByHand>,
    /// What the plan teaches.
    pub findings: Vec<Finding>,
    /// What to ask the crew, each with its answer.
    pub questions: Vec<DrillQuestion>,
}

/// Something the plan teaches.
#[derive(Debug, Clone, Serialize, JsonSchema)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum Finding {
    /// How often the lines run short, and when first.
    RunsShort {
        /// Share of fires.
        interruption_probability: f64,
        /// Simulated fires.
        replications: u64,
        /// The clock with the minutes to watch.
        watch: ClockFigures,
    },
    /// How much of a cycle is driving.
    Driving {
        /// Whose.
        tanker: String,
        /// Minutes on the road, both ways.
        driving_min: f64,
        /// Minutes of the cycle.
        #[serde(rename = "whole_cycle_min")]
        cycle_min: f64,
    },
    /// The change that helps most of those tried.
    Helps {
        /// What is changed.
        change: ChangeFigures,
        /// Share of fires in which the lines run short with it.
        interruption_probability: f64,
        /// Simulated fires with it.
        replications: u64,
    },
    /// How long the water on wheels lasts, where no change that was tried helps clearly.
    OnWheels {
        /// How much that is.
        on_wheels_gal: f64,
        /// Minutes at the greatest flow.
        on_wheels_min: f64,
    },
}

/// A question to the crew with what answers it.
#[derive(Debug, Clone, Serialize, JsonSchema)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum DrillQuestion {
    /// How long one cycle takes by the plan.
    Cycle {
        /// Whose.
        tanker: String,
        /// Minutes, nobody waiting: the parts added up as they stand on the sheet, each to a tenth.
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
        /// Minutes of its cycle, as they stand on the sheet.
        #[serde(rename = "whole_cycle_min")]
        cycle_min: f64,
        /// What it brings: its tank less 10% over that cycle.
        one_tanker_gpm: f64,
        /// What all tankers bring by hand.
        tankers_gpm: f64,
        /// The place; null where nothing caps the plan.
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
        /// The level; null where no level calls for it.
        level_gal: Option<f64>,
        /// Share of the fires that came so far in which the lines ran short.
        ran_short: Option<f64>,
        /// Those fires.
        fires: u64,
    },
}

impl HandoutFigures {
    /// Of what three questions found.
    pub(super) fn new(
        risk: &Answer<RiskFigures>,
        by_hand: &CheckFigures,
        card: &CardFigures,
        units: Units,
    ) -> HandoutFigures {
        let figures = &risk.figures;
        HandoutFigures {
            interruption_probability: figures.interruption_probability,
            ci_low: figures.ci_low,
            ci_high: figures.ci_high,
            interval: figures.interval,
            fill_sites: card.sources.len(),
            cycles: by_hand.worksheet.tankers.clone(),
            findings: findings(risk, by_hand, card),
            questions: questions(&risk.figures, by_hand, card, units),
        }
    }
}

fn findings(
    risk: &Answer<RiskFigures>,
    by_hand: &CheckFigures,
    card: &CardFigures,
) -> Vec<Finding> {
    let sheet = &by_hand.worksheet;
    let mut findings = vec![Finding::RunsShort {
        interruption_probability: risk.figures.interruption_probability,
        replications: risk.basis.replications,
        watch: card.clock,
    }];
    findings.extend(sheet.tankers.first().map(|tanker| {
        Finding::Driving {
            tanker: tanker.name.clone(),
            driving_min: (tanker.parts.iter())
                .filter(|part| matches!(part.part, "travel_out" | "travel_back"))
                .map(|part| part.mean_min)
                .sum(),
            cycle_min: tanker.cycle_min,
        }
    }));
    // Nothing that answers a question below: those are for the crew.
    findings.push(match risk.figures.would_help.first() {
        Some(help) => Finding::Helps {
            change: help.change.clone(),
            interruption_probability: help.interruption_probability,
            replications: help.replications,
        },
        None => Finding::OnWheels {
            on_wheels_gal: sheet.on_wheels_gal,
            on_wheels_min: sheet.on_wheels_min,
        },
    });
    findings
}

/// Minutes of a cycle as whoever adds up the parts on the sheet finds them: each stands there to a tenth.
fn added_up(tanker: &TankerByHand) -> f64 {
    let tenths = |minutes: f64| (10.0 * minutes).round() / 10.0;
    tenths(tanker.parts.iter().map(|part| tenths(part.mean_min)).sum())
}

/// A volume or a flow as it stands on the sheet, whole in the reader's units.
fn as_shown(of: f64, units: Units) -> f64 {
    units.volume(of).round() / units.volume(1.0)
}

/// Every answer that is a sum is made from what stands on the sheet, to the digits that stand there.
///
/// - Given: the reader's units.
fn questions(
    risk: &RiskFigures,
    by_hand: &CheckFigures,
    card: &CardFigures,
    units: Units,
) -> Vec<DrillQuestion> {
    let sheet = &by_hand.worksheet;
    let gate_down = card.trip_wires.in_sight().and_then(|wire| wire.gate_down);
    let first = sheet.tankers.first();
    let mut questions = Vec::new();
    questions.extend(first.map(|tanker| {
        let simulated = risk.tankers.iter().find(|one| one.name == tanker.name);
        let minutes: f64 = simulated.iter().flat_map(|one| one.cycle_min.values()).sum();
        DrillQuestion::Cycle {
            tanker: tanker.name.clone(),
            cycle_min: added_up(tanker),
            with_waiting_min: (minutes > 0.0).then_some(minutes),
        }
    }));
    let load_every_min = as_shown(card.load_gal, units) / as_shown(card.peak_flow_gpm, units);
    questions.push(DrillQuestion::LoadEvery {
        wanted_gpm: card.peak_flow_gpm,
        load_gal: card.load_gal,
        load_every_min,
    });
    questions.extend(first.map(|tanker| {
        let cycle_min = added_up(tanker);
        DrillQuestion::Pinch {
            tanker: tanker.name.clone(),
            tank_gal: tanker.tank_gal,
            cycle_min,
            one_tanker_gpm: as_shown(tanker.tank_gal, units) * (1.0 - HAND_ALLOWANCE) / cycle_min,
            tankers_gpm: sheet.hand_gpm,
            tightest: sheet.tightest.clone(),
            wanted_gpm: sheet.peak_flow_gpm,
        }
    }));
    questions.push(DrillQuestion::GateDown {
        interruption_probability: card.interruption_probability,
        water: card.trip_wires.water,
        level_gal: gate_down.map(|cell| cell.level_gal),
        ran_short: gate_down.and_then(|cell| cell.ran_short),
        fires: gate_down.map_or(0, |cell| cell.fires),
    });
    questions
}
