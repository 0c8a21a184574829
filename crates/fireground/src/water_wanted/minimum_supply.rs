//! Minimum water supply of a rural building, and the rate at which to deliver it.

use crate::fact_checks::{more_than_zero, zero_or_more};
use crate::told::{Part, Unit, given_number, told};
use crate::{FactError, Worked};

/// Occupancy hazard class: the lower the number, the worse the hazard.
///
/// Source: NFPA 1142 (a dwelling is light, a commercial barn high).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum OccupancyHazard {
    /// Class 3, severe.
    Severe,
    /// Class 4, high: a commercial barn.
    High,
    /// Class 5, moderate.
    Moderate,
    /// Class 6, low.
    Low,
    /// Class 7, light: a dwelling.
    Light,
}

impl OccupancyHazard {
    /// The class number, 3 to 7, by which the volume is divided.
    pub fn class(self) -> f64 {
        match self {
            OccupancyHazard::Severe => 3.0,
            OccupancyHazard::High => 4.0,
            OccupancyHazard::Moderate => 5.0,
            OccupancyHazard::Low => 6.0,
            OccupancyHazard::Light => 7.0,
        }
    }

    /// The class of a building of mixed occupancy: the worst, that is the lowest number.
    ///
    /// - Errors: [`FactError::Empty`] for no occupancy.
    pub fn worst(occupancies: &[OccupancyHazard]) -> Result<OccupancyHazard, FactError> {
        occupancies.iter().copied().min_by(|a, b| a.class().total_cmp(&b.class())).ok_or(
            FactError::Empty { field: "occupancies", cure: "name each occupancy in the building" },
        )
    }

    /// Whether it counts as an exposure hazard whatever its size (class 3 or 4).
    fn exposes_at_any_size(self) -> bool {
        matches!(self, OccupancyHazard::Severe | OccupancyHazard::High)
    }
}

/// Construction class by type of construction.
///
/// Source: NFPA 1142; the numbers of types III and IV are values from memory.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum ConstructionType {
    /// Type I, fire resistive: 0.5.
    I,
    /// Type II, noncombustible: 0.75.
    II,
    /// Type III, ordinary: 1.0 (value from memory).
    III,
    /// Type IV, heavy timber: 0.75 (value from memory).
    IV,
    /// Type V, wood frame: 1.5.
    V,
}

impl ConstructionType {
    /// The construction classification number, 0.5 to 1.5.
    pub fn class(self) -> f64 {
        match self {
            ConstructionType::I => 0.5,
            ConstructionType::II => 0.75,
            ConstructionType::III => 1.0,
            ConstructionType::IV => 0.75,
            ConstructionType::V => 1.5,
        }
    }

    /// The type that governs a building of mixed construction: the one with the highest number.
    ///
    /// - Errors: [`FactError::Empty`] for no type.
    pub fn highest(types: &[ConstructionType]) -> Result<ConstructionType, FactError> {
        types.iter().copied().max_by(|a, b| a.class().total_cmp(&b.class())).ok_or(
            FactError::Empty {
                field: "types",
                cure: "name each type of construction in the building",
            },
        )
    }
}

/// What the minimum water supply asks about a building.
#[derive(Debug, Clone, PartialEq)]
pub struct RuralBuilding {
    /// Length, ft, more than 0.
    pub length_ft: f64,
    /// Width, ft, more than 0.
    pub width_ft: f64,
    /// Height of each storey, ft, each more than 0; one entry or more. Count a basement that is lived in.
    pub storey_heights_ft: Vec<f64>,
    /// Height from the top of the uppermost storey to the ridge, ft; half of it counts. 0 for a flat roof.
    pub height_to_ridge_ft: f64,
    /// Occupancy hazard; of a mix, [`OccupancyHazard::worst`].
    pub occupancy: OccupancyHazard,
    /// Type of construction; of a mix, [`ConstructionType::highest`].
    pub construction: ConstructionType,
    /// The most the construction number may be, for a dwelling where the edition in force has such a cap
    /// (1.0 in some; value from memory). `None` where there is no cap or the building is not a dwelling.
    pub dwelling_construction_cap: Option<f64>,
    /// Whether an exposure hazard stands near: see [`is_exposure_hazard`].
    pub exposed: bool,
}

/// Distance within which another building is an exposure hazard, ft. Source: NFPA 1142.
const EXPOSURE_DISTANCE_FT: f64 = 50.0;

