//! Which causes a change is a cure of, and changes that are tried only where their cause came up.

use shuttle_sim::{Cause, Plan, PlanDraft, TimeTaken};

use super::common_changes::Changed;
use super::input::{Change, Input, Quantity, Way};

/// The causes that a change is a cure of; empty where it cures none in particular.
pub fn cures(change: &Change) -> &'static [Cause] {
    match change {
        Change::AidAtTheAlarm { .. } => &[Cause::NotCome, Cause::DraftNotUp],
        Change::OneMoreTanker { .. } => &[Cause::OutOfService, Cause::HaulTooLong],
        Change::AllToOneSite { .. } => {
            &[Cause::SourceNotReady, Cause::FillSiteQueue, Cause::HaulTooLong]
        }
        Change::SiteReadyAtTheAlarm { .. } => &[Cause::SourceNotReady],
        Change::LoadOneByOne { .. } => &[Cause::FillSiteQueue],
        Change::OneMoreDropTank => &[Cause::DumpSiteQueue],
        Change::NurseUntilTheDraft => &[Cause::DraftNotUp],
        Change::GateDown => &[Cause::PrimeLost],
        Change::SparePump => &[Cause::PumpFailed],
        Change::Moved { input, .. } => of_input(input),
    }
}

fn of_input(input: &Input) -> &'static [Cause] {
    match input {
        Input::TankersArrive => &[Cause::NotCome],
        Input::SupplyEngineArrives { .. } | Input::DropTanksArrive => {
            &[Cause::NotCome, Cause::DraftNotUp]
        }
        Input::FirstDropTankSetup | Input::DraftSetup | Input::RestartLevel => &[Cause::DraftNotUp],
        Input::Intakes => &[Cause::DraftNotUp, Cause::DumpSiteQueue],
        Input::PumpAndLay => &[Cause::DraftOrLayTooSmall],
        Input::LowWater | Input::Reprime => &[Cause::PrimeLost],
        Input::SiteReady { .. } => &[Cause::SourceNotReady],
        Input::SiteFlow { .. }
        | Input::FillPositions { .. }
        | Input::FillRate
        | Input::FillConnect
        | Input::FillDisconnect => &[Cause::FillSiteQueue],
        Input::DropTankSize { .. }
        | Input::DumpPositions { .. }
        | Input::DumpPosition
        | Input::DumpClear
        | Input::DumpRate => &[Cause::DumpSiteQueue],
        Input::Drive { .. } | Input::SpeedOnAllRoads | Input::Waste => &[Cause::HaulTooLong],
        Input::NurseConnect
        | Input::NurseDisconnect
        | Input::PumpOffRate
        | Input::Demand
        | Input::EngineTank
        | Input::Reserve => &[],
    }
}

/// Cures that are tried only where their cause came up. What a plan has no room for is left out.
pub fn cures_by_cause(plan: &Plan) -> Vec<Changed> {
    let facts = plan.facts();
    let mut drafts = Vec::new();
    all_to_one_site(facts, &mut drafts);
    sooner(facts, &mut drafts);
    hook_up(facts, &mut drafts);
    (drafts.into_iter())
        .filter_map(|(change, facts)| Some(Changed { change, plan: Plan::check(facts).ok()? }))
        .collect()
}

type Drafts = Vec<(Change, PlanDraft)>;

fn all_to_one_site(facts: &PlanDraft, drafts: &mut Drafts) {
    if facts.fill_sites.len() < 2 {
        return;
    }
    for (place, site) in facts.fill_sites.iter().enumerate() {
        let mut changed = facts.clone();
        for tanker in &mut changed.tankers {
            tanker.fill_site = Some(place);
        }
        if changed != *facts {
            drafts.push((Change::AllToOneSite { site: site.name.clone() }, changed));
        }
    }
}

/// Who comes from nearer: five minutes sooner, or two where there is not that much to spare.
fn sooner(facts: &PlanDraft, drafts: &mut Drafts) {
    let arrives = |input: Input, times: fn(&mut PlanDraft) -> Vec<&mut TimeTaken>| {
        let mut changed = facts.clone();
        let mut times = times(&mut changed);
        let least = times.iter().map(|time| time.mean()).fold(f64::INFINITY, f64::min);
        let by = [5.0, 2.0].into_iter().find(|by| least >= 2.0 * by && least.is_finite())?;
        let now = times.iter().map(|time| time.mean()).sum::<f64>() / times.len() as f64;
        times.iter_mut().for_each(|time| less(time, by));
        Some((moved(input, now, by), changed))
    };
    drafts.extend(arrives(Input::TankersArrive, |facts| {
        facts.tankers.iter_mut().map(|tanker| &mut tanker.call.response).collect()
    }));
    if let Some(engine) = facts.supply.engine.as_ref().filter(|_| !facts.drop_tanks.is_empty()) {
        let input = Input::SupplyEngineArrives { engine: engine.name.clone() };
        drafts.extend(arrives(input, |facts| {
            facts.supply.engine.iter_mut().map(|engine| &mut engine.call.response).collect()
        }));
    }
}

/// A quicker hook-up, a second intake, a pump that stands by for the one that drafts.
fn hook_up(facts: &PlanDraft, drafts: &mut Drafts) {
    if facts.supply.nurse || facts.drop_tanks.is_empty() {
        let mut changed = facts.clone();
        changed.attack_engine.intakes += 1;
        let now = Quantity::Count(facts.attack_engine.intakes);
        let by = Quantity::Count(1);
        let input = Input::Intakes;
        drafts.push((Change::Moved { input, now, way: Way::More, by }, changed));
    }
    if facts.drop_tanks.is_empty() {
        return;
    }
    let mut changed = facts.clone();
    let setup = draft_setup(&mut changed);
    let mean = setup.mean();
    if let Some(by) = [2.0, 1.0, 0.5].into_iter().find(|by| mean >= 2.0 * by) {
        less(setup, by);
        drafts.push((moved(Input::DraftSetup, mean, by), changed));
    }
    let mut changed = facts.clone();
    if let Some(failure) = &mut changed.supply.failure
        && failure.chance > 0.0
        && failure.repair.as_ref().is_none_or(|repair| repair.mean() > mean)
    {
        // Another pump is hooked up in the time this one took.
        failure.repair = Some(TimeTaken::Fixed(mean));
        drafts.push((Change::SparePump, changed));
    }
}

fn draft_setup(facts: &mut PlanDraft) -> &mut TimeTaken {
    match &mut facts.supply.engine {
        Some(engine) => &mut engine.setup,
        None => &mut facts.supply.setup,
    }
}

/// The mean is so many minutes less, its spread in proportion.
fn less(time: &mut TimeTaken, by: f64) {
    let mean = time.mean();
    *time = time.scaled((mean - by) / mean);
}

fn moved(input: Input, now: f64, by: f64) -> Change {
    let (now, by) = (Quantity::Minutes(now), Quantity::Minutes(by));
    Change::Moved { input, now, way: Way::Less, by }
}
