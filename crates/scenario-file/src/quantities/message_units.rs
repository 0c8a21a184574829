//! Messages in the units of the file: they are composed in US units.

use super::figures::{plain, to_the_nearest_ten};
use super::quantity::{Quantity, Units};

/// A message with every "1,800 gal" in it converted to the units of the file, with no more digits than an
/// answer supports: whole, from 1,000 on to the nearest 10. Only flows, volumes, distances, speeds and
/// pressures occur in messages.
pub(crate) fn in_round_units(text: &str, units: Units) -> String {
    if units == Units::Us {
        return text.to_string();
    }
    let mut said = String::new();
    let mut rest = text;
    while let Some(start) = rest.find(|c: char| c.is_ascii_digit()) {
        let (before, tail) = rest.split_at(start);
        let length = tail
            .find(|c: char| !(c.is_ascii_digit() || c == ',' || c == '.'))
            .unwrap_or(tail.len());
        let (number, after) = tail.split_at(length);
        said.push_str(before);
        // In "[12]", "1-3/4" and names the digits are not a quantity.
        let stands_alone = !before.ends_with(|c: char| c.is_alphanumeric() || c == '/' || c == '[');
        match measured(number, after).filter(|_| stands_alone) {
            Some((value, quantity, unit)) => {
                let value = to_the_nearest_ten(quantity.to_bare(value, units));
                said.push_str(&format!("{} {}", plain(value), quantity.bare_unit(units)));
                rest = &after[1 + unit.len()..];
            }
            None => {
                said.push_str(number);
                rest = after;
            }
        }
    }
    said.push_str(rest);
    said
}

fn measured(number: &str, after: &str) -> Option<(f64, Quantity, &'static str)> {
    let value: f64 = number.replace(',', "").parse().ok()?;
    let after = after.strip_prefix(' ')?;
    let known = [
        (Quantity::Volume, "gal"),
        (Quantity::Flow, "gpm"),
        (Quantity::Miles, "mi"),
        (Quantity::MilesPerHour, "mph"),
        (Quantity::Pressure, "psi"),
    ];
    let (quantity, unit) = (known.into_iter()).find(|(_, unit)| {
        (after.strip_prefix(unit)).is_some_and(|next| !next.starts_with(char::is_alphanumeric))
    })?;
    Some((value, quantity, unit))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn messages_are_said_in_metric_without_touching_other_numbers() {
        let rows = [
            ("the reserve of 1,000 gal is", "the reserve of 3,790 L is"),
            ("up to 100 gpm, Tanker 3 mi", "up to 379 L/min, Tanker 5 km"),
            ("1-3/4 in line, 10 x 10 ft", "1-3/4 in line, 10 x 10 ft"),
            ("tankers[1].waste: 3 minutes", "tankers[1].waste: 3 minutes"),
            ("35 mph on average", "56 km/h on average"),
            ("at 185 psi the", "at 1,280 kPa the"),
            ("3 miles, 3 gallant", "3 miles, 3 gallant"),
        ];
        for (us, metric) in rows {
            assert_eq!(in_round_units(us, Units::Metric), metric);
            assert_eq!(in_round_units(us, Units::Us), us);
        }
    }
}
