//! From a checked structure to the draft of a plan: the incident, the attack engine, the supply, drop tanks,
//! one-lane roads.

use shuttle_report::survey::Survey;
use shuttle_sim::{
    AttackEngine, Brought, DropTank, FillSite, FlowStep, Incident, LowWater, Near, OneLane,
    PlanDraft, SourcePump, Supply, SupplyEngine, Tanker, WholeFire,
};

use super::crew_and_hose::{Crew, Hose};
use super::reader::Reader;
use super::rests_on::unsure;
use super::tankers_and_sites::Uses;
use crate::quantities::quantity::Units;
use crate::structure::checked_value::Value;
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
pub(crate) fn draft_of(root: &Entry<'_>, units: Units) -> Reading {
    let mut reader = Reader::new(units);
    let incident = reader.incident(&root.entry_stated("incident"));
    let attack_engine = reader.attack_engine(&root.entry_stated("attack_engine"));
    let mut fill_sites = reader.fill_sites(&root.list("fill_sites"));
    let tanks = root.list("drop_tanks");
    let supply = reader.supply(&root.entry("supply"), !tanks.is_empty());
    let site_names: Vec<&str> = fill_sites.iter().map(|site| site.name.as_str()).collect();
    let uses = Uses { nursing: supply.nurse, dumping: !tanks.is_empty() };
    let tankers = reader.tankers(root, &site_names, uses);
    let bringers = units_by_name(&attack_engine, &supply, &tankers);
    let drop_tanks = reader.drop_tanks(&tanks, &bringers);
    let one_lanes = reader.one_lanes(root, &site_names);
    reader.source_pumps(&root.list("fill_sites"), &bringers, &mut fill_sites);
    let crew = reader.crew(&root.entry("crew"));
    let hose = reader.hose(&root.entry("hose"));
    let survey = reader.survey(root);
    Reading {
        draft: PlanDraft {
            title: root.text_stated("title"),
            incident,
            attack_engine,
            supply,
            drop_tanks,
            tankers,
            fill_sites,
            one_lanes,
            whole_fire: whole_fire(&root.entry("whole_fire")),
            unsure: unsure(root),
        },
        notes: notes(root),
        crew,
        hose,
        survey,
        reader,
    }
}

pub(crate) fn notes(root: &Entry<'_>) -> Vec<String> {
    match root.stated("notes").map(|node| &node.value) {
        Some(Value::Text(text)) => vec![text.clone()],
        Some(Value::List(nodes)) => (nodes.iter())
            .filter_map(|node| match &node.value {
                Value::Text(text) => Some(text.clone()),
                _ => None,
            })
            .collect(),
        _ => Vec::new(),
    }
}

