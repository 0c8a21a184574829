//! From a checked structure to a plan: names resolved, defaults filled in, facts worked out.

use shuttle_sim::{
    AttackEngine, Brought, Call, DropTank, FlowStep, Incident, LowWater, Near, OneLane, PlanDraft,
    Supply, SupplyEngine, TimeTaken,
};

use super::Derived;
use super::node::{Entry, Value};
use super::quantity::Units;
use super::reading_building::{BuildingFlow, Crew, Hose};
use super::words::{nearest, shorten};

/// A draft, with what was found on the way.
pub(super) struct Reading {
    pub(super) draft: PlanDraft,
    pub(super) notes: Vec<String>,
    pub(super) crew: Crew,
    /// None only beside a mistake.
    pub(super) hose: Option<Hose>,
    pub(super) found: Found,
}

/// What was found on the way: mistakes, warnings, and values worked out from facts.
pub(super) struct Found {
    /// The units of the file, for messages.
    pub(super) units: Units,
    pub(super) mistakes: Vec<Misfit>,
    pub(super) warnings: Vec<Remark>,
    pub(super) derived: Vec<Derived>,
    pub(super) buildings: Vec<BuildingFlow>,
}

/// A value that fits its field and not the rest of the scenario.
pub(super) struct Misfit {
    pub(super) place: String,
    pub(super) problem: String,
    pub(super) limit: Option<String>,
    pub(super) cure: Option<String>,
}

/// Something that a person should know and need not fix.
pub(super) struct Remark {
    pub(super) place: String,
    pub(super) text: String,
}

/// Reads a scenario whose structure is sound.
///
/// A value that cannot be had (an unknown name, facts that give no flow) is a mistake and stands in
/// the draft as something harmless, so that the draft can still be checked for others.
pub(super) fn read(root: &Entry<'_>, units: Units) -> Reading {
    let mut found = Found::new(units);
    let incident = found.incident(&root.entry_stated("incident"));
    let attack_engine = found.attack_engine(&root.entry_stated("attack_engine"));
    let fill_sites = found.fill_sites(&root.list("fill_sites"));
    let tanks = root.list("drop_tanks");
    let supply = found.supply(&root.entry("supply"), !tanks.is_empty());
    let site_names: Vec<&str> = fill_sites.iter().map(|site| site.name.as_str()).collect();
    let uses = super::reading_tankers::Uses { nursing: supply.nurse, dumping: !tanks.is_empty() };
    let tankers = found.tankers(root, &site_names, uses);
    let bringers = units_by_name(&attack_engine, &supply, &tankers);
    let drop_tanks = found.drop_tanks(&tanks, &bringers);
    let one_lanes = found.one_lanes(root, &site_names);
    let crew = found.crew(&root.entry("crew"));
    let hose = found.hose(&root.entry("hose"));
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
        },
        notes: notes(root),
        crew,
        hose,
        found,
    }
}

