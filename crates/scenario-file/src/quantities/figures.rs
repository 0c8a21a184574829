//! Numbers as people write them, with no more figures than they need.

/// A number as people write it: thousands separated, at most four decimals.
pub(crate) fn plain(value: f64) -> String {
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

/// Rounded to three figures, up or down, so that a limit shown is never beyond the limit.
pub(super) fn three_figures(value: f64, up: bool) -> f64 {
    if value == 0.0 {
        return 0.0;
    }
    let step = 10_f64.powf(value.abs().log10().floor() - 2.0);
    let steps = value / step;
    // Whole steps stay as they are: the division leaves a rounding error.
    let whole = if (steps - steps.round()).abs() < 1e-6 {
        steps.round()
    } else if up {
        steps.ceil()
    } else {
        steps.floor()
    };
    whole * step
}

/// Rounded to four figures.
pub(crate) fn four_figures(value: f64) -> f64 {
    if value == 0.0 {
        return 0.0;
    }
    let step = 10_f64.powf(value.abs().log10().floor() - 3.0);
    (value / step).round() * step
}
