//! The figures of `size`.

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::fleet_size::{FleetRow, SizeAnswer};
use shuttle_report::options_compared::Interval;
use shuttle_sim::{Brought, Plan, Tanker};

use crate::question::hold::HeldFigures;
use crate::shared::bottleneck::{Bottleneck, bottleneck};
use crate::shared::doubt::DoubtFigures;
use crate::shared::held_back::{CauseShare, cause_shares};
use crate::shared::luck::SharedLuck;
use crate::shared::target::Side;

/// The figures of `size`.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct SizeFigures {
    /// Chance that the lines run short to stay below.
    pub target: f64,
    /// The fewest tankers that are shown to be below it; none if no number tried is.
    #[serde(rename = "enough_tankers")]
    pub tankers: Option<usize>,
    /// Tankers that come anyway.
    #[serde(rename = "own_tankers")]
    pub listed: usize,
    /// Tankers that the scenario lists as aid: they are counted next, in the order in which they would arrive.
    #[serde(rename = "aid_tankers")]
    pub aid: usize,
    /// A smaller number that may already do, where the fires simulated did not tell.
    pub perhaps: Option<usize>,
    /// From this number on another tanker makes no difference that shows.
    pub no_difference_beyond: Option<usize>,
    /// Why the best number tried still fails, the greatest share first; empty where a number does not.
    pub held_back_by: Vec<CauseShare>,
    /// What limits the flow by hand, where no number of tankers is enough and the limit is below the flow
    /// wanted or hardly above it.
    pub bottleneck: Option<Bottleneck>,
    /// Tankers that would bring a drop tank and are not among those to ask for.
    pub drop_tanks_left_behind: Vec<LeftBehind>,
    /// Those beyond all that are listed are like the last of these: when it is there, minutes after the alarm, where
    /// another is there sooner; null elsewhere.
    pub beyond_arrive_min: Option<f64>,
    /// Water kept for backing out.
    pub reserve_gal: f64,
    /// Where no number is enough: what all that are listed can hold; null elsewhere.
    pub most_held: Option<HeldFigures>,
    /// One row a number of tankers, from 1.
    #[serde(rename = "fleets")]
    pub rows: Vec<FleetFigures>,
    /// How far the chance with the fewest that are enough can be trusted; none where every input is taken as known
    /// or no number is enough.
    pub doubt: Option<DoubtFigures>,
    /// With one more, the share of what the inputs may be in which the target is missed; none where it was not asked.
    pub one_more_misses_target: Option<f64>,
    /// What a whole fire was taken to share.
    pub shared_luck: SharedLuck,
}

/// A tanker whose drop tank does not come.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct LeftBehind {
    /// Its name.
    pub name: String,
}

/// One number of tankers.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct FleetFigures {
    /// How many tankers.
    #[serde(rename = "tanker_count")]
    pub tankers: usize,
    /// The last of them.
    pub adds: String,
    /// Whether the scenario lists it; if not, it is another like the last that is listed, and nobody has it to send.
    #[serde(rename = "is_listed")]
    pub listed: bool,
    /// Whether it is listed as aid.
    pub of_the_aid: bool,
    /// Simulated fires.
    pub replications: u64,
    /// Share of fires in which the lines run short.
    pub interruption_probability: f64,
    /// Lower end of its 95% interval, for all numbers at once.
    pub ci_low: f64,
    /// Upper end.
    pub ci_high: f64,
    /// What the 95% of that interval are of.
    pub interval: Interval,
    /// Share of fires in which the reserve is drawn on.
    #[serde(rename = "reserve_touched_share")]
    pub reserve_touched: f64,
    /// Drop tanks that come with these tankers.
    #[serde(rename = "drop_tank_count")]
    pub drop_tanks: usize,
    /// Minutes short a fire, mean.
    pub interrupted_minutes_mean: f64,
    /// On which side of the target.
    #[serde(rename = "side_of_target")]
    pub verdict: Side,
}

/// So much later than the first tanker is worth a word: nearer ones would do more. Judgement.
const LATER_MIN: f64 = 3.0;

/// When the last of all that are listed is there, where that is later than the first.
fn beyond_arrive_min(plan: &Plan) -> Option<f64> {
    let arrives = |tanker: &Tanker| tanker.call.requested_at + tanker.call.response.mean();
    let mut all = plan.facts().tankers.iter().map(arrives);
    let (first, last) = (all.clone().reduce(f64::min)?, all.next_back()?);
    (last >= first + LATER_MIN).then_some(last)
}

impl SizeFigures {
    /// From what was found out, with everyone's plan and how many of its first tankers come anyway.
    pub fn new(found: &SizeAnswer, plan: &Plan, own: usize) -> SizeFigures {
        let is_enough = found.tankers.is_some();
        SizeFigures {
            target: found.target,
            tankers: found.tankers,
            listed: own,
            aid: plan.facts().tankers.len() - own,
            perhaps: found.perhaps,
            no_difference_beyond: found.adds_nothing_after,
            held_back_by: cause_shares(&found.held_back_by),
            bottleneck: if is_enough { None } else { bottleneck(plan) },
            drop_tanks_left_behind: found.tankers.map_or_else(Vec::new, |with| behind(plan, with)),
            most_held: None,
            beyond_arrive_min: beyond_arrive_min(plan),
            reserve_gal: plan.facts().incident.reserve,
            rows: found.rows.iter().map(|found| row(found, own)).collect(),
            doubt: None,
            one_more_misses_target: None,
            shared_luck: SharedLuck::of(plan),
        }
    }

    /// The row of a number of tankers, if it was tried.
    pub fn row(&self, tankers: usize) -> Option<&FleetFigures> {
        self.rows.iter().find(|row| row.tankers == tankers)
    }

    /// The row with the lowest chance, of those that can work; of equals the one with the fewest tankers, and where
    /// every fire is short the one with the fewest minutes short.
    pub fn best(&self) -> Option<&FleetFigures> {
        /// Chances this near to each other are one: nobody is sent for half a fire of 100. Judgement.
        const SAME: f64 = 0.005;
        let working = || self.rows.iter().filter(|row| row.verdict != Side::CannotWork);
        let least = working().map(|row| row.interruption_probability).fold(1.0, f64::min);
        let mut best = working().filter(|row| row.interruption_probability <= least + SAME);
        if least < 1.0 - SAME {
            return best.next();
        }
        best.min_by(|a, b| a.interrupted_minutes_mean.total_cmp(&b.interrupted_minutes_mean))
    }
}

fn row(row: &FleetRow, own: usize) -> FleetFigures {
    FleetFigures {
        tankers: row.tankers,
        adds: row.adds.clone(),
        listed: row.listed,
        of_the_aid: row.listed && row.tankers > own,
        replications: row.replications,
        interruption_probability: row.interruption_probability,
        ci_low: row.ci_low,
        ci_high: row.ci_high,
        interval: Interval::AllAtOnce,
        reserve_touched: row.reserve_touched,
        drop_tanks: row.drop_tanks,
        interrupted_minutes_mean: row.interrupted_minutes_mean,
        verdict: row.verdict.into(),
    }
}

/// The tankers past the first so many whose drop tank the plan counts on.
fn behind(plan: &Plan, tankers: usize) -> Vec<LeftBehind> {
    let facts = plan.facts();
    (facts.drop_tanks.iter())
        .filter_map(|tank| match tank.brought {
            Brought::ByTanker(place) if place >= tankers => {
                Some(LeftBehind { name: facts.tankers[place].name.clone() })
            }
            _ => None,
        })
        .collect()
}
