//! Reading a building, and the flow that a rule asks for at it.

use fireground::minimum_supply::OccupancyHazard;
use fireground::side_by_side::{Rule, side_by_side};
use fireground::surveyed_building::{Building, Exposure};

use super::building_flow::BuildingFlow;
use crate::errors::kinds::MistakeKind;
use crate::format::fire::building::{OfBuilding, OfExposure, OfFlowByBuilding, Use};
use crate::read::reader::{Derived, Reader};
use crate::structure::entry::Entry;

impl Reader {
    /// The flow that a building asks for, gpm.
    pub(crate) fn building_flow(&mut self, entry: &Entry<'_, OfFlowByBuilding>) -> f64 {
        let rule = entry.get(&OfFlowByBuilding::RULE);
        // As with a hydrant, facts that give no flow are already a mistake.
        let Some(flow) =
            self.building_and_rule(&entry.place, entry.get(&OfFlowByBuilding::BUILDING), rule)
        else {
            return 1.0;
        };
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

    /// A building, `stated` in the object at a place, with what every rule asks for; `None` with a mistake where that cannot be
    /// known.
    pub(crate) fn building_and_rule(
        &mut self,
        place: &str,
        stated: Entry<'_, OfBuilding>,
        rule: Rule,
    ) -> Option<BuildingFlow> {
        let building = self.building(&stated)?;
        match side_by_side(&building) {
            Ok(rows) => Some(BuildingFlow { place: place.to_owned(), building, rule, rows }),
            Err(error) => {
                self.bad_fact(&stated, &error);
                None
            }
        }
    }

    /// A building; `None` with a mistake where its hazard cannot be known.
    fn building(&mut self, entry: &Entry<'_, OfBuilding>) -> Option<Building> {
        let purpose = entry.get(&OfBuilding::USE);
        let by_use = hazard_of_use(purpose);
        let occupancy = match (entry.get(&OfBuilding::HAZARD_CLASS), by_use) {
            (Some(class), _) => hazard_of_class(class),
            (None, Some(hazard)) => hazard,
            (None, None) => {
                let told = (
                    "\"other\" without `hazard_class`".into(),
                    Some("`hazard_class` from 3 (severe) to 7 (light)".into()),
                    "look the use up in NFPA 1142 and state its class".into(),
                );
                self.mistake(entry.at(&OfBuilding::USE), MistakeKind::Missing, told);
                return None;
            }
        };
        if let Some(usual) = entry.silent_but_usual(&OfBuilding::INVOLVED) {
            let (place, key) = (entry.at(&OfBuilding::INVOLVED), OfBuilding::INVOLVED.key());
            self.not_stated(place, key, " is not stated and counts as all of it; ", usual);
        }
        if let Some(usual) = entry.silent_but_usual(&OfBuilding::RIDGE) {
            let (place, key) = (entry.at(&OfBuilding::RIDGE), OfBuilding::RIDGE.key());
            self.not_stated(place, key, " is not stated and counts as a flat roof; ", usual);
        }
        let (eaves, ridge) = (entry.get(&OfBuilding::HEIGHT), entry.get(&OfBuilding::RIDGE));
        let open = entry.get(&OfBuilding::OPEN_HEIGHT);
        if open.is_some_and(|open| open > eaves + ridge) {
            let told = (
                "the open space is higher than the building".into(),
                Some("up to `height` and `ridge` together".into()),
                "measure from the floor to the underside of the roof, or leave `open_height` out"
                    .into(),
            );
            self.mistake(entry.at(&OfBuilding::OPEN_HEIGHT), MistakeKind::Conflict, told);
            return None;
        }
        let stories = entry.get(&OfBuilding::STORIES);
        Some(Building {
            length_ft: entry.get(&OfBuilding::LENGTH),
            width_ft: entry.get(&OfBuilding::WIDTH),
            stories,
            eaves_ft: eaves,
            ridge_ft: ridge,
            open_height_ft: open,
            dwelling: purpose == Use::Dwelling,
            occupancy,
            construction: entry.get(&OfBuilding::CONSTRUCTION),
            dwelling_construction_cap: entry.get(&OfBuilding::DWELLING_CAP),
            contents: entry.get(&OfBuilding::CONTENTS),
            floors_burning: entry.get(&OfBuilding::FLOORS_BURNING).unwrap_or(stories),
            share_involved: entry.get(&OfBuilding::INVOLVED),
            exposures: (entry.get(&OfBuilding::EXPOSURES).iter())
                .map(|near| Exposure {
                    distance_ft: near.get(&OfExposure::DISTANCE),
                    area_ft2: near.get(&OfExposure::AREA),
                    occupancy: hazard_of_class(near.get(&OfExposure::HAZARD_CLASS)),
                })
                .collect(),
            exposure_charge: entry.get(&OfBuilding::EXPOSURE_CHARGE),
            communication_charge: entry.get(&OfBuilding::COMMUNICATION_CHARGE),
            dwelling_table: entry.get(&OfBuilding::DWELLING_TABLE),
        })
    }
}

/// The occupancy hazard that a use stands for; `None` for "other". Source: NFPA 1142; all but the dwelling
/// and the barn are values from memory.
fn hazard_of_use(purpose: Use) -> Option<OccupancyHazard> {
    match purpose {
        Use::Dwelling | Use::Apartments | Use::Office | Use::School => Some(OccupancyHazard::Light),
        Use::Church => Some(OccupancyHazard::Low),
        Use::Store => Some(OccupancyHazard::Moderate),
        Use::Workshop | Use::Barn => Some(OccupancyHazard::High),
        Use::Sawmill => Some(OccupancyHazard::Severe),
        Use::Other => None,
    }
}

fn hazard_of_class(class: u32) -> OccupancyHazard {
    match class {
        3 => OccupancyHazard::Severe,
        4 => OccupancyHazard::High,
        5 => OccupancyHazard::Moderate,
        6 => OccupancyHazard::Low,
        _ => OccupancyHazard::Light,
    }
}
