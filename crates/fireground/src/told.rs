//! Words with quantities in them: a written-out sum or a warning keeps its numbers as values, so that it can
//! be said in US or in metric units. Sums are made in US units, where the rules have their constants; a
//! constant that depends on units stands there in both.

use std::fmt;

use crate::figures::{number, percent};
use crate::hose_size::HoseSize;

/// A unit of a value in a sum.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unit {
    /// Gallons a minute.
    Gpm,
    /// Gallons.
    Gallons,
    /// Feet.
    Feet,
    /// Inches.
    Inches,
    /// Square feet.
    SquareFeet,
    /// Cubic feet.
    CubicFeet,
    /// Miles.
    Miles,
    /// Miles an hour.
    Mph,
    /// Pounds a square inch.
    Psi,
    /// Minutes.
    Minutes,
    /// Million British thermal units a minute.
    MillionBtuAMinute,
}

/// Litres in a US gallon, metres in a foot, kilometres in a mile, millimetres in an inch: exact by definition.
const LITRES: f64 = 3.785_411_784;
const METRES: f64 = 0.3048;
const KILOMETRES: f64 = 1.609_344;
const MILLIMETRES: f64 = 25.4;
/// Kilopascals in a pound a square inch. Source: NIST Special Publication 811, appendix B.
const KILOPASCALS: f64 = 6.894_757;
/// Megawatts in a million Btu a minute. Source: the same (international table Btu, 1,055.056 J).
const MEGAWATTS: f64 = 1_055.056 / 60.0;

impl Unit {
    fn us_sign(self) -> &'static str {
        match self {
            Unit::Gpm => "gpm",
            Unit::Gallons => "gal",
            Unit::Feet => "ft",
            Unit::Inches => "in",
            Unit::SquareFeet => "ft2",
            Unit::CubicFeet => "ft3",
            Unit::Miles => "mi",
            Unit::Mph => "mph",
            Unit::Psi => "psi",
            Unit::Minutes => "min",
            Unit::MillionBtuAMinute => "million Btu a minute",
        }
    }

    fn metric_sign(self) -> &'static str {
        match self {
            Unit::Gpm => "L/min",
            Unit::Gallons => "L",
            Unit::Feet => "m",
            Unit::Inches => "mm",
            Unit::SquareFeet => "m2",
            Unit::CubicFeet => "m3",
            Unit::Miles => "km",
            Unit::Mph => "km/h",
            Unit::Psi => "kPa",
            Unit::Minutes => "min",
            Unit::MillionBtuAMinute => "MW",
        }
    }

    /// A value in metric units, with no more digits than a planning figure supports.
    fn metric_number(self, value: f64, decimals: usize) -> String {
        let tens = |value: f64| {
            let step = if value.abs() < 1_000.0 { 1.0 } else { 10.0 };
            number((value / step).round() * step, 0)
        };
        let a_tenth_below = |value: f64, most: f64| number(value, usize::from(value.abs() < most));
        match self {
            Unit::Gpm => tens(value * LITRES),
            Unit::Psi => tens(value * KILOPASCALS),
            Unit::Gallons => {
                let litres = value * LITRES;
                let step = 10_f64.powf(litres.abs().max(1.0).log10().floor() - 2.0).max(1.0);
                number((litres / step).round() * step, 0)
            }
            Unit::Feet => a_tenth_below(value * METRES, 100.0),
            Unit::SquareFeet => a_tenth_below(value * METRES.powi(2), 100.0),
            Unit::CubicFeet => a_tenth_below(value * METRES.powi(3), 100.0),
            Unit::Inches => number(value * MILLIMETRES, 0),
            Unit::Miles => number(value * KILOMETRES, 2),
            Unit::Mph => number(value * KILOMETRES, 1),
            Unit::Minutes => number(value, decimals),
            Unit::MillionBtuAMinute => number(value * MEGAWATTS, 0),
        }
    }
}

/// A part of a written-out sum or of a warning.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Part {
    /// Words and signs of arithmetic.
    Words(&'static str),
    /// A number without a unit, with at most this many decimals.
    Number(f64, usize),
    /// A share, as a percentage.
    Share(f64),
    /// A quantity with its unit; the decimals are those of US units.
    Of(f64, Unit, usize),
    /// The same without its unit, which stands elsewhere in the sum.
    Bare(f64, Unit, usize),
    /// A constant of the rule, as it is in US and in metric units.
    Constant {
        /// In US units.
        us: &'static str,
        /// In metric units.
        metric: &'static str,
    },
    /// A size of hose.
    Hose(HoseSize),
    /// The reader's word for a truck that carries water: "tanker" where none other is known.
    Tanker,
}

