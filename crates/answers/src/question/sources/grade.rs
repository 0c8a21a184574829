//! Fill sites compared for an insurance grading, with the evidence.

mod addresses;
mod cautions;
mod evidence;
mod figures;
mod pictures;
mod rule_figures;
mod rules;
mod shown_figures;
mod tables;
mod told;

use fireground::travel::{RULE_MIN_PER_MILE, START_MIN};
use scenario_file::Scenario;
use shuttle_report::batch::Control;
use shuttle_report::evidence::{Evidence, evidence};
use shuttle_report::grade::{
    GradeAnswer, GradeQuestion, SiteGrade, grade as grade_sites, searches,
};
use shuttle_report::grading_rules::GradingRule;
use shuttle_report::site_sets::Graded;
use shuttle_report::units::Units;

use crate::answer::{Answer, Basis, Block};
use crate::question::Budget;
use crate::say;
use crate::say::{Piece, Sentence, joined, name};
use crate::shared::asked::asked_words;
use crate::shared::holding::step_gpm;
use crate::shared::luck::SharedLuck;
use crate::shared::people;

pub use addresses::expected_replications as expected_replications_of_addresses;
pub use addresses::{AddressFigures, AddressesGraded, at_address, grade_addresses};
pub use evidence::{BLANK, EvidenceFigures};
pub use figures::GradeFigures;

/// Simulated fires that one search usually takes.
const USUAL_REPLICATIONS: u64 = 4_000;

/// Compares the fill sites of places, each a scenario, by rules of which the first ranks.
///
/// - Given: at least one scenario, whose units decide the usual rules where `rules` is empty; `share` of
///   fires in which a flow must hold.
pub fn grade(
    scenarios: &[Scenario],
    rules: &[GradingRule],
    share: f64,
    budget: Budget,
    control: &Control,
) -> Grading {
    let units = scenarios.first().map_or(Units::Us, |first| first.units);
    let question = GradeQuestion {
        rules: rules_or_usual(rules, scenarios),
        share,
        most_runs: budget.replications,
        seed: budget.seed,
        threads: budget.threads,
        step_gpm: step_gpm(units),
    };
    let found = grade_sites(&graded(scenarios), &question, control);
    let sheets: Vec<_> = (scenarios.iter())
        .map(|scenario| evidence(&scenario.aid.everyone, &scenario.stated, &scenario.survey))
        .collect();
    let basis = Basis {
        replications: found
            .ranked
            .iter()
            .flat_map(|one| &one.results)
            .map(|one| one.replications)
            .sum(),
        seed: found.seed,
        ended_early: found.ended_early,
    };
    let answer = Answer {
        question: "grade",
        title: found.titles.first().cloned().unwrap_or_default(),
        asked: scenarios.first().map(|one| one.asked.clone()).unwrap_or_default(),
        told: told::told(scenarios, &found, &sheets),
        basis,
        figures: GradeFigures::new(
            &found,
            &sheets,
            (scenarios.iter())
                .map(|one| (SharedLuck::of(&one.plan), people::needed(one)))
                .collect(),
        ),
        pictures: pictures::pictures(&found),
    };
    Grading { answer, sheets: sheets_of(scenarios, &sheets, &found) }
}

/// An answer with its evidence sheets as documents of their own.
pub struct Grading {
    /// The answer.
    pub answer: Answer<GradeFigures>,
    /// The evidence sheet of every place, one behind the other.
    pub sheets: Vec<Block>,
}

fn sheets_of(scenarios: &[Scenario], sheets: &[Evidence], found: &GradeAnswer) -> Vec<Block> {
    let mut blocks = Vec::new();
    for (place, (scenario, sheet)) in scenarios.iter().zip(sheets).enumerate() {
        let changed = asked_words(&scenario.asked);
        blocks.extend(evidence::sheet(sheet, place, found, changed, water_takes(scenario)));
        blocks.push(Block::Gap);
    }
    let edition = edition(scenarios);
    blocks.extend(found.rules.iter().map(|rule| Block::Paragraph(rules::in_full(rule, edition))));
    blocks
}

/// "11: 4 on the road (1 on each tanker), ..."; where it is stated who is there, "11 for the water; 9 are on hand: 2 too
/// few. 4 on the road ..."
fn water_takes(scenario: &Scenario) -> Sentence {
    let needed = people::needed(scenario);
    let by_place = people::by_place(&needed, scenario);
    match needed.on_hand {
        Some(_) => people::in_short(&needed).then(by_place),
        None => say![Piece::Number(needed.total as f64, 0), ": ", by_place],
    }
}

/// The edition that the scenarios state, where they state one and the same.
fn edition(scenarios: &[Scenario]) -> Option<&String> {
    let mut stated = scenarios.iter().map(|one| one.survey.edition.as_ref());
    let first = stated.next()??;
    stated.all(|other| other == Some(first)).then_some(first)
}

/// About how many fires that simulates: for a progress bar.
pub fn expected_replications(scenarios: &[Scenario], rules: &[GradingRule]) -> u64 {
    let rules = rules_or_usual(rules, scenarios);
    USUAL_REPLICATIONS * searches(&graded(scenarios), &rules) as u64
}

/// The places with everyone they name.
fn graded(scenarios: &[Scenario]) -> Vec<Graded<'_>> {
    (scenarios.iter())
        .map(|scenario| Graded {
            everyone: scenario.aid.everyone.facts(),
            survey: &scenario.survey,
            travel_rule,
        })
        .collect()
}

/// Minutes for so many miles, RAND travel time as in the ISO rating schedule.
fn travel_rule(miles: f64) -> f64 {
    START_MIN + RULE_MIN_PER_MILE * miles
}

/// Those asked for; else the usual ones of the first scenario's units, and the scenarios' own behind them.
fn rules_or_usual(rules: &[GradingRule], scenarios: &[Scenario]) -> Vec<GradingRule> {
    if !rules.is_empty() {
        return rules.to_vec();
    }
    let units = scenarios.first().map_or(Units::Us, |first| first.units);
    let mut rules = GradingRule::usual(units).to_vec();
    for own in scenarios.iter().flat_map(|scenario| &scenario.survey.rules) {
        if !rules.iter().any(|rule| rule.key == own.key) {
            rules.push(own.clone());
        }
    }
    rules
}

/// "A", "B", ..., "27": a place among several.
fn letter(place: usize) -> Piece {
    match ('A'..='Z').nth(place) {
        Some(letter) => Piece::Words(letter.to_string().into()),
        None => Piece::Number((place + 1) as f64, 0),
    }
}

/// The sites of a set, whole: "Mill pond + River bridge".
fn site_names(one: &SiteGrade) -> Sentence {
    joined(one.sites.iter().map(|site| say![name(site)]), " + ", " + ")
}

/// The same in short: of more than three sites how many; of one of several places "A: Mill pond".
fn sites(one: &SiteGrade, found: &GradeAnswer) -> Sentence {
    let sites = match one.sites.as_slice() {
        [_] | [_, _] | [_, _, _] => site_names(one),
        many => say!["all ", Piece::Count(many.len()), " together"],
    };
    if found.titles.len() > 1 { say![letter(one.scenario), ": ", sites] } else { sites }
}
