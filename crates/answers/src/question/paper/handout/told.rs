//! What `handout` says on a screen; the handout itself is two pages and a form.

use scenario_file::Scenario;

use super::answers::answer_words;
use super::figures::HandoutFigures;
use super::words::{finding_words, question_words};
use crate::answer::{Basis, Block, Label, Told};
use crate::say;
use crate::shared::{headline, notes};

/// The answer in words: the first finding, then the others, then the questions.
pub fn told(scenario: &Scenario, figures: &HandoutFigures, basis: &Basis) -> Told {
    let mut findings = figures.findings.iter().map(finding_words);
    let verdict = if basis.replications == 0 {
        say!["Ended before anything was clear."]
    } else {
        findings.next().unwrap_or_default()
    };
    let mut points: Vec<Block> =
        findings.map(|finding| Block::Point(Label::Watch, finding)).collect();
    points.extend(
        (figures.questions.iter()).map(|one| Block::Point(Label::Asked, question_words(one))),
    );
    let more =
        figures.questions.iter().map(|one| Block::Point(Label::Blank, answer_words(one))).collect();
    Told {
        headline: headline(&scenario.plan),
        verdict,
        points,
        advice: Vec::new(),
        more,
        notes: notes(scenario),
        small_print: Vec::new(),
        ask_next: vec!["drill", "card", "levers"],
    }
}
