//! The clock of a plan on one line of minutes after the alarm: above it how many fires are short at each minute,
//! below it who comes and what is set up when.

use super::super::{ChartError, chance, finite};
use super::SHORT;
use crate::chart::elements::axis::{Scale, minute_step, round_step};
use crate::chart::elements::style::{BLACK, GRID, Look, QUIET, WHITE};
use crate::chart::elements::svg::{Anchor, Area, Drawing, Stroke, Text};

/// What a mark stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// A unit comes: a full triangle.
    Comes,
    /// Something is set up: an empty one.
    SetUp,
    /// Water: a heavy line through the whole.
    Water,
}

/// A moment that is marked.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// Minutes after the alarm.
    pub minute: f64,
    /// What it stands for.
    pub kind: Kind,
    /// What is said of it; nothing for a mark that another one tells of.
    pub label: String,
}

/// The words beside the marks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Words<'a> {
    /// Above the bars.
    pub bars: &'a str,
    /// What the minutes count from.
    pub minutes: &'a str,
    /// What the chart says, for readers who cannot see it.
    pub about: &'a str,
}

const WIDTH: f64 = 1_000.0;
/// Where the line begins and ends: what lies beside it is for the words of early and of late marks.
const LEFT: f64 = 190.0;
const RIGHT: f64 = 730.0;
/// Top and bottom of the bars.
const BARS: (f64, f64) = (38.0, 112.0);
/// Where the marks stand, below the line's numbers.
const MARKS: f64 = BARS.1 + 32.0;
const ROW: f64 = 25.0;
/// The line is at least so long, minutes: it is when most plans fail.
const LEAST: f64 = 45.0;
/// The bars' scale reaches at least so far, so that a seldom shortfall looks like one.
const LEAST_SHARE: f64 = 0.05;
/// From a mark to its label, and from a label to the next stem, px.
const BESIDE: f64 = 13.0;
const CLEAR: f64 = 12.0;
/// Longest label, px.
const LABEL_WIDE: f64 = 330.0;

const LABEL: Text = Text::of(20.0);
const NUMBER: Text = Text::of(20.0).colour(QUIET);
const WATER: Stroke = Stroke::of(BLACK, 3.0).dashed("10 6");
const STEM: Stroke = Stroke::of("#888888", 1.5);

/// Where the line ends, minutes after the alarm.
pub fn last_minute(marks: &[Mark]) -> f64 {
    marks.iter().map(|mark| mark.minute + 1.0).fold(LEAST, f64::max)
}

/// Draws the clock.
///
/// - Given: the share of fires short at each whole minute after the alarm; the marks, in any order.
/// - Errors: [`ChartError::BadNumber`].
pub fn chart(short: &[f64], marks: &[Mark], words: Words) -> Result<String, ChartError> {
    for (minute, share) in short.iter().enumerate() {
        chance(|| format!("the share of fires short at minute {minute}"), *share)?;
    }
    let mut marks = marks.to_vec();
    for mark in &marks {
        finite(&format!("the minute of {}", mark.label), mark.minute)?;
    }
    marks.sort_by(|a, b| a.minute.total_cmp(&b.minute));
    let x = Scale { low: 0.0, high: last_minute(&marks), from: LEFT, to: RIGHT };
    let mut drawing = Drawing::new(WIDTH);
    drawing.text(0.0, 22.0, words.bars, LABEL.semi_bold());
    bars(&mut drawing, x, short);
    numbers(&mut drawing, x, words.minutes);
    let labels = labels(&marks, x);
    let (rows, to_the_left) = rows(&marks, &labels, x);
    for (place, ((mark, label), row)) in marks.iter().zip(&labels).zip(&rows).enumerate() {
        let is_left = place < to_the_left;
        draw_mark(&mut drawing, x.at(mark.minute), mark.kind, (label, is_left), *row);
    }
    let most = rows.iter().map(|row| row + 1).max().unwrap_or(0);
    Ok(drawing.finish(MARKS + 10.0 + ROW * most as f64, words.about, ""))
}

