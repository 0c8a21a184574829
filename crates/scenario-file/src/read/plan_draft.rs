//! From a checked structure to the draft of a plan: the incident, the attack engine, the supply, drop tanks,
//! one-lane roads.

use fireground::told::{Part as Worked, Unit};
use shuttle_report::survey::Survey;
use shuttle_sim::{
    AttackEngine, Brought, Call, DropTank, FillSite, FlowStep, Incident, LowWater, Near, OneLane,
    PlanDraft, SourcePump, Supply, SupplyEngine, Tanker, WholeFire,
};

use super::reader::Reader;
use super::tankers_and_sites::Uses;
use crate::errors::kinds::NoteKind;
use crate::errors::message::{key as a_key, says};
use crate::format::fire::incident_and_supply::{
    OfAttackEngine, OfFlowStep, OfIncident, OfSupply, OfSupplyEngine,
};
use crate::format::haul::drop_tanks::OfDropTank;
use crate::format::haul::fill_sites::{OfFillSite, OfSourcePump};
use crate::format::haul::roads::OfOneLane;
use crate::format::takes::Either;
use crate::format::whole_files::{OfScenario, OfWholeFire};
use crate::quantities::quantity::Units;
use crate::quantities::worked::worked;
use crate::read::beside::crew_and_hose::{Crew, Hose};
use crate::read::facts::rests_on::unsure;
use crate::read::facts::times::failure;
use crate::structure::entry::Entry;

/// What a drop tank's bringer is, and what to do where it is not there.
const BRINGER: (&str, &str) = (
    "unit",
    "name a unit that comes, give the drop tank its own `response` in place of `brought_by`, or take the drop \
     tank out too",
);
/// What the bringer of a source's pump is, and what to do where it is not there.
const PUMP_BRINGER: (&str, &str) = (
    "unit",
    "name a unit that comes, give the pump its own `response` in place of `brought_by`, or take `source_pump` out",
);
/// What a one-lane stretch lies near, and what to do where it is not there.
const NEAR: (&str, &str) =
    ("fill site", "write \"scene\" or the name of a fill site, or take the stretch out too");

/// A draft, with what else was read and gathered.
pub(crate) struct Reading {
    pub(crate) draft: PlanDraft,
    pub(crate) notes: Vec<String>,
    pub(crate) crew: Crew,
    /// `None` only together with a mistake.
    pub(crate) hose: Option<Hose>,
    pub(crate) survey: Survey,
    pub(crate) reader: Reader,
}

/// Reads a scenario whose structure is sound.
///
/// A value that cannot be worked out (an unknown name, facts that give no flow) is a mistake and is
/// replaced by a harmless stand-in, so that the rest of the draft can still be checked.
pub(crate) fn draft_of(root: &Entry<'_, OfScenario>, units: Units) -> Reading {
    let mut reader = Reader::new(units);
    let incident = reader.incident(&root.get(&OfScenario::INCIDENT));
    let attack_engine = reader.attack_engine(&root.get(&OfScenario::ATTACK_ENGINE));
    let mut fill_sites = reader.fill_sites(&root.get(&OfScenario::FILL_SITES));
    let tanks = root.get(&OfScenario::DROP_TANKS);
    let supply = reader.supply(&root.get(&OfScenario::SUPPLY), !tanks.is_empty());
    let site_names: Vec<&str> = fill_sites.iter().map(|site| site.name.as_str()).collect();
    let uses = Uses { nursing: supply.nurse, dumping: !tanks.is_empty() };
    let tankers = reader.tankers(root, &site_names, uses);
    let bringers = units_by_name(&attack_engine, &supply, &tankers);
    let drop_tanks = reader.drop_tanks(&tanks, &bringers);
    let one_lanes = reader.one_lanes(root, &site_names);
    reader.source_pumps(&root.get(&OfScenario::FILL_SITES), &bringers, &mut fill_sites);
    let crew = reader.crew(&root.get(&OfScenario::CREW));
    let hose = reader.hose(&root.get(&OfScenario::HOSE));
    let survey = reader.survey(root);
    Reading {
        draft: PlanDraft {
            title: root.get(&OfScenario::TITLE).to_owned(),
            incident,
            attack_engine,
            supply,
            drop_tanks,
            tankers,
            fill_sites,
            one_lanes,
            whole_fire: whole_fire(&root.get(&OfScenario::WHOLE_FIRE)),
            unsure: unsure(root),
        },
        notes: notes(root.get(&OfScenario::NOTES)),
        crew,
        hose,
        survey,
        reader,
    }
}

/// The notes of a file, one by one.
pub(crate) fn notes(stated: Option<Either<&str, Vec<&str>>>) -> Vec<String> {
    match stated {
        Some(Either::This(note)) => vec![note.to_owned()],
        Some(Either::That(notes)) => notes.into_iter().map(str::to_owned).collect(),
        None => Vec::new(),
    }
}

