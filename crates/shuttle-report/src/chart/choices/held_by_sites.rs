//! The flow that holds by set of fill sites, a bar each, with the hand credit as a mark on it and the rule as a line.

use crate::chart::elements::axis::{AXIS_TEXT, Scale, round_step};
use crate::chart::elements::font;
use crate::chart::elements::heading_and_foot::{
    MARGIN, Sample, Sheet, WIDTH, finish, heading, in_the_middle, legend,
};
use crate::chart::elements::style::{BLACK, BLUE, GRID, Hatch, Look, QUIET, SKY, WHITE};
use crate::chart::elements::svg::{Anchor, Area, Drawing, Stroke, Text};
use crate::chart::{ChartError, finite};
use crate::units::whole;

/// One set of fill sites; flows in the reader's units.
#[derive(Debug, Clone, PartialEq)]
pub struct Bar {
    /// Its sites.
    pub label: String,
    /// The greatest flow that is shown to hold; 0 where none is.
    pub holds: f64,
    /// Flows up to this one may hold too.
    pub may_hold: Option<f64>,
    /// Of what holds, what passes for ever by hand: the rest lives on first loads. `None`: all of it.
    pub passes: Option<f64>,
    /// The credit by hand.
    pub credit: f64,
    /// What stands at the right: "passes".
    pub note: String,
}

/// The words of the chart.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Words<'w> {
    /// The sign of flows.
    pub unit: &'w str,
    /// The least that the rule credits, and what that is called.
    pub rule: (f64, &'w str),
}

const LEFT: f64 = 220.0;
const RIGHT: f64 = WIDTH - MARGIN - 84.0;
const LABEL: Text = Text::of(13.0).at(Anchor::End);
const NOTE: Text = Text::of(13.0);
/// Height of a bar, px, and of a line of its label.
const THICK: f64 = 20.0;
const LABEL_LINE: f64 = 16.0;
/// Lines a label may take: names stand whole.
const LABEL_LINES: usize = 8;

const FOR_EVER: Look = Look::plain(SKY);
const FIRST_LOADS: Look = Look::hatched(WHITE, Hatch::Rising, BLUE);
const OPEN: Stroke = Stroke::of(QUIET, 1.25).dashed("3 3");
const CREDIT: Stroke = Stroke::of(BLACK, 3.0);
const RULE: Stroke = Stroke::of(BLACK, 1.5).dashed("8 4");

/// Draws the chart.
///
/// - Errors: [`ChartError::BadNumber`] for a flow that is NaN or negative.
pub fn chart(bars: &[Bar], words: Words<'_>, sheet: &Sheet<'_>) -> Result<String, ChartError> {
    for bar in bars {
        for flow in [Some(bar.holds), bar.may_hold, bar.passes, Some(bar.credit)] {
            finite(&format!("a flow of {}", bar.label), flow.unwrap_or(0.0))?;
        }
    }
    finite("the least flow of the rule", words.rule.0)?;
    let mut drawing = Drawing::new(WIDTH);
    let top = heading(&mut drawing, sheet) + 22.0;
    let heights: Vec<f64> = bars.iter().map(height).collect();
    let bottom = top + heights.iter().sum::<f64>().max(2.0 * THICK) + 8.0;
    let most = (bars.iter())
        .flat_map(|bar| [bar.holds, bar.may_hold.unwrap_or(0.0), bar.credit])
        .fold(words.rule.0, f64::max)
        .max(1.0);
    let step = round_step(most, 8.0);
    let x = Scale { low: 0.0, high: step * (most / step + 0.1).ceil(), from: LEFT, to: RIGHT };
    let style = Text::of(AXIS_TEXT).at(Anchor::Middle);
    for value in x.ticks(step) {
        let at = x.at(value);
        drawing.line((at, top), (at, bottom), Stroke::of(GRID, 1.0));
        drawing.text(at, bottom + 17.0, &whole(value), style);
    }
    drawing.line((LEFT, bottom), (RIGHT, bottom), Stroke::of(QUIET, 1.0));
    if bars.is_empty() {
        let area = Area { x: LEFT, y: top, width: RIGHT - LEFT, height: bottom - top };
        in_the_middle(&mut drawing, area, "nothing was simulated");
    }
    let mut y = top + 4.0;
    for (bar, height) in bars.iter().zip(heights) {
        draw(&mut drawing, x, (y, height), bar, words.unit);
        y += height;
    }
    let rule = x.at(words.rule.0);
    drawing.line((rule, top - 8.0), (rule, bottom), RULE);
    drawing.text(f64::midpoint(LEFT, RIGHT), bottom + 36.0, words.unit, style);
    let mut entries = vec![(Sample::Box(FOR_EVER), "holds".to_owned())];
    if bars.iter().any(|bar| bar.passes.is_some()) {
        entries.push((Sample::Box(FIRST_LOADS), "of it on first loads only".to_owned()));
    }
    if bars.iter().any(|bar| bar.may_hold.is_some()) {
        entries.push((Sample::Line(OPEN), "may hold: too close to tell".to_owned()));
    }
    entries.push((Sample::Line(CREDIT), "credit by hand".to_owned()));
    entries.push((Sample::Line(RULE), words.rule.1.to_owned()));
    let end = legend(&mut drawing, bottom + 48.0, &entries);
    Ok(finish(drawing, end, sheet))
}

