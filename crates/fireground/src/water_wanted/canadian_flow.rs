//! Required fire flow as the Canadian insurers figure it.

use crate::fact_checks::{more_than_zero, zero_or_more};
use crate::insurance_flow::{Contents, InsuredConstruction};
use crate::told::{Part, Unit, given_number, told};
use crate::{FactError, Told, Worked};

/// What the required fire flow asks about a building.
#[derive(Debug, Clone, PartialEq)]
pub struct CanadianBuilding {
    /// Floor area of all stories, ft2, more than 0; basements at least half below grade left out.
    pub floor_area_ft2: f64,
    /// Construction, for the coefficient C.
    pub construction: InsuredConstruction,
    /// Contents, for the occupancy charge.
    pub contents: Contents,
    /// Distances to the buildings near, one a side, ft, each 0 or more.
    pub exposures_ft: Vec<f64>,
}

const SOURCE: &str = "Fire Underwriters Survey, Water Supply for Public Fire Protection, 1999 edition (values from \
                      memory; the coefficients, exposure charges and limits also as an engineer's published sums have \
                      them)";

const LITRES_PER_GALLON: f64 = 3.785_411_784;
const SQUARE_METRES_PER_SQUARE_FOOT: f64 = 0.3048 * 0.3048;
const METRES_PER_FOOT: f64 = 0.3048;

/// Limits of the required fire flow, L/min.
const LEAST_LPM: f64 = 2_000.0;
const GREATEST_LPM: f64 = 45_000.0;
/// It is rounded to this, L/min.
const STEP_LPM: f64 = 1_000.0;
/// (Distance up to which, m; share added for a building so near), the nearest first; farther ones add nothing.
const CHARGES: [(f64, f64); 5] =
    [(3.0, 0.25), (10.0, 0.20), (20.0, 0.15), (30.0, 0.10), (45.0, 0.05)];
/// Greatest share added for all exposures together.
const GREATEST_CHARGE: f64 = 0.75;

/// What contents add to or take off the flow, as a share.
fn occupancy(contents: Contents) -> f64 {
    match contents {
        Contents::Noncombustible => -0.25,
        Contents::LimitedCombustible => -0.15,
        Contents::Combustible => 0.0,
        Contents::FreeBurning => 0.15,
        Contents::RapidBurning => 0.25,
    }
}

/// The share that a building at this distance adds.
fn charge(distance_ft: f64) -> f64 {
    // Distances are stated to a tenth of a metre, and to a foot: the line itself is still within it.
    let metres = ((distance_ft * METRES_PER_FOOT) * 10.0).round() / 10.0;
    CHARGES.iter().find(|(up_to, _)| metres <= *up_to).map_or(0.0, |(_, share)| *share)
}

/// Required fire flow of a building by the Canadian insurers' guide.
///
/// - Given: the building, in [`CanadianBuilding`].
/// - Returns: gpm. F = 220 C sqrt(A) L/min to the nearest 1,000 L/min, 15% or 25% more or less by its contents, then 5%
///   to 25% more for each building within 45 m, up to 75%; to the nearest 1,000, from 2,000 to 45,000 L/min.
/// - Errors: not finite or negative values; no area.
/// - Source: Fire Underwriters Survey, Water Supply for Public Fire Protection, 1999 edition; values from memory. A
///   later edition (2020) has other areas for some construction and no charge beyond 30 m.
/// - Limits: without sprinklers; of fire-resistive buildings all floors are counted, which asks for too much; dwellings
///   have a short table in the guide, which is not used here.
pub fn required_fire_flow(building: &CanadianBuilding) -> Result<Worked, FactError> {
    let area = more_than_zero("floor_area_ft2", building.floor_area_ft2)?;
    let mut added = 0.0;
    for distance in &building.exposures_ft {
        added += charge(zero_or_more("exposures_ft", *distance)?);
    }
    let added = added.min(GREATEST_CHARGE);
    let nearest = |litres: f64| (litres / STEP_LPM).round() * STEP_LPM;
    let factor = building.construction.factor();
    let raw = 220.0 * factor * (area * SQUARE_METRES_PER_SQUARE_FOOT).sqrt();
    let base = nearest(raw);
    let by_contents = base * (1.0 + occupancy(building.contents));
    let asked = nearest(by_contents * (1.0 + added));
    let litres = asked.clamp(LEAST_LPM, GREATEST_LPM);
    let bare = |litres: f64| Part::Bare(litres / LITRES_PER_GALLON, Unit::Gpm, 0);
    let mut how: Told = told![
        ROOT,
        " x ",
        given_number(factor),
        " x sqrt(",
        Part::Bare(area, Unit::SquareFeet, 1),
        ") = ",
        bare(raw),
        ", to the nearest ",
        bare(STEP_LPM),
        ": ",
        bare(base),
        "; x ",
        given_number(1.0 + occupancy(building.contents)),
        " (contents) x ",
        given_number(1.0 + added),
        " (exposures) = ",
        bare(by_contents * (1.0 + added)),
        ", to the nearest ",
        bare(STEP_LPM),
        ": ",
        bare(asked),
    ];
    if litres != asked {
        how = how.and(told![", held to ", bare(litres)]);
    }
    how = how.and(told![FLOW_UNIT]);
    Worked::new(litres / LITRES_PER_GALLON, "gpm", how, SOURCE)
}

