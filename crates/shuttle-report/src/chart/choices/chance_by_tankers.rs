//! The chance of an interruption and the minutes short, by number of tankers.

use crate::chart::elements::axis::{AXIS_TEXT, Scale, round_step, spread_apart, value_axis};
use crate::chart::elements::font;
use crate::chart::elements::heading_and_foot::{
    MARGIN, Sample, Sheet, WIDTH, finish, heading, in_the_middle, legend,
};
use crate::chart::elements::style::{BLACK, GREEN, Hatch, Look, QUIET, SHORT, VERMILLION, WHITE};
use crate::chart::elements::svg::{Anchor, Area, Drawing, Stroke, Text};
use crate::chart::{ChartError, chance, finite};
use crate::units::{minutes, percent, whole};

/// Who the last tanker of a number is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Who {
    /// It comes anyway.
    Own,
    /// It is listed as aid.
    Aid,
    /// Nobody has it to send.
    Invented,
}

/// One number of tankers.
#[derive(Debug, Clone, PartialEq)]
pub struct FleetPoint {
    /// How many tankers.
    pub tankers: usize,
    /// The name of the tanker that this one adds to the one before.
    pub label: String,
    /// Who that is.
    pub who: Who,
    /// Minutes short a fire, mean.
    pub minutes_short: f64,
    /// Runs made; 0 if with so few tankers the plan cannot work at all, and the chances then
    /// count for nothing.
    pub runs: u64,
    /// Chance of an interruption, 0 to 1.
    pub probability: f64,
    /// Lower end of its 95% interval, 0 to 1.
    pub low: f64,
    /// Upper end of its 95% interval, 0 to 1.
    pub high: f64,
}

const LEFT: f64 = 62.0;
const PLOT_HEIGHT: f64 = 210.0;
/// Height of the panel of minutes short, px.
const MINUTES_HEIGHT: f64 = 100.0;
/// Columns at least this wide have their name set horizontally, px.
const WIDE_COLUMN: f64 = 88.0;
/// Room for a slanting name along its slope, px.
const SLANTING_NAME: f64 = 130.0;
/// Slope of slanting names, degrees.
const SLANT: f64 = -40.0;

const NUMBER: Text = Text::of(13.0).semi_bold().at(Anchor::Middle);
const NAME: Text = Text::of(AXIS_TEXT).at(Anchor::Middle);
const TARGET: Stroke = Stroke::of(BLACK, 2.0).dashed("8 4");
/// A number with tankers that nobody has to send.
const INVENTED: Look = Look::hatched(WHITE, Hatch::Rising, VERMILLION);
/// The ground of the answer.
const ANSWER: Look = Look::plain("#DFF2EA");
const ANSWER_OUTLINE: Stroke = Stroke::of(GREEN, 2.0);

