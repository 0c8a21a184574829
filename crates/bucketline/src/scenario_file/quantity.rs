//! Numbers with units: which units there are, what a bare number means, and how a value reads.
//!
//! Inside, everything is in US units (gal, gpm, min, mi, mph, ft, in, psi).

use std::ops::Bound;

use super::table::Bounds;
use super::units::{self, Unit};
use super::words::{nearest, plain, shorten};

pub use shuttle_report::units::Units;

/// What a number measures.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Quantity {
    /// Water.
    Volume,
    /// Water by time.
    Flow,
    /// Time.
    Time,
    /// Road, where a bare number is miles: only in a file in US units.
    Miles,
    /// Road, where a bare number is km in any file.
    Kilometres,
    /// Speed, where a bare number is mph: only in a file in US units.
    MilesPerHour,
    /// Speed, where a bare number is km/h in any file.
    KilometresPerHour,
    /// Hose, lift, height.
    Length,
    /// Ground.
    Area,
    /// Hose or outlet.
    Diameter,
    /// Pressure.
    Pressure,
    /// A share or chance; may be written "10%".
    Share,
    /// A number without a unit.
    Plain,
}

/// What is wrong with a number written as text.
#[derive(Debug, PartialEq)]
pub(super) struct BadText {
    pub(super) problem: String,
    pub(super) cure: String,
}

impl Quantity {
    const ALL: [Quantity; 13] = [
        Quantity::Volume,
        Quantity::Flow,
        Quantity::Time,
        Quantity::Miles,
        Quantity::Kilometres,
        Quantity::MilesPerHour,
        Quantity::KilometresPerHour,
        Quantity::Length,
        Quantity::Area,
        Quantity::Diameter,
        Quantity::Pressure,
        Quantity::Share,
        Quantity::Plain,
    ];

