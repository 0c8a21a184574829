//! When the first interruption begins.

use shuttle_sim::Plan;

use crate::chart::elements::axis::{
    AXIS_TEXT, Scale, minute_grid, minute_labels, minute_step, round_step, value_axis,
};
use crate::chart::elements::heading_and_foot::{
    MARGIN, Sample, WIDTH, finish, heading, in_the_middle, legend, runs_and_seed,
};
use crate::chart::elements::style::{BLACK, GREEN, Hatch, Look, VERMILLION, WHITE};
use crate::chart::elements::svg::{Anchor, Area, Drawing, Stroke, Text};
use crate::chart::{ChartError, MadeFrom, chance, finite};
use crate::summary::Summary;
use crate::units::{minutes, percent};

const LEFT: f64 = 84.0;
const PLOT_HEIGHT: f64 = 320.0;
/// A bar thinner than this is lost on paper, px.
const THINNEST_BAR: f64 = 1.5;

const BAR: Look = Look::hatched(VERMILLION, Hatch::Rising, WHITE);
const ESTABLISHED: Stroke = Stroke::of(GREEN, 2.0).dashed("8 4");

/// Draws the chart: the share of runs whose first interruption begins in each minute after first water.
///
/// Where the watch is so long that a minute would be too thin to see, a bar stands for several
/// minutes, and the axis says so.
///
/// - Errors: [`ChartError::BadNumber`].
pub fn chart(summary: &Summary, plan: &Plan) -> Result<String, ChartError> {
    let duration = finite("the duration of the watch", plan.facts().incident.duration)?.max(1.0);
    for (minute, share) in summary.first_interruption_by_minute.iter().enumerate() {
        chance(|| format!("the share of runs first short in minute {minute}"), *share)?;
    }
    let mut drawing = Drawing::new(WIDTH);
    let runs = summary.replications;
    let share = |chance: f64| match chance {
        0.0 => "none".to_owned(),
        1.0 => "all".to_owned(),
        chance => percent(chance, runs),
    };
    let shows = format!(
        "When the attack lines first run short of water. Runs in which they do: {}; before the \
         supply is established: {}; after it: {} (a run may have both).",
        share(summary.interruption_probability),
        share(summary.before_supply.probability),
        share(summary.after_supply.probability)
    );
    // Room for the label of the mark above the panel.
    let top = heading(&mut drawing, &summary.title, &shows) + 20.0;
    let right = WIDTH - MARGIN;
    let bottom = top + PLOT_HEIGHT;
    let x = Scale { low: 0.0, high: duration, from: LEFT, to: right };
    let bin = minute_step(duration, (right - LEFT) / THINNEST_BAR);
    let bars = in_bins(&summary.first_interruption_by_minute, bin, duration);
    let greatest = bars.iter().copied().fold(0.0, f64::max);
    let step = round_step(if greatest > 0.0 { greatest } else { 0.01 }, 5.0);
    let y = Scale {
        low: 0.0,
        high: step * (greatest / step - 1e-9).ceil().max(1.0),
        from: bottom,
        to: top,
    };
    minute_grid(&mut drawing, x, top, bottom);
    let digits =
        (0..5).find(|digits| 100.0 * step * 10f64.powi(*digits) >= 0.999).unwrap_or(5) as usize;
    value_axis(&mut drawing, y, LEFT, right, step, |value| format!("{:.digits$}%", 100.0 * value));
    let per = if bin == 1.0 { "minute".to_owned() } else { format!("{bin:.0} minutes") };
    let axis_title = Text::of(AXIS_TEXT).at(Anchor::Middle).turned(-90.0);
    let middle = f64::midpoint(top, bottom);
    drawing.text(MARGIN + 4.0, middle, &format!("first short, % of runs per {per}"), axis_title);
    for (place, share) in bars.iter().enumerate().filter(|(_, share)| **share > 0.0) {
        let from = place as f64 * bin;
        let (left, width) = (x.at(from), x.at(from + bin) - x.at(from));
        let gap = if width > 6.0 { 1.0 } else { 0.0 };
        let area = Area {
            x: left + gap,
            y: y.at(*share),
            width: width - 2.0 * gap,
            height: bottom - y.at(*share),
        };
        let says = format!("minute {from:.0} to {:.0}: {:.2}% of runs", from + bin, 100.0 * share);
        // Hatching in a thin bar is only noise.
        let look = if width > 6.0 { BAR } else { Look::plain(VERMILLION) };
        let outline = (width > 6.0).then_some(Stroke::of(BLACK, 0.75));
        drawing.area(area, look, outline, &says);
    }
    if greatest == 0.0 {
        let area = Area { x: LEFT, y: top, width: right - LEFT, height: PLOT_HEIGHT };
        in_the_middle(&mut drawing, area, "no run was interrupted");
    }
    let mark = established_mark(summary);
    if let Some((minute, label)) = &mark {
        let at = x.at(*minute);
        drawing.line((at, top - 20.0), (at, bottom), ESTABLISHED);
        label_of_mark(&mut drawing, at, top - 9.0, label);
    }
    let end = minute_labels(&mut drawing, x, bottom, "first water");
    let mut entries = vec![(
        Sample::Box(if x.at(bin) - x.at(0.0) > 6.0 { BAR } else { Look::plain(VERMILLION) }),
        "share of runs first short".to_owned(),
    )];
    if mark.is_some() {
        entries.push((Sample::Line(ESTABLISHED), "supply established (mean)".to_owned()));
    }
    let end = legend(&mut drawing, end + 4.0, &entries);
    let made = MadeFrom { runs, seed: summary.seed };
    Ok(finish(drawing, end, &summary.title, &format!("{}.", runs_and_seed(made))))
}