/// Draws the chart.
///
/// - Given: `rows` in rising order of tankers; `target`, the chance to stay below, 0 to 1; `answer`, the number to
///   ask for; `words`,
///   the reader's for a truck that carries water: one, several.
/// - Errors: [`ChartError::BadNumber`] for a chance beyond 0 to 1.
pub fn chart(
    rows: &[FleetPoint],
    (target, answer): (Option<f64>, Option<usize>),
    words: [&str; 2],
    sheet: &Sheet<'_>,
) -> Result<String, ChartError> {
    for row in rows.iter().filter(|row| row.runs > 0) {
        for (which, value) in
            [("chance", row.probability), ("lower end", row.low), ("upper end", row.high)]
        {
            chance(|| format!("the {which} for {} {}", row.tankers, words[1]), value)?;
        }
    }
    if let Some(target) = target {
        chance(|| "the target".to_owned(), target)?;
    }
    let mut drawing = Drawing::new(WIDTH);
    for row in rows.iter().filter(|row| row.runs > 0) {
        finite(&format!("the minutes short with {} {}", row.tankers, words[1]), row.minutes_short)?;
    }
    // The target's label stands to the right of the columns.
    let right = WIDTH - MARGIN - if target.is_some() { 92.0 } else { 0.0 };
    let width = (right - LEFT) / rows.len().max(1) as f64;
    let number_style = number_style(rows, width);
    // Upright numbers stand far above their columns.
    let above = if number_style.is_none() { 54.0 } else { 18.0 };
    let top = heading(&mut drawing, sheet) + 22.0 + above;
    let y = chance_scale(rows, target, top);
    let minutes_top = y.from + 40.0;
    let low = minutes_scale(rows, minutes_top);
    let middle = |place: usize| LEFT + (place as f64 + 0.5) * width;
    if let Some(place) = rows.iter().position(|row| Some(row.tankers) == answer) {
        let x = middle(place) - 0.5 * width;
        let y = top - 16.0 - above;
        let area = Area { x, y, width, height: low.from + 24.0 - y };
        let says = format!("the answer: {}", rows[place].tankers);
        drawing.area(area, ANSWER, Some(ANSWER_OUTLINE), &says);
    }
    let step = round_step(y.high, 6.0);
    heading_of_panel(&mut drawing, top - above, "Fires of 100 that run short");
    value_axis(&mut drawing, y, LEFT, right, step, |value| chance_tick(value, step));
    if let Some(target) = target {
        draw_target(&mut drawing, y, right, target);
    }
    heading_of_panel(&mut drawing, minutes_top, "Minutes short a fire, mean");
    let step = round_step(low.high, 3.0);
    let digits = usize::from(step < 1.0);
    value_axis(&mut drawing, low, LEFT, right, step, |value| format!("{value:.digits$}"));
    if rows.is_empty() {
        let area = Area { x: LEFT, y: top, width: right - LEFT, height: PLOT_HEIGHT };
        in_the_middle(&mut drawing, area, &format!("no number of {} was tried", words[1]));
    }
    // Where columns are narrower than their numbers, not every one is named.
    let every = (20.0 / width).ceil().max(1.0) as usize;
    for (place, row) in rows.iter().enumerate() {
        let x = middle(place);
        draw_column(&mut drawing, y, (x, width), number_style, row, words);
        draw_minutes(&mut drawing, low, (x, width), row);
        if place % every == 0 {
            draw_name(&mut drawing, low.from, x, width, row);
        }
    }
    for floor in [y.from, low.from] {
        drawing.line((LEFT, floor), (right, floor), Stroke::of(QUIET, 1.0));
    }
    let names_end = low.from
        + if width >= WIDE_COLUMN {
            let lines = rows.iter().map(|row| name_lines(row, width).len()).max().unwrap_or(1);
            28.0 + 15.0 * lines as f64
        } else {
            30.0 + SLANTING_NAME * 0.7
        };
    let x_title = format!("{}, and the one that the number adds", words[1]);
    drawing.text(f64::midpoint(LEFT, right), names_end + 14.0, &x_title, NAME);
    let mut entries = Vec::new();
    if rows.iter().any(|row| row.who != Who::Invented) {
        entries.push((Sample::Box(SHORT), format!("{} you have or can ask for", words[1])));
    }
    if rows.iter().any(|row| row.who == Who::Invented) {
        let more = "others like the last, not yours to ask for yet".to_owned();
        entries.push((Sample::Box(INVENTED), more));
    }
    if rows.iter().any(|row| Some(row.tankers) == answer) {
        entries.push((Sample::Box(ANSWER), "the answer".to_owned()));
    }
    entries.push((Sample::Line(Stroke::of(BLACK, 1.5)), "95% interval".to_owned()));
    if target.is_some() {
        entries.push((Sample::Line(TARGET), "target to stay below".to_owned()));
    }
    let end = legend(&mut drawing, names_end + 24.0, &entries);
    Ok(finish(drawing, end, sheet))
}

fn heading_of_panel(drawing: &mut Drawing, y: f64, says: &str) {
    drawing.text(LEFT, y - 6.0, says, Text::of(13.0).semi_bold());
}

/// From 0 to a round number of minutes above everything shown.
fn minutes_scale(rows: &[FleetPoint], top: f64) -> Scale {
    let shown = rows.iter().filter(|row| row.runs > 0).map(|row| row.minutes_short);
    let greatest = shown.fold(1.0, f64::max);
    let step = round_step(greatest, 3.0);
    // Room for the number over the highest column.
    let high = step * (1.25 * greatest / step - 1e-9).ceil();
    Scale { low: 0.0, high, from: top + MINUTES_HEIGHT, to: top + 2.0 }
}

fn column_look(row: &FleetPoint) -> Look {
    match row.who {
        Who::Own | Who::Aid => SHORT,
        Who::Invented => INVENTED,
    }
}