impl From<&'static str> for Part {
    fn from(words: &'static str) -> Part {
        Part::Words(words)
    }
}

impl Part {
    /// The part in US units.
    pub fn in_us_units(&self) -> String {
        match *self {
            Part::Words(words) | Part::Constant { us: words, .. } => words.to_owned(),
            Part::Number(value, decimals) | Part::Bare(value, _, decimals) => {
                number(value, decimals)
            }
            Part::Share(share) => percent(share),
            Part::Of(value, unit, decimals) => {
                format!("{} {}", number(value, decimals), unit.us_sign())
            }
            Part::Hose(size) => size.name().to_owned(),
            Part::Tanker => "tanker".to_owned(),
        }
    }

    /// The part in metric units.
    pub fn in_metric_units(&self) -> String {
        match *self {
            Part::Of(value, unit, decimals) => {
                format!("{} {}", unit.metric_number(value, decimals), unit.metric_sign())
            }
            Part::Bare(value, unit, decimals) => unit.metric_number(value, decimals),
            Part::Constant { metric, .. } => metric.to_owned(),
            Part::Hose(size) => size.metric_name().to_owned(),
            _ => self.in_us_units(),
        }
    }
}

/// Words with quantities in them.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Told(pub Vec<Part>);

/// Words with quantities in them, from words and [`Part`]s.
macro_rules! told {
    ($($part:expr),* $(,)?) => {
        $crate::told::Told(vec![$($crate::told::Part::from($part)),*])
    };
}
pub(crate) use told;

impl Told {
    /// In US units.
    pub fn in_us_units(&self) -> String {
        self.0.iter().map(Part::in_us_units).collect()
    }

    /// In metric units.
    pub fn in_metric_units(&self) -> String {
        self.0.iter().map(Part::in_metric_units).collect()
    }

    /// These words, then those.
    #[must_use]
    pub(crate) fn and(mut self, more: Told) -> Told {
        self.0.extend(more.0);
        self
    }
}

/// In US units.
impl fmt::Display for Told {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|part| f.write_str(&part.in_us_units()))
    }
}

/// A quantity as it was given, with its unit.
pub(crate) fn given_of(value: f64, unit: Unit) -> Part {
    Part::Of(value, unit, 4)
}

/// A quantity as it was given, its unit left out.
pub(crate) fn given_bare(value: f64, unit: Unit) -> Part {
    Part::Bare(value, unit, 4)
}

/// A number as it was given.
pub(crate) fn given_number(value: f64) -> Part {
    Part::Number(value, 4)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn metric_figures_have_no_more_digits_than_they_support() {
        // By the definitions above: 1,334.2 gpm 5,050.5 L/min, 43,200 gal 163,529.8 L, 12 gal 45.4 L, 80 ft
        // 24.38 m, 400 ft 121.9 m, 185 psi 1,275.5 kPa, 2 in 50.8 mm.
        for (part, us, metric) in [
            (Part::Of(1334.2, Unit::Gpm, 0), "1,334 gpm", "5,050 L/min"),
            (Part::Of(250.0, Unit::Gpm, 0), "250 gpm", "946 L/min"),
            (Part::Of(43_200.0, Unit::Gallons, 0), "43,200 gal", "164,000 L"),
            (Part::Of(12.0, Unit::Gallons, 0), "12 gal", "45 L"),
            (Part::Of(80.0, Unit::Feet, 1), "80 ft", "24.4 m"),
            (Part::Bare(400.0, Unit::Feet, 1), "400", "122"),
            (Part::Of(185.0, Unit::Psi, 0), "185 psi", "1,280 kPa"),
            (Part::Of(2.0, Unit::Inches, 0), "2 in", "51 mm"),
        ] {
            assert_eq!(
                (part.in_us_units().as_str(), part.in_metric_units().as_str()),
                (us, metric)
            );
        }
    }

    #[test]
    fn a_constant_is_said_in_the_units_of_the_rest() {
        let told = told![
            Part::Bare(60.0, Unit::Feet, 1),
            Part::Constant { us: " / 3", metric: " x 13.6" }
        ];
        assert_eq!(
            (told.in_us_units(), told.in_metric_units()),
            ("60 / 3".into(), "18.3 x 13.6".into())
        );
    }
}
