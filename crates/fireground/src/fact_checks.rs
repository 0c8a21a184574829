//! The checks that every function makes before it works: nothing is repaired silently.

use crate::FactError;

/// Refuses NaN and the infinities.
pub(crate) fn finite(field: &'static str, value: f64) -> Result<f64, FactError> {
    if value.is_finite() { Ok(value) } else { Err(FactError::NotFinite { field, value }) }
}

/// Finite and zero or more.
pub(crate) fn zero_or_more(field: &'static str, value: f64) -> Result<f64, FactError> {
    finite(field, value)?;
    if value < 0.0 {
        return Err(FactError::Negative { field, value });
    }
    Ok(value)
}

/// Finite and more than zero.
pub(crate) fn more_than_zero(field: &'static str, value: f64) -> Result<f64, FactError> {
    zero_or_more(field, value)?;
    if value == 0.0 {
        return Err(FactError::NotPositive { field, value });
    }
    Ok(value)
}

/// Finite and from `low` to `high`, both allowed.
pub(crate) fn within(
    field: &'static str,
    value: f64,
    low: f64,
    high: f64,
    cure: &'static str,
) -> Result<f64, FactError> {
    finite(field, value)?;
    if value < low || high < value {
        return Err(FactError::OutsideRange { field, value, low, high, cure });
    }
    Ok(value)
}

/// A share from 0 to 1.
pub(crate) fn share(field: &'static str, value: f64) -> Result<f64, FactError> {
    zero_or_more(field, value)?;
    within(field, value, 0.0, 1.0, "a share runs from 0 to 1; 25% is 0.25")
}

/// A count of one or more.
pub(crate) fn one_or_more(field: &'static str, count: u32) -> Result<f64, FactError> {
    more_than_zero(field, f64::from(count))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn limits_themselves_are_allowed_and_a_hair_beyond_is_not() {
        assert!(share("share", 0.0).is_ok());
        assert!(share("share", 1.0).is_ok());
        assert!(share("share", 1.0 + 1e-12).is_err());
        assert!(zero_or_more("flow_gpm", 0.0).is_ok());
        assert!(more_than_zero("flow_gpm", 0.0).is_err());
        assert!(one_or_more("lines", 0).is_err());
    }
}
