//! Whether a plan may run: every number in its range, every name and every reference good.
//!
//! All mistakes are found at once. What is allowed but odd is in [`super::oddities_in`].

use std::collections::HashSet;

use super::calls::Brought;
use super::facts::{
    AttackEngine, DraftLimitReason, DropTank, Incident, LEAST_RESTART, PlanDraft, Supply, Tanker,
};
use super::fill_sites::{FillSite, Leg, Near, OneLane};
use super::limits;
use super::mistakes::{Mistake, Mistakes, Wrong};
use super::place::{Part, Place, listed};

/// Every mistake in the draft, in the order of its parts; none: it may run.
pub(crate) fn mistakes_in(draft: &PlanDraft) -> Vec<Mistake> {
    let mut found = Mistakes::default();
    found.name(Place::of([Part::Title]), &draft.title);
    incident(&mut found, &draft.incident, &draft.attack_engine);
    attack_engine(&mut found, &draft.attack_engine);
    supply(&mut found, draft);
    drop_tanks(&mut found, draft);
    found.entries(Place::of([Part::Tankers]), draft.tankers.len(), 1, limits::TANKERS);
    for tanker in &draft.tankers {
        self::tanker(&mut found, tanker, draft.fill_sites.len());
    }
    found.entries(Place::of([Part::FillSites]), draft.fill_sites.len(), 1, limits::PLACES);
    for (index, site) in draft.fill_sites.iter().enumerate() {
        fill_site(&mut found, &listed(Part::FillSites, index), site);
        if let Some(pump) = &site.source_pump {
            let place = listed(Part::FillSites, index).at(Part::SourcePump);
            found.name(place.at(Part::Name), &pump.name);
            brought(&mut found, &place, &pump.brought, draft);
            found.time(place.at(Part::Setup), &pump.setup);
        }
    }
    one_lanes(&mut found, &draft.one_lanes, draft.fill_sites.len());
    for (part, (_, cv)) in WHOLE_FIRE.into_iter().zip(draft.whole_fire.each()) {
        found.number(Place::of([Part::WholeFire, part]), cv, limits::CV);
    }
    names(&mut found, draft);
    // Only numbers that are sound themselves can be multiplied.
    if found.list.is_empty() {
        work(&mut found, draft);
    }
    found.list
}

fn incident(found: &mut Mistakes, incident: &Incident, engine: &AttackEngine) {
    found.number(Place::of([Part::Incident, Part::Duration]), incident.duration, limits::WATCHED);
    found.number(Place::of([Part::Incident, Part::Tolerance]), incident.tolerance, limits::MINUTES);
    found.number(Place::of([Part::Incident, Part::Reserve]), incident.reserve, limits::LEVEL);
    if incident.reserve > engine.tank {
        found.wrong(
            Place::of([Part::Incident, Part::Reserve]),
            Wrong::ReserveAboveTank { reserve: incident.reserve, tank: engine.tank },
        );
    }
    let steps = &incident.attack_flow;
    found.entries(Place::of([Part::Incident, Part::AttackFlow]), steps.len(), 1, limits::STEPS);
    for (index, step) in steps.iter().enumerate() {
        let place = Place::of([Part::Incident, Part::AttackFlow]).entry(index);
        found.number(place.at(Part::From), step.from, limits::STEP_FROM);
        // A lull is no flow at all; a trickle would fill nothing in any time that is watched.
        let limit = if step.flow == 0.0 { limits::FLOW } else { limits::RATE };
        found.number(place.at(Part::Flow), step.flow, limit);
        if index > 0 && step.from <= steps[index - 1].from {
            let (from, before) = (step.from, steps[index - 1].from);
            found.wrong(place.at(Part::From), Wrong::StepOutOfOrder { from, before });
        }
    }
    if !steps.is_empty() && steps.iter().all(|step| step.flow == 0.0) {
        found.wrong(Place::of([Part::Incident, Part::AttackFlow]), Wrong::NoAttackFlow);
    }
}

