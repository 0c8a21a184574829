//! The pinch: what each place can pass by hand, and the flow that is wanted as a line across.

use super::super::{ChartError, finite};
use crate::chart::elements::font::{self, Weight};
use crate::chart::elements::style::{BACK, BLACK, Hatch, Look, SKY, WHITE};
use crate::chart::elements::svg::{Anchor, Area, Drawing, Stroke, Text};

/// What one place passes.
#[derive(Debug, Clone, PartialEq)]
pub struct Bar {
    /// The place: "Quarry pond".
    pub label: String,
    /// What it passes at most, gpm.
    pub gpm: f64,
    /// The same in words: "541 gpm".
    pub says: String,
}

/// The words beside the bars.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Words<'a> {
    /// What stands by the line: "600 gpm wanted".
    pub wanted: &'a str,
    /// What the chart says, for readers who cannot see it.
    pub about: &'a str,
}

const WIDTH: f64 = 1_000.0;
const LABELS: f64 = 330.0;
/// Room for a figure behind the longest bar, px.
const FIGURES: f64 = 170.0;
const ROW: f64 = 36.0;
const TALL: f64 = 25.0;
const LABEL: Text = Text::of(22.0);
const FIGURE: Text = Text::of(22.0).semi_bold();
/// Passes what is wanted.
const ENOUGH: Look = Look::hatched(SKY, Hatch::Upright, BLACK);
/// Does not.
const TOO_LITTLE: Look = BACK;

/// One bar a place, the tightest dark where it passes less than is wanted.
///
/// - Given: the flow that is wanted, gpm.
/// - Errors: [`ChartError::BadNumber`] for a flow that cannot be shown.
pub fn chart(bars: &[Bar], wanted_gpm: f64, words: Words) -> Result<String, ChartError> {
    let wanted = finite("the flow that is wanted", wanted_gpm)?;
    let mut most = wanted;
    for bar in bars {
        most = most.max(finite("what a place passes", bar.gpm)?);
    }
    let scale = (WIDTH - LABELS - FIGURES) / most.max(1.0);
    let mut drawing = Drawing::new(WIDTH);
    let top = 40.0;
    let bottom = top + ROW * bars.len() as f64;
    for (place, bar) in bars.iter().enumerate() {
        let y = top + ROW * place as f64 + (ROW - TALL) / 2.0;
        let lines = font::wrap(&bar.label, LABEL.size, Weight::Regular, LABELS - 14.0, 1);
        for line in lines {
            drawing.text(0.0, y + 0.75 * TALL, &line, LABEL);
        }
        let look = if bar.gpm < wanted { TOO_LITTLE } else { ENOUGH };
        let area = Area { x: LABELS, y, width: scale * bar.gpm, height: TALL };
        drawing.area(area, look, Some(Stroke::of(BLACK, 1.0)), "");
    }
    let x = LABELS + scale * wanted;
    drawing.line((x, top - 8.0), (x, bottom), Stroke::of(WHITE, 7.0));
    drawing.line((x, top - 8.0), (x, bottom), Stroke::of(BLACK, 3.0));
    // Figures last: they may lie over the line.
    for (place, bar) in bars.iter().enumerate() {
        let middle = top + ROW * (place as f64 + 0.5);
        let beside = LABELS + scale * bar.gpm + 10.0 + FIGURE.width(&bar.says) / 2.0;
        drawing.boxed_text(beside, middle, &bar.says, FIGURE);
    }
    let half = FIGURE.width(words.wanted) / 2.0;
    drawing.text(x.clamp(half, WIDTH - half), 22.0, words.wanted, FIGURE.at(Anchor::Middle));
    Ok(drawing.finish(bottom + 6.0, words.about, ""))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bar_is_as_long_as_its_flow_and_dark_where_it_passes_too_little() {
        let bars = [("tankers", 298.0), ("fill", 541.0), ("dump", 694.0), ("draft", 1_000.0)]
            .map(|(label, gpm)| Bar { label: label.to_owned(), gpm, says: format!("{gpm} gpm") });
        let words = Words { wanted: "600 gpm wanted", about: "" };
        let svg = chart(&bars, 600.0, words).expect("a chart");
        let document = resvg::usvg::roxmltree::Document::parse(&svg).expect("XML");
        let widths: Vec<f64> = (document.descendants())
            .filter(|node| node.has_tag_name("rect") && node.attribute("stroke").is_some())
            .map(|node| node.attribute("width").and_then(|width| width.parse().ok()).unwrap_or(0.0))
            .collect();
        assert_eq!(widths.len(), 4);
        for (bar, width) in bars.iter().zip(&widths) {
            assert!((width / widths[3] - bar.gpm / 1_000.0).abs() < 1e-4, "{bar:?}: {width}");
        }
        assert_eq!(svg.matches(&format!("fill=\"{}\"", TOO_LITTLE.fill())).count(), 2);
        assert!(svg.contains("600 gpm wanted"));
        let lost = Bar { label: String::new(), gpm: f64::INFINITY, says: String::new() };
        assert!(chart(&[lost], 600.0, words).is_err());
    }
}
