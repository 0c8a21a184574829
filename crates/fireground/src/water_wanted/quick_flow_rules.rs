//! Quick attack-flow rules from a building's size, and the water a flow uses over a time.

use crate::fact_checks::{more_than_zero, one_or_more, share};
use crate::told::{Part, Unit, given_of, told};
use crate::{FactError, Worked};

/// What the area / 3 rule asks about a building.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AreaRule {
    /// Length of the building, ft, more than 0.
    pub length_ft: f64,
    /// Width of the building, ft, more than 0.
    pub width_ft: f64,
    /// Floors of that size that burn, 1 or more.
    pub floors: u32,
    /// Share of those floors involved in fire, more than 0, up to 1.
    pub share_involved: f64,
    /// Exposures to cover. Each adds a quarter of the flow for full involvement.
    pub exposures: u32,
}

/// Flow added for each exposure, as a share of the full-involvement flow. Source: National Fire Academy
/// rule, value from memory.
const EXPOSURE_SHARE: f64 = 0.25;

/// Share involved up to which the area / 3 rule is meant. Source: National Fire Academy.
const AREA_RULE_SHARE_LIMIT: f64 = 0.5;

/// Flow up to which the area / 3 rule is meant, gpm. Source: National Fire Academy.
const AREA_RULE_FLOW_LIMIT_GPM: f64 = 1000.0;

const AREA_SOURCE: &str =
    "National Fire Academy, area / 3 rule (25% for each exposure: value from memory)";
const VOLUME_SOURCE: &str = "Iowa State University (Royer and Nelson), volume / 100 rule";

/// A gpm for 3 ft2 is 13.58 L/min for a m2, one for 100 ft3 1.337 L/min for a m3 (3.785412 L, 0.3048 m).
const A_THIRD: Part = Part::Constant { us: " / 3", metric: " x 13.58 L/min a m2" };
const A_HUNDREDTH: Part = Part::Constant { us: " / 100", metric: " x 1.337 L/min a m3" };

/// Attack flow by the area / 3 rule.
///
/// - Given: the building, in [`AreaRule`].
/// - Returns: gpm = length x width x floors / 3 x share involved, + 25% of the flow for full involvement of
///   those floors for each exposure.
/// - Errors: not finite, negative or zero sizes; a share above 1; no floors.
/// - Source: National Fire Academy; the exposure charge is a value from memory.
/// - Limits: an interior attack by hand lines on up to about half involved and 1,000 gpm; a warning beyond.
pub fn area_rule(building: &AreaRule) -> Result<Worked, FactError> {
    let length = more_than_zero("length_ft", building.length_ft)?;
    let width = more_than_zero("width_ft", building.width_ft)?;
    let floors = one_or_more("floors", building.floors)?;
    let involved = share("share_involved", building.share_involved)?;
    more_than_zero("share_involved", involved)?;

    let full = length * width * floors / 3.0;
    let exposures = f64::from(building.exposures) * EXPOSURE_SHARE * full;
    let flow = full * involved + exposures;

    let mut how = told![Part::Bare(length, Unit::Feet, 1), " x ", Part::Of(width, Unit::Feet, 1)];
    if building.floors > 1 {
        how = how.and(told![" x ", Part::Number(floors, 0), " floors"]);
    }
    how = how.and(told![A_THIRD, " x ", Part::Share(involved), " involved"]);
    if building.exposures > 0 {
        how = how.and(told![
            " + ",
            Part::Number(f64::from(building.exposures), 0),
            " x 25% of ",
            Part::Of(full, Unit::Gpm, 0),
            " for exposures",
        ]);
    }
    how = how.and(told![" = ", Part::Of(flow, Unit::Gpm, 0)]);
    Ok(Worked::new(flow, "gpm", how, AREA_SOURCE)?
        .beyond_if(involved > AREA_RULE_SHARE_LIMIT, || {
            told![
                Part::Share(involved),
                " involved: the area / 3 rule is meant for up to about half involved; beyond that expect a \
                 defensive fire",
            ]
        })
        .beyond_if(flow > AREA_RULE_FLOW_LIMIT_GPM, || {
            told![
                Part::Of(flow, Unit::Gpm, 0),
                ": the area / 3 rule is meant for up to about ",
                Part::Of(AREA_RULE_FLOW_LIMIT_GPM, Unit::Gpm, 0),
            ]
        }))
}

