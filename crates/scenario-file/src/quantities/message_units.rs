//! Messages and figures of answers in the units of the file: they are composed in US units.

use super::figures::{four_figures, plain, to_the_nearest_ten};
use super::quantity::{Quantity, Units};

/// A message with every "1,800 gal" in it converted to the units of the file. Only flows, volumes,
/// distances, speeds and pressures occur in messages.
pub(crate) fn in_units(text: &str, units: Units) -> String {
    translated(text, units, four_figures)
}

/// A message with every "1,800 gal" in it converted to the units of the file, with no more digits than an
/// answer supports: whole, from 1,000 on to the nearest 10.
pub fn in_round_units(text: &str, units: Units) -> String {
    translated(text, units, to_the_nearest_ten)
}

/// "1,333 gpm" or "5,050 L/min": a flow as [`in_round_units`] says it.
pub fn round_flow(gpm: f64, units: Units) -> String {
    match units {
        Units::Us => units.gpm(gpm),
        Units::Metric => {
            format!("{} {}", plain(to_the_nearest_ten(units.flow(gpm))), units.flow_sign())
        }
    }
}

/// "43,200 gal" or "164,000 L": a volume with no more digits than an answer supports, litres to three
/// figures and no decimals.
pub fn round_volume(gallons: f64, units: Units) -> String {
    match units {
        Units::Us => units.gallons(gallons),
        Units::Metric => {
            let litres = units.volume(gallons);
            let step = 10_f64.powf(litres.abs().max(1.0).log10().floor() - 2.0).max(1.0);
            format!("{} {}", plain((litres / step).round() * step), units.volume_sign())
        }
    }
}

fn translated(text: &str, units: Units, rounded: fn(f64) -> f64) -> String {
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
                let value = rounded(quantity.to_bare(value, units));
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
            ("the reserve of 1,000 gal is", "the reserve of 3,785 L is"),
            ("up to 100 gpm, Tanker 3 mi", "up to 378.5 L/min, Tanker 4.828 km"),
            ("1-3/4 in line, 10 x 10 ft", "1-3/4 in line, 10 x 10 ft"),
            ("tankers[1].waste: 3 minutes", "tankers[1].waste: 3 minutes"),
            ("35 mph on average", "56.33 km/h on average"),
            ("at 185 psi the", "at 1,276 kPa the"),
            ("3 miles, 3 gallant", "3 miles, 3 gallant"),
        ];
        for (us, metric) in rows {
            assert_eq!(in_units(us, Units::Metric), metric);
            assert_eq!(in_units(us, Units::Us), us);
        }
        // 250 gpm are 946.35 L/min, 185 psi 1,275.5 kPa.
        let told = in_round_units("at 250 gpm and 185 psi", Units::Metric);
        assert_eq!(told, "at 946 L/min and 1,280 kPa");
        // 43,200 gal are 163,529.8 L, 2,000 gal 7,570.8 L, 250 gal 946.35 L, 12 gal 45.4 L.
        for (gallons, us, metric) in [
            (43_200.0, "43,200 gal", "164,000 L"),
            (2_000.0, "2,000 gal", "7,570 L"),
            (250.0, "250 gal", "946 L"),
            (12.0, "12 gal", "45 L"),
            (0.0, "0 gal", "0 L"),
        ] {
            assert_eq!(round_volume(gallons, Units::Us), us);
            assert_eq!(round_volume(gallons, Units::Metric), metric);
        }
    }
}
