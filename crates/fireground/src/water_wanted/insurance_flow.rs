//! Needed fire flow as the insurance rating schedule figures it.

use crate::fact_checks::{more_than_zero, within, zero_or_more};
use crate::told::{Part, Unit, given_number, given_of, told};
use crate::{FactError, Told, Worked};

/// Construction of an insured building, for the factor F.
///
/// Source: ISO needed fire flow guide; numbers from memory.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum InsuredConstruction {
    /// Class 1, frame: F 1.5.
    Frame,
    /// Class 2, joisted masonry: F 1.0.
    JoistedMasonry,
    /// Classes 3 and 4, noncombustible, also with masonry walls: F 0.8.
    Noncombustible,
    /// Classes 5 and 6, fire resistive, also modified: F 0.6.
    FireResistive,
}

impl InsuredConstruction {
    /// The coefficient F.
    pub fn factor(self) -> f64 {
        match self {
            InsuredConstruction::Frame => 1.5,
            InsuredConstruction::JoistedMasonry => 1.0,
            InsuredConstruction::Noncombustible => 0.8,
            InsuredConstruction::FireResistive => 0.6,
        }
    }

    /// The most that C may be, gpm. Source: ISO needed fire flow guide, values from memory.
    fn greatest_c_gpm(self) -> f64 {
        match self {
            InsuredConstruction::Frame | InsuredConstruction::JoistedMasonry => 8000.0,
            InsuredConstruction::Noncombustible | InsuredConstruction::FireResistive => 6000.0,
        }
    }
}

/// How the contents burn, for the occupancy factor O.
///
/// Source: ISO needed fire flow guide; numbers from memory.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Contents {
    /// C-1: O 0.75.
    Noncombustible,
    /// C-2: O 0.85.
    LimitedCombustible,
    /// C-3: O 1.0.
    Combustible,
    /// C-4: O 1.15.
    FreeBurning,
    /// C-5: O 1.25.
    RapidBurning,
}

impl Contents {
    /// The occupancy factor O.
    pub fn factor(self) -> f64 {
        match self {
            Contents::Noncombustible => 0.75,
            Contents::LimitedCombustible => 0.85,
            Contents::Combustible => 1.0,
            Contents::FreeBurning => 1.15,
            Contents::RapidBurning => 1.25,
        }
    }
}

/// What the needed fire flow asks about a building.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct InsuredBuilding {
    /// Effective area A, ft2, more than 0, as the guide counts it (mostly the largest floor and half of the
    /// others).
    pub effective_area_ft2: f64,
    /// Construction, for F.
    pub construction: InsuredConstruction,
    /// Contents, for O.
    pub contents: Contents,
    /// Exposure charge X for the side with the highest charge, 0 to 1; 0 without exposure.
    pub exposure: f64,
    /// Communication charge P for the same side (openings and passages), 0 to 1; 0 without.
    pub communication: f64,
}

/// Edition of the table for one- and two-family dwellings.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum DwellingTable {
    /// The older one: lines at 100, 30 and 10 ft.
    Older,
    /// The newer one: lines at 30, 20 and 10 ft (values from memory).
    Newer,
}

/// Greatest X + P of the guide. Source: ISO needed fire flow guide, value from memory.
const GREATEST_CHARGE: f64 = 0.60;

/// Limits of the needed fire flow, gpm. Source: ISO fire suppression rating schedule.
const LEAST_FLOW_GPM: f64 = 500.0;
const GREATEST_FLOW_GPM: f64 = 12_000.0;

/// Flow from which the needed fire flow is rounded to 500 gpm instead of 250. Source: ISO needed fire flow
/// guide, value from memory.
const COARSE_ROUNDING_FROM_GPM: f64 = 2500.0;

/// (Closest distance of the line, ft; flow, gpm), farthest first. Below the last line 1,500 gpm.
const OLDER_TABLE: [(f64, f64); 3] = [(100.0, 500.0), (31.0, 750.0), (11.0, 1000.0)];
const NEWER_TABLE: [(f64, f64); 3] = [(30.0, 500.0), (21.0, 750.0), (11.0, 1000.0)];
const CLOSEST_FLOW_GPM: f64 = 1500.0;

const FLOW_SOURCE: &str =
    "ISO guide for determination of needed fire flow (form seen, numbers from memory)";
const OLDER_SOURCE: &str = "ISO fire suppression rating schedule, older edition";
const NEWER_SOURCE: &str =
    "ISO fire suppression rating schedule, newer edition (values from memory)";

/// 18 gpm for the root of a square foot are 223.5 L/min for that of a square metre (3.785412 L, 0.3048 m).
const EIGHTEEN: Part = Part::Constant { us: "18", metric: "223.5" };
const GPM: Part = Part::Constant { us: " gpm", metric: " L/min" };

fn nearest(value: f64, step: f64) -> f64 {
    (value / step).round() * step
}

