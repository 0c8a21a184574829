//! A building that is lost: what it takes to keep the fire from those beside it, and what two crews can do.

use crate::quick_flow_rules::{AreaRule, area_rule};
use crate::surveyed_building::Building;
use crate::told::{Part, Unit, told};
use crate::{FactError, Worked};

/// Least flow of a line that covers a building, gpm. Common practice: a 1-3/4 in hand line.
const LEAST_COVER_GPM: f64 = 150.0;

/// Share of the full-involvement flow for each exposure. Source: National Fire Academy rule, value from memory.
const COVER_SHARE: f64 = 0.25;

/// Beyond this flow no tanker shuttle is known to have fed lines for long, gpm. Judgement: none of six published
/// drills (see the validation notes) held more than 1,000 gpm; half as much again.
pub const BEYOND_ANY_SHUTTLE_GPM: f64 = 1_500.0;

/// Greatest flow of those drills, gpm.
pub const MOST_OF_ANY_DRILL_GPM: f64 = 1_000.0;

/// The flow that keeps a lost building's fire from the buildings near that count as exposure hazards.
///
/// - Returns: gpm; `None` where no building near counts. For each a quarter of the flow that area / 3 asks for with all
///   burning stories fully involved, and no less than one hand line.
/// - Errors: as [`area_rule`], [`Building::exposure_hazards`].
/// - Source: National Fire Academy, 25% for each exposure (value from memory); the hand line by common practice.
/// - Limits: one side of a building each; wind, embers and collapse ask for more.
pub fn exposures_only(building: &Building) -> Result<Option<Worked>, FactError> {
    let hazards = building.exposure_hazards()?;
    if hazards == 0 {
        return Ok(None);
    }
    let full = area_rule(&AreaRule {
        length_ft: building.length_ft,
        width_ft: building.width_ft,
        floors: building.floors_burning,
        share_involved: 1.0,
        exposures: 0,
    })?
    .value;
    let each = (COVER_SHARE * full).max(LEAST_COVER_GPM);
    let count = f64::from(hazards);
    let how = told![
        Part::Number(count, 0),
        " x ",
        Part::Of(each, Unit::Gpm, 0),
        ", 25% of ",
        Part::Of(full, Unit::Gpm, 0),
        " and no less than a hand line, = ",
        Part::Of(count * each, Unit::Gpm, 0),
    ];
    let source = "National Fire Academy, area / 3 rule (25% for each exposure: value from memory); common practice";
    Ok(Some(Worked::new(count * each, "gpm", how, source)?))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::surveyed_building::Exposure;
    use crate::surveyed_building::tests::{NEIGHBOR, house};

    #[test]
    fn each_building_near_is_covered_and_the_lost_one_is_not() {
        let flow = |building: &Building| exposures_only(building).unwrap().map(|flow| flow.value);
        assert_eq!(flow(&house()), None);
        // 40 x 30 / 3 = 400 gpm; a quarter is 100, less than a hand line.
        let near = Building { exposures: vec![NEIGHBOR], ..house() };
        assert_eq!(flow(&near), Some(150.0));
        // 60 x 60 / 3 = 1,200 gpm; a quarter for each of two.
        let barn =
            Building { length_ft: 60.0, width_ft: 60.0, exposures: vec![NEIGHBOR; 2], ..house() };
        assert_eq!(flow(&barn), Some(600.0));
        let far = Exposure { distance_ft: 90.0, ..NEIGHBOR };
        assert_eq!(flow(&Building { exposures: vec![NEIGHBOR, far], ..house() }), Some(150.0));
    }
}
