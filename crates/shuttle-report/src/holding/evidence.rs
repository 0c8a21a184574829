//! The evidence a grading survey asks for, as far as a scenario knows it.
//!
//! Asked for, by the alternative water supply page of ISO (seen): pump capacity at the fire, drop tank
//! capacities, distances from station to fire and from fire to source, tank, discharge rate and fill rate
//! of each tanker, quantity and rate of each source. What a scenario does not state stays `None`, to be
//! filled in by hand: nothing is invented.

use serde::Serialize;
use shuttle_sim::{DraftLimitReason, Plan, TimeTaken};

/// The sheet of one scenario.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Evidence {
    /// The scenario's title.
    pub title: String,
    /// The engine that drafts at the fire: the supply engine, or the attack engine without one.
    pub pumping_engine: String,
    /// What its pump gives at the lift stated, gpm; `None` where no pump is stated.
    pub pump_at_lift_gpm: Option<f64>,
    /// Capacities of the drop tanks, gal.
    pub drop_tanks_gal: Vec<f64>,
    /// Road from the station to the fire, miles; a scenario states minutes, never this distance.
    pub station_to_fire_miles: Option<f64>,
    /// The fill sites.
    pub sources: Vec<Source>,
    /// The tankers.
    pub tankers: Vec<TankerEvidence>,
    /// Times that were measured and are stated as samples.
    pub drills: Vec<Drill>,
}

/// What is known of a fill site.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Source {
    /// Its name.
    pub name: String,
    /// Road from the fire, miles.
    pub from_fire_miles: Option<f64>,
    /// Flow for all tankers filling at once, gpm.
    pub rate_gpm: f64,
    /// Tankers hooked up at once.
    pub positions: u32,
    /// Water to be had, gal; `None`: not stated.
    pub quantity_gal: Option<f64>,
    /// What runs into it, gpm, where a quantity is stated.
    pub recharge_gpm: Option<f64>,
}

/// Which figures of a listed tanker the scenario states; what it does not is assumed by the format.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stated {
    /// The rate into a drop tank.
    pub dump_rate: bool,
    /// The greatest rate at which it fills.
    pub fill_limit: bool,
    /// The share of a load that is lost.
    pub waste: bool,
}

/// A figure, and whether it is assumed because the scenario does not state it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Figure {
    /// Its value.
    pub value: f64,
    /// Whether it is assumed.
    pub assumed: bool,
}

/// What is known of a tanker.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TankerEvidence {
    /// Its name.
    pub name: String,
    /// Its tank, gal.
    pub tank_gal: f64,
    /// Rate into a drop tank, gpm.
    pub discharge_gpm: Figure,
    /// Greatest rate at which it fills, gpm.
    pub fill_gpm: Figure,
    /// Share of a load that is lost, between 0 and 1.
    pub waste: Figure,
}

/// What was timed; sites by name.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Timed {
    /// Setting up the draft.
    DraftSetup,
    /// Priming again.
    Reprime,
    /// Setting up the supply engine.
    SupplyEngineSetup,
    /// Setting up a drop tank.
    DropTankSetup,
    /// The drive to a site.
    DriveTo(String),
    /// The drive back from it.
    DriveBack(String),
    /// Making a site ready.
    SiteReady(String),
    /// Connecting at the fill site.
    FillConnect,
    /// Disconnecting there.
    FillDisconnect,
    /// Getting into place at the drop tank.
    DumpPosition,
    /// Pulling clear of it.
    DumpClear,
    /// Connecting to the engine.
    NurseConnect,
    /// Disconnecting from it.
    NurseDisconnect,
}

/// Measured times.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Drill {
    /// What was timed.
    pub what: Timed,
    /// How often.
    pub times: usize,
    /// Mean, minutes.
    pub mean_min: f64,
}

/// What a scenario knows of all that.
///
/// - Given: `stated`, by place in the scenario's list ([`listed`](shuttle_sim::Tanker::listed)); of a
///   tanker that is not in it nothing counts as stated.
pub fn evidence(plan: &Plan, stated: &[Stated]) -> Evidence {
    let facts = plan.facts();
    let pumping = facts.supply.engine.as_ref().map_or(&facts.attack_engine.name, |one| &one.name);
    Evidence {
        title: facts.title.clone(),
        pumping_engine: pumping.clone(),
        pump_at_lift_gpm: (facts.supply.draft_limits.iter())
            .find(|limit| limit.reason == DraftLimitReason::PumpAtLift)
            .map(|limit| limit.flow),
        drop_tanks_gal: facts.drop_tanks.iter().map(|tank| tank.capacity).collect(),
        station_to_fire_miles: None,
        sources: (facts.fill_sites.iter())
            .map(|site| Source {
                name: site.name.clone(),
                from_fire_miles: site.out.miles,
                rate_gpm: site.flow,
                positions: site.positions,
                quantity_gal: site.volume,
                recharge_gpm: site.volume.map(|_| site.recharge),
            })
            .collect(),
        tankers: (facts.tankers.iter())
            .map(|tanker| {
                let stated = stated.get(tanker.listed);
                let figure = |value: f64, is_stated: fn(&Stated) -> bool| Figure {
                    value,
                    assumed: !stated.is_some_and(is_stated),
                };
                TankerEvidence {
                    name: tanker.name.clone(),
                    tank_gal: tanker.capacity,
                    discharge_gpm: figure(tanker.dump_rate, |one| one.dump_rate),
                    fill_gpm: figure(facts.greatest_fill_limit(tanker), |one| one.fill_limit),
                    waste: figure(tanker.waste, |one| one.waste),
                }
            })
            .collect(),
        drills: drills(plan),
    }
}

/// Everything that is stated as measured times; handling that tankers share is told once.
fn drills(plan: &Plan) -> Vec<Drill> {
    let facts = plan.facts();
    let mut found: Vec<Drill> = Vec::new();
    let mut keep = |what: Timed, time: &TimeTaken| {
        if let TimeTaken::Samples(samples) = time {
            let drill = Drill { what, times: samples.len(), mean_min: time.mean() };
            if !found.contains(&drill) {
                found.push(drill);
            }
        }
    };
    keep(Timed::DraftSetup, &facts.supply.setup);
    keep(Timed::Reprime, &facts.supply.reprime);
    if let Some(engine) = &facts.supply.engine {
        keep(Timed::SupplyEngineSetup, &engine.setup);
    }
    for tank in &facts.drop_tanks {
        keep(Timed::DropTankSetup, &tank.setup);
    }
    for site in &facts.fill_sites {
        keep(Timed::DriveTo(site.name.clone()), &site.out.time);
        keep(Timed::DriveBack(site.name.clone()), &site.back.time);
        keep(Timed::SiteReady(site.name.clone()), &site.ready);
    }
    for tanker in &facts.tankers {
        let handling = &tanker.handling;
        keep(Timed::FillConnect, &handling.fill_connect);
        keep(Timed::FillDisconnect, &handling.fill_disconnect);
        keep(Timed::DumpPosition, &handling.dump_position);
        keep(Timed::DumpClear, &handling.dump_clear);
        keep(Timed::NurseConnect, &handling.nurse_connect);
        keep(Timed::NurseDisconnect, &handling.nurse_disconnect);
    }
    found
}
