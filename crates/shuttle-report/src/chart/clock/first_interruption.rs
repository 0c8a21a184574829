//! When the lines first run short: minute by minute at the beginning, and by when over the whole watch.

use shuttle_sim::Plan;

use crate::chart::elements::axis::{Scale, minute_grid, minute_labels, round_step, value_axis};
use crate::chart::elements::heading_and_foot::{
    MARGIN, Sample, Sheet, WIDTH, finish, heading, in_the_middle, legend,
};
use crate::chart::elements::series::line_of_values;
use crate::chart::elements::style::{BLACK, QUIET, SHORT, SHORT_GROUND, VERMILLION};
use crate::chart::elements::svg::{Area, Drawing, Stroke, Text};
use crate::chart::{ChartError, chance, finite};
use crate::summary::Summary;
use crate::units::{clock, percent};

use super::marks::{MOMENT, first_water_mark, label_of_mark};

const LEFT: f64 = 62.0;
const RIGHT: f64 = WIDTH - MARGIN - 10.0;
/// Heights of the beginning and of the whole watch, px.
const HIGH: [f64; 2] = [220.0, 130.0];
/// The beginning, minutes after the alarm: it is when most plans fail.
pub const BEGINNING: f64 = 45.0;
/// The scales reach at least so far, so that a seldom shortfall looks like one: a fire of 100 a minute at the
/// beginning, and five by then.
const LEAST: [f64; 2] = [0.01, 0.05];

const ESTABLISHED: Stroke = Stroke::of(BLACK, 1.5).dashed("2 3");
const BY_THEN: Stroke = Stroke::of(VERMILLION, 2.5);

/// Draws the chart: the share of fires first short in each minute of the first [`BEGINNING`] minutes after the alarm,
/// and below it, over the whole watch, the share that have been short by then.
///
/// - Errors: [`ChartError::BadNumber`].
pub fn chart(summary: &Summary, plan: &Plan, sheet: &Sheet<'_>) -> Result<String, ChartError> {
    let duration = finite("the duration of the watch", plan.facts().incident.duration)?;
    let first_water = finite("the minute of first water", summary.first_water_min_mean)?;
    let shares = &summary.first_interruption_by_alarm_minute;
    for (minute, share) in shares.iter().enumerate() {
        chance(|| format!("the share of fires first short in minute {minute}"), *share)?;
    }
    // Fires whose first water is late are watched for longer.
    let last = (first_water + duration).max(shares.len() as f64).max(1.0);
    let mut drawing = Drawing::new(WIDTH);
    let top = heading(&mut drawing, sheet) + 56.0;
    let x = Scale { low: 0.0, high: last.min(BEGINNING), from: LEFT, to: RIGHT };
    draw_beginning(&mut drawing, x, top, shares);
    let panel = (top, top + HIGH[0]);
    first_water_mark(&mut drawing, x, first_water, &[panel], 20.0);
    if let Some((minute, label)) = established_mark(summary)
        && minute <= x.high
    {
        // In a row of its own below that of first water, which comes before it.
        let at = x.at(minute);
        drawing.line((at, top - 32.0), (at, top - 20.0), ESTABLISHED);
        drawing.line((at, top), (at, panel.1), ESTABLISHED);
        label_of_mark(&mut drawing, at, top - 22.0, &label);
    }
    let mut end = minute_labels(&mut drawing, x, panel.1, "the alarm");
    let all = Scale { high: last, ..x };
    end += 30.0;
    draw_by_then(&mut drawing, all, end, shares, summary)?;
    let at = all.at(first_water);
    drawing.line((at, end), (at, end + HIGH[1]), MOMENT);
    let end = minute_labels(&mut drawing, all, end + HIGH[1], "the alarm");
    let entries = [
        (Sample::Box(SHORT), "first short in that minute".to_owned()),
        (Sample::Line(BY_THEN), "short at least once by then".to_owned()),
    ];
    let end = legend(&mut drawing, end + 4.0, &entries);
    Ok(finish(drawing, end, sheet))
}

fn heading_of_panel(drawing: &mut Drawing, top: f64, says: &str) {
    drawing.text(LEFT, top - 5.0, says, Text::of(13.0).semi_bold());
}

