//! What a hydrant gives: the flow from a pitot reading, and at another residual pressure.

use crate::fact_checks::{more_than_zero, within, zero_or_more};
use crate::told::{Part, Unit, given_bare, given_number, given_of, told};
use crate::{FactError, Worked};

/// Kind of hydrant outlet that flows open.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum OutletKind {
    /// A hose outlet, mostly 2-1/2 in.
    Hose,
    /// The large pumper outlet, which does not flow full: a further factor by pitot pressure applies.
    Pumper,
}

/// A pitot reading at an open hydrant outlet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PitotReading {
    /// Kind of outlet.
    pub kind: OutletKind,
    /// Inside diameter of the outlet, in, more than 0. Measured, not nominal.
    pub diameter_in: f64,
    /// Coefficient of the outlet, more than 0, up to 1: 0.9 smooth and rounded, 0.8 square and sharp, 0.7
    /// square and projecting into the barrel.
    pub coefficient: f64,
    /// Pitot pressure, psi, more than 0.
    pub pitot_psi: f64,
}

/// A hydrant flow test.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HydrantTest {
    /// Flow during the test, gpm, more than 0: the sum over the outlets open.
    pub flow_gpm: f64,
    /// Static pressure at the residual hydrant, psi, more than 0.
    pub static_psi: f64,
    /// Pressure at the same hydrant during the flow, psi, below the static one.
    pub residual_psi: f64,
}

/// Constant of the nozzle formula in gpm, inches and psi. Source: NFPA 291.
const OUTLET_CONSTANT: f64 = 29.83;
/// The same for L/min, mm and kPa (3.785412 L, 25.4 mm, 6.894757 kPa).
const OUTLET_WORDS: Part = Part::Constant { us: "29.83", metric: "0.06666" };

/// Further factor of a pumper outlet: (pitot pressure, psi; factor). Source: NFPA 291, table for pumper
/// outlets. Between rows the factor is read along a straight line (ours); beyond them it stays.
const PUMPER_FACTORS: [(f64, f64); 6] =
    [(2.0, 0.97), (3.0, 0.92), (4.0, 0.89), (5.0, 0.86), (6.0, 0.84), (7.0, 0.83)];

/// Outlet coefficients in common use. Source: NFPA 291 (0.95 is for flow tubes).
const COEFFICIENTS: (f64, f64) = (0.7, 0.95);

/// Exponent of the flow against pressure drop, from the 1.85 power of pipe friction. Source: NFPA 291.
const RESIDUAL_EXPONENT: f64 = 0.54;

/// Least drop during a test, as a share of the static pressure. Source: NFPA 291.
const LEAST_DROP_SHARE: f64 = 0.10;

/// Residual pressure that public mains are to keep, psi. Source: NFPA 291.
const LEAST_RESIDUAL_PSI: f64 = 20.0;

const OUTLET_SOURCE: &str = "NFPA 291, Q = 29.83 c d^2 sqrt(p)";
const RESIDUAL_SOURCE: &str =
    "NFPA 291, Q = Qt ((static - wanted) / (static - residual))^0.54 (value from memory)";

fn pumper_factor(pitot_psi: f64) -> f64 {
    let mut below = PUMPER_FACTORS[0];
    for row in PUMPER_FACTORS {
        if pitot_psi <= row.0 {
            if row.0 == below.0 {
                return row.1;
            }
            return below.1 + (row.1 - below.1) * (pitot_psi - below.0) / (row.0 - below.0);
        }
        below = row;
    }
    below.1
}

/// Flow from an open hydrant outlet.
///
/// - Given: the reading, in [`PitotReading`].
/// - Returns: gpm = 29.83 x coefficient x diameter^2 x sqrt(pitot), for a pumper outlet x 0.97 to 0.83.
/// - Errors: not finite, negative or zero values; a coefficient above 1.
/// - Source: NFPA 291.
pub fn outlet_flow(reading: &PitotReading) -> Result<Worked, FactError> {
    let diameter = more_than_zero("diameter_in", reading.diameter_in)?;
    let coefficient = more_than_zero("coefficient", reading.coefficient)?;
    within("coefficient", coefficient, 0.0, 1.0, "a rounded outlet is 0.9, a sharp one 0.8")?;
    let pitot = more_than_zero("pitot_psi", reading.pitot_psi)?;
    let full = OUTLET_CONSTANT * coefficient * diameter * diameter * pitot.sqrt();
    let mut how = told![
        OUTLET_WORDS,
        " x ",
        given_number(coefficient),
        " x ",
        given_bare(diameter, Unit::Inches),
        "^2 x sqrt(",
        given_bare(pitot, Unit::Psi),
        ")",
    ];
    let flow = match reading.kind {
        OutletKind::Hose => full,
        OutletKind::Pumper => {
            let factor = pumper_factor(pitot);
            how = how.and(told![" x ", Part::Number(factor, 3), " for a pumper outlet"]);
            full * factor
        }
    };
    how = how.and(told![" = ", Part::Of(flow, Unit::Gpm, 0)]);
    let (low, high) = COEFFICIENTS;
    Ok(Worked::new(flow, "gpm", how, OUTLET_SOURCE)?
        .warn_if(coefficient < low || high < coefficient, || {
            told![
                "an outlet coefficient of ",
                given_number(coefficient),
                " is unusual: 0.7 to 0.95",
            ]
        })
        .warn_if(reading.kind == OutletKind::Pumper && pitot < PUMPER_FACTORS[0].0, || {
            told![
                "below ",
                Part::Of(2.0, Unit::Psi, 0),
                " at a pumper outlet the table ends: the factor of its end was used",
            ]
        }))
}

