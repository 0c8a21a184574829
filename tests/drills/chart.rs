//! The drills as a chart: for each the reported flow, the model's, and the model's range.

use std::fmt::Write;

/// One drill's line of the chart, flows in gpm.
pub struct Line {
    /// What the source calls it.
    pub source: &'static str,
    /// In the report's words.
    pub reported: &'static str,
    pub gpm: f64,
    pub model: f64,
    /// The model over what was assumed, the least and the greatest.
    pub range: [f64; 2],
    /// In the last column.
    pub held: &'static str,
}

const WIDTH: f64 = 860.0;
const LEFT: f64 = 250.0;
const RIGHT: f64 = 680.0;
const TOP: f64 = 112.0;
const ROW: f64 = 46.0;
/// Right end of the scale and its ticks, gpm.
const MOST: f64 = 1400.0;
const TICK: usize = 200;
/// The ground of the bars: light enough for black marks on a copy in black and white.
const GROUND: &str = "#D3D3D3";

fn x(gpm: f64) -> f64 {
    LEFT + (RIGHT - LEFT) * gpm / MOST
}

fn text(svg: &mut String, x: f64, y: f64, anchor: &str, weight: u32, words: &str) {
    let size = if weight == 600 { 14 } else { 12 };
    let _ = writeln!(
        svg,
        "<text x=\"{x:.1}\" y=\"{y:.1}\" font-size=\"{size}\" font-weight=\"{weight}\" \
         text-anchor=\"{anchor}\">{words}</text>"
    );
}

/// A ring: the reported flow.
fn ring(svg: &mut String, x: f64, y: f64) {
    let _ = writeln!(
        svg,
        "<circle cx=\"{x:.1}\" cy=\"{y:.1}\" r=\"7\" fill=\"none\" stroke=\"black\" \
         stroke-width=\"2.5\"/>"
    );
}

/// A filled diamond: the model's flow.
fn diamond(svg: &mut String, x: f64, y: f64) {
    let _ = writeln!(
        svg,
        "<path d=\"M{:.1},{y:.1} L{x:.1},{:.1} L{:.1},{y:.1} L{x:.1},{:.1} Z\" fill=\"black\"/>",
        x - 6.0,
        y - 6.0,
        x + 6.0,
        y + 6.0
    );
}

fn bar(svg: &mut String, from: f64, to: f64, y: f64) {
    let _ = writeln!(
        svg,
        "<rect x=\"{from:.1}\" y=\"{:.1}\" width=\"{:.1}\" height=\"14\" fill=\"{GROUND}\" \
         stroke=\"black\" stroke-width=\"1\"/>",
        y - 7.0,
        to - from
    );
}

/// Draws it; readable in black and white, as its marks differ in shape.
pub fn chart(lines: &[Line]) -> String {
    let floor = TOP + ROW * lines.len() as f64;
    let height = floor + 92.0;
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{WIDTH}\" height=\"{height}\" \
         viewBox=\"0 0 {WIDTH} {height}\" role=\"img\" \
         font-family=\"Inter, Helvetica, Arial, sans-serif\">\n\
         <title>Published drills and the model</title>\n\
         <rect width=\"{WIDTH}\" height=\"{height}\" fill=\"white\"/>\n"
    );
    text(&mut svg, 16.0, 28.0, "start", 600, "Published drills and the model: flow, gpm");
    let y = 56.0;
    ring(&mut svg, 24.0, y);
    text(&mut svg, 38.0, y + 4.0, "start", 400, "reported by the drill");
    diamond(&mut svg, 196.0, y);
    text(&mut svg, 208.0, y + 4.0, "start", 400, "model, as assumed");
    bar(&mut svg, 380.0, 420.0, y);
    let words = "model, the range that holds 80 of 100 cases of what was assumed";
    text(&mut svg, 428.0, y + 4.0, "start", 400, words);
    text(&mut svg, 704.0, TOP - 14.0, "start", 400, "model against report");
    for gpm in (0..=MOST as usize).step_by(TICK) {
        let at = x(gpm as f64);
        let _ = writeln!(
            svg,
            "<line x1=\"{at:.1}\" y1=\"{TOP}\" x2=\"{at:.1}\" y2=\"{floor}\" stroke=\"#999999\" \
             stroke-width=\"0.5\"/>"
        );
        let words = if gpm < 1000 { gpm.to_string() } else { format!("1,{:03}", gpm - 1000) };
        text(&mut svg, at, floor + 18.0, "middle", 400, &words);
    }
    text(&mut svg, x(0.5 * MOST), floor + 36.0, "middle", 400, "gpm");
    for (place, line) in lines.iter().enumerate() {
        let y = TOP + ROW * (place as f64 + 0.5);
        text(&mut svg, 16.0, y - 2.0, "start", 600, line.source);
        text(&mut svg, 16.0, y + 14.0, "start", 400, line.reported);
        bar(&mut svg, x(line.range[0]), x(line.range[1]), y);
        diamond(&mut svg, x(line.model), y);
        ring(&mut svg, x(line.gpm), y);
        let off = format!("{:+.0}%", 100.0 * (line.model / line.gpm - 1.0));
        text(&mut svg, 704.0, y - 2.0, "start", 600, &off);
        text(&mut svg, 704.0, y + 14.0, "start", 400, line.held);
    }
    let foot = [
        "Means of 100 runs, seed 1. What each report states and what is assumed: tests/VALIDATION.md.",
        "A peak, or a flow that was asked for, is not the most that a plan carries.",
    ];
    for (place, words) in foot.into_iter().enumerate() {
        text(&mut svg, 16.0, height - 28.0 + 16.0 * place as f64, "start", 400, words);
    }
    svg.push_str("</svg>\n");
    svg
}
