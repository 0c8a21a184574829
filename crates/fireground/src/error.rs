//! What can be wrong with the facts given: one variant for each kind of mistake.

use thiserror::Error;

/// A mistake in what was given, with the field, the value, the limit and the likely cure.
///
/// Field names are those of the function's parameters or of the struct's fields, so they carry the unit.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum FactError {
    /// NaN or infinite.
    #[error("{field} is {value}, not a finite number; give a plain number")]
    NotFinite {
        /// The parameter or field.
        field: &'static str,
        /// What was given.
        value: f64,
    },
    /// Less than zero where only zero or more has a meaning.
    #[error("{field} {value} is below the limit of 0; check the sign")]
    Negative {
        /// The parameter or field.
        field: &'static str,
        /// What was given.
        value: f64,
    },
    /// Zero or less where only more than zero has a meaning.
    #[error("{field} {value} must be more than 0; check for a value left out")]
    NotPositive {
        /// The parameter or field.
        field: &'static str,
        /// What was given.
        value: f64,
    },
    /// Outside the values that have a meaning.
    #[error("{field} {value} is outside {low} to {high}; {cure}")]
    OutsideRange {
        /// The parameter or field.
        field: &'static str,
        /// What was given.
        value: f64,
        /// Least value allowed.
        low: f64,
        /// Greatest value allowed.
        high: f64,
        /// What most likely puts it right.
        cure: &'static str,
    },
    /// Not one of the values there are.
    #[error("{field} {value} is not one of {choices}; {cure}")]
    NotListed {
        /// The parameter or field.
        field: &'static str,
        /// What was given.
        value: f64,
        /// The values there are, in words.
        choices: &'static str,
        /// What most likely puts it right.
        cure: &'static str,
    },
    /// Past the end of a published table, where extrapolating could hurt someone.
    #[error("{field} {value} is beyond the table, which ends at {limit}; {cure}")]
    BeyondTable {
        /// The parameter or field.
        field: &'static str,
        /// What was given, or what it amounts to.
        value: f64,
        /// Last value in the table.
        limit: f64,
        /// What most likely puts it right.
        cure: &'static str,
    },
    /// Two values that cannot both hold.
    #[error("{field} {value} does not fit with {other} {other_value}; {cure}")]
    Conflict {
        /// The parameter or field most likely wrong.
        field: &'static str,
        /// What was given for it.
        value: f64,
        /// The field it conflicts with.
        other: &'static str,
        /// What was given for that.
        other_value: f64,
        /// What most likely puts it right.
        cure: &'static str,
    },
    /// A list without entries.
    #[error("{field} has 0 entries and needs 1 or more; {cure}")]
    Empty {
        /// The parameter or field.
        field: &'static str,
        /// What most likely puts it right.
        cure: &'static str,
    },
    /// No pressure, or no suction head, left over to move water.
    #[error(
        "{field} {value} leaves nothing to move water, {taken} is taken before any flows; {cure}{}",
        checked_too(.or_check)
    )]
    NothingLeft {
        /// The parameter or field that gives the pressure or head.
        field: &'static str,
        /// What was given, or what it amounts to.
        value: f64,
        /// What the other facts take away, in the same unit.
        taken: f64,
        /// What most likely puts it right.
        cure: &'static str,
        /// Other parameters or fields that may be wrong.
        or_check: &'static [&'static str],
    },
    /// More flow than the pump gives.
    #[error("{field} {value} is more than the pump gives here, {limit}; {cure}")]
    BeyondCapacity {
        /// The parameter or field.
        field: &'static str,
        /// What was given.
        value: f64,
        /// The most the pump gives, in the same unit.
        limit: f64,
        /// What most likely puts it right.
        cure: &'static str,
    },
    /// Values that are each allowed but together overflow.
    #[error(
        "the result in {unit} is too large to be a number; check what was given for extra digits"
    )]
    TooLarge {
        /// Unit of the result.
        unit: &'static str,
    },
}

/// ", or check elevation_ft and residual_psi"; empty where there is nothing to check.
fn checked_too(fields: &[&str]) -> String {
    match fields {
        [] => String::new(),
        fields => format!(", or check {}", fields.join(" and ")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_message_names_field_value_limit_and_cure() {
        let error = FactError::BeyondTable {
            field: "lift_ft",
            value: 26.0,
            limit: 24.0,
            cure: "bring the pump nearer to the water",
        };
        assert_eq!(
            error.to_string(),
            "lift_ft 26 is beyond the table, which ends at 24; bring the pump nearer to the water"
        );
    }
}
