//! What a fire pump gives: at draft from a lift, and at a discharge pressure.

use crate::fact_checks::{more_than_zero, zero_or_more};
use crate::told::{Part, Unit, given_bare, given_number, given_of, told};
use crate::{FactError, Worked};

/// Lift a perfect vacuum would give at sea level, ft. Source: NWCG (14.7 psi at 2.304 ft per psi).
pub const THEORETICAL_LIFT_FT: f64 = 33.9;

/// Lift that an engine in fairly good condition attains at sea level, ft: two thirds of the theoretical.
/// Source: NWCG, which prints 22.5.
pub const ATTAINABLE_LIFT_FT: f64 = 22.5;

/// Lift lost for each 1,000 ft of altitude, ft. Source: pump operator texts (about 1).
const LIFT_LOST_PER_1000_FT: f64 = 1.0;

/// Rating of the pump in [`LIFT_TABLE`], gpm.
const TABLE_RATING_GPM: f64 = 1000.0;

/// (Lift, ft; flow, gpm) of a 1,000 gpm pump with 5 in suction hose. Source: apparatus standard, annex;
/// values from memory, those at 10 and 20 ft seen in a trade article.
const LIFT_TABLE: [(f64, f64); 9] = [
    (4.0, 1160.0),
    (10.0, 1000.0),
    (12.0, 935.0),
    (14.0, 870.0),
    (16.0, 790.0),
    (18.0, 695.0),
    (20.0, 590.0),
    (22.0, 465.0),
    (24.0, 270.0),
];

/// (Net pump pressure, psi; share of the rated flow). Source: apparatus standard and relay texts.
const RATING_POINTS: [(f64, f64); 3] = [(150.0, 1.0), (200.0, 0.7), (250.0, 0.5)];

const LIFT_SOURCE: &str = "apparatus standard annex, 1,000 gpm pump with 5 in suction hose (values from memory, 10 and 20 ft seen)";
const RATING_SOURCE: &str = "apparatus standard: 100% at 150 psi, 70% at 200 psi, 50% at 250 psi";

/// Value at `x` along the straight lines between points of rising x; the first value before the first point,
/// `None` past the last.
fn between(points: &[(f64, f64)], x: f64) -> Option<f64> {
    let mut below = *points.first()?;
    if x <= below.0 {
        return Some(below.1);
    }
    for &point in points {
        if x <= point.0 {
            return Some(below.1 + (point.1 - below.1) * (x - below.0) / (point.0 - below.0));
        }
        below = point;
    }
    None
}

/// Lift that an engine in fairly good condition attains at an altitude.
///
/// - Given: `altitude_ft` above sea level, ft, 0 or more (0 below sea level).
/// - Returns: ft = 22.5 - 1 for each 1,000 ft.
/// - Errors: not finite or negative altitude; an altitude that leaves no lift.
/// - Source: NWCG; pump operator texts.
pub fn attainable_lift(altitude_ft: f64) -> Result<Worked, FactError> {
    let lost = lift_lost(altitude_ft)?;
    let lift = ATTAINABLE_LIFT_FT - lost;
    if lift <= 0.0 {
        return Err(FactError::NothingLeft {
            field: "altitude_ft",
            value: altitude_ft,
            taken: lost,
            cure: "check the altitude; it is in feet",
            or_check: &[],
        });
    }
    let how = told![
        Part::Bare(ATTAINABLE_LIFT_FT, Unit::Feet, 1),
        " - ",
        given_number(LIFT_LOST_PER_1000_FT),
        " x ",
        given_bare(altitude_ft, Unit::Feet),
        " / 1,000 = ",
        Part::Of(lift, Unit::Feet, 1),
    ];
    Worked::new(lift, "ft", how, "NWCG; pump operator texts for altitude")
}

