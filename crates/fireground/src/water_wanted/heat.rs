//! Heat that a flow of water can take from a fire.

use crate::fact_checks::{more_than_zero, share, within};
use crate::told::{Part, Unit, given_number, given_of, told};
use crate::{FactError, Worked};

/// Weight of a gallon of water, lb. Source: steam tables, near 60 F.
pub const POUNDS_PER_GALLON: f64 = 8.34;

/// Heat to boil off a pound of water at 212 F, Btu. Source: steam tables (970.3; the IAPWS-IF97 formulation
/// gives 970.1).
pub const BTU_TO_BOIL_A_POUND: f64 = 970.3;

/// Boiling point of water at sea level, F.
const BOILING_F: f64 = 212.0;

/// Freezing point of water, F.
const FREEZING_F: f64 = 32.0;

/// Heat that a flow absorbs when a share of it turns to steam.
///
/// - Given: `flow_gpm`, gpm, more than 0; `steam_share`, the share turned to steam, 0 to 1;
///   `water_temperature_f` at the nozzle, F, 32 to 212.
/// - Returns: Btu/min = gpm x share x 8.34 lb/gal x ((212 - temperature) + 970.3), one Btu warming a pound
///   by one degree. What runs off is counted as taking nothing, which errs to the safe side.
/// - Errors: not finite or negative values, a share above 1, a temperature outside 32 to 212 F.
/// - Source: steam tables.
/// - Limits: at sea level, steam not heated further. No nozzle turns all its water to steam.
pub fn heat_absorbed(
    flow_gpm: f64,
    steam_share: f64,
    water_temperature_f: f64,
) -> Result<Worked, FactError> {
    more_than_zero("flow_gpm", flow_gpm)?;
    share("steam_share", steam_share)?;
    within(
        "water_temperature_f",
        water_temperature_f,
        FREEZING_F,
        BOILING_F,
        "water at the nozzle lies between freezing and boiling; give degrees F",
    )?;
    let a_pound = BOILING_F - water_temperature_f + BTU_TO_BOIL_A_POUND;
    let heat = flow_gpm * steam_share * POUNDS_PER_GALLON * a_pound;
    let how = told![
        given_of(flow_gpm, Unit::Gpm),
        " x ",
        Part::Share(steam_share),
        " to steam x 8.34 lb/gal x ((212 - ",
        given_number(water_temperature_f),
        ") + 970.3) Btu/lb = ",
        Part::Number(heat, 0),
        " Btu/min",
    ];
    Ok(Worked::new(heat, "Btu/min", how, "steam tables")?.warn_if(steam_share > 0.9, || {
        told![
            Part::Share(steam_share),
            " to steam is more than streams reach on a fire; count on less",
        ]
    }))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn heat_is_in_proportion_to_flow_and_share_and_falls_with_warmer_water() {
        let whole = heat_absorbed(100.0, 1.0, 62.0).unwrap();
        let half = heat_absorbed(100.0, 0.5, 62.0).unwrap();
        assert!((whole.value / half.value - 2.0).abs() < 1e-12);
        assert!(heat_absorbed(100.0, 0.5, 80.0).unwrap().value < half.value);
        assert_eq!((whole.warnings.len(), half.warnings.len()), (1, 0));
        for (temperature, allowed) in [(31.0, false), (32.0, true), (212.0, true), (213.0, false)] {
            assert_eq!(heat_absorbed(100.0, 0.5, temperature).is_ok(), allowed, "{temperature} F");
        }
        for (share, warnings) in [(0.9, 0), (0.91, 1)] {
            assert_eq!(
                heat_absorbed(100.0, share, 62.0).unwrap().warnings.len(),
                warnings,
                "{share}"
            );
        }
    }
}