/// Flow of a hydrant at a residual pressure other than the tested one.
///
/// - Given: `test`; `wanted_residual_psi`, psi, 0 or more, below the static pressure (20 is usual).
/// - Returns: gpm = test flow x ((static - wanted) / (static - residual))^0.54.
/// - Errors: not finite or negative values; a residual, or a wanted residual, not below the static pressure.
/// - Source: NFPA 291 (value from memory).
/// - Limits: warns below 20 psi, and when the test dropped the pressure by less than 10%, too little to
///   extrapolate from.
pub fn flow_at_residual(test: &HydrantTest, wanted_residual_psi: f64) -> Result<Worked, FactError> {
    let tested = more_than_zero("flow_gpm", test.flow_gpm)?;
    let at_rest = more_than_zero("static_psi", test.static_psi)?;
    let residual = zero_or_more("residual_psi", test.residual_psi)?;
    let wanted = zero_or_more("wanted_residual_psi", wanted_residual_psi)?;
    let below_static = |field, value, cure| {
        if value < at_rest {
            Ok(())
        } else {
            Err(FactError::Conflict {
                field,
                value,
                other: "static_psi",
                other_value: at_rest,
                cure,
            })
        }
    };
    below_static(
        "residual_psi",
        residual,
        "the pressure drops while water flows; check that the two readings are not swapped",
    )?;
    below_static(
        "wanted_residual_psi",
        wanted,
        "no water flows at or above the static pressure; 20 psi is usual",
    )?;
    let flow = tested * ((at_rest - wanted) / (at_rest - residual)).powf(RESIDUAL_EXPONENT);
    let bare = |psi| given_bare(psi, Unit::Psi);
    let how = told![
        given_bare(tested, Unit::Gpm),
        " x ((",
        bare(at_rest),
        " - ",
        bare(wanted),
        ") / (",
        bare(at_rest),
        " - ",
        bare(residual),
        "))^0.54 = ",
        Part::Of(flow, Unit::Gpm, 0),
        " at ",
        given_of(wanted, Unit::Psi),
    ];
    Ok(Worked::new(flow, "gpm", how, RESIDUAL_SOURCE)?
        .warn_if(wanted < LEAST_RESIDUAL_PSI, || {
            told![
                given_of(wanted, Unit::Psi),
                " residual is under the ",
                Part::Of(LEAST_RESIDUAL_PSI, Unit::Psi, 0),
                " that public mains are to keep: ask the water utility",
            ]
        })
        .warn_if(at_rest - residual < LEAST_DROP_SHARE * at_rest, || {
            told![
                "the test dropped the pressure by ",
                bare(at_rest - residual),
                " of ",
                given_of(at_rest, Unit::Psi),
                " only: under 10%, flow more in the test to trust this",
            ]
        }))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn at_the_tested_residual_the_flow_is_the_tested_flow() {
        let test = HydrantTest { flow_gpm: 870.0, static_psi: 72.0, residual_psi: 44.0 };
        assert!((flow_at_residual(&test, 44.0).unwrap().value - 870.0).abs() < 1e-9);
        assert!(flow_at_residual(&test, 72.0).is_err());
    }

    #[test]
    fn swapped_readings_are_an_error_that_names_both() {
        let test = HydrantTest { flow_gpm: 870.0, static_psi: 44.0, residual_psi: 72.0 };
        let message = flow_at_residual(&test, 20.0).unwrap_err().to_string();
        assert!(
            message.starts_with("residual_psi 72 does not fit with static_psi 44;"),
            "{message}"
        );
    }

    #[test]
    fn a_small_drop_and_a_low_residual_warn() {
        let test = HydrantTest { flow_gpm: 500.0, static_psi: 80.0, residual_psi: 73.0 };
        let warnings = flow_at_residual(&test, 20.0).unwrap().warnings;
        assert_eq!(warnings.len(), 1);
        assert!(warnings[0].to_string().contains("by 7 of 80 psi"), "{}", warnings[0]);
        let enough = HydrantTest { residual_psi: 72.0, ..test };
        assert!(flow_at_residual(&enough, 20.0).unwrap().warnings.is_empty());
        assert_eq!(flow_at_residual(&test, 10.0).unwrap().warnings.len(), 2);
    }

    #[test]
    fn unusual_outlets_and_low_pumper_readings_warn() {
        let reading = PitotReading {
            kind: OutletKind::Hose,
            diameter_in: 2.5,
            coefficient: 0.9,
            pitot_psi: 1.9,
        };
        let warnings = |reading: PitotReading| outlet_flow(&reading).unwrap().warnings.len();
        for (coefficient, expected) in [(0.69, 1), (0.7, 0), (0.95, 0), (0.96, 1)] {
            assert_eq!(
                warnings(PitotReading { coefficient, ..reading }),
                expected,
                "{coefficient}"
            );
        }
        assert!(outlet_flow(&PitotReading { coefficient: 1.01, ..reading }).is_err());
        let pumper = PitotReading { kind: OutletKind::Pumper, ..reading };
        assert_eq!(warnings(pumper), 1);
        assert_eq!(warnings(PitotReading { pitot_psi: 2.0, ..pumper }), 0);
    }

    #[test]
    fn the_pumper_factor_runs_between_its_rows_and_stays_beyond_them() {
        let rows =
            [(1.0, 0.97), (2.0, 0.97), (2.25, 0.9575), (2.5, 0.945), (7.0, 0.83), (30.0, 0.83)];
        for (pitot, factor) in rows {
            assert!((pumper_factor(pitot) - factor).abs() < 1e-12, "{pitot} psi");
        }
    }
}
