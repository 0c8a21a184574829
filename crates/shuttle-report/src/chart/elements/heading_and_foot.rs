//! What all charts have: the answer as their title, what is drawn, legend, foot; and how large they are.

use super::font::{self, Weight};
use super::style::{BLACK, Look, QUIET};
use super::svg::{Area, Drawing, Stroke, Text};

/// How wide charts are drawn, CSS px of 1/96 inch: 180 mm, which a letter sheet (216 mm) and an A4 sheet (210 mm)
/// hold upright with a margin of 15 mm.
pub const WIDTH: f64 = 680.0;
/// The margin at the sides, px.
pub const MARGIN: f64 = 12.0;
/// The smallest letters of any chart, px: 9 pt on a sheet of paper (a CSS px is 0.75 pt).
pub const SMALLEST: f64 = 12.0;

/// What every chart ends with.
pub const CAUTION: &str = "A plan on paper: the incident commander, local rules and what you see on the ground come first.";

const TITLE: Text = Text::of(19.0).semi_bold();
const SUBTITLE: Text = Text::of(13.0).colour(QUIET);
const SMALL: Text = Text::of(SMALLEST).colour(QUIET);
const LEGEND: Text = Text::of(SMALLEST);
/// Lines that title, subtitle and foot may take: an answer is not cut but for names beyond all use.
const MOST_LINES: usize = 6;

/// How large a chart is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Size {
    /// As a part of an upright letter or A4 sheet; its smallest letters are of 9 pt.
    #[default]
    Sheet,
    /// As large as an A3 sheet holds, for a wall or a projector; its letters are about twice as high.
    Wall,
}

/// A3, mm (ISO 216), less 15 mm at every edge.
const WALL_MM: [f64; 2] = [390.0, 267.0];

/// What stands around a chart, in the reader's words.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sheet<'s> {
    /// The title: the answer in one sentence.
    pub answer: &'s str,
    /// What is drawn.
    pub shows: &'s str,
    /// The foot: scenario, file, fires and seed, day, version.
    pub foot: &'s str,
    /// How large the chart is.
    pub size: Size,
}

/// The answer, and what the chart shows.
///
/// - Returns: where the rest begins, px.
pub fn heading(drawing: &mut Drawing, sheet: &Sheet<'_>) -> f64 {
    let room = drawing.width() - 2.0 * MARGIN;
    let mut y = 6.0;
    for line in font::wrap(sheet.answer, TITLE.size, TITLE.weight, room, MOST_LINES) {
        y += 24.0;
        drawing.text(MARGIN, y, &line, TITLE);
    }
    y += 3.0;
    for line in font::wrap(sheet.shows, SUBTITLE.size, SUBTITLE.weight, room, MOST_LINES) {
        y += 17.0;
        drawing.text(MARGIN, y, &line, SUBTITLE);
    }
    y + 12.0
}

/// Where the figures come from, and how far to trust them; then the SVG is done.
pub fn finish(mut drawing: Drawing, y: f64, sheet: &Sheet<'_>) -> String {
    let room = drawing.width() - 2.0 * MARGIN;
    let mut y = y + 8.0;
    drawing.line((MARGIN, y), (drawing.width() - MARGIN, y), Stroke::of(QUIET, 0.5));
    y += 2.0;
    for text in [sheet.foot, CAUTION] {
        for line in font::wrap(text, SMALL.size, SMALL.weight, room, MOST_LINES) {
            y += 16.0;
            drawing.text(MARGIN, y, &line, SMALL);
        }
    }
    let height = y + 12.0;
    let described = [sheet.shows, sheet.foot, CAUTION].map(str::trim).join("\n");
    match sheet.size {
        Size::Sheet => drawing.finish(height, sheet.answer, &described),
        Size::Wall => {
            let wide = wall_width(drawing.width(), height);
            drawing.finish_on_paper(height, sheet.answer, &described, wide)
        }
    }
}

/// How wide a drawing is when it fills an A3 sheet, whichever way that holds it larger, mm.
fn wall_width(width: f64, height: f64) -> f64 {
    let [long, short] = WALL_MM;
    let scale = |wide: f64, high: f64| (wide / width).min(high / height);
    // To a tenth, rounded down, so that it is not too large for its sheet.
    (10.0 * width * scale(long, short).max(scale(short, long))).floor() / 10.0
}

/// What stands before a legend's words.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Sample {
    /// A box with this look.
    Box(Look),
    /// A line.
    Line(Stroke),
}

/// Samples with their words, in as many lines as they take.
///
/// - Returns: where the legend ends, px.
pub fn legend(drawing: &mut Drawing, y: f64, entries: &[(Sample, String)]) -> f64 {
    if entries.is_empty() {
        return y;
    }
    let right = drawing.width() - MARGIN;
    let (mut x, mut y) = (MARGIN, y + 10.0);
    for (sample, words) in entries {
        let words = LEGEND.fit(words, right - MARGIN - 34.0);
        let width = 34.0 + LEGEND.width(&words);
        if x > MARGIN && x + width > right {
            (x, y) = (MARGIN, y + 22.0);
        }
        match sample {
            Sample::Box(look) => {
                let area = Area { x, y: y - 7.0, width: 26.0, height: 14.0 };
                drawing.area(area, *look, Some(Stroke::of(BLACK, 0.75)), "");
            }
            Sample::Line(stroke) => drawing.line((x, y), (x + 26.0, y), *stroke),
        }
        drawing.text(x + 32.0, y + 4.5, &words, LEGEND);
        x += width + 18.0;
    }
    y + 14.0
}

/// Words in the middle of an empty chart.
pub fn in_the_middle(drawing: &mut Drawing, area: Area, words: &str) {
    let style = Text::of(15.0);
    let words = font::ellipsize(words, style.size, Weight::Regular, area.width - 12.0);
    drawing.boxed_text(area.x + area.width / 2.0, area.y + area.height / 2.0, &words, style);
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A3 is 420 by 297 mm (ISO 216).
    #[test]
    fn a_wall_chart_fills_its_sheet_and_does_not_leave_it() {
        for (width, height) in [(680.0, 300.0), (680.0, 466.0), (680.0, 700.0), (680.0, 2_000.0)] {
            let wide = wall_width(width, height);
            let high = wide * height / width;
            let fits = |a: f64, b: f64| wide <= a - 30.0 + 1e-9 && high <= b - 30.0 + 1e-9;
            assert!(fits(420.0, 297.0) || fits(297.0, 420.0), "{height}: {wide} by {high} mm");
            assert!(wide > 385.0 || high > 260.0, "{height}: {wide} by {high} mm");
        }
    }
}
