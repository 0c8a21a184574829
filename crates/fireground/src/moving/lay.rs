//! A hose lay: the pressure a flow needs, and the greatest flow a pressure gives.

use crate::fact_checks::{finite, more_than_zero, one_or_more, zero_or_more};
use crate::hose::{
    A_HUNDRED_FEET, A_HUNDRED_GPM, HoseSize, LARGE_DIAMETER_LIMIT_PSI, PSI_A_FOOT, friction_psi,
};
use crate::told::{Part, Unit, given_bare, given_number, given_of, told};
use crate::{FactError, PSI_PER_FOOT, Told, Worked};

/// A lay of one or more equal parallel lines from a pump to where the water is wanted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lay {
    /// Hose size of every line.
    pub size: HoseSize,
    /// Friction coefficient measured on this hose, psi for each 100 ft at 100 gpm, more than 0; `None` takes
    /// the size's usual one.
    pub measured_coefficient: Option<f64>,
    /// Length of the lay, ft, more than 0: of each line, not of all of them together.
    pub length_ft: f64,
    /// Equal parallel lines, 1 or more.
    pub lines: u32,
    /// Elevation of the far end above the pump, ft; negative downhill.
    pub elevation_ft: f64,
    /// Loss in appliances (wye, manifold, siamese), psi, 0 or more.
    pub appliance_loss_psi: f64,
}

impl Lay {
    /// Friction coefficient that applies, checked.
    pub(crate) fn coefficient(&self) -> Result<f64, FactError> {
        match self.measured_coefficient {
            Some(measured) => more_than_zero("measured_coefficient", measured),
            None => Ok(self.size.friction_coefficient()),
        }
    }
}

/// A lay, with every field checked.
struct Checked {
    coefficient: f64,
    lines: f64,
    length_ft: f64,
    elevation_psi: f64,
    appliance_psi: f64,
}

/// Beyond this pump pressure a pump is outside its rating, psi. Source: apparatus standard.
const PUMP_LIMIT_PSI: f64 = 250.0;

const SOURCE: &str = "pump operator texts: C (gpm / 100)^2 (ft / 100) for each line at its part of the flow, 0.434 psi a foot";

fn check(lay: &Lay) -> Result<Checked, FactError> {
    Ok(Checked {
        coefficient: lay.coefficient()?,
        lines: one_or_more("lines", lay.lines)?,
        length_ft: more_than_zero("length_ft", lay.length_ft)?,
        elevation_psi: PSI_PER_FOOT * finite("elevation_ft", lay.elevation_ft)?,
        appliance_psi: zero_or_more("appliance_loss_psi", lay.appliance_loss_psi)?,
    })
}

/// Pressure lost to friction in a lay.
///
/// - Given: the lay; `flow_gpm` through all its lines together, gpm, more than 0.
/// - Returns: psi = C x (gpm / lines / 100)^2 x ft / 100. Elevation and appliances are not in it.
/// - Errors: not finite, negative or zero values.
/// - Source: pump operator texts; equal parallel lines each carry an equal part.
pub fn lay_friction(lay: &Lay, flow_gpm: f64) -> Result<Worked, FactError> {
    let checked = check(lay)?;
    more_than_zero("flow_gpm", flow_gpm)?;
    let loss = friction_psi(checked.coefficient, flow_gpm / checked.lines, checked.length_ft);
    let how = friction_words(lay, checked.coefficient, flow_gpm)
        .and(told![" = ", Part::Of(loss, Unit::Psi, 1)]);
    Worked::new(loss, "psi", how, SOURCE)
}

fn friction_words(lay: &Lay, coefficient: f64, flow_gpm: f64) -> Told {
    let mut words = told![given_number(coefficient), " x (", given_bare(flow_gpm, Unit::Gpm)];
    if lay.lines > 1 {
        words = words.and(told![" / ", Part::Number(f64::from(lay.lines), 0), " lines"]);
    }
    words
        .and(told![A_HUNDRED_GPM, ")^2 x ", given_bare(lay.length_ft, Unit::Feet), A_HUNDRED_FEET,])
}