/// What a one-lane stretch near the scene says.
pub(super) const SCENE: &str = "scene";

/// The one-lane stretches of a scenario.
pub(super) fn one_lanes<'n>(root: &Entry<'n, OfScenario>) -> Vec<Entry<'n, OfOneLane>> {
    match root.get(&OfScenario::ONE_LANE) {
        Some(Either::This(only)) => vec![only],
        Some(Either::That(lanes)) => lanes,
        None => Vec::new(),
    }
}

fn whole_fire(entry: &Entry<'_, OfWholeFire>) -> WholeFire {
    WholeFire {
        driving_cv: entry.get(&OfWholeFire::DRIVING_CV),
        handling_cv: entry.get(&OfWholeFire::HANDLING_CV),
        response_cv: entry.get(&OfWholeFire::RESPONSE_CV),
    }
}

/// Everything that can bring a drop tank.
fn units_by_name(
    attack_engine: &AttackEngine,
    supply: &Supply,
    tankers: &[Tanker],
) -> Vec<(String, Brought)> {
    let mut units = vec![(attack_engine.name.clone(), Brought::ByAttackEngine)];
    if let Some(engine) = &supply.engine {
        units.push((engine.name.clone(), Brought::BySupplyEngine));
    }
    units.extend(
        (tankers.iter().enumerate())
            .map(|(index, tanker)| (tanker.name.clone(), Brought::ByTanker(index))),
    );
    units
}

impl Reader {
    fn incident(&mut self, entry: &Entry<'_, OfIncident>) -> Incident {
        let steady = |flow| vec![FlowStep { from: 0.0, flow }];
        let attack_flow = match entry.get(&OfIncident::ATTACK_FLOW) {
            Either::This(flow) => steady(flow),
            Either::That(Either::This(facts)) => steady(self.building_flow(&facts)),
            Either::That(Either::That(steps)) => (steps.iter())
                .map(|step| FlowStep {
                    from: step.get(&OfFlowStep::FROM),
                    flow: match step.get(&OfFlowStep::FLOW) {
                        Either::This(flow) => flow,
                        Either::That(facts) => self.building_flow(&facts),
                    },
                })
                .collect(),
        };
        Incident {
            duration: entry.get(&OfIncident::DURATION),
            attack_flow,
            reserve: self.water_or_none(entry, &OfIncident::RESERVE),
            tolerance: entry.get(&OfIncident::TOLERANCE),
        }
    }

    fn attack_engine(&mut self, entry: &Entry<'_, OfAttackEngine>) -> AttackEngine {
        AttackEngine {
            name: entry.get(&OfAttackEngine::NAME).to_owned(),
            tank: entry.get(&OfAttackEngine::TANK),
            call: Call {
                requested_at: entry.get(&OfAttackEngine::REQUESTED_AT),
                response: entry.get(&OfAttackEngine::RESPONSE),
                // It always comes.
                turnout: 1.0,
            },
            water_on: self.time_or_none(entry, &OfAttackEngine::WATER_ON),
            intakes: entry.get(&OfAttackEngine::INTAKES),
            tank_refill: entry.get(&OfAttackEngine::TANK_REFILL),
        }
    }

    fn supply(&mut self, entry: &Entry<'_, OfSupply>, drop_tanks: bool) -> Supply {
        let engine = entry.get(&OfSupply::ENGINE).map(|engine| SupplyEngine {
            name: engine.get(&OfSupplyEngine::NAME).to_owned(),
            call: Call {
                requested_at: engine.get(&OfSupplyEngine::REQUESTED_AT),
                response: engine.get(&OfSupplyEngine::RESPONSE),
                turnout: engine.get(&OfSupplyEngine::TURNOUT),
            },
            setup: self.time_or_none(&engine, &OfSupplyEngine::SETUP),
        });
        let low_water = entry.get(&OfSupply::LOW_WATER);
        // Without a drop tank nobody drafts; a throttled pump never has to prime again.
        let setup = if drop_tanks && engine.is_none() {
            self.time_or_none(entry, &OfSupply::SETUP)
        } else {
            entry.get(&OfSupply::SETUP)
        };
        let reprime = if drop_tanks && low_water == LowWater::LosePrime {
            self.time_or_none(entry, &OfSupply::REPRIME)
        } else {
            entry.get(&OfSupply::REPRIME)
        };
        let (draft_limits, lay_volume) = self.draft_limits(entry);
        Supply {
            nurse: entry.get(&OfSupply::NURSE).unwrap_or(true),
            engine,
            setup,
            draft_limits,
            restart_level: entry.get(&OfSupply::RESTART_LEVEL),
            reprime,
            low_water,
            lay_volume,
            failure: entry.get(&OfSupply::FAILURE).as_ref().map(failure),
        }
    }

