//! The plan as a chief reads it: several questions together.

mod clock;
mod fires;
mod sources;

use scenario_file::Scenario;
use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::batch::{Control, Runs};
use shuttle_report::turnarounds::turnarounds;
use shuttle_report::worksheet::worksheet;

use crate::answer::{Answer, Block, Label, Told};
use crate::question::Budget;
use crate::question::card::{
    DryFigures, MOST_FIRES_OF_HOLD, MOST_FIRES_READ, dry, people_short_words,
};
use crate::question::check::{CheckFigures, check};
use crate::question::compare::{CompareFigures, compare};
use crate::question::hold::{self, HoldFigures, hold};
use crate::question::levers::{LeverFigures, levers};
use crate::question::lose::{LossFigures, lose};
use crate::question::request::{self, RequestFigures, has_aid, request};
use crate::question::risk::{RiskFigures, risk};
use crate::shared::notes;

pub use clock::{MomentFigures, MomentKind};
pub use sources::LateSourceFigures;

/// The request stands the loss of any one unit or source, as that command has it by itself: two answers to one
/// question would be one too many.
const SPARE: bool = true;

/// What is asked.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Asked {
    /// Chance that the lines run short to stay below.
    pub target: f64,
}

/// The figures of `report`: those of the questions it is made of.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct ReportFigures {
    /// How often the lines run short, when, why, and what would help.
    pub risk: RiskFigures,
    /// Who is on scene and what is set up when, in order of time.
    #[serde(rename = "moments")]
    pub clock: Vec<MomentFigures>,
    /// Sources that are not ready when the first tanker could load there.
    pub sources_late: Vec<LateSourceFigures>,
    /// Sources that run dry in any fire.
    pub sources_dry: Vec<DryFigures>,
    /// The plan by hand.
    pub check: CheckFigures,
    /// Whom to ask for; null where nobody could be asked.
    pub request: Option<RequestFigures>,
    /// The file's options, with what they cost; null where it has none.
    pub compare: Option<CompareFigures>,
    /// What flow can be held, and from which minute.
    pub hold: HoldFigures,
    /// What the plan cannot do without.
    pub lose: LossFigures,
    /// What one minute or one hundred gpm is worth.
    pub levers: LeverFigures,
}

/// The answers a report is made of, and the answer they make together.
#[derive(Debug)]
pub struct Report {
    /// What they say together.
    pub whole: Answer<ReportFigures>,
    /// How often the lines run short.
    pub risk: Answer<RiskFigures>,
    /// The plan by hand.
    pub check: Answer<CheckFigures>,
    /// Whom to ask for; none where nobody could be asked.
    pub request: Option<Answer<RequestFigures>>,
    /// The file's options; none where it has none.
    pub compare: Option<Answer<CompareFigures>>,
    /// What flow can be held.
    pub hold: Answer<HoldFigures>,
    /// What the plan cannot do without.
    pub lose: Answer<LossFigures>,
    /// What a little of everything is worth.
    pub levers: Answer<LeverFigures>,
}

/// Asks all that a chief would.
pub fn report(scenario: &Scenario, asked: Asked, budget: Budget, control: &Control) -> Report {
    let target = asked.target;
    let risk = risk(scenario, budget, true, control);
    let check = check(scenario);
    let request = has_aid(scenario)
        .then(|| request(scenario, budget, request::Asked { target, spare: SPARE }, control));
    let compare = (!scenario.options.is_empty())
        .then(|| compare(std::slice::from_ref(scenario), None, budget, control));
    let of_hold = Budget { replications: budget.replications.min(MOST_FIRES_OF_HOLD), ..budget };
    let hold_asked = hold::Asked { minutes: Vec::new(), share: 1.0 - target };
    let hold = hold(scenario, &hold_asked, of_hold, control);
    let lose = lose(scenario, target, budget, control);
    let levers = levers(scenario, budget, control);
    let mut basis = risk.basis.clone();
    basis.ended_early |= [
        request.as_ref().is_some_and(|one| one.basis.ended_early),
        compare.as_ref().is_some_and(|one| one.basis.ended_early),
        hold.basis.ended_early,
        lose.basis.ended_early,
        levers.basis.ended_early,
    ]
    .contains(&true);
    let runs = Runs {
        first: 0,
        count: budget.replications.min(MOST_FIRES_READ),
        seed: budget.seed,
        threads: budget.threads,
    };
    let read = turnarounds(&scenario.plan, runs, control);
    let sources_late = sources::late(scenario, &worksheet(&scenario.plan));
    let sources_dry = dry(&scenario.plan, &read);
    let mut points: Vec<Block> = Vec::new();
    if risk.basis.replications > 0 {
        points.push(Block::Point(Label::Luck, fires::words(&risk.figures)));
    }
    points.extend(
        (risk.told.points.iter())
            .filter(|block| {
                matches!(block, Block::Point(Label::When | Label::Why | Label::Reserve, _))
            })
            .cloned(),
    );
    let told = fires::flow_words(&check.figures.planned.flow_steps);
    points.extend(told.map(|told| Block::Point(Label::Lines, told)));
    let told = sources::words(&sources_late, &sources_dry, read.runs);
    points.extend(told.map(|told| Block::Point(Label::Careful, told)));
    points.extend(
        people_short_words(&check.figures.people).map(|told| Block::Point(Label::People, told)),
    );
    points.extend(request.as_ref().map(|one| Block::Point(Label::Ask, one.told.verdict.clone())));
    points.push(Block::Point(Label::Hold, hold.told.verdict.clone()));
    points.push(Block::Point(Label::Spare, lose.told.verdict.clone()));
    let whole = Answer {
        question: "report",
        title: risk.title.clone(),
        asked: scenario.asked.clone(),
        told: Told {
            headline: risk.told.headline.clone(),
            verdict: risk.told.verdict.clone(),
            points,
            advice: risk.told.advice.clone(),
            more: Vec::new(),
            notes: notes(scenario),
            small_print: risk.told.small_print.clone(),
            ask_next: vec!["card", "handout", "replay"],
        },
        basis,
        figures: ReportFigures {
            risk: risk.figures.clone(),
            clock: clock::moments(scenario),
            sources_late,
            sources_dry,
            check: check.figures.clone(),
            request: request.as_ref().map(|one| one.figures.clone()),
            compare: compare.as_ref().map(|one| one.figures.clone()),
            hold: hold.figures.clone(),
            lose: lose.figures.clone(),
            levers: levers.figures.clone(),
        },
        pictures: Vec::new(),
    };
    Report { whole, risk, check, request, compare, hold, lose, levers }
}

/// About how many fires that simulates: for a progress bar.
pub fn expected_replications(scenario: &Scenario, budget: Budget) -> u64 {
    let asked = hold::Asked { minutes: Vec::new(), share: 0.95 };
    (3 + scenario.options.len() as u64) * budget.replications
        + budget.replications.min(MOST_FIRES_READ)
        + hold::expected_replications(scenario, &asked)
}