/// Pump discharge pressure that a lay needs for a flow.
///
/// - Given: the lay; `flow_gpm` through all its lines, gpm, more than 0; `residual_psi` wanted at the far end,
///   psi, 0 or more (20 into an intake; a nozzle's own pressure for an attack line).
/// - Returns: psi = residual + friction + appliances + 0.434 x elevation.
/// - Errors: not finite, negative or zero values. The elevation may be negative.
/// - Source: pump operator texts.
/// - Limits: warns beyond 250 psi (pumps are not rated further), beyond 185 psi on hose of 3-1/2 in and more,
///   and when a downhill lay needs no pump.
pub fn pressure_needed(lay: &Lay, flow_gpm: f64, residual_psi: f64) -> Result<Worked, FactError> {
    let checked = check(lay)?;
    more_than_zero("flow_gpm", flow_gpm)?;
    zero_or_more("residual_psi", residual_psi)?;
    let friction = friction_psi(checked.coefficient, flow_gpm / checked.lines, checked.length_ft);
    let pressure = residual_psi + friction + checked.appliance_psi + checked.elevation_psi;
    let how = told![
        "residual ",
        given_bare(residual_psi, Unit::Psi),
        " + friction ",
        Part::Bare(friction, Unit::Psi, 1),
        " (",
    ]
    .and(friction_words(lay, checked.coefficient, flow_gpm))
    .and(told![
        ") + appliances ",
        given_bare(checked.appliance_psi, Unit::Psi),
        " + elevation ",
        PSI_A_FOOT,
        " x ",
        given_of(lay.elevation_ft, Unit::Feet),
        " = ",
        Part::Of(pressure, Unit::Psi, 1),
    ]);
    Ok(Worked::new(pressure, "psi", how, SOURCE)?
        .warn_if(pressure > PUMP_LIMIT_PSI, || {
            told![
                Part::Of(pressure, Unit::Psi, 0),
                " is beyond the ",
                Part::Of(PUMP_LIMIT_PSI, Unit::Psi, 0),
                " that pumps are rated to: larger hose, more lines or a relay",
            ]
        })
        .warn_if(pressure > LARGE_DIAMETER_LIMIT_PSI && lay.size.is_large_diameter(), || {
            over_large_diameter_limit(pressure)
        })
        .warn_if(pressure <= 0.0, || {
            told!["the downhill lay gives more than it takes: no pump is needed"]
        }))
}

/// The warning for supply hose pumped too hard.
pub(crate) fn over_large_diameter_limit(pressure_psi: f64) -> Told {
    told![
        Part::Of(pressure_psi, Unit::Psi, 0),
        " is over the ",
        Part::Of(LARGE_DIAMETER_LIMIT_PSI, Unit::Psi, 0),
        " usual for large-diameter supply hose: keep to the maker's limit",
    ]
}

/// As [`A_HUNDRED_GPM`] and [`A_HUNDRED_FEET`], in the formula solved for the flow.
const SOLVED_GPM: Part = Part::Constant { us: "100", metric: "378.5" };
const SOLVED_FEET: Part = Part::Constant { us: " x 100", metric: " x 4.421" };