    fn drop_tanks(
        &mut self,
        entries: &[Entry<'_, OfDropTank>],
        units: &[(String, Brought)],
    ) -> Vec<DropTank> {
        let mut tanks = Vec::new();
        for (index, entry) in entries.iter().enumerate() {
            let own_call = entry.get(&OfDropTank::RESPONSE).map(|response| Call {
                requested_at: entry.get(&OfDropTank::REQUESTED_AT),
                response,
                turnout: entry.get(&OfDropTank::TURNOUT),
            });
            let by = (entry.get(&OfDropTank::BROUGHT_BY), entry.at(&OfDropTank::BROUGHT_BY));
            let brought = self.brought(own_call, by, units, BRINGER);
            if let Some(usual) = entry.silent_but_usual(&OfDropTank::TRANSFER).filter(|_| index > 0)
            {
                let (place, key) = (entry.at(&OfDropTank::TRANSFER), OfDropTank::TRANSFER.key());
                let counts = Worked::Of(entry.get(&OfDropTank::TRANSFER), Unit::Gpm, 0);
                let text = says![
                    a_key(key),
                    " is not stated and counts as ",
                    worked(&[counts], self.units),
                    "; ",
                    worked(usual, self.units)
                ];
                self.warn(place, NoteKind::NotStated, text);
            }
            let (capacity, unusable) = match entry.get(&OfDropTank::CAPACITY) {
                Either::This(capacity) => {
                    (capacity, self.water_or_none(entry, &OfDropTank::UNUSABLE))
                }
                Either::That(size) => {
                    // A size that gives no volume is already a mistake; any volume lets the rest be
                    // checked.
                    let (holds, unusable) = self.tank_size(&size).unwrap_or((1_000.0, 0.0));
                    (holds, entry.if_stated(&OfDropTank::UNUSABLE).unwrap_or(unusable))
                }
            };
            tanks.push(DropTank {
                listed: index,
                capacity,
                unusable,
                brought,
                setup: self.time_or_none(entry, &OfDropTank::SETUP),
                dump_positions: entry.get(&OfDropTank::DUMP_POSITIONS),
                transfer: entry.get(&OfDropTank::TRANSFER),
            });
        }
        tanks
    }

    /// What brings a drop tank or a pump.
    ///
    /// - Given: its own call, or who brings it and where that is stated; what the bringer is, and what to do where it is
    ///   not there.
    fn brought(
        &mut self,
        own_call: Option<Call>,
        (by, place): (Option<&str>, String),
        units: &[(String, Brought)],
        bringer: (&'static str, &'static str),
    ) -> Brought {
        if let Some(call) = own_call {
            return Brought::Itself(call);
        }
        let names: Vec<&str> = units.iter().map(|(name, _)| name.as_str()).collect();
        let unit = self.resolve(place, by.unwrap_or_default(), &names, bringer);
        unit.map_or(Brought::ByAttackEngine, |unit| units[unit].1.clone())
    }

    /// The pumps that someone brings to fill sites.
    fn source_pumps(
        &mut self,
        entries: &[Entry<'_, OfFillSite>],
        units: &[(String, Brought)],
        sites: &mut [FillSite],
    ) {
        for (entry, site) in entries.iter().zip(sites) {
            let Some(pump) = entry.get(&OfFillSite::SOURCE_PUMP) else { continue };
            let stated = pump.get(&OfSourcePump::NAME).map(str::to_owned);
            let own_call = pump.get(&OfSourcePump::RESPONSE).map(|response| Call {
                requested_at: pump.get(&OfSourcePump::REQUESTED_AT),
                response,
                turnout: pump.get(&OfSourcePump::TURNOUT),
            });
            let by = (pump.get(&OfSourcePump::BROUGHT_BY), pump.at(&OfSourcePump::BROUGHT_BY));
            site.source_pump = Some(SourcePump {
                name: stated.unwrap_or_else(|| format!("Pump at {}", site.name)),
                brought: self.brought(own_call, by, units, PUMP_BRINGER),
                setup: self.time_or_none(&pump, &OfSourcePump::SETUP),
            });
        }
    }

    fn one_lanes(&mut self, root: &Entry<'_, OfScenario>, sites: &[&str]) -> Vec<OneLane> {
        let mut known = vec![SCENE];
        known.extend(sites);
        let mut lanes = Vec::new();
        for entry in &one_lanes(root) {
            let name = entry.get(&OfOneLane::NEAR);
            let place = self.resolve(entry.at(&OfOneLane::NEAR), name, &known, NEAR);
            lanes.push(OneLane {
                near: match place {
                    None | Some(0) => Near::Scene,
                    Some(site) => Near::FillSite(site - 1),
                },
                crossing: entry.get(&OfOneLane::CROSSING),
            });
        }
        // The stand-in for an unknown name would look like a second stretch near the scene.
        if self.mistakes.iter().any(|m| m.place.starts_with(OfScenario::ONE_LANE.key())) {
            lanes.clear();
        }
        lanes
    }
}
