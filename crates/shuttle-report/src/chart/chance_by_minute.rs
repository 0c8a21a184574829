//! The chance of having run short of water by each minute: how it builds up over the watch.

use shuttle_sim::Plan;

use super::axis::{AXIS_TEXT, Scale, minute_grid, minute_labels, round_step, value_axis};
use super::heading_and_foot::{MARGIN, WIDTH, finish, heading, runs_and_seed};
use super::style::{BLUE, Look, PALE};
use super::svg::{Anchor, Drawing, Stroke, Text};
use super::{ChartError, MadeFrom, chance, finite};
use crate::summary::Summary;
use crate::units::percent;

const LEFT: f64 = 84.0;
const PLOT_HEIGHT: f64 = 320.0;
/// Room at the right for the chance of the whole watch, px.
const RIGHT: f64 = 76.0;

/// Draws the chart: minutes after first water across, share of runs that have been short at least once by
/// then upward.
///
/// - Errors: [`ChartError::BadNumber`].
pub fn chart(summary: &Summary, plan: &Plan) -> Result<String, ChartError> {
    let duration = finite("the duration of the watch", plan.facts().incident.duration)?.max(1.0);
    for (minute, share) in summary.first_interruption_by_minute.iter().enumerate() {
        chance(|| format!("the share of runs first short in minute {minute}"), *share)?;
    }
    let points = build_up(summary);
    let last = points.last().map_or(0.0, |point| point.1);
    let mut drawing = Drawing::new(WIDTH);
    let shows = "Chance that the attack lines have run short of water at least once, by minute.";
    let top = heading(&mut drawing, &summary.title, shows) + 6.0;
    let (right, bottom) = (WIDTH - MARGIN - RIGHT, top + PLOT_HEIGHT);
    let x = Scale { low: 0.0, high: duration, from: LEFT, to: right };
    let step = round_step(last.max(1.0), 5.0);
    let high = (step * (last / step - 1e-9).ceil().max(1.0)).min(100.0);
    let y = Scale { low: 0.0, high, from: bottom, to: top };
    minute_grid(&mut drawing, x, top, bottom);
    let digits = usize::from(step < 1.0);
    value_axis(&mut drawing, y, LEFT, right, step, |share| format!("{share:.digits$}%"));
    let title = Text::of(AXIS_TEXT).at(Anchor::Middle).turned(-90.0);
    drawing.text(MARGIN + 4.0, f64::midpoint(top, bottom), "share of runs", title);
    let course: Vec<(f64, f64)> =
        points.iter().map(|(minute, share)| (x.at(*minute), y.at(*share))).collect();
    let mut ground = course.clone();
    let ends = course.last().copied().unwrap_or((LEFT, bottom));
    ground.extend([(ends.0, bottom), (LEFT, bottom)]);
    drawing.shape(&ground, Look::plain(PALE), "");
    drawing.path(&course, Stroke::of(BLUE, 3.0), "");
    let whole_watch = percent(last / 100.0, summary.replications);
    drawing.text(ends.0 + 10.0, ends.1 + 5.0, &whole_watch, Text::of(15.0).semi_bold());
    let end = minute_labels(&mut drawing, x, bottom, "first water");
    let made = MadeFrom { runs: summary.replications, seed: summary.seed };
    Ok(finish(drawing, end, &summary.title, &format!("{}.", runs_and_seed(made))))
}

/// By each whole minute after first water, the share of runs that have been short by then.
fn build_up(summary: &Summary) -> Vec<(f64, f64)> {
    let mut points = vec![(0.0, 0.0)];
    let mut so_far = 0.0;
    for (minute, share) in summary.first_interruption_by_minute.iter().enumerate() {
        so_far += share;
        points.push((minute as f64 + 1.0, 100.0 * so_far));
    }
    points
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chart::demo;

    #[test]
    fn it_ends_at_the_chance_of_the_whole_watch() {
        let plan = demo::plan(3, 60.0, 1);
        let summary = demo::summary(&plan, 400);
        let points = build_up(&summary);
        assert!(points.windows(2).all(|pair| pair[0].1 <= pair[1].1), "it never falls");
        let last = points.last().expect("a point").1;
        assert!((last - 100.0 * summary.interruption_probability).abs() < 1e-9);
        let svg = chart(&summary, &plan).expect("a chart");
        // Characters that XML cannot hold are no reason to have no chart.
        let odd = Summary { title: "Barn \u{ffff}\u{fffe} & <Lane>".to_owned(), ..summary.clone() };
        let chart = chart(&odd, &plan).expect("a chart");
        assert!(chart.contains("Barn    &amp; &lt;Lane&gt;"), "{chart}");
        assert!(super::super::png(&chart, 600).is_ok());
        assert!(svg.contains("minutes after first water") && svg.contains("400 runs, seed"));
        assert!(super::super::png(&svg, 600).is_ok());
    }
}