fn bars(drawing: &mut Drawing, x: Scale, short: &[f64]) {
    let shown = &short[..short.len().min(x.high.floor() as usize + 1)];
    let greatest = shown.iter().copied().fold(LEAST_SHARE, f64::max);
    let step = round_step(greatest, 2.0);
    let high = (step * (greatest / step - 1e-9).ceil()).min(1.0);
    let y = Scale { low: 0.0, high, from: BARS.1, to: BARS.0 };
    for value in y.ticks(step).into_iter().filter(|value| *value > 0.0) {
        drawing.line((x.from, y.at(value)), (x.to, y.at(value)), Stroke::of(GRID, 1.5));
        let says = format!("{:.0}", 100.0 * value);
        drawing.text(x.from - 8.0, y.at(value) + 7.0, &says, NUMBER.at(Anchor::End));
    }
    for (minute, share) in shown.iter().enumerate().filter(|(_, share)| **share > 0.0) {
        let minute = minute as f64;
        let (from, to) = (x.at(minute), x.at(minute + 1.0));
        // What happened at all is seen.
        let height = (y.from - y.at(*share)).max(1.5);
        let area = Area { x: from, y: y.from - height, width: to - from, height };
        let says = format!("minute {minute}: {:.2} fires of 100", 100.0 * share);
        drawing.area(area, SHORT, Some(Stroke::of(BLACK, 0.75)), &says);
    }
}

fn numbers(drawing: &mut Drawing, x: Scale, minutes: &str) {
    let line = BARS.1;
    drawing.line((x.from, line), (x.to, line), Stroke::of(BLACK, 3.0));
    for minute in x.ticks(minute_step(x.high, 12.0)) {
        let at = x.at(minute);
        drawing.line((at, line), (at, line + 6.0), Stroke::of(BLACK, 1.5));
        drawing.text(at, line + 25.0, &format!("{minute:.0}"), NUMBER.at(Anchor::Middle));
    }
    drawing.text(x.to + 18.0, line + 25.0, minutes, NUMBER);
}

/// The labels, no longer than there is room for.
fn labels(marks: &[Mark], x: Scale) -> Vec<String> {
    let room = |mark: &Mark| LABEL_WIDE.min(WIDTH - x.at(mark.minute) - BESIDE - 2.0);
    (marks.iter()).map(|mark| LABEL.semi_bold().fit_name(&mark.label, room(mark))).collect()
}

/// The row of each mark, and how many of the first have their words to the left, the rest to the right: as many as
/// leaves the fewest rows.
fn rows(marks: &[Mark], labels: &[String], x: Scale) -> (Vec<usize>, usize) {
    let wide = |place: usize| BESIDE + LABEL.semi_bold().width(&labels[place]);
    let at: Vec<f64> = marks.iter().map(|mark| x.at(mark.minute)).collect();
    let most_left = (0..marks.len()).take_while(|place| wide(*place) <= at[*place]).count();
    let splits = (0..=most_left).map(|split| {
        let mut rows = vec![0; marks.len()];
        // No stem passes through words: a label stands below those whose stems it would run into. A mark without
        // words stands in the first row.
        for place in (0..split).filter(|place| !labels[*place].is_empty()) {
            let begin = at[place] - wide(place);
            let before = (0..place).filter(|one| !labels[*one].is_empty());
            let crossed = before.filter(|one| at[*one] + CLEAR > begin);
            rows[place] = crossed.map(|one| rows[one] + 1).max().unwrap_or(0);
        }
        for place in (split..marks.len()).rev().filter(|place| !labels[*place].is_empty()) {
            let end = at[place] + wide(place);
            let later = (place + 1..marks.len()).filter(|one| !labels[*one].is_empty());
            let crossed = later.filter(|one| at[*one] - CLEAR < end);
            rows[place] = crossed.map(|one| rows[one] + 1).max().unwrap_or(0);
        }
        (rows, split)
    });
    splits.min_by_key(|(rows, _)| rows.iter().max().copied()).unwrap_or_default()
}

