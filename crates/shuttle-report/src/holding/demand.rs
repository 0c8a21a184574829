//! A demand for water that counts from the arrival of the first engine, and the plan under it.

use serde::Serialize;
use shuttle_sim::{Call, FlowStep, Mistake, Plan, Shuttle, TimeTaken};

/// What is wanted and from when; minutes count from the arrival of the attack engine.
///
/// Up to `minimum_from` nothing is asked for. From then on the lesser of `minimum` and the flow
/// tried must flow, from `full_from` on the flow tried, and it must be kept for `minutes` more.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Demand {
    /// The flow of the first minutes, gpm.
    pub minimum: f64,
    /// When it must begin, minutes.
    pub minimum_from: f64,
    /// When the whole flow must begin, minutes; not before `minimum_from`.
    pub full_from: f64,
    /// How long the whole flow must be kept, minutes.
    pub minutes: f64,
}

/// A grading allows no break; a shortfall shorter than this is a numerical flicker rather than a break in
/// the stream, minutes (the scenario format's default). A scenario that states less is held to what it
/// states.
const LONGEST_FLICKER: f64 = 0.1;

/// From when a flow is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub enum AskedFrom {
    /// From first water on, whenever that comes.
    FirstWater,
    /// From this minute after the alarm on, and nothing before.
    Minute(f64),
}

/// What is run to see whether a flow holds.
#[derive(Debug, Clone)]
pub struct Trial {
    /// The plan under the demand; first water is the engine's arrival.
    pub plan: Plan,
    /// A plan whose first water comes as many minutes after the alarm as the crew takes from arrival to
    /// first water. `None` where it is always in time.
    pub(super) crew: Option<Plan>,
    /// What the crew may take, minutes.
    pub(super) within: f64,
    /// The minute after the alarm from which the flow is asked for, where it counts from there.
    pub(super) asked_from: Option<f64>,
}

impl Trial {
    /// The plan under a demand for this flow, gpm.
    ///
    /// The demand counts from the engine's arrival, whatever the crew takes to get water; a run in
    /// which it takes longer than until the demand begins is broken, and counted as late.
    ///
    /// - Errors: what is then wrong with the plan.
    pub fn new(plan: &Plan, demand: Demand, flow: f64) -> Result<Trial, Vec<Mistake>> {
        let mut facts = plan.facts().clone();
        facts.attack_engine.water_on = TimeTaken::NONE;
        facts.incident.attack_flow = vec![FlowStep { from: demand.full_from, flow }];
        if demand.minimum_from < demand.full_from {
            let first = FlowStep { from: demand.minimum_from, flow: demand.minimum.min(flow) };
            facts.incident.attack_flow.insert(0, first);
        }
        facts.incident.duration = demand.full_from + demand.minutes;
        facts.incident.tolerance = facts.incident.tolerance.min(LONGEST_FLICKER);
        let within = demand.minimum_from;
        let crew = if longest(&plan.facts().attack_engine.water_on) > within {
            let mut facts = plan.facts().clone();
            facts.attack_engine.call = Call::sure(0.0, TimeTaken::NONE);
            facts.incident.duration = MOMENT;
            Some(Plan::check(facts)?)
        } else {
            None
        };
        Ok(Trial { plan: Plan::check(facts)?, crew, within, asked_from: None })
    }

    /// The plan under one flow, gpm, to the end of its watch. Nothing is asked for before; a run in which the first water
    /// comes later than the minute from which it is asked for is broken, and counted as late.
    ///
    /// - Errors: what is then wrong with the plan.
    pub fn from(plan: &Plan, from: AskedFrom, flow: f64) -> Result<Trial, Vec<Mistake>> {
        Trial::stepped(plan, (from, flow), &[])
    }

    /// The plan under flows one after another, gpm; the later ones, each from a minute after the alarm, count from first
    /// water as it comes by means.
    ///
    /// - Given: `later`, in rising order, after the first.
    /// - Errors: what is then wrong with the plan.
    pub fn stepped(
        plan: &Plan,
        (from, flow): (AskedFrom, f64),
        later: &[(f64, f64)],
    ) -> Result<Trial, Vec<Mistake>> {
        let mut facts = plan.facts().clone();
        let engine = &facts.attack_engine;
        let first_water =
            engine.call.requested_at + engine.call.response.mean() + engine.water_on.mean();
        facts.incident.attack_flow = [FlowStep { from: 0.0, flow }]
            .into_iter()
            .chain(
                later
                    .iter()
                    .map(|(minute, flow)| FlowStep { from: minute - first_water, flow: *flow }),
            )
            .collect();
        let AskedFrom::Minute(minute) = from else {
            let plan = Plan::check(facts)?;
            return Ok(Trial { plan, crew: None, within: 0.0, asked_from: None });
        };
        let engine = &facts.attack_engine;
        let latest =
            engine.call.requested_at + longest(&engine.call.response) + longest(&engine.water_on);
        let crew = (latest > minute || facts.shares_luck()).then(|| until_first_water(plan));
        Ok(Trial {
            plan: Plan::check(facts)?,
            crew: crew.transpose()?,
            within: minute,
            asked_from: Some(minute),
        })
    }
}

/// The plan with a watch that is over as it begins: what there is to learn is when the first water comes.
pub(super) fn until_first_water(plan: &Plan) -> Result<Plan, Vec<Mistake>> {
    let mut facts = plan.facts().clone();
    let flow = facts.incident.attack_flow.first().map_or(1.0, |step| step.flow);
    facts.incident.attack_flow = vec![FlowStep { from: 0.0, flow }];
    facts.incident.duration = MOMENT;
    Plan::check(facts)
}

impl Trial {
    /// What runs it.
    pub(super) fn shuttle(&self) -> Shuttle {
        let mut shuttle = Shuttle::new(&self.plan);
        shuttle.keep_levels(false);
        if let Some(minute) = self.asked_from {
            shuttle.ask_from(minute);
        }
        shuttle
    }
}

/// The shortest watch that can be run, minutes.
const MOMENT: f64 = 0.01;

/// The longest a time can be, minutes; infinite for shapes without an end.
fn longest(time: &TimeTaken) -> f64 {
    match time {
        TimeTaken::Fixed(minutes) => *minutes,
        TimeTaken::Triangular { high, .. } | TimeTaken::Uniform { high, .. } => *high,
        TimeTaken::Samples(samples) => samples.iter().copied().fold(0.0, f64::max),
        TimeTaken::Weighted(weighted) => {
            weighted.iter().map(|(minutes, _)| *minutes).fold(0.0, f64::max)
        }
        TimeTaken::Lognormal { .. } | TimeTaken::Exponential { .. } => {
            if time.has_spread() {
                f64::INFINITY
            } else {
                time.mean()
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_longest_time_of_a_shape() {
        assert_eq!(longest(&TimeTaken::Triangular { low: 1.0, likely: 2.0, high: 4.0 }), 4.0);
        assert_eq!(longest(&TimeTaken::Samples(vec![3.0, 5.5, 1.0])), 5.5);
        assert_eq!(longest(&TimeTaken::Lognormal { mean: 2.0, cv: 0.0 }), 2.0);
        assert!(longest(&TimeTaken::Exponential { mean: 2.0 }).is_infinite());
    }
}
