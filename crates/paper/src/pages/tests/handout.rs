//! Handouts: a sheet and a form, which is read back.

use answers::question::handout as of_handout;
use shuttle_report::units::Units;

use super::*;
use crate::layout::sheet::Format;
use crate::pages::{form, handout};

fn reader(tender: bool) -> Reader {
    Reader { units: Units::Us, tender }
}

#[test]
fn the_printed_form_is_read_back_without_a_guess() {
    let heads: Vec<String> =
        form(1, false, &reader(false)).columns.into_iter().map(|(head, _)| head).collect();
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
    let answer = of_handout::handout(&scenario, BUDGET, &Control::default());
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
        let answer = of_handout::handout(&scenario, BUDGET, &Control::default());
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
        form(1, true, &reader(true)).columns.into_iter().map(|(head, _)| head).collect();
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
    let found =
        drill_log::read(&table, &course).expect("a log, under the word of a reader of tenders too");
    assert_eq!(found.trips[0].site, Some(1));
    let scenario = read(&text("sawmill_two_fill_sites"));
    let answer = of_handout::handout(&scenario, BUDGET, &Control::default());
    let pages = handout(&answer, Format::Letter, &made(&scenario, true)).expect("pages");
    let says = &pages[2].placed.last().expect("the table").block.says;
    assert!(says.contains("fill site") && says.starts_with("tender"), "{says}");
}
