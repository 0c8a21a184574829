//! What a number measures: which units it has, what a bare number means, and how a value reads.

use std::ops::Bound;

use fireground::told::Unit;

use super::figures::{plain, three_figures};
use super::unit_sizes;
use crate::errors::message::{Figure, Message, Part, on_file, on_page, says};

pub use shuttle_report::units::Units;

/// A range for a number in the model's units.
pub(crate) type Bounds = (Bound<f64>, Bound<f64>);

/// What a number measures.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Quantity {
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

impl Quantity {
    pub(super) const ALL: [Quantity; 13] = [
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

    fn units(self) -> &'static [unit_sizes::Unit] {
        match self {
            Quantity::Volume => &unit_sizes::VOLUME,
            Quantity::Flow => &unit_sizes::FLOW,
            Quantity::Time => &unit_sizes::TIME,
            Quantity::Miles | Quantity::Kilometres => &unit_sizes::DISTANCE,
            Quantity::MilesPerHour | Quantity::KilometresPerHour => &unit_sizes::SPEED,
            Quantity::Length => &unit_sizes::LENGTH,
            Quantity::Area => &unit_sizes::AREA,
            Quantity::Diameter => &unit_sizes::DIAMETER,
            Quantity::Pressure => &unit_sizes::PRESSURE,
            Quantity::Share => &unit_sizes::SHARE,
            Quantity::Plain => &[],
        }
    }

    /// What it is, with its article.
    pub(crate) fn what(self) -> &'static str {
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

    /// The preferred spelling of each of its units.
    pub(super) fn written(self) -> Vec<&'static str> {
        self.units().iter().map(|unit| unit.names[0]).collect()
    }

    /// Every accepted spelling of its units.
    pub(crate) fn all_names(self) -> impl Iterator<Item = &'static str> {
        self.units().iter().flat_map(|unit| unit.names.iter().copied())
    }

    /// The unit of a bare number in a file with these units; empty where there is none.
    pub(crate) fn bare_unit(self, units: Units) -> &'static str {
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

    /// The size of a unit in internal units, if it is one of this quantity.
    pub(super) fn size_of(self, name: &str) -> Option<f64> {
        let named = |unit: &&unit_sizes::Unit| {
            (unit.names.iter()).any(|known| *known == name || known.eq_ignore_ascii_case(name))
        };
        self.units().iter().find(named).map(|unit| unit.size)
    }

    /// The preferred name of each of its units, with its size in the internal unit.
    pub(crate) fn sizes(self) -> impl Iterator<Item = (&'static str, f64)> {
        self.units().iter().map(|unit| (unit.names[0], unit.size))
    }

    /// A bare number in the internal unit.
    pub(crate) fn read_bare(self, value: f64, units: Units) -> f64 {
        value * self.size_of(self.bare_unit(units)).unwrap_or(1.0)
    }

    /// An internal value as a bare number of the file's units.
    pub(crate) fn to_bare(self, value: f64, units: Units) -> f64 {
        value / self.size_of(self.bare_unit(units)).unwrap_or(1.0)
    }

    /// An internal value as a message has it, told in these words.
    pub(crate) fn told(self, value: f64, told: String) -> Part {
        let unit = match self {
            Quantity::Volume => Unit::Gallons,
            Quantity::Flow => Unit::Gpm,
            Quantity::Time => Unit::Minutes,
            Quantity::Miles | Quantity::Kilometres => Unit::Miles,
            Quantity::MilesPerHour | Quantity::KilometresPerHour => Unit::Mph,
            Quantity::Length => Unit::Feet,
            Quantity::Area => Unit::SquareFeet,
            Quantity::Diameter => Unit::Inches,
            Quantity::Pressure => Unit::Psi,
            Quantity::Share => return Part::Figure { figure: Figure::Share(value), told },
            Quantity::Plain => return Part::Figure { figure: Figure::Plain(value), told },
        };
        Part::Figure { figure: Figure::Of(value, unit), told }
    }

    /// An internal value as the file would write it: "1,800 gal".
    pub(crate) fn show(self, value: f64, units: Units) -> Part {
        self.told(value, join(&plain(self.to_bare(value, units)), self.bare_unit(units)))
    }

    /// The range in the file's units: "from 379 to 189,000 L".
    pub(crate) fn show_bounds(self, bounds: Bounds, units: Units) -> Message {
        let tidy = |value: f64, up: bool| match units {
            Units::Us => plain(self.to_bare(value, units)),
            Units::Metric => plain(three_figures(self.to_bare(value, units), up)),
        };
        let unit = self.bare_unit(units);
        let least = |value: f64| self.told(value, tidy(value, true));
        let most = |value: f64| self.told(value, join(&tidy(value, false), unit));
        match bounds {
            (Bound::Included(low), Bound::Included(high)) => {
                says!["from ", least(low), " to ", most(high)]
            }
            (Bound::Included(low), Bound::Excluded(high)) => {
                says!["from ", least(low), " to below ", most(high)]
            }
            (Bound::Excluded(low), Bound::Included(high)) => {
                says!["above ", least(low), ", up to ", most(high)]
            }
            _ if unit.is_empty() => "any number".into(),
            _ => says!["any number ", unit],
        }
    }
}

/// What to do where there is nothing to say: a file does without the key, a box of a page stays empty.
pub(crate) fn leave_out() -> Message {
    says![on_file("leave the key out"), on_page("leave it empty")]
}

impl Quantity {
    /// What to try with an internal value that is out of its range.
    pub(crate) fn cure_out_of_range(self, value: f64, bounds: Bounds) -> Message {
        if self == Quantity::Share && (1.0..=100.0).contains(&value) {
            let share = self.show(value / 100.0, Units::Us);
            return says!["a share, not a percentage: ", share];
        }
        let least = match bounds.0 {
            Bound::Included(least) | Bound::Excluded(least) => least,
            Bound::Unbounded => f64::NEG_INFINITY,
        };
        if value < 0.0 && least >= 0.0 {
            "check the sign".into()
        } else if value == 0.0 {
            says!["state what it is; where it may be left out, ", leave_out(), " for none"]
        } else if value <= least {
            "check it for missing digits, and its unit".into()
        } else {
            "check it for extra digits, and its unit".into()
        }
    }
}

fn join(number: &str, unit: &str) -> String {
    format!("{number} {unit}").trim_end().to_string()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn limits_shown_in_metric_lie_inside_the_limits() {
        let bounds = (Bound::Included(100.0), Bound::Included(50_000.0));
        // 100 gal are 378.54 L and 50,000 gal 189,270.6 L.
        let shown = Quantity::Volume.show_bounds(bounds, Units::Metric);
        assert_eq!(shown.in_file(), "from 379 to 189,000 L");
        let shown = Quantity::Volume.show_bounds(bounds, Units::Us);
        assert_eq!(shown.in_file(), "from 100 to 50,000 gal");
    }
}