fn attack_engine(found: &mut Mistakes, engine: &AttackEngine) {
    found.name(Place::of([Part::AttackEngine, Part::Name]), &engine.name);
    found.number(Place::of([Part::AttackEngine, Part::Tank]), engine.tank, limits::ENGINE_TANK);
    found.call(&Place::of([Part::AttackEngine]), &engine.call);
    found.time(Place::of([Part::AttackEngine, Part::WaterOn]), &engine.water_on);
    found.count(Place::of([Part::AttackEngine, Part::Intakes]), engine.intakes);
    found.number(
        Place::of([Part::AttackEngine, Part::TankRefill]),
        engine.tank_refill,
        limits::FLOW,
    );
    if engine.call.turnout != 1.0 {
        found.wrong(
            Place::of([Part::AttackEngine, Part::Turnout]),
            Wrong::AttackEngineMayStay(engine.call.turnout),
        );
    }
}

fn supply(found: &mut Mistakes, draft: &PlanDraft) {
    let supply: &Supply = &draft.supply;
    if let Some(engine) = &supply.engine {
        found.name(Place::of([Part::Supply, Part::Engine, Part::Name]), &engine.name);
        found.call(&Place::of([Part::Supply, Part::Engine]), &engine.call);
        found.time(Place::of([Part::Supply, Part::Engine, Part::Setup]), &engine.setup);
    }
    found.time(Place::of([Part::Supply, Part::Setup]), &supply.setup);
    for limit in &supply.draft_limits {
        let part = match limit.reason {
            DraftLimitReason::Stated => Part::DraftLimit,
            DraftLimitReason::PumpAtLift => Part::Pump,
            DraftLimitReason::Lay => Part::Lay,
        };
        found.number(Place::of([Part::Supply, part]), limit.flow, limits::RATE);
    }
    found.time(Place::of([Part::Supply, Part::Reprime]), &supply.reprime);
    found.failure(&Place::of([Part::Supply]), supply.failure.as_ref());
    found.number(Place::of([Part::Supply, Part::Lay]), supply.lay_volume, limits::LAY_VOLUME);
    if supply.lay_volume > 0.0 && supply.draft_limits.is_empty() {
        found.wrong(Place::of([Part::Supply, Part::Lay]), Wrong::DryLayWithoutLimit);
    }
    if let (Some(level), Some(first)) = (supply.restart_level, draft.drop_tanks.first()) {
        found.number(Place::of([Part::Supply, Part::RestartLevel]), level, limits::LEVEL);
        if !first.offers(level) {
            found.wrong(
                Place::of([Part::Supply, Part::RestartLevel]),
                Wrong::RestartLevel {
                    level,
                    least: first.unusable + LEAST_RESTART,
                    capacity: first.capacity,
                },
            );
        }
    }
}

fn drop_tanks(found: &mut Mistakes, draft: &PlanDraft) {
    let least = if draft.supply.nurse { 0 } else { 1 };
    if draft.drop_tanks.len() < least {
        found.wrong(Place::of([Part::DropTanks]), Wrong::NoWayToTheEngine);
    }
    found.entries(Place::of([Part::DropTanks]), draft.drop_tanks.len(), 0, limits::PLACES);
    for (index, tank) in draft.drop_tanks.iter().enumerate() {
        drop_tank(found, &listed(Part::DropTanks, index), tank, draft);
    }
}

fn drop_tank(found: &mut Mistakes, place: &Place, tank: &DropTank, draft: &PlanDraft) {
    found.number(place.at(Part::Capacity), tank.capacity, limits::CAPACITY);
    found.number(place.at(Part::Unusable), tank.unusable, limits::LEVEL);
    if tank.unusable >= tank.capacity {
        found.wrong(
            place.at(Part::Unusable),
            Wrong::AllUnusable { unusable: tank.unusable, capacity: tank.capacity },
        );
    }
    brought(found, place, &tank.brought, draft);
    found.time(place.at(Part::Setup), &tank.setup);
    found.count(place.at(Part::DumpPositions), tank.dump_positions);
    found.number(place.at(Part::Transfer), tank.transfer, limits::TRANSFER);
}