/// 220 L/min for the root of a square metre are 17.72 gpm for that of a square foot (3.785412 L, 0.3048 m).
const ROOT: Part = Part::Constant { us: "17.72", metric: "220" };
const FLOW_UNIT: Part = Part::Constant { us: " gpm", metric: " L/min" };

#[cfg(test)]
mod tests {
    use super::*;

    /// A wooden barn of 200 m2 with hay in it.
    fn barn() -> CanadianBuilding {
        CanadianBuilding {
            floor_area_ft2: 200.0 / SQUARE_METRES_PER_SQUARE_FOOT,
            construction: InsuredConstruction::Frame,
            contents: Contents::FreeBurning,
            exposures_ft: Vec::new(),
        }
    }

    fn litres(building: &CanadianBuilding) -> f64 {
        required_fire_flow(building).unwrap().value * LITRES_PER_GALLON
    }

    #[test]
    fn the_guide_is_worked_by_hand() {
        // 220 x 1.5 x sqrt(200) = 4,667 -> 5,000; x 1.15 = 5,750 -> 6,000 (the guide's steps, worked by hand).
        assert!((litres(&barn()) - 6_000.0).abs() < 1e-6);
        // A building at 8 m adds 20%, one at 40 m 5%: 5,750 x 1.25 = 7,187.5 -> 7,000.
        let exposed = CanadianBuilding {
            exposures_ft: vec![8.0 / METRES_PER_FOOT, 40.0 / METRES_PER_FOOT],
            ..barn()
        };
        assert!((litres(&exposed) - 7_000.0).abs() < 1e-6);
        // Masonry, contents that do not burn: 220 x 1.0 x sqrt(200) = 3,111 -> 3,000; x 0.75 = 2,250 -> 2,000.
        let shop = CanadianBuilding {
            construction: InsuredConstruction::JoistedMasonry,
            contents: Contents::Noncombustible,
            ..barn()
        };
        assert!((litres(&shop) - 2_000.0).abs() < 1e-6);
    }

    #[test]
    fn charges_end_where_the_guide_ends_them() {
        let rows = [
            // (m, share added)
            (0.0, 0.25),
            (3.0, 0.25),
            (3.1, 0.20),
            (10.0, 0.20),
            (10.1, 0.15),
            (20.0, 0.15),
            (20.1, 0.10),
            (30.0, 0.10),
            (30.1, 0.05),
            (45.0, 0.05),
            (45.1, 0.0),
        ];
        for (metres, share) in rows {
            assert_eq!(charge(metres / METRES_PER_FOOT), share, "{metres} m");
        }
        // Four buildings at 2 m add 75%, not 100%: 5,750 x 1.75 = 10,062.5 -> 10,000.
        let crowded = CanadianBuilding { exposures_ft: vec![2.0 / METRES_PER_FOOT; 4], ..barn() };
        assert!((litres(&crowded) - 10_000.0).abs() < 1e-6);
    }

    #[test]
    fn it_is_held_to_its_limits_and_refuses_what_is_no_size() {
        let hut = CanadianBuilding { floor_area_ft2: 100.0, ..barn() };
        assert!((litres(&hut) - 2_000.0).abs() < 1e-6);
        let works = CanadianBuilding { floor_area_ft2: 1e6, ..barn() };
        assert!((litres(&works) - 45_000.0).abs() < 1e-6);
        assert!(required_fire_flow(&works).unwrap().how.to_string().contains("held to"));
        for area in [0.0, -1.0, f64::NAN] {
            let none = CanadianBuilding { floor_area_ft2: area, ..barn() };
            assert!(required_fire_flow(&none).is_err(), "{area}");
        }
    }
}