fn label_lines(bar: &Bar) -> Vec<String> {
    font::wrap(&bar.label, LABEL.size, LABEL.weight, LEFT - MARGIN - 14.0, LABEL_LINES)
}

fn height(bar: &Bar) -> f64 {
    (THICK + 12.0).max(LABEL_LINE * label_lines(bar).len() as f64 + 10.0)
}

fn draw(drawing: &mut Drawing, x: Scale, (y, height): (f64, f64), bar: &Bar, unit: &str) {
    let middle = y + height / 2.0;
    let label = label_lines(bar);
    for (place, text) in label.iter().enumerate() {
        let shift = LABEL_LINE * (place as f64 - (label.len() as f64 - 1.0) / 2.0);
        drawing.text(LEFT - 14.0, middle + shift + 4.5, text, LABEL);
    }
    let outline = Some(Stroke::of(BLACK, 0.75));
    let area = |from: f64, to: f64| Area {
        x: x.at(from),
        y: middle - THICK / 2.0,
        width: x.at(to) - x.at(from),
        height: THICK,
    };
    let says =
        format!("{}: holds {} {unit}, {} by hand", bar.label, whole(bar.holds), whole(bar.credit));
    let for_ever = bar.passes.map_or(bar.holds, |passes| passes.min(bar.holds));
    if bar.holds > 0.0 {
        drawing.area(area(0.0, for_ever), FOR_EVER, outline, &says);
        if for_ever < bar.holds {
            drawing.area(area(for_ever, bar.holds), FIRST_LOADS, outline, "on first loads only");
        }
    } else {
        drawing.text(LEFT + 6.0, middle + 4.5, "none", NOTE.colour(QUIET));
    }
    if let Some(up_to) = bar.may_hold {
        let (from, to) = (x.at(bar.holds), x.at(up_to));
        let (above, below) = (middle - THICK / 2.0, middle + THICK / 2.0);
        drawing.path(&[(from, above), (to, above), (to, below), (from, below)], OPEN, "may hold");
    }
    let credit = x.at(bar.credit);
    let reach = THICK / 2.0 + 4.0;
    drawing.line((credit, middle - reach), (credit, middle + reach), CREDIT);
    let room = WIDTH - MARGIN - RIGHT - 10.0;
    drawing.text(RIGHT + 10.0, middle + 4.5, &NOTE.fit(&bar.note, room), NOTE);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chart::demo::SHEET;
    use crate::chart::drawn::{areas, texts};

    fn bar(label: &str, holds: f64, credit: f64) -> Bar {
        let (label, note) = (label.to_owned(), "passes".to_owned());
        Bar { label, holds, may_hold: None, passes: None, credit, note }
    }

    const WORDS: Words<'static> =
        Words { unit: "gpm", rule: (250.0, "the least credited, 250 gpm") };

    #[test]
    fn bars_are_as_long_as_what_holds_and_names_stand_whole() {
        let long = "Old mill race at the covered bridge + Upper reservoir intake on the north road + Ninth \
                    Street hydrant behind the feed store";
        let bars = [bar(long, 400.0, 300.0), bar("b", 200.0, 300.0), bar("c", 0.0, 20.0)];
        let svg = chart(&bars, WORDS, &SHEET).expect("a chart");
        let wide: Vec<f64> = (areas(&svg).iter().filter(|one| one.says.contains("holds")))
            .map(|one| one.width)
            .collect();
        assert_eq!(wide.len(), 2, "nothing holds in the third");
        assert!((wide[0] / wide[1] - 2.0).abs() < 0.01, "{wide:?}");
        let words = texts(&svg).join(" ");
        for name in ["covered bridge", "north road", "feed store", "none", "credit by hand"] {
            assert!(words.contains(name), "{name}: {words}");
        }
    }

    #[test]
    fn what_lives_on_first_loads_is_a_part_of_its_own() {
        let bars = [Bar { passes: Some(150.0), ..bar("Cistern", 250.0, 150.0) }];
        let svg = chart(&bars, WORDS, &SHEET).expect("a chart");
        let wide = |says: &str| {
            areas(&svg).iter().find(|one| one.says.contains(says)).expect("a bar").width
        };
        assert!((wide("by hand") / wide("first loads") - 1.5).abs() < 0.01);
        assert!(chart(&[bar("a", f64::NAN, 1.0)], WORDS, &SHEET).is_err());
    }
}
