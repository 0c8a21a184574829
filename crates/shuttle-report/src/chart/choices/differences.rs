//! Differences of a chance, or of the minutes short, from the plan as it stands, one line each, with
//! their intervals.

use crate::changes::input::Way;
use crate::chart::ChartError;
use crate::chart::elements::axis::{AXIS_TEXT, Scale, round_step};
use crate::chart::elements::font;
use crate::chart::elements::heading_and_foot::{
    MARGIN, Sample, Sheet, WIDTH, finish, heading, in_the_middle, legend,
};
use crate::chart::elements::style::{BLACK, GRID, HELPS, Look, QUIET, SHORT, WHITE};
use crate::chart::elements::svg::{Anchor, Area, Drawing, Stroke, Text};

/// What differs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Measure {
    /// How often the lines run short: differences from -1 to 1, drawn as fires of 100.
    Chance,
    /// The minutes short, mean.
    MinutesShort,
}

impl Measure {
    /// What a difference is multiplied by to be drawn.
    fn times(self) -> f64 {
        match self {
            Measure::Chance => 100.0,
            Measure::MinutesShort => 1.0,
        }
    }

    /// The greatest difference there can be, either way.
    fn most(self) -> f64 {
        match self {
            Measure::Chance => 1.0,
            Measure::MinutesShort => f64::MAX,
        }
    }

    fn axis_title(self) -> &'static str {
        match self {
            Measure::Chance => "change in fires of 100 that run short: to the left is better",
            Measure::MinutesShort => "change of the minutes short, mean: to the left is better",
        }
    }

    fn unit(self) -> &'static str {
        match self {
            Measure::Chance => "fires of 100",
            Measure::MinutesShort => "min",
        }
    }
}

/// One difference, in the unit of what is measured.
#[derive(Debug, Clone, PartialEq)]
pub struct Point {
    /// The observed difference.
    pub by: f64,
    /// Lower end of its interval.
    pub low: f64,
    /// Upper end.
    pub high: f64,
    /// Which way what is changed was moved.
    pub way: Way,
    /// By how much and which way, at its right: "100 gpm more", "10% slower".
    pub moved: String,
}

/// One line of the chart.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// What is changed.
    pub label: String,
    /// The differences it makes; none if there are none to show.
    pub points: Vec<Point>,
}

/// The words of the chart.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Words<'w> {
    /// What differs.
    pub measure: Measure,
    /// What stands over the words at the right.
    pub moved: &'w str,
}

const LEFT: f64 = 214.0;
const RIGHT: f64 = WIDTH - MARGIN - 130.0;
const LABEL: Text = Text::of(13.0).at(Anchor::End);
const NOTE: Text = Text::of(13.0);
const WHISKER: Stroke = Stroke::of(BLACK, 1.5);
/// Height of a line with one mark, and what a second mark adds, px.
const ROW: f64 = 30.0;
const SECOND: f64 = 16.0;

/// By its effect, not by what was expected of it.
fn look(by: f64) -> Look {
    if by <= 0.0 { HELPS } else { SHORT }
}

/// Draws the chart.
///
/// - Errors: [`ChartError::BadNumber`] for a difference of chances beyond -1 to 1, or NaN.
pub fn chart(lines: &[Line], words: Words<'_>, sheet: &Sheet<'_>) -> Result<String, ChartError> {
    for line in lines {
        for point in &line.points {
            for value in [point.by, point.low, point.high] {
                if !(-words.measure.most()..=words.measure.most()).contains(&value) {
                    return Err(ChartError::BadNumber {
                        what: format!("the difference for {}", line.label),
                        value,
                        limit: match words.measure {
                            Measure::Chance => "from -1 to 1",
                            Measure::MinutesShort => "a number",
                        },
                    });
                }
            }
        }
    }
    let mut drawing = Drawing::new(WIDTH);
    let top = heading(&mut drawing, sheet) + 18.0;
    drawing.text(RIGHT + 14.0, top - 6.0, words.moved, Text::of(AXIS_TEXT));
    let heights: Vec<f64> = lines.iter().map(height).collect();
    let bottom = top + heights.iter().sum::<f64>().max(2.0 * ROW) + 8.0;
    let x = scale(lines, words.measure);
    let step = round_step(x.high - x.low, 8.0);
    axis(&mut drawing, x, step, (top, bottom), words.measure);
    if lines.is_empty() {
        let area = Area { x: LEFT, y: top, width: RIGHT - LEFT, height: bottom - top };
        in_the_middle(&mut drawing, area, "nothing to compare");
    }
    let mut y = top + 4.0;
    for (line, height) in lines.iter().zip(heights) {
        draw(&mut drawing, x, (y, height), line, words.measure);
        y += height;
    }
    let style = Text::of(AXIS_TEXT).at(Anchor::Middle);
    let title = words.measure.axis_title();
    drawing.text(f64::midpoint(LEFT, RIGHT), bottom + 36.0, title, style);
    let mut end = bottom + 46.0;
    end = way_legend(&mut drawing, end, lines);
    let mut entries = Vec::new();
    for (by, name) in [(-1.0, "helps"), (1.0, "hurts")] {
        if lines.iter().flat_map(|line| &line.points).any(|point| look(point.by) == look(by)) {
            entries.push((Sample::Box(look(by)), name.to_owned()));
        }
    }
    entries.push((Sample::Line(WHISKER), "95% interval".to_owned()));
    let end = legend(&mut drawing, end, &entries);
    Ok(finish(drawing, end, sheet))
}