fn whole_fire(entry: &Entry<'_>) -> WholeFire {
    WholeFire {
        driving_cv: entry.number("driving_cv"),
        handling_cv: entry.number("handling_cv"),
        response_cv: entry.number("response_cv"),
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
    fn incident(&mut self, entry: &Entry<'_>) -> Incident {
        let attack_flow = match entry.stated("attack_flow").map(|node| &node.value) {
            Some(Value::Number(flow)) => vec![FlowStep { from: 0.0, flow: *flow }],
            Some(Value::Object(_)) => {
                let flow = self.building_flow(&entry.entry_stated("attack_flow"));
                vec![FlowStep { from: 0.0, flow }]
            }
            _ => (entry.list("attack_flow").iter())
                .map(|step| FlowStep {
                    from: step.number("from"),
                    flow: match step.some_entry("flow") {
                        Some(facts) => self.building_flow(&facts),
                        None => step.number("flow"),
                    },
                })
                .collect(),
        };
        Incident {
            duration: entry.number("duration"),
            attack_flow,
            reserve: self.water_or_none(entry, "reserve"),
            tolerance: entry.number("tolerance"),
        }
    }

    fn attack_engine(&mut self, entry: &Entry<'_>) -> AttackEngine {
        AttackEngine {
            name: entry.text("name"),
            tank: entry.number("tank"),
            call: self.call(entry),
            water_on: self.time_or_none(entry, "water_on"),
            intakes: entry.count("intakes"),
            tank_refill: entry.number("tank_refill"),
        }
    }

    fn supply(&mut self, entry: &Entry<'_>, drop_tanks: bool) -> Supply {
        let engine = entry.some_entry("engine").map(|engine| SupplyEngine {
            name: engine.text("name"),
            call: self.call(&engine),
            setup: self.time_or_none(&engine, "setup"),
        });
        let low_water = match entry.text("low_water").as_str() {
            "lose_prime" => LowWater::LosePrime,
            _ => LowWater::Throttle,
        };
        // Without a drop tank nobody drafts; a throttled pump never has to prime again.
        let setup = if drop_tanks && engine.is_none() {
            self.time_or_none(entry, "setup")
        } else {
            self.time(entry, "setup")
        };
        let reprime = if drop_tanks && low_water == LowWater::LosePrime {
            self.time_or_none(entry, "reprime")
        } else {
            self.time(entry, "reprime")
        };
        let (draft_limits, lay_volume) = self.draft_limits(entry);
        Supply {
            nurse: entry.some_flag("nurse").unwrap_or(true),
            engine,
            setup,
            draft_limits,
            restart_level: entry.some_number("restart_level"),
            reprime,
            low_water,
            lay_volume,
            failure: self.failure(entry),
        }
    }

    fn drop_tanks(&mut self, entries: &[Entry<'_>], units: &[(String, Brought)]) -> Vec<DropTank> {
        let mut tanks = Vec::new();
        for (index, entry) in entries.iter().enumerate() {
            let brought = self.brought(entry, units, BRINGER);
            if let Some(usual) = entry.silent_but_usual("transfer").filter(|_| index > 0) {
                let text = format!("`transfer` is not stated and counts as 500 gpm; {usual}");
                self.warn(entry.at("transfer"), text);
            }
            let (capacity, unusable) = match entry.some_entry("capacity") {
                Some(size) => {
                    // A size that gives no volume is already a mistake; any volume lets the rest be
                    // checked.
                    let (holds, unusable) = self.tank_size(&size).unwrap_or((1_000.0, 0.0));
                    (holds, entry.some_number("unusable").unwrap_or(unusable))
                }
                None => (entry.number("capacity"), self.water_or_none(entry, "unusable")),
            };
            tanks.push(DropTank {
                listed: index,
                capacity,
                unusable,
                brought,
                setup: self.time_or_none(entry, "setup"),
                dump_positions: entry.count("dump_positions"),
                transfer: entry.number("transfer"),
            });
        }
        tanks
    }

    /// What brings a drop tank or a pump.
    ///
    /// - Given: what the bringer is, and what to do where it is not there.
    fn brought(
        &mut self,
        entry: &Entry<'_>,
        units: &[(String, Brought)],
        bringer: (&str, &str),
    ) -> Brought {
        let Some(name) = entry.some_text("brought_by") else {
            return Brought::Itself(self.call(entry));
        };
        let names: Vec<&str> = units.iter().map(|(name, _)| name.as_str()).collect();
        let unit = self.resolve(entry.at("brought_by"), name, &names, bringer);
        unit.map_or(Brought::ByAttackEngine, |unit| units[unit].1.clone())
    }

    /// The pumps that someone brings to fill sites.
    fn source_pumps(
        &mut self,
        entries: &[Entry<'_>],
        units: &[(String, Brought)],
        sites: &mut [FillSite],
    ) {
        for (entry, site) in entries.iter().zip(sites) {
            let Some(pump) = entry.some_entry("source_pump") else { continue };
            let stated = pump.some_text("name").map(str::to_owned);
            site.source_pump = Some(SourcePump {
                name: stated.unwrap_or_else(|| format!("Pump at {}", site.name)),
                brought: self.brought(&pump, units, PUMP_BRINGER),
                setup: self.time_or_none(&pump, "setup"),
            });
        }
    }

    fn one_lanes(&mut self, root: &Entry<'_>, sites: &[&str]) -> Vec<OneLane> {
        let entries = match root.some_entry("one_lane") {
            Some(only) => vec![only],
            None => root.list("one_lane"),
        };
        let mut known = vec!["scene"];
        known.extend(sites);
        let mut lanes = Vec::new();
        for entry in &entries {
            let name = entry.text_stated("near");
            let place = self.resolve(entry.at("near"), &name, &known, NEAR);
            lanes.push(OneLane {
                near: match place {
                    None | Some(0) => Near::Scene,
                    Some(site) => Near::FillSite(site - 1),
                },
                crossing: self.time_stated(entry, "crossing"),
            });
        }
        // The stand-in for an unknown name would look like a second stretch near the scene.
        if self.mistakes.iter().any(|m| m.place.starts_with("one_lane")) {
            lanes.clear();
        }
        lanes
    }
}