fn share_axis(drawing: &mut Drawing, top: f64, high: f64, most: f64, steps: f64) -> Scale {
    let step = round_step(most, steps);
    let round = (step * (most / step - 1e-9).ceil()).min(1.0);
    let y = Scale { low: 0.0, high: round, from: top + high, to: top + 2.0 };
    let digits = match step {
        step if step >= 0.0099 => 0,
        step if step >= 0.00099 => 1,
        _ => 2,
    };
    value_axis(drawing, y, LEFT, RIGHT, step, |value| format!("{:.digits$}", 100.0 * value));
    y
}

fn draw_beginning(drawing: &mut Drawing, x: Scale, top: f64, shares: &[f64]) {
    heading_of_panel(drawing, top, "First short in this minute, fires of 100");
    let bottom = top + HIGH[0];
    minute_grid(drawing, x, top, bottom);
    let shown: Vec<f64> = shares.iter().copied().take(x.high.ceil() as usize).collect();
    let greatest = shown.iter().copied().fold(LEAST[0], f64::max);
    let y = share_axis(drawing, top, HIGH[0], greatest, 5.0);
    for (minute, share) in shown.iter().enumerate().filter(|(_, share)| **share > 0.0) {
        let from = minute as f64;
        let (left, right) = (x.at(from) + 0.75, x.at((from + 1.0).min(x.high)) - 0.75);
        // What happened at all is seen.
        let height = (bottom - y.at(*share)).max(1.0);
        let area = Area { x: left, y: bottom - height, width: right - left, height };
        let says = format!("minute {minute} to {}: {:.2} fires of 100", minute + 1, 100.0 * share);
        drawing.area(area, SHORT, Some(Stroke::of(BLACK, 0.75)), &says);
    }
    if shown.iter().all(|share| *share == 0.0) {
        let area = Area { x: LEFT, y: top, width: RIGHT - LEFT, height: HIGH[0] };
        let says = if shares.iter().any(|share| *share > 0.0) {
            "no fire is short so early"
        } else {
            "no fire is short"
        };
        in_the_middle(drawing, area, says);
    }
}

fn draw_by_then(
    drawing: &mut Drawing,
    x: Scale,
    top: f64,
    shares: &[f64],
    summary: &Summary,
) -> Result<(), ChartError> {
    heading_of_panel(drawing, top, "Short at least once by then, fires of 100");
    let bottom = top + HIGH[1];
    minute_grid(drawing, x, top, bottom);
    let steps = build_up(shares, x.high);
    let last = steps.last().map_or(0.0, |point| point.1);
    let y = share_axis(drawing, top, HIGH[1], last.max(LEAST[1]), 4.0);
    let line: Vec<(f64, f64)> =
        steps.iter().map(|(minute, share)| (x.at(*minute), y.at(*share))).collect();
    let mut ground = line;
    ground.extend([(x.to, y.from), (x.from, y.from)]);
    drawing.shape(&ground, SHORT_GROUND, "");
    line_of_values(drawing, (x, y), &steps, BY_THEN, "short by then")?;
    drawing.line((x.from, bottom), (x.to, bottom), Stroke::of(QUIET, 1.0));
    let label = how_often(summary);
    let style = Text::of(13.0).semi_bold();
    let over = (y.at(last) - 12.0).max(top + 8.0);
    drawing.boxed_text(x.to - style.width(&label) / 2.0 - 5.0, over, &label, style);
    Ok(())
}

/// "29%", "every fire", "no fire": how often by the end of the watch. Of the count and not of the sum of its minutes,
/// which may be a rounding short of all.
fn how_often(summary: &Summary) -> String {
    match summary.interruption_probability {
        1.0.. => "every fire".to_owned(),
        share if share <= 0.0 => "no fire".to_owned(),
        share => percent(share, summary.replications),
    }
}

/// By each whole minute after the alarm up to the last, the share of fires that have been short by then.
fn build_up(shares: &[f64], last: f64) -> Vec<(f64, f64)> {
    let mut points = vec![(0.0, 0.0)];
    let mut so_far = 0.0;
    for (minute, share) in shares.iter().enumerate() {
        so_far += share;
        points.push(((minute as f64 + 1.0).min(last), so_far));
    }
    points.push((last, so_far));
    points
}

