//! A building as surveyed for a pre-plan, with the buildings that stand near it.

use crate::FactError;
use crate::fact_checks::{more_than_zero, one_or_more, zero_or_more};
use crate::insurance_flow::{Contents, DwellingTable};
use crate::minimum_supply::{ConstructionType, OccupancyHazard, RuralBuilding, is_exposure_hazard};

/// A building as surveyed for a pre-plan.
#[derive(Debug, Clone, PartialEq)]
pub struct Building {
    /// Length, ft, more than 0.
    pub length_ft: f64,
    /// Width, ft, more than 0.
    pub width_ft: f64,
    /// Stories, 1 or more. Count a basement that is lived in.
    pub stories: u32,
    /// Height from the lowest floor to the eaves, all stories together, ft, more than 0.
    pub eaves_ft: f64,
    /// Height from the eaves to the ridge, ft, 0 or more; 0 for a flat roof.
    pub ridge_ft: f64,
    /// Height of the largest open space, ft, more than 0; `None`: of one story.
    pub open_height_ft: Option<f64>,
    /// Whether it is a one- or two-family dwelling.
    pub dwelling: bool,
    /// Occupancy hazard.
    pub occupancy: OccupancyHazard,
    /// Type of construction.
    pub construction: ConstructionType,
    /// See [`RuralBuilding::dwelling_construction_cap`].
    pub dwelling_construction_cap: Option<f64>,
    /// How the contents burn.
    pub contents: Contents,
    /// Stories that burn, 1 or more.
    pub floors_burning: u32,
    /// Share of those stories involved, more than 0, up to 1.
    pub share_involved: f64,
    /// Buildings near it.
    pub exposures: Vec<Exposure>,
    /// Insurance exposure charge X, 0 to 1.
    pub exposure_charge: f64,
    /// Insurance communication charge P, 0 to 1.
    pub communication_charge: f64,
    /// Edition of the insurance table for one- and two-family dwellings.
    pub dwelling_table: DwellingTable,
}

/// A neighboring building.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Exposure {
    /// Distance between the two, ft, 0 or more.
    pub distance_ft: f64,
    /// Its ground area, ft2, more than 0.
    pub area_ft2: f64,
    /// Its occupancy hazard.
    pub occupancy: OccupancyHazard,
}

/// Stories up to which the table for dwellings holds. Source: ISO fire suppression rating schedule.
const TABLE_STORIES: u32 = 2;

/// A distance measured to a tenth of a metre may stand for one this much shorter, ft: 12.2 m for 40 ft,
/// 15.3 m for 50 ft. The safe side is to count the neighbor.
pub(crate) const TENTH_OF_A_METRE_FT: f64 = 0.33;

impl Building {
    /// The building as the minimum supply sees it.
    pub fn rural(&self) -> Result<RuralBuilding, FactError> {
        let stories = one_or_more("stories", self.stories)?;
        let story = more_than_zero("eaves_ft", self.eaves_ft)? / stories;
        Ok(RuralBuilding {
            length_ft: self.length_ft,
            width_ft: self.width_ft,
            storey_heights_ft: vec![story; self.stories as usize],
            height_to_ridge_ft: self.ridge_ft,
            occupancy: self.occupancy,
            construction: self.construction,
            dwelling_construction_cap: self.dwelling_construction_cap,
            exposed: self.exposure_hazards()? > 0,
        })
    }

    /// How many of its neighbors are exposure hazards: see [`Building::is_hazard`].
    pub fn exposure_hazards(&self) -> Result<u32, FactError> {
        let mut count = 0;
        for near in &self.exposures {
            count += u32::from(self.is_hazard(near)?);
        }
        Ok(count)
    }

    /// Whether a neighbor is an exposure hazard to it.
    ///
    /// - Returns: as [`is_exposure_hazard`], but a tenth of a metre farther out, for distances taken in metres.
    /// - Errors: as [`is_exposure_hazard`].
    pub fn is_hazard(&self, near: &Exposure) -> Result<bool, FactError> {
        let distance = zero_or_more("distance_ft", near.distance_ft)?;
        is_exposure_hazard(
            (distance - TENTH_OF_A_METRE_FT).max(0.0),
            near.area_ft2,
            self.occupancy,
            near.occupancy,
        )
    }

    /// Whether the table for one- and two-family dwellings applies.
    pub(crate) fn has_table(&self) -> bool {
        self.dwelling && self.stories <= TABLE_STORIES
    }

    /// Distance to the nearest building, ft, if any is stated.
    pub(crate) fn nearest_ft(&self) -> Option<f64> {
        self.exposures.iter().map(|near| near.distance_ft).min_by(f64::total_cmp)
    }
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;

    /// A neighbor at 25 ft.
    pub(crate) const NEIGHBOR: Exposure =
        Exposure { distance_ft: 25.0, area_ft2: 900.0, occupancy: OccupancyHazard::Light };

    /// A two-story wooden dwelling.
    pub(crate) fn house() -> Building {
        Building {
            length_ft: 40.0,
            width_ft: 30.0,
            stories: 2,
            eaves_ft: 16.0,
            ridge_ft: 8.0,
            open_height_ft: None,
            dwelling: true,
            occupancy: OccupancyHazard::Light,
            construction: ConstructionType::V,
            dwelling_construction_cap: Some(1.0),
            contents: Contents::Combustible,
            floors_burning: 1,
            share_involved: 0.5,
            exposures: vec![],
            exposure_charge: 0.0,
            communication_charge: 0.0,
            dwelling_table: DwellingTable::Older,
        }
    }

    #[test]
    fn a_hazard_at_fifty_feet_is_one_in_metres_too() {
        // NFPA 1142: within 50 ft, 15.24 m; a tape read to a tenth of a metre says 15.2 or 15.3.
        let hazards = |distance_ft: f64| {
            let neighbor = Exposure { distance_ft, ..NEIGHBOR };
            Building { exposures: vec![neighbor], ..house() }.exposure_hazards().unwrap()
        };
        for metres in [15.2, 15.24, 15.3] {
            assert_eq!(hazards(metres / 0.3048), 1, "{metres} m");
        }
        assert_eq!((hazards(50.0), hazards(51.0), hazards(15.5 / 0.3048)), (1, 0, 0));
    }
}
