//! Differences of a chance, or of the minutes short, from the plan as it stands, one line each, with
//! their intervals.

use crate::chart::ChartError;
use crate::chart::elements::axis::{AXIS_TEXT, Scale, round_step};
use crate::chart::elements::font;
use crate::chart::elements::heading_and_foot::{
    MARGIN, Sample, WIDTH, finish, heading, in_the_middle, legend,
};
use crate::chart::elements::style::{BLACK, BLUE, GRID, Hatch, Look, QUIET, VERMILLION, WHITE};
use crate::chart::elements::svg::{Anchor, Area, Drawing, Stroke, Text};

/// Which of the marks on a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mark {
    /// The only one, or the one that should help.
    First,
    /// The one that should hinder.
    Second,
}

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
            Measure::Chance => {
                "change of how often the lines run short, fires of 100: lower is better"
            }
            Measure::MinutesShort => "change of the minutes short, mean: lower is better",
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
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    /// The observed difference.
    pub by: f64,
    /// Lower end of its interval.
    pub low: f64,
    /// Upper end.
    pub high: f64,
    /// How it is marked.
    pub mark: Mark,
}

/// One line of the chart.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// What is changed.
    pub label: String,
    /// The differences it makes; none if there are none to show.
    pub points: Vec<Point>,
    /// What stands at the right: "8.1%", "not clear".
    pub note: String,
}

/// The words of the chart.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Words<'w> {
    /// What differs.
    pub measure: Measure,
    /// The plan's title.
    pub title: &'w str,
    /// What the chart shows.
    pub shows: &'w str,
    /// Names of the marks; of one mark only where the second is empty.
    pub marks: [&'w str; 2],
    /// What stands over the notes.
    pub notes: &'w str,
    /// Runs and seed, for the foot.
    pub made_from: &'w str,
}

const LEFT: f64 = 300.0;
const RIGHT: f64 = WIDTH - MARGIN - 130.0;
const LABEL: Text = Text::of(13.0).at(Anchor::End);
const NOTE: Text = Text::of(13.0);
const WHISKER: Stroke = Stroke::of(BLACK, 1.5);
/// Height of a line with one mark, and what a second mark adds, px.
const ROW: f64 = 26.0;
const SECOND: f64 = 12.0;

fn look(mark: Mark) -> Look {
    match mark {
        Mark::First => Look::plain(BLUE),
        Mark::Second => Look::hatched(VERMILLION, Hatch::Rising, WHITE),
    }
}

/// Draws the chart.
///
/// - Errors: [`ChartError::BadNumber`] for a difference of chances beyond -1 to 1, or NaN.
pub fn chart(lines: &[Line], words: Words<'_>) -> Result<String, ChartError> {
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
    let top = heading(&mut drawing, words.title, words.shows) + 18.0;
    drawing.text(RIGHT + 14.0, top - 6.0, words.notes, Text::of(AXIS_TEXT));
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
    let mut entries = Vec::new();
    for (name, mark) in words.marks.into_iter().zip([Mark::First, Mark::Second]) {
        if !name.is_empty() {
            entries.push((Sample::Box(look(mark)), name.to_owned()));
        }
    }
    entries.push((Sample::Line(WHISKER), "95% interval".to_owned()));
    let end = legend(&mut drawing, bottom + 48.0, &entries);
    Ok(finish(drawing, end, words.title, words.made_from))
}

fn label_lines(line: &Line) -> Vec<String> {
    font::wrap(&line.label, LABEL.size, LABEL.weight, LEFT - MARGIN - 14.0, 2)
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
        let area = Area { x: x.at(point.by) - 5.0, y: at - 5.0, width: 10.0, height: 10.0 };
        drawing.area(area, look(point.mark), Some(Stroke::of(BLACK, 1.0)), &says);
    }
    let room = WIDTH - MARGIN - RIGHT - 14.0;
    drawing.text(RIGHT + 14.0, middle + 4.5, &NOTE.fit(&line.note, room), NOTE);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chart::tests::{areas, texts};

    const WORDS: Words<'static> = Words {
        measure: Measure::Chance,
        title: "Hay barn",
        shows: "What is shown.",
        marks: ["option", ""],
        notes: "chance",
        made_from: "10,000 runs, seed 7.",
    };

    fn line(label: &str, by: f64) -> Line {
        let point = Point { by, low: by - 0.01, high: by + 0.01, mark: Mark::First };
        Line { label: label.to_owned(), points: vec![point], note: "8.1%".to_owned() }
    }

    #[test]
    fn marks_lie_in_proportion_to_their_differences() {
        let lines = [line("a", -0.2), line("b", 0.0), line("c", 0.1)];
        let svg = chart(&lines, WORDS).expect("a chart");
        let marks: Vec<f64> = (areas(&svg).iter().filter(|one| one.says.contains("fires of 100")))
            .map(|one| one.x)
            .collect();
        assert_eq!(marks.len(), 3);
        assert!(((marks[1] - marks[0]) / (marks[2] - marks[1]) - 2.0).abs() < 0.01, "{marks:?}");
        let words = texts(&svg);
        for wanted in ["a", "b", "c", "8.1%", "0", "95% interval", "10,000 runs, seed 7."] {
            assert!(words.iter().any(|text| text == wanted), "{wanted} is missing in {words:?}");
        }
    }

    #[test]
    fn minutes_short_are_drawn_as_they_are() {
        let words = Words { measure: Measure::MinutesShort, ..WORDS };
        let svg = chart(&[line("a", -7.5), line("b", 3.0)], words).expect("a chart");
        let says: Vec<String> = areas(&svg).iter().map(|one| one.says.clone()).collect();
        assert!(says.iter().any(|text| text.starts_with("a: -7.5 min")), "{says:?}");
        assert!(texts(&svg).iter().any(|text| text.starts_with("change of the minutes short")));
    }

    #[test]
    fn a_difference_beyond_one_is_refused_by_name() {
        let words = chart(&[line("a", 1.2)], WORDS).expect_err("1.2 is no difference").to_string();
        assert!(words.contains("the difference for a") && words.contains("1.2"), "{words}");
        assert!(chart(&[line("a", f64::NAN)], WORDS).is_err());
        assert!(chart(&[], WORDS).is_ok());
    }
}
