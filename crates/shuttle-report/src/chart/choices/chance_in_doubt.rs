//! The chance if the inputs are right, over what they may be, and what more readings would make of that.

use crate::chart::elements::axis::{AXIS_TEXT, Scale, round_step};
use crate::chart::elements::font;
use crate::chart::elements::heading_and_foot::{MARGIN, Sheet, WIDTH, finish, heading};
use crate::chart::elements::style::{BLACK, GRID, Look, NOT_KNOWN, QUIET, WHITE};
use crate::chart::elements::svg::{Anchor, Area, Drawing, Stroke, Text};
use crate::chart::{ChartError, chance};

/// What a row's range comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// The number of runs: a 95% interval.
    Runs,
    /// What the inputs may be: 80% of it.
    Inputs,
    /// The same, to be expected after more readings.
    ToBeExpected,
}

/// One range of the chance.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// What it is.
    pub label: String,
    /// The chance itself, where there is one.
    pub at: Option<f64>,
    /// Low end, 0 to 1.
    pub low: f64,
    /// High end, 0 to 1.
    pub high: f64,
    /// What it comes from.
    pub kind: Kind,
}

const LEFT: f64 = 290.0;
/// Room for the figures to the right of the scale.
const FIGURES: f64 = 104.0;
const ROW: f64 = 44.0;
const BAR: f64 = 18.0;
const LABEL: Text = Text::of(13.0).at(Anchor::End);
const FIGURE: Text = Text::of(13.0).semi_bold();

/// Draws the chart.
///
/// - Errors: [`ChartError::BadNumber`] for a chance beyond 0 to 1.
pub fn chart(rows: &[Row], sheet: &Sheet<'_>) -> Result<String, ChartError> {
    for row in rows {
        for value in [Some(row.low), Some(row.high), row.at].into_iter().flatten() {
            chance(|| row.label.clone(), value)?;
        }
    }
    let mut drawing = Drawing::new(WIDTH);
    let top = heading(&mut drawing, sheet) + 8.0;
    let bottom = top + ROW * rows.len() as f64;
    let right = WIDTH - MARGIN - FIGURES;
    let greatest = rows.iter().map(|row| row.high).fold(0.01, f64::max);
    let step = round_step(greatest, 8.0);
    let high = (step * (1.02 * greatest / step).ceil()).min(1.0);
    let x = Scale { low: 0.0, high, from: LEFT, to: right };
    let tick = Text::of(AXIS_TEXT).at(Anchor::Middle);
    let digits = if step >= 0.0099 { 0 } else { 1 };
    for value in x.ticks(step) {
        let at = x.at(value);
        drawing.line((at, top), (at, bottom), Stroke::of(GRID, 1.0));
        drawing.text(at, bottom + 18.0, &format!("{:.digits$}", 100.0 * value), tick);
    }
    drawing.line((LEFT, bottom), (right, bottom), Stroke::of(QUIET, 1.0));
    drawing.text(f64::midpoint(LEFT, right), bottom + 36.0, "fires of 100 that run short", tick);
    for (place, row) in rows.iter().enumerate() {
        draw(&mut drawing, x, top + ROW * (place as f64 + 0.5), row);
    }
    Ok(finish(drawing, bottom + 44.0, sheet))
}

fn draw(drawing: &mut Drawing, x: Scale, y: f64, row: &Row) {
    let lines = font::wrap(&row.label, LABEL.size, LABEL.weight, LEFT - 12.0 - MARGIN, 2);
    for (place, line) in lines.iter().enumerate() {
        let shift = 16.0 * (place as f64 - (lines.len() as f64 - 1.0) / 2.0);
        drawing.text(LEFT - 12.0, y + shift + 4.5, line, LABEL);
    }
    let (low, high) = (x.at(row.low), x.at(row.high));
    let numbers = match row.at {
        Some(at) => hundredths(at),
        None => format!("{} to {}", hundredths(row.low), hundredths(row.high)),
    };
    let says = format!("{}: {numbers} of 100", row.label);
    match row.kind {
        Kind::Runs => {
            let whisker = Stroke::of(BLACK, 1.5);
            drawing.line((low, y), (high, y), whisker);
            for end in [low, high] {
                drawing.line((end, y - 6.0), (end, y + 6.0), whisker);
            }
            let dot = x.at(row.at.unwrap_or(row.low));
            let area = Area { x: dot - 4.5, y: y - 4.5, width: 9.0, height: 9.0 };
            drawing.area(area, Look::plain(BLACK), Some(Stroke::of(WHITE, 1.0)), &says);
        }
        Kind::Inputs | Kind::ToBeExpected => {
            let look = match row.kind {
                Kind::Inputs => NOT_KNOWN,
                _ => Look::plain(WHITE),
            };
            // A range of nothing still shows.
            let width = (high - low).max(2.0);
            let area = Area { x: low, y: y - 0.5 * BAR, width, height: BAR };
            drawing.area(area, look, Some(Stroke::of(BLACK, 1.0)), &says);
        }
    }
    drawing.text(x.to + 12.0, y + 4.5, &numbers, FIGURE);
}

/// Fires of 100, with a decimal where there are few.
fn hundredths(share: f64) -> String {
    let digits = if share > 0.0 && share < 0.0095 { 1 } else { 0 };
    format!("{:.digits$}", 100.0 * share)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chart::demo::SHEET;
    use crate::chart::drawn::{areas, texts};

    fn row(label: &str, at: Option<f64>, low: f64, high: f64, kind: Kind) -> Row {
        Row { label: label.to_owned(), at, low, high, kind }
    }

    #[test]
    fn bars_are_as_long_as_their_ranges_and_figures_stand_beside_them() {
        let rows = [
            row("if the inputs are right", Some(0.29), 0.28, 0.30, Kind::Runs),
            row("over what they may be", None, 0.1, 0.5, Kind::Inputs),
            row("after ten readings", None, 0.2, 0.4, Kind::ToBeExpected),
        ];
        let svg = chart(&rows, &SHEET).expect("a chart");
        let words = texts(&svg);
        for wanted in ["29", "10 to 50", "20 to 40", "over what they may be"] {
            assert!(words.iter().any(|text| text == wanted), "{wanted} is missing in {words:?}");
        }
        let bars: Vec<f64> = (areas(&svg).iter())
            .filter(|one| one.says.contains(" to "))
            .map(|one| one.width)
            .collect();
        assert!(bars.len() == 2 && (bars[0] / bars[1] - 2.0).abs() < 0.01, "{bars:?}");
    }

    #[test]
    fn a_chance_beyond_one_is_refused() {
        let rows = [row("over what they may be", None, 0.1, 1.5, Kind::Inputs)];
        assert!(chart(&rows, &SHEET).is_err());
    }
}