/// The shares added up over `bin` minutes each, up to the end of the watch.
fn in_bins(by_minute: &[f64], bin: f64, duration: f64) -> Vec<f64> {
    let mut bars = vec![0.0; (duration / bin).ceil().max(1.0) as usize];
    let last = bars.len() - 1;
    for (minute, share) in by_minute.iter().enumerate() {
        bars[((minute as f64 / bin) as usize).min(last)] += share;
    }
    bars
}

/// The mean minute after first water at which the supply is established, and what is said of it;
/// `None` if it never was.
fn established_mark(summary: &Summary) -> Option<(f64, String)> {
    let after = summary.established_min_mean? - summary.first_water_min_mean;
    if !after.is_finite() {
        return None;
    }
    let when = if after >= 0.0 {
        format!("minute {} (mean)", minutes(after))
    } else {
        format!("{} minutes before first water (mean)", minutes(-after))
    };
    let share = if summary.established_share < 1.0 {
        format!(", in {} of runs", percent(summary.established_share, summary.replications))
    } else {
        String::new()
    };
    Some((after.max(0.0), format!("supply established: {when}{share}")))
}

/// A label beside a vertical line: to its right, or to its left where there is no room.
pub(super) fn label_of_mark(drawing: &mut Drawing, x: f64, y: f64, label: &str) {
    let style = Text::of(13.0).semi_bold();
    let room = drawing.width() - MARGIN - x;
    if style.width(label) + 5.0 <= room {
        drawing.text(x + 5.0, y, label, style);
    } else {
        drawing.text(x - 5.0, y, label, style.at(Anchor::End));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chart::demo::{self, summary};
    use crate::chart::tests::{areas, texts};

    #[test]
    fn the_supply_is_marked_in_minutes_after_first_water() {
        let plan = demo::plan(3, 60.0, 1);
        let mut summary = summary(&plan, 64);
        summary.first_water_min_mean = 10.5;
        summary.established_min_mean = Some(25.0);
        summary.established_share = 0.75;
        let words = texts(&chart(&summary, &plan).expect("a chart"));
        let label = "supply established: minute 14.5 (mean), in 75% of runs";
        assert!(words.iter().any(|text| text == label), "{words:?}");
        summary.established_min_mean = Some(8.0);
        let words = texts(&chart(&summary, &plan).expect("a chart"));
        assert!(
            words.iter().any(|text| text.contains("2.5 minutes before first water")),
            "{words:?}"
        );
    }

    #[test]
    fn bars_stand_in_their_minute_and_are_as_high_as_their_share() {
        let plan = demo::plan(3, 60.0, 1);
        let mut summary = summary(&plan, 64);
        summary.first_interruption_by_minute = vec![0.0; 61];
        summary.first_interruption_by_minute[5] = 0.10;
        summary.first_interruption_by_minute[30] = 0.05;
        let svg = chart(&summary, &plan).expect("a chart");
        let bars: Vec<_> =
            areas(&svg).into_iter().filter(|one| one.says.starts_with("minute")).collect();
        let says: Vec<&str> = bars.iter().map(|one| one.says.as_str()).collect();
        assert_eq!(says, ["minute 5 to 6: 10.00% of runs", "minute 30 to 31: 5.00% of runs"]);
        assert!((bars[0].height / bars[1].height - 2.0).abs() < 0.01);
        let px_per_minute = (bars[1].x - bars[0].x) / 25.0;
        assert!((px_per_minute - (WIDTH - MARGIN - LEFT) / 60.0).abs() < 0.01);
    }

    #[test]
    fn no_share_is_lost_when_a_bar_stands_for_several_minutes() {
        let by_minute = vec![0.001; 901];
        let bars = in_bins(&by_minute, 2.0, 900.0);
        assert_eq!(bars.len(), 450);
        assert!((bars.iter().sum::<f64>() - 0.901).abs() < 1e-12);
        let plan = demo::plan(2, 900.0, 1);
        let mut summary = summary(&plan, 8);
        summary.first_interruption_by_minute = by_minute;
        let words = texts(&chart(&summary, &plan).expect("a chart"));
        assert!(
            words.iter().any(|text| text == "first short, % of runs per 2 minutes"),
            "{words:?}"
        );
    }
}
