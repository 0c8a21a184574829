//! Equality of JSON values, as RFC 6902, section 4.6, defines it for the tests of a JSON Patch.

use serde_json::{Number, Value as Json};

/// Whether two values are equal, numbers by value and not by how they are written.
pub fn is_equal(a: &Json, b: &Json) -> bool {
    match (a, b) {
        (Json::Number(a), Json::Number(b)) => {
            a == b || is_same_number(a, b) || is_same_number(b, a)
        }
        (Json::Array(a), Json::Array(b)) => {
            a.len() == b.len() && a.iter().zip(b).all(|(a, b)| is_equal(a, b))
        }
        (Json::Object(a), Json::Object(b)) => {
            a.len() == b.len()
                && a.iter().all(|(key, a)| b.get(key).is_some_and(|b| is_equal(a, b)))
        }
        (a, b) => a == b,
    }
}

/// Whether a number written with a decimal point or an exponent equals this integer exactly.
fn is_same_number(decimal: &Number, whole: &Number) -> bool {
    let value = decimal.as_f64().filter(|value| decimal.is_f64() && value.fract() == 0.0);
    // The conversion saturates, at values that no integer in a file reaches.
    value.is_some_and(|value| whole.as_i128() == Some(value as i128))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// RFC 6902, section 4.6: numbers are equal if their values are, lists if they have equal values in the
    /// same order, objects if they have equal values under the same keys.
    #[test]
    fn values_are_equal_as_the_standard_says() {
        let equal = [
            ("900.0", "900"),
            ("9e2", "900"),
            ("-3.0", "-3"),
            ("-0.0", "0"),
            ("0.5", "5e-1"),
            ("18446744073709551615", "18446744073709551615"),
            ("1e18", "1000000000000000000"),
            (r#"[1.0, {"a": 2, "b": null}]"#, r#"[1, {"b": null, "a": 2.0}]"#),
        ];
        let different = [
            ("900.5", "900"),
            ("900", "\"900\""),
            // Equal only if rounded: 2^53 + 1 is not a 64-bit float.
            ("9007199254740992.0", "9007199254740993"),
            ("1e300", "18446744073709551615"),
            ("[1, 2]", "[2, 1]"),
            ("[1]", "[1, 1]"),
            (r#"{"a": 1}"#, r#"{"a": 1, "b": 1}"#),
            (r#"{"a": 1}"#, r#"{"b": 1}"#),
            ("0", "false"),
            ("null", "0"),
        ];
        let rows =
            equal.map(|row| (row, true)).into_iter().chain(different.map(|row| (row, false)));
        for ((a, b), expected) in rows {
            let [a, b]: [Json; 2] = [a, b].map(|text| serde_json::from_str(text).unwrap());
            assert_eq!(is_equal(&a, &b), expected, "{a} and {b}");
            assert_eq!(is_equal(&b, &a), expected, "{b} and {a}");
        }
    }
}
