//! A tanker that is lost while the shuttle runs: which one is missed most, and the flow to gate down to.
//!
//! Every run goes as planned up to a stated minute. Then a tanker brings in the load it has and is gone for good; what
//! it brought stays on the ground. The flow is what the plan asks for up to that minute and no more than the flow tried
//! afterwards, as where the lines are gated down once the loss is known. A run counts as short where the lines are short
//! at any moment from then on: what ran short before was not the loss. A source or a drop tank is gone from the start
//! instead, and counted from the same minute.

use shuttle_sim::{FlowStep, Luck, Plan, Shuttle};

use super::losses::Lost;
use crate::changes::aid_sets::kinds;
use crate::runs::control::{Control, SameLuck};
use crate::runs::in_order::in_order;
use crate::statistics::binomial::exact_interval;

/// What is asked.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Question {
    /// The minute after the alarm from which a tanker is gone.
    pub from: f64,
    /// Share of runs in which the lines may be short from then on, 0 to 1.
    pub allowed: f64,
    /// Flows are tried this far apart, gpm, above 0.
    pub step: f64,
    /// Runs of each tanker, and of each flow.
    pub runs: u64,
    /// Seed and threads.
    pub luck: SameLuck,
}

/// Runs with a tanker lost, under one flow.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Short {
    /// Runs made.
    pub runs: u64,
    /// Of these, runs in which the lines are short at any moment from the loss on.
    pub short: u64,
    /// Minutes short from then on, all runs together.
    minutes: f64,
}

impl Short {
    /// Share of runs that are short; 0 without runs.
    pub fn share(&self) -> f64 {
        if self.runs == 0 { 0.0 } else { self.short as f64 / self.runs as f64 }
    }

    /// Its exact binomial 95% interval.
    pub fn interval(&self) -> (f64, f64) {
        exact_interval(self.short, self.runs, 0.95)
    }

    /// Whether the upper end of that interval is no more than is allowed.
    fn holds(&self, allowed: f64) -> bool {
        self.runs > 0 && self.interval().1 <= allowed
    }
}

/// What the loss of the tanker that is missed most does.
#[derive(Debug, Clone, PartialEq)]
pub struct TankerLost {
    /// The tanker, or those that are alike, [`Lost::OneTankerOf`]; what it brought stays.
    pub lost: Lost,
    /// With everyone there, under the whole flow.
    pub whole: Short,
    /// Without it, under the whole flow.
    pub without: Short,
    /// The greatest flow tried that holds without it, gpm, with its runs; `None` where none does. The greatest flow of
    /// the plan where nothing need be gated down.
    pub holds: Option<(f64, Short)>,
}

/// What holds where something is gone from the start.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gone {
    /// Under the whole flow.
    pub without: Short,
    /// As [`TankerLost::holds`].
    pub holds: Option<(f64, Short)>,
}

/// The flow to gate down to where a source or a drop tank is gone from the start.
///
/// - Given: the plan without it.
/// - Returns: `None` where it was stopped before that was clear.
pub fn gone_from_the_start(plan: &Plan, question: &Question, control: &Control) -> Option<Gone> {
    let without = short(plan, None, question, control);
    let peak = peak(plan);
    let holds = if without.holds(question.allowed) {
        Some((peak, without))
    } else {
        greatest_that_holds(plan, None, peak, question, control)
    };
    (!control.is_stopped()).then_some(Gone { without, holds })
}

/// The greatest flow of the plan, gpm.
fn peak(plan: &Plan) -> f64 {
    plan.facts().incident.attack_flow.iter().fold(0.0_f64, |most, step| most.max(step.flow))
}

