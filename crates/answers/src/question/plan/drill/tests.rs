//! Checks of `drill` on the demo logs, whose making is known: see the notes of their scenario.

use std::path::{Path, PathBuf};

use scenario_file::{Scenario, WithValues, with_values};
use shuttle_report::batch::Control;
use shuttle_report::units::Units;
use shuttle_sim::TimeTaken;

use super::*;
use crate::json::json;
use crate::text::{Setting, text};
use crate::{Answer, Reader};

const BUDGET: Budget = Budget { replications: 400, seed: 1, threads: 2 };

fn place(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../scenarios/logs").join(name)
}

struct Made {
    scenario: Scenario,
    timed: Timed,
    with: WithValues,
}

fn made(log: &str, left_out: &[usize]) -> Made {
    let path = place("quarry_lane_drill.json");
    let scenario = scenario_file::load(&path).expect("a scenario");
    let table = drill_log::open(&place(log)).expect("a table");
    let log = drill_log::read(&table, &course(&scenario)).expect("a log");
    let timed = timed(&scenario, log, left_out);
    let with = with_values(&path, &timed.puts()).expect("a scenario with values");
    Made { scenario, timed, with }
}

impl Made {
    fn answer(&self, asked: &Asked) -> Answer<DrillFigures> {
        let planned = (&self.with, &self.with.scenario);
        drill(&self.scenario, &self.timed, planned, asked, BUDGET, &Control::default())
    }
}

fn said(answer: &Answer<DrillFigures>, more: bool) -> String {
    let reader = Reader { units: Units::Us, tender: false };
    text(answer, &Setting { reader, width: 100, more, pictures: None, pages: None })
}

#[test]
fn a_clean_log_gives_the_times_it_was_made_with() {
    let made = made("spring_drill.csv", &[]);
    // The log was made with lognormal times of these means and cvs; a mean of n readings is known to
    // mean x cv / sqrt(n), and a false alarm of four such errors is one in 16,000.
    for (step, mean, cv) in [
        (drill_log::Step::FillConnect, 1.75, 0.3),
        (drill_log::Step::FillDisconnect, 0.65, 0.3),
        (drill_log::Step::DriveOut, 6.6, 0.12),
        (drill_log::Step::DriveBack, 7.2, 0.12),
    ] {
        let of = made.timed.figures(step, None, None).expect("readings");
        assert!(of.readings >= 15, "{step:?}: {of:?}");
        let error = mean * cv / (of.readings as f64).sqrt();
        assert!((of.mean - mean).abs() < 4.0 * error + 0.01, "{step:?}: {of:?}");
    }
    let facts = made.with.scenario.plan.facts();
    assert!((facts.fill_sites[0].flow - 850.0).abs() <= 20.0, "{}", facts.fill_sites[0].flow);
    for tanker in &facts.tankers {
        assert!((tanker.dump_rate - 940.0).abs() < 4.0 * 0.06 * 940.0 / 2.0, "{tanker:?}");
    }
    let connecting = made.timed.of(drill_log::Step::FillConnect, None, None).len();
    let TimeTaken::Samples(samples) = &facts.tankers[0].handling.fill_connect else {
        panic!("samples were put")
    };
    assert_eq!(samples.len(), connecting);
    assert!(made.timed.measured.breakdowns.is_empty());
}

#[test]
fn a_night_log_has_its_flat_tire_and_its_rounding() {
    let made = made("night_drill.csv", &[]);
    assert_eq!(made.timed.log.grain, 1.0);
    let broken = &made.timed.measured.breakdowns;
    assert_eq!(broken.len(), 1);
    let answer = made.answer(&Asked::default());
    // However its lines are broken.
    let told = said(&answer, true).split_whitespace().collect::<Vec<_>>().join(" ");
    for wanted in [
        "times are written to the whole minute",
        "column 'hooked' is connected at the fill site",
        "'T5' is Tanker 5",
        "Tanker 5 in row",
        "\"breakdown_per_trip\"",
    ] {
        assert!(told.contains(wanted), "{wanted} is not in\n{told}");
    }
    // Where the minute hides the spread, no samples are put.
    let clear = &made.with.scenario.plan.facts().tankers[0].handling.fill_disconnect;
    assert!(matches!(clear, TimeTaken::Lognormal { .. }), "{clear:?}");
    // However coarsely it was timed, the plan knows how many readings it rests on.
    for value in &made.timed.values {
        let put = value.put.value.to_string();
        let says = ["timed", "guess", "samples"].iter().any(|word| put.contains(word));
        assert!(says, "{}: {put}", value.put.place);
    }
    let doubt = answer.figures.doubt.expect("a range");
    // Four dump rates, four steps of handling, the flow of the pond, and the drives.
    assert!(doubt.inputs.len() >= 8, "{:?}", doubt.inputs);
}

#[test]
fn the_schema_holds_and_a_lost_tanker_brings_less() {
    let schema = crate::schema::answers_schema();
    for log in ["spring_drill.csv", "night_drill.csv"] {
        let made = made(log, &[]);
        let asked = Asked { lost: Some((1, 40.0)), ..Asked::default() };
        let answer = made.answer(&asked);
        for units in [Units::Us, Units::Metric] {
            let result = json(&answer, &Reader { units, tender: false });
            if let Err(error) = jsonschema::validate(&schema, &result) {
                panic!("{log}: {error}");
            }
        }
        let day = answer.figures.day.expect("a day");
        let lost = day.lost.expect("a tanker was lost");
        let last = |values: &[f64]| values.last().copied().unwrap_or(0.0);
        let (whole, without) = (last(&day.expected.p50_gal), last(&lost.expected.p50_gal));
        assert!(without < whole - 2_000.0, "{without} of {whole}");
        let until = day.minute.iter().position(|minute| *minute >= 40.0).expect("a minute");
        assert_eq!(day.expected.p50_gal[..until], lost.expected.p50_gal[..until]);
    }
}

#[test]
fn a_row_that_is_left_out_is_in_no_step() {
    let whole = made("spring_drill.csv", &[]);
    let row = whole.timed.measured.readings[0].row;
    let without = made("spring_drill.csv", &[row]);
    assert!(without.timed.measured.readings.iter().all(|one| one.row != row));
    assert_eq!(without.timed.measured.waits, whole.timed.measured.waits);
}

#[test]
fn the_answer_fits_the_screen_in_width_and_begins_with_the_chance() {
    let made = made("spring_drill.csv", &[]);
    let told = said(&made.answer(&Asked::default()), false);
    assert!(told.lines().all(|line| line.chars().count() <= 100), "{told}");
    assert!(told.lines().nth(2).is_some_and(|line| line.contains("the plan holds in")), "{told}");
}
