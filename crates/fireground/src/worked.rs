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
    /// Whether the rule is used beyond the range it is made for; a warning says which.
    pub is_beyond_range: bool,
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
        Ok(Worked { value, unit, how, source, warnings: Vec::new(), is_beyond_range: false })
    }

    /// Adds a warning when `applies`.
    pub(crate) fn warn_if(mut self, applies: bool, warning: impl FnOnce() -> Told) -> Worked {
        if applies {
            self.warnings.push(warning());
        }
        self
    }

    /// Adds a warning that the rule is not made for this when `applies`.
    pub(crate) fn beyond_if(self, applies: bool, warning: impl FnOnce() -> Told) -> Worked {
        let is_beyond_range = self.is_beyond_range || applies;
        Worked { is_beyond_range, ..self.warn_if(applies, warning) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sum_past_the_largest_number_is_an_error_not_an_infinity() {
        let worked = Worked::new(f64::INFINITY, "gpm", Told::default(), "test");
        assert_eq!(worked, Err(FactError::TooLarge { unit: "gpm" }));
    }
}
