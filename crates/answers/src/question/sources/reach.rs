//! How far from water a number of tankers holds a flow, or how far away a wanted flow holds.

mod figures;
mod hauls;
mod pictures;
mod tables;
mod told;

#[cfg(test)]
mod tests;

use scenario_file::Scenario;
use shuttle_report::batch::Control;
use shuttle_report::demand::Demand;
use shuttle_report::grading_rules::GradingRule;
use shuttle_report::reach::{ReachAnswer, ReachQuestion, distance_for_flow, flow_by_distance};
use shuttle_report::units::Units;

use crate::answer::{Answer, Basis};
use crate::question::Budget;
use crate::shared::holding::step_gpm;
use crate::shared::luck::SharedLuck;

pub use figures::{DistanceFigures, ReachFigures};

/// Simulated fires that one search usually takes.
const USUAL_REPLICATIONS: u64 = 2_500;

/// What is asked.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Asked {
    /// The fill site to move along the road, by place in the list.
    pub site: usize,
    /// How far this flow holds, gpm; `None`: what flow holds how far.
    pub wanted_gpm: Option<f64>,
    /// Share of fires in which it must hold.
    pub share: f64,
}

/// Moves a fill site along the road and says what holds.
pub fn reach(
    scenario: &Scenario,
    asked: Asked,
    budget: Budget,
    control: &Control,
) -> Answer<ReachFigures> {
    let (plan, units) = (&scenario.plan, scenario.units);
    let question = ReachQuestion {
        site: asked.site,
        hauls: hauls::distances(units, asked.wanted_gpm.is_some())
            .into_iter()
            .map(|miles| hauls::haul(plan, asked.site, miles))
            .collect(),
        demand: demand(units, plan.facts().incident.duration),
        share: asked.share,
        most_runs: budget.replications,
        seed: budget.seed,
        threads: budget.threads,
        step_gpm: step_gpm(units),
    };
    let found = match asked.wanted_gpm {
        Some(wanted) => distance_for_flow(plan, &question, wanted, control),
        None => flow_by_distance(plan, &question, control),
    };
    let driven = hauls::driven(plan, asked.site);
    let told = told::told(scenario, &found, driven);
    Answer {
        question: "reach",
        title: found.title.clone(),
        asked: scenario.asked.clone(),
        basis: Basis {
            replications: replications(&found),
            seed: found.seed,
            ended_early: found.ended_early,
        },
        figures: ReachFigures::new(&found, driven, SharedLuck::of(&scenario.plan)),
        pictures: pictures::pictures(found, driven, &told.verdict),
        told,
    }
}

/// About how many fires that simulates: for a progress bar.
pub fn expected_replications(scenario: &Scenario, asked: Asked) -> u64 {
    let tankers = scenario.plan.facts().tankers.len();
    let distances = match asked.wanted_gpm {
        Some(_) => 1,
        None => hauls::distances(scenario.units, false).len(),
    };
    USUAL_REPLICATIONS * (tankers * distances) as u64
}

/// The start rule of a grading: the least flow within 5 minutes of the first engine, the whole flow by the
/// minute that the region's rule names.
fn demand(units: Units, minutes: f64) -> Demand {
    let rule = &GradingRule::usual(units)[0];
    Demand { minutes, ..rule.demand() }
}

fn replications(found: &ReachAnswer) -> u64 {
    (found.rows.iter().flat_map(|row| &row.cells).map(|cell| cell.replications))
        .chain(found.distances.iter().map(|row| row.replications))
        .sum()
}