/// Size from which another building is an exposure hazard, ft2. Source: NFPA 1142.
const EXPOSURE_AREA_FT2: f64 = 100.0;

/// Factor on the supply of an exposed building. Source: NFPA 1142.
const EXPOSURE_FACTOR: f64 = 1.5;

/// Least supply of a building without and with an exposure hazard, gal. Source: NFPA 1142.
const LEAST_GAL: f64 = 2000.0;
const LEAST_EXPOSED_GAL: f64 = 3000.0;

/// Delivery rate by total supply: (supply below this, gal; rate, gpm). At and above the last, 1,000 gpm.
/// Source: NFPA 1142 table, values from memory.
const DELIVERY_RATES: [(f64, f64); 3] = [(2500.0, 250.0), (10_000.0, 500.0), (20_000.0, 750.0)];
const GREATEST_DELIVERY_RATE_GPM: f64 = 1000.0;

const SUPPLY_SOURCE: &str = "NFPA 1142 chapter 4 (construction numbers of types III and IV and the dwelling cap: values from memory)";
const RATE_SOURCE: &str = "NFPA 1142, table of delivery rates (values from memory)";

/// The rule takes a gallon for a cubic foot: 133.7 L for a m3 (3.785412 L, 0.3048 m).
const A_GALLON_FOR_A_CUBIC_FOOT: Part = Part::Constant { us: "", metric: " x 133.7 L a m3" };
const FEET: Part = Part::Constant { us: " ft", metric: " m" };

/// Enclosed volume of a building, as the minimum water supply counts it.
///
/// - Given: `building`; only its sizes count.
/// - Returns: ft3 = length x width x (storey heights + half the height to the ridge).
/// - Errors: not finite, negative or zero sizes; no storey.
/// - Source: NFPA 1142.
pub fn enclosed_volume(building: &RuralBuilding) -> Result<Worked, FactError> {
    let length = more_than_zero("length_ft", building.length_ft)?;
    let width = more_than_zero("width_ft", building.width_ft)?;
    if building.storey_heights_ft.is_empty() {
        return Err(FactError::Empty {
            field: "storey_heights_ft",
            cure: "give the height of each storey",
        });
    }
    let mut storeys = 0.0;
    for &height in &building.storey_heights_ft {
        storeys += more_than_zero("storey_heights_ft", height)?;
    }
    let ridge = zero_or_more("height_to_ridge_ft", building.height_to_ridge_ft)?;

    let volume = length * width * (storeys + ridge / 2.0);
    let bare = |feet| Part::Bare(feet, Unit::Feet, 1);
    let mut how = told![bare(length), " x ", bare(width), " x ("];
    for height in &building.storey_heights_ft {
        how = how.and(told![bare(*height), " + "]);
    }
    how = how.and(told![bare(ridge), " / 2)", FEET, " = ", Part::Of(volume, Unit::CubicFeet, 0)]);
    Worked::new(volume, "ft3", how, "NFPA 1142")
}

/// Minimum water supply of a rural building.
///
/// - Given: the building, in [`RuralBuilding`].
/// - Returns: gallons = volume / occupancy hazard class x construction class, x 1.5 with an exposure hazard;
///   at least 2,000 gal, 3,000 gal with an exposure hazard.
/// - Errors: as [`enclosed_volume`]; a cap that is not more than 0.
/// - Source: NFPA 1142 chapter 4.
/// - Limits: a minimum without sprinklers. The authority having jurisdiction may ask for more.
pub fn minimum_supply(building: &RuralBuilding) -> Result<Worked, FactError> {
    let volume = enclosed_volume(building)?.value;
    let mut construction = building.construction.class();
    let mut capped = false;
    if let Some(cap) = building.dwelling_construction_cap {
        more_than_zero("dwelling_construction_cap", cap)?;
        capped = cap < construction;
        construction = construction.min(cap);
    }
    let class = building.occupancy.class();
    let (factor, least) =
        if building.exposed { (EXPOSURE_FACTOR, LEAST_EXPOSED_GAL) } else { (1.0, LEAST_GAL) };
    let by_formula = volume / class * construction * factor;
    let supply = by_formula.max(least);

    let mut how = told![
        Part::Of(volume, Unit::CubicFeet, 0),
        A_GALLON_FOR_A_CUBIC_FOOT,
        " / ",
        given_number(class),
        " (hazard class) x ",
        given_number(construction),
        " (construction)",
    ];
    if building.exposed {
        how = how.and(told![" x 1.5 (exposure)"]);
    }
    how = how.and(told![" = ", Part::Of(by_formula, Unit::Gallons, 0)]);
    if by_formula < least {
        how = how.and(told![", raised to the least allowed: ", Part::Of(least, Unit::Gallons, 0)]);
    }
    Ok(Worked::new(supply, "gal", how, SUPPLY_SOURCE)?
        .warn_if(capped, || {
            told![
                "the construction number ",
                given_number(building.construction.class()),
                " was held to the dwelling cap ",
                given_number(construction),
                ": not every edition has one",
            ]
        })
        .warn_if(
            building.dwelling_construction_cap.is_some()
                && building.occupancy != OccupancyHazard::Light,
            || {
                told![
                    "a dwelling cap was given for an occupancy that is not light hazard: check it"
                ]
            },
        ))
}

