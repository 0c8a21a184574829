//! The figures of `card`.

use scenario_file::Scenario;
use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::options_compared::Interval;
use shuttle_report::summary::Summary;
use shuttle_report::trip_wires::TripWires;
use shuttle_report::turnarounds::Turnarounds;
use shuttle_sim::{Brought, Call, Near, PlanDraft};

use super::calls::{DeadlineFigures, InsteadFigures, TARGET};
use super::lost::TankerLostFigures;
use super::sources::{SourceFigures, sources};
use super::turns::{DryFigures, TurnFigures, dry, turns};
use super::wires::WiresFigures;
use crate::question::hold::HeldFigures;
use crate::question::risk::middle_half;
use crate::shared::as_shown;
use crate::shared::asked::FlowFigures;
use crate::shared::brings::BringsFigures;
use crate::shared::luck::SharedLuck;
use crate::shared::people::{self, PeopleFigures};

/// The figures of `card`. Times count from the alarm where nothing else is said.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct CardFigures {
    /// Share of fires in which the lines run short at least once.
    pub interruption_probability: f64,
    /// Lower end of its exact binomial 95% interval.
    pub ci_low: f64,
    /// Upper end of that interval.
    pub ci_high: f64,
    /// What the 95% of that interval are of.
    pub interval: Interval,
    /// The flow the lines need, step by step.
    pub attack_flow: Vec<FlowFigures>,
    /// The greatest of them.
    pub peak_flow_gpm: f64,
    /// How long it is wanted, from first water.
    pub duration_min: f64,
    /// Everybody who is asked for, by the minute of asking, then as listed.
    #[serde(rename = "who_comes")]
    pub units: Vec<UnitFigures>,
    /// Tankers of the file's aid that are not asked for.
    pub aid_not_asked: Vec<String>,
    /// The drop tanks.
    pub drop_tanks: Vec<DropTankFigures>,
    /// The engine that draws from them, or that the nurse tankers pump into.
    pub pump_at_the_fire: String,
    /// Whether a tanker may nurse the attack engine until the draft is hooked up.
    pub nurse: bool,
    /// The level at which the pump can draw; null where there is no drop tank.
    pub draws_from_gal: Option<f64>,
    /// Where tankers load.
    pub sources: Vec<SourceFigures>,
    /// Tanker drivers share a stretch by the fire that carries one direction at a time.
    pub one_lane_at_the_fire: bool,
    /// The clock.
    pub clock: ClockFigures,
    /// What a load delivers, mean over the tankers.
    pub load_gal: f64,
    /// A load at least every so many minutes keeps up the greatest flow: the one over the other as they are printed.
    pub load_every_min: f64,
    /// Water kept in the attack engine for backing out.
    pub reserve_gal: f64,
    /// The attack engine's own tank.
    pub engine_tank_gal: f64,
    /// The trip wires.
    pub trip_wires: WiresFigures,
    /// A tanker that does not come back; null where no tanker comes.
    #[serde(rename = "if_tanker_lost")]
    pub tanker_lost: Option<TankerLostFigures>,
    /// By tanker: how long it is away for a load, and when it is overdue.
    pub turns: Vec<TurnFigures>,
    /// Sources that run dry in some fires.
    pub runs_dry: Vec<DryFigures>,
    /// By when everyone is called, and what calling later costs; null where all are called at the alarm.
    pub deadline: Option<DeadlineFigures>,
    /// Share of fires running short above which the card is not to be used.
    pub target: f64,
    /// Whom to ask for instead; null where the plan keeps the target, or the file lists no aid.
    pub instead: Option<InsteadFigures>,
    /// What these units can hold; null where the plan keeps the target.
    pub can_be_held: Option<HeldFigures>,
    /// People for the water.
    pub people: PeopleFigures,
    /// What a whole fire was taken to share.
    pub shared_luck: SharedLuck,
}

/// What a unit is there for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Role {
    /// Its lines must not run dry.
    AttackEngine,
    /// Draws from the drop tanks.
    SupplyEngine,
    /// Brings a drop tank and no water.
    DropTankCarrier,
    /// Pumps at a source.
    SourcePump,
    /// Carries water.
    Tanker,
}

