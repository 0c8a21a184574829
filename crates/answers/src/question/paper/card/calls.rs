//! What it costs to call later, and whom to ask for where the plan fails.

use scenario_file::Scenario;
use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::asked_later::{Later, asked_later, last_call};
use shuttle_report::batch::{Control, Runs};

use super::figures::CardFigures;
use crate::question::Budget;
use crate::question::hold::{self, HeldFigures};
use crate::question::request::{self, UnitFigures, flow_argument};
use crate::say;
use crate::say::{Chances, Piece, Sentence, joined, name};
use crate::shared::asked::FlowFigures;
use crate::shared::holding::from_words;
use crate::shared::people::{self, PeopleFigures};

/// Share of fires in which the lines may run short: with more a card is not to be used. What `request` and `report` aim
/// at where nothing else is asked.
pub const TARGET: f64 = 0.05;
/// Most fires for each search of `hold`, as that command takes them by itself.
pub const MOST_FIRES_OF_HOLD: u64 = 2_500;
/// Minutes by which the last calls may come later.
const LATER: [f64; 2] = [5.0, 10.0];
/// Most fires for each: they tell one fire of 100 from three.
const MOST_FIRES: u64 = 2_000;

/// The last minute by which everyone is called, and what it costs to call later.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct DeadlineFigures {
    /// By this minute after the alarm everyone has been called.
    pub everyone_called_by_min: f64,
    /// What it costs to make every later call later, all by as much.
    pub called_later: Vec<CalledLaterFigures>,
}

/// Every call after the alarm made later.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct CalledLaterFigures {
    /// The last of it at this minute after the alarm.
    pub last_call_min: f64,
    /// Fires in which that was looked at.
    pub fires: u64,
    /// Share of fires in which the lines then run short: that of the plan, and the difference in these.
    pub ran_short: f64,
}

/// Whom to ask for instead of what the plan does, as `request` has it.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct InsteadFigures {
    /// Whether that keeps the lines in water often enough.
    pub meets_target: bool,
    /// Share of fires in which the lines then run short.
    pub interruption_probability: f64,
    /// Simulated fires.
    pub replications: u64,
    /// Whom to ask for, in the order to ask.
    pub ask_for: Vec<UnitFigures>,
    /// Where that is not enough: the flow, step by step, for which a request is; null elsewhere.
    pub is_enough_for: Option<Vec<FlowFigures>>,
    /// That flow as it is typed.
    #[serde(skip)]
    #[schemars(skip)]
    pub flow_argument: Option<String>,
    /// The scenario's file, for the call that writes the card of that.
    #[serde(skip)]
    #[schemars(skip)]
    pub file: String,
}

/// Nothing where everyone is called at the alarm.
pub fn deadline(
    scenario: &Scenario,
    short: f64,
    budget: Budget,
    control: &Control,
) -> Option<DeadlineFigures> {
    let last = last_call(&scenario.plan)?;
    let runs = Runs {
        first: 0,
        count: budget.replications.min(MOST_FIRES),
        seed: budget.seed,
        threads: budget.threads,
    };
    let share = |found: &Later| found.short as f64 / found.runs.max(1) as f64;
    let found = asked_later(&scenario.plan, &[&[0.0], &LATER[..]].concat(), runs, control);
    // Those fires as the plan stands: what is told is the chance of all its fires and the difference in these.
    let (on_time, found) = found.split_first()?;
    let later = |found: &Later| CalledLaterFigures {
        last_call_min: last + found.by,
        fires: found.runs,
        ran_short: (short + share(found) - share(on_time)).clamp(0.0, 1.0),
    };
    Some(DeadlineFigures {
        everyone_called_by_min: last,
        called_later: found.iter().filter(|one| one.runs > 0).map(later).collect(),
    })
}

/// What `request` asks for, where the plan fails and the file lists aid.
///
/// - Given: the share of fires in which the lines run short as the plan stands.
pub fn instead(
    scenario: &Scenario,
    short: f64,
    budget: Budget,
    control: &Control,
) -> Option<InsteadFigures> {
    if short <= TARGET || !scenario.aid.is_listed() {
        return None;
    }
    let asked = request::Asked { target: TARGET, spare: true };
    let answer = request::request(scenario, budget, asked, control);
    let less = answer.figures.ask_instead.filter(|_| answer.figures.request_instead.is_some());
    Some(InsteadFigures {
        flow_argument: less.as_deref().map(|steps| flow_argument(steps, scenario.units)),
        is_enough_for: less,
        meets_target: answer.figures.meets_target,
        interruption_probability: answer.figures.interruption_probability,
        replications: answer.basis.replications,
        ask_for: answer.figures.request,
        file: scenario.path.display().to_string(),
    })
}

/// What the units of the plan hold as `report` has it, where it fails.
///
/// - Given: the share of fires in which the lines run short as the plan stands.
pub fn can_be_held(
    scenario: &Scenario,
    short: f64,
    budget: Budget,
    control: &Control,
) -> Option<HeldFigures> {
    if short <= TARGET {
        return None;
    }
    let budget = Budget { replications: budget.replications.min(MOST_FIRES_OF_HOLD), ..budget };
    let asked = hold::Asked { minutes: Vec::new(), share: 1.0 - TARGET };
    Some(hold::hold(scenario, &asked, budget, control).figures.as_it_stands)
}

impl CardFigures {
    /// Whether the lines run short more often than anybody should rely on.
    pub fn is_not_to_be_used(&self) -> bool {
        self.interruption_probability > TARGET
    }
}

/// "410 gpm from first water on": the first flow that the units of a plan hold which fails; nothing where none is shown to.
pub fn held_words(card: &CardFigures) -> Option<Sentence> {
    let step = card.can_be_held.as_ref()?.steps.first()?;
    Some(say![Piece::Flow(step.flow_gpm), " ", from_words(step)])
}

/// "15 for the water; 12 are on hand: 3 too few." - nothing where they suffice, or it is not stated who is on hand.
pub fn people_short_words(people: &PeopleFigures) -> Option<Sentence> {
    let there = u64::from(people.on_hand?);
    (there < people.total).then(|| people::in_short(people))
}

/// "each call at its minute; every later call 5 minutes late: short in 46 fires of 100; 10 late: in 83 fires of 100."
pub fn deadline_words(of: &DeadlineFigures) -> Sentence {
    let later = of.called_later.iter().enumerate().map(|(place, one)| {
        let how_often = Piece::Fires(Chances::of(one.ran_short, one.fires));
        let by = one.last_call_min - of.everyone_called_by_min;
        if place == 0 {
            say!["every later call ", Piece::Minutes(by), " late: short in ", how_often]
        } else {
            say![Piece::Number(by, 0), " late: in ", how_often]
        }
    });
    let later: Vec<Sentence> = later.collect();
    let costs = (!later.is_empty()).then(|| say!["; ", joined(later, "; ", "; ")]);
    say!["each call at its minute", costs, "."]
}

/// "Maple Ford Tanker 2, call at minute 4, 17 min away".
pub fn instead_words(of: &UnitFigures) -> Sentence {
    let when = match of.requested_at_min {
        0.0 => say!["at alarm"],
        minute => say!["at ", Piece::Clock(minute)],
    };
    say![name(&of.name), ", ", when, ", ", Piece::Number(of.response_min, 0), " min away"]
}
