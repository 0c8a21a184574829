//! What the plan cannot do without: each unit lost once, all on common random numbers.

use serde::Serialize;
use shuttle_sim::{Brought, DraftLimitReason, Near, Plan, PlanDraft, TimeTaken};

use crate::aid_sets::kinds;
use crate::batch::Control;
use crate::fleet_size::Verdict;
use crate::options_compared::Apart;
use crate::side_by_side::{Record, SameLuck, SideBySide};
use crate::statistics::confidence_for_each;
use crate::statistics::sequential::{Decision, confidence_sequence, decide};
use crate::variation::{draft_with_tankers, fit_restart_level};

/// What is lost.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Kind {
    /// A tanker, with the drop tanks it brings.
    Tanker,
    /// A fill site.
    FillSite,
    /// Half a fill site's flow: not the loss of a whole unit, and not counted as one.
    HalfFlow,
    /// A drop tank.
    DropTank,
    /// The supply engine, with the drop tanks it brings.
    SupplyEngine,
}

/// Something lost.
#[derive(Debug, Clone)]
pub struct Loss {
    /// What.
    pub kind: Kind,
    /// In words: "Tanker 3 with the drop tank it brings".
    pub words: String,
    /// The plan without it; `None` if no water can then reach the engine.
    pub plan: Option<Plan>,
}

/// One loss, or first the plan with everything.
#[derive(Debug, Clone, Serialize)]
pub struct LossRow {
    /// What is lost; `None` for the plan with everything.
    pub kind: Option<Kind>,
    /// In words.
    pub words: String,
    /// Runs made.
    pub runs: u64,
    /// Chance of interruption.
    pub interruption_probability: f64,
    /// Lower end of its confidence sequence, for the whole table at once.
    pub low: f64,
    /// Upper end.
    pub high: f64,
    /// Minutes short, mean.
    pub interrupted_minutes_mean: f64,
    /// How much higher the chance is than with everything, on common random numbers; its interval holds for
    /// the whole table at once. `None` for the plan with everything.
    pub higher_by: Option<Apart>,
    /// On which side of the target.
    pub verdict: Verdict,
}

/// Whether the plan withstands the loss of any one unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Stands {
    /// The chance stays below the target whichever unit is lost.
    AnyOne,
    /// Some loss brings it above.
    NotAnyOne,
    /// It is above with everything in service.
    NotEvenWhole,
    /// Not clear from the runs made.
    NotClear,
}

/// The answer.
#[derive(Debug, Clone, Serialize)]
pub struct LossAnswer {
    /// The plan's title.
    pub title: String,
    /// Chance of interruption to stay below.
    pub target: f64,
    /// Whether it withstands the loss of any one unit.
    pub stands: Stands,
    /// The plan with everything.
    pub whole: LossRow,
    /// The losses, the worst first.
    pub losses: Vec<LossRow>,
    /// Seed of the random numbers.
    pub seed: u64,
    /// Whether it was stopped early.
    pub stopped_early: bool,
}

/// Runs in the first look.
const FIRST_LOOK: u64 = 512;

/// Everything that can be lost, one at a time. Tankers that are identical except for their name count as
/// one.
pub fn losses(plan: &Plan) -> Vec<Loss> {
    let facts = plan.facts();
    let mut losses = Vec::new();
    let mut add = |kind, words: String, draft: Option<PlanDraft>| {
        let plan = draft.and_then(|draft| Plan::check(draft).ok());
        losses.push(Loss { kind, words, plan });
    };
    for kind in kinds(facts, 0..facts.tankers.len()) {
        let lost = kind[0];
        let words = match kind.as_slice() {
            [only] => {
                let tanks = with_its_tanks(facts, &Brought::ByTanker(*only));
                format!("{}{tanks}", facts.tankers[*only].name)
            }
            several => format!("one of {}", named_together(facts, several)),
        };
        let comes: Vec<bool> = (0..facts.tankers.len()).map(|place| place != lost).collect();
        add(Kind::Tanker, words, Some(draft_with_tankers(plan, &comes)));
    }
    for (place, site) in facts.fill_sites.iter().enumerate() {
        add(Kind::FillSite, site.name.clone(), Some(without_fill_site(facts, place)));
        let mut half = facts.clone();
        half.fill_sites[place].flow *= 0.5;
        add(Kind::HalfFlow, format!("half the flow at {}", site.name), Some(half));
    }
    for place in 0..facts.drop_tanks.len() {
        let mut draft = facts.clone();
        draft.drop_tanks.remove(place);
        fit_restart_level(&mut draft);
        let words = match facts.drop_tanks.len() {
            1 => "the drop tank".to_owned(),
            _ => format!("drop tank {}", place + 1),
        };
        add(Kind::DropTank, words, Some(draft));
    }
    if let Some(engine) = &facts.supply.engine {
        let words = format!("{}{}", engine.name, with_its_tanks(facts, &Brought::BySupplyEngine));
        add(Kind::SupplyEngine, words, Some(without_supply_engine(facts)));
    }
    losses
}