fn draw_minutes(drawing: &mut Drawing, y: Scale, (x, width): (f64, f64), row: &FleetPoint) {
    if row.runs == 0 {
        return;
    }
    let half = (0.3 * width).min(34.0);
    let height = (y.from - y.at(row.minutes_short)).max(0.5);
    let area = Area { x: x - half, y: y.from - height, width: 2.0 * half, height };
    let number = minutes(row.minutes_short);
    let says = format!("{}: {number} minutes short", row.tankers);
    drawing.area(area, column_look(row), Some(Stroke::of(BLACK, 1.0)), &says);
    let style = Text { size: 12.0, ..NUMBER };
    if style.width(&number) + 4.0 <= width {
        drawing.boxed_text(x, area.y - 9.0, &number, style);
    }
}

/// From 0 to a round number above everything shown.
fn chance_scale(rows: &[FleetPoint], target: Option<f64>, top: f64) -> Scale {
    let shown = rows.iter().filter(|row| row.runs > 0).map(|row| row.high.max(row.probability));
    let greatest = shown.chain(target).fold(0.01, f64::max);
    let step = round_step(greatest, 6.0);
    Scale {
        low: 0.0,
        high: (step * (1.04 * greatest / step).ceil()).min(1.0),
        from: top + PLOT_HEIGHT,
        to: top,
    }
}

/// A tick's percentage with the digits its step needs.
fn chance_tick(value: f64, step: f64) -> String {
    let digits = if step >= 0.0099 { 0 } else { 1 };
    format!("{:.digits$}", 100.0 * value)
}

fn draw_target(drawing: &mut Drawing, y: Scale, right: f64, target: f64) {
    let at = y.at(target);
    drawing.line((LEFT, at), (right, at), TARGET);
    let style = Text::of(13.0).semi_bold();
    let digits = (0..4).find(|digits| {
        let shown = 100.0 * target * 10f64.powi(*digits);
        (shown - shown.round()).abs() < 1e-6
    });
    let label = format!("{:.*}%", digits.unwrap_or(4) as usize, 100.0 * target);
    let lines = spread_apart(&[at - 4.0, at + 11.0], 15.0, y.to + 4.0, y.from + 4.0);
    drawing.text(right + 8.0, lines[0], "target: below", style);
    drawing.text(right + 8.0, lines[1], &label, style);
}

/// The same for all columns: as large as fits, or vertical (`None`) where nothing does.
fn number_style(rows: &[FleetPoint], width: f64) -> Option<Text> {
    let sizes = [NUMBER, Text { size: AXIS_TEXT, ..NUMBER }];
    sizes.into_iter().find(|style| {
        let room = width - 2.0;
        rows.iter().all(|row| style.width(&percent(row.probability, row.runs)) + 6.0 <= room)
    })
}

fn draw_column(
    drawing: &mut Drawing,
    y: Scale,
    (x, width): (f64, f64),
    number_style: Option<Text>,
    row: &FleetPoint,
    words: [&str; 2],
) {
    let half = (0.3 * width).min(34.0);
    if row.runs == 0 {
        drawing.boxed_upright_text(x, y.from - 8.0, "the plan cannot work", NUMBER);
    } else {
        let number = percent(row.probability, row.runs);
        let area = Area {
            x: x - half,
            y: y.at(row.probability),
            width: 2.0 * half,
            height: y.from - y.at(row.probability),
        };
        let says = format!(
            "{} {}: {number}, 95% interval {} to {}",
            row.tankers,
            if row.tankers == 1 { words[0] } else { words[1] },
            percent(row.low, row.runs),
            percent(row.high, row.runs)
        );
        drawing.area(area, column_look(row), Some(Stroke::of(BLACK, 1.0)), &says);
        let whisker = Stroke::of(BLACK, 1.5);
        let (low, high) = (y.at(row.low), y.at(row.high));
        drawing.line((x, low), (x, high), whisker);
        let cap = (0.4 * half).min(8.0);
        for end in [low, high] {
            drawing.line((x - cap, end), (x + cap, end), whisker);
        }
        match number_style {
            Some(style) => drawing.boxed_text(x, high.min(area.y) - 12.0, &number, style),
            None => drawing.boxed_upright_text(
                x,
                high.min(area.y) - 6.0,
                &number,
                Text { size: 12.0, ..NUMBER },
            ),
        }
    }
}

/// The name under a wide column.
fn name_lines(row: &FleetPoint, width: f64) -> Vec<String> {
    font::wrap(&row.label, NAME.size, NAME.weight, width - 8.0, 2)
}

