//! A tanker that does not come back: which is missed most, what to gate down to, and whom to call.

use scenario_file::Scenario;
use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::batch::Control;
use shuttle_report::departments::{Department, department_losses};
use shuttle_report::losses::{Kind, Lost, losses};
use shuttle_report::options_compared::Interval;
use shuttle_report::tanker_lost::{Question, Short, TankerLost, gone_from_the_start, tanker_lost};
use shuttle_report::units::{LITRES_PER_GALLON, Units};
use shuttle_report::worksheet::worksheet;
use shuttle_sim::Plan;

use super::figures::CardFigures;
use crate::question::Budget;
use crate::say;
use crate::say::{Chances, Piece, Sentence, joined, name};
use crate::shared::lost::{lost_alone, lost_words};

/// Share of fires in which the flow to gate down to may run short: what `hold` allows where nothing else is asked.
const ALLOWED: f64 = 0.05;
/// Most fires for each tanker and each flow: at 5% they tell to about one percent.
const MOST_FIRES: u64 = 2_000;
/// The same for each source and drop tank: without one a fire in 25 may run short whatever the flow, so near to what is
/// allowed that fewer fires do not tell.
const MOST_FIRES_GONE: u64 = 4_000;
/// Flows that can be said on the radio, in the reader's units.
const STEP_GPM: f64 = 25.0;
const STEP_LITRES: f64 = 100.0;
/// A tanker is taken to be lost at a multiple of so many minutes.
const ROUND_MIN: f64 = 5.0;

/// A tanker that is lost while the shuttle runs: it brings in the load it has and does not come back. What it brought
/// stays. A fire counts as short where the lines are short at any moment from then on.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct TankerLostFigures {
    /// From when it is gone, minutes after the alarm: the supply is established and the greatest flow is wanted.
    pub from_min: f64,
    /// The tanker that is missed most; several where they are alike.
    pub lost: Lost,
    /// With every tanker, at the flow that is planned.
    pub with_everyone: ShortFigures,
    /// Without it, at the flow that is planned.
    #[serde(rename = "nothing_done")]
    pub without_it: ShortFigures,
    /// Share of fires in which the flow to gate down to may run short.
    pub allowed_share: f64,
    /// The greatest flow of those tried that holds without it; null where none does. The greatest flow of the plan
    /// where nothing need be gated down.
    pub gate_down_to_gpm: Option<f64>,
    /// Without it, at that flow.
    pub gated_down: Option<ShortFigures>,
    /// Each source and the first drop tank, gone from the start and counted from `from_min` on, and each tanker and
    /// department that comes whole, not coming and counted from first water on: what then holds.
    #[serde(rename = "gone_from_start")]
    pub gone: Vec<GoneFigures>,
    /// Aid that is listed and not asked for, the soonest first.
    pub call_next: Vec<NextFigures>,
}

/// A source, a drop tank, a tanker or a whole department that is gone from the start.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct GoneFigures {
    /// What is gone.
    pub lost: Lost,
    /// At the flow that is planned; null where no water can reach the lines without it.
    #[serde(rename = "nothing_done")]
    pub without_it: Option<ShortFigures>,
    /// The source to go to instead, which then passes most by hand; null where none is left, and of a drop tank.
    pub go_to: Option<String>,
    /// As of a tanker.
    pub gate_down_to_gpm: Option<f64>,
    /// At that flow.
    pub gated_down: Option<ShortFigures>,
}

/// How many fires run short from a minute on.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct ShortFigures {
    /// Fires.
    pub fires: u64,
    /// Share of them that is short.
    pub ran_short: f64,
    /// Lower end of its exact binomial 95% interval.
    pub ci_low: f64,
    /// Upper end.
    pub ci_high: f64,
    /// What the 95% of that interval are of.
    pub interval: Interval,
}

/// Somebody who could be called.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct NextFigures {
    /// The tanker.
    pub name: String,
    /// When it can be called, minutes after the alarm.
    pub requested_at_min: f64,
    /// How long it takes to come, mean.
    pub response_min: f64,
}

impl ShortFigures {
    fn of(found: &Short) -> ShortFigures {
        let (ci_low, ci_high) = found.interval();
        ShortFigures {
            fires: found.runs,
            ran_short: found.share(),
            ci_low,
            ci_high,
            interval: Interval::Single,
        }
    }

    /// How often.
    pub fn chances(&self) -> Chances {
        Chances::of(self.ran_short, self.fires)
    }
}

/// What the loss of a tanker does; nothing where none comes, or the fires were ended before it was clear.
///
/// - Given: when the supply is established, minutes after the alarm, if it is.
pub fn of_plan(
    scenario: &Scenario,
    supply_min: Option<f64>,
    budget: Budget,
    control: &Control,
) -> Option<TankerLostFigures> {
    let question = question(scenario, supply_min, budget);
    let found = tanker_lost(&scenario.plan, &question, control)?;
    let departments = scenario.aid.departments();
    let gone = gone(&scenario.plan, &departments, &question, budget.replications, control)?;
    Some(figures(scenario, &question, found, gone))
}

