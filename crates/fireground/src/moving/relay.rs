//! A relay: how many engines carry a flow over a length of hose, and how far apart.

use crate::fact_checks::{more_than_zero, zero_or_more};
use crate::hose::{HoseSize, LARGE_DIAMETER_LIMIT_PSI};
use crate::lay::{Lay, lay_friction, over_large_diameter_limit, pressure_needed};
use crate::pump::capacity_at_pressure;
use crate::told::{Part, Unit, given_bare, given_of, told};
use crate::{FactError, PSI_PER_FOOT, Told, Worked};

/// What a relay has to do and with what.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Relay {
    /// Hose size of every line.
    pub size: HoseSize,
    /// Friction coefficient measured on this hose, or `None` for the usual one: see [`Lay`].
    pub measured_coefficient: Option<f64>,
    /// Equal parallel lines, 1 or more.
    pub lines: u32,
    /// Length of hose from the source to the attack engine, ft, more than 0.
    pub length_ft: f64,
    /// Elevation of the attack engine above the source, ft, negative downhill; taken as an even slope.
    pub elevation_ft: f64,
    /// Flow wanted, gpm, more than 0.
    pub flow_gpm: f64,
    /// Rating of the smallest pump in the relay, gpm, more than 0.
    pub rated_gpm: f64,
    /// Greatest discharge pressure at each engine, psi, more than 0 (185 is usual for large hose, 200 below).
    pub discharge_psi: f64,
    /// Pressure wanted at the intake of the next engine, psi, 0 or more (20 is usual).
    pub intake_psi: f64,
    /// Loss in appliances in each stretch, psi, 0 or more.
    pub appliance_loss_psi: f64,
}

/// A relay laid out.
#[derive(Debug, Clone, PartialEq)]
pub struct RelayPlan {
    /// Engines that pump: one at the source and the others between. The attack engine comes on top.
    pub pumping_engines: u32,
    /// The farthest one engine can pump to the next, ft. At least the whole length when the fall makes up
    /// for the friction.
    pub greatest_spacing: Worked,
    /// Whether the fall makes up for the friction, so that one engine suffices for any length.
    pub downhill_pays: bool,
    /// Length of each stretch when the engines stand evenly, ft.
    pub even_spacing_ft: f64,
    /// Discharge pressure at each engine when they stand evenly, psi, no more than the greatest.
    pub even_discharge: Worked,
    /// The count in words.
    pub how: Told,
    /// Where the rule comes from.
    pub source: &'static str,
    /// What to know before relying on it.
    pub warnings: Vec<Told>,
}

/// Most engines worth counting; beyond it the facts given are more likely a typing slip. Assumed.
const MOST_ENGINES: f64 = 50.0;

/// Engines beyond which a relay is hard to run. Assumed.
const MANY_ENGINES: u32 = 5;

const PSI_WORDS: Part = Part::Constant { us: ") psi / ", metric: ") kPa / " };

const SOURCE: &str =
    "pump operator texts, maximum distance relay: length / greatest spacing, rounded up";

