//! Fire hose: friction, elevation, and the water a line holds.

use std::f64::consts::PI;

use crate::fact_checks::{finite, more_than_zero, one_or_more};
pub use crate::hose_size::HoseSize;
use crate::told::{Part, Unit, given_bare, given_number, given_of, told};
use crate::{FactError, GALLONS_PER_CUBIC_FOOT, PSI_PER_FOOT, Worked};

impl HoseSize {
    /// Nominal inside diameter, in.
    pub fn diameter_in(self) -> f64 {
        match self {
            HoseSize::One => 1.0,
            HoseSize::OneAndHalf => 1.5,
            HoseSize::OneAndThreeQuarter => 1.75,
            HoseSize::Two => 2.0,
            HoseSize::TwoAndHalf => 2.5,
            HoseSize::ThreeWithSmallCouplings | HoseSize::Three => 3.0,
            HoseSize::ThreeAndHalf => 3.5,
            HoseSize::Four => 4.0,
            HoseSize::FourAndHalf => 4.5,
            HoseSize::Five => 5.0,
            HoseSize::Six => 6.0,
        }
    }

    /// Friction coefficient C, psi for each 100 ft at 100 gpm.
    ///
    /// Source: pump operator texts (the 0.8 of 3 in hose with 2-1/2 in couplings: value from memory).
    /// Modern hose often loses less: use a measured coefficient where there is one.
    pub fn friction_coefficient(self) -> f64 {
        match self {
            HoseSize::One => 150.0,
            HoseSize::OneAndHalf => 24.0,
            HoseSize::OneAndThreeQuarter => 15.5,
            HoseSize::Two => 8.0,
            HoseSize::TwoAndHalf => 2.0,
            HoseSize::ThreeWithSmallCouplings => 0.8,
            HoseSize::Three => 0.677,
            HoseSize::ThreeAndHalf => 0.34,
            HoseSize::Four => 0.2,
            HoseSize::FourAndHalf => 0.1,
            HoseSize::Five => 0.08,
            HoseSize::Six => 0.05,
        }
    }

    /// The size of a nominal diameter.
    ///
    /// - Given: `diameter_in`, in. 3 in is taken with 2-1/2 in couplings, which lose more.
    /// - Errors: not finite, negative or zero; [`FactError::NotListed`] when no hose has that diameter.
    pub fn from_diameter(diameter_in: f64) -> Result<HoseSize, FactError> {
        more_than_zero("diameter_in", diameter_in)?;
        HoseSize::ALL
            .into_iter()
            .find(|size| size.diameter_in() == diameter_in)
            .ok_or(FactError::NotListed {
                field: "diameter_in",
                value: diameter_in,
                choices: "1, 1.5, 1.75, 2, 2.5, 3, 3.5, 4, 4.5, 5 and 6 in",
                cure: "give the nominal size; a measured friction coefficient can stand for an odd one",
            })
    }

    /// Large-diameter supply hose, 3-1/2 in and more, which may not be pumped as hard.
    pub(crate) fn is_large_diameter(self) -> bool {
        self.diameter_in() >= 3.5
    }
}

/// Usual limit of large-diameter supply hose, psi. Source: relay texts, which pump 4 and 5 in hose at 185 psi.
pub(crate) const LARGE_DIAMETER_LIMIT_PSI: f64 = 185.0;

const FRICTION_SOURCE: &str = "pump operator texts, C (gpm / 100)^2 (ft / 100)";

/// Pressure lost to friction in one hose line.
///
/// - Given: `size`; `flow_gpm`, gpm, more than 0; `length_ft`, ft, more than 0.
/// - Returns: psi = C x (gpm / 100)^2 x ft / 100.
/// - Errors: not finite, negative or zero values.
/// - Source: pump operator texts.
pub fn friction_loss(size: HoseSize, flow_gpm: f64, length_ft: f64) -> Result<Worked, FactError> {
    more_than_zero("flow_gpm", flow_gpm)?;
    more_than_zero("length_ft", length_ft)?;
    let coefficient = size.friction_coefficient();
    let loss = friction_psi(coefficient, flow_gpm, length_ft);
    let how = told![
        Part::Hose(size),
        " hose: ",
        given_number(coefficient),
        " x (",
        given_bare(flow_gpm, Unit::Gpm),
        A_HUNDRED_GPM,
        ")^2 x ",
        given_bare(length_ft, Unit::Feet),
        A_HUNDRED_FEET,
        " = ",
        Part::Of(loss, Unit::Psi, 1),
    ];
    Worked::new(loss, "psi", how, FRICTION_SOURCE)
}

