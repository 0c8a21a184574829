//! The same plan with something changed, for questions of the kind "what if".

use crate::units::{LITRES_PER_GALLON, Units};
use shuttle_sim::{Brought, FillOrder, LowWater, Mistake, Near, Plan, PlanDraft, Tanker};

/// The plan with only the tankers for which `comes` holds; a drop tank brought by one that stays
/// away stays away too.
///
/// - Errors: what is then wrong with the plan, for instance that no drop tank is left to dump into.
pub fn with_tankers(plan: &Plan, comes: &[bool]) -> Result<Plan, Vec<Mistake>> {
    Plan::check(draft_with_tankers(plan, comes))
}

/// The facts of [`with_tankers`], not yet checked.
pub fn draft_with_tankers(plan: &Plan, comes: &[bool]) -> PlanDraft {
    let mut facts = plan.facts().clone();
    let place_of = |old: usize| comes[..old].iter().filter(|comes| **comes).count();
    facts.drop_tanks.retain_mut(|tank| match &mut tank.brought {
        Brought::ByTanker(tanker) if comes[*tanker] => {
            *tanker = place_of(*tanker);
            true
        }
        Brought::ByTanker(_) => false,
        _ => true,
    });
    let mut place = 0;
    facts.tankers.retain(|_| {
        place += 1;
        comes[place - 1]
    });
    fit_restart_level(&mut facts);
    facts
}

/// Where another drop tank has become the first one, the level at which the pump draws again may lie
/// beyond what it can offer: then the pump draws at its top, or a gallon above its unusable water.
pub fn fit_restart_level(facts: &mut PlanDraft) {
    if let (Some(level), Some(first)) = (&mut facts.supply.restart_level, facts.drop_tanks.first())
    {
        *level = level.min(first.capacity).max((first.unusable + 1.0).min(first.capacity));
    }
}

/// The plan with a pump operator who does the other thing at low water: never gates down where the plan's
/// does, gates down where it does not. `None` where nobody drafts.
pub fn with_other_low_water(facts: &PlanDraft) -> Option<Plan> {
    if facts.drop_tanks.is_empty() {
        return None;
    }
    let mut facts = facts.clone();
    facts.supply.low_water = match facts.supply.low_water {
        LowWater::Throttle => LowWater::LosePrime,
        LowWater::LosePrime => LowWater::Throttle,
    };
    Plan::check(facts).ok()
}

/// Whether two tankers are equal in everything but their names.
pub fn alike(a: &Tanker, b: &Tanker) -> bool {
    Tanker { name: String::new(), listed: 0, ..a.clone() }
        == Tanker { name: String::new(), listed: 0, ..b.clone() }
}

/// The plan with its first `count` tankers; beyond those listed, more like the last one.
///
/// - Errors: what is then wrong with the plan.
pub fn with_fleet_of(plan: &Plan, count: usize) -> Result<Plan, Vec<Mistake>> {
    let listed = plan.facts().tankers.len();
    if count <= listed {
        let comes: Vec<bool> = (0..listed).map(|place| place < count).collect();
        return with_tankers(plan, &comes);
    }
    let mut facts = plan.facts().clone();
    for _ in listed..count {
        if let Some(last) = facts.tankers.last().cloned() {
            let more = one_more_like(&facts, &last);
            facts.tankers.push(more);
        }
    }
    Plan::check(facts)
}

/// The plan with only these fill sites, by place in the list. A tanker assigned to one that is left
/// out chooses among those kept.
///
/// - Errors: what is then wrong with the plan.
pub fn with_sites(plan: &Plan, keep: &[usize]) -> Result<Plan, Vec<Mistake>> {
    let mut facts = plan.facts().clone();
    let place_of = |old: usize| keep.iter().position(|kept| *kept == old);
    facts.fill_sites =
        keep.iter().filter_map(|place| plan.facts().fill_sites.get(*place).cloned()).collect();
    for tanker in &mut facts.tankers {
        tanker.fill_site = tanker.fill_site.and_then(place_of);
    }
    facts.one_lanes.retain_mut(|lane| match lane.near {
        Near::Scene => true,
        Near::FillSite(old) => {
            let place = place_of(old);
            lane.near = place.map_or(lane.near, Near::FillSite);
            place.is_some()
        }
    });
    Plan::check(facts)
}

/// The same tanker under the next free name: "Aid tanker 2" gives "Aid tanker 3", "Tanker 7" with
/// no number of its own group gives "Tanker 8".
pub fn one_more_like(facts: &PlanDraft, tanker: &Tanker) -> Tanker {
    let (stem, number) = match tanker.name.rsplit_once(' ') {
        Some((stem, number)) if number.parse::<u32>().is_ok() => {
            (stem, number.parse::<u32>().unwrap_or(1))
        }
        _ => (tanker.name.as_str(), 1),
    };
    let is_taken = |name: &str| {
        facts.tankers.iter().any(|other| other.name == name)
            || facts.attack_engine.name == name
            || (facts.supply.engine.as_ref()).is_some_and(|engine| engine.name == name)
    };
    let name =
        ((number + 1)..).map(|number| format!("{stem} {number}")).find(|name| !is_taken(name));
    Tanker { name: name.unwrap_or_default(), ..tanker.clone() }
}

