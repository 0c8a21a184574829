//! The same plan with other tankers or fill sites.

use shuttle_sim::{Brought, LowWater, Mistake, Near, Plan, PlanDraft, Tanker};

/// The plan with only the tankers for which `comes` holds; a drop tank brought by one that stays
/// away stays away too.
///
/// - Errors: what is then wrong with the plan, for instance that no drop tank is left to dump into.
pub fn with_tankers(plan: &Plan, comes: &[bool]) -> Result<Plan, Vec<Mistake>> {
    Plan::check(draft_with_tankers(plan.facts(), comes))
}

/// The facts of [`with_tankers`], not yet checked.
pub fn draft_with_tankers(facts: &PlanDraft, comes: &[bool]) -> PlanDraft {
    let mut facts = facts.clone();
    let place_of = |old: usize| comes[..old].iter().filter(|comes| **comes).count();
    facts.drop_tanks.retain_mut(|tank| match &mut tank.brought {
        Brought::ByTanker(tanker) if comes[*tanker] => {
            *tanker = place_of(*tanker);
            true
        }
        Brought::ByTanker(_) => false,
        _ => true,
    });
    without_pumps_brought(&mut facts, |brought| match brought {
        Brought::ByTanker(tanker) if comes[*tanker] => {
            *tanker = place_of(*tanker);
            false
        }
        Brought::ByTanker(_) => true,
        _ => false,
    });
    let mut place = 0;
    facts.tankers.retain(|_| {
        place += 1;
        comes[place - 1]
    });
    fit_restart_level(&mut facts);
    facts
}

/// Fill sites whose pump stays away with what brings it serve nobody but those who fill themselves; nobody else is
/// sent there where there is another.
///
/// - Given: whether what brings a pump stays away.
pub fn without_pumps_brought(
    facts: &mut PlanDraft,
    mut stays_away: impl FnMut(&mut Brought) -> bool,
) {
    for place in 0..facts.fill_sites.len() {
        let pump = facts.fill_sites[place].source_pump.as_mut();
        if pump.is_some_and(|pump| stays_away(&mut pump.brought)) {
            without_source_pump(facts, place);
        }
    }
}

/// The same for the pump of one site.
pub fn without_source_pump(facts: &mut PlanDraft, place: usize) {
    let site = &mut facts.fill_sites[place];
    let self_fill = site.self_fill;
    site.never_serves();
    site.self_fill = self_fill;
    if facts.fill_sites.len() > 1 {
        for tanker in &mut facts.tankers {
            let goes_there = tanker.fill_site == Some(place);
            if goes_there && tanker.self_fill_at(&facts.fill_sites[place]).is_none() {
                tanker.fill_site = None;
            }
        }
    }
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

/// The plan with the tankers behind the first `own` in the order in which they would arrive, by means.
///
/// - Errors: as [`Plan::check`] gives them.
pub fn in_order_of_arrival(plan: &Plan, own: usize) -> Result<Plan, Vec<Mistake>> {
    let mut facts = plan.facts().clone();
    let arrives = |tanker: &Tanker| tanker.call.requested_at + tanker.call.response.mean();
    let mut order: Vec<usize> = (0..facts.tankers.len()).collect();
    order[own..].sort_by(|a, b| {
        arrives(&plan.facts().tankers[*a]).total_cmp(&arrives(&plan.facts().tankers[*b]))
    });
    facts.tankers = order.iter().map(|place| plan.facts().tankers[*place].clone()).collect();
    let pumps = facts.fill_sites.iter_mut().filter_map(|site| site.source_pump.as_mut());
    let brought = (facts.drop_tanks.iter_mut().map(|tank| &mut tank.brought))
        .chain(pumps.map(|pump| &mut pump.brought));
    for brought in brought {
        if let Brought::ByTanker(tanker) = brought {
            *tanker = order.iter().position(|place| place == tanker).unwrap_or(*tanker);
        }
    }
    Plan::check(facts)
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
    Plan::check(draft_with_sites(plan.facts(), keep))
}

/// The facts of [`with_sites`], not yet checked.
pub fn draft_with_sites(all: &PlanDraft, keep: &[usize]) -> PlanDraft {
    let mut facts = all.clone();
    let place_of = |old: usize| keep.iter().position(|kept| *kept == old);
    facts.fill_sites =
        keep.iter().filter_map(|place| all.fill_sites.get(*place).cloned()).collect();
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
    facts
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
    // Whoever it is, it is not of the department that stays away with the other.
    Tanker { name: name.unwrap_or_default(), comes_with: None, ..tanker.clone() }
}
