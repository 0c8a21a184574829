//! A drop tank: what it holds on a slope, and what the strainer cannot reach.

use crate::GALLONS_PER_CUBIC_FOOT;
use crate::fact_checks::{more_than_zero, within, zero_or_more};
use crate::told::{Part, Unit, given_bare, given_number, given_of, told};
use crate::{FactError, Worked};

/// A rectangular drop tank as it stands.
///
/// Water lies level while the tank follows the ground, so on a slope the lower side overflows first. The slope
/// is taken to run along the length.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DropTank {
    /// Inside length, in the direction of the slope, ft, more than 0.
    pub length_ft: f64,
    /// Inside width, across the slope, ft, more than 0.
    pub width_ft: f64,
    /// Depth from floor to rim, ft, more than 0.
    pub depth_ft: f64,
    /// Slope of the ground, percent (ft of rise for each 100 ft), 0 to 50.
    pub slope_percent: f64,
    /// Depth of water at the strainer at which it takes air, in, 0 or more. It grows with the flow: 4 to 6 in at
    /// 500 to 1,000 gpm (value from memory, low confidence).
    pub strainer_depth_in: f64,
    /// Distance of the strainer from the lower side, ft, 0 to the length. 0 is best: the water gathers there.
    pub strainer_from_low_side_ft: f64,
}

/// Water in a drop tank.
#[derive(Debug, Clone, PartialEq)]
pub struct DropTankWater {
    /// What it holds, full to the rim of the lower side, gal.
    pub holds: Worked,
    /// What stays when the strainer takes air, gal.
    pub unusable: Worked,
    /// What can be drawn from full, gal.
    pub usable: Worked,
}

const SOURCE: &str = "geometry: a level surface in a tilted tank, 7.48 gal per cubic foot";

/// Share of the tank that is lost before it is worth a warning. Assumed.
const MUCH_LOST: f64 = 0.25;

/// Water in a drop tank that stands on a slope.
///
/// - Given: the tank, in [`DropTank`].
/// - Returns: what it holds, what is unusable and what is usable ([`DropTankWater`]), gallons. With depth h at the
///   lower side and a rise r over the length: length x width x (h - r / 2), or, when the upper side is dry,
///   width x h^2 / (2 x slope).
/// - Errors: not finite, negative or zero sizes; a slope above 50%; a strainer outside the tank.
/// - Source: geometry.
/// - Limits: straight sides. Liners belly out or sag; frames bend; a tank folded or held up by hand holds less.
pub fn drop_tank_water(tank: &DropTank) -> Result<DropTankWater, FactError> {
    let length = more_than_zero("length_ft", tank.length_ft)?;
    let width = more_than_zero("width_ft", tank.width_ft)?;
    let depth = more_than_zero("depth_ft", tank.depth_ft)?;
    let percent = zero_or_more("slope_percent", tank.slope_percent)?;
    within("slope_percent", percent, 0.0, 50.0, "give the rise in ft for each 100 ft of ground")?;
    let strainer_depth = zero_or_more("strainer_depth_in", tank.strainer_depth_in)? / 12.0;
    let strainer_place = zero_or_more("strainer_from_low_side_ft", tank.strainer_from_low_side_ft)?;
    if strainer_place > length {
        return Err(FactError::Conflict {
            field: "strainer_from_low_side_ft",
            value: strainer_place,
            other: "length_ft",
            other_value: length,
            cure: "the strainer lies inside the tank",
        });
    }
    let slope = percent / 100.0;
    let holds = gallons(length, width, slope, depth);
    // Where the strainer lies the floor is higher than at the lower side, and so is the surface that it needs.
    let surface = strainer_depth + slope * strainer_place;
    let unusable = gallons(length, width, slope, surface.min(depth));
    let level = length * width * depth * GALLONS_PER_CUBIC_FOOT;

    let holds_how = told![
        given_bare(length, Unit::Feet),
        " x ",
        given_bare(width, Unit::Feet),
        " x ",
        given_of(depth, Unit::Feet),
        " on a ",
        given_number(percent),
        "% slope: ",
        Part::Bare(holds, Unit::Gallons, 0),
        " of the ",
        Part::Of(level, Unit::Gallons, 0),
        " it holds level",
    ];
    let unusable_how = told![
        "air enters at ",
        given_of(tank.strainer_depth_in, Unit::Inches),
        " of water, strainer ",
        given_of(strainer_place, Unit::Feet),
        " from the lower side; ",
        Part::Of(surface.min(depth) * 12.0, Unit::Inches, 1),
        " deep at that side: ",
        Part::Of(unusable, Unit::Gallons, 0),
    ];
    let usable_how = told![
        Part::Bare(holds, Unit::Gallons, 0),
        " - ",
        Part::Bare(unusable, Unit::Gallons, 0),
        " = ",
        Part::Of(holds - unusable, Unit::Gallons, 0),
    ];
    let usable = Worked::new(holds - unusable, "gal", usable_how, SOURCE)?
        .warn_if(surface >= depth, || {
            told!["the strainer takes air even when the tank is full: move it to the lower side"]
        })
        .warn_if(level - holds > MUCH_LOST * level, || {
            told![
                "the slope costs ",
                Part::Of(level - holds, Unit::Gallons, 0),
                " of ",
                Part::Bare(level, Unit::Gallons, 0),
                ": level ground or a second tank is worth more",
            ]
        });
    Ok(DropTankWater {
        holds: Worked::new(holds, "gal", holds_how, SOURCE)?,
        unusable: Worked::new(unusable, "gal", unusable_how, SOURCE)?,
        usable,
    })
}

