//! What the plan cannot do without: each unit lost once, all on common random numbers.

use serde::Serialize;
use shuttle_sim::{Brought, DraftLimitReason, Near, Plan, PlanDraft};

use super::departments::{Department, department_losses};
use crate::changes::aid_sets::kinds;
use crate::changes::variation::{
    draft_with_tankers, fit_restart_level, without_pumps_brought, without_source_pump,
};
use crate::decisions::looks::looks;
use crate::decisions::target::{Target, Verdict};
use crate::decisions::told::{Apart, Interval, Rule};
use crate::runs::batch::Keep;
use crate::runs::control::{Control, SameLuck};
use crate::runs::side_by_side::SideBySide;
use crate::runs::tally::Tally;

pub use super::lost::{Kind, Lost};

/// From this chance of interruption with everything in service on, how often tells nothing of a loss. Judgement.
pub const DRY_ANYHOW: f64 = 0.99;

/// Something lost.
#[derive(Debug, Clone)]
pub struct Loss {
    /// What.
    pub lost: Lost,
    /// The plan without it; `None` if no water can then reach the engine.
    pub plan: Option<Plan>,
}

/// One loss, or first the plan with everything.
#[derive(Debug, Clone, Serialize)]
pub struct LossRow {
    /// What is lost; `None` for the plan with everything.
    pub lost: Option<Lost>,
    /// The kind of thing it is.
    pub kind: Option<Kind>,
    /// Runs made; with everything all that are allowed.
    pub replications: u64,
    /// Chance of interruption.
    pub interruption_probability: f64,
    /// Lower end of its confidence sequence, for the whole table at once.
    pub ci_low: f64,
    /// Upper end.
    pub ci_high: f64,
    /// Minutes short, mean.
    pub interrupted_minutes_mean: f64,
    /// How much higher the chance is than with everything, on common random numbers; its interval holds for
    /// the whole table at once. `None` for the plan with everything.
    pub higher_by: Option<Apart>,
    /// On which side of the target.
    pub verdict: Verdict,
}

/// Whether the plan withstands the loss of any one thing.
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
    pub ended_early: bool,
}

/// Every unit, source and drop tank that can be lost, one at a time. Tankers that are identical except for their name
/// count as one.
pub fn losses(plan: &Plan) -> Vec<Loss> {
    let facts = plan.facts();
    let mut losses = Vec::new();
    let mut add = |lost: Lost, draft: PlanDraft| {
        losses.push(Loss { lost, plan: Plan::check(draft).ok() });
    };
    for kind in kinds(facts, 0..facts.tankers.len()) {
        let name = |place: &usize| facts.tankers[*place].name.clone();
        let lost = Lost::OneTankerOf {
            names: (kind.chunk_by(|a, b| a + 1 == *b))
                .map(|together| together.iter().map(name).collect())
                .collect(),
            drop_tanks: brought(facts, &Brought::ByTanker(kind[0])),
        };
        let comes: Vec<bool> = (0..facts.tankers.len()).map(|place| place != kind[0]).collect();
        add(lost, draft_with_tankers(plan.facts(), &comes));
    }
    for (place, site) in facts.fill_sites.iter().enumerate() {
        add(Lost::FillSite { name: site.name.clone() }, without_fill_site(facts, place));
        let mut half = facts.clone();
        half.fill_sites[place].flow *= 0.5;
        add(Lost::HalfTheFlow { site: site.name.clone() }, half);
        if let Some(pump) = &site.source_pump {
            let mut without = facts.clone();
            without_source_pump(&mut without, place);
            let lost = Lost::SourcePump {
                name: pump.name.clone(),
                site: site.name.clone(),
                brought_by: bringer(facts, &pump.brought),
            };
            add(lost, without);
        }
    }
    for place in 0..facts.drop_tanks.len() {
        let mut draft = facts.clone();
        draft.drop_tanks.remove(place);
        fit_restart_level(&mut draft);
        add(Lost::DropTank { place, of: facts.drop_tanks.len() }, draft);
    }
    if let Some(engine) = &facts.supply.engine {
        let drop_tanks = brought(facts, &Brought::BySupplyEngine);
        let lost = Lost::SupplyEngine { name: engine.name.clone(), drop_tanks };
        add(lost, without_supply_engine(facts));
    }
    losses
}