/// Lift lost to altitude, ft.
pub(crate) fn lift_lost(altitude_ft: f64) -> Result<f64, FactError> {
    zero_or_more("altitude_ft", altitude_ft)?;
    Ok(LIFT_LOST_PER_1000_FT * altitude_ft / 1000.0)
}

/// Flow of a pump at draft.
///
/// - Given: `rated_gpm`, the pump's rating, gpm, more than 0; `lift_ft` from the water's surface to the
///   center of the pump intake, ft, 0 or more; `altitude_ft` above sea level, ft, 0 or more.
/// - Returns: gpm from the table of a 1,000 gpm pump, straight lines between its rows, scaled by the rating.
///   Altitude counts as more lift, 1 ft for each 1,000 ft. Lifts below the table's 4 ft count as 4 ft.
/// - Errors: not finite or negative values; lift and altitude together beyond the table's 24 ft.
/// - Source: apparatus standard annex (values from memory; 10 and 20 ft seen).
/// - Limits: a pump in good order at 150 psi, about 20 ft of clean suction hose of the size that goes with its
///   rating. Longer or smaller suction hose and a choked strainer give less.
pub fn draft_capacity(rated_gpm: f64, lift_ft: f64, altitude_ft: f64) -> Result<Worked, FactError> {
    more_than_zero("rated_gpm", rated_gpm)?;
    zero_or_more("lift_ft", lift_ft)?;
    let lost = lift_lost(altitude_ft)?;
    let lift = lift_ft + lost;
    let (least_lift, _) = LIFT_TABLE[0];
    let (greatest_lift, _) = LIFT_TABLE[LIFT_TABLE.len() - 1];
    let table_flow = between(&LIFT_TABLE, lift).ok_or(FactError::BeyondTable {
        field: "lift_ft",
        value: lift,
        limit: greatest_lift,
        cure: "bring the pump nearer to the water's surface (altitude counts 1 ft for each 1,000 ft)",
    })?;
    let flow = table_flow * (rated_gpm / TABLE_RATING_GPM);
    let mut how = told!["lift ", given_of(lift_ft, Unit::Feet)];
    if lost > 0.0 {
        how = how.and(told![
            " + ",
            given_of(lost, Unit::Feet),
            " for altitude = ",
            Part::Of(lift, Unit::Feet, 1),
        ]);
    }
    how = how.and(told![
        ": ",
        Part::Of(table_flow, Unit::Gpm, 0),
        " from a ",
        Part::Of(TABLE_RATING_GPM, Unit::Gpm, 0),
        " pump",
    ]);
    if rated_gpm != TABLE_RATING_GPM {
        how = how.and(told![
            " x ",
            given_bare(rated_gpm, Unit::Gpm),
            " / ",
            Part::Bare(TABLE_RATING_GPM, Unit::Gpm, 0),
            " = ",
            Part::Of(flow, Unit::Gpm, 0),
        ]);
    }
    Ok(Worked::new(flow, "gpm", how, LIFT_SOURCE)?
        .warn_if(lift < least_lift, || {
            told![
                "the table starts at ",
                Part::Of(least_lift, Unit::Feet, 1),
                " of lift: ",
                Part::Of(lift, Unit::Feet, 1),
                " was counted as that",
            ]
        })
        .warn_if(lift > ATTAINABLE_LIFT_FT, || {
            told![
                Part::Of(lift, Unit::Feet, 1),
                " is more lift than an engine in fairly good condition attains (",
                Part::Of(ATTAINABLE_LIFT_FT, Unit::Feet, 1),
                " at sea level)",
            ]
        })
        .warn_if(rated_gpm != TABLE_RATING_GPM, || {
            told![
                "the table is for a ",
                Part::Of(TABLE_RATING_GPM, Unit::Gpm, 0),
                " pump; other ratings are in proportion, with suction hose to match",
            ]
        }))
}

