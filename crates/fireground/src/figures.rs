//! Numbers as a person writes them.

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
}
