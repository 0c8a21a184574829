//! The picture of `compare`: what each option changes.

use shuttle_report::chart::differences::{self, Line, Mark, Point};
use shuttle_report::units::{percent, whole};

use super::figures::CompareFigures;
use crate::answer::{Basis, Picture};

/// The differences of the chance; none where nothing was run.
pub fn pictures(figures: &CompareFigures, basis: &Basis, title: &str) -> Vec<Picture> {
    if basis.replications == 0 {
        return Vec::new();
    }
    let (figures, basis, title) = (figures.clone(), basis.clone(), title.to_owned());
    vec![Picture {
        name: "options".into(),
        draw: Box::new(move |_| draw(&figures, &basis, &title)),
    }]
}

fn draw(
    figures: &CompareFigures,
    basis: &Basis,
    title: &str,
) -> Result<String, shuttle_report::chart::ChartError> {
    let lines: Vec<Line> = (figures.options.iter())
        .filter_map(|option| {
            let apart = option.higher_by.as_ref()?.interruption_probability;
            Some(Line {
                label: option.name.clone(),
                points: vec![Point {
                    by: apart.by,
                    low: apart.ci_low,
                    high: apart.ci_high,
                    mark: Mark::First,
                }],
                note: percent(option.interruption_probability, option.replications),
            })
        })
        .collect();
    let base = figures.options.first().map_or(0.0, |option| option.interruption_probability);
    differences::chart(
        &lines,
        differences::Words {
            measure: differences::Measure::Chance,
            title,
            shows: &format!(
                "How each option changes the chance that the attack lines run short, which is {} as it \
                 stands. Marks: the difference on the same luck. Whiskers: its 95% interval.",
                percent(base, basis.replications)
            ),
            marks: ["option", ""],
            notes: "short in",
            made_from: &format!(
                "Up to {} fires of each, seed {}, the same luck for all.",
                whole(basis.replications as f64),
                basis.seed
            ),
        },
    )
}
