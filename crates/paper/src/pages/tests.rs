//! Pages of real answers: as many as meant, nothing off the sheet, no letters too small, the form read back.

use std::path::Path;

use answers::Date;
use answers::question::card::{self, CardFigures};
use answers::question::handout;
use answers::question::{Budget, report};
use answers::{Answer, Reader};
use resvg::usvg::{self, roxmltree};
use scenario_file::Scenario;
use serde_json::{Value, json};
use shuttle_report::batch::Control;
use shuttle_report::chart::drawing::database;

use super::*;
use crate::layout::set::Kind;
use crate::layout::sheet::{Format, Page};
use crate::{Made, html, pdf};

pub(super) const BUDGET: Budget = Budget { replications: 256, seed: 1, threads: 2 };
const DATE: Date = Date { year: 2026, month: 3, day: 1 };

pub(super) fn text(name: &str) -> Value {
    let scenarios = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../scenarios");
    let text = std::fs::read_to_string(scenarios.join(name).with_extension("json"));
    serde_json::from_str(&text.expect("a scenario")).expect("JSON")
}

pub(super) fn read(of: &Value) -> Scenario {
    scenario_file::read(Path::new("tried.json"), &of.to_string()).expect("a sound scenario")
}

pub(super) fn made(scenario: &Scenario, tender: bool) -> Made {
    Made { reader: Reader { units: scenario.units, tender }, date: DATE, version: "0.0.0" }
}

