//! The figures of `handout`.

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::options_compared::Interval;
use shuttle_report::units::Units;

use super::questions::{self, DrillQuestion};
use crate::answer::Answer;
use crate::question::card::{CardFigures, ClockFigures};
use crate::question::check::{CheckFigures, TankerByHand};
use crate::question::risk::RiskFigures;
use crate::shared::changes::ChangeFigures;

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
    /// Decimal places in which its parts stand on the sheet: with these they add up.
    pub decimals: usize,
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
            decimals: questions::decimals(&by_hand.worksheet.tankers, units),
            findings: findings(risk, by_hand, card),
            questions: questions::questions(&risk.figures, by_hand, card, units),
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
