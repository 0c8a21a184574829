//! How far from water a number of tankers holds a flow, and how far away it may be for a wanted flow.
//!
//! One fill site is moved along the road and everything else stays as the scenario has it. At every
//! distance and for every number of tankers, in the order the plan lists them, the greatest flow is
//! searched that holds in the stated share of runs, to within a few percent of itself: finer than crews drive.

use serde::Serialize;
use shuttle_sim::{Leg, Plan, Tanker};

use super::demand::{Demand, Trial};
use super::grading::rule_held::{Grid, by_hand};
use super::held_flow::{Greatest, Search, greatest_step};
use super::shared_out;
use super::start_limit::broken_at_the_start;
use crate::changes::variation::{with_fleet_of, with_sites};
use crate::runs::control::{Control, SameLuck};
use crate::runs::in_order::in_order;
use crate::worksheet::worksheet;

/// The road at some distance: out and back.
#[derive(Debug, Clone, PartialEq)]
pub struct Haul {
    /// One way, miles.
    pub miles: f64,
    /// The road from the scene.
    pub out: Leg,
    /// The road to the scene.
    pub back: Leg,
}

/// What is asked.
#[derive(Debug, Clone, PartialEq)]
pub struct ReachQuestion {
    /// The fill site to move, by place in the list; the others are left out.
    pub site: usize,
    /// The roads to try, in rising order of distance.
    pub hauls: Vec<Haul>,
    /// From when the flow is wanted, and how long.
    pub demand: Demand,
    /// Share of runs in which the flow must hold.
    pub share: f64,
    /// Most runs for any one trial.
    pub most_runs: u64,
    /// Seed of the random numbers.
    pub seed: u64,
    /// Threads to use.
    pub threads: usize,
    /// Flows are tried this far apart, gpm.
    pub step_gpm: f64,
}

/// One distance and one number of tankers.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ReachCell {
    /// How many tankers, the first of the list.
    pub tankers: usize,
    /// By hand: their rates with the plan's own waste, no more than the tightest cap, gpm.
    pub hand_gpm: f64,
    /// The greatest flow that is shown to hold, gpm; `None` if none does.
    pub held_gpm: Option<f64>,
    /// Up to this flow it is not clear from the runs made, gpm.
    pub not_clear_up_to_gpm: Option<f64>,
    /// Whether the plan can work at all: else no drop tank comes with so few tankers.
    pub can_work: bool,
    /// The cause of the most first breaks one step above, and its share of them.
    pub binds: Option<(&'static str, f64)>,
    /// Share of those breaks that come before any tanker could be back with a second load: then the start is the
    /// limit, and not the distance.
    pub broken_at_the_start: f64,
    /// Runs made.
    pub replications: u64,
}

impl ReachCell {
    /// Whether the start is the limit rather than the distance.
    pub fn start_is_the_limit(&self) -> bool {
        self.held_gpm.is_some() && self.broken_at_the_start > 0.5
    }
}

/// One distance.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ReachRow {
    /// One way, miles.
    pub miles: f64,
    /// One a number of tankers, from 1.
    pub cells: Vec<ReachCell>,
    /// The number of tankers beyond which every further one adds no more than the load it arrives
    /// with, spread over the time; `None` where even the last one adds more.
    pub enough: Option<usize>,
}

/// How far away a number of tankers holds a wanted flow.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct DistanceRow {
    /// How many tankers, the first of the list.
    pub tankers: usize,
    /// The farthest of the roads tried at which the hand calculation still makes the flow, miles.
    pub hand_miles: Option<f64>,
    /// The farthest at which it is shown to hold, miles; `None` if it holds at none.
    pub held_miles: Option<f64>,
    /// Up to this distance it is not clear from the runs made, miles.
    pub not_clear_up_to_miles: Option<f64>,
    /// Whether it held at the farthest road tried: it may hold beyond.
    pub at_the_end: bool,
    /// The cause of the most first breaks one step farther, and its share of them.
    pub binds: Option<(&'static str, f64)>,
    /// Runs made.
    pub replications: u64,
}

/// The answer.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ReachAnswer {
    /// The plan's title.
    pub title: String,
    /// The fill site that was moved.
    pub site: String,
    /// Names of the tankers in order.
    pub tankers: Vec<String>,
    /// Share of runs in which the flow must hold.
    pub share: f64,
    /// Their tanks, gal, and the greatest rates at which they fill at the site, gpm.
    pub tanks_and_fills: Vec<(f64, f64)>,
    /// Capacity of the site by hand at any distance, with all tankers of the plan, gpm.
    pub site_cap_gpm: Option<f64>,
    /// From when the flow is wanted, and how long.
    pub demand: Demand,
    /// Flow by distance, where that was asked.
    pub rows: Vec<ReachRow>,
    /// The flow wanted, gpm, where distances were asked for.
    pub wanted_gpm: Option<f64>,
    /// Distance by number of tankers, where that was asked.
    pub distances: Vec<DistanceRow>,
    /// Whether it was stopped early; what was not reached is left out.
    pub ended_early: bool,
    /// Seed of the random numbers.
    pub seed: u64,
}