/// A unit that is asked for.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct UnitFigures {
    /// Its name; null for what carries a drop tank and has none.
    pub name: Option<String>,
    /// What it is there for.
    pub role: Role,
    /// Its department; null where the scenario names none.
    pub department: Option<String>,
    /// When it is asked for, minutes after the alarm.
    pub requested_at_min: f64,
    /// How long it takes to come, mean.
    pub response_min: f64,
    /// Share of fires to which it comes.
    pub comes_share: f64,
    /// Numbers of the drop tanks it brings, from 1.
    pub brings_drop_tanks: Vec<usize>,
    /// Fill sites whose pump it brings.
    pub brings_pump_to: Vec<String>,
    /// Its tank; null for what carries no water.
    pub capacity_gal: Option<f64>,
    /// The alarm it is on, where the scenario states one.
    #[schemars(schema_with = "crate::shared::closed_words::alarm_or_null")]
    pub alarm: Option<&'static str>,
    /// Tankers that come with it or not at all: of a department that comes whole, or on the same alarm.
    pub comes_only_with: Vec<String>,
}

/// A drop tank.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct DropTankFigures {
    /// Its place in the list, from 1.
    pub number: usize,
    /// What it holds.
    pub capacity_gal: f64,
    /// Water below the strainer's reach.
    pub unusable_gal: f64,
    /// Who brings it.
    pub brought_by: BringsFigures,
    /// Tankers that can dump into it at once.
    #[serde(rename = "positions")]
    pub dump_positions: u32,
}

/// The clock: minutes after the alarm.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct ClockFigures {
    /// First water, mean, minutes after the alarm.
    pub first_water_min: f64,
    /// The supply established, minutes after the alarm, mean over the fires where it is; null: never, or nothing drafts.
    pub supply_min: Option<f64>,
    /// The first tanker with water on scene, every time at its mean.
    pub first_tanker_min: f64,
    /// The minutes between which the middle half of the first shortfalls begin; null where there were none.
    pub watch_from_min: Option<f64>,
    /// The last of them, minutes after the alarm.
    pub watch_to_min: Option<f64>,
}

/// What was found out beside the runs of the plan.
pub(super) struct Found {
    pub(super) tanker_lost: Option<TankerLostFigures>,
    pub(super) turnarounds: Turnarounds,
    pub(super) deadline: Option<DeadlineFigures>,
    pub(super) instead: Option<InsteadFigures>,
    pub(super) can_be_held: Option<HeldFigures>,
}

impl CardFigures {
    /// Of a plan, its runs in figures, and the trip wires.
    pub(super) fn new(
        scenario: &Scenario,
        summary: &Summary,
        wires: &TripWires,
        found: Found,
    ) -> CardFigures {
        let plan = &scenario.plan;
        let facts = plan.facts();
        let steps = &facts.incident.attack_flow;
        let peak_flow_gpm = steps.iter().fold(0.0_f64, |most, step| most.max(step.flow));
        let load_gal = facts.tankers.iter().map(shuttle_sim::Tanker::load).sum::<f64>()
            / facts.tankers.len().max(1) as f64;
        let shown = |of: f64| as_shown::whole(of, scenario.units);
        let first = facts.drop_tanks.first();
        let watch = summary.first_interruption_min.map(|_| middle_half(summary));
        CardFigures {
            interruption_probability: summary.interruption_probability,
            ci_low: summary.ci_low,
            ci_high: summary.ci_high,
            interval: Interval::Single,
            attack_flow: (steps.iter())
                .map(|step| FlowFigures { from_first_water_min: step.from, flow_gpm: step.flow })
                .collect(),
            peak_flow_gpm,
            duration_min: facts.incident.duration,
            units: units(scenario),
            aid_not_asked: (scenario.aid.everyone.facts().tankers.iter())
                .filter(|one| !facts.tankers.iter().any(|comes| comes.name == one.name))
                .map(|one| one.name.clone())
                .collect(),
            drop_tanks: drop_tanks(facts),
            pump_at_the_fire: (facts.supply.engine.as_ref())
                .map_or(&facts.attack_engine.name, |engine| &engine.name)
                .clone(),
            nurse: facts.supply.nurse,
            draws_from_gal: first.map(|tank| facts.supply.restart_level_for(tank)),
            sources: sources(facts),
            one_lane_at_the_fire: facts.one_lanes.iter().any(|lane| lane.near == Near::Scene),
            clock: ClockFigures {
                first_water_min: summary.first_water_min_mean,
                supply_min: first.and(summary.established_min_mean),
                first_tanker_min: (facts.tankers.iter())
                    .map(|tanker| comes_at(&tanker.call))
                    .fold(f64::INFINITY, f64::min),
                watch_from_min: watch.map(|(from, _)| from),
                watch_to_min: watch.map(|(_, to)| to),
            },
            load_gal,
            load_every_min: shown(load_gal) / shown(peak_flow_gpm),
            reserve_gal: facts.incident.reserve,
            engine_tank_gal: facts.attack_engine.tank,
            trip_wires: WiresFigures::new(wires, plan, peak_flow_gpm),
            tanker_lost: found.tanker_lost,
            turns: turns(plan, &found.turnarounds, peak_flow_gpm),
            runs_dry: dry(plan, &found.turnarounds),
            deadline: found.deadline,
            target: TARGET,
            instead: found.instead,
            can_be_held: found.can_be_held,
            people: people::needed(scenario),
            shared_luck: SharedLuck::of(plan),
        }
    }
}

