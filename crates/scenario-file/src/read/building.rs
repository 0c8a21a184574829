//! Reading a building, and the flow that a rule asks for at it.

use fireground::insurance_flow::{Contents, DwellingTable};
use fireground::minimum_supply::{ConstructionType, OccupancyHazard};
use fireground::side_by_side::{Rule, side_by_side};
use fireground::surveyed_building::{Building, Exposure};

use super::building_flow::BuildingFlow;
use super::reader::{Derived, Reader};
use crate::structure::entry::Entry;

/// The rule of a word in the file.
pub(crate) fn rule_of(word: &str) -> Rule {
    match word {
        "volume" => Rule::Volume,
        "minimum-supply" => Rule::MinimumSupply,
        "insurance" => Rule::Insurance,
        "insurance-canada" => Rule::CanadianInsurance,
        _ => Rule::Area,
    }
}

impl Reader {
    /// The flow that a building asks for, gpm.
    pub(crate) fn building_flow(&mut self, entry: &Entry<'_>) -> f64 {
        let rule = rule_of(&entry.text_stated("rule"));
        // As with a hydrant, facts that give no flow are already a mistake.
        let Some(flow) = self.building_and_rule(entry, rule) else { return 1.0 };
        let asked = flow.asked(rule).flow.clone();
        let place = entry.place.clone();
        self.derived.push(Derived {
            place,
            rule: Some(rule),
            value: asked.value,
            unit: asked.unit,
            how: asked.how,
        });
        self.warn_of(entry, &asked.warnings);
        self.buildings.push(flow);
        asked.value
    }

    /// The `building` of an object with what every rule asks for; `None` with a mistake where that cannot be
    /// known.
    pub(crate) fn building_and_rule(
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
                    "look the use up in NFPA 1142 and state its class",
                );
                return None;
            }
        };
        if let Some(usual) = entry.silent_but_usual("involved") {
            let text = format!("`involved` is not stated and counts as all of it; {usual}");
            self.warn(entry.at("involved"), text);
        }
        if let Some(usual) = entry.silent_but_usual("ridge") {
            let text = format!("`ridge` is not stated and counts as a flat roof; {usual}");
            self.warn(entry.at("ridge"), text);
        }
        let (eaves, ridge) = (entry.number_stated("height"), entry.number("ridge"));
        let open = entry.some_number("open_height");
        if open.is_some_and(|open| open > eaves + ridge) {
            self.mistake(
                entry.at("open_height"),
                "the open space is higher than the building".to_string(),
                Some("up to `height` and `ridge` together".to_string()),
                "measure from the floor to the underside of the roof, or leave `open_height` out",
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