/// Looks for the tanker that is missed most, and for the flow that holds without it.
///
/// - Returns: `None` for a plan without tankers, and where it was stopped before that was clear.
pub fn tanker_lost(plan: &Plan, question: &Question, control: &Control) -> Option<TankerLost> {
    let facts = plan.facts();
    let whole = short(plan, None, question, control);
    let missed = |kind: Vec<usize>| (short(plan, Some(kind[0]), question, control), kind);
    let (without, kind) = kinds(facts, 0..facts.tankers.len())
        .into_iter()
        .map(missed)
        .max_by(|(a, _), (b, _)| (a.short.cmp(&b.short)).then(a.minutes.total_cmp(&b.minutes)))?;
    let names = (kind.chunk_by(|a, b| a + 1 == *b))
        .map(|together| together.iter().map(|one| facts.tankers[*one].name.clone()).collect())
        .collect();
    let peak = peak(plan);
    let holds = if without.holds(question.allowed) {
        Some((peak, without))
    } else {
        greatest_that_holds(plan, Some(kind[0]), peak, question, control)
    };
    (!control.is_stopped()).then_some(TankerLost {
        lost: Lost::OneTankerOf { names, drop_tanks: 0 },
        whole,
        without,
        holds,
    })
}

/// The greatest step below the plan's flow that holds, by halving: more flow never leaves more water.
fn greatest_that_holds(
    plan: &Plan,
    tanker: Option<usize>,
    peak: f64,
    question: &Question,
    control: &Control,
) -> Option<(f64, Short)> {
    let (mut holds, mut low, mut high) = (None, 0_u64, (peak / question.step).ceil() as u64);
    while high - low > 1 && !control.is_stopped() {
        let step = low.midpoint(high);
        let flow = step as f64 * question.step;
        // A flow that no plan may have holds nothing.
        let found = no_more_than(plan, flow, question.from)
            .map(|gated| short(&gated, tanker, question, control))
            .filter(|found| found.holds(question.allowed));
        match found {
            Some(found) => (low, holds) = (step, Some((flow, found))),
            None => high = step,
        }
    }
    holds
}

/// The plan with no more than this flow from a minute after the alarm on, first water at its mean.
pub(super) fn no_more_than(plan: &Plan, flow: f64, from: f64) -> Option<Plan> {
    let mut draft = plan.facts().clone();
    let from = (from - draft.first_water_mean()).max(0.0);
    let planned = draft.incident.attack_flow.clone();
    let at_that_minute = planned.iter().rev().find(|step| step.from <= from);
    let mut steps: Vec<FlowStep> =
        planned.iter().copied().filter(|step| step.from < from).collect();
    steps.extend(at_that_minute.map(|step| FlowStep { from, flow: step.flow.min(flow) }));
    steps.extend(
        (planned.iter().filter(|step| step.from > from))
            .map(|step| FlowStep { from: step.from, flow: step.flow.min(flow) }),
    );
    draft.incident.attack_flow = steps;
    Plan::check(draft).ok()
}

/// Runs the plan, with this tanker lost or with everyone.
fn short(plan: &Plan, lost: Option<usize>, question: &Question, control: &Control) -> Short {
    const BLOCK: u64 = 16;
    let room = || {
        let mut shuttle = Shuttle::new(plan);
        shuttle.keep_levels(false);
        if let Some(tanker) = lost {
            shuttle.take_out(tanker, question.from, None);
        }
        shuttle
    };
    let work = |shuttle: &mut Shuttle, job: u64| {
        let mut found = Short::default();
        for replication in job * BLOCK..((job + 1) * BLOCK).min(question.runs) {
            let run = shuttle.run(Luck::Drawn { seed: question.luck.seed, replication });
            let minutes: f64 = (run.interruptions.iter())
                .map(|one| one.start + one.minutes - one.start.max(question.from))
                .filter(|minutes| *minutes > 0.0)
                .sum();
            found.runs += 1;
            found.short += u64::from(minutes > 0.0);
            found.minutes += minutes;
        }
        control.add_done(found.runs);
        found
    };
    let mut all = Short::default();
    let jobs = question.runs.div_ceil(BLOCK);
    in_order(jobs, question.luck.threads, control, room, work, |_, more: Short| {
        all.runs += more.runs;
        all.short += more.short;
        all.minutes += more.minutes;
    });
    all
}