/// Needed fire flow of a building by the insurance guide.
///
/// - Given: the building, in [`InsuredBuilding`].
/// - Returns: gpm. C = 18 F sqrt(A), to the nearest 250; flow = C x O x (1 + X + P), to the nearest 250 below
///   2,500 and to the nearest 500 from there; from 500 to 12,000. C itself is held to 500 to 8,000 (frame,
///   joisted masonry) or 6,000 (others).
/// - Errors: not finite or negative values; no area; a charge above 1.
/// - Source: ISO guide; the form was seen, the numbers are from memory.
/// - Limits: not for one- and two-family dwellings of up to two storeys, which have a table
///   ([`dwelling_flow`]), nor for buildings with sprinklers. A wood-shingle roof adds to it; not counted here.
pub fn needed_fire_flow(building: &InsuredBuilding) -> Result<Worked, FactError> {
    const CURE: &str = "a charge is a fraction such as 0.15, not a percentage";
    let area = more_than_zero("effective_area_ft2", building.effective_area_ft2)?;
    let exposure = zero_or_more("exposure", building.exposure)?;
    within("exposure", exposure, 0.0, 1.0, CURE)?;
    let communication = zero_or_more("communication", building.communication)?;
    within("communication", communication, 0.0, 1.0, CURE)?;

    let factor = building.construction.factor();
    let greatest_c = building.construction.greatest_c_gpm();
    let raw_c = 18.0 * factor * area.sqrt();
    let rounded_c = nearest(raw_c, 250.0);
    let c = rounded_c.clamp(LEAST_FLOW_GPM, greatest_c);
    let occupancy = building.contents.factor();
    let charge = 1.0 + exposure + communication;
    let raw_flow = c * occupancy * charge;
    let step = if raw_flow < COARSE_ROUNDING_FROM_GPM { 250.0 } else { 500.0 };
    let rounded_flow = nearest(raw_flow, step);
    let flow = rounded_flow.clamp(LEAST_FLOW_GPM, GREATEST_FLOW_GPM);

    let bare = |gpm| Part::Bare(gpm, Unit::Gpm, 0);
    let mut how = told![
        EIGHTEEN,
        " x ",
        given_number(factor),
        " x sqrt(",
        Part::Bare(area, Unit::SquareFeet, 1),
        ") = ",
        bare(raw_c),
        ", to the nearest ",
        bare(250.0),
        ": ",
        bare(rounded_c),
    ];
    if c != rounded_c {
        how = how.and(told![", held to ", bare(c)]);
    }
    if occupancy != 1.0 || charge != 1.0 {
        how = how.and(told![
            "; x ",
            given_number(occupancy),
            " x (1 + ",
            given_number(exposure),
            " + ",
            given_number(communication),
            ") = ",
            bare(raw_flow),
            ", to the nearest ",
            bare(step),
            ": ",
            bare(rounded_flow),
        ]);
    } else if rounded_flow != c {
        how = how.and(told![", to the nearest ", bare(step), ": ", bare(rounded_flow)]);
    }
    if flow != rounded_flow {
        how = how.and(told![", held to ", bare(flow)]);
    }
    how = how.and(told![GPM]);
    Ok(Worked::new(flow, "gpm", how, FLOW_SOURCE)?
        .warn_if(c != rounded_c || flow != rounded_flow, || {
            told![
                "the formula ran outside its limits and was held to them: C ",
                bare(LEAST_FLOW_GPM),
                " to ",
                Part::Of(greatest_c, Unit::Gpm, 0),
                ", flow ",
                bare(LEAST_FLOW_GPM),
                " to ",
                Part::Of(GREATEST_FLOW_GPM, Unit::Gpm, 0),
            ]
        })
        .warn_if(charge - 1.0 > GREATEST_CHARGE + 1e-9, || {
            told![
                "exposure and communication together are ",
                given_number(charge - 1.0),
                ": the guide ends at 0.6",
            ]
        }))
}

/// Needed fire flow of a one- or two-family dwelling of up to two storeys, by the distance to the next building.
///
/// - Given: `distance_ft` to the nearest building, ft, 0 or more; `table`, the edition that applies.
/// - Returns: gpm, 500 to 1,500. The tables list whole feet; a distance between two lines is read at the
///   nearer one, which asks for more water.
/// - Errors: not finite or negative distance.
/// - Source: ISO fire suppression rating schedule; the newer table is from memory.
pub fn dwelling_flow(distance_ft: f64, table: DwellingTable) -> Result<Worked, FactError> {
    zero_or_more("distance_ft", distance_ft)?;
    let (lines, source) = match table {
        DwellingTable::Older => (OLDER_TABLE, OLDER_SOURCE),
        DwellingTable::Newer => (NEWER_TABLE, NEWER_SOURCE),
    };
    let [(far, far_flow), (middle, middle_flow), (near, near_flow)] = lines;
    // The farthest line says "more than", the others list their closest whole foot.
    let flow = if distance_ft > far {
        far_flow
    } else if distance_ft >= middle {
        middle_flow
    } else if distance_ft >= near {
        near_flow
    } else {
        CLOSEST_FLOW_GPM
    };
    Worked::new(flow, "gpm", dwelling_at(distance_ft, flow, table), source)
}

