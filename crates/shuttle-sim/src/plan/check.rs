//! Whether a plan may run: every number in its range, every name and every reference good.
//!
//! All mistakes are found at once. What is allowed but odd is in [`super::oddities_in`].

use std::collections::HashSet;

use super::facts::{
    AttackEngine, Brought, DraftLimitReason, DropTank, FillSite, Incident, LEAST_RESTART, Leg,
    Near, OneLane, PlanDraft, Supply, Tanker,
};
use super::limits::{self, plain, with_unit};
use super::mistakes::{Mistake, Mistakes, as_share};

/// Every mistake in the draft, in the order of its parts; none: it may run.
pub(crate) fn mistakes_in(draft: &PlanDraft) -> Vec<Mistake> {
    let mut found = Mistakes::default();
    found.name("title", &draft.title);
    incident(&mut found, &draft.incident, &draft.attack_engine);
    attack_engine(&mut found, &draft.attack_engine);
    supply(&mut found, draft);
    drop_tanks(&mut found, draft);
    found.entries("tankers", draft.tankers.len(), 1, limits::TANKERS);
    for tanker in &draft.tankers {
        self::tanker(&mut found, tanker, draft.fill_sites.len());
    }
    found.entries("fill_sites", draft.fill_sites.len(), 1, limits::PLACES);
    for (index, site) in draft.fill_sites.iter().enumerate() {
        fill_site(&mut found, &format!("fill_sites[{index}]"), site);
    }
    one_lanes(&mut found, &draft.one_lanes, draft.fill_sites.len());
    for (key, cv) in draft.whole_fire.each() {
        found.number(&format!("whole_fire.{key}"), cv, limits::CV);
    }
    names(&mut found, draft);
    found.list
}

fn incident(found: &mut Mistakes, incident: &Incident, engine: &AttackEngine) {
    found.number("incident.duration", incident.duration, limits::WATCHED);
    found.number("incident.tolerance", incident.tolerance, limits::MINUTES);
    found.number("incident.reserve", incident.reserve, limits::LEVEL);
    if incident.reserve > engine.tank {
        found.wrong(
            "incident.reserve",
            format!(
                "the reserve of {} is more than the attack engine's tank",
                with_unit(incident.reserve, "gal")
            ),
            format!("up to the tank, {}", with_unit(engine.tank, "gal")),
            None,
        );
    }
    let steps = &incident.attack_flow;
    found.entries("incident.attack_flow", steps.len(), 1, limits::STEPS);
    for (index, step) in steps.iter().enumerate() {
        let place = format!("incident.attack_flow[{index}]");
        found.number(&format!("{place}.from"), step.from, limits::STEP_FROM);
        found.number(&format!("{place}.flow"), step.flow, limits::FLOW);
        if index > 0 && step.from <= steps[index - 1].from {
            found.wrong(
                &format!("{place}.from"),
                format!(
                    "this step begins at {}, not after the one before it",
                    with_unit(step.from, "min")
                ),
                format!("after {}", with_unit(steps[index - 1].from, "min")),
                Some("list the steps in the order of time"),
            );
        }
    }
    if !steps.is_empty() && steps.iter().all(|step| step.flow == 0.0) {
        found.wrong(
            "incident.attack_flow",
            "the attack flow is 0 gpm throughout".to_string(),
            "above 0 gpm in at least one step".to_string(),
            Some("state what the attack lines need, such as 150 gpm for each 1-3/4 in line"),
        );
    }
}

fn attack_engine(found: &mut Mistakes, engine: &AttackEngine) {
    found.name("attack_engine.name", &engine.name);
    found.number("attack_engine.tank", engine.tank, limits::ENGINE_TANK);
    found.call("attack_engine", &engine.call);
    if engine.call.turnout != 1.0 {
        found.wrong(
            "attack_engine.turnout",
            format!("the attack engine comes with a chance of {}", plain(engine.call.turnout)),
            "1: without the attack engine there is no attack to supply".to_string(),
            Some("leave `turnout` out"),
        );
    }
    found.time("attack_engine.water_on", &engine.water_on);
    found.count("attack_engine.intakes", engine.intakes);
    found.number("attack_engine.tank_refill", engine.tank_refill, limits::FLOW);
}