/// Each source, the first drop tank, each tanker, and each department that comes whole, which then does not; nothing where it was
/// stopped before that was clear.
fn gone(
    plan: &Plan,
    departments: &[Department],
    question: &Question,
    runs: u64,
    control: &Control,
) -> Option<Vec<GoneFigures>> {
    let late = Question { runs: runs.min(MOST_FIRES_GONE), ..*question };
    // Who never comes is missed from first water on.
    let from_the_start = Question { from: 0.0, ..*question };
    let is_told = |lost: &Lost| match lost.kind() {
        Kind::FillSite | Kind::Tanker | Kind::WholeDepartment => true,
        Kind::DropTank => matches!(lost, Lost::DropTank { place: 0, .. }),
        _ => false,
    };
    (losses(plan).into_iter().chain(department_losses(plan, departments)))
        .filter(|loss| is_told(&loss.lost))
        .map(|loss| {
            let question = if stays_away(&loss.lost) { &from_the_start } else { &late };
            let found = match &loss.plan {
                Some(plan) => Some(gone_from_the_start(plan, question, control)?),
                None => None,
            };
            let go_to = match (&loss.lost, &loss.plan) {
                (Lost::FillSite { name, .. }, Some(plan)) => passes_most(plan, name),
                _ => None,
            };
            Some(GoneFigures {
                go_to,
                lost: loss.lost,
                without_it: found.map(|found| ShortFigures::of(&found.without)),
                gate_down_to_gpm: found.and_then(|found| Some(found.holds?.0)),
                gated_down: found.and_then(|found| Some(ShortFigures::of(&found.holds?.1))),
            })
        })
        .collect()
}

/// Whether what is gone is somebody who does not come, a tanker or a department that comes whole.
fn stays_away(lost: &Lost) -> bool {
    matches!(lost.kind(), Kind::Tanker | Kind::WholeDepartment)
}

/// The source of a plan that passes most by hand, of those that are not lost.
fn passes_most(plan: &Plan, lost: &str) -> Option<String> {
    let sheet = worksheet(plan);
    let sites = plan.facts().fill_sites.iter().zip(&sheet.site_credits);
    let sites = sites.filter(|(site, _)| site.name != lost);
    let most = sites.max_by(|a, b| a.1.gpm.total_cmp(&b.1.gpm));
    most.map(|(site, _)| site.name.clone())
}

fn question(scenario: &Scenario, supply_min: Option<f64>, budget: Budget) -> Question {
    let facts = scenario.plan.facts();
    let first_water = facts.first_water_mean();
    let peak = facts.incident.attack_flow.iter().map(|step| step.flow).fold(0.0, f64::max);
    let at_peak = facts.incident.attack_flow.iter().find(|step| step.flow >= peak);
    let full_flow = first_water + at_peak.map_or(0.0, |step| step.from);
    let latest = full_flow.max(supply_min.unwrap_or(0.0));
    Question {
        from: (latest / ROUND_MIN).ceil() * ROUND_MIN,
        allowed: ALLOWED,
        step: match scenario.units {
            Units::Us => STEP_GPM,
            Units::Metric => STEP_LITRES / LITRES_PER_GALLON,
        },
        runs: budget.replications.min(MOST_FIRES),
        luck: budget.same_luck(),
    }
}

fn figures(
    scenario: &Scenario,
    question: &Question,
    found: TankerLost,
    gone: Vec<GoneFigures>,
) -> TankerLostFigures {
    TankerLostFigures {
        from_min: question.from,
        lost: found.lost,
        with_everyone: ShortFigures::of(&found.whole),
        without_it: ShortFigures::of(&found.without),
        allowed_share: question.allowed,
        gate_down_to_gpm: found.holds.map(|(flow, _)| flow),
        gated_down: found.holds.map(|(_, short)| ShortFigures::of(&short)),
        gone,
        call_next: call_next(scenario),
    }
}

/// Aid that is not asked for, the soonest first.
fn call_next(scenario: &Scenario) -> Vec<NextFigures> {
    let comes = |called: &str| scenario.plan.facts().tankers.iter().any(|one| one.name == called);
    let everyone = &scenario.aid.everyone.facts().tankers;
    let mut next: Vec<NextFigures> = (everyone.iter().filter(|one| !comes(&one.name)))
        .map(|one| NextFigures {
            name: one.name.clone(),
            requested_at_min: one.call.requested_at,
            response_min: one.call.response.mean(),
        })
        .collect();
    next.sort_by(|a, b| a.response_min.total_cmp(&b.response_min));
    next
}