    fn units(self) -> &'static [Unit] {
        match self {
            Quantity::Volume => &units::VOLUME,
            Quantity::Flow => &units::FLOW,
            Quantity::Time => &units::TIME,
            Quantity::Miles | Quantity::Kilometres => &units::DISTANCE,
            Quantity::MilesPerHour | Quantity::KilometresPerHour => &units::SPEED,
            Quantity::Length => &units::LENGTH,
            Quantity::Area => &units::AREA,
            Quantity::Diameter => &units::DIAMETER,
            Quantity::Pressure => &units::PRESSURE,
            Quantity::Share => &units::SHARE,
            Quantity::Plain => &[],
        }
    }

    /// What it is, with its article.
    pub(super) fn what(self) -> &'static str {
        match self {
            Quantity::Volume => "a volume",
            Quantity::Flow => "a flow",
            Quantity::Time => "a time",
            Quantity::Miles | Quantity::Kilometres => "a distance",
            Quantity::MilesPerHour | Quantity::KilometresPerHour => "a speed",
            Quantity::Length => "a length",
            Quantity::Area => "an area",
            Quantity::Diameter => "a diameter",
            Quantity::Pressure => "a pressure",
            Quantity::Share => "a share",
            Quantity::Plain => "a number without a unit",
        }
    }

    /// Our way to write its units.
    fn written(self) -> Vec<&'static str> {
        self.units().iter().map(|unit| unit.names[0]).collect()
    }

    /// Every way to write its units.
    pub(super) fn all_names(self) -> impl Iterator<Item = &'static str> {
        self.units().iter().flat_map(|unit| unit.names.iter().copied())
    }

    /// The unit of a bare number in a file with these units; empty where there is none.
    pub(super) fn bare_unit(self, units: Units) -> &'static str {
        match (self, units) {
            (Quantity::Kilometres, _) => "km",
            (Quantity::KilometresPerHour, _) => "km/h",
            (Quantity::Miles, Units::Us) => "mi",
            (Quantity::Miles, Units::Metric) => "km",
            (Quantity::MilesPerHour, Units::Us) => "mph",
            (Quantity::MilesPerHour, Units::Metric) => "km/h",
            (Quantity::Volume, Units::Us) => "gal",
            (Quantity::Volume, Units::Metric) => "L",
            (Quantity::Flow, Units::Us) => "gpm",
            (Quantity::Flow, Units::Metric) => "L/min",
            (Quantity::Time, _) => "min",
            (Quantity::Length, Units::Us) => "ft",
            (Quantity::Length, Units::Metric) => "m",
            (Quantity::Area, Units::Us) => "ft2",
            (Quantity::Area, Units::Metric) => "m2",
            (Quantity::Diameter, Units::Us) => "in",
            (Quantity::Diameter, Units::Metric) => "mm",
            (Quantity::Pressure, Units::Us) => "psi",
            (Quantity::Pressure, Units::Metric) => "kPa",
            (Quantity::Share | Quantity::Plain, _) => "",
        }
    }

    fn size_of(self, name: &str) -> Option<f64> {
        let named = |unit: &&Unit| {
            (unit.names.iter()).any(|known| *known == name || known.eq_ignore_ascii_case(name))
        };
        self.units().iter().find(named).map(|unit| unit.size)
    }

    /// A bare number in the unit inside.
    pub(super) fn read_bare(self, value: f64, units: Units) -> f64 {
        value * self.size_of(self.bare_unit(units)).unwrap_or(1.0)
    }

    /// A value inside as a bare number of the file's units.
    pub(super) fn to_bare(self, value: f64, units: Units) -> f64 {
        value / self.size_of(self.bare_unit(units)).unwrap_or(1.0)
    }

    /// A number with its unit, such as "11000 L", in the unit inside.
    pub(super) fn read_text(self, text: &str, units: Units) -> Result<f64, BadText> {
        let text = text.trim();
        let shown = shorten(text);
        let bare = self.bare_unit(units);
        let (number, unit) = text.split_at(number_length(text));
        let unit = unit.trim();
        let Ok(value) = number.parse::<f64>() else {
            return Err(BadText {
                problem: format!("\"{shown}\" does not begin with a number"),
                cure: self.example(units),
            });
        };
        if !value.is_finite() {
            return Err(BadText {
                problem: format!("{} is too large a number", shorten(number)),
                cure: "check it for extra digits".to_string(),
            });
        }
        if unit.starts_with([',', '.']) {
            return Err(BadText {
                problem: format!("\"{shown}\" is not a number with a unit"),
                cure: "write 11000 for 11,000 and 2.4 for 2,4".to_string(),
            });
        }
        if unit.is_empty() {
            return Err(BadText {
                problem: format!("\"{shown}\" is a number in quotes without a unit"),
                cure: if bare.is_empty() {
                    format!("write {number} without quotes")
                } else {
                    format!("write {number} without quotes, or \"{number} {bare}\"")
                },
            });
        }
        match self.size_of(unit) {
            Some(size) => Ok(value * size),
            None => Err(self.unknown_unit(number, unit, units)),
        }
    }

    fn example(self, units: Units) -> String {
        match self.bare_unit(units) {
            "" => "write a plain number, such as 0.1".to_string(),
            bare => format!("write a number, or a number with a unit, such as \"10 {bare}\""),
        }
    }

    fn unknown_unit(self, number: &str, unit: &str, units: Units) -> BadText {
        let wanted = match self.written().as_slice() {
            [] => String::new(),
            names => format!(": {}", names.join(", ")),
        };
        let elsewhere = (Quantity::ALL.iter()).find(|other| other.size_of(unit).is_some());
        if let Some(other) = elsewhere {
            return BadText {
                problem: format!(
                    "\"{unit}\" is the unit of {}, where {} is wanted",
                    other.what(),
                    self.what()
                ),
                cure: match self.bare_unit(units) {
                    "" => format!("write {number} without a unit"),
                    bare => format!("give {} in {bare}, or a unit of it{wanted}", self.what()),
                },
            };
        }
        let near = nearest(unit, self.all_names());
        BadText {
            problem: format!("there is no unit \"{}\" here", shorten(unit)),
            cure: match near {
                Some(near) => format!("a unit with a similar name exists: \"{number} {near}\""),
                None if wanted.is_empty() => format!("write {number} without a unit"),
                None => format!("the units of {} are{wanted}", self.what()),
            },
        }
    }

    /// The value inside as the file would write it: "1,800 gal".
    pub(super) fn show(self, value: f64, units: Units) -> String {
        join(&plain(self.to_bare(value, units)), self.bare_unit(units))
    }

    /// The range in the file's units: "from 379 to 189,000 L".
    pub(super) fn show_bounds(self, bounds: Bounds, units: Units) -> String {
        let tidy = |value: f64, up: bool| match units {
            Units::Us => plain(self.to_bare(value, units)),
            Units::Metric => plain(three_figures(self.to_bare(value, units), up)),
        };
        let unit = self.bare_unit(units);
        match bounds {
            (Bound::Included(low), Bound::Included(high)) => {
                let high = join(&tidy(high, false), unit);
                format!("from {} to {high}", tidy(low, true))
            }
            (Bound::Included(low), Bound::Excluded(high)) => {
                let high = join(&tidy(high, false), unit);
                format!("from {} to below {high}", tidy(low, true))
            }
            (Bound::Excluded(low), Bound::Included(high)) => {
                let high = join(&tidy(high, false), unit);
                format!("above {}, up to {high}", tidy(low, true))
            }
            _ => format!("any number {unit}").trim_end().to_string(),
        }
    }
}

