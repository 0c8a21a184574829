//! Numbers with or without their unit, brought to the unit of a bare number of the file.

use serde_json::Value;

use super::quantity::{Quantity, Units};

/// What is measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Measure {
    /// Water: gal or L.
    Volume,
    /// Water a minute: gpm or L/min.
    Flow,
    /// Road: miles or km.
    Road,
    /// Time: minutes.
    Time,
}

/// A value of a scenario file, such as `2100` or `"8 m3"`, as a bare number in a file with these units.
///
/// - Returns: `None` where it is no number, or its unit is of something else.
pub fn bare_number(value: &Value, measure: Measure, units: Units) -> Option<f64> {
    let quantity = match (measure, units) {
        (Measure::Volume, _) => Quantity::Volume,
        (Measure::Flow, _) => Quantity::Flow,
        (Measure::Road, Units::Us) => Quantity::Miles,
        (Measure::Road, Units::Metric) => Quantity::Kilometres,
        (Measure::Time, _) => Quantity::Time,
    };
    match value {
        Value::Number(number) => number.as_f64(),
        Value::String(text) => {
            let size = quantity.size_of(quantity.bare_unit(units))?;
            quantity.read_text(text, units).ok().map(|value| value / size)
        }
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;

    /// Factors: NIST Special Publication 811 (2008), appendix B: gal = 3.785412 L, mi = 1.609344 km.
    #[test]
    fn a_unit_is_turned_into_that_of_a_bare_number() {
        for (value, measure, units, expected) in [
            (json!(2100), Measure::Volume, Units::Us, Some(2100.0)),
            (json!("2100 gal"), Measure::Volume, Units::Us, Some(2100.0)),
            (json!("2100 gal"), Measure::Volume, Units::Metric, Some(7949.365)),
            (json!("10000 L"), Measure::Volume, Units::Us, Some(2641.720)),
            (json!("1000 L/min"), Measure::Flow, Units::Us, Some(264.1720)),
            (json!("3 km"), Measure::Road, Units::Us, Some(1.864114)),
            (json!("1 mi"), Measure::Road, Units::Metric, Some(1.609344)),
            (json!("90 s"), Measure::Time, Units::Us, Some(1.5)),
            (json!("90 s"), Measure::Road, Units::Us, None),
            (json!("plenty"), Measure::Volume, Units::Us, None),
            (json!(null), Measure::Volume, Units::Us, None),
        ] {
            let found = bare_number(&value, measure, units);
            let near = match (found, expected) {
                (Some(found), Some(expected)) => (found / expected - 1.0_f64).abs() < 1e-6,
                (found, expected) => found == expected,
            };
            assert!(near, "{value}: {found:?}");
        }
    }
}
