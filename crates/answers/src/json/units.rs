//! Results in a metric reader's units: keys and values turned, and the schema with them.

use serde_json::{Map, Value};
use shuttle_report::units::{KM_PER_MILE, LITRES_PER_GALLON};

/// The parts of a key that are units: of US figures, of metric ones, and what one of the first is of the second.
const UNITS: [(&str, &str, f64); 11] = [
    ("gal", "l", LITRES_PER_GALLON),
    ("gpm", "lpm", LITRES_PER_GALLON),
    ("mi", "km", KM_PER_MILE),
    ("mph", "kmh", KM_PER_MILE),
    // Exact by definition.
    ("ft", "m", 0.3048),
    ("ft2", "m2", 0.3048 * 0.3048),
    ("ft3", "m3", 0.3048 * 0.3048 * 0.3048),
    ("inches", "mm", 25.4),
    // NIST Special Publication 811, appendix B.
    ("psi", "kpa", 6.894_757),
    // The same: the pound by definition, the Btu of the international table.
    ("lb", "kg", 0.453_592_37),
    ("btu", "kj", 1.055_056),
];

/// What is measured for each of something, as in `weight_lb_per_gal`: its figure is over that.
const PER: &str = "per";

/// A schema with the keys a metric reader gets.
pub(super) fn metric_schema(value: Value) -> Value {
    let renamed = |key: String| metric_key(&key).map_or(key.clone(), |(key, _)| key);
    match value {
        Value::Object(fields) => fields
            .into_iter()
            .map(|(key, value)| match (key.as_str(), value) {
                ("properties", Value::Object(properties)) => {
                    let properties: Map<_, _> = properties
                        .into_iter()
                        .map(|(key, value)| (renamed(key), metric_schema(value)))
                        .collect();
                    (key, properties.into())
                }
                ("required", Value::Array(keys)) => {
                    let rename = |key: Value| match key {
                        Value::String(key) => renamed(key).into(),
                        other => other,
                    };
                    (key, keys.into_iter().map(rename).collect::<Vec<_>>().into())
                }
                (_, value) => (key, metric_schema(value)),
            })
            .collect::<Map<_, _>>()
            .into(),
        Value::Array(values) => values.into_iter().map(metric_schema).collect::<Vec<_>>().into(),
        other => other,
    }
}

/// The value with every figure whose key names a US unit in the metric one, keys and all.
pub(super) fn metric(value: Value) -> Value {
    match value {
        Value::Object(fields) => fields
            .into_iter()
            .map(|(key, value)| match metric_key(&key) {
                Some((key, factor)) => (key, scaled(value, factor)),
                None => (key, metric(value)),
            })
            .collect::<Map<_, _>>()
            .into(),
        Value::Array(values) => values.into_iter().map(metric).collect::<Vec<_>>().into(),
        other => other,
    }
}

/// A key with its US units replaced, and the factor that goes with it; `None` where it names none. In a rate, as
/// `weight_lb_per_gal`, both are replaced.
pub fn metric_key(key: &str) -> Option<(String, f64)> {
    let mut parts: Vec<&str> = key.split('_').collect();
    let (mut factor, mut found, mut is_over) = (1.0, 0, false);
    for part in parts.iter_mut().skip(1) {
        is_over = *part == PER || is_over && found < 2;
        let Some((_, to, of)) = UNITS.iter().find(|unit| unit.0 == *part) else { continue };
        if found == 0 || is_over {
            factor = if is_over { factor / of } else { factor * of };
            *part = to;
            found += 1;
        }
    }
    (found > 0).then(|| (parts.join("_"), factor))
}

/// Every number in the value times the factor.
fn scaled(value: Value, factor: f64) -> Value {
    match value {
        Value::Number(number) => {
            number.as_f64().map_or(Value::Null, |number| (number * factor).into())
        }
        Value::Array(values) => {
            values.into_iter().map(|value| scaled(value, factor)).collect::<Vec<_>>().into()
        }
        Value::Object(fields) => fields
            .into_iter()
            .map(|(key, value)| (key, scaled(value, factor)))
            .collect::<Map<_, _>>()
            .into(),
        other => other,
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;

    #[test]
    fn rates_are_metric_in_both_their_units() {
        // 1 psi a foot is 6.894757 kPa over 0.3048 m.
        let (key, factor) = metric_key("head_psi_per_ft").expect("a unit");
        assert_eq!((key.as_str(), factor), ("head_kpa_per_m", 6.894_757 / 0.3048));
        assert_eq!(metric_key("breakdown_per_trip"), None);
    }

    #[test]
    fn a_metric_reader_gets_metric_keys_and_values() {
        let us = json!({
            "lowest_engine_gal": {"mean": 100.0, "worst_5_percent": null},
            "flow_gpm_mean": [1.0, 2.0],
            "established_min_mean": 3.0,
            "rows": [{"held_mi": 1.0, "name": "Tender 3,000 gal"}],
        });
        assert_eq!(
            metric(us),
            json!({
                "lowest_engine_l": {"mean": 378.541_178_4, "worst_5_percent": null},
                "flow_lpm_mean": [LITRES_PER_GALLON, 2.0 * LITRES_PER_GALLON],
                "established_min_mean": 3.0,
                "rows": [{"held_km": KM_PER_MILE, "name": "Tender 3,000 gal"}],
            })
        );
    }
}