/// Thirty tankers with names of fifty letters, in a scenario with a title of a hundred.
pub(super) fn crowded() -> Value {
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
    card::card(scenario, BUDGET, &Control::default())
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

#[test]
fn a_card_is_one_sheet_with_two_sides_whoever_comes() {
    let scenarios = [
        text("hay_barn_two_tankers"),
        text("feed_mill_mutual_aid"),
        text("grass_fire_nursing_only"),
        text("orchard_metric"),
        text("sawmill_two_fill_sites"),
        crowded(),
    ];
    for of in &scenarios {
        let scenario = read(of);
        let answer = card_of(&scenario);
        for (format, tender) in [(Format::Letter, false), (Format::A4, true)] {
            let pages = card(&answer, format, &made(&scenario, tender));
            assert_eq!(pages.len(), 2, "{}", answer.title);
            all_within(&pages, &answer.title);
            let told: String = pages
                .iter()
                .flat_map(|page| &page.placed)
                .map(|one| one.block.says.as_str())
                .collect();
            for unit in answer.figures.units.iter().filter_map(|unit| unit.name.as_ref()) {
                assert!(told.contains(unit.as_str()), "{unit} is on no side");
            }
        }
    }
}

#[test]
fn no_letters_on_a_card_are_smaller_than_fourteen_points() {
    let scenario = read(&text("feed_mill_mutual_aid"));
    let pages = card(&card_of(&scenario), Format::Letter, &made(&scenario, false));
    let read = (pages.iter().flat_map(|page| &page.placed))
        .filter(|placed| !matches!(placed.block.kind, Kind::Ornament | Kind::CutLine));
    let mut letters = 0;
    for placed in read {
        let document = roxmltree::Document::parse(&placed.block.svg).expect("XML");
        for node in document.descendants().filter(|node| node.has_tag_name("text")) {
            let size: f64 = node.attribute("font-size").expect("a size").parse().expect("a number");
            assert!(size >= 14.0, "{size}: {:?}", node.text());
            letters += 1;
        }
    }
    assert!(letters > 40, "{letters}");
}

#[test]
fn the_same_pages_and_day_are_the_same_bytes_and_another_day_is_not() {
    let scenario = read(&text("hay_barn_two_tankers"));
    let answer = card_of(&scenario);
    let bytes = |date| {
        let made = Made { date, ..made(&scenario, false) };
        let pages = card(&answer, Format::Letter, &made);
        (pdf::pdf(&pages, "title", &made).expect("a PDF"), html::html(&pages, "title"))
    };
    assert_eq!(bytes(DATE), bytes(DATE));
    let other = bytes(Date { day: 2, ..DATE });
    assert_ne!(bytes(DATE).0, other.0);
    assert_ne!(bytes(DATE).1, other.1);
}

#[test]
fn the_printed_form_is_read_back_without_a_guess() {
    let heads: Vec<String> =
        form(1, false, false).columns.into_iter().map(|(head, _)| head).collect();
    let log =
        format!("{}\nT,1,13:00,13:01,13:02,13:03,13:04,13:05,13:06,13:07,,fine\n", heads.join(","));
    let course = drill_log::Course {
        tankers: vec![drill_log::CourseTanker { name: "T".to_owned(), load: 1.0, site: None }],
        sites: vec![drill_log::Site { name: "S".to_owned(), positions: 1, one_at_a_time: true }],
        dump_positions: 1,
    };
    let table = drill_log::open_text(log.as_bytes()).expect("a table");
    let log = drill_log::read(&table, &course).expect("a log");
    assert_eq!(log.guesses, []);
    assert_eq!(log.trips[0].at.iter().flatten().count(), 8);
    // And those are the heads on the page itself.
    let scenario = read(&text("hay_barn_two_tankers"));
    let answer = handout::handout(&scenario, BUDGET, &Control::default());
    let pages = handout(&answer, Format::Letter, &made(&scenario, false)).expect("pages");
    let form = &pages[2];
    let says = &form.placed.last().expect("the table").block.says;
    for head in heads {
        assert!(says.contains(&head), "{head}: {says}");
    }
}

#[test]
fn a_handout_is_a_sheet_and_a_form() {
    for of in [text("hay_barn_two_tankers"), text("orchard_metric"), crowded()] {
        let scenario = read(&of);
        let answer = handout::handout(&scenario, BUDGET, &Control::default());
        assert_eq!(answer.figures.findings.len(), 3);
        assert_eq!(answer.figures.questions.len(), 4);
        let pages = handout(&answer, Format::A4, &made(&scenario, true)).expect("pages");
        assert_eq!(pages.len(), 5, "{}", answer.title);
        all_within(&pages, &answer.title);
    }
}

/// The form of a scenario with several fill sites tells them apart, or nobody could read the log back.
#[test]
fn the_form_has_every_column_that_reading_the_log_asks_for() {
    let heads: Vec<String> =
        form(1, true, true).columns.into_iter().map(|(head, _)| head).collect();
    let log =
        format!("{}\nT,1,B,13:00,13:01,13:02,13:03,13:04,13:05,13:06,13:07,,\n", heads.join(","));
    let site =
        |name: &str| drill_log::Site { name: name.to_owned(), positions: 1, one_at_a_time: true };
    let course = drill_log::Course {
        tankers: vec![drill_log::CourseTanker { name: "T".to_owned(), load: 1.0, site: None }],
        sites: vec![site("A"), site("B")],
        dump_positions: 1,
    };
    let table = drill_log::open_text(log.as_bytes()).expect("a table");
    let read =
        drill_log::read(&table, &course).expect("a log, under the word of a reader of tenders too");
    assert_eq!(read.trips[0].site, Some(1));
    let scenario = read_scenario("sawmill_two_fill_sites");
    let answer = handout::handout(&scenario, BUDGET, &Control::default());
    let pages = handout(&answer, Format::Letter, &made(&scenario, true)).expect("pages");
    let says = &pages[2].placed.last().expect("the table").block.says;
    assert!(says.contains("fill site") && says.starts_with("tender"), "{says}");
}

fn read_scenario(name: &str) -> Scenario {
    read(&text(name))
}

/// What is written on a strip stays with it when it is cut off: its back is behind it.
#[test]
fn a_card_is_cut_at_the_same_heights_on_both_sides() {
    for of in [text("hay_barn_two_tankers"), text("sawmill_two_fill_sites"), text("orchard_metric")]
    {
        let scenario = read(&of);
        let pages = card(&card_of(&scenario), Format::Letter, &made(&scenario, false));
        let cuts = |page: &Page| -> Vec<f64> {
            let cuts = page.placed.iter().filter(|one| one.block.kind == Kind::CutLine);
            cuts.map(|one| one.y.round()).collect()
        };
        assert_eq!(cuts(&pages[0]).len(), 2, "{}", scenario.plan.facts().title);
        assert_eq!(cuts(&pages[0]), cuts(&pages[1]));
        let headings = |page: &Page| -> Vec<(bool, bool, String)> {
            let cuts = cuts(page);
            (page.placed.iter().filter(|one| one.block.kind == Kind::Heading))
                .map(|one| (one.y > cuts[0], one.y > cuts[1], one.block.says.clone()))
                .collect()
        };
        let expected = |end: &str| {
            [
                (false, false, "DISPATCH"),
                (true, false, "TANKER BOSS"),
                (true, true, "PUMP OPERATOR"),
            ]
            .map(|(below, lower, says)| (below, lower, format!("{says}{end}, 2026-03-01")))
        };
        // Behind whose strip it is, and of which day, stands of which plan.
        let whose = |page: &Page| -> Vec<_> {
            (headings(page).into_iter())
                .map(|(below, lower, says)| {
                    (below, lower, says.split(": ").next().unwrap_or_default().to_owned())
                })
                .collect()
        };
        assert_eq!(whose(&pages[0]), expected(""));
        assert_eq!(whose(&pages[1]), expected(", back"));
    }
}

/// Thirty tankers with long names are more than strips hold: the sheet says that it is to stay whole.
#[test]
fn a_card_that_is_more_than_strips_hold_is_not_cut() {
    let scenario = read(&crowded());
    for page in card(&card_of(&scenario), Format::Letter, &made(&scenario, false)) {
        assert!(page.placed.iter().all(|one| one.block.kind != Kind::CutLine));
        assert!(page.placed[0].block.says.starts_with("Leave this sheet whole"));
    }
}

/// Whoever reads only the card knows whether the plan holds, and whether it is the file's.
#[test]
fn a_card_says_how_often_its_plan_fails() {
    let mut never = text("hay_barn_two_tankers");
    never["tankers"].as_array_mut().expect("tankers").truncate(1);
    let mut holds = text("hay_barn_two_tankers");
    holds["incident"]["attack_flow"] = json!([{"from": 0, "flow": 150}, {"from": 8, "flow": 240}]);
    for (of, told) in [
        (never, "DO NOT USE THIS CARD: short in every one of"),
        (text("hay_barn_two_tankers"), "DO NOT USE THIS CARD: short in "),
        (holds, "Short of water in "),
    ] {
        let scenario = read(&of);
        let answer = card_of(&scenario);
        let front = &card(&answer, Format::Letter, &made(&scenario, false))[0];
        let says: Vec<&str> = front.placed.iter().map(|one| one.block.says.as_str()).collect();
        let head = &says[..3];
        let chance = answer.figures.interruption_probability;
        assert!(head.iter().any(|one| one.contains(told)), "{chance} {says:?}");
    }
}

#[test]
fn what_is_higher_than_a_page_goes_on_on_the_next() {
    let scenario = read(&crowded());
    let mut answer = card_of(&scenario);
    let one = answer.figures.units.last().expect("a unit").clone();
    answer.figures.units.extend((0..120).map(|_| one.clone()));
    all_within(
        &card(&answer, Format::Letter, &made(&scenario, false)),
        "a hundred and fifty units",
    );
}

#[test]
fn a_report_begins_with_one_page_for_the_chief() {
    for (of, tender) in [
        (text("feed_mill_mutual_aid"), false),
        (text("orchard_metric"), true),
        (text("sawmill_two_fill_sites"), false),
        (text("grass_fire_nursing_only"), false),
        (crowded(), false),
    ] {
        let scenario = read(&of);
        let asked = report::Asked { target: 0.05 };
        let few = Budget { replications: 64, ..BUDGET };
        let found = report::report(&scenario, asked, few, &Control::default());
        let made = made(&scenario, tender);
        let pages = super::report(&found, Format::Letter, &made).expect("pages");
        all_within(&pages, &found.whole.title);
        let says = |page: &Page| -> String {
            page.placed.iter().map(|one| format!("{}\n", one.block.says)).collect()
        };
        let first = says(&pages[0]);
        assert!(
            first.contains("change, then short in") || first.contains("No single change"),
            "{first}"
        );
        for told in [
            "The clock",
            "What helps",
            "What cannot be spared",
            "Not known",
            "Prepared by",
            "The pinch",
        ] {
            assert!(first.contains(told), "{told}: {first}");
        }
        assert!(says(&pages[1]).starts_with("Whom to ask"), "{}", says(&pages[1]));
        let number = format!("page 2 of {}", pages.len());
        assert!(says(&pages[1]).contains(&number), "{number}: {}", says(&pages[1]));
    }
}

/// A greater flow that holds from a later minute does so where no water is used before: said where the chief reads it.
#[test]
fn a_report_says_on_its_first_page_what_holds_after_a_first_flow() {
    let mut all = text("feed_mill_mutual_aid");
    let aid = all.as_object_mut().expect("an object").remove("aid").expect("aid");
    let tankers = all["tankers"].as_array_mut().expect("tankers");
    tankers.extend(aid.as_array().expect("aid").iter().cloned());
    let scenario = read(&all);
    // As many as `hold` simulates.
    let budget = Budget { replications: 2_500, ..BUDGET };
    let asked = report::Asked { target: 0.05 };
    let found = report::report(&scenario, asked, budget, &Control::default());
    let stepped = found.hold.figures.as_it_stands.stepped_up.as_ref().expect("two flows");
    assert!(stepped.interruption_probability > 0.05, "one after the other they fail");
    let pages = super::report(&found, Format::Letter, &made(&scenario, false)).expect("pages");
    let first: String = pages[0].placed.iter().map(|one| one.block.says.as_str()).collect();
    assert!(first.contains("One after the other in one fire they run short"), "{first}");
}

/// An option with its price is among what helps, as the file states it; what has none is left to fill in.
#[test]
fn what_helps_has_its_price_where_the_file_states_one() {
    let scenario = read(&text("hay_barn_what_to_buy"));
    let found =
        report::report(&scenario, report::Asked { target: 0.05 }, BUDGET, &Control::default());
    let pages = super::report(&found, Format::Letter, &made(&scenario, false)).expect("pages");
    let table = (pages[0]
        .placed
        .iter()
        .filter_map(|one| one.block.table.as_ref().map(|_| &one.block.says)))
    .find(|says| says.starts_with("change"))
    .expect("what helps");
    let options = &found.compare.as_ref().expect("the file's options").told.advice;
    assert!(!options.is_empty());
    for option in options {
        let cost = option.cost.expect("every option has its price");
        let row = shuttle_report::units::whole(cost).to_string();
        assert!(table.contains(&row), "{row}: {table}");
    }
}

/// The pages of a report have the letters of both fonts once, however many charts they carry.
#[test]
fn an_html_file_has_its_fonts_once_and_loads_nothing() {
    let scenario = read(&text("hay_barn_two_tankers"));
    let answer = handout::handout(&scenario, BUDGET, &Control::default());
    let made = made(&scenario, false);
    let pages = handout(&answer, Format::Letter, &made).expect("pages");
    let file = html::html(&pages, "title");
    assert_eq!(file.matches("@font-face").count(), 2);
    let svgs: usize = pages.iter().map(|page| page.svg("title").len()).sum();
    assert!(file.len() - svgs < 80_000, "{} bytes of fonts", file.len() - svgs);
    for loads in ["http:", "src=", "href=", "@import", "url(h"] {
        assert!(!file.replace("http://www.w3.org/2000/svg", "").contains(loads), "{loads}");
    }
}
