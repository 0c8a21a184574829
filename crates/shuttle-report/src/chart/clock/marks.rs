//! Moments marked across the panels of a chart.

use crate::chart::elements::axis::Scale;
use crate::chart::elements::heading_and_foot::MARGIN;
use crate::chart::elements::style::BLACK;
use crate::chart::elements::svg::{Anchor, Drawing, Stroke, Text};
use crate::units::clock;

/// A moment that is marked through the whole chart.
pub const MOMENT: Stroke = Stroke::of(BLACK, 1.5).dashed("6 4");

/// The mean moment of first water through these panels (top and bottom of each), named above the first one, `higher`
/// px above the place next to its heading; nothing where it lies beyond the chart.
pub fn first_water_mark(
    drawing: &mut Drawing,
    x: Scale,
    minute: f64,
    panels: &[(f64, f64)],
    higher: f64,
) {
    let Some((top, _)) = panels.first().filter(|_| minute.is_finite() && minute <= x.high) else {
        return;
    };
    let at = x.at(minute);
    for (top, bottom) in panels {
        drawing.line((at, *top), (at, *bottom), MOMENT);
    }
    drawing.line((at, top - 32.0 - higher), (at, top - 20.0), MOMENT);
    let label = format!("first water: minute {} (mean)", clock(minute));
    label_of_mark(drawing, at, top - 22.0 - higher, &label);
}

/// A label beside a vertical line: to its right, or to its left where there is no room.
pub fn label_of_mark(drawing: &mut Drawing, x: f64, y: f64, label: &str) {
    let style = Text::of(13.0).semi_bold();
    let room = drawing.width() - MARGIN - x;
    if style.width(label) + 5.0 <= room {
        drawing.text(x + 5.0, y, label, style);
    } else {
        drawing.text(x - 5.0, y, label, style.at(Anchor::End));
    }
}