/// Something that could be changed, as an answer says it.
#[derive(Debug, Clone)]
pub struct Change {
    /// What is changed: "a second fill position at Quarry pond".
    pub words: String,
    /// The plan with it.
    pub plan: Plan,
}

/// Changes that commonly help, each on its own. What a plan has no room for is left out.
pub fn common_changes(plan: &Plan, units: Units) -> Vec<Change> {
    let facts = plan.facts();
    let mut drafts: Vec<(String, PlanDraft)> = Vec::new();
    ask_at_the_alarm(facts, &mut drafts);
    one_more_tanker(facts, &mut drafts);
    fill_sites(facts, units, &mut drafts);
    dump_site(facts, &mut drafts);
    draft(facts, units, &mut drafts);
    (drafts.into_iter())
        .filter_map(|(words, facts)| Some(Change { words, plan: Plan::check(facts).ok()? }))
        .collect()
}

type Drafts = Vec<(String, PlanDraft)>;

fn ask_at_the_alarm(facts: &PlanDraft, drafts: &mut Drafts) {
    let mut changed = facts.clone();
    let mut latest = 0.0_f64;
    let mut ask = |requested_at: &mut f64| {
        latest = latest.max(*requested_at);
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
    if latest > 0.0 {
        let words = format!("all aid asked for at the alarm, not as late as minute {latest:.0}");
        drafts.push((words, changed));
    }
}

fn one_more_tanker(facts: &PlanDraft, drafts: &mut Drafts) {
    let Some(last) = facts.tankers.last() else {
        return;
    };
    let mut changed = facts.clone();
    changed.tankers.push(one_more_like(facts, last));
    drafts.push((format!("one more tanker like {}", last.name), changed));
}

fn fill_sites(facts: &PlanDraft, units: Units, drafts: &mut Drafts) {
    for (place, site) in facts.fill_sites.iter().enumerate() {
        let mut changed = facts.clone();
        changed.fill_sites[place].positions += 1;
        let one_more = ordinal_more(site.positions);
        drafts.push((format!("{one_more} fill position at {}", site.name), changed));

        let mut changed = facts.clone();
        changed.fill_sites[place].flow += more_flow(units);
        let more = units.gpm(more_flow(units));
        drafts.push((format!("{more} more at {}", site.name), changed));

        if site.ready.mean() > 0.0 {
            let mut changed = facts.clone();
            changed.fill_sites[place].ready = shuttle_sim::TimeTaken::NONE;
            drafts.push((format!("{} ready from the alarm on", site.name), changed));
        }
        if site.positions > 1 && site.fill_order == FillOrder::Shared {
            let mut changed = facts.clone();
            changed.fill_sites[place].fill_order = FillOrder::OneByOne;
            let words = format!("connect two, load one at {}", site.name);
            drafts.push((words, changed));
        }
    }
}

fn dump_site(facts: &PlanDraft, drafts: &mut Drafts) {
    let Some(first) = facts.drop_tanks.first() else {
        return;
    };
    let mut changed = facts.clone();
    changed.drop_tanks[0].dump_positions += 1;
    let words = format!("{} dump position", ordinal_more(first.dump_positions));
    drafts.push((words, changed));

    let mut changed = facts.clone();
    changed.drop_tanks.push(first.clone());
    drafts.push(("one more drop tank like the first".to_owned(), changed));

    if !facts.supply.nurse {
        let mut changed = facts.clone();
        changed.supply.nurse = true;
        drafts.push(("nursing the engine until the draft is hooked up".to_owned(), changed));
    }
}

fn draft(facts: &PlanDraft, units: Units, drafts: &mut Drafts) {
    if facts.drop_tanks.is_empty() {
        return;
    }
    if facts.supply.draft_limit().is_finite() {
        let mut changed = facts.clone();
        for limit in &mut changed.supply.draft_limits {
            limit.flow += more_flow(units);
        }
        let more = units.gpm(more_flow(units));
        drafts.push((format!("{more} more through pump and lay"), changed));
    }
    if facts.supply.low_water == LowWater::LosePrime {
        let mut changed = facts.clone();
        changed.supply.low_water = LowWater::Throttle;
        let words = "the pump operator gating down before prime is lost".to_owned();
        drafts.push((words, changed));
    }
}

/// A round number of more flow to try, gpm: 250 gpm or 1,000 L/min.
fn more_flow(units: Units) -> f64 {
    match units {
        Units::Us => 250.0,
        Units::Metric => 1000.0 / LITRES_PER_GALLON,
    }
}

/// "a second" for one that there is, "a third" for two, ...
fn ordinal_more(there_are: u32) -> String {
    match there_are {
        0 => "a".to_owned(),
        1 => "a second".to_owned(),
        2 => "a third".to_owned(),
        3 => "a fourth".to_owned(),
        more => format!("one more than {more}"),
    }
}