/// Rate at which the minimum supply should reach the fire.
///
/// - Given: `supply_gal`, the total supply, gal, more than 0.
/// - Returns: gpm: 250 below 2,500 gal, 500 below 10,000, 750 below 20,000, else 1,000.
/// - Errors: not finite, negative or zero supply.
/// - Source: NFPA 1142, table (values from memory). It lists whole gallons; a supply between two lines
///   belongs to the lower one.
pub fn delivery_rate(supply_gal: f64) -> Result<Worked, FactError> {
    more_than_zero("supply_gal", supply_gal)?;
    let rate = DELIVERY_RATES
        .iter()
        .find(|(below, _)| supply_gal < *below)
        .map_or(GREATEST_DELIVERY_RATE_GPM, |(_, rate)| *rate);
    let how = told![
        "a supply of ",
        Part::Of(supply_gal, Unit::Gallons, 0),
        " is to be delivered at ",
        Part::Of(rate, Unit::Gpm, 0),
    ];
    Worked::new(rate, "gpm", how, RATE_SOURCE)
}

/// Whether a neighboring building is an exposure hazard to this one.
///
/// - Given: `distance_ft` between them, ft, 0 or more; `area_ft2` of the neighbor, ft2, more than 0; the
///   occupancy hazards of this building and of the neighbor.
/// - Returns: true within 50 ft, if the neighbor has 100 ft2 or more, or either is class 3 or 4.
/// - Errors: not finite or negative values.
/// - Source: NFPA 1142.
pub fn is_exposure_hazard(
    distance_ft: f64,
    area_ft2: f64,
    own: OccupancyHazard,
    neighbor: OccupancyHazard,
) -> Result<bool, FactError> {
    zero_or_more("distance_ft", distance_ft)?;
    more_than_zero("area_ft2", area_ft2)?;
    let any_size = own.exposes_at_any_size() || neighbor.exposes_at_any_size();
    Ok(distance_ft <= EXPOSURE_DISTANCE_FT && (any_size || area_ft2 >= EXPOSURE_AREA_FT2))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn dwelling() -> RuralBuilding {
        RuralBuilding {
            length_ft: 40.0,
            width_ft: 30.0,
            storey_heights_ft: vec![8.0, 8.0],
            height_to_ridge_ft: 8.0,
            occupancy: OccupancyHazard::Light,
            construction: ConstructionType::V,
            dwelling_construction_cap: None,
            exposed: false,
        }
    }

    #[test]
    fn half_the_height_to_the_ridge_counts() {
        assert_eq!(enclosed_volume(&dwelling()).unwrap().value, 40.0 * 30.0 * 20.0);
        let no_storey = RuralBuilding { storey_heights_ft: vec![], ..dwelling() };
        assert!(matches!(enclosed_volume(&no_storey), Err(FactError::Empty { .. })));
    }

    #[test]
    fn the_dwelling_cap_lowers_the_number_and_says_so() {
        let open = minimum_supply(&dwelling()).unwrap();
        let capped = RuralBuilding { dwelling_construction_cap: Some(1.0), ..dwelling() };
        let capped = minimum_supply(&capped).unwrap();
        assert!((open.value / capped.value - 1.5).abs() < 1e-12);
        assert!(open.warnings.is_empty());
        assert_eq!(capped.warnings.len(), 1);
    }

    #[test]
    fn a_barn_with_a_dwelling_cap_is_questioned() {
        let barn = RuralBuilding {
            occupancy: OccupancyHazard::High,
            construction: ConstructionType::III,
            dwelling_construction_cap: Some(1.0),
            ..dwelling()
        };
        assert_eq!(minimum_supply(&barn).unwrap().warnings.len(), 1);
    }
}
