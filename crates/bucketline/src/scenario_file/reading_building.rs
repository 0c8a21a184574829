//! Reading what stands behind a flow for a building, and the people and hose a department has.

use fireground::crew::CrewSizes;
use fireground::hose::HoseSize;
use fireground::insurance_flow::{Contents, DwellingTable};
use fireground::minimum_supply::{ConstructionType, OccupancyHazard};
use fireground::side_by_side::{Asked, Building, Exposure, Rule, side_by_side};

use super::Derived;
use super::facts::nominal;
use super::node::Entry;
use super::reading::Found;

/// A flow that a building asks for.
#[derive(Debug, Clone, PartialEq)]
pub struct BuildingFlow {
    /// Where by keys, such as `incident.attack_flow[1].flow`.
    pub place: String,
    /// The building.
    pub building: Building,
    /// The rule that counts.
    pub rule: Rule,
    /// What every rule asks for.
    pub rows: Vec<Asked>,
}

/// People for the plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Crew {
    /// For each piece of work.
    pub sizes: CrewSizes,
    /// Who can be counted on, if stated.
    pub on_hand: Option<u32>,
    /// Whether any of the sizes is common practice rather than stated.
    pub common_practice: bool,
}

/// Hose in place of tankers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hose {
    /// Size of the hose.
    pub size: HoseSize,
    /// Equal parallel lines.
    pub lines: u32,
    /// Hose of that size that can be brought, ft, if stated.
    pub on_hand_ft: Option<f64>,
    /// Engines that can be spared, if stated.
    pub engines: Option<u32>,
    /// From the source to the fire, ft, if stated.
    pub distance_ft: Option<f64>,
    /// Height of the fire above the source, ft.
    pub elevation_ft: f64,
    /// Rating of the smallest pump, gpm.
    pub rated_gpm: f64,
    /// Greatest discharge pressure, psi.
    pub discharge_psi: f64,
    /// Pressure wanted at the next intake, psi.
    pub intake_psi: f64,
    /// Length laid in a minute, ft.
    pub laid_ft_a_min: f64,
    /// Hook-up, minutes.
    pub hookup_min: f64,
    /// When laying begins, minutes after the alarm, if stated.
    pub start_min: Option<f64>,
    /// Whether any of size, rating, laying speed and hook-up is common practice rather than stated.
    pub common_practice: bool,
}

/// Usual discharge pressure of a lay or relay, psi: of large hose, and below 3-1/2 in. Source: relay
/// texts; the smaller is the limit of large-diameter hose.
const LARGE_HOSE_PSI: f64 = 185.0;
const SMALL_HOSE_PSI: f64 = 200.0;
/// From this diameter hose counts as large, in. Source: relay texts.
const LARGE_HOSE_IN: f64 = 3.5;

/// The rule of a word in the file.
pub(super) fn rule_of(word: &str) -> Rule {
    match word {
        "volume" => Rule::Volume,
        "minimum-supply" => Rule::MinimumSupply,
        "insurance" => Rule::Insurance,
        _ => Rule::Area,
    }
}

impl Found {
    /// The flow that a building asks for, gpm.
    pub(super) fn building_flow(&mut self, entry: &Entry<'_>) -> f64 {
        let rule = rule_of(&entry.text_stated("rule"));
        // As with a hydrant: facts that give no flow are a mistake already.
        let Some(flow) = self.building_and_rule(entry, rule) else { return 1.0 };
        let asked = flow.asked(rule).flow.clone();
        let text = format!("{}: {}", rule.name(), asked.how);
        self.derived.push(Derived { place: entry.place.clone(), text });
        for warning in asked.warnings {
            self.warn(entry.place.clone(), warning);
        }
        self.buildings.push(flow);
        asked.value
    }

    /// The `building` of an object with what every rule asks for; `None` with a mistake where that cannot be
    /// known.
    pub(super) fn building_and_rule(
        &mut self,
        entry: &Entry<'_>,
        rule: Rule,
    ) -> Option<BuildingFlow> {
        let stated = entry.entry_stated("building");
        let building = self.building(&stated)?;
        match side_by_side(&building) {
            Ok(rows) => Some(BuildingFlow { place: entry.place.clone(), building, rule, rows }),
            Err(error) => {
                self.bad_fact(&stated, &error);
                None
            }
        }
    }