/// Flow of a pump at a net pump pressure, by its rating.
///
/// - Given: `rated_gpm`, gpm, more than 0; `pressure_psi`, net pump pressure, psi, more than 0: the discharge
///   pressure, less the intake pressure, or plus what the lift takes at draft.
/// - Returns: gpm: the rated flow up to 150 psi, 70% of it at 200, 50% at 250, straight lines between (ours).
/// - Errors: not finite, negative or zero values; a pressure beyond 250 psi.
/// - Source: apparatus standard; relay texts.
pub fn capacity_at_pressure(rated_gpm: f64, pressure_psi: f64) -> Result<Worked, FactError> {
    more_than_zero("rated_gpm", rated_gpm)?;
    more_than_zero("pressure_psi", pressure_psi)?;
    let (greatest, _) = RATING_POINTS[RATING_POINTS.len() - 1];
    let share = between(&RATING_POINTS, pressure_psi).ok_or(FactError::BeyondTable {
        field: "pressure_psi",
        value: pressure_psi,
        limit: greatest,
        cure: "pumps are rated to 250 psi; lower the pressure or shorten the lay",
    })?;
    let flow = rated_gpm * share;
    let how = told![
        given_of(rated_gpm, Unit::Gpm),
        " x ",
        Part::Share(share),
        " at ",
        given_of(pressure_psi, Unit::Psi),
        " = ",
        Part::Of(flow, Unit::Gpm, 0),
    ];
    Worked::new(flow, "gpm", how, RATING_SOURCE)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn between_rows_the_flow_lies_on_the_straight_line() {
        assert_eq!(draft_capacity(1000.0, 11.0, 0.0).unwrap().value, (1000.0 + 935.0) / 2.0);
        assert_eq!(draft_capacity(1500.0, 20.0, 0.0).unwrap().value, 885.0);
    }

    #[test]
    fn the_table_starts_at_4_ft_and_does_not_promise_more_below() {
        let flow = |lift| draft_capacity(1000.0, lift, 0.0).unwrap();
        assert_eq!(flow(7.0).value, (1160.0 + 1000.0) / 2.0);
        assert_eq!(flow(0.0).value, 1160.0);
        assert!(flow(4.0).warnings.is_empty());
        assert_eq!(flow(3.9).warnings.len(), 1);
    }

    #[test]
    fn altitude_takes_lift_and_the_table_ends_with_an_error() {
        let low = draft_capacity(1000.0, 18.0, 0.0).unwrap().value;
        let high = draft_capacity(1000.0, 16.0, 2000.0).unwrap().value;
        assert_eq!(low, high);
        assert!(draft_capacity(1000.0, 24.0, 0.0).is_ok());
        assert!(matches!(
            draft_capacity(1000.0, 22.0, 2001.0),
            Err(FactError::BeyondTable { field: "lift_ft", .. })
        ));
    }

    #[test]
    fn outside_what_is_usual_the_answer_warns() {
        assert!(draft_capacity(1000.0, 10.0, 0.0).unwrap().warnings.is_empty());
        for (rated, lift) in [(1250.0, 10.0), (1000.0, 2.0), (1000.0, 23.0)] {
            assert_eq!(draft_capacity(rated, lift, 0.0).unwrap().warnings.len(), 1, "{lift} ft");
        }
    }

    #[test]
    fn more_lift_never_gives_more_water() {
        let mut last = f64::INFINITY;
        for tenth in 0..=240 {
            let flow = draft_capacity(1000.0, f64::from(tenth) / 10.0, 0.0).unwrap().value;
            assert!(flow <= last);
            last = flow;
        }
    }

    #[test]
    fn pressure_takes_flow_in_straight_lines() {
        for (psi, flow) in [(80.0, 1000.0), (175.0, 850.0), (225.0, 600.0)] {
            assert!(
                (capacity_at_pressure(1000.0, psi).unwrap().value - flow).abs() < 1e-9,
                "{psi} psi"
            );
        }
        assert!(capacity_at_pressure(1000.0, 250.1).is_err());
    }
}