/// The reading of the table in words, with its lines: what a step nearer or farther asks for is no surprise.
pub(crate) fn dwelling_at(distance_ft: f64, flow_gpm: f64, table: DwellingTable) -> Told {
    let [(far, far_flow), (middle, middle_flow), (near, near_flow)] = match table {
        DwellingTable::Older => OLDER_TABLE,
        DwellingTable::Newer => NEWER_TABLE,
    };
    let feet = |feet| Part::Of(feet, Unit::Feet, 0);
    let bare = |gpm| Part::Bare(gpm, Unit::Gpm, 0);
    told![
        "a dwelling ",
        given_of(distance_ft, Unit::Feet),
        " from the next building: ",
        Part::Of(flow_gpm, Unit::Gpm, 0),
        " (the table: ",
        bare(CLOSEST_FLOW_GPM),
        " below ",
        feet(near),
        ", ",
        bare(near_flow),
        " from there, ",
        bare(middle_flow),
        " from ",
        feet(middle),
        ", ",
        bare(far_flow),
        " beyond ",
        feet(far),
        ")",
    ]
}

#[cfg(test)]
mod tests {
    use super::*;

    const SHOP: InsuredBuilding = InsuredBuilding {
        effective_area_ft2: 2000.0,
        construction: InsuredConstruction::Frame,
        contents: Contents::Combustible,
        exposure: 0.0,
        communication: 0.0,
    };

    #[test]
    fn the_sum_reads_as_an_officer_would_write_it() {
        let flow = needed_fire_flow(&SHOP).unwrap();
        assert_eq!(
            flow.how.to_string(),
            "18 x 1.5 x sqrt(2,000) = 1,207, to the nearest 250: 1,250 gpm"
        );
        let charged = InsuredBuilding { exposure: 0.15, contents: Contents::FreeBurning, ..SHOP };
        let flow = needed_fire_flow(&charged).unwrap();
        assert_eq!(flow.value, 1750.0);
        assert!(
            flow.how
                .to_string()
                .ends_with("x 1.15 x (1 + 0.15 + 0) = 1,653, to the nearest 250: 1,750 gpm")
        );
    }

    #[test]
    fn limits_hold_and_are_told() {
        let shed = InsuredBuilding { effective_area_ft2: 100.0, ..SHOP };
        let flow = needed_fire_flow(&shed).unwrap();
        assert_eq!((flow.value, flow.warnings.len()), (500.0, 1));
        let mill = InsuredBuilding {
            effective_area_ft2: 1e6,
            contents: Contents::RapidBurning,
            exposure: 0.3,
            communication: 0.3,
            ..SHOP
        };
        let flow = needed_fire_flow(&mill).unwrap();
        assert_eq!((flow.value, flow.warnings.len()), (12_000.0, 1));
    }

    #[test]
    fn a_percentage_for_a_fraction_is_refused() {
        for (charge, allowed) in [(1.0, true), (1.01, false)] {
            let exposed = InsuredBuilding { exposure: charge, ..SHOP };
            let connected = InsuredBuilding { communication: charge, ..SHOP };
            assert_eq!(needed_fire_flow(&exposed).is_ok(), allowed);
            assert_eq!(needed_fire_flow(&connected).is_ok(), allowed);
        }
    }

    #[test]
    fn charges_beyond_the_guide_warn() {
        for (exposure, warnings) in [(0.35, 0), (0.36, 1)] {
            let charged = InsuredBuilding { exposure, communication: 0.25, ..SHOP };
            let flow = needed_fire_flow(&charged).unwrap();
            assert_eq!(flow.warnings.len(), warnings, "{exposure}");
            if let Some(warning) = flow.warnings.first() {
                assert!(warning.to_string().contains("together are 0.61"), "{warning}");
            }
        }
    }

    #[test]
    fn from_2500_the_flow_is_rounded_to_500() {
        // C = 18 x 1.0 x 150 = 2,700, to 2,750; to the nearest 500 that is 3,000 (halves go up).
        let store = InsuredBuilding {
            effective_area_ft2: 22_500.0,
            construction: InsuredConstruction::JoistedMasonry,
            ..SHOP
        };
        assert_eq!(needed_fire_flow(&store).unwrap().value, 3000.0);
        // C 2,500 x 1.05 = 2,625: 2,500 to the nearest 500, where the nearest 250 would be 2,750.
        let exposed = InsuredBuilding { effective_area_ft2: 20_000.0, exposure: 0.05, ..store };
        assert_eq!(needed_fire_flow(&exposed).unwrap().value, 2500.0);
    }
}
