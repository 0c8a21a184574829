//! Changes that commonly help, each on its own.

use shuttle_sim::{Brought, FillOrder, LowWater, Plan, PlanDraft, TimeTaken};

use super::input::{Change, Input, Quantity, Way, round_flow};
use super::variation::one_more_like;
use crate::units::Units;

/// A change, and the plan with it.
#[derive(Debug, Clone)]
pub struct Changed {
    /// What is changed.
    pub change: Change,
    /// The plan with it.
    pub plan: Plan,
}

/// Changes that commonly help. What a plan has no room for is left out.
pub fn common_changes(plan: &Plan, units: Units) -> Vec<Changed> {
    let facts = plan.facts();
    let mut drafts = Drafts::new();
    ask_at_the_alarm(facts, &mut drafts);
    one_more_tanker(facts, &mut drafts);
    fill_sites(facts, units, &mut drafts);
    dump_site(facts, &mut drafts);
    draft(facts, units, &mut drafts);
    (drafts.into_iter())
        .filter_map(|(change, facts)| Some(Changed { change, plan: Plan::check(facts).ok()? }))
        .collect()
}

type Drafts = Vec<(Change, PlanDraft)>;

fn ask_at_the_alarm(facts: &PlanDraft, drafts: &mut Drafts) {
    let mut changed = facts.clone();
    let mut latest_min = 0.0_f64;
    let mut ask = |requested_at: &mut f64| {
        latest_min = latest_min.max(*requested_at);
        *requested_at = 0.0;
    };
    for tanker in &mut changed.tankers {
        ask(&mut tanker.call.requested_at);
    }
    if let Some(engine) = &mut changed.supply.engine {
        ask(&mut engine.call.requested_at);
    }
    for tank in &mut changed.drop_tanks {
        if let Brought::Itself(call) = &mut tank.brought {
            ask(&mut call.requested_at);
        }
    }
    if latest_min > 0.0 {
        drafts.push((Change::AidAtTheAlarm { latest_min }, changed));
    }
}

fn one_more_tanker(facts: &PlanDraft, drafts: &mut Drafts) {
    let Some(last) = facts.tankers.last() else {
        return;
    };
    let mut changed = facts.clone();
    changed.tankers.push(one_more_like(facts, last));
    drafts.push((Change::OneMoreTanker { like: last.name.clone() }, changed));
}

fn fill_sites(facts: &PlanDraft, units: Units, drafts: &mut Drafts) {
    for (place, site) in facts.fill_sites.iter().enumerate() {
        let name = || site.name.clone();
        let mut changed = facts.clone();
        changed.fill_sites[place].positions += 1;
        drafts.push((one_more(Input::FillPositions { site: name() }, site.positions), changed));

        let mut changed = facts.clone();
        changed.fill_sites[place].flow += more_flow(units);
        drafts.push((more_through(Input::SiteFlow { site: name() }, site.flow, units), changed));

        if site.ready.mean() > 0.0 || site.source_pump.is_some() {
            let mut changed = facts.clone();
            changed.fill_sites[place].ready = TimeTaken::NONE;
            changed.fill_sites[place].source_pump = None;
            drafts.push((Change::SiteReadyAtTheAlarm { site: name() }, changed));
        }
        if site.positions > 1 && site.fill_order == FillOrder::Shared {
            let mut changed = facts.clone();
            changed.fill_sites[place].fill_order = FillOrder::OneByOne;
            drafts.push((Change::LoadOneByOne { site: name() }, changed));
        }
    }
}

fn dump_site(facts: &PlanDraft, drafts: &mut Drafts) {
    let Some(first) = facts.drop_tanks.first() else {
        return;
    };
    let mut changed = facts.clone();
    changed.drop_tanks[0].dump_positions += 1;
    let input = Input::DumpPositions { tank: 0, of: facts.drop_tanks.len() };
    drafts.push((one_more(input, first.dump_positions), changed));

    let mut changed = facts.clone();
    changed.drop_tanks.push(first.clone());
    drafts.push((Change::OneMoreDropTank, changed));

    if !facts.supply.nurse {
        let mut changed = facts.clone();
        changed.supply.nurse = true;
        drafts.push((Change::NurseUntilTheDraft, changed));
    }
}

fn draft(facts: &PlanDraft, units: Units, drafts: &mut Drafts) {
    if facts.drop_tanks.is_empty() {
        return;
    }
    let limit = facts.supply.draft_limit();
    if limit.is_finite() {
        let mut changed = facts.clone();
        for limit in &mut changed.supply.draft_limits {
            limit.flow += more_flow(units);
        }
        drafts.push((more_through(Input::PumpAndLay, limit, units), changed));
    }
    if facts.supply.low_water == LowWater::LosePrime {
        let mut changed = facts.clone();
        changed.supply.low_water = LowWater::Throttle;
        drafts.push((Change::GateDown, changed));
    }
}

fn one_more(input: Input, now: u32) -> Change {
    Change::Moved { input, now: Quantity::Count(now), way: Way::More, by: Quantity::Count(1) }
}

fn more_through(input: Input, now: f64, units: Units) -> Change {
    let by = Quantity::Gpm(more_flow(units));
    Change::Moved { input, now: Quantity::Gpm(now), way: Way::More, by }
}

/// A round number of more flow to try, gpm: 250 gpm or 1,000 L/min.
fn more_flow(units: Units) -> f64 {
    round_flow(units, 250.0, 1000.0)
}