/// "gate down to 400 gpm: without Tanker 5, the worst to lose, short in 4 fires of 100; at 750 gpm in 92 fires of
/// 100." - what the tanker boss says when one does not come back.
pub fn lost_tanker_words(card: &CardFigures) -> Option<Sentence> {
    let lost = card.tanker_lost.as_ref()?;
    let peak = card.peak_flow_gpm;
    let planned = say![Piece::Flow(peak), " in ", Piece::Fires(lost.without_it.chances())];
    let who = say![
        lost_words(&lost.lost),
        ", the worst to lose late, from ",
        Piece::Clock(lost.from_min),
        " on (what it brought stays)"
    ];
    Some(match lost.gate_down_to_gpm.zip(lost.gated_down) {
        Some((flow, held)) if flow >= peak => say![
            "no need to gate down: without ",
            who,
            ", ",
            Piece::Flow(flow),
            " runs short in ",
            Piece::Fires(held.chances()),
            ".",
        ],
        Some((flow, held)) => say![
            "gate down to ",
            Piece::Flow(flow),
            ": without ",
            who,
            ", short in ",
            Piece::Fires(held.chances()),
            "; at ",
            planned,
            ".",
        ],
        None => {
            say![
                "no flow is shown to hold without ",
                who,
                ": short at ",
                planned,
                ". Back out in time.",
            ]
        }
    })
}

/// "Any one tanker (worst Tanker 5): gate down to 400 gpm; Quarry pond: go to Mill race, 375 gpm; drop tank 1: 300 gpm." - what holds where one
/// thing is lost late, the tanker that is missed most, then sources with the one to go to, and the first drop tank.
///
/// - Given: how many of those at most.
pub fn if_lost_words(card: &CardFigures, most: usize) -> Option<Sentence> {
    let lost = card.tanker_lost.as_ref()?;
    let holds = |holds, gate_down| then_holds(card, holds, gate_down);
    let tanker = say![
        "any one ",
        Piece::Tanker,
        " (worst ",
        lost_words(&lost.lost),
        "): ",
        holds(lost.gate_down_to_gpm, "gate down to ")
    ];
    // What hurts most is told where not all is.
    let mut worst: Vec<&GoneFigures> = lost.gone.iter().filter(|gone| !gone.stays_away()).collect();
    if worst.len() > most {
        let flow = |gone: &GoneFigures| gone.gate_down_to_gpm.unwrap_or(0.0);
        worst.sort_by(|a, b| flow(a).total_cmp(&flow(b)));
    }
    let gone = worst.into_iter().take(most).map(|gone| {
        let instead = match (&gone.lost, &gone.go_to) {
            (_, Some(site)) => say!["go to ", name(site), ", "],
            (Lost::FillSite { .. }, None) => say!["no other source, ready to back out, "],
            _ => say![],
        };
        // After the first the verb is understood.
        say![lost_words(&gone.lost), ": ", instead, holds(gone.gate_down_to_gpm, "")]
    });
    Some(say![joined([tanker].into_iter().chain(gone), "; ", "; "), "."])
}

/// "gate down to 400 gpm".
fn then_holds(card: &CardFigures, holds: Option<f64>, gate_down: &'static str) -> Sentence {
    match holds {
        Some(flow) if flow >= card.peak_flow_gpm => say![Piece::Flow(flow), " still holds"],
        Some(flow) => say![gate_down, Piece::Flow(flow)],
        None => say!["no flow holds, back out"],
    }
}

impl GoneFigures {
    /// Whether it is somebody who does not come: counted from first water on.
    pub fn stays_away(&self) -> bool {
        stays_away(&self.lost)
    }
}

/// "Tanker 43: hold 75 gpm; all of Maple Ford: hold 475 gpm." - what holds from first water on where one does not come,
/// or a department that comes whole; the worst first, of those without whom the flow of the plan does not hold. Nothing
/// where there are none.
///
/// - Given: how many are told one by one at most.
pub fn refuses_words(card: &CardFigures, most: usize) -> Option<Sentence> {
    let gone = &card.tanker_lost.as_ref()?.gone;
    let flow = |one: &GoneFigures| one.gate_down_to_gpm.unwrap_or(0.0);
    let mut away: Vec<&GoneFigures> =
        (gone.iter()).filter(|one| one.stays_away() && flow(one) < card.peak_flow_gpm).collect();
    away.sort_by(|a, b| flow(a).total_cmp(&flow(b)));
    let told = away.iter().take(most).map(|one| {
        say![lost_alone(&one.lost), ": ", then_holds(card, one.gate_down_to_gpm, "hold ")]
    });
    let more = away.len().saturating_sub(most);
    let more = (more > 0).then(|| say!["; ", Piece::Number(more as f64, 0), " more cost less"]);
    (!away.is_empty()).then(|| say![joined(told, "; ", "; "), more, "."])
}

/// From when a loss is counted: "minute 30".
pub fn lost_from_words(card: &CardFigures) -> Option<Sentence> {
    card.tanker_lost.as_ref().map(|lost| say![Piece::Clock(lost.from_min)])
}

/// "Maple Ford Tanker 2 (17 min away), County tanker (from minute 4, 26 min away)" - whom to call when one is lost, the soonest first.
///
/// - Given: how many at most.
pub fn call_next_words(card: &CardFigures, most: usize) -> Option<Sentence> {
    let next = &card.tanker_lost.as_ref()?.call_next;
    let told = next.iter().take(most).map(|one| {
        let from = (one.requested_at_min > 0.0)
            .then(|| say!["from ", Piece::Clock(one.requested_at_min), ", "]);
        say![name(&one.name), " (", from, Piece::Number(one.response_min, 0), " min away)"]
    });
    (!next.is_empty()).then(|| joined(told, ", ", ", "))
}