    /// A building; `None` with a mistake where its hazard cannot be known.
    fn building(&mut self, entry: &Entry<'_>) -> Option<Building> {
        let purpose = entry.text_stated("use");
        let by_use = hazard_of_use(&purpose);
        let occupancy = match (entry.some_number("hazard_class"), by_use) {
            (Some(class), _) => hazard_of_class(class),
            (None, Some(hazard)) => hazard,
            (None, None) => {
                self.mistake(
                    entry.at("use"),
                    "\"other\" without `hazard_class`".to_string(),
                    Some("`hazard_class` from 3 (severe) to 7 (light)".to_string()),
                    Some("look the use up in NFPA 1142 and state its class".to_string()),
                );
                return None;
            }
        };
        if let Some(usual) = entry.silent_but_usual("involved") {
            let text = format!("`involved` is not stated and counts as all of it; {usual}");
            self.warn(entry.at("involved"), text);
        }
        let (eaves, ridge) = (entry.number_stated("height"), entry.number("ridge"));
        let open = entry.some_number("open_height");
        if open.is_some_and(|open| open > eaves + ridge) {
            self.mistake(
                entry.at("open_height"),
                "the open space is higher than the building".to_string(),
                Some("up to `height` and `ridge` together".to_string()),
                None,
            );
            return None;
        }
        let stories = entry.count("stories");
        Some(Building {
            length_ft: entry.number_stated("length"),
            width_ft: entry.number_stated("width"),
            stories,
            eaves_ft: eaves,
            ridge_ft: ridge,
            open_height_ft: open,
            dwelling: purpose == "dwelling",
            occupancy,
            construction: construction_of(&entry.text_stated("construction")),
            dwelling_construction_cap: entry.some_number("dwelling_cap"),
            contents: contents_of(&entry.text("contents")),
            floors_burning: entry.some_number("floors_burning").map_or(stories, |n| n as u32),
            share_involved: entry.number("involved"),
            exposures: (entry.list("exposures").iter())
                .map(|near| Exposure {
                    distance_ft: near.number_stated("distance"),
                    area_ft2: near.number_stated("area"),
                    occupancy: hazard_of_class(near.number("hazard_class")),
                })
                .collect(),
            exposure_charge: entry.number("exposure_charge"),
            communication_charge: entry.number("communication_charge"),
            dwelling_table: match entry.text("dwelling_table").as_str() {
                "newer" => DwellingTable::Newer,
                _ => DwellingTable::Older,
            },
        })
    }

    /// People for the plan.
    pub(super) fn crew(&self, entry: &Entry<'_>) -> Crew {
        let sizes = ["tanker", "fill_site", "dump_site", "pump", "officer"];
        Crew {
            sizes: CrewSizes {
                tanker: entry.count("tanker"),
                fill_site: entry.count("fill_site"),
                dump_site: entry.count("dump_site"),
                pump: entry.count("pump"),
                officer: entry.count("officer"),
            },
            on_hand: entry.some_number("on_hand").map(|count| count as u32),
            common_practice: sizes.iter().any(|key| entry.stated(key).is_none()),
        }
    }

    /// Hose in place of tankers; `None` with a mistake where there is no such hose.
    pub(super) fn hose(&mut self, entry: &Entry<'_>) -> Option<Hose> {
        let size = match HoseSize::from_diameter(nominal(entry.number("diameter"))) {
            Ok(size) => size,
            Err(error) => {
                self.bad_fact(entry, &error);
                return None;
            }
        };
        let usual_pressure =
            if size.diameter_in() >= LARGE_HOSE_IN { LARGE_HOSE_PSI } else { SMALL_HOSE_PSI };
        let assumed = ["diameter", "rated", "laid_a_minute", "hookup"];
        Some(Hose {
            size,
            lines: entry.count("lines"),
            on_hand_ft: entry.some_number("on_hand"),
            engines: entry.some_number("engines").map(|count| count as u32),
            distance_ft: entry.some_number("distance"),
            elevation_ft: entry.number("elevation"),
            rated_gpm: entry.number("rated"),
            discharge_psi: entry.some_number("pump_pressure").unwrap_or(usual_pressure),
            intake_psi: entry.number("intake_pressure"),
            laid_ft_a_min: entry.number("laid_a_minute"),
            hookup_min: entry.number("hookup"),
            start_min: entry.some_number("start"),
            common_practice: assumed.iter().any(|key| entry.stated(key).is_none()),
        })
    }
}

/// The occupancy hazard that a use stands for; `None` for "other". Source: NFPA 1142; all but the dwelling
/// and the barn are values from memory.
fn hazard_of_use(word: &str) -> Option<OccupancyHazard> {
    match word {
        "dwelling" | "apartments" | "office" | "school" => Some(OccupancyHazard::Light),
        "church" => Some(OccupancyHazard::Low),
        "store" => Some(OccupancyHazard::Moderate),
        "workshop" | "barn" => Some(OccupancyHazard::High),
        "sawmill" => Some(OccupancyHazard::Severe),
        _ => None,
    }
}

fn hazard_of_class(class: f64) -> OccupancyHazard {
    match class as u32 {
        3 => OccupancyHazard::Severe,
        4 => OccupancyHazard::High,
        5 => OccupancyHazard::Moderate,
        6 => OccupancyHazard::Low,
        _ => OccupancyHazard::Light,
    }
}

fn construction_of(word: &str) -> ConstructionType {
    match word {
        "fire resistive" => ConstructionType::I,
        "noncombustible" => ConstructionType::II,
        "ordinary" => ConstructionType::III,
        "heavy timber" => ConstructionType::IV,
        _ => ConstructionType::V,
    }
}

fn contents_of(word: &str) -> Contents {
    match word {
        "noncombustible" => Contents::Noncombustible,
        "limited" => Contents::LimitedCombustible,
        "free burning" => Contents::FreeBurning,
        "rapid burning" => Contents::RapidBurning,
        _ => Contents::Combustible,
    }
}