/// "Tanker 1 to Tanker 3", "Tanker 1, Tanker 3 and Tanker 5 to Tanker 7": those listed one behind the other
/// by the first and last of them.
fn named_together(facts: &PlanDraft, places: &[usize]) -> String {
    let name = |place: &usize| facts.tankers[*place].name.as_str();
    let parts: Vec<String> = (places.chunk_by(|a, b| a + 1 == *b))
        .map(|run| match run {
            [first, .., last] => format!("{} to {}", name(first), name(last)),
            _ => run.iter().map(name).collect(),
        })
        .collect();
    match parts.as_slice() {
        [most @ .., last] if !most.is_empty() => format!("{} and {last}", most.join(", ")),
        parts => parts.concat(),
    }
}

fn with_its_tanks(facts: &PlanDraft, by: &Brought) -> &'static str {
    match facts.drop_tanks.iter().filter(|tank| tank.brought == *by).count() {
        0 => "",
        1 => ", with the drop tank it brings",
        _ => ", with the drop tanks it brings",
    }
}

/// Drivers know that it is out of service and go elsewhere; if it is the only one, they find no water
/// there.
fn without_fill_site(facts: &PlanDraft, lost: usize) -> PlanDraft {
    let mut draft = facts.clone();
    if facts.fill_sites.len() == 1 {
        // Beyond any watch: the longest time a plan may state.
        let never = match Plan::LIMITS.minutes.1 {
            std::ops::Bound::Included(most) | std::ops::Bound::Excluded(most) => most,
            std::ops::Bound::Unbounded => f64::MAX,
        };
        draft.fill_sites[0].ready = TimeTaken::Fixed(never);
        return draft;
    }
    let moved = |site: usize| if site > lost { site - 1 } else { site };
    draft.fill_sites.remove(lost);
    for tanker in &mut draft.tankers {
        tanker.fill_site = tanker.fill_site.filter(|site| *site != lost).map(moved);
    }
    draft.one_lanes.retain_mut(|lane| match &mut lane.near {
        Near::Scene => true,
        Near::FillSite(site) => {
            let stays = *site != lost;
            *site = moved(*site);
            stays
        }
    });
    draft
}

/// The attack engine drafts itself, with the supply engine's time to hook up. Where a lay lies
/// between them it stands too far from the drop tanks for that: then tankers can only nurse.
fn without_supply_engine(facts: &PlanDraft) -> PlanDraft {
    let mut draft = facts.clone();
    draft.drop_tanks.retain(|tank| tank.brought != Brought::BySupplyEngine);
    let limits = &facts.supply.draft_limits;
    let has_lay = facts.supply.lay_volume > 0.0
        || limits.iter().any(|limit| limit.reason == DraftLimitReason::Lay);
    if has_lay {
        draft.drop_tanks.clear();
        draft.supply.draft_limits.retain(|limit| limit.reason != DraftLimitReason::Lay);
        draft.supply.lay_volume = 0.0;
    }
    if let Some(engine) = draft.supply.engine.take() {
        draft.supply.setup = engine.setup;
    }
    fit_restart_level(&mut draft);
    draft
}