pub(super) fn notes(root: &Entry<'_>) -> Vec<String> {
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

/// Everything that can bring a drop tank.
fn units_by_name(
    attack_engine: &AttackEngine,
    supply: &Supply,
    tankers: &[shuttle_sim::Tanker],
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

impl Found {
    /// Nothing found yet.
    pub(super) fn new(units: Units) -> Found {
        Found {
            units,
            mistakes: Vec::new(),
            warnings: Vec::new(),
            derived: Vec::new(),
            buildings: Vec::new(),
        }
    }

    /// A duration, or its default.
    pub(super) fn time(&self, entry: &Entry<'_>, key: &str) -> TimeTaken {
        match self.some_time(entry, key) {
            Some(time) => time,
            None => TimeTaken::Fixed(entry.default_number(key)),
        }
    }

    /// A duration that is required.
    pub(super) fn time_stated(&self, entry: &Entry<'_>, key: &str) -> TimeTaken {
        match self.some_time(entry, key) {
            Some(time) => time,
            None => unreachable!("{} is required", entry.at(key)),
        }
    }

    /// A duration, if it is stated.
    pub(super) fn some_time(&self, entry: &Entry<'_>, key: &str) -> Option<TimeTaken> {
        if let Some(shape) = entry.some_entry(key) {
            return Some(spread(&shape));
        }
        entry.some_number(key).map(TimeTaken::Fixed)
    }

    /// A duration whose silence counts as no time, with a warning.
    fn time_or_none(&mut self, entry: &Entry<'_>, key: &str) -> TimeTaken {
        if let Some(usual) = entry.silent_but_usual(key) {
            let text = format!("`{key}` is not stated and counts as no time; {usual}");
            self.warn(entry.at(key), text);
        }
        self.time(entry, key)
    }

    /// An amount of water whose silence counts as none, with a warning.
    fn water_or_none(&mut self, entry: &Entry<'_>, key: &str) -> f64 {
        if let Some(usual) = entry.silent_but_usual(key) {
            let text = format!("`{key}` is not stated and counts as no water; {usual}");
            self.warn(entry.at(key), text);
        }
        entry.number(key)
    }

    pub(super) fn warn(&mut self, place: String, text: String) {
        self.warnings.push(Remark { place, text });
    }

    pub(super) fn mistake(
        &mut self,
        place: String,
        problem: String,
        limit: Option<String>,
        cure: Option<String>,
    ) {
        self.mistakes.push(Misfit { place, problem, limit, cure });
    }

    /// The place of a name among the known ones; unknown: a mistake.
    pub(super) fn resolve(
        &mut self,
        place: String,
        name: &str,
        known: &[&str],
        what: &str,
    ) -> Option<usize> {
        let index = known.iter().position(|other| *other == name);
        if index.is_none() {
            let near = nearest(name, known.iter().copied());
            let cure = near.map(|near| format!("a {what} with a similar name exists: \"{near}\""));
            let listed: Vec<String> =
                (known.iter().take(12)).map(|name| format!("\"{}\"", shorten(name))).collect();
            let more = if known.len() > 12 { " and more" } else { "" };
            self.mistake(
                place,
                format!("there is no {what} called \"{}\"", shorten(name)),
                Some(format!("{}{more}", listed.join(", "))),
                cure,
            );
        }
        index
    }

    pub(super) fn call(&self, entry: &Entry<'_>) -> Call {
        Call {
            requested_at: entry.number("requested_at"),
            response: self.time_stated(entry, "response"),
        }
    }

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
        }
    }

    fn drop_tanks(&mut self, entries: &[Entry<'_>], units: &[(String, Brought)]) -> Vec<DropTank> {
        let names: Vec<&str> = units.iter().map(|(name, _)| name.as_str()).collect();
        let mut tanks = Vec::new();
        for (index, entry) in entries.iter().enumerate() {
            let brought = match entry.some_text("brought_by") {
                Some(name) => {
                    let unit = self.resolve(entry.at("brought_by"), name, &names, "unit");
                    unit.map_or(Brought::ByAttackEngine, |unit| units[unit].1.clone())
                }
                None => Brought::Itself(self.call(entry)),
            };
            if let Some(usual) = entry.silent_but_usual("transfer").filter(|_| index > 0) {
                let text = format!("`transfer` is not stated and counts as 500 gpm; {usual}");
                self.warn(entry.at("transfer"), text);
            }
            let (capacity, unusable) = match entry.some_entry("capacity") {
                Some(size) => {
                    // A size that gives no volume is a mistake already; any volume lets the rest be checked.
                    let (holds, unusable) = self.tank_size(&size).unwrap_or((1_000.0, 0.0));
                    (holds, entry.some_number("unusable").unwrap_or(unusable))
                }
                None => (entry.number("capacity"), self.water_or_none(entry, "unusable")),
            };
            tanks.push(DropTank {
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
            let place = self.resolve(entry.at("near"), &name, &known, "fill site");
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

/// A duration with a shape of spread.
fn spread(shape: &Entry<'_>) -> TimeTaken {
    match shape.shape() {
        "lognormal_duration" => {
            TimeTaken::Lognormal { mean: shape.number("mean"), cv: shape.number("cv") }
        }
        "exponential_duration" => TimeTaken::Exponential { mean: shape.number("mean") },
        "triangular_duration" => TimeTaken::Triangular {
            low: shape.number("low"),
            likely: shape.number("likely"),
            high: shape.number("high"),
        },
        "uniform_duration" => {
            TimeTaken::Uniform { low: shape.number("low"), high: shape.number("high") }
        }
        "sampled_duration" => TimeTaken::Samples(shape.numbers("samples")),
        other => unreachable!("{}: {other} is no duration", shape.place),
    }
}
