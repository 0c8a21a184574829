//! Scales, and the axes drawn from them.

use super::style::{GRID, QUIET};
use super::svg::{Anchor, Drawing, Stroke, Text};

/// The size of axis texts, px.
pub const AXIS_TEXT: f64 = 12.0;

/// A straight map from values to px.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scale {
    /// Least value.
    pub low: f64,
    /// Greatest value; above `low`.
    pub high: f64,
    /// Where `low` lies, px.
    pub from: f64,
    /// Where `high` lies, px.
    pub to: f64,
}

impl Scale {
    /// Where a value lies, px; values beyond the ends lie at the ends.
    pub fn at(&self, value: f64) -> f64 {
        let share = (value.clamp(self.low, self.high) - self.low) / (self.high - self.low);
        self.from + share * (self.to - self.from)
    }

    /// Round values from `low` to `high`, `step` apart.
    pub fn ticks(&self, step: f64) -> Vec<f64> {
        let first = (self.low / step - 1e-9).ceil();
        (0..)
            .map(|place| (first + f64::from(place)) * step)
            .take_while(|value| *value <= self.high + 1e-9 * step)
            .collect()
    }
}

/// The least of 1, 2, 5, 10, 20, 50... (and of tenths, hundredths...) that gives no more than `most` steps.
pub fn round_step(span: f64, most: f64) -> f64 {
    let least = (span / most).max(f64::MIN_POSITIVE);
    let power = 10f64.powf(least.log10().floor());
    let times = [1.0, 2.0, 5.0].into_iter().find(|times| times * power >= least * (1.0 - 1e-9));
    times.unwrap_or(10.0) * power
}

/// The least of the steps a clock has that gives no more than `most` steps, minutes.
pub fn minute_step(span: f64, most: f64) -> f64 {
    let clock = [1.0, 2.0, 5.0, 10.0, 15.0, 30.0, 60.0, 120.0, 240.0, 480.0, 720.0];
    (clock.into_iter())
        .find(|step| span / step <= most)
        .unwrap_or_else(|| 1440.0 * (span / 1440.0 / most).ceil().max(1.0))
}

/// Vertical grid lines through a panel at these minutes.
pub fn minute_grid(drawing: &mut Drawing, x: Scale, top: f64, bottom: f64) {
    for minute in x.ticks(step_for(x)) {
        let at = x.at(minute);
        drawing.line((at, top), (at, bottom), Stroke::of(GRID, 1.0));
    }
}

/// The minutes under the lowest panel, and what they count from.
///
/// - Returns: where the axis ends, px.
pub fn minute_labels(drawing: &mut Drawing, x: Scale, bottom: f64, counted_from: &str) -> f64 {
    let style = Text::of(AXIS_TEXT).at(Anchor::Middle);
    drawing.line((x.from, bottom), (x.to, bottom), Stroke::of(QUIET, 1.0));
    for minute in x.ticks(step_for(x)) {
        let at = x.at(minute);
        drawing.line((at, bottom), (at, bottom + 4.0), Stroke::of(QUIET, 1.0));
        drawing.text(at, bottom + 17.0, &format!("{minute:.0}"), style);
    }
    let middle = f64::midpoint(x.from, x.to);
    drawing.text(middle, bottom + 35.0, &format!("minutes after {counted_from}"), style);
    bottom + 42.0
}

/// About 55 px a step, which leaves room for four digits.
fn step_for(x: Scale) -> f64 {
    minute_step(x.high - x.low, (x.to - x.from) / 55.0)
}

/// Horizontal grid lines with their values to the left of a panel.
pub fn value_axis(
    drawing: &mut Drawing,
    y: Scale,
    left: f64,
    right: f64,
    step: f64,
    says: impl Fn(f64) -> String,
) {
    let style = Text::of(AXIS_TEXT).at(Anchor::End);
    for value in y.ticks(step) {
        let at = y.at(value);
        drawing.line((left, at), (right, at), Stroke::of(GRID, 1.0));
        drawing.text(left - 6.0, at + 4.0, &says(value), style);
    }
    drawing.line((left, y.from), (left, y.to), Stroke::of(QUIET, 1.0));
}

/// Moves label places apart to at least `gap`, as little as may be, within `low` to `high`.
///
/// If there is not room for all, they are as far apart as the room allows.
pub fn spread_apart(wanted: &[f64], gap: f64, low: f64, high: f64) -> Vec<f64> {
    let count = wanted.len();
    let gap = gap.min((high - low) / (count.saturating_sub(1).max(1)) as f64);
    let mut order: Vec<usize> = (0..count).collect();
    order.sort_by(|a, b| wanted[*a].total_cmp(&wanted[*b]));
    let mut places = wanted.to_vec();
    let mut least = low;
    for label in &order {
        places[*label] = wanted[*label].max(least);
        least = places[*label] + gap;
    }
    let mut greatest = high;
    for label in order.iter().rev() {
        places[*label] = places[*label].min(greatest);
        greatest = places[*label] - gap;
    }
    places
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn steps_are_round_and_few() {
        assert_eq!(round_step(2_500.0, 5.0), 500.0);
        assert_eq!(round_step(0.9, 5.0), 0.2);
        assert_eq!(round_step(1.0, 1.0), 1.0);
        assert_eq!(minute_step(120.0, 15.0), 10.0);
        assert_eq!(minute_step(480.0, 15.0), 60.0);
        assert_eq!(minute_step(20.0, 15.0), 2.0);
        assert_eq!(minute_step(100_000.0, 15.0), 7_200.0);
    }

    #[test]
    fn ticks_hold_both_ends() {
        let scale = Scale { low: 0.0, high: 0.3, from: 0.0, to: 100.0 };
        let ticks = scale.ticks(0.1);
        assert_eq!(ticks.len(), 4);
        assert!((scale.at(ticks[3]) - 100.0).abs() < 1e-6);
        assert_eq!(scale.at(7.0), 100.0);
    }

    #[test]
    fn labels_that_would_lie_on_each_other_move_apart() {
        assert_eq!(spread_apart(&[50.0, 52.0, 10.0], 14.0, 0.0, 100.0), [50.0, 64.0, 10.0]);
        assert_eq!(spread_apart(&[99.0, 98.0], 14.0, 0.0, 100.0), [100.0, 86.0]);
        assert_eq!(spread_apart(&[], 14.0, 0.0, 100.0), [0.0; 0]);
    }
}