/// Greatest flow of a lay.
///
/// - Given: the lay; `pump_pressure_psi` at the pump's discharge, psi, more than 0; `residual_psi` wanted at the
///   far end, psi, 0 or more.
/// - Returns: gpm through all lines = lines x 100 x sqrt((pump - residual - appliances - 0.434 x elevation) x
///   100 / (C x ft)).
/// - Errors: not finite, negative or zero values; [`FactError::NothingLeft`] when no pressure is left for
///   friction.
/// - Source: pump operator texts, the friction formula solved for the flow.
/// - Limits: what the hose lets through; the pump may give less ([`crate::pump`]). Warns beyond 185 psi on hose
///   of 3-1/2 in and more and beyond 250 psi.
pub fn greatest_flow(
    lay: &Lay,
    pump_pressure_psi: f64,
    residual_psi: f64,
) -> Result<Worked, FactError> {
    let checked = check(lay)?;
    more_than_zero("pump_pressure_psi", pump_pressure_psi)?;
    zero_or_more("residual_psi", residual_psi)?;
    let taken = residual_psi + checked.appliance_psi + checked.elevation_psi;
    let left = pump_pressure_psi - taken;
    if left <= 0.0 {
        return Err(FactError::NothingLeft {
            field: "pump_pressure_psi",
            value: pump_pressure_psi,
            taken,
            cure: "raise the pressure within the hose's limit",
            or_check: &["elevation_ft", "residual_psi"],
        });
    }
    let flow =
        checked.lines * 100.0 * (left * 100.0 / (checked.coefficient * checked.length_ft)).sqrt();
    let bare = |psi| given_bare(psi, Unit::Psi);
    let mut how = told![
        bare(pump_pressure_psi),
        " - residual ",
        bare(residual_psi),
        " - appliances ",
        bare(checked.appliance_psi),
        " - elevation ",
        PSI_A_FOOT,
        " x ",
        given_of(lay.elevation_ft, Unit::Feet),
        " leaves ",
        Part::Of(left, Unit::Psi, 1),
        "; ",
    ];
    if lay.lines > 1 {
        how = how.and(told![Part::Number(f64::from(lay.lines), 0), " lines x "]);
    }
    how = how.and(told![
        SOLVED_GPM,
        " x sqrt(",
        Part::Bare(left, Unit::Psi, 1),
        SOLVED_FEET,
        " / (",
        given_number(checked.coefficient),
        " x ",
        given_bare(checked.length_ft, Unit::Feet),
        ")) = ",
        Part::Of(flow, Unit::Gpm, 0),
    ]);
    Ok(Worked::new(flow, "gpm", how, SOURCE)?
        .warn_if(pump_pressure_psi > PUMP_LIMIT_PSI, || {
            told![
                given_of(pump_pressure_psi, Unit::Psi),
                " is beyond the ",
                Part::Of(PUMP_LIMIT_PSI, Unit::Psi, 0),
                " that pumps are rated to",
            ]
        })
        .warn_if(
            pump_pressure_psi > LARGE_DIAMETER_LIMIT_PSI && lay.size.is_large_diameter(),
            || over_large_diameter_limit(pump_pressure_psi),
        ))
}

#[cfg(test)]
mod tests {
    use super::*;

    const SUPPLY: Lay = Lay {
        size: HoseSize::Four,
        measured_coefficient: None,
        length_ft: 800.0,
        lines: 1,
        elevation_ft: 35.0,
        appliance_loss_psi: 10.0,
    };

    #[test]
    fn the_greatest_flow_needs_exactly_the_pressure_it_was_worked_from() {
        for lines in 1..=3 {
            for elevation_ft in [-60.0, 0.0, 120.0] {
                let lay = Lay { lines, elevation_ft, ..SUPPLY };
                let flow = greatest_flow(&lay, 150.0, 20.0).unwrap().value;
                let pressure = pressure_needed(&lay, flow, 20.0).unwrap().value;
                assert!(
                    (pressure - 150.0).abs() < 1e-9,
                    "{lines} lines, {elevation_ft} ft: {pressure}"
                );
            }
        }
    }

    #[test]
    fn a_measured_coefficient_takes_the_place_of_the_usual_one() {
        let measured = Lay { measured_coefficient: Some(0.1), ..SUPPLY };
        let usual = lay_friction(&SUPPLY, 500.0).unwrap().value;
        assert!((usual / lay_friction(&measured, 500.0).unwrap().value - 2.0).abs() < 1e-12);
        let wrong = Lay { measured_coefficient: Some(0.0), ..SUPPLY };
        assert!(lay_friction(&wrong, 500.0).is_err());
    }

    #[test]
    fn a_hill_too_high_for_the_pressure_is_an_error_with_both_numbers() {
        let hill = Lay { elevation_ft: 300.0, ..SUPPLY };
        let error = greatest_flow(&hill, 150.0, 20.0).unwrap_err();
        let FactError::NothingLeft { value, taken, .. } = error else {
            panic!("{error}");
        };
        assert_eq!(value, 150.0);
        assert!((taken - (20.0 + 10.0 + 0.434 * 300.0)).abs() < 1e-9);
    }

    #[test]
    fn hard_pumped_supply_hose_and_needless_pumps_warn() {
        assert!(greatest_flow(&SUPPLY, 185.0, 20.0).unwrap().warnings.is_empty());
        assert_eq!(greatest_flow(&SUPPLY, 186.0, 20.0).unwrap().warnings.len(), 1);
        assert_eq!(greatest_flow(&SUPPLY, 260.0, 20.0).unwrap().warnings.len(), 2);
        assert_eq!(pressure_needed(&SUPPLY, 1500.0, 20.0).unwrap().warnings.len(), 2);
        let downhill = Lay { elevation_ft: -200.0, ..SUPPLY };
        assert_eq!(pressure_needed(&downhill, 100.0, 20.0).unwrap().warnings.len(), 1);
    }
}