/// What brings the thing at this place.
fn brought(found: &mut Mistakes, place: &Place, by: &Brought, draft: &PlanDraft) {
    let brought_by = place.at(Part::BroughtBy);
    match by {
        Brought::ByTanker(tanker) if *tanker >= draft.tankers.len() => found.wrong(
            brought_by,
            Wrong::NoSuchTanker { number: tanker + 1, there: draft.tankers.len() },
        ),
        Brought::BySupplyEngine if draft.supply.engine.is_none() => {
            found.wrong(brought_by, Wrong::NoSupplyEngine)
        }
        Brought::Itself(call) => found.call(place, call),
        Brought::ByTanker(_) | Brought::ByAttackEngine | Brought::BySupplyEngine => {}
    }
}

fn tanker(found: &mut Mistakes, tanker: &Tanker, fill_sites: usize) {
    let place = listed(Part::Tankers, tanker.listed);
    found.name(place.at(Part::Name), &tanker.name);
    found.number(place.at(Part::Capacity), tanker.capacity, limits::CAPACITY);
    found.call(&place, &tanker.call);
    found.number(place.at(Part::DumpRate), tanker.dump_rate, limits::RATE);
    found.number(place.at(Part::PumpOff), tanker.pump_off, limits::RATE);
    if let Some(limit) = tanker.fill_limit {
        found.number(place.at(Part::FillLimit), limit, limits::RATE);
    }
    found.number(place.at(Part::Waste), tanker.waste, limits::SHARE);
    found.number(place.at(Part::Residual), tanker.residual, limits::SHARE);
    found.number(place.at(Part::BreakdownPerTrip), tanker.breakdown_per_trip, limits::CHANCE);
    if let Some(repair) = &tanker.repair {
        found.time(place.at(Part::Repair), repair);
    }
    if let Some(site) = tanker.fill_site.filter(|site| *site >= fill_sites) {
        found.wrong(
            place.at(Part::FillSite),
            Wrong::NoSuchFillSite { number: site + 1, there: fill_sites },
        );
    }
    for (part, (_, time)) in HANDLING.into_iter().zip(tanker.handling.each()) {
        found.time(place.at(Part::Handling).at(part), time);
    }
    found.number(place.at(Part::CrewCv), tanker.crew_cv, limits::CV);
    found.number(place.at(Part::DriveFactor), tanker.drive_factor, limits::DRIVE_FACTOR);
    if let Some(rate) = tanker.self_fill {
        found.number(place.at(Part::SelfFill), rate, limits::RATE);
    }
}

/// What a whole fire shares, in the order of [`super::shared_luck::WholeFire::each`].
const WHOLE_FIRE: [Part; 3] = [Part::DrivingCv, Part::HandlingCv, Part::ResponseCv];

/// The pieces of handling, in the order of [`super::facts::Handling::each`].
const HANDLING: [Part; 6] = [
    Part::NurseConnect,
    Part::NurseDisconnect,
    Part::DumpPosition,
    Part::DumpClear,
    Part::FillConnect,
    Part::FillDisconnect,
];

fn fill_site(found: &mut Mistakes, place: &Place, site: &FillSite) {
    found.name(place.at(Part::Name), &site.name);
    found.number(place.at(Part::Flow), site.flow, limits::RATE);
    if let Some(pump) = site.pump {
        let place = place.at(Part::Flow).at(Part::Pump).at(Part::Rated);
        found.number(place, pump, limits::RATE);
    }
    found.count(place.at(Part::Positions), site.positions);
    found.time(place.at(Part::Ready), &site.ready);
    if let Some(volume) = site.volume {
        found.number(place.at(Part::Volume), volume, limits::SITE_VOLUME);
    }
    found.number(place.at(Part::Recharge), site.recharge, limits::FLOW);
    if site.recharge > 0.0 && site.volume.is_none() {
        found.wrong(place.at(Part::Recharge), Wrong::RechargeWithoutVolume);
    }
    found.failure(place, site.failure.as_ref());
    leg(found, &place.at(Part::Out), &site.out);
    leg(found, &place.at(Part::Back), &site.back);
}

