//! What makes up for a loss that no request does.
//!
//! Nobody who could be asked for helps there, so something else has to: another of what is lost, its drop tank brought
//! by somebody else, or one of the changes that commonly help. Each is run in the fires of the request without what is
//! lost, and held against the target. Beside them stands the flow that then holds.

use serde::Serialize;
use shuttle_sim::{Brought, Plan, PlanDraft};

use super::held_losses::{FIRST_LOOK, most_runs};
use super::question_and_answer::RequestQuestion;
use super::set_search::Search;
use crate::changes::common_changes::common_changes;
use crate::changes::input::{Change, Input, round_flow};
use crate::changes::variation::{draft_with_tankers, one_more_like};
use crate::choices::departments::department_losses;
use crate::choices::losses::{LossRow, Lost, losses};
use crate::choices::tanker_lost::{Question, gone_from_the_start};
use crate::decisions::looks::looks_from;
use crate::decisions::target::{Target, Verdict};
use crate::runs::batch::Keep;
use crate::runs::side_by_side::SideBySide;

/// Most runs of each flow that is tried: at 5% they tell to about one percent.
const MOST_RUNS_OF_FLOW: u64 = 2_000;
/// Flows that can be said on the radio, in the reader's units.
const STEP_GPM: f64 = 25.0;
const STEP_LITRES: f64 = 100.0;

/// Something that may make up for a loss.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub enum Cure {
    /// A second source like the one that is lost, as far away.
    SecondSource {
        /// The name of the one that is lost.
        like: String,
    },
    /// A drop tank like the one that stays away with its tanker, brought by another one.
    DropTankOn {
        /// The name of the tanker that brings it.
        tanker: String,
    },
    /// One more tanker like the one that is lost, with no drop tank of its own.
    OneMoreTanker {
        /// The name of the one that is lost.
        like: String,
    },
    /// A second supply engine like the one that is lost.
    SecondSupplyEngine {
        /// The name of the one that is lost.
        like: String,
    },
    /// A second pump like the one that is lost, at its source.
    SecondPump {
        /// The name of the source.
        fill_site: String,
    },
    /// A change that commonly helps.
    Change {
        /// Which.
        change: Change,
    },
}

/// A cure that was tried.
#[derive(Debug, Clone, Serialize)]
pub struct TriedCure {
    /// What was tried.
    pub cure: Cure,
    /// Runs made, with the request and without what is lost.
    pub replications: u64,
    /// Chance of interruption then.
    pub interruption_probability: f64,
    /// On which side of the target: below, it makes up for the loss.
    pub verdict: Verdict,
    /// Whether it is shown to lower the chance, be it enough or not.
    pub helps: bool,
}

/// The greatest flow of those tried that holds.
#[derive(Debug, Clone, Copy, Serialize)]
pub struct Holds {
    /// No more than this is asked for, gpm.
    pub flow: f64,
    /// Runs made.
    pub replications: u64,
    /// Chance of interruption then.
    pub interruption_probability: f64,
}

/// A loss that no request makes up for.
#[derive(Debug, Clone, Serialize)]
pub struct NotMadeUpFor {
    /// What is lost.
    pub lost: Lost,
    /// Runs made with the request.
    pub replications: u64,
    /// Chance of interruption then.
    pub interruption_probability: f64,
    /// On which side of the target.
    pub verdict: Verdict,
    /// What was tried: what makes up for it, then the others, the better first.
    pub tried: Vec<TriedCure>,
    /// The flow that then holds; `None` where none of those tried does.
    pub holds: Option<Holds>,
}

/// Tries what may make up for each of these losses.
///
/// - Given: the plan with the request, and losses of it.
pub(super) fn what_makes_up_for(
    search: &Search<'_>,
    plan: &Plan,
    rows: Vec<LossRow>,
) -> Vec<NotMadeUpFor> {
    let mut all = losses(plan);
    all.extend(department_losses(plan, search.departments));
    let of_each: Vec<_> = (rows.into_iter())
        .filter_map(|row| {
            let lost = row.lost.clone()?;
            let without = all.iter().find(|one| one.lost == lost).and_then(|one| one.plan.clone());
            let cures = cures(search, plan, &lost, without.as_ref());
            Some((row, without, cures))
        })
        .collect();
    let statements = of_each.iter().map(|(_, _, cures)| cures.len()).sum();
    let target = Target::for_all(search.question.target, statements);
    (of_each.into_iter())
        .filter_map(|(row, without, cures)| {
            Some(NotMadeUpFor {
                lost: row.lost.clone()?,
                replications: row.replications,
                interruption_probability: row.interruption_probability,
                verdict: row.verdict,
                tried: try_cures(search, &cures, target, row.ci_low),
                holds: without.and_then(|without| holds(search, &without)),
            })
        })
        .collect()
}

/// What may make up for a loss, each with the plan that has it and not what is lost.
fn cures(
    search: &Search<'_>,
    plan: &Plan,
    lost: &Lost,
    without: Option<&Plan>,
) -> Vec<(Cure, Plan)> {
    let facts = plan.facts();
    let mut all: Vec<(Cure, Plan)> = Vec::new();
    if let Lost::OneTankerOf { names, .. } = lost {
        let is_lost = |called: &String| names.iter().flatten().any(|name| name == called);
        let place = facts.tankers.iter().position(|one| is_lost(&one.name));
        all.extend(place.into_iter().flat_map(|place| for_a_tanker(facts, place)));
    }
    let changes = without.map(|without| common_changes(without, search.question.units));
    all.extend(
        (changes.into_iter().flatten())
            .filter(|one| !brings_it_back(&one.change, lost))
            .map(|one| (Cure::Change { change: one.change }, one.plan)),
    );
    let another = match lost {
        Lost::FillSite { name } => Some(Cure::SecondSource { like: name.clone() }),
        Lost::SupplyEngine { name, .. } => Some(Cure::SecondSupplyEngine { like: name.clone() }),
        Lost::SourcePump { site, .. } => Some(Cure::SecondPump { fill_site: site.clone() }),
        _ => None,
    };
    // With another one of it in its place the plan is what it was.
    all.extend(another.map(|cure| (cure, plan.clone())));
    all
}

