//! One size of a plan moved by 1%, everything else and the luck as they were.

use crate::random::sane_plan::{plan, sane_plan};
use shuttle_sim::{Luck, PlanDraft, Shuttle};

/// A chance that moves by more than this, out of 100, is a jump.
pub const JUMP: f64 = 20.0;

/// What is moved.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Size {
    /// The capacity of a drop tank.
    DropTank(usize),
    /// The capacity of a tanker, and with it its load.
    Tanker(usize),
    /// The attack flow, every step.
    AttackFlow,
    /// The flow of a fill site.
    SiteFlow(usize),
    /// The road to a fill site and back.
    Haul(usize),
}

/// A chance that jumped.
#[derive(Debug, Clone, Copy)]
pub struct Jump {
    /// What was moved.
    pub size: Size,
    /// To this share of what it was.
    pub to: f64,
    /// Interruptions in 100 runs as it was, and moved.
    pub of_100: [f64; 2],
}

/// The plan of this number. In every other one nothing is wasted and nothing stays aboard, so that loads
/// are as large as tanks.
pub fn plan_to_nudge(seed: u64, number: u64) -> PlanDraft {
    let mut draft = sane_plan(seed, number).0;
    if number % 2 == 1 {
        for tanker in &mut draft.tankers {
            (tanker.waste, tanker.residual) = (0.0, 0.0);
        }
    }
    draft
}

/// Every size of a plan.
pub fn sizes(draft: &PlanDraft) -> Vec<Size> {
    let sites = draft.fill_sites.len();
    let mut sizes = vec![Size::AttackFlow];
    sizes.extend((0..draft.drop_tanks.len()).map(Size::DropTank));
    sizes.extend((0..draft.tankers.len()).map(Size::Tanker));
    sizes.extend((0..sites).map(Size::SiteFlow));
    sizes.extend((0..sites).map(Size::Haul));
    sizes
}

/// The plan with this size moved.
pub fn nudged(draft: &PlanDraft, size: Size, to: f64) -> PlanDraft {
    let mut draft = draft.clone();
    match size {
        Size::DropTank(tank) => draft.drop_tanks[tank].capacity *= to,
        Size::Tanker(tanker) => draft.tankers[tanker].capacity *= to,
        Size::AttackFlow => {
            draft.incident.attack_flow.iter_mut().for_each(|step| step.flow *= to);
        }
        Size::SiteFlow(site) => draft.fill_sites[site].flow *= to,
        Size::Haul(site) => {
            let site = &mut draft.fill_sites[site];
            for leg in [&mut site.out, &mut site.back] {
                leg.time = leg.time.scaled(to);
                leg.miles = leg.miles.map(|miles| miles * to);
            }
        }
    }
    draft
}

/// Interruptions in 100 of these runs.
pub fn of_100(draft: &PlanDraft, seed: u64, first: u64, runs: u64) -> f64 {
    let mut shuttle = Shuttle::new(&plan(draft));
    shuttle.keep_levels(false);
    let lost = (first..first + runs)
        .filter(|&replication| {
            !shuttle.run(Luck::Drawn { seed, replication }).interruptions.is_empty()
        })
        .count();
    100.0 * lost as f64 / runs as f64
}

/// Every jump of a plan, up or down, by runs of this seed.
pub fn jumps(draft: &PlanDraft, seed: u64, first: u64, runs: u64) -> Vec<Jump> {
    let was = of_100(draft, seed, first, runs);
    let moves = sizes(draft).into_iter().flat_map(|size| [(size, 0.99), (size, 1.01)]);
    moves
        .map(|(size, to)| {
            let is = of_100(&nudged(draft, size, to), seed, first, runs);
            Jump { size, to, of_100: [was, is] }
        })
        .filter(|jump| jump.by() > JUMP)
        .collect()
}

impl Jump {
    /// By how much of 100 the chance moved.
    pub fn by(&self) -> f64 {
        (self.of_100[0] - self.of_100[1]).abs()
    }
}