/// Attack flow by the volume / 100 rule.
///
/// - Given: `length_ft`, `width_ft`, `height_ft` of the largest single open space, ft, each more than 0.
/// - Returns: gpm = length x width x height / 100.
/// - Errors: not finite, negative or zero sizes.
/// - Source: Iowa State University (Royer and Nelson).
/// - Limits: made for a short attack with fog on one closed space; exposures are not in it.
pub fn volume_rule(length_ft: f64, width_ft: f64, height_ft: f64) -> Result<Worked, FactError> {
    more_than_zero("length_ft", length_ft)?;
    more_than_zero("width_ft", width_ft)?;
    more_than_zero("height_ft", height_ft)?;
    let flow = length_ft * width_ft * height_ft / 100.0;
    let how = told![
        Part::Bare(length_ft, Unit::Feet, 1),
        " x ",
        Part::Bare(width_ft, Unit::Feet, 1),
        " x ",
        Part::Of(height_ft, Unit::Feet, 1),
        A_HUNDREDTH,
        " = ",
        Part::Of(flow, Unit::Gpm, 0),
    ];
    Worked::new(flow, "gpm", how, VOLUME_SOURCE)
}

/// Water that a flow uses over a time.
///
/// - Given: `flow_gpm`, gpm, more than 0; `duration_min`, minutes, more than 0.
/// - Returns: gallons = flow x duration.
/// - Errors: not finite, negative or zero values.
/// - Source: arithmetic.
pub fn total_water(flow_gpm: f64, duration_min: f64) -> Result<Worked, FactError> {
    more_than_zero("flow_gpm", flow_gpm)?;
    more_than_zero("duration_min", duration_min)?;
    let water = flow_gpm * duration_min;
    let how = told![
        given_of(flow_gpm, Unit::Gpm),
        " x ",
        given_of(duration_min, Unit::Minutes),
        " = ",
        Part::Of(water, Unit::Gallons, 0),
    ];
    Worked::new(water, "gal", how, "arithmetic: flow x time")
}

#[cfg(test)]
mod tests {
    use super::*;

    const HOUSE: AreaRule =
        AreaRule { length_ft: 30.0, width_ft: 50.0, floors: 1, share_involved: 0.25, exposures: 0 };

    #[test]
    fn an_exposure_is_charged_on_full_involvement_not_on_the_share_that_burns() {
        let two = AreaRule { exposures: 2, ..HOUSE };
        let flow = area_rule(&two).unwrap();
        assert_eq!(flow.value, 125.0 + 2.0 * 0.25 * 500.0);
        assert_eq!(
            flow.how.to_string(),
            "30 x 50 ft / 3 x 25% involved + 2 x 25% of 500 gpm for exposures = 375 gpm"
        );
    }

    #[test]
    fn beyond_half_involved_or_1000_gpm_the_area_rule_warns() {
        assert!(area_rule(&HOUSE).unwrap().warnings.is_empty());
        let half = AreaRule { share_involved: 0.5, ..HOUSE };
        assert!(area_rule(&half).unwrap().warnings.is_empty());
        let more = AreaRule { share_involved: 0.51, ..HOUSE };
        assert_eq!(area_rule(&more).unwrap().warnings.len(), 1);
        let most = AreaRule { length_ft: 60.0, width_ft: 100.0, ..half };
        assert!(area_rule(&most).unwrap().warnings.is_empty());
        let wider = AreaRule { width_ft: 101.0, ..most };
        assert_eq!(area_rule(&wider).unwrap().warnings.len(), 1);
        let big = AreaRule { floors: 9, ..HOUSE };
        assert_eq!(area_rule(&big).unwrap().warnings.len(), 1);
    }

    #[test]
    fn floors_are_counted_and_zero_floors_refused() {
        let two = AreaRule { floors: 2, ..HOUSE };
        assert_eq!(area_rule(&two).unwrap().value, 250.0);
        let none = AreaRule { floors: 0, ..HOUSE };
        assert!(matches!(area_rule(&none), Err(FactError::NotPositive { field: "floors", .. })));
    }
}
