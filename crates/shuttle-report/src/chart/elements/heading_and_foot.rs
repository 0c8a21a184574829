//! What all charts have: heading, legend, foot.

use super::font::{self, Weight};
use super::style::{BLACK, Look, QUIET};
use super::svg::{Area, Drawing, Stroke, Text};
use crate::chart::MadeFrom;
use crate::units::whole;

/// How wide charts are, px.
pub const WIDTH: f64 = 1000.0;
/// The margin at the sides, px.
pub const MARGIN: f64 = 24.0;

/// What every chart ends with.
pub const CAUTION: &str = "A plan on paper: the incident commander, local rules and what you see on the ground come first.";

const TITLE: Text = Text::of(20.0).semi_bold();
const SUBTITLE: Text = Text::of(14.0).colour(QUIET);
const SMALL: Text = Text::of(12.0);
const LEGEND: Text = Text::of(13.0);

/// The plan's title and what the chart shows.
///
/// - Returns: where the rest begins, px.
pub fn heading(drawing: &mut Drawing, title: &str, shows: &str) -> f64 {
    let room = drawing.width() - 2.0 * MARGIN;
    let mut y = 12.0;
    for line in font::wrap(title, TITLE.size, TITLE.weight, room, 2) {
        y += 24.0;
        drawing.text(MARGIN, y, &line, TITLE);
    }
    y += 3.0;
    for line in font::wrap(shows, SUBTITLE.size, SUBTITLE.weight, room, 3) {
        y += 19.0;
        drawing.text(MARGIN, y, &line, SUBTITLE);
    }
    y + 14.0
}

/// Where the figures come from, and how far to trust them; then the SVG is done.
pub fn finish(mut drawing: Drawing, y: f64, title: &str, from: &str) -> String {
    let room = drawing.width() - 2.0 * MARGIN;
    let mut y = y + 8.0;
    drawing.line((MARGIN, y), (drawing.width() - MARGIN, y), Stroke::of(QUIET, 0.5));
    y += 4.0;
    for text in [from, CAUTION] {
        for line in font::wrap(text, SMALL.size, SMALL.weight, room, 2) {
            y += 16.0;
            drawing.text(MARGIN, y, &line, SMALL);
        }
    }
    drawing.finish(y + 14.0, title)
}

/// "20,000 runs, seed 1": for the foot.
pub fn runs_and_seed(made: MadeFrom) -> String {
    let runs = if made.runs == 1 { "run" } else { "runs" };
    format!("{} {runs}, seed {}", whole(made.runs as f64), made.seed)
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
