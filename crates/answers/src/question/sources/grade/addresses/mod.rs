//! Many addresses graded with the same units and fill sites: one row an address.

mod figures;
mod spreadsheet;
mod told;

use scenario_file::Scenario;
use shuttle_report::batch::Control;
use shuttle_report::conditions::shown::{NotShown, not_shown};
use shuttle_report::district::{DistrictAnswer, DistrictQuestion, Place, PlaceRow, district};
use shuttle_report::grade::Verdict;
use shuttle_report::grading_rules::GradingRule;
use shuttle_report::survey::HeldDrill;
use shuttle_sim::{Plan, PlanDraft};

use super::{edition, rules_or_usual, travel_rule};
use crate::answer::{Answer, Basis};
use crate::question::Budget;

pub use figures::AddressFigures;

/// Simulated fires that one address usually takes for each rule.
const USUAL_REPLICATIONS: u64 = 300;

/// An option of a scenario, and what it does to its addresses under the first rule.
pub struct OptionCounted {
    /// Its name.
    pub name: String,
    /// What it costs, in the scenario's own currency.
    pub cost: Option<f64>,
    /// Addresses that pass with it and not without.
    pub more: Vec<String>,
    /// Addresses that pass without it and not with it.
    pub fewer: Vec<String>,
}

/// What was found.
struct Found {
    rules: Vec<GradingRule>,
    share: f64,
    rows: DistrictAnswer,
    options: Vec<OptionCounted>,
    /// Drills that are stated, where there is one scenario.
    drills: Vec<HeldDrill>,
    /// What a survey sees and the first scenario does not state.
    not_shown: Vec<NotShown>,
    /// Tankers of which the scenarios do not say whose they are.
    silent_aid: usize,
    /// The edition that the scenarios state, where they state one and the same.
    edition: Option<String>,
}

/// An answer with its rows as a spreadsheet takes them.
pub struct AddressesGraded {
    /// The answer.
    pub answer: Answer<AddressFigures>,
    /// Comma-separated values (RFC 4180), a row an address.
    pub csv: String,
}

/// A scenario as it is at one of its addresses: the roads from there, and what is stated for it.
///
/// - Returns: `None` where there is no such address, or no fill site serves it.
pub fn at_address(scenario: &Scenario, name: &str) -> Option<Scenario> {
    let address = scenario.survey.addresses.iter().find(|address| address.name == name)?;
    let everyone = scenario.aid.everyone.facts();
    let mut place = Place::of(address, everyone, &scenario.survey);
    place.everyone.title = format!("{}: {}", everyone.title, address.name);
    let mut there = scenario.clone();
    there.aid.everyone = Plan::check(place.everyone).ok()?;
    there.survey = place.survey;
    Some(there)
}

/// The places of scenarios: their addresses; of one without addresses, the scenario's own fire.
fn places_of(scenarios: &[Scenario]) -> Vec<Place> {
    scenarios.iter().flat_map(|one| places(one, one.aid.everyone.facts(), &one.survey)).collect()
}

fn places(
    scenario: &Scenario,
    everyone: &PlanDraft,
    survey: &shuttle_report::survey::Survey,
) -> Vec<Place> {
    let addresses = &scenario.survey.addresses;
    if addresses.is_empty() {
        return vec![Place {
            name: scenario.plan.facts().title.clone(),
            everyone: everyone.clone(),
            survey: survey.clone(),
        }];
    }
    addresses.iter().map(|address| Place::of(address, everyone, survey)).collect()
}

/// Grades every address of every scenario, and each again with every option.
///
/// - Given: as for [`super::grade`].
pub fn grade_addresses(
    scenarios: &[Scenario],
    rules: &[GradingRule],
    share: f64,
    budget: Budget,
    control: &Control,
) -> AddressesGraded {
    let question = DistrictQuestion {
        rules: rules_or_usual(rules, scenarios),
        share,
        most_runs: budget.replications,
        seed: budget.seed,
        threads: budget.threads,
        travel_rule,
    };
    let rows = district(&places_of(scenarios), &question, control);
    let mut options = Vec::new();
    let mut first = 0;
    let mut replications = rows.replications();
    for scenario in scenarios {
        let many = scenario.survey.addresses.len().max(1);
        let before = rows.rows.get(first..first + many).unwrap_or_default();
        first += many;
        for option in scenario.options.iter().filter(|_| !control.is_stopped()) {
            let places = places(scenario, option.everyone.facts(), &option.survey);
            let after = district(&places, &question, control);
            replications += after.replications();
            options.push(counted(option, before, &after.rows));
        }
    }
    options.sort_by_key(|option| std::cmp::Reverse(option.more.len()));
    let silent = |one: &Scenario| {
        let tankers = one.aid.everyone.facts().tankers.iter();
        tankers.filter(|tanker| !one.survey.of_tanker(tanker).aid_is_stated).count()
    };
    let lacks = question.rules.first().zip(scenarios.first()).map(|(rule, one)| {
        let sites = one.aid.everyone.facts().fill_sites.iter().enumerate();
        not_shown(rule, &one.survey, sites.map(|(place, site)| (site, one.survey.sites.get(place))))
    });
    let lacks = lacks.unwrap_or_default();
    let found = Found {
        rules: question.rules,
        share,
        rows,
        options,
        drills: match scenarios {
            [only] => only.survey.drills.clone(),
            _ => Vec::new(),
        },
        not_shown: lacks,
        silent_aid: scenarios.iter().map(silent).sum(),
        edition: edition(scenarios).cloned(),
    };
    let title = scenarios.first().map(|one| one.plan.facts().title.clone()).unwrap_or_default();
    let units = scenarios.first().map(|one| one.units).unwrap_or(shuttle_report::units::Units::Us);
    AddressesGraded {
        csv: spreadsheet::csv(&found, units),
        answer: Answer {
            question: "grade_addresses",
            asked: scenarios.first().map(|one| one.asked.clone()).unwrap_or_default(),
            told: told::told(&title, scenarios, &found),
            title,
            basis: Basis {
                replications,
                seed: budget.seed,
                ended_early: found.rows.ended_early || control.is_stopped(),
            },
            figures: AddressFigures::new(&found),
            pictures: Vec::new(),
        },
    }
}

/// About how many fires that simulates: for a progress bar.
pub fn expected_replications(scenarios: &[Scenario], rules: &[GradingRule]) -> u64 {
    let rules = rules_or_usual(rules, scenarios).len() as u64;
    let rows: usize = (scenarios.iter())
        .map(|one| one.survey.addresses.len().max(1) * (1 + one.options.len()))
        .sum();
    USUAL_REPLICATIONS * rules * rows as u64
}

fn passes(row: &PlaceRow) -> bool {
    row.results.first().is_some_and(|first| first.verdict == Verdict::Pass)
}

fn counted(
    option: &scenario_file::ScenarioOption,
    before: &[PlaceRow],
    after: &[PlaceRow],
) -> OptionCounted {
    let which = |from: bool, to: bool| {
        (before.iter().zip(after))
            .filter(|(before, after)| passes(before) == from && passes(after) == to)
            .map(|(row, _)| row.name.clone())
            .collect()
    };
    OptionCounted {
        name: option.name.clone(),
        cost: option.cost,
        more: which(false, true),
        fewer: which(true, false),
    }
}
