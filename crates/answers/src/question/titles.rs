//! Every picture's title is the answer: its values are values of the answer.

use std::path::Path;

use scenario_file::Scenario;
use shuttle_report::batch::Control;
use shuttle_report::units::Units;

use super::{Budget, compare, grade, hold, levers, lose, reach, replay, request};
use crate::Reader;
use crate::answer::{Answer, Block};
use crate::json::told_for_page;
use crate::say::{Piece, Sentence};

const BUDGET: Budget = Budget { replications: 256, seed: 1, threads: 2 };

fn scenario(name: &str) -> Scenario {
    let scenarios = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../scenarios");
    scenario_file::load(&scenarios.join(name).with_extension("json")).expect("a sound scenario")
}

/// All that is not our own words: names, counts, quantities, chances.
fn values(of: &Sentence) -> Vec<Piece> {
    (of.0.iter())
        .flat_map(|piece| match piece {
            Piece::Within(sentence) => values(sentence),
            Piece::Words(_) | Piece::Tanker | Piece::Tankers => Vec::new(),
            value => vec![value.clone()],
        })
        .collect()
}

/// The values of what an answer says: its verdict, its points and their tables.
fn said<F>(answer: &Answer<F>) -> Vec<Piece> {
    let of_blocks = answer.told.points.iter().flat_map(|block| match block {
        Block::Point(_, sentence) | Block::Paragraph(sentence) => values(sentence),
        Block::Table(table) => table.rows.iter().flatten().flat_map(values).collect(),
        Block::Gap => Vec::new(),
    });
    values(&answer.told.verdict).into_iter().chain(of_blocks).collect()
}

fn titles_are_the_answer<F>(answer: &Answer<F>) -> usize {
    nothing_of_the_command_on_a_page(answer);
    let said = said(answer);
    for picture in &answer.pictures {
        let told = values(&picture.title);
        let about = format!("{} of {}: {:?}", picture.name, answer.question, picture.title);
        assert!(!picture.title.is_empty(), "{about}");
        for value in &told {
            assert!(said.contains(value), "{value:?} in {about} is not in {said:?}");
        }
        assert!(!told.is_empty(), "{about} has no value");
    }
    answer.pictures.len()
}

/// Whoever has the planner page before him can call no command.
fn nothing_of_the_command_on_a_page<F>(answer: &Answer<F>) {
    let reader = Reader { units: Units::Us, tender: false };
    let told = told_for_page(answer, &reader).to_string();
    for of_the_command in ["--", "`bucketline", "\"line "] {
        assert!(!told.contains(of_the_command), "{of_the_command}: {told}");
    }
}

/// `risk` and `size` show other figures than their sentences say, and check them beside their pictures.
#[test]
fn every_title_holds_values_of_its_answer() {
    let control = Control::default();
    let mill = scenario("feed_mill_mutual_aid");
    let barn = scenario("hay_barn_what_to_buy");
    let asked = request::Asked { target: 0.05, spare: true };
    let of_hold = hold::Asked { minutes: Vec::new(), share: 0.95 };
    let of_reach = reach::Asked { site: 0, wanted_gpm: None, share: 0.95 };
    let two_sites = scenario("sawmill_two_fill_sites");
    let pictures = [
        titles_are_the_answer(&request::request(&mill, BUDGET, asked, &control)),
        titles_are_the_answer(&lose::lose(&barn, 0.05, BUDGET, &control)),
        titles_are_the_answer(&hold::hold(&barn, &of_hold, BUDGET, &control)),
        titles_are_the_answer(&levers::levers(&barn, BUDGET, &control)),
        titles_are_the_answer(&reach::reach(&barn, of_reach, BUDGET, &control)),
        titles_are_the_answer(&compare::compare(
            std::slice::from_ref(&barn),
            None,
            BUDGET,
            &control,
        )),
        titles_are_the_answer(
            &grade::grade(std::slice::from_ref(&two_sites), &[], 0.95, BUDGET, &control).answer,
        ),
        titles_are_the_answer(&replay::replay(&barn, replay::Which::Drawn { run: 1, seed: 1 })),
    ];
    assert!(pictures.iter().all(|count| *count > 0), "{pictures:?}");
}