/// Gallons below a level surface that stands `surface_ft` over the floor at the lower side.
fn gallons(length_ft: f64, width_ft: f64, slope: f64, surface_ft: f64) -> f64 {
    let rise = slope * length_ft;
    let cross_section = if surface_ft >= rise {
        length_ft * (surface_ft - rise / 2.0)
    } else {
        surface_ft * surface_ft / (2.0 * slope)
    };
    cross_section * width_ft * GALLONS_PER_CUBIC_FOOT
}

#[cfg(test)]
mod tests {
    use super::*;

    const TANK: DropTank = DropTank {
        length_ft: 12.0,
        width_ft: 11.0,
        depth_ft: 2.5,
        slope_percent: 0.0,
        strainer_depth_in: 6.0,
        strainer_from_low_side_ft: 0.0,
    };

    #[test]
    fn the_wedge_agrees_with_adding_up_thin_slices() {
        for slope_percent in [0.0, 3.0, 10.0, 20.0, 21.0, 40.0] {
            let tank = DropTank { slope_percent, ..TANK };
            let slices = 200_000;
            let step = tank.length_ft / f64::from(slices);
            let sum = |surface: f64| -> f64 {
                (0..slices)
                    .map(|i| {
                        (surface - slope_percent / 100.0 * (f64::from(i) + 0.5) * step).max(0.0)
                    })
                    .sum::<f64>()
                    * step
                    * tank.width_ft
                    * GALLONS_PER_CUBIC_FOOT
            };
            let water = drop_tank_water(&tank).unwrap();
            assert!((water.holds.value - sum(tank.depth_ft)).abs() < 0.01, "{slope_percent}%");
            assert!((water.unusable.value - sum(0.5)).abs() < 0.01, "{slope_percent}%");
        }
    }

    #[test]
    fn a_slope_that_costs_more_than_a_quarter_warns() {
        // On a slope s a tank of length 12 and depth 2.5 ft loses 12 s / 2 of its 2.5 ft of mean depth: a quarter at
        // 10.417%.
        for (slope_percent, warnings) in [(10.4, 0), (10.43, 1), (50.0, 1)] {
            let water = drop_tank_water(&DropTank { slope_percent, ..TANK }).unwrap();
            assert_eq!(water.usable.warnings.len(), warnings, "{slope_percent}%");
        }
        let cliff = DropTank { slope_percent: 51.0, ..TANK };
        assert!(matches!(drop_tank_water(&cliff), Err(FactError::OutsideRange { .. })));
    }

    #[test]
    fn parts_add_up_and_the_lower_side_is_the_best_place_for_the_strainer() {
        let mut last = -1.0;
        for place in 0..=12 {
            let tank = DropTank {
                slope_percent: 8.0,
                strainer_from_low_side_ft: f64::from(place),
                ..TANK
            };
            let water = drop_tank_water(&tank).unwrap();
            assert!((water.usable.value + water.unusable.value - water.holds.value).abs() < 1e-9);
            assert!(water.unusable.value > last);
            last = water.unusable.value;
        }
    }

    #[test]
    fn a_strainer_that_never_gets_water_warns_and_one_outside_is_refused() {
        let dry = DropTank { slope_percent: 20.0, strainer_from_low_side_ft: 12.0, ..TANK };
        let water = drop_tank_water(&dry).unwrap();
        assert_eq!(water.usable.value, 0.0);
        assert_eq!(water.usable.warnings.len(), 2);
        let outside = DropTank { strainer_from_low_side_ft: 12.1, ..TANK };
        assert!(matches!(drop_tank_water(&outside), Err(FactError::Conflict { .. })));
    }
}