/// No hauled flow is above this, gpm.
const GREATEST_FLOW: f64 = 5_000.0;

/// Between the greatest flow or distance that holds and the least that fails this part of it may stay unclear.
const WITHIN: f64 = 0.06;

/// The greatest flow by distance and number of tankers.
pub fn flow_by_distance(plan: &Plan, question: &ReachQuestion, control: &Control) -> ReachAnswer {
    let most = plan.facts().tankers.len();
    let grid = Grid::with(question.demand.minimum, question.step_gpm);
    let loads: Vec<f64> = plan.facts().tankers.iter().map(Tanker::load).collect();
    let searches = question.hauls.len() * most;
    let (outer, search) = search(question, searches);
    let mut all: Vec<ReachCell> = Vec::new();
    let work = |_: &mut (), job: u64| {
        let (haul, tankers) = (job as usize / most, job as usize % most + 1);
        let moved = moved(plan, question.site, tankers, &question.hauls[haul]);
        let found = cell(moved.as_ref(), tankers, question, &grid, search, control);
        (found, control.is_stopped())
    };
    let mut cut_short = false;
    in_order(
        searches as u64,
        outer,
        control,
        || (),
        work,
        |_, (cell, stopped)| {
            cut_short |= stopped;
            if !cut_short {
                all.push(cell);
            }
        },
    );
    let rows: Vec<ReachRow> = (question.hauls.iter().zip(all.chunks_exact(most.max(1))))
        .map(|(haul, cells)| ReachRow {
            miles: haul.miles,
            enough: enough(cells, &loads, question.demand.minutes, question.step_gpm),
            cells: cells.to_vec(),
        })
        .collect();
    answer(plan, question, rows, None, Vec::new(), control)
}

/// The greatest distance by number of tankers for a wanted flow, gpm.
pub fn distance_for_flow(
    plan: &Plan,
    question: &ReachQuestion,
    wanted: f64,
    control: &Control,
) -> ReachAnswer {
    let most = plan.facts().tankers.len();
    let (outer, search) = search(question, most);
    let top = question.hauls.len() as u32;
    let work = |_: &mut (), job: u64| {
        let tankers = job as usize + 1;
        let at =
            |step: u32| moved(plan, question.site, tankers, &question.hauls[step as usize - 1]);
        // By hand a longer road never makes more.
        let by_pencil =
            |step: u32| at(step).is_some_and(|plan| by_hand(&worksheet(&plan)) >= wanted);
        let hand = (1..=top).take_while(|step| by_pencil(*step)).last();
        let found = greatest_step(hand.unwrap_or(1), None, top, search, control, |step| {
            Trial::new(&at(step)?, question.demand, wanted).ok()
        });
        let miles = |step: u32| question.hauls[step as usize - 1].miles;
        let row = DistanceRow {
            tankers,
            hand_miles: hand.map(miles),
            held_miles: found.holds.map(miles),
            not_clear_up_to_miles: found.unclear_up_to().map(miles),
            at_the_end: found.holds == Some(top),
            binds: binds(&found),
            replications: found.replications(),
        };
        (row, control.is_stopped())
    };
    let mut distances: Vec<DistanceRow> = Vec::new();
    let mut cut_short = false;
    in_order(
        most as u64,
        outer,
        control,
        || (),
        work,
        |_, (row, stopped)| {
            cut_short |= stopped;
            if !cut_short {
                distances.push(row);
            }
        },
    );
    answer(plan, question, Vec::new(), Some(wanted), distances, control)
}

fn answer(
    plan: &Plan,
    question: &ReachQuestion,
    rows: Vec<ReachRow>,
    wanted_gpm: Option<f64>,
    distances: Vec<DistanceRow>,
    control: &Control,
) -> ReachAnswer {
    let facts = plan.facts();
    ReachAnswer {
        title: facts.title.clone(),
        site: facts.fill_sites[question.site].name.clone(),
        tankers: facts.tankers.iter().map(|tanker| tanker.name.clone()).collect(),
        tanks_and_fills: (facts.tankers.iter())
            .map(|tanker| (tanker.capacity, tanker.fill_rate_at(&facts.fill_sites[question.site])))
            .collect(),
        share: question.share,
        site_cap_gpm: with_sites(plan, &[question.site])
            .ok()
            .and_then(|alone| worksheet(&alone).fill_caps.first().map(|cap| cap.gpm)),
        demand: question.demand,
        rows,
        wanted_gpm,
        distances,
        ended_early: control.is_stopped(),
        seed: question.seed,
    }
}