/// Runs the plan without each, until each is clear of the target or `most_runs` are made.
pub fn what_a_loss_does(
    plan: &Plan,
    target: f64,
    most_runs: u64,
    luck: SameLuck,
    control: &Control,
) -> LossAnswer {
    let losses = losses(plan);
    let plans: Vec<&Plan> =
        [plan].into_iter().chain(losses.iter().filter_map(|loss| loss.plan.as_ref())).collect();
    // 95% for the whole table.
    let confidence = confidence_for_each(0.95, plans.len());
    let mut looks = vec![FIRST_LOOK.min(most_runs)];
    while let Some(last) = looks.last().copied().filter(|last| *last < most_runs) {
        looks.push((2 * last).min(most_runs));
    }
    let mut side = SideBySide::new(plans, luck);
    let mut who: Vec<usize> = (1..side.records().len()).collect();
    for look in &looks {
        side.run_until(*look, &who, control);
        let is_open = |place: usize| {
            let record = &side.records()[place];
            decide(record.interrupted, record.runs, target, confidence) == Decision::NotClear
        };
        who.retain(|place| is_open(*place));
        if control.is_stopped() || (who.is_empty() && !is_open(0)) {
            break;
        }
    }
    let for_pairs = confidence_for_each(0.95, (losses.len() * looks.len()).max(1));
    let mut records = side.records().iter();
    let whole = records.next().map(|record| {
        let words = "nothing lost".to_owned();
        row(None, words, record, target, confidence, None)
    });
    let whole = whole.unwrap_or_else(|| cannot_work(plan, None, String::new()));
    let mut rows: Vec<LossRow> = (losses.iter())
        .map(|loss| match loss.plan.as_ref().and_then(|_| records.next()) {
            Some(record) => {
                let higher_by = record.pairs.interrupted.difference(for_pairs);
                let words = loss.words.clone();
                row(Some(loss.kind), words, record, target, confidence, Some(higher_by.into()))
            }
            None => cannot_work(plan, Some(loss.kind), loss.words.clone()),
        })
        .collect();
    rows.sort_by(|a, b| {
        let worth = |row: &LossRow| (row.interruption_probability, row.interrupted_minutes_mean);
        let (a, b) = (worth(a), worth(b));
        b.0.total_cmp(&a.0).then(b.1.total_cmp(&a.1))
    });
    LossAnswer {
        title: plan.facts().title.clone(),
        target,
        stands: stands(&whole, &rows),
        whole,
        losses: rows,
        seed: luck.seed,
        stopped_early: control.is_stopped(),
    }
}

fn stands(whole: &LossRow, losses: &[LossRow]) -> Stands {
    let whole_losses = || losses.iter().filter(|row| row.kind != Some(Kind::HalfFlow));
    if whole.verdict == Verdict::Above {
        Stands::NotEvenWhole
    } else if whole_losses().any(|row| matches!(row.verdict, Verdict::Above | Verdict::CannotWork))
    {
        Stands::NotAnyOne
    } else if whole_losses().all(|row| row.verdict == Verdict::Below) {
        Stands::AnyOne
    } else {
        Stands::NotClear
    }
}

fn row(
    kind: Option<Kind>,
    words: String,
    record: &Record,
    target: f64,
    confidence: f64,
    higher_by: Option<Apart>,
) -> LossRow {
    let (low, high) = confidence_sequence(record.interrupted, record.runs, confidence);
    LossRow {
        kind,
        words,
        runs: record.runs,
        interruption_probability: record.chance(),
        low,
        high,
        interrupted_minutes_mean: record.mean(record.minutes_short),
        higher_by,
        verdict: match decide(record.interrupted, record.runs, target, confidence) {
            Decision::Below => Verdict::Below,
            Decision::Above => Verdict::Above,
            Decision::NotClear => Verdict::NotClear,
        },
    }
}

fn cannot_work(plan: &Plan, kind: Option<Kind>, words: String) -> LossRow {
    LossRow {
        kind,
        words,
        runs: 0,
        interruption_probability: 1.0,
        low: 1.0,
        high: 1.0,
        interrupted_minutes_mean: plan.facts().incident.duration,
        higher_by: None,
        verdict: Verdict::CannotWork,
    }
}
