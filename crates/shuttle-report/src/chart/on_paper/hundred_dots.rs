//! A hundred fires as dots: how many run short now, and how many with a change.

use std::f64::consts::TAU;

use super::super::{ChartError, chance};
use super::{IN_WATER, SHORT};
use crate::chart::elements::font;
use crate::chart::elements::style::BLACK;
use crate::chart::elements::svg::{Anchor, Drawing, Stroke, Text};

/// One panel of a hundred dots.
#[derive(Debug, Clone, PartialEq)]
pub struct Panel {
    /// What it shows: "as it stands".
    pub title: String,
    /// Share of fires in which the lines run short.
    pub share: f64,
    /// The same in words, under the dots.
    pub says: String,
}

/// Dots in a row, and rows: low enough to leave a page its other pictures.
const COLUMNS: usize = 20;
const ROWS: usize = 5;
/// From one dot's middle to the next, px.
const STEP: f64 = 38.0;
/// A dot's radius, px.
const RADIUS: f64 = 15.0;
const GAP: f64 = 70.0;
const TITLE: Text = Text::of(30.0).semi_bold();
const WORDS: Text = Text::of(30.0);
/// From one line of words to the next.
const LINE: f64 = 36.0;

/// How many of a hundred dots are filled: the nearest whole number.
pub fn filled(share: f64) -> usize {
    (100.0 * share).round() as usize
}

/// One panel beside another.
///
/// - Given: `about`, what the chart says, for readers who cannot see it.
/// - Errors: [`ChartError::BadNumber`] for a share that is none.
pub fn chart(panels: &[Panel], about: &str) -> Result<String, ChartError> {
    let wide = STEP * COLUMNS as f64;
    let many = panels.len().max(1) as f64;
    let mut drawing = Drawing::new(many * wide + (many - 1.0) * GAP);
    let mut bottom = 0.0_f64;
    for (place, panel) in panels.iter().enumerate() {
        let share = chance(|| format!("the share of {}", panel.title), panel.share)?;
        let left = place as f64 * (wide + GAP);
        let mut y = 0.0;
        for line in font::wrap(&panel.title, TITLE.size, TITLE.weight, wide, 3) {
            y += LINE;
            drawing.text(left, y, &line, TITLE);
        }
        // Dots of panels beside each other begin at one height.
        let titles = panels.iter().map(|panel| lines(&panel.title, wide));
        let top = LINE * titles.max().unwrap_or(1) as f64 + 14.0;
        for dot in 0..COLUMNS * ROWS {
            let middle = (
                left + (0.5 + (dot % COLUMNS) as f64) * STEP,
                top + (0.5 + (dot / COLUMNS) as f64) * STEP,
            );
            let look = if dot < filled(share) { SHORT } else { IN_WATER };
            let outline = circle(middle);
            drawing.shape(&outline, look, "");
            drawing.path(&outline, Stroke::of(BLACK, 1.5), "");
        }
        let mut y = top + STEP * ROWS as f64;
        for line in font::wrap(&panel.says, WORDS.size, WORDS.weight, wide, 3) {
            y += LINE;
            drawing.text(left, y, &line, WORDS.at(Anchor::Start));
        }
        bottom = bottom.max(y);
    }
    Ok(drawing.finish(bottom + 10.0, about, ""))
}

fn lines(title: &str, room: f64) -> usize {
    font::wrap(title, TITLE.size, TITLE.weight, room, 3).len()
}

/// A circle of straight lines, closed.
fn circle((x, y): (f64, f64)) -> Vec<(f64, f64)> {
    const SIDES: u32 = 24;
    (0..=SIDES)
        .map(|side| {
            let turn = TAU * f64::from(side) / f64::from(SIDES);
            (x + RADIUS * turn.cos(), y + RADIUS * turn.sin())
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn panel(title: &str, share: f64) -> Panel {
        Panel { title: title.to_owned(), share, says: String::new() }
    }

    #[test]
    fn as_many_dots_are_filled_as_fires_of_a_hundred_run_short() {
        for (share, dots) in [(0.0, 0), (0.004, 0), (0.29, 29), (0.3549, 35), (1.0, 100)] {
            let svg = chart(&[panel("now", share)], "").expect("a chart");
            let short = format!("fill=\"{}\"", SHORT.fill());
            assert_eq!(svg.matches(&short).count(), dots, "{share}");
            assert_eq!(svg.matches("<polygon").count(), 100);
        }
        assert!(chart(&[panel("now", 1.1)], "").is_err());
    }
}
