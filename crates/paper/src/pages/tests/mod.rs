//! Pages of real answers: as many as meant, nothing off the sheet, no letters too small, the form read back.

mod card;

mod files;

mod handout;

mod read_back;

mod report;

use std::path::Path;

use answers::Date;
use answers::question::Budget;
use answers::question::card::{self as of_card, CardFigures};
use answers::{Answer, Reader};
use resvg::usvg;
use scenario_file::Scenario;
use serde_json::{Value, json};
use shuttle_report::batch::Control;
use shuttle_report::chart::drawing::database;

use crate::Made;
use crate::layout::sheet::Page;

const BUDGET: Budget = Budget { replications: 256, seed: 1, threads: 2 };
const DATE: Date = Date { year: 2026, month: 3, day: 1 };

fn text(name: &str) -> Value {
    let scenarios = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../scenarios");
    let text = std::fs::read_to_string(scenarios.join(name).with_extension("json"));
    serde_json::from_str(&text.expect("a scenario")).expect("JSON")
}

fn read(of: &Value) -> Scenario {
    scenario_file::read(Path::new("tried.json"), &of.to_string()).expect("a sound scenario")
}

fn made(scenario: &Scenario, tender: bool) -> Made {
    Made { reader: Reader { units: scenario.units, tender }, date: DATE, version: "0.0.0" }
}

/// Thirty tankers with names of fifty letters, in a scenario with a title of a hundred.
fn crowded() -> Value {
    let mut scenario = text("feed_mill_mutual_aid");
    scenario["title"] =
        "Feed mill and grain elevator at the second crossing of the long county road, "
            .repeat(2)
            .into();
    let one = scenario["tankers"][0].clone();
    scenario["tankers"] = (1..=30)
        .map(|number| {
            let mut tanker = one.clone();
            tanker["name"] = if number == 1 {
                json!("Tanker 5")
            } else {
                json!(format!("Tamarack County Second Mutual Aid Division No. {number}"))
            };
            tanker["requested_at"] = json!(number / 8);
            tanker
        })
        .collect();
    scenario["drop_tanks"].as_array_mut().expect("drop tanks").truncate(1);
    scenario.as_object_mut().expect("an object").remove("aid");
    scenario.as_object_mut().expect("an object").remove("options");
    scenario
}

fn card_of(scenario: &Scenario) -> Answer<CardFigures> {
    of_card::card(scenario, BUDGET, &Control::default())
}

/// Every page holds its blocks within the paper, and every word of its drawings too.
fn all_within(pages: &[Page], about: &str) {
    for (number, page) in pages.iter().enumerate() {
        for placed in &page.placed {
            let bottom = placed.y + placed.block.height;
            assert!(
                bottom <= page.tall - 20.0,
                "{about}, page {number}: {} to {bottom}",
                placed.block.says
            );
            assert!(
                placed.x + placed.block.width <= page.wide - 20.0,
                "{about}: {}",
                placed.block.says
            );
        }
        let options = usvg::Options { fontdb: database(), ..usvg::Options::default() };
        let tree = usvg::Tree::from_str(&page.svg(about), &options).expect("a sound drawing");
        // The library counts in px, of which four are three points.
        let px = f64::from(tree.size().width()) / page.wide;
        within(tree.root(), (page, px), about);
    }
}

fn within(group: &usvg::Group, (page, px): (&Page, f64), about: &str) {
    for node in group.children() {
        match node {
            usvg::Node::Group(group) => within(group, (page, px), about),
            usvg::Node::Text(text) => {
                let is_at = text.abs_bounding_box();
                let said: String = text.chunks().iter().map(|chunk| chunk.text()).collect();
                let points = |at: f32| f64::from(at) / px;
                let (left, top) = (points(is_at.left()), points(is_at.top()));
                assert!(left >= 15.0 && top >= 15.0, "{about}: {said}");
                assert!(points(is_at.right()) <= page.wide - 15.0, "{about}: {said}");
                assert!(points(is_at.bottom()) <= page.tall - 15.0, "{about}: {said}");
            }
            _ => {}
        }
    }
}