/// What the shapes of the marks mean, of those that are there; of what and by how much stands beside each.
///
/// - Returns: where that ends, px.
fn way_legend(drawing: &mut Drawing, y: f64, lines: &[Line]) -> f64 {
    let mut x = MARGIN + 8.0;
    let y = y + 10.0;
    for (way, words) in [
        (Way::More, "moved up"),
        (Way::Less, "moved down"),
        (Way::Instead, "something else instead"),
    ] {
        if !lines.iter().flat_map(|line| &line.points).any(|point| point.way == way) {
            continue;
        }
        draw_mark(drawing, (x, y), way, Look::plain(WHITE), "");
        let style = Text::of(AXIS_TEXT);
        drawing.text(x + 14.0, y + 4.5, words, style);
        x += style.width(words) + 42.0;
    }
    y + 8.0
}

/// A triangle that points up for more and down for less; a square for something else.
fn draw_mark(drawing: &mut Drawing, (x, y): (f64, f64), way: Way, look: Look, says: &str) {
    const R: f64 = 7.0;
    let mut points = match way {
        Way::More => vec![(x, y - R), (x + R, y + R * 0.8), (x - R, y + R * 0.8)],
        Way::Less => vec![(x, y + R), (x + R, y - R * 0.8), (x - R, y - R * 0.8)],
        Way::Instead => {
            let r = 0.8 * R;
            vec![(x - r, y - r), (x + r, y - r), (x + r, y + r), (x - r, y + r)]
        }
    };
    drawing.shape(&points, look, "");
    points.push(points[0]);
    drawing.path(&points, Stroke::of(BLACK, 1.0), says);
}

fn label_lines(line: &Line) -> Vec<String> {
    font::wrap(&line.label, LABEL.size, LABEL.weight, LEFT - MARGIN - 14.0, 3)
}

fn height(line: &Line) -> f64 {
    let marks = ROW + SECOND * line.points.len().saturating_sub(1) as f64;
    marks.max(16.0 * label_lines(line).len() as f64 + 8.0)
}

/// From below the least to above the greatest end, always including zero.
fn scale(lines: &[Line], measure: Measure) -> Scale {
    let ends = || lines.iter().flat_map(|line| &line.points).flat_map(|p| [p.low, p.high, p.by]);
    let low = ends().fold(0.0, f64::min);
    let high = ends().fold(0.0, f64::max);
    // A chart without differences still has a width: a percentage point, or a hundredth of a minute.
    let span = (high - low).max(0.01);
    let step = round_step(span, 8.0);
    Scale {
        low: (step * (low / step - 0.25).floor()).max(-measure.most()),
        high: (step * (high / step + 0.25).ceil()).min(measure.most()),
        from: LEFT,
        to: RIGHT,
    }
}

fn axis(drawing: &mut Drawing, x: Scale, step: f64, (top, bottom): (f64, f64), measure: Measure) {
    let style = Text::of(AXIS_TEXT).at(Anchor::Middle);
    let digits = match step * measure.times() {
        whole if whole >= 0.99 => 0,
        tenths if tenths >= 0.099 => 1,
        _ => 2,
    };
    for value in x.ticks(step) {
        let at = x.at(value);
        drawing.line((at, top), (at, bottom), Stroke::of(GRID, 1.0));
        let points = if value.abs() < step / 2.0 { 0.0 } else { measure.times() * value };
        let sign = if points > 0.0 { "+" } else { "" };
        drawing.text(at, bottom + 17.0, &format!("{sign}{points:.digits$}"), style);
    }
    drawing.line((x.from, bottom), (x.to, bottom), Stroke::of(QUIET, 1.0));
    drawing.line((x.at(0.0), top), (x.at(0.0), bottom), Stroke::of(BLACK, 1.25).dashed("5 3"));
}

