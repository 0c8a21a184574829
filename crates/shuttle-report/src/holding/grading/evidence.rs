//! The evidence a grading survey asks for, as far as a scenario knows it.
//!
//! Asked for, by the alternative water supply page of ISO (seen): pump capacity at the fire, drop tank
//! capacities, distances from station to fire and from fire to source, tank, discharge rate and fill rate
//! of each tanker, quantity and rate of each source. By a state bureau's checklist for hauled water (seen):
//! written procedures for piped and hauled areas, tank less 10%, fill and dump rates, usable volume of folding
//! tanks, apparatus and people on water not counted as suppression, outside apparatus by communications, alarm
//! handling, joint training, fireground communications and arrival time, the flow held for 2 hours or more; and
//! the certificate that a source is there in a 50-year drought. What a scenario does not state stays `None`, to
//! be filled in by hand: nothing is invented.

use serde::Serialize;
use shuttle_sim::{Brought, Call, DraftLimitReason, DropTank, Plan, PlanDraft, TimeTaken};

use super::conditions::one_way_miles;
use super::survey::{Aid, SiteSurvey, Survey, TankerSurvey};

/// The sheet of one scenario.
#[derive(Debug, Clone, PartialEq)]
pub struct Evidence {
    /// The scenario's title.
    pub title: String,
    /// The first engine.
    pub first_engine: String,
    /// Its own tank, gal.
    pub first_engine_tank_gal: f64,
    /// The engine that drafts at the fire: the supply engine, or the attack engine without one.
    pub pumping_engine: String,
    /// What its pump gives at the lift stated, gpm; `None` where no pump is stated.
    pub pump_at_lift_gpm: Option<f64>,
    /// The drop tanks.
    pub drop_tanks: Vec<DropTankEvidence>,
    /// What is stated for the grading alone; its addresses and rules are left out.
    pub survey: Survey,
    /// Everyone who comes or could, with when they arrive.
    pub arrivals: Vec<Arrival>,
    /// The fill sites.
    pub sources: Vec<Source>,
    /// The tankers.
    pub tankers: Vec<TankerEvidence>,
    /// Times that were measured and are stated as samples.
    pub drills: Vec<Drill>,
}

/// A drop tank.
#[derive(Debug, Clone, PartialEq)]
pub struct DropTankEvidence {
    /// What it holds as it stands, gal.
    pub capacity_gal: f64,
    /// What the strainer reaches of it, gal.
    pub usable_gal: f64,
    /// Who brings it; `None`: its own vehicle.
    pub brought_by: Option<String>,
    /// Setting it up, mean minutes.
    pub setup_min: f64,
}

/// When a unit arrives.
#[derive(Debug, Clone, PartialEq)]
pub struct Arrival {
    /// Its name.
    pub name: String,
    /// Whose it is.
    pub aid: Aid,
    /// When it is asked for, minutes after the alarm.
    pub asked_at_min: f64,
    /// From then to the scene, mean minutes.
    pub response_min: f64,
}

/// What is known of a fill site.
#[derive(Debug, Clone, PartialEq)]
pub struct Source {
    /// Its name.
    pub name: String,
    /// Road from the fire, the longer of the two ways, miles.
    pub from_fire_miles: Option<f64>,
    /// The road there, miles.
    pub out_miles: Option<f64>,
    /// The road back, miles.
    pub back_miles: Option<f64>,
    /// The drive there, mean minutes.
    pub out_min: f64,
    /// The drive back, mean minutes.
    pub back_min: f64,
    /// Flow for all tankers filling at once, gpm.
    pub rate_gpm: f64,
    /// Tankers hooked up at once.
    pub positions: u32,
    /// Water to be had, gal; `None`: not stated.
    pub quantity_gal: Option<f64>,
    /// What runs into it, gpm, where a quantity is stated.
    pub recharge_gpm: Option<f64>,
    /// What is stated of it for the grading alone.
    pub survey: SiteSurvey,
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
#[derive(Debug, Clone, PartialEq)]
pub struct TankerEvidence {
    /// Its name.
    pub name: String,
    /// Whose it is, and whether its tank is sealed.
    pub survey: TankerSurvey,
    /// The department that sends it, if the scenario says so.
    pub department: Option<String>,
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
///   tanker that is not in it nothing counts as stated; `plan`, with everyone, aid too.
pub fn evidence(plan: &Plan, stated: &[Stated], survey: &Survey) -> Evidence {
    let facts = plan.facts();
    let pumping = facts.supply.engine.as_ref().map_or(&facts.attack_engine.name, |one| &one.name);
    Evidence {
        title: facts.title.clone(),
        first_engine: facts.attack_engine.name.clone(),
        first_engine_tank_gal: facts.attack_engine.tank,
        pumping_engine: pumping.clone(),
        pump_at_lift_gpm: (facts.supply.draft_limits.iter())
            .find(|limit| limit.reason == DraftLimitReason::PumpAtLift)
            .map(|limit| limit.flow),
        drop_tanks: facts.drop_tanks.iter().map(|tank| drop_tank(facts, tank)).collect(),
        arrivals: arrivals(facts, survey),
        survey: Survey { addresses: Vec::new(), rules: Vec::new(), ..survey.clone() },
        sources: (facts.fill_sites.iter().enumerate())
            .map(|(place, site)| Source {
                survey: survey.sites.get(place).cloned().unwrap_or_default(),
                name: site.name.clone(),
                from_fire_miles: one_way_miles(site),
                out_miles: site.out.miles,
                back_miles: site.back.miles,
                out_min: site.out.time.mean(),
                back_min: site.back.time.mean(),
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
                    survey: survey.of_tanker(tanker),
                    department: survey.department_of(tanker).cloned(),
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

fn drop_tank(facts: &PlanDraft, tank: &DropTank) -> DropTankEvidence {
    let by = match tank.brought {
        Brought::ByTanker(place) => facts.tankers.get(place).map(|tanker| &tanker.name),
        Brought::ByAttackEngine => Some(&facts.attack_engine.name),
        Brought::BySupplyEngine => facts.supply.engine.as_ref().map(|engine| &engine.name),
        Brought::Itself(_) => None,
    };
    DropTankEvidence {
        capacity_gal: tank.capacity,
        usable_gal: tank.capacity - tank.unusable,
        brought_by: by.cloned(),
        setup_min: tank.setup.mean(),
    }
}

fn arrivals(facts: &PlanDraft, survey: &Survey) -> Vec<Arrival> {
    let arrival = |name: &str, aid: Aid, call: &Call| Arrival {
        name: name.to_owned(),
        aid,
        asked_at_min: call.requested_at,
        response_min: call.response.mean(),
    };
    let first = &facts.attack_engine;
    let engines = (facts.supply.engine.iter()).map(|one| arrival(&one.name, Aid::Own, &one.call));
    let tankers =
        (facts.tankers.iter()).map(|one| arrival(&one.name, survey.of_tanker(one).aid, &one.call));
    [arrival(&first.name, Aid::Own, &first.call)]
        .into_iter()
        .chain(engines)
        .chain(tankers)
        .collect()
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