/// The name of the unit that brings something; `None`: it comes by itself.
fn bringer(facts: &PlanDraft, brought: &Brought) -> Option<String> {
    match brought {
        Brought::ByTanker(place) => Some(facts.tankers[*place].name.clone()),
        Brought::ByAttackEngine => Some(facts.attack_engine.name.clone()),
        Brought::BySupplyEngine => facts.supply.engine.as_ref().map(|engine| engine.name.clone()),
        Brought::Itself(_) => None,
    }
}

/// How many drop tanks come with this one.
fn brought(facts: &PlanDraft, by: &Brought) -> usize {
    facts.drop_tanks.iter().filter(|tank| tank.brought == *by).count()
}

/// Drivers know that it is out of service and go elsewhere; if it is the only one, they find no water
/// there.
fn without_fill_site(facts: &PlanDraft, lost: usize) -> PlanDraft {
    let mut draft = facts.clone();
    if facts.fill_sites.len() == 1 {
        draft.fill_sites[0].never_serves();
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
    without_pumps_brought(&mut draft, |brought| *brought == Brought::BySupplyEngine);
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

/// Runs the plan in full, and without each until that is clear of the target or `most_runs` are made.
///
/// - Given: the departments that may stay home as a whole.
pub fn what_a_loss_does(
    plan: &Plan,
    departments: &[Department],
    target: f64,
    most_runs: u64,
    luck: SameLuck,
    control: &Control,
) -> LossAnswer {
    let mut losses = losses(plan);
    losses.extend(department_losses(plan, departments));
    let plans: Vec<&Plan> =
        [plan].into_iter().chain(losses.iter().filter_map(|loss| loss.plan.as_ref())).collect();
    let looks = looks(most_runs);
    let against = Target::for_all(target, plans.len());
    let rule = Rule::of_chances(losses.len(), looks.len(), 0.0);
    let mut side = SideBySide::new(plans, luck, Keep::Counts);
    side.begin_with_base(most_runs, control);
    let mut who: Vec<usize> = (1..side.tallies().count()).collect();
    for look in looks {
        side.run_until(look, &who, control);
        who.retain(|place| against.verdict_of(side.tally(*place)) == Verdict::NotClear);
        if control.is_stopped() || who.is_empty() {
            break;
        }
    }
    side.run_base_until(most_runs, control);
    let whole = LossRow {
        replications: side.compared_runs(),
        ..row(None, &side.base().tally, against, None)
    };
    let mut tallies = side.tallies().skip(1);
    let mut rows: Vec<LossRow> = (losses.iter())
        .map(|loss| match loss.plan.as_ref().and_then(|_| tallies.next()) {
            Some(tally) => {
                let higher_by = rule.apart_from(&side.base().tally, tally, Interval::AllAtOnce);
                row(Some(&loss.lost), tally, against, Some(higher_by))
            }
            None => cannot_work(plan, &loss.lost),
        })
        .collect();
    // Where nearly every fire is dry anyhow, only how long tells one loss from another.
    let dry_anyhow = whole.interruption_probability >= DRY_ANYHOW;
    rows.sort_by(|a, b| {
        let worth = |row: &LossRow| {
            let chance = if dry_anyhow { 0.0 } else { row.interruption_probability };
            (chance, row.interrupted_minutes_mean)
        };
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
        ended_early: control.is_stopped(),
    }
}

fn stands(whole: &LossRow, losses: &[LossRow]) -> Stands {
    let whole_losses = || losses.iter().filter(|row| row.kind.is_none_or(Kind::is_one_thing));
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

fn row(lost: Option<&Lost>, tally: &Tally, target: Target, higher_by: Option<Apart>) -> LossRow {
    let (ci_low, ci_high) = target.interval_of(tally);
    LossRow {
        lost: lost.cloned(),
        kind: lost.map(Lost::kind),
        replications: tally.runs,
        interruption_probability: tally.chance(),
        ci_low,
        ci_high,
        interrupted_minutes_mean: tally.minutes_short_mean(),
        higher_by,
        verdict: target.verdict_of(tally),
    }
}

fn cannot_work(plan: &Plan, lost: &Lost) -> LossRow {
    LossRow {
        lost: Some(lost.clone()),
        kind: Some(lost.kind()),
        replications: 0,
        interruption_probability: 1.0,
        ci_low: 1.0,
        ci_high: 1.0,
        interrupted_minutes_mean: plan.facts().incident.duration,
        higher_by: None,
        verdict: Verdict::CannotWork,
    }
}
