//! Words for messages: numbers as people write them, the nearest known word, text cut short.

use super::quantity::{Quantity, Units};

/// Likeness from which a word is offered, by the measure of [`likest`]. Judgement.
const ALIKE: f64 = 0.8;

/// The known word most like the one given, if any is like it.
pub(super) fn nearest<'w>(given: &str, known: impl Iterator<Item = &'w str>) -> Option<&'w str> {
    likest(given, known).map(|(_, word)| word)
}

/// The known word most like the one given, if any is like it, with its likeness from 0.8 to 1.
pub(super) fn likest<'w>(
    given: &str,
    known: impl Iterator<Item = &'w str>,
) -> Option<(f64, &'w str)> {
    /// Longer words are no slip of the finger, and comparing them takes long.
    const LONGEST: usize = 64;
    if given.chars().count() > LONGEST {
        return None;
    }
    let lower = given.to_lowercase();
    let likeness = |word: &str| {
        let word = word.to_lowercase();
        let alike = strsim::jaro_winkler(&lower, &word);
        // In short words one slip weighs too much by that measure.
        let one_slip = lower.chars().count() > 1
            && word.chars().count() > 1
            && strsim::damerau_levenshtein(&lower, &word) == 1;
        if one_slip { alike.max(ALIKE) } else { alike }
    };
    known
        .map(|word| (likeness(word), word))
        .filter(|(likeness, _)| *likeness >= ALIKE)
        .max_by(|a, b| a.0.total_cmp(&b.0))
}

/// Text for a message: not too long, on one line.
pub(super) fn shorten(text: &str) -> String {
    const LONGEST: usize = 60;
    let mut short: String = (text.chars().take(LONGEST))
        .map(|c| if c.is_control() { char::REPLACEMENT_CHARACTER } else { c })
        .collect();
    if text.chars().nth(LONGEST).is_some() {
        short.push('…');
    }
    short
}

/// A number as people write it: thousands separated, at most four decimals.
pub(super) fn plain(value: f64) -> String {
    let size = value.abs();
    if size >= 1e12 || (size > 0.0 && size < 1e-4) {
        return format!("{value:e}");
    }
    let text = format!("{size:.4}");
    let (whole, decimals) = text.split_once('.').unwrap_or((&text, ""));
    let mut grouped = String::new();
    for (index, digit) in whole.chars().enumerate() {
        if index > 0 && (whole.len() - index).is_multiple_of(3) {
            grouped.push(',');
        }
        grouped.push(digit);
    }
    let decimals = decimals.trim_end_matches('0');
    let sign = if value < 0.0 { "-" } else { "" };
    let point = if decimals.is_empty() { "" } else { "." };
    format!("{sign}{grouped}{point}{decimals}")
}

/// A message with every "1,800 gal" in it said in the units of the file. Flows, volumes, distances,
/// speeds and pressures only: what messages speak of.
pub(crate) fn in_units(text: &str, units: Units) -> String {
    translated(text, units, four_figures)
}

/// As [`in_units`], with no more digits than an answer supports: whole, from 1,000 on to the nearest 10.
pub(crate) fn in_round_units(text: &str, units: Units) -> String {
    translated(text, units, to_the_nearest_ten)
}

/// "1,333 gpm" or "5,050 L/min": a flow as [`in_round_units`] says it.
pub(crate) fn round_flow(gpm: f64, units: Units) -> String {
    match units {
        Units::Us => units.gpm(gpm),
        Units::Metric => {
            format!("{} {}", plain(to_the_nearest_ten(units.flow(gpm))), units.flow_sign())
        }
    }
}

/// "43,200 gal" or "164,000 L": a volume with no more digits than an answer supports, of litres three and
/// none behind the point.
pub(crate) fn round_volume(gallons: f64, units: Units) -> String {
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
        // In "[12]", "1-3/4" and names the digits are no quantity.
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

fn to_the_nearest_ten(value: f64) -> f64 {
    if value.abs() < 1_000.0 { value.round() } else { (value / 10.0).round() * 10.0 }
}

fn four_figures(value: f64) -> f64 {
    if value == 0.0 {
        return 0.0;
    }
    let step = 10_f64.powf(value.abs().log10().floor() - 3.0);
    (value / step).round() * step
}
