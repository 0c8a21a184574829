//! Numbers written as text with their unit, such as "11000 L".

use super::quantity::{Quantity, Units};
use super::slips::{CLOCK, currency, one_number};
use crate::errors::excerpt::shorten;
use crate::errors::kinds::MistakeKind;
use crate::errors::message::{Message, Part, joined, on_file, quoted, says, typed};
use crate::errors::similar_words::nearest;

/// What is wrong with a number written as text.
#[derive(Debug, PartialEq)]
pub(crate) struct BadText {
    pub(crate) kind: MistakeKind,
    pub(crate) problem: Message,
    pub(crate) cure: Message,
}

impl Quantity {
    /// A number with its unit, such as "11000 L", in the internal unit.
    pub(crate) fn read_text(self, text: &str, units: Units) -> Result<f64, BadText> {
        let text = text.trim();
        let bare = self.bare_unit(units);
        let (number, unit) = text.split_at(number_length(text));
        let unit = unit.trim();
        let bad = |problem: Message, cure: Message| BadText {
            kind: MistakeKind::BadNumber,
            problem,
            cure,
        };
        if let Some(cure) = self.slip_in(text, units) {
            return Err(bad(says![quoted(text), " is not a number with a unit"], cure));
        }
        let Ok(value) = number.parse::<f64>() else {
            let problem = says![quoted(text), " does not begin with a number"];
            return Err(bad(problem, self.example(units)));
        };
        if !value.is_finite() {
            let problem = says![typed(shorten(number)), " is too large a number"];
            return Err(bad(problem, "check it for extra digits".into()));
        }
        if unit.is_empty() {
            let problem =
                says![quoted(text), " is a number", on_file(" in quotes"), " without a unit"];
            let cure = if bare.is_empty() {
                says!["write ", typed(number), unquoted()]
            } else {
                let with_unit = typed(format!("\"{number} {bare}\""));
                says!["write ", typed(number), unquoted(), ", or ", with_unit]
            };
            return Err(bad(problem, cure));
        }
        match self.size_of(unit) {
            Some(size) => Ok(value * size),
            None => Err(self.unknown_unit(number, unit, units)),
        }
    }

    /// The number of a value as it is written, without its unit.
    pub(crate) fn number_in(text: &str) -> Option<f64> {
        let text = text.trim();
        text[..number_length(text)].parse().ok()
    }

    /// The cure of a number with separators, with a currency sign, or of a clock; `None`: nothing of the kind.
    fn slip_in(self, text: &str, units: Units) -> Option<Message> {
        if let Some(amount) = currency(text) {
            return Some(says![
                "write the plain number",
                on_file(", without quotes"),
                ": ",
                typed(amount)
            ]);
        }
        let end = text.find(|c: char| !(c.is_ascii_digit() || ",. '_".contains(c)));
        let (written, unit) = text.split_at(end.unwrap_or(text.len()));
        let digits = written.trim_end();
        if let Some(number) = one_number(digits) {
            return Some(match unit.trim() {
                "" => says!["write ", typed(number), unquoted()],
                unit if self.size_of(unit).is_some() => {
                    let space = if unit.starts_with('%') { "" } else { " " };
                    says!["write ", typed(format!("\"{number}{space}{unit}\""))]
                }
                _ => says!["write ", typed(number), self.units_there_are(units)],
            });
        }
        let clock = unit
            .strip_prefix(':')
            .is_some_and(|rest| rest.starts_with(|c: char| c.is_ascii_digit()));
        if clock && !digits.is_empty() && self == Quantity::Time {
            return Some(CLOCK.into());
        }
        let separated = digits.contains([',', ' ', '\'', '_']) || digits.matches('.').count() > 1;
        separated.then(|| "write 11000 for 11,000 and 2.4 for 2,4".into())
    }

    fn units_there_are(self, units: Units) -> Message {
        match self.bare_unit(units) {
            "" => unquoted().into(),
            bare => says![unquoted(), ", or \"10 ", bare, "\" with its unit"],
        }
    }

    fn example(self, units: Units) -> Message {
        match self.bare_unit(units) {
            "" => "write a plain number, such as 0.1".into(),
            bare => says!["write a number, or a number with a unit, such as \"10 ", bare, "\""],
        }
    }

    fn unknown_unit(self, number: &str, unit: &str, units: Units) -> BadText {
        let names = self.written();
        let wanted = says![": ", joined(names.iter().map(|name| (*name).into()), ", ")];
        let elsewhere = (Quantity::ALL.iter()).find(|other| other.size_of(unit).is_some());
        let wrong_unit = |problem: Message, cure: Message| BadText {
            kind: MistakeKind::WrongUnit,
            problem,
            cure,
        };
        if let Some(other) = elsewhere {
            let problem = says![
                typed(format!("\"{unit}\"")),
                " is the unit of ",
                other.what(),
                ", where ",
                self.what(),
                " is wanted"
            ];
            let cure = match self.bare_unit(units) {
                "" => says!["write ", typed(number), " without a unit"],
                bare => says!["give ", self.what(), " in ", bare, ", or a unit of it", wanted],
            };
            return wrong_unit(problem, cure);
        }
        let cure = match nearest(unit, self.all_names()) {
            Some(near) => {
                says!["a unit with a similar name exists: ", typed(format!("\"{number} {near}\""))]
            }
            None if names.is_empty() => says!["write ", typed(number), " without a unit"],
            None => says!["the units of ", self.what(), " are", wanted],
        };
        wrong_unit(says!["there is no unit ", quoted(unit), " here"], cure)
    }
}

/// A number in a file stands without quotes; in a box of a page nobody writes any.
fn unquoted() -> Part {
    on_file(" without quotes")
}

/// How many leading bytes are a number as JSON writes it, or one with a plus sign.
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
}