/// Minutes after the alarm, every time at its mean.
fn comes_at(call: &Call) -> f64 {
    call.requested_at + call.response.mean()
}

/// Everybody who is asked for: first who is asked for first, of those the engines, then as listed.
fn units(scenario: &Scenario) -> Vec<UnitFigures> {
    let facts = scenario.plan.facts();
    let brings = |by: Brought| -> Vec<usize> {
        (facts.drop_tanks.iter().enumerate())
            .filter(|(_, tank)| tank.brought == by)
            .map(|(place, _)| place + 1)
            .collect()
    };
    let unit = |name: Option<&String>, role, call: &Call, brings_drop_tanks| UnitFigures {
        name: name.cloned(),
        role,
        department: name.and_then(|name| scenario.aid.department_of(name)),
        requested_at_min: call.requested_at,
        response_min: call.response.mean(),
        comes_share: call.turnout,
        brings_drop_tanks,
        brings_pump_to: pumps_brought_by(facts, name),
        capacity_gal: None,
        alarm: name.and_then(|name| scenario.aid.alarm_of(name)).map(scenario_file::Alarm::key),
        comes_only_with: name.map(|name| scenario.aid.comes_only_with(name)).unwrap_or_default(),
    };
    let engine = &facts.attack_engine;
    let mut units = vec![UnitFigures {
        capacity_gal: Some(engine.tank),
        ..unit(
            Some(&engine.name),
            Role::AttackEngine,
            &engine.call,
            brings(Brought::ByAttackEngine),
        )
    }];
    units.extend(facts.supply.engine.iter().map(|engine| {
        let brings = brings(Brought::BySupplyEngine);
        unit(Some(&engine.name), Role::SupplyEngine, &engine.call, brings)
    }));
    units.extend(facts.drop_tanks.iter().enumerate().filter_map(|(place, tank)| {
        let Brought::Itself(call) = &tank.brought else { return None };
        Some(unit(None, Role::DropTankCarrier, call, vec![place + 1]))
    }));
    units.extend(facts.fill_sites.iter().filter_map(|site| {
        let pump = site.source_pump.as_ref()?;
        Some(unit(Some(&pump.name), Role::SourcePump, pump.call()?, Vec::new()))
    }));
    units.extend(facts.tankers.iter().enumerate().map(|(place, tanker)| UnitFigures {
        capacity_gal: Some(tanker.capacity),
        ..unit(Some(&tanker.name), Role::Tanker, &tanker.call, brings(Brought::ByTanker(place)))
    }));
    units.sort_by(|a, b| a.requested_at_min.total_cmp(&b.requested_at_min));
    units
}

/// Who brings it; `None`: its own vehicle.
fn bringer<'f>(facts: &'f PlanDraft, by: &Brought) -> Option<&'f String> {
    match by {
        Brought::Itself(_) => None,
        Brought::ByTanker(place) => Some(&facts.tankers[*place].name),
        Brought::ByAttackEngine => Some(&facts.attack_engine.name),
        Brought::BySupplyEngine => {
            Some(facts.supply.engine.as_ref().map_or(&facts.attack_engine.name, |one| &one.name))
        }
    }
}

fn pumps_brought_by(facts: &PlanDraft, name: Option<&String>) -> Vec<String> {
    let brings = |by: &Brought| name.is_some() && bringer(facts, by) == name;
    (facts.fill_sites.iter())
        .filter(|site| site.source_pump.as_ref().is_some_and(|pump| brings(&pump.brought)))
        .map(|site| site.name.clone())
        .collect()
}

fn drop_tanks(facts: &PlanDraft) -> Vec<DropTankFigures> {
    let brought_by = |by: &Brought| match bringer(facts, by) {
        Some(name) => BringsFigures::Unit { name: name.clone() },
        None => BringsFigures::Itself,
    };
    (facts.drop_tanks.iter().enumerate())
        .map(|(place, tank)| DropTankFigures {
            number: place + 1,
            capacity_gal: tank.capacity,
            unusable_gal: tank.unusable,
            brought_by: brought_by(&tank.brought),
            dump_positions: tank.dump_positions,
        })
        .collect()
}
