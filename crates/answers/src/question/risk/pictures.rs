//! The pictures of `risk`.

use std::sync::Arc;

use shuttle_report::chart;
use shuttle_report::summary::Summary;
use shuttle_sim::Plan;

use crate::answer::Picture;
use crate::shared::doubt::{DoubtFigures, ranges};

/// Levels, first shortfalls, shortfalls by minute, the cycle, and the range of the chance where there is one; none
/// where nothing was run.
pub fn pictures(summary: &Summary, plan: &Plan, doubt: Option<&DoubtFigures>) -> Vec<Picture> {
    if summary.replications == 0 {
        return Vec::new();
    }
    let made_of = Arc::new((summary.clone(), plan.clone()));
    let of =
        |name: &'static str,
         draw: fn(&Summary, &Plan, &crate::Reader) -> Result<String, chart::ChartError>| {
            let made_of = Arc::clone(&made_of);
            Picture {
                name: name.into(),
                draw: Box::new(move |reader| draw(&made_of.0, &made_of.1, reader)),
            }
        };
    #[cfg(not(target_arch = "wasm32"))]
    let by_minute = Some(of("short-of-water-by-minute", |summary, plan, _| {
        chart::chance_by_minute::chart(summary, plan)
    }));
    // The library that draws it takes no font of ours in a browser.
    #[cfg(target_arch = "wasm32")]
    let by_minute = None;
    let mut pictures = vec![
        of("levels", |summary, plan, reader| chart::levels::chart(summary, plan, reader.units)),
        of("first-short-of-water", |summary, plan, _| {
            chart::first_interruption::chart(summary, plan)
        }),
    ];
    pictures.extend(by_minute);
    pictures.push(of("cycle", |summary, plan, _| chart::cycle::chart(summary, plan)));
    pictures.extend(doubt.map(|doubt| {
        let doubt = doubt.clone();
        let made_of = Arc::clone(&made_of);
        Picture {
            name: "in-doubt".into(),
            draw: Box::new(move |reader| {
                let (summary, plan) = (&made_of.0, &made_of.1);
                let right = [summary.interruption_probability, summary.ci_low, summary.ci_high];
                let rows = ranges(&doubt, right, reader);
                let from = chart::chance_in_doubt::MadeFrom {
                    draws: doubt.draws,
                    fires_each: doubt.fires_each,
                    seed: summary.seed,
                };
                chart::chance_in_doubt::chart(&rows, &plan.facts().title, from)
            }),
        }
    }));
    pictures
}
