//! Numbers as people write them and files cannot take them: with separators, a currency sign, a clock.

/// The cure for "1:10", which may be minutes and seconds or hours and minutes.
pub(crate) const CLOCK: &str =
    "a time is a number with a unit: 1:10 is \"70 s\" if it is minutes, \"70 min\" if it is hours";

/// "2,000", "1 200", "1.200.000" or "2,4" as one plain number; `None` if it is nothing of the kind.
///
/// A scenario file is never read so: there it only says how the number is written. A spreadsheet is.
pub fn one_number(text: &str) -> Option<String> {
    let is_digits = |part: &str| !part.is_empty() && part.bytes().all(|b| b.is_ascii_digit());
    let separator = text.chars().find(|c| !c.is_ascii_digit())?;
    let (whole, decimals) = match text.rsplit_once('.') {
        Some((whole, decimals)) if separator != '.' => (whole, Some(decimals)),
        _ => (text, None),
    };
    let parts: Vec<&str> = whole.split(separator).collect();
    let (first, others) = parts.split_first()?;
    let grouped = (1..=3).contains(&first.len())
        && !first.starts_with('0')
        && !others.is_empty()
        && others.iter().all(|part| part.len() == 3);
    if !parts.iter().all(|part| is_digits(part)) || !decimals.is_none_or(is_digits) {
        return None;
    }
    match (others, separator) {
        // 1.200 is a number as it stands.
        ([_], '.') => None,
        _ if grouped => {
            Some(decimals.map_or(parts.concat(), |rest| format!("{}.{rest}", parts.concat())))
        }
        ([decimals], ',') => Some(format!("{first}.{decimals}")),
        _ => None,
    }
}

/// The plain number of "$2,400" or "€ 300".
pub fn currency(text: &str) -> Option<String> {
    let amount = text.strip_prefix(['$', '€', '£', '¥'])?.trim_start();
    let end = amount.find(|c: char| !(c.is_ascii_digit() || matches!(c, ',' | '.')));
    let amount = amount[..end.unwrap_or(amount.len())].trim_end_matches([',', '.']);
    (!amount.is_empty()).then(|| one_number(amount).unwrap_or_else(|| amount.to_string()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn separators_and_signs_are_told_from_numbers() {
        let rows = [
            ("2,000", Some("2000")),
            ("1,234,567", Some("1234567")),
            ("1 200", Some("1200")),
            ("1'200", Some("1200")),
            ("1,200.50", Some("1200.50")),
            ("1.200.000", Some("1200000")),
            ("2,4", Some("2.4")),
            ("0,125", Some("0.125")),
            ("1.200", None),
            ("1200", None),
            ("1,200 300", None),
            ("2 4", None),
            ("", None),
            (",", None),
        ];
        for (text, number) in rows {
            assert_eq!(one_number(text).as_deref(), number, "{text:?}");
        }
        let rows = [
            ("$2,400", Some("2400")),
            ("€ 300,", Some("300")),
            ("$ 1.50", Some("1.50")),
            ("$", None),
            ("2400", None),
        ];
        for (text, number) in rows {
            assert_eq!(currency(text).as_deref(), number, "{text:?}");
        }
    }
}
