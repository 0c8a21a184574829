//! Lines of values in a panel with axes, drawn by the chart library; what it has no means for (hatching, lanes,
//! labels kept apart by their measured width, our own font in a browser) is drawn beside it in our own few elements.

#[cfg(not(target_arch = "wasm32"))]
use plotters::prelude::{ChartBuilder, IntoDrawingArea, LineSeries, RGBColor, SVGBackend};
#[cfg(not(target_arch = "wasm32"))]
use plotters::style::Color;

use super::axis::Scale;
use super::svg::{Drawing, Stroke};
use crate::chart::ChartError;

/// Units of the library to a px: it counts in whole ones.
#[cfg(not(target_arch = "wasm32"))]
const FINE: f64 = 100.0;

/// Draws a line through values, each with its place across and upward, on the panel of these scales.
///
/// - Given: what the line says to who points at it or cannot see it.
/// - Errors: [`ChartError::Drawing`] where the library fails.
#[cfg(not(target_arch = "wasm32"))]
pub fn line_of_values(
    drawing: &mut Drawing,
    (x, y): (Scale, Scale),
    values: &[(f64, f64)],
    stroke: Stroke,
    says: &str,
) -> Result<(), ChartError> {
    let mut svg = String::new();
    plot(&mut svg, (x, y), values, stroke)
        .map_err(|error| ChartError::Drawing(error.to_string()))?;
    // The library writes a whole picture of the panel; what it holds goes into ours.
    let held = svg.split_once('>').map_or("", |(_, held)| held);
    let held = held.rsplit_once("</svg>").map_or(held, |(held, _)| held);
    drawing.held((x.from.min(x.to), y.to.min(y.from)), 1.0 / FINE, held, says);
    Ok(())
}

/// The same without the library, which is left out of the page for a browser: it travels in a file.
///
/// - Errors: none; as the other one has.
#[cfg(target_arch = "wasm32")]
pub fn line_of_values(
    drawing: &mut Drawing,
    (x, y): (Scale, Scale),
    values: &[(f64, f64)],
    stroke: Stroke,
    says: &str,
) -> Result<(), ChartError> {
    let points: Vec<(f64, f64)> =
        values.iter().map(|(at, value)| (x.at(*at), y.at(*value))).collect();
    drawing.path(&points, stroke, says);
    Ok(())
}

#[cfg(not(target_arch = "wasm32"))]
fn plot(
    svg: &mut String,
    (x, y): (Scale, Scale),
    values: &[(f64, f64)],
    stroke: Stroke,
) -> Result<(), Box<dyn std::error::Error>> {
    let fine = |scale: Scale| (FINE * (scale.to - scale.from).abs()).round().max(1.0) as u32;
    let root = SVGBackend::with_string(svg, (fine(x), fine(y))).into_drawing_area();
    let mut panel = ChartBuilder::on(&root).build_cartesian_2d(x.low..x.high, y.low..y.high)?;
    let (red, green, blue) = stroke.red_green_blue();
    let style = RGBColor(red, green, blue).stroke_width((FINE * stroke.width()).round() as u32);
    panel.draw_series(LineSeries::new(values.iter().copied(), style))?;
    root.present()?;
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chart::drawn::lines;
    use crate::chart::elements::style::VERMILLION;

    #[test]
    fn values_lie_where_the_scales_have_them() {
        let x = Scale { low: 0.0, high: 10.0, from: 60.0, to: 660.0 };
        let y = Scale { low: 0.0, high: 0.5, from: 200.0, to: 50.0 };
        let values = [(0.0, 0.0), (2.5, 0.125), (10.0, 0.5)];
        let mut drawing = Drawing::new(700.0);
        let stroke = Stroke::of(VERMILLION, 2.5);
        line_of_values(&mut drawing, (x, y), &values, stroke, "rises").expect("a line");
        let svg = drawing.finish(250.0, "", "");
        let line = &lines(&svg, "rises")[0];
        assert_eq!(line.len(), values.len());
        for ((across, upward), (at, level)) in values.iter().zip(line) {
            assert!((at - x.at(*across)).abs() < 0.03, "{line:?}");
            assert!((level - y.at(*upward)).abs() < 0.03, "{line:?}");
        }
        assert!(svg.contains("#D55E00") && svg.contains("stroke-width=\"250\""), "{svg}");
    }
}