/// The threads for searches next to each other, and how each is made.
fn search(question: &ReachQuestion, searches: usize) -> (usize, Search) {
    let (outer, inner) = shared_out(question.threads, searches);
    let search = Search {
        share: question.share,
        most_runs: question.most_runs,
        luck: SameLuck { seed: question.seed, threads: inner },
        searches,
        to_be_exact: 0,
        within: WITHIN,
    };
    (outer, search)
}

/// The plan with the one site at this distance and its first `tankers`; `None` where it cannot work.
fn moved(plan: &Plan, site: usize, tankers: usize, haul: &Haul) -> Option<Plan> {
    let plan = with_fleet_of(&with_sites(plan, &[site]).ok()?, tankers).ok()?;
    let mut facts = plan.facts().clone();
    facts.fill_sites[0].out = haul.out.clone();
    facts.fill_sites[0].back = haul.back.clone();
    Plan::check(facts).ok()
}

fn cell(
    plan: Option<&Plan>,
    tankers: usize,
    question: &ReachQuestion,
    grid: &Grid,
    search: Search,
    control: &Control,
) -> ReachCell {
    let Some(plan) = plan else {
        return ReachCell {
            tankers,
            hand_gpm: 0.0,
            held_gpm: None,
            not_clear_up_to_gpm: None,
            can_work: false,
            binds: None,
            broken_at_the_start: 0.0,
            replications: 0,
        };
    };
    let hand = by_hand(&worksheet(plan));
    let (likely, top) = (grid.step_at(hand), grid.step_at(GREATEST_FLOW));
    let found = greatest_step(likely, None, top, search, control, |step| {
        Trial::new(plan, question.demand, grid.flow(step)).ok()
    });
    ReachCell {
        tankers,
        hand_gpm: hand,
        held_gpm: found.holds.map(|step| grid.flow(step)),
        not_clear_up_to_gpm: found.unclear_up_to().map(|step| grid.flow(step)),
        can_work: true,
        binds: binds(&found),
        broken_at_the_start: found.fails.map_or(0.0, |step| {
            broken_at_the_start(plan, question.demand, grid.flow(step), search.luck.seed)
        }),
        replications: found.replications(),
    }
}

fn binds(found: &Greatest) -> Option<(&'static str, f64)> {
    found.look(found.fails?)?.main_cause
}

/// The fewest tankers beyond which no further one is shown to add more than the load it arrives with,
/// spread over the time, and one step of the grid.
///
/// - Given: `loads`, what each tanker brings, gal; `minutes`, how long the flow is kept.
fn enough(cells: &[ReachCell], loads: &[f64], minutes: f64, step_gpm: f64) -> Option<usize> {
    let held = |tankers: usize| cells[tankers - 1].held_gpm;
    (1..cells.len()).find(|few| {
        let cell = &cells[few - 1];
        let Some(base) =
            cell.not_clear_up_to_gpm.filter(|_| cell.held_gpm.is_some()).or(cell.held_gpm)
        else {
            return false;
        };
        (few + 1..=cells.len()).all(|more| {
            let brought: f64 = loads[*few..more].iter().sum();
            held(more).unwrap_or(0.0) - base <= brought / minutes + 1.001 * step_gpm
        })
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn enough_is_where_only_the_first_loads_still_add() {
        let cell = |(place, gpm): (usize, f64)| ReachCell {
            tankers: place + 1,
            hand_gpm: 0.0,
            held_gpm: (gpm > 0.0).then_some(gpm),
            not_clear_up_to_gpm: None,
            can_work: true,
            binds: None,
            broken_at_the_start: 0.0,
            replications: 1,
        };
        let enough_of = |held: [f64; 4]| {
            let cells: Vec<ReachCell> = held.into_iter().enumerate().map(cell).collect();
            // A load of 2,400 gal adds 20 gpm over 120 minutes.
            enough(&cells, &[2_400.0; 4], 120.0, 10.0)
        };
        assert_eq!(enough_of([100.0, 200.0, 230.0, 250.0]), Some(2));
        assert_eq!(enough_of([100.0, 200.0, 240.0, 250.0]), Some(3));
        assert_eq!(enough_of([100.0, 200.0, 300.0, 400.0]), None);
        assert_eq!(enough_of([0.0, 0.0, 0.0, 0.0]), None);
    }
}