fn supply(found: &mut Mistakes, draft: &PlanDraft) {
    let supply: &Supply = &draft.supply;
    if let Some(engine) = &supply.engine {
        found.name("supply.engine.name", &engine.name);
        found.call("supply.engine", &engine.call);
        found.time("supply.engine.setup", &engine.setup);
    }
    found.time("supply.setup", &supply.setup);
    for limit in &supply.draft_limits {
        let place = match limit.reason {
            DraftLimitReason::Stated => "supply.draft_limit",
            DraftLimitReason::PumpAtLift => "supply.pump",
            DraftLimitReason::Lay => "supply.lay",
        };
        found.number(place, limit.flow, limits::RATE);
    }
    found.time("supply.reprime", &supply.reprime);
    found.failure("supply", supply.failure.as_ref());
    found.number("supply.lay", supply.lay_volume, limits::LAY_VOLUME);
    if supply.lay_volume > 0.0 && supply.draft_limits.is_empty() {
        found.wrong(
            "supply.lay",
            "a dry lay fills as fast as the pump can draw, and nothing limits the draft"
                .to_string(),
            "a draft limit with a dry lay".to_string(),
            Some("state `draft_limit`, or the pump's rating and lift"),
        );
    }
    if let (Some(level), Some(first)) = (supply.restart_level, draft.drop_tanks.first()) {
        found.number("supply.restart_level", level, limits::LEVEL);
        if !first.offers(level) {
            found.wrong(
                "supply.restart_level",
                format!(
                    "the pump is to draw again at {}, which the first drop tank cannot offer",
                    with_unit(level, "gal")
                ),
                format!(
                    "from 1 gal above its unusable, {}, up to its capacity, {}",
                    with_unit(first.unusable + LEAST_RESTART, "gal"),
                    with_unit(first.capacity, "gal")
                ),
                None,
            );
        }
    }
}

fn drop_tanks(found: &mut Mistakes, draft: &PlanDraft) {
    let least = if draft.supply.nurse { 0 } else { 1 };
    if draft.drop_tanks.len() < least {
        found.wrong(
            "drop_tanks",
            "there is no drop tank and nursing is not allowed: no water can reach the engine"
                .to_string(),
            "at least one drop tank, or nursing".to_string(),
            Some("list a drop tank, or set `supply.nurse` to true"),
        );
    }
    found.entries("drop_tanks", draft.drop_tanks.len(), 0, limits::PLACES);
    for (index, tank) in draft.drop_tanks.iter().enumerate() {
        drop_tank(found, &format!("drop_tanks[{index}]"), tank, draft);
    }
}

fn drop_tank(found: &mut Mistakes, place: &str, tank: &DropTank, draft: &PlanDraft) {
    found.number(&format!("{place}.capacity"), tank.capacity, limits::CAPACITY);
    found.number(&format!("{place}.unusable"), tank.unusable, limits::LEVEL);
    if tank.unusable >= tank.capacity {
        found.wrong(
            &format!("{place}.unusable"),
            format!(
                "the unusable {} is the whole drop tank",
                with_unit(tank.unusable, "gal")
            ),
            format!("below its capacity, {}", with_unit(tank.capacity, "gal")),
            Some("state the water left below the strainer, about 125 gal to 375 gal in a tank of 10 x 10 ft"),
        );
    }
    let brought_by = format!("{place}.brought_by");
    match &tank.brought {
        Brought::ByTanker(tanker) if *tanker >= draft.tankers.len() => found.wrong(
            &brought_by,
            format!("it is brought by tanker number {}", tanker + 1),
            format!("one of the {} tankers there are", draft.tankers.len()),
            None,
        ),
        Brought::BySupplyEngine if draft.supply.engine.is_none() => found.wrong(
            &brought_by,
            "it is brought by the supply engine, and there is none".to_string(),
            "a unit of this plan".to_string(),
            Some("add `supply.engine`, or name who brings it"),
        ),
        Brought::Itself(call) => found.call(place, call),
        Brought::ByTanker(_) | Brought::ByAttackEngine | Brought::BySupplyEngine => {}
    }
    found.time(&format!("{place}.setup"), &tank.setup);
    found.count(&format!("{place}.dump_positions"), tank.dump_positions);
    found.number(&format!("{place}.transfer"), tank.transfer, limits::RATE);
}

fn tanker(found: &mut Mistakes, tanker: &Tanker, fill_sites: usize) {
    let place = format!("tankers[{}]", tanker.listed);
    let at = |key: &str| format!("{place}.{key}");
    found.name(&at("name"), &tanker.name);
    found.number(&at("capacity"), tanker.capacity, limits::CAPACITY);
    found.call(&place, &tanker.call);
    found.number(&at("dump_rate"), tanker.dump_rate, limits::RATE);
    found.number(&at("pump_off"), tanker.pump_off, limits::RATE);
    if let Some(limit) = tanker.fill_limit {
        found.number(&at("fill_limit"), limit, limits::RATE);
    }
    for (key, share) in [("waste", tanker.waste), ("residual", tanker.residual)] {
        found.number_with_cure(&at(key), share, limits::SHARE, as_share(share));
    }
    found.number(&at("breakdown_per_trip"), tanker.breakdown_per_trip, limits::CHANCE);
    if let Some(repair) = &tanker.repair {
        found.time(&at("repair"), repair);
    }
    if let Some(site) = tanker.fill_site.filter(|site| *site >= fill_sites) {
        found.wrong(
            &at("fill_site"),
            format!("it is assigned to fill site number {}", site + 1),
            format!("one of the {fill_sites} fill sites there are"),
            None,
        );
    }
    for (key, time) in tanker.handling.each() {
        found.time(&format!("{place}.handling.{key}"), time);
    }
    found.number(&at("crew_cv"), tanker.crew_cv, limits::CV);
}

