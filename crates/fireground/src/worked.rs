//! The shape of an answer: a value that can show its work.

use crate::FactError;
use crate::told::Told;

/// A worked value: the number, and what an officer needs to judge it.
#[derive(Debug, Clone, PartialEq)]
pub struct Worked {
    /// The value, in `unit`. Always finite. Not rounded, unless the rule itself rounds.
    pub value: f64,
    /// Unit of `value`: "gpm", "gal", "ft3", "psi", "ft", "min", "min/mile" or "Btu/min".
    pub unit: &'static str,
    /// The formula with the numbers filled in, to be said in any units.
    pub how: Told,
    /// Where the rule comes from, with how sure we are of it where that matters.
    pub source: &'static str,
    /// What to know before relying on the value, such as a rule used outside its range. Often empty.
    pub warnings: Vec<Told>,
}

impl Worked {
    /// A value without warnings.
    ///
    /// - Errors: [`FactError::TooLarge`] when the result overflows.
    pub(crate) fn new(
        value: f64,
        unit: &'static str,
        how: Told,
        source: &'static str,
    ) -> Result<Worked, FactError> {
        if !value.is_finite() {
            return Err(FactError::TooLarge { unit });
        }
        Ok(Worked { value, unit, how, source, warnings: Vec::new() })
    }

    /// Adds a warning when `applies`.
    pub(crate) fn warn_if(mut self, applies: bool, warning: impl FnOnce() -> Told) -> Worked {
        if applies {
            self.warnings.push(warning());
        }
        self
    }
}

/// A number for reading: thousands separated, at most `decimals` decimals, no trailing zeros.
pub(crate) fn number(value: f64, decimals: usize) -> String {
    let fixed = format!("{value:.decimals$}");
    let (sign, digits) = match fixed.strip_prefix('-') {
        Some(rest) => ("-", rest),
        None => ("", fixed.as_str()),
    };
    let (whole, part) = digits.split_once('.').unwrap_or((digits, ""));
    let mut text = String::new();
    for (place, digit) in whole.chars().enumerate() {
        if place > 0 && (whole.len() - place).is_multiple_of(3) {
            text.push(',');
        }
        text.push(digit);
    }
    let part = part.trim_end_matches('0');
    if !part.is_empty() {
        text.push('.');
        text.push_str(part);
    }
    if text == "0" { text } else { format!("{sign}{text}") }
}

/// A share as a percentage.
pub(crate) fn percent(share: f64) -> String {
    format!("{}%", number(share * 100.0, 1))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_read_as_a_person_writes_them() {
        let rows = [
            (1250.0, 0, "1,250"),
            (1_234_567.891, 2, "1,234,567.89"),
            (0.65, 2, "0.65"),
            (29.83, 4, "29.83"),
            (100.0, 3, "100"),
            (-12.5, 1, "-12.5"),
            (-0.001, 1, "0"),
            (999.0, 0, "999"),
        ];
        for (value, decimals, expected) in rows {
            assert_eq!(number(value, decimals), expected);
        }
        assert_eq!(percent(0.255), "25.5%");
    }

    #[test]
    fn a_sum_past_the_largest_number_is_an_error_not_an_infinity() {
        let worked = Worked::new(f64::INFINITY, "gpm", Told::default(), "test");
        assert_eq!(worked, Err(FactError::TooLarge { unit: "gpm" }));
    }
}