/// The mean minute after the alarm at which the supply is established, and what is said of it; `None` if it never
/// was.
fn established_mark(summary: &Summary) -> Option<(f64, String)> {
    let minute = summary.established_min_mean.filter(|minute| minute.is_finite())?;
    let share = if summary.established_share < 1.0 {
        format!(", in {} of fires", percent(summary.established_share, summary.replications))
    } else {
        String::new()
    };
    Some((minute, format!("supply established: minute {} (mean){share}", clock(minute))))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chart::demo::{self, SHEET, summary};
    use crate::chart::drawn::{areas, lines, texts};

    #[test]
    fn the_supply_and_first_water_are_marked_in_minutes_after_the_alarm() {
        let plan = demo::plan(3, 60.0, 1);
        let mut summary = summary(&plan, 64);
        summary.first_water_min_mean = 10.5;
        summary.established_min_mean = Some(25.0);
        summary.established_share = 0.75;
        let words = texts(&chart(&summary, &plan, &SHEET).expect("a chart"));
        for label in [
            "supply established: minute 25 (mean), in 75% of fires",
            "first water: minute 11 (mean)",
            "minutes after the alarm",
        ] {
            assert!(words.iter().any(|text| text == label), "{label}: {words:?}");
        }
    }

    #[test]
    fn bars_stand_in_their_minute_and_are_as_high_as_their_share() {
        let plan = demo::plan(3, 60.0, 1);
        let mut summary = summary(&plan, 64);
        summary.first_interruption_by_alarm_minute = vec![0.0; 61];
        summary.first_interruption_by_alarm_minute[15] = 0.10;
        summary.first_interruption_by_alarm_minute[40] = 0.05;
        // Beyond the beginning no bar is drawn.
        summary.first_interruption_by_alarm_minute[50] = 0.20;
        let svg = chart(&summary, &plan, &SHEET).expect("a chart");
        let bars: Vec<_> =
            areas(&svg).into_iter().filter(|one| one.says.starts_with("minute")).collect();
        let says: Vec<&str> = bars.iter().map(|one| one.says.as_str()).collect();
        let expected =
            ["minute 15 to 16: 10.00 fires of 100", "minute 40 to 41: 5.00 fires of 100"];
        assert_eq!(says, expected);
        assert!((bars[0].height / bars[1].height - 2.0).abs() < 0.01);
        let px_per_minute = (bars[1].x - bars[0].x) / 25.0;
        assert!((px_per_minute - (RIGHT - LEFT) / BEGINNING).abs() < 0.01);
    }

    #[test]
    fn the_line_never_falls_and_ends_at_the_chance_of_the_whole_watch() {
        let plan = demo::plan(3, 120.0, 1);
        let summary = summary(&plan, 400);
        let points = build_up(&summary.first_interruption_by_alarm_minute, 130.0);
        assert!(points.windows(2).all(|pair| pair[0].1 <= pair[1].1), "it never falls");
        let last = points.last().expect("a point").1;
        assert!(summary.interruption_probability > 0.0);
        assert!((last - summary.interruption_probability).abs() < 1e-9);
        let svg = chart(&summary, &plan, &SHEET).expect("a chart");
        let drawn = &lines(&svg, "short by then")[0];
        assert!(drawn.windows(2).all(|pair| pair[1].1 <= pair[0].1 && pair[1].0 >= pair[0].0));
    }

    /// Six minutes with a sixth of all fires each add up to a little less than one, as floating numbers do.
    #[test]
    fn where_every_fire_is_short_the_end_says_so() {
        let plan = demo::plan(3, 60.0, 1);
        let mut summary = summary(&plan, 64);
        summary.first_interruption_by_alarm_minute = vec![1.0 / 6.0 - 1e-12; 6];
        summary.interruption_probability = 1.0;
        let words = texts(&chart(&summary, &plan, &SHEET).expect("a chart"));
        assert!(words.contains(&"every fire".to_owned()), "{words:?}");
        assert!(words.iter().all(|text| !text.contains('>')), "{words:?}");
    }

    #[test]
    fn a_seldom_shortfall_is_no_full_bar() {
        let plan = demo::plan(3, 60.0, 1);
        let mut summary = summary(&plan, 64);
        summary.first_interruption_by_alarm_minute = vec![0.0; 30];
        // Five of 20,000 fires.
        summary.first_interruption_by_alarm_minute[20] = 0.000_25;
        let svg = chart(&summary, &plan, &SHEET).expect("a chart");
        let bar = areas(&svg).into_iter().find(|one| one.says.starts_with("minute 20"));
        let height = bar.expect("a bar").height;
        assert!(height < 0.05 * HIGH[0], "{height} px of {}", HIGH[0]);
    }
}
