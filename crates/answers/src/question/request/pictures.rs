//! The picture of `request`: the request changed a little.

use shuttle_report::chart::differences::{self, Line, Mark, Point};
use shuttle_report::units::percent;

use super::figures::{ChangeFigures, RequestFigures};
use crate::answer::{Basis, Picture};

/// One unit less, one more, all later; none where none of that was tried.
pub fn pictures(figures: &RequestFigures, basis: &Basis, title: &str) -> Vec<Picture> {
    if figures.late.is_empty() && figures.one_more.is_empty() {
        return Vec::new();
    }
    let (figures, basis, title) = (figures.clone(), basis.clone(), title.to_owned());
    vec![Picture {
        name: "request".into(),
        draw: Box::new(move |_| draw(&figures, &basis, &title)),
    }]
}

fn draw(
    figures: &RequestFigures,
    basis: &Basis,
    title: &str,
) -> Result<String, shuttle_report::chart::ChartError> {
    let line = |label: String, change: &ChangeFigures, mark| Line {
        label,
        points: vec![Point {
            by: change.higher_by.by,
            low: change.higher_by.ci_low,
            high: change.higher_by.ci_high,
            mark,
        }],
        note: percent(change.interruption_probability, change.replications),
    };
    let mut lines: Vec<Line> = Vec::new();
    for unit in &figures.request {
        if let Some(without) = unit.without_it.as_ref().filter(|_| figures.leads_call(unit)) {
            let names = figures.of_call(unit.call).join(", ");
            lines.push(line(format!("without {names}"), without, Mark::Second));
        }
    }
    for more in &figures.one_more {
        lines.push(line(format!("one more: {}", more.names.join(", ")), &more.change, Mark::First));
    }
    for late in &figures.late {
        let label = format!("asked for {:.0} min later", late.later_by_min);
        lines.push(line(label, &late.change, Mark::Second));
    }
    let asked: Vec<&str> = figures.request.iter().map(|unit| unit.name.as_str()).collect();
    let shows = format!(
        "The request: {}. How the chance that the attack lines run short, {}, changes when one unit is \
         left out, one more comes, or all are asked for later.",
        if asked.is_empty() { "no aid".to_owned() } else { asked.join(", ") },
        percent(figures.interruption_probability, basis.replications)
    );
    let made_from = format!("Seed {}, the same luck for all.", basis.seed);
    differences::chart(
        &lines,
        differences::Words {
            measure: differences::Measure::Chance,
            title,
            shows: &shows,
            marks: ["more", "less or later"],
            notes: "short in",
            made_from: &made_from,
        },
    )
}
