//! A pond as a source: how much water it holds, and how long that lasts.

use crate::GALLONS_PER_CUBIC_FOOT;
use crate::fact_checks::{more_than_zero, zero_or_more};
use crate::told::{Part, Unit, given_bare, given_of, told};
use crate::{FactError, Worked};

/// Size of a pond in the state it is to be counted in (drought, ice).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pond {
    /// Mean length, ft, more than 0.
    pub length_ft: f64,
    /// Mean width, ft, more than 0.
    pub width_ft: f64,
    /// Mean depth, ft, more than 0.
    pub mean_depth_ft: f64,
    /// Depth that can be drawn down before the strainer takes air or mud, ft, more than 0 and no more than the
    /// mean depth. Water under the strainer, over it to keep air out, and ice are not usable.
    pub usable_depth_ft: f64,
}

/// Water in a pond.
#[derive(Debug, Clone, PartialEq)]
pub struct PondWater {
    /// All of it, gal.
    pub whole: Worked,
    /// What can be drawn, gal.
    pub usable: Worked,
}

/// How long a stock of water lasts.
#[derive(Debug, Clone, PartialEq)]
pub enum Lasts {
    /// It runs out after this many minutes.
    For(Worked),
    /// What comes in is at least what is drawn.
    WithoutEnd {
        /// What comes in beyond the draw, gpm, 0 or more.
        spare_gpm: f64,
    },
}

const SOURCE: &str = "arithmetic: length x width x depth, 7.48 gal per cubic foot";

/// Water in a pond.
///
/// - Given: the pond, in [`Pond`].
/// - Returns: gallons = length x width x depth x 7.48, with the mean depth (whole) and the usable depth.
/// - Errors: not finite, negative or zero sizes; a usable depth beyond the mean depth.
/// - Source: arithmetic; NWCG uses 7.4805 gal per cubic foot.
/// - Limits: upright banks. Where banks slope the top holds more than its share and the rest less: take
///   length and width halfway down the usable depth.
pub fn pond_water(pond: &Pond) -> Result<PondWater, FactError> {
    let length = more_than_zero("length_ft", pond.length_ft)?;
    let width = more_than_zero("width_ft", pond.width_ft)?;
    let depth = more_than_zero("mean_depth_ft", pond.mean_depth_ft)?;
    let usable = more_than_zero("usable_depth_ft", pond.usable_depth_ft)?;
    if usable > depth {
        return Err(FactError::Conflict {
            field: "usable_depth_ft",
            value: usable,
            other: "mean_depth_ft",
            other_value: depth,
            cure: "no more than the mean depth can be drawn down",
        });
    }
    let worked = |depth: f64| {
        let gallons = length * width * depth * GALLONS_PER_CUBIC_FOOT;
        let how = told![
            given_bare(length, Unit::Feet),
            " x ",
            given_bare(width, Unit::Feet),
            " x ",
            given_of(depth, Unit::Feet),
            GALLONS_WORDS,
            " = ",
            Part::Of(gallons, Unit::Gallons, 0),
        ];
        Worked::new(gallons, "gal", how, SOURCE)
    };
    Ok(PondWater { whole: worked(depth)?, usable: worked(usable)? })
}

/// A m3 holds 1,000 L.
const GALLONS_WORDS: Part = Part::Constant { us: " x 7.48", metric: " x 1,000" };
const GPM_WORDS: Part = Part::Constant { us: ") gpm", metric: ") L/min" };

/// How long a stock of water lasts at a draw, with what runs in meanwhile.
///
/// - Given: `usable_gal`, gal, 0 or more; `draw_gpm`, gpm, more than 0; `recharge_gpm`, gpm, 0 or more.
/// - Returns: minutes = stock / (draw - recharge), or [`Lasts::WithoutEnd`] when the recharge keeps up.
/// - Errors: not finite or negative values; no draw.
/// - Source: arithmetic. Works for drop tanks and cisterns too.
pub fn lasting_time(usable_gal: f64, draw_gpm: f64, recharge_gpm: f64) -> Result<Lasts, FactError> {
    zero_or_more("usable_gal", usable_gal)?;
    more_than_zero("draw_gpm", draw_gpm)?;
    zero_or_more("recharge_gpm", recharge_gpm)?;
    let net = draw_gpm - recharge_gpm;
    if net <= 0.0 {
        return Ok(Lasts::WithoutEnd { spare_gpm: -net });
    }
    let minutes = usable_gal / net;
    let how = told![
        given_of(usable_gal, Unit::Gallons),
        " / (",
        given_bare(draw_gpm, Unit::Gpm),
        " - ",
        given_bare(recharge_gpm, Unit::Gpm),
        GPM_WORDS,
        " = ",
        Part::Of(minutes, Unit::Minutes, 1),
    ];
    Ok(Lasts::For(Worked::new(minutes, "min", how, "arithmetic: stock / net draw")?))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn recharge_stretches_the_stock_and_at_the_draw_it_never_ends() {
        let minutes = |recharge| match lasting_time(6000.0, 500.0, recharge).unwrap() {
            Lasts::For(time) => time.value,
            Lasts::WithoutEnd { .. } => f64::INFINITY,
        };
        assert_eq!(minutes(0.0), 12.0);
        assert_eq!(minutes(200.0), 20.0);
        assert_eq!(minutes(500.0), f64::INFINITY);
        assert_eq!(
            lasting_time(1.0, 500.0, 620.0).unwrap(),
            Lasts::WithoutEnd { spare_gpm: 120.0 }
        );
    }

    #[test]
    fn more_cannot_be_drawn_than_is_there() {
        let pond =
            Pond { length_ft: 80.0, width_ft: 50.0, mean_depth_ft: 6.0, usable_depth_ft: 4.0 };
        let water = pond_water(&pond).unwrap();
        assert!((water.whole.value / water.usable.value - 1.5).abs() < 1e-12);
        let wrong = Pond { usable_depth_ft: 6.5, ..pond };
        assert!(matches!(pond_water(&wrong), Err(FactError::Conflict { .. })));
    }
}