fn fill_site(found: &mut Mistakes, place: &str, site: &FillSite) {
    let at = |key: &str| format!("{place}.{key}");
    found.name(&at("name"), &site.name);
    found.number(&at("flow"), site.flow, limits::RATE);
    if let Some(pump) = site.pump {
        found.number(&at("pump.rating"), pump, limits::RATE);
    }
    found.count(&at("positions"), site.positions);
    found.time(&at("ready"), &site.ready);
    if let Some(volume) = site.volume {
        found.number(&at("volume"), volume, limits::SITE_VOLUME);
    }
    found.number(&at("recharge"), site.recharge, limits::FLOW);
    if site.recharge > 0.0 && site.volume.is_none() {
        found.wrong(
            &at("recharge"),
            "water without end cannot be recharged".to_string(),
            "only with a limited `volume`".to_string(),
            Some("state the `volume` it holds, or leave `recharge` out"),
        );
    }
    found.failure(place, site.failure.as_ref());
    leg(found, &at("out"), &site.out);
    leg(found, &at("back"), &site.back);
}

/// The least mean time of a leg, minutes: a tanker that is everywhere at once drives without end.
const LEAST_LEG: f64 = 0.01;

fn leg(found: &mut Mistakes, place: &str, leg: &Leg) {
    if let Some(miles) = leg.miles {
        found.number(&format!("{place}.miles"), miles, limits::MILES);
    }
    found.time(&format!("{place}.minutes"), &leg.time);
    if leg.time.mean() < LEAST_LEG && leg.miles != Some(0.0) {
        found.wrong(
            place,
            "the way takes no time to speak of".to_string(),
            format!("a mean of at least {LEAST_LEG} min"),
            Some("state the miles or the minutes to the fill site"),
        );
    }
}

fn one_lanes(found: &mut Mistakes, lanes: &[OneLane], fill_sites: usize) {
    found.entries("one_lane", lanes.len(), 0, limits::PLACES);
    for (index, lane) in lanes.iter().enumerate() {
        let place = format!("one_lane[{index}]");
        found.time(&format!("{place}.crossing"), &lane.crossing);
        if lane.crossing.mean() == 0.0 {
            found.wrong(
                &format!("{place}.crossing"),
                "crossing the one-lane stretch takes no time".to_string(),
                "a mean above 0 min".to_string(),
                Some("state the minutes to cross, or leave the stretch out"),
            );
        }
        if let Near::FillSite(site) = lane.near
            && site >= fill_sites
        {
            found.wrong(
                &format!("{place}.near"),
                format!("it lies near fill site number {}", site + 1),
                format!("one of the {fill_sites} fill sites there are"),
                None,
            );
        }
        if lanes[..index].iter().any(|other| other.near == lane.near) {
            found.wrong(
                &format!("{place}.near"),
                "a second one-lane stretch at the same end of the haul".to_string(),
                "one near the scene and one near each fill site".to_string(),
                Some("put their crossing times together in one"),
            );
        }
    }
}

/// Units and fill sites are told apart by name, and luck is keyed by it.
fn names(found: &mut Mistakes, draft: &PlanDraft) {
    let mut units = vec![("attack_engine.name".to_string(), &draft.attack_engine.name)];
    if let Some(engine) = &draft.supply.engine {
        units.push(("supply.engine.name".to_string(), &engine.name));
    }
    for tanker in &draft.tankers {
        units.push((format!("tankers[{}].name", tanker.listed), &tanker.name));
    }
    let sites = (draft.fill_sites.iter().enumerate())
        .map(|(index, site)| (format!("fill_sites[{index}].name"), &site.name))
        .collect();
    for (named, whose) in [(units, "unit"), (sites, "fill site")] {
        let mut seen = HashSet::new();
        for (place, name) in named {
            if !seen.insert(name) && !name.trim().is_empty() {
                found.wrong(
                    &place,
                    format!("a second {whose} is called \"{name}\""),
                    format!("each {whose} by a name of its own"),
                    Some("give it another name"),
                );
            }
        }
    }
}

#[cfg(test)]
#[path = "check_tests.rs"]
mod tests;