fn leg(found: &mut Mistakes, place: &Place, leg: &Leg) {
    if let Some(miles) = leg.miles {
        found.number(place.at(Part::Miles), miles, limits::MILES);
    }
    found.time(place.at(Part::Minutes), &leg.time);
    if leg.time.mean() < limits::LEAST_LEG && leg.miles != Some(0.0) {
        found.wrong(place.clone(), Wrong::LegWithoutTime { least: limits::LEAST_LEG });
    }
}

fn one_lanes(found: &mut Mistakes, lanes: &[OneLane], fill_sites: usize) {
    found.entries(Place::of([Part::OneLane]), lanes.len(), 0, limits::PLACES);
    for (index, lane) in lanes.iter().enumerate() {
        let place = listed(Part::OneLane, index);
        found.time(place.at(Part::Crossing), &lane.crossing);
        if lane.crossing.mean() == 0.0 {
            found.wrong(place.at(Part::Crossing), Wrong::CrossingWithoutTime);
        }
        if let Near::FillSite(site) = lane.near
            && site >= fill_sites
        {
            found.wrong(
                place.at(Part::Near),
                Wrong::NoSuchFillSite { number: site + 1, there: fill_sites },
            );
        }
        if lanes[..index].iter().any(|other| other.near == lane.near) {
            found.wrong(place.at(Part::Near), Wrong::SecondOneLane);
        }
    }
}

/// A run takes as long as it has trips, so their number is limited.
fn work(found: &mut Mistakes, draft: &PlanDraft) {
    let trips: f64 = (draft.tankers.iter())
        .map(|tanker| draft.incident.duration / least_cycle(tanker, draft))
        .sum();
    let choices =
        limits::WORK_OF_A_TRIP + draft.fill_sites.len() as f64 + draft.drop_tanks.len() as f64;
    let most = limits::WORK / choices;
    if trips > most {
        let place = Place::of([Part::Incident, Part::Duration]);
        found.wrong(place, Wrong::TooManyTrips { trips, most });
    }
}

/// The mean minutes of a tanker's shortest cycle if it never waits.
fn least_cycle(tanker: &Tanker, draft: &PlanDraft) -> f64 {
    let handling = &tanker.handling;
    let fill_handling = handling.fill_connect.mean() + handling.fill_disconnect.mean();
    let emptying = tanker.load() / tanker.dump_rate.max(tanker.pump_off);
    let cycle = |site: &FillSite| {
        let filling = tanker.fill() / tanker.fill_rate_at(site);
        tanker.drive_to(site).iter().sum::<f64>() + fill_handling + filling + emptying
    };
    draft.fill_sites.iter().map(cycle).fold(f64::INFINITY, f64::min)
}

/// Units and fill sites are told apart by name, and luck is keyed by it.
fn names(found: &mut Mistakes, draft: &PlanDraft) {
    let mut units = vec![(Place::of([Part::AttackEngine, Part::Name]), &draft.attack_engine.name)];
    if let Some(engine) = &draft.supply.engine {
        units.push((Place::of([Part::Supply, Part::Engine, Part::Name]), &engine.name));
    }
    for tanker in &draft.tankers {
        units.push((listed(Part::Tankers, tanker.listed).at(Part::Name), &tanker.name));
    }
    for (index, site) in draft.fill_sites.iter().enumerate() {
        if let Some(pump) = &site.source_pump {
            let place = listed(Part::FillSites, index).at(Part::SourcePump);
            units.push((place.at(Part::Name), &pump.name));
        }
    }
    let sites = (draft.fill_sites.iter().enumerate())
        .map(|(index, site)| (listed(Part::FillSites, index).at(Part::Name), &site.name))
        .collect();
    once(found, units, Wrong::SecondUnit);
    once(found, sites, Wrong::SecondFillSite);
}

/// Each name once.
fn once(found: &mut Mistakes, named: Vec<(Place, &String)>, second: fn(String) -> Wrong) {
    let mut seen = HashSet::new();
    for (place, name) in named {
        if !seen.insert(name) && !name.trim().is_empty() {
            found.wrong(place, second(name.clone()));
        }
    }
}

#[cfg(test)]
#[path = "tests/mod.rs"]
mod tests;