fn join(number: &str, unit: &str) -> String {
    format!("{number} {unit}").trim_end().to_string()
}

/// Rounded to three figures, up or down, so that a limit shown is never beyond the limit.
fn three_figures(value: f64, up: bool) -> f64 {
    if value == 0.0 {
        return 0.0;
    }
    let step = 10_f64.powf(value.abs().log10().floor() - 2.0);
    let steps = value / step;
    // Whole steps stay as they are: the division leaves a hair.
    let whole = if (steps - steps.round()).abs() < 1e-6 {
        steps.round()
    } else if up {
        steps.ceil()
    } else {
        steps.floor()
    };
    whole * step
}

/// How many bytes at the start of the text are a number as JSON writes it, also with a plus sign.
fn number_length(text: &str) -> usize {
    let bytes = text.as_bytes();
    let digits =
        |from: usize| bytes[from..].iter().take_while(|byte| byte.is_ascii_digit()).count();
    let sign = usize::from(matches!(bytes.first(), Some(b'-' | b'+')));
    let mut end = sign + digits(sign);
    if end == sign {
        return 0;
    }
    if bytes.get(end) == Some(&b'.') && digits(end + 1) > 0 {
        end += 1 + digits(end + 1);
    }
    if matches!(bytes.get(end), Some(b'e' | b'E')) {
        let sign = usize::from(matches!(bytes.get(end + 1), Some(b'-' | b'+')));
        let exponent = digits(end + 1 + sign.min(bytes.len() - end - 1));
        if exponent > 0 {
            end += 1 + sign + exponent;
        }
    }
    end
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scenario_file::words::{in_round_units, in_units, round_volume};

    #[test]
    fn units_have_the_sizes_of_the_reference_tables() {
        // NIST SP 811, appendix B: gallon (US) 3.785412 L, gallon (Imperial) 4.54609 L, cubic foot
        // 28.31685 L, gallon (US) per minute 0.06309020 L/s, mile 1.609344 km, foot 0.3048 m, inch
        // 25.4 mm, psi 6.894757 kPa. Given to seven figures.
        let rows = [
            (Quantity::Volume, "1 L", 1.0 / 3.785412),
            (Quantity::Volume, "2 m3", 2000.0 / 3.785412),
            (Quantity::Volume, "1 imp gal", 4.54609 / 3.785412),
            (Quantity::Volume, "1 ft3", 28.31685 / 3.785412),
            (Quantity::Flow, "1 L/s", 1.0 / 0.06309020),
            (Quantity::Flow, "60 L/min", 1.0 / 0.06309020),
            (Quantity::Flow, "3.6 m3/h", 1.0 / 0.06309020),
            (Quantity::Time, "90 s", 1.5),
            (Quantity::Time, "1.5 h", 90.0),
            (Quantity::Miles, "1.609344 km", 1.0),
            (Quantity::Kilometres, "1609.344 m", 1.0),
            (Quantity::Kilometres, "5280 ft", 1.0),
            (Quantity::MilesPerHour, "60 km/h", 60.0 / 1.609344),
            (Quantity::Length, "300 m", 300.0 / 0.3048),
            (Quantity::Length, "4 km", 4000.0 / 0.3048),
            (Quantity::Length, "6 in", 0.5),
            (Quantity::Area, "93 m2", 93.0 / (0.3048 * 0.3048)),
            (Quantity::Diameter, "125 mm", 125.0 / 25.4),
            (Quantity::Pressure, "1000 kPa", 1000.0 / 6.894757),
            (Quantity::Pressure, "10 bar", 1000.0 / 6.894757),
            (Quantity::Share, "10%", 0.1),
        ];
        for (quantity, text, expected) in rows {
            let got = quantity.read_text(text, Units::Us).unwrap();
            assert!((got / expected - 1.0).abs() < 3e-7, "{text}: {got} for {expected}");
        }
    }

    #[test]
    fn text_that_is_no_number_with_a_unit_is_refused() {
        let rows = [
            "",
            " ",
            "gal",
            "NaN gal",
            "inf gal",
            "-",
            "e5 gal",
            ".5 gal",
            "5",
            "1,800 gal",
            "1.8.0 gal",
            "5 gal 3",
            "0x10 gal",
            "5e gal",
            "1e999 gal",
            "five gal",
            "5 gall0ns",
        ];
        for text in rows {
            assert!(Quantity::Volume.read_text(text, Units::Us).is_err(), "{text}");
        }
        for (text, value) in [("5e2gal", 500.0), ("-1.5E+1 GAL", -15.0), ("+3 Gallons", 3.0)] {
            assert_eq!(Quantity::Volume.read_text(text, Units::Us), Ok(value));
        }
    }

    #[test]
    fn limits_shown_in_metric_lie_inside_the_limits() {
        let bounds = (Bound::Included(100.0), Bound::Included(50_000.0));
        // 100 gal are 378.54 L and 50,000 gal 189,270.6 L.
        let shown = Quantity::Volume.show_bounds(bounds, Units::Metric);
        assert_eq!(shown, "from 379 to 189,000 L");
        let shown = Quantity::Volume.show_bounds(bounds, Units::Us);
        assert_eq!(shown, "from 100 to 50,000 gal");
    }

    #[test]
    fn messages_are_said_in_metric_without_touching_other_numbers() {
        let rows = [
            ("the reserve of 1,000 gal is", "the reserve of 3,785 L is"),
            ("up to 100 gpm, Tanker 3 mi", "up to 378.5 L/min, Tanker 4.828 km"),
            ("1-3/4 in line, 10 x 10 ft", "1-3/4 in line, 10 x 10 ft"),
            ("tankers[1].waste: 3 minutes", "tankers[1].waste: 3 minutes"),
            ("35 mph on average", "56.33 km/h on average"),
            ("at 185 psi the", "at 1,276 kPa the"),
            ("3 miles, 3 gallant", "3 miles, 3 gallant"),
        ];
        for (us, metric) in rows {
            assert_eq!(in_units(us, Units::Metric), metric);
            assert_eq!(in_units(us, Units::Us), us);
        }
        // 250 gpm are 946.35 L/min, 185 psi 1,275.5 kPa.
        let told = in_round_units("at 250 gpm and 185 psi", Units::Metric);
        assert_eq!(told, "at 946 L/min and 1,280 kPa");
        // 43,200 gal are 163,529.8 L, 2,000 gal 7,570.8 L, 250 gal 946.35 L, 12 gal 45.4 L.
        for (gallons, us, metric) in [
            (43_200.0, "43,200 gal", "164,000 L"),
            (2_000.0, "2,000 gal", "7,570 L"),
            (250.0, "250 gal", "946 L"),
            (12.0, "12 gal", "45 L"),
            (0.0, "0 gal", "0 L"),
        ] {
            assert_eq!(round_volume(gallons, Units::Us), us);
            assert_eq!(round_volume(gallons, Units::Metric), metric);
        }
    }
}