/// Lays out a relay by the greatest distance one engine can pump to the next.
///
/// - Given: the task, in [`Relay`].
/// - Returns: the engines and their spacing ([`RelayPlan`]). Greatest spacing, ft = (discharge - intake -
///   appliances) / (friction and rise for each foot); engines that pump = length / spacing, rounded up.
/// - Errors: not finite, negative or zero values; [`FactError::BeyondCapacity`] when the smallest pump does not
///   give the flow at the discharge pressure; [`FactError::BeyondTable`] above 250 psi;
///   [`FactError::NothingLeft`] when intake and appliances take all the pressure; more than 50 engines.
/// - Source: pump operator texts.
/// - Limits: even slope, equal pumps and hose. The pump is judged at its whole discharge pressure, which is
///   right for the engine at a low lift and errs to the safe side for the others. What the source itself gives
///   is not in it: see [`crate::pump::draft_capacity`].
pub fn relay(task: &Relay) -> Result<RelayPlan, FactError> {
    let length = more_than_zero("length_ft", task.length_ft)?;
    let flow = more_than_zero("flow_gpm", task.flow_gpm)?;
    let discharge = more_than_zero("discharge_psi", task.discharge_psi)?;
    let intake = zero_or_more("intake_psi", task.intake_psi)?;
    let appliances = zero_or_more("appliance_loss_psi", task.appliance_loss_psi)?;
    let lay = Lay {
        size: task.size,
        measured_coefficient: task.measured_coefficient,
        length_ft: length,
        lines: task.lines,
        elevation_ft: task.elevation_ft,
        appliance_loss_psi: appliances,
    };
    let friction = lay_friction(&lay, flow)?.value;
    let capacity = capacity_at_pressure(task.rated_gpm, discharge)?.value;
    if flow > capacity {
        return Err(FactError::BeyondCapacity {
            field: "flow_gpm",
            value: flow,
            limit: capacity,
            cure: "a lower discharge pressure, a larger pump or less flow",
        });
    }
    let left = discharge - intake - appliances;
    if left <= 0.0 {
        return Err(FactError::NothingLeft {
            field: "discharge_psi",
            value: discharge,
            taken: intake + appliances,
            cure: "raise the discharge pressure",
            or_check: &["intake_psi", "appliance_loss_psi"],
        });
    }

    let taken_per_foot = friction / length + PSI_PER_FOOT * task.elevation_ft / length;
    let downhill_pays = taken_per_foot <= 0.0;
    let spacing = if downhill_pays { length } else { left / taken_per_foot };
    // A length that is a whole number of spacings must not gain an engine by rounding.
    let engines = (length / spacing - 1e-9).ceil().max(1.0);
    if engines > MOST_ENGINES {
        return Err(FactError::OutsideRange {
            field: "length_ft",
            value: length,
            low: 0.0,
            high: MOST_ENGINES * spacing,
            cure: "larger hose, more lines or less flow; or haul the water",
        });
    }
    let even = length / engines;
    let stretch = Lay { length_ft: even, elevation_ft: task.elevation_ft / engines, ..lay };
    let even_discharge = pressure_needed(&stretch, flow, intake)?;

    let spacing_how = if downhill_pays {
        told![
            "downhill gives at least the friction: ",
            given_of(length, Unit::Feet),
            " without another engine",
        ]
    } else {
        let bare = |psi| given_bare(psi, Unit::Psi);
        told![
            "(",
            bare(discharge),
            " - ",
            bare(intake),
            " - ",
            bare(appliances),
            PSI_WORDS,
            Part::Of(taken_per_foot * 100.0, Unit::Psi, 2),
            " a ",
            Part::Of(100.0, Unit::Feet, 0),
            " = ",
            Part::Of(spacing, Unit::Feet, 0),
        ]
    };
    let engines = engines as u32;
    let how = told![
        given_of(length, Unit::Feet),
        " / ",
        Part::Of(spacing, Unit::Feet, 0),
        ", rounded up = ",
        Part::Number(f64::from(engines), 0),
        " engines pumping, ",
        Part::Of(even, Unit::Feet, 0),
        " apart, and the attack engine",
    ];
    let mut warnings = Vec::new();
    if discharge > LARGE_DIAMETER_LIMIT_PSI && task.size.is_large_diameter() {
        warnings.push(over_large_diameter_limit(discharge));
    }
    if engines > MANY_ENGINES {
        warnings.push(told![
            Part::Number(f64::from(engines), 0),
            " engines in line are hard to run: larger hose, more lines or a shuttle may serve better",
        ]);
    }
    Ok(RelayPlan {
        pumping_engines: engines,
        greatest_spacing: Worked::new(spacing, "ft", spacing_how, SOURCE)?,
        downhill_pays,
        even_spacing_ft: even,
        even_discharge,
        how,
        source: SOURCE,
        warnings,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    const LINE: Relay = Relay {
        size: HoseSize::Four,
        measured_coefficient: None,
        lines: 1,
        length_ft: 2400.0,
        elevation_ft: 0.0,
        flow_gpm: 1000.0,
        rated_gpm: 1500.0,
        discharge_psi: 185.0,
        intake_psi: 20.0,
        appliance_loss_psi: 0.0,
    };

    #[test]
    fn evenly_spaced_engines_need_no_more_than_the_greatest_pressure() {
        for length_ft in [100.0, 825.0, 826.0, 2475.0, 5000.0] {
            for elevation_ft in [-80.0, 0.0, 90.0] {
                let plan = relay(&Relay { length_ft, elevation_ft, ..LINE }).unwrap();
                assert!(plan.even_discharge.value <= 185.0 + 1e-6, "{}", plan.how);
                let total = plan.even_spacing_ft * f64::from(plan.pumping_engines);
                assert!((total - length_ft).abs() < 1e-6);
                // One engine fewer would not do.
                if plan.pumping_engines > 1 {
                    let fewer = length_ft / f64::from(plan.pumping_engines - 1);
                    assert!(fewer > plan.greatest_spacing.value);
                }
            }
        }
    }

    #[test]
    fn a_whole_number_of_spacings_does_not_gain_an_engine() {
        let engines = |length_ft| relay(&Relay { length_ft, ..LINE }).unwrap().pumping_engines;
        assert_eq!((engines(825.0), engines(826.0), engines(2475.0)), (1, 2, 3));
    }

    #[test]
    fn long_relays_and_hard_pumped_hose_warn_and_absurd_ones_are_refused() {
        let warnings = |task: Relay| relay(&task).unwrap().warnings.len();
        for (length_ft, expected) in [(5.0 * 825.0, 0), (5.0 * 825.0 + 1.0, 1)] {
            assert_eq!(warnings(Relay { length_ft, ..LINE }), expected, "{length_ft} ft");
        }
        let hard = Relay { discharge_psi: 190.0, ..LINE };
        assert_eq!(warnings(hard), 1);
        assert_eq!(warnings(Relay { size: HoseSize::Three, lines: 2, ..hard }), 0);
        assert!(relay(&Relay { length_ft: 50.0 * 825.0, ..LINE }).is_ok());
        assert!(matches!(
            relay(&Relay { length_ft: 50.0 * 825.0 + 1.0, ..LINE }),
            Err(FactError::OutsideRange { field: "length_ft", high: 41_250.0, .. })
        ));
    }

    #[test]
    fn a_steep_descent_needs_one_engine_only() {
        let plan = relay(&Relay { elevation_ft: -1200.0, ..LINE }).unwrap();
        assert_eq!(plan.pumping_engines, 1);
        assert_eq!(plan.greatest_spacing.value, 2400.0);
    }

    #[test]
    fn a_pump_too_small_for_the_pressure_is_refused() {
        let small = Relay { rated_gpm: 1000.0, ..LINE };
        assert!(
            matches!(relay(&small), Err(FactError::BeyondCapacity { limit, .. }) if (limit - 790.0).abs() < 1e-9)
        );
        let drowned = Relay { intake_psi: 180.0, appliance_loss_psi: 8.0, ..LINE };
        assert!(matches!(
            relay(&drowned),
            Err(FactError::NothingLeft { value: 185.0, taken: 188.0, .. })
        ));
    }
}