/// The number of tankers below its column, and the name of the one it adds.
fn draw_name(drawing: &mut Drawing, floor: f64, x: f64, width: f64, row: &FleetPoint) {
    drawing.text(x, floor + 18.0, &whole(row.tankers as f64), NUMBER);
    if width >= WIDE_COLUMN {
        for (line, text) in name_lines(row, width).iter().enumerate() {
            drawing.text(x, floor + 36.0 + 15.0 * line as f64, text, NAME);
        }
    } else {
        let style = NAME.at(Anchor::End).turned(SLANT);
        // A name near the left edge has only the room up to it.
        let room = SLANTING_NAME.min((x - 4.0) / SLANT.to_radians().cos());
        drawing.text(x + 5.0, floor + 34.0, &style.fit_name(&row.label, room), style);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chart::demo::SHEET;
    use crate::chart::drawn::{areas, texts};

    const TENDERS: [&str; 2] = ["tender", "tenders"];

    fn point(tankers: usize, probability: f64) -> FleetPoint {
        FleetPoint {
            tankers,
            label: format!("Tamarack Tanker {tankers}"),
            who: if tankers > 3 { Who::Invented } else { Who::Own },
            minutes_short: 20.0 * probability,
            runs: 10_000,
            probability,
            low: (probability - 0.02).max(0.0),
            high: (probability + 0.02).min(1.0),
        }
    }

    #[test]
    fn each_number_of_tankers_shows_its_chance_and_its_name() {
        let rows = [point(2, 0.412), point(3, 0.172), point(4, 0.0)];
        let svg = chart(&rows, (Some(0.05), Some(3)), TENDERS, &SHEET).expect("a chart");
        let words = texts(&svg);
        for wanted in ["41.2%", "17.2%", "0.0%", "Tamarack Tanker 3", "4", "target: below", "5%"] {
            assert!(words.iter().any(|text| text == wanted), "{wanted} is missing in {words:?}");
        }
        let has = |part: &str| words.iter().any(|text| text.contains(part));
        assert!(has("not yours to ask for yet") && has("tenders, and the one"), "{words:?}");
    }

    #[test]
    fn columns_are_as_high_as_their_chances() {
        let rows = [point(1, 0.6), point(2, 0.3), point(3, 0.1)];
        let svg = chart(&rows, (None, None), TENDERS, &SHEET).expect("a chart");
        let heights: Vec<f64> =
            (areas(&svg).iter().filter(|one| one.says.contains("95% interval")))
                .map(|one| one.height)
                .collect();
        assert_eq!(heights.len(), 3);
        assert!(
            (heights[0] / heights[1] - 2.0).abs() < 0.01
                && (heights[1] / heights[2] - 3.0).abs() < 0.01
        );
    }

    #[test]
    fn the_answer_is_marked_and_minutes_are_drawn_to_scale() {
        // Every fire is short; only the minutes tell the numbers apart.
        let rows = [point(1, 1.0), point(2, 1.0), point(3, 1.0)];
        let mut rows = rows.to_vec();
        rows[1].minutes_short = 10.0;
        rows[2].minutes_short = 5.0;
        let svg = chart(&rows, (Some(0.05), Some(2)), TENDERS, &SHEET).expect("a chart");
        let drawn = areas(&svg);
        let of = |says: &str| drawn.iter().find(|one| one.says == says).expect("drawn");
        let heights: Vec<f64> = ["1: 20.0", "2: 10.0", "3: 5.0"]
            .map(|says| of(&format!("{says} minutes short")).height)
            .to_vec();
        assert!((heights[0] / heights[1] - 2.0).abs() < 0.01, "{heights:?}");
        assert!((heights[1] / heights[2] - 2.0).abs() < 0.01, "{heights:?}");
        let (answer, column) = (of("the answer: 2"), of("2: 10.0 minutes short"));
        assert!(answer.x < column.x && column.x + column.width < answer.x + answer.width);
        assert_eq!(drawn.iter().filter(|one| one.says.starts_with("the answer")).count(), 1);
    }

    #[test]
    fn a_chance_beyond_one_is_refused_by_name() {
        let wrong = [FleetPoint { high: 1.2, ..point(3, 0.5) }];
        let error = chart(&wrong, (None, None), TENDERS, &SHEET);
        let words = error.expect_err("1.2 is no chance").to_string();
        assert!(
            words.contains("upper end for 3 tenders")
                && words.contains("1.2")
                && words.contains("from 0 to 1")
        );
        assert!(chart(&[], (Some(f64::NAN), None), TENDERS, &SHEET).is_err());
    }
}
