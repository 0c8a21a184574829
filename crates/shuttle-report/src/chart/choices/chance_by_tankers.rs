//! The chance of an interruption against the number of tankers.

use crate::chart::elements::axis::{AXIS_TEXT, Scale, round_step, spread_apart, value_axis};
use crate::chart::elements::font;
use crate::chart::elements::heading_and_foot::{
    MARGIN, Sample, WIDTH, finish, heading, in_the_middle, legend,
};
use crate::chart::elements::style::{BLACK, Hatch, Look, QUIET, SKY, VERMILLION};
use crate::chart::elements::svg::{Anchor, Area, Drawing, Stroke, Text};
use crate::chart::{ChartError, chance};
use crate::units::{percent, whole};

/// One number of tankers.
#[derive(Debug, Clone, PartialEq)]
pub struct FleetPoint {
    /// How many tankers.
    pub tankers: usize,
    /// The name of the tanker that this one adds to the one before.
    pub label: String,
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

const LEFT: f64 = 84.0;
const PLOT_HEIGHT: f64 = 340.0;
/// Columns at least this wide have their name set horizontally, px.
const WIDE_COLUMN: f64 = 92.0;
/// Room for a slanting name along its slope, px.
const SLANTING_NAME: f64 = 130.0;
/// Slope of slanting names, degrees.
const SLANT: f64 = -40.0;

const NUMBER: Text = Text::of(13.0).semi_bold().at(Anchor::Middle);
const NAME: Text = Text::of(AXIS_TEXT).at(Anchor::Middle);
const TARGET: Stroke = Stroke::of(VERMILLION, 2.0).dashed("8 4");
const COLUMN: Look = Look::hatched(SKY, Hatch::None, BLACK);

/// Draws the chart.
///
/// - Given: `rows` in rising order of tankers; `target`, the chance to stay below, 0 to 1; `title`,
///   the plan's; `seed`, of all runs; `words`, the reader's for a truck that carries water: one, several.
/// - Errors: [`ChartError::BadNumber`] for a chance beyond 0 to 1.
pub fn chart(
    rows: &[FleetPoint],
    target: Option<f64>,
    title: &str,
    seed: u64,
    words: [&str; 2],
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
    let shows = format!(
        "Chance that the attack lines run short of water at least once, by number of {}. Columns: share of \
         fires. Whiskers: its 95% interval.",
        words[1]
    );
    let top = heading(&mut drawing, title, &shows) + 22.0;
    // The target's label stands to the right of the columns.
    let right = WIDTH - MARGIN - if target.is_some() { 92.0 } else { 0.0 };
    let y = chance_scale(rows, target, top);
    let step = round_step(y.high, 6.0);
    value_axis(&mut drawing, y, LEFT, right, step, |value| chance_tick(value, step));
    let axis_title = Text::of(AXIS_TEXT).at(Anchor::Middle).turned(-90.0);
    drawing.text(
        MARGIN + 8.0,
        f64::midpoint(y.from, y.to),
        "fires in which the lines run short, %",
        axis_title,
    );
    if let Some(target) = target {
        draw_target(&mut drawing, y, right, target);
    }
    if rows.is_empty() {
        let area = Area { x: LEFT, y: top, width: right - LEFT, height: PLOT_HEIGHT };
        in_the_middle(&mut drawing, area, &format!("no number of {} was tried", words[1]));
    }
    let width = (right - LEFT) / rows.len().max(1) as f64;
    let number_style = number_style(rows, width);
    for (place, row) in rows.iter().enumerate() {
        let x = LEFT + (place as f64 + 0.5) * width;
        draw_column(&mut drawing, y, (x, width), number_style, row, words);
        draw_name(&mut drawing, y.from, x, width, row);
    }
    drawing.line((LEFT, y.from), (right, y.from), Stroke::of(QUIET, 1.0));
    let names_end = y.from
        + if width >= WIDE_COLUMN {
            let lines = rows.iter().map(|row| name_lines(row, width).len()).max().unwrap_or(1);
            28.0 + 15.0 * lines as f64
        } else {
            30.0 + SLANTING_NAME * 0.7
        };
    let x_title = format!("{}, and the one that the number adds", words[1]);
    drawing.text(f64::midpoint(LEFT, right), names_end + 14.0, &x_title, NAME);
    let mut entries = vec![
        (Sample::Box(COLUMN), "share of fires".to_owned()),
        (Sample::Line(Stroke::of(BLACK, 1.5)), "95% interval".to_owned()),
    ];
    if target.is_some() {
        entries.push((Sample::Line(TARGET), "target to stay below".to_owned()));
    }
    let end = legend(&mut drawing, names_end + 24.0, &entries);
    Ok(finish(drawing, end, title, &made_from(rows, seed, words[1])))
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
    format!("{:.digits$}%", 100.0 * value)
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
    let sizes = [NUMBER, Text { size: 11.0, ..NUMBER }];
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
        drawing.area(area, COLUMN, Some(Stroke::of(BLACK, 1.0)), &says);
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
                Text { size: 11.0, ..NUMBER },
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

fn made_from(rows: &[FleetPoint], seed: u64, tankers: &str) -> String {
    let runs = || rows.iter().map(|row| row.runs).filter(|runs| *runs > 0);
    let (Some(fewest), Some(most)) = (runs().min(), runs().max()) else {
        return "No fires were simulated.".to_owned();
    };
    let (fewest, most) = (whole(fewest as f64), whole(most as f64));
    if fewest == most {
        format!("{most} fires for each number of {tankers}, seed {seed}, the same luck for all.")
    } else {
        format!(
            "{fewest} to {most} fires for each number of {tankers}, seed {seed}, the same luck for all."
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chart::tests::{areas, texts};

    const TENDERS: [&str; 2] = ["tender", "tenders"];

    fn point(tankers: usize, probability: f64) -> FleetPoint {
        FleetPoint {
            tankers,
            label: format!("Tamarack Tanker {tankers}"),
            runs: 10_000,
            probability,
            low: (probability - 0.02).max(0.0),
            high: (probability + 0.02).min(1.0),
        }
    }

    #[test]
    fn each_number_of_tankers_shows_its_chance_and_its_name() {
        let rows = [point(2, 0.412), point(3, 0.172), point(4, 0.0)];
        let svg = chart(&rows, Some(0.05), "Hay barn", 7, TENDERS).expect("a chart");
        let words = texts(&svg);
        for wanted in ["41.2%", "17.2%", "0.0%", "Tamarack Tanker 3", "4", "target: below", "5%"] {
            assert!(words.iter().any(|text| text == wanted), "{wanted} is missing in {words:?}");
        }
        assert!(
            words.iter().any(|text| text.starts_with("10,000 fires for each number of tenders")
                && text.contains("seed 7"))
        );
    }

    #[test]
    fn columns_are_as_high_as_their_chances() {
        let rows = [point(1, 0.6), point(2, 0.3), point(3, 0.1)];
        let svg = chart(&rows, None, "Hay barn", 1, TENDERS).expect("a chart");
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
    fn a_chance_beyond_one_is_refused_by_name() {
        let error =
            chart(&[FleetPoint { high: 1.2, ..point(3, 0.5) }], None, "Hay barn", 1, TENDERS);
        let words = error.expect_err("1.2 is no chance").to_string();
        assert!(
            words.contains("upper end for 3 tenders")
                && words.contains("1.2")
                && words.contains("from 0 to 1")
        );
        assert!(chart(&[], Some(f64::NAN), "Hay barn", 1, TENDERS).is_err());
    }
}