/// The hundreds of the friction formula, and the weight of a column of water, in both systems of units: C
/// stays what it is in US texts, so 100 ft at 100 gpm that lose a psi are 4.421 m at 378.5 L/min that lose a
/// kPa (0.3048 m, 3.785412 L, 6.894757 kPa).
pub(crate) const A_HUNDRED_GPM: Part = Part::Constant { us: " / 100", metric: " / 378.5" };
pub(crate) const A_HUNDRED_FEET: Part = Part::Constant { us: " / 100", metric: " / 4.421" };
pub(crate) const PSI_A_FOOT: Part = Part::Constant { us: "0.434", metric: "9.82" };

/// C x (gpm / 100)^2 x ft / 100, psi.
pub(crate) fn friction_psi(coefficient: f64, flow_gpm: f64, length_ft: f64) -> f64 {
    coefficient * (flow_gpm / 100.0).powi(2) * length_ft / 100.0
}

/// Pressure taken by elevation, or given by it downhill.
///
/// - Given: `elevation_ft` of the far end above the near end, ft; negative downhill.
/// - Returns: psi = 0.434 x ft.
/// - Errors: not finite.
/// - Source: pump operator texts; 0.5 is the fireground shortcut.
pub fn elevation_pressure(elevation_ft: f64) -> Result<Worked, FactError> {
    finite("elevation_ft", elevation_ft)?;
    let pressure = PSI_PER_FOOT * elevation_ft;
    let how = told![
        PSI_A_FOOT,
        " x ",
        given_of(elevation_ft, Unit::Feet),
        " = ",
        Part::Of(pressure, Unit::Psi, 1),
    ];
    Worked::new(pressure, "psi", how, "pump operator texts")
}

/// Water that it takes to fill hose lines.
///
/// - Given: `size`; `length_ft` of one line, ft, more than 0; `lines`, 1 or more.
/// - Returns: gallons = pi r^2 h by the nominal diameter.
/// - Errors: not finite, negative or zero values.
/// - Source: geometry. Hose stretches under pressure and then holds somewhat more.
pub fn water_in_hose(size: HoseSize, length_ft: f64, lines: u32) -> Result<Worked, FactError> {
    more_than_zero("length_ft", length_ft)?;
    let count = one_or_more("lines", lines)?;
    let radius_ft = size.diameter_in() / 2.0 / 12.0;
    let water = PI * radius_ft * radius_ft * length_ft * count * GALLONS_PER_CUBIC_FOOT;
    let mut how = told![
        given_of(length_ft, Unit::Feet),
        " of ",
        Part::Hose(size),
        " hose: pi x (",
        given_of(size.diameter_in(), Unit::Inches),
        " / 2)^2 x length",
    ];
    if lines > 1 {
        how = how.and(told![" x ", Part::Number(count, 0), " lines"]);
    }
    how = how.and(told![" = ", Part::Of(water, Unit::Gallons, 1)]);
    Worked::new(water, "gal", how, "geometry")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_diameter_names_its_size_and_an_odd_one_is_refused() {
        assert_eq!(HoseSize::from_diameter(1.75), Ok(HoseSize::OneAndThreeQuarter));
        assert_eq!(HoseSize::from_diameter(3.0), Ok(HoseSize::ThreeWithSmallCouplings));
        for inches in [1.0, 1.5, 1.75, 2.0, 2.5, 3.0, 3.5, 4.0, 4.5, 5.0, 6.0] {
            assert_eq!(HoseSize::from_diameter(inches).unwrap().diameter_in(), inches);
        }
        assert_eq!(
            HoseSize::from_diameter(2.6).unwrap_err().to_string(),
            "diameter_in 2.6 is not one of 1, 1.5, 1.75, 2, 2.5, 3, 3.5, 4, 4.5, 5 and 6 in; give the nominal size; a \
             measured friction coefficient can stand for an odd one"
        );
        assert!(HoseSize::ThreeAndHalf.is_large_diameter() && !HoseSize::Three.is_large_diameter());
    }

    #[test]
    fn wider_hose_loses_less_and_downhill_gives_pressure() {
        for pair in HoseSize::ALL.windows(2) {
            assert!(pair[1].friction_coefficient() < pair[0].friction_coefficient());
            assert!(pair[1].diameter_in() >= pair[0].diameter_in());
        }
        assert!((elevation_pressure(-100.0).unwrap().value + 43.4).abs() < 1e-9);
    }
}