fn draw(drawing: &mut Drawing, x: Scale, (y, height): (f64, f64), line: &Line, measure: Measure) {
    let middle = y + height / 2.0;
    let label = label_lines(line);
    for (place, text) in label.iter().enumerate() {
        let shift = 16.0 * (place as f64 - (label.len() as f64 - 1.0) / 2.0);
        drawing.text(LEFT - 14.0, middle + shift + 4.5, text, LABEL);
    }
    let between = 2.0 * SECOND * 0.75;
    let first = middle - between * (line.points.len().saturating_sub(1)) as f64 / 2.0;
    for (place, point) in line.points.iter().enumerate() {
        let at = first + between * place as f64;
        drawing.line((x.at(point.low), at), (x.at(point.high), at), WHISKER);
        for end in [point.low, point.high] {
            drawing.line((x.at(end), at - 5.0), (x.at(end), at + 5.0), WHISKER);
        }
        let says = format!(
            "{}: {:+.1} {}, {:+.1} to {:+.1}",
            line.label,
            measure.times() * point.by,
            measure.unit(),
            measure.times() * point.low,
            measure.times() * point.high
        );
        draw_mark(drawing, (x.at(point.by), at), point.way, look(point.by), &says);
        moved(drawing, at, &point.moved, line.points.len());
    }
}

/// What was moved, at the right of its mark: on two lines where the mark has the row for itself.
fn moved(drawing: &mut Drawing, at: f64, words: &str, marks: usize) {
    let room = WIDTH - MARGIN - RIGHT - 14.0;
    let told = font::wrap(words, NOTE.size, NOTE.weight, room, if marks > 1 { 1 } else { 2 });
    for (place, text) in told.iter().enumerate() {
        let shift = 16.0 * (place as f64 - (told.len() as f64 - 1.0) / 2.0);
        drawing.text(RIGHT + 14.0, at + shift + 4.5, text, NOTE);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chart::demo::SHEET;
    use crate::chart::drawn::{assert_texts_are_apart, marks, texts};

    const WORDS: Words<'static> = Words { measure: Measure::Chance, moved: "moved by" };

    fn line(label: &str, by: f64) -> Line {
        let point = |by: f64, way, moved: &str| Point {
            by,
            low: by - 0.01,
            high: by + 0.01,
            way,
            moved: moved.to_owned(),
        };
        let points =
            vec![point(by, Way::More, "100 gpm more"), point(-by, Way::Less, "100 gpm less")];
        Line { label: label.to_owned(), points }
    }

    #[test]
    fn marks_lie_in_proportion_to_their_differences_and_point_the_way_they_were_moved() {
        let lines = [line("a", -0.2), line("b", 0.1)];
        let svg = chart(&lines, WORDS, &SHEET).expect("a chart");
        let drawn = marks(&svg, "fires of 100");
        assert_eq!(drawn.len(), 4);
        let tip = |place: usize| drawn[place][0];
        // -20, +20, +10, -10 fires of 100.
        let apart = |a: usize, b: usize| tip(a).0 - tip(b).0;
        assert!((apart(1, 0) / apart(2, 3) - 2.0).abs() < 0.01, "{drawn:?}");
        // The tip of "more" lies above its base, that of "less" below.
        assert!(tip(0).1 < drawn[0][1].1 && tip(1).1 > drawn[1][1].1, "{drawn:?}");
        let words = texts(&svg);
        for wanted in [
            "a",
            "b",
            "100 gpm more",
            "100 gpm less",
            "0",
            "95% interval",
            "moved up",
            "moved down",
            "helps",
        ] {
            assert!(words.iter().any(|text| text == wanted), "{wanted} is missing in {words:?}");
        }
        assert_texts_are_apart("levers", &svg);
    }

    #[test]
    fn minutes_short_are_drawn_as_they_are() {
        let words = Words { measure: Measure::MinutesShort, ..WORDS };
        let svg = chart(&[line("a", -7.5), line("b", 3.0)], words, &SHEET).expect("a chart");
        assert_eq!(marks(&svg, "a: -7.5 min").len(), 1);
        assert!(texts(&svg).iter().any(|text| text.starts_with("change of the minutes short")));
    }

    #[test]
    fn a_difference_beyond_one_is_refused_by_name() {
        let wrong = chart(&[line("a", 1.2)], WORDS, &SHEET);
        let words = wrong.expect_err("1.2 is no difference").to_string();
        assert!(words.contains("the difference for a") && words.contains("1.2"), "{words}");
        assert!(chart(&[line("a", f64::NAN)], WORDS, &SHEET).is_err());
        assert!(chart(&[], WORDS, &SHEET).is_ok());
    }
}
