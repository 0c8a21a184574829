//! The chance of having run short of water by each minute: how it builds up over the watch.

use plotters::prelude::*;
use plotters::style::{FontStyle, register_font};
use shuttle_sim::Plan;

use crate::chart::ChartError;
use crate::chart::elements::font;
use crate::chart::elements::svg::sound;
use crate::summary::Summary;
use crate::units::{percent, whole};

const SIZE: (u32, u32) = (1000, 520);
/// Okabe and Ito's blue, and a pale tint of it.
const LINE: RGBColor = RGBColor(0, 114, 178);
const FILL: RGBColor = RGBColor(211, 232, 248);

/// Draws the chart: minutes after first water across, share of runs that have been short at least once by
/// then upward.
///
/// - Errors: [`ChartError::Drawing`] where the chart library fails.
pub fn chart(summary: &Summary, plan: &Plan) -> Result<String, ChartError> {
    use_own_font()?;
    let mut svg = String::new();
    draw(&mut svg, summary, plan).map_err(|error| ChartError::Drawing(error.to_string()))?;
    Ok(svg)
}

/// The library looks fonts up by name; what it does not find it draws badly or not at all.
fn use_own_font() -> Result<(), ChartError> {
    for family in ["Inter", "sans-serif"] {
        let refused = |_| ChartError::Drawing("the font cannot be read".to_owned());
        register_font(family, FontStyle::Normal, font::REGULAR).map_err(refused)?;
        register_font(family, FontStyle::Bold, font::SEMI_BOLD).map_err(refused)?;
    }
    Ok(())
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

fn draw(
    svg: &mut String,
    summary: &Summary,
    plan: &Plan,
) -> Result<(), Box<dyn std::error::Error>> {
    let duration = plan.facts().incident.duration;
    let points: Vec<(f64, f64)> = build_up(summary)
        .into_iter()
        .map(|(minute, share)| (minute.min(duration), share))
        .collect();
    let last = points.last().map_or(0.0, |point| point.1);
    let top = (last * 1.15).clamp(1.0, 100.0);
    let root = SVGBackend::with_string(svg, SIZE).into_drawing_area();
    let text = |size: i32| ("Inter", size).into_font();
    root.fill(&WHITE)?;
    let title = font::ellipsize(&sound(&summary.title), 22.0, font::Weight::SemiBold, 940.0);
    let heading = TextStyle::from(("Inter", 22, FontStyle::Bold).into_font());
    root.draw(&Text::new(title, (24, 20), heading))?;
    let shows = "Chance that the attack lines have run short of water at least once, by minute.";
    let quiet = TextStyle::from(text(15)).color(&RGBColor(68, 68, 68));
    root.draw(&Text::new(shows, (24, 52), quiet))?;
    let foot = format!(
        "{} runs, seed {}. A plan on paper: the incident commander, local rules and what you see on \
         the ground come first.",
        whole(summary.replications as f64),
        summary.seed
    );
    root.draw(&Text::new(foot, (24, 492), TextStyle::from(text(13))))?;
    let plot = root.margin(90, 44, 24, 70);
    let mut axes = ChartBuilder::on(&plot)
        .x_label_area_size(48)
        .y_label_area_size(64)
        .build_cartesian_2d(0.0..duration, 0.0..top)?;
    axes.configure_mesh()
        .light_line_style(TRANSPARENT)
        .bold_line_style(RGBColor(221, 221, 221))
        .x_labels(13)
        .y_labels(6)
        .x_label_formatter(&|minute| format!("{minute:.0}"))
        .y_label_formatter(&|share| {
            if top < 5.0 { format!("{share:.1}%") } else { format!("{share:.0}%") }
        })
        .x_desc("minutes after first water")
        .y_desc("share of runs")
        .label_style(text(14))
        .axis_desc_style(text(14))
        .draw()?;
    axes.draw_series(AreaSeries::new(points.iter().copied(), 0.0, FILL))?;
    axes.draw_series(LineSeries::new(points.iter().copied(), LINE.stroke_width(3)))?;
    let label = percent(last / 100.0, summary.replications);
    let at_the_end = EmptyElement::at((duration, last)) + Text::new(label, (-58, -24), text(16));
    axes.draw_series(std::iter::once(at_the_end))?;
    root.present()?;
    Ok(())
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
        assert!(crate::chart::png(&chart, 600).is_ok());
        assert!(svg.contains("minutes after first water") && svg.contains("400 runs, seed"));
        assert!(crate::chart::png(&svg, 600).is_ok());
    }
}