/// Whether a change is one of what is lost, or one more of it: the first says nothing, the second is tried by itself.
fn brings_it_back(change: &Change, lost: &Lost) -> bool {
    let changed = match change {
        Change::OneMoreTanker { like } => like,
        Change::AllToOneSite { site }
        | Change::SiteReadyAtTheAlarm { site }
        | Change::LoadOneByOne { site }
        | Change::Moved {
            input: Input::SiteFlow { site } | Input::FillPositions { site }, ..
        } => site,
        _ => return false,
    };
    match lost {
        Lost::OneTankerOf { names, .. } => names.iter().flatten().any(|name| name == changed),
        Lost::FillSite { name: site } | Lost::SourcePump { site, .. } => site == changed,
        Lost::Department { tankers, .. } => tankers.contains(changed),
        _ => false,
    }
}

/// What may make up for a tanker: what it brings on another, and another one like it.
fn for_a_tanker(facts: &PlanDraft, lost: usize) -> Vec<(Cure, Plan)> {
    let comes: Vec<bool> = (0..facts.tankers.len()).map(|place| place != lost).collect();
    let is_brought_by =
        |place: usize| facts.drop_tanks.iter().any(|tank| tank.brought == Brought::ByTanker(place));
    let mut drafts: Vec<(Cure, PlanDraft)> = Vec::new();
    if is_brought_by(lost) {
        let arrives = |place: &usize| {
            let call = &facts.tankers[*place].call;
            call.requested_at + call.response.mean()
        };
        let soonest = (0..facts.tankers.len())
            .filter(|place| *place != lost && !is_brought_by(*place))
            .min_by(|a, b| arrives(a).total_cmp(&arrives(b)));
        if let Some(place) = soonest {
            let mut draft = facts.clone();
            for tank in &mut draft.drop_tanks {
                if tank.brought == Brought::ByTanker(lost) {
                    tank.brought = Brought::ByTanker(place);
                }
            }
            let cure = Cure::DropTankOn { tanker: facts.tankers[place].name.clone() };
            drafts.push((cure, draft_with_tankers(&draft, &comes)));
        }
    }
    let mut draft = draft_with_tankers(facts, &comes);
    draft.tankers.push(one_more_like(facts, &facts.tankers[lost]));
    let like = facts.tankers[lost].name.clone();
    drafts.push((Cure::OneMoreTanker { like }, draft));
    (drafts.into_iter())
        .filter_map(|(cure, draft)| Some((cure, Plan::check(draft).ok()?)))
        .collect()
}

/// Runs each until it is clear of the target.
///
/// - Given: the chance without any cure is at least this.
fn try_cures(
    search: &Search<'_>,
    cures: &[(Cure, Plan)],
    target: Target,
    at_least: f64,
) -> Vec<TriedCure> {
    if cures.is_empty() {
        return Vec::new();
    }
    let plans = cures.iter().map(|(_, plan)| plan).collect();
    let mut side = SideBySide::new(plans, search.question.luck, Keep::Counts);
    let mut open: Vec<usize> = (0..cures.len()).collect();
    for look in looks_from(FIRST_LOOK, most_runs(search)) {
        // The first is run with the others, and to the end where it alone is open.
        let others: Vec<usize> = open.iter().copied().filter(|place| *place > 0).collect();
        side.run_until(look, &others, search.control);
        open.retain(|place| target.verdict_of(side.tally(*place)) == Verdict::NotClear);
        if open.is_empty() || search.control.is_stopped() {
            break;
        }
    }
    let mut tried: Vec<TriedCure> = (cures.iter().zip(side.tallies()))
        .filter(|(_, tally)| tally.runs > 0)
        .map(|((cure, _), tally)| TriedCure {
            cure: cure.clone(),
            replications: tally.runs,
            interruption_probability: tally.chance(),
            verdict: target.verdict_of(tally),
            helps: target.interval_of(tally).1 < at_least,
        })
        .collect();
    // Those that are enough stay as listed: another of what is lost comes last, as it costs most.
    tried.sort_by(|a, b| {
        let enough = |one: &TriedCure| one.verdict == Verdict::Below;
        enough(b).cmp(&enough(a)).then(if enough(a) && enough(b) {
            std::cmp::Ordering::Equal
        } else {
            a.interruption_probability.total_cmp(&b.interruption_probability)
        })
    });
    tried
}

/// How a flow is looked for that holds without what is lost: from first water on, in steps that can be said on the radio.
pub(super) fn flow_question(of: &RequestQuestion) -> Question {
    Question {
        from: 0.0,
        allowed: of.target,
        step: round_flow(of.units, STEP_GPM, STEP_LITRES),
        runs: of.most_runs.min(MOST_RUNS_OF_FLOW),
        luck: of.luck,
    }
}

/// The flow that holds without what is lost, from first water on.
fn holds(search: &Search<'_>, without: &Plan) -> Option<Holds> {
    let question = flow_question(&search.question);
    let (flow, short) = gone_from_the_start(without, &question, search.control)?.holds?;
    Some(Holds { flow, replications: short.runs, interruption_probability: short.share() })
}