fn draw_mark(
    drawing: &mut Drawing,
    at: f64,
    kind: Kind,
    (label, is_left): (&str, bool),
    row: usize,
) {
    let middle = MARKS + 18.0 + ROW * row as f64;
    match kind {
        Kind::Water => drawing.line((at, BARS.0), (at, BARS.1), WATER),
        Kind::Comes | Kind::SetUp => {
            let look = Look::plain(if kind == Kind::Comes { BLACK } else { WHITE });
            let outline = [(at, MARKS - 8.0), (at - 7.0, MARKS + 5.0), (at + 7.0, MARKS + 5.0)];
            drawing.shape(&outline, look, "");
            let closed = [outline[0], outline[1], outline[2], outline[0]];
            drawing.path(&closed, Stroke::of(BLACK, 1.5), "");
        }
    }
    if label.is_empty() {
        return;
    }
    let (from, stroke) = match kind {
        Kind::Water => (MARKS - 6.0, Stroke::of(BLACK, 3.0)),
        Kind::Comes | Kind::SetUp => (MARKS + 5.0, STEM),
    };
    drawing.line((at, from), (at, middle), stroke);
    let style = if kind == Kind::Water { LABEL.semi_bold() } else { LABEL };
    let (side, anchor) = if is_left { (-1.0, Anchor::End) } else { (1.0, Anchor::Start) };
    drawing.line((at, middle), (at + side * 8.0, middle), stroke);
    drawing.text(at + side * BESIDE, middle + 7.0, label, style.at(anchor));
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chart::drawn::{areas, texts};

    const WORDS: Words = Words { bars: "short", minutes: "minutes after the alarm", about: "" };

    fn mark(minute: f64, label: &str) -> Mark {
        Mark { minute, kind: Kind::Comes, label: label.to_owned() }
    }

    #[test]
    fn bars_stand_at_their_minutes_as_high_as_their_shares() {
        let mut short = vec![0.0; 40];
        (short[10], short[30]) = (0.2, 0.1);
        let svg = chart(&short, &[mark(8.0, "Engine 3")], WORDS).expect("a chart");
        let bars: Vec<_> =
            areas(&svg).into_iter().filter(|one| one.says.starts_with("minute")).collect();
        assert_eq!(bars.len(), 2);
        assert!((bars[0].height / bars[1].height - 2.0).abs() < 0.01);
        let per_minute = (bars[1].x - bars[0].x) / 20.0;
        assert!((per_minute - (RIGHT - LEFT) / LEAST).abs() < 0.01, "{per_minute}");
        assert!(chart(&[1.5], &[], WORDS).is_err());
        assert!(chart(&[], &[mark(f64::NAN, "x")], WORDS).is_err());
    }

    /// No two labels and no stem and label share a place, however close the moments are.
    #[test]
    fn labels_lie_clear_of_each_other_and_of_the_sheets_edge() {
        let names = ["Tanker 5", "Tamarack County Tanker 14"];
        let marks: Vec<Mark> = (0..12)
            .map(|place| mark(8.0 + 3.2 * f64::from(place), names[usize::from(place % 2 == 1)]))
            .collect();
        let x = Scale { low: 0.0, high: LEAST, from: LEFT, to: RIGHT };
        let style = LABEL.semi_bold();
        let labels = labels(&marks, x);
        let (rows, split) = rows(&marks, &labels, x);
        assert!(split > 0, "the first has its words to the left");
        let area = |place: usize| {
            let (at, wide) = (x.at(marks[place].minute), BESIDE + style.width(&labels[place]));
            if place < split { (at - wide, at) } else { (at, at + wide) }
        };
        for (place, row) in rows.iter().enumerate() {
            let (from, to) = area(place);
            assert!(from >= 0.0 && to <= WIDTH, "{from} to {to}");
            for other in (0..marks.len()).filter(|other| *other != place) {
                // A stem goes down to its row, and its label stands there.
                let (stem, other_area) = (x.at(marks[other].minute), area(other));
                let is_clear = to < other_area.0 || from > other_area.1;
                assert!(rows[other] != *row || is_clear, "{place} and {other}");
                assert!(rows[other] < *row || stem < from || stem > to, "{other} through {place}");
            }
        }
        assert!(rows.iter().max() < Some(&9), "{rows:?}");
        let svg = chart(&[], &marks, WORDS).expect("a chart");
        assert_eq!(texts(&svg).iter().filter(|text| *text == "Tanker 5").count(), 6);
    }

    #[test]
    fn a_late_mark_makes_the_line_longer_and_one_without_words_takes_no_row() {
        let svg =
            chart(&[], &[mark(80.0, "last of 30 tankers"), mark(9.0, "")], WORDS).expect("a chart");
        let words = texts(&svg);
        assert!(words.contains(&"75".to_owned()) || words.contains(&"80".to_owned()), "{words:?}");
        let one = chart(&[], &[mark(80.0, "last of 30 tankers")], WORDS).expect("a chart");
        let tall = |svg: &str| {
            svg.split("viewBox=\"").nth(1).map(|rest| rest.split('"').next().map(str::to_owned))
        };
        assert_eq!(tall(&svg), tall(&one));
    }
}
