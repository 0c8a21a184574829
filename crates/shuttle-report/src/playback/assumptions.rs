//! What may have been otherwise on the day: each assumption as a plan of its own, tried against what was poured.

use shuttle_sim::{Plan, PlanDraft};

use super::band::{Absent, Fit, band};
use crate::runs::control::{Control, SameLuck};

/// Something that may have been otherwise than the plan has it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Assumption {
    /// So many fill positions at this site.
    FillPositions {
        /// The site.
        site: usize,
        /// How many.
        positions: u32,
    },
    /// So many could dump at once into this drop tank.
    DumpPositions {
        /// The drop tank.
        tank: usize,
        /// How many.
        positions: u32,
    },
    /// This site gave so much of the flow that was measured.
    Fill {
        /// The site.
        site: usize,
        /// Share of it.
        share: f64,
    },
    /// The lines took so much of the planned attack flow: full drop tanks make tankers wait.
    AttackFlow {
        /// Share of it.
        share: f64,
    },
    /// Every drive took so many times as long.
    Driving {
        /// Times.
        times: f64,
    },
    /// Every piece of handling took so many times as long.
    Handling {
        /// Times.
        times: f64,
    },
    /// This tanker was out.
    Out(Absent),
}

/// An assumption that was tried.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tried {
    /// What.
    pub assumption: Assumption,
    /// How what was poured lies to the runs made with it.
    pub fit: Fit,
}

/// Every assumption that a plan allows, beside the absences that are known of.
pub fn assumptions(plan: &Plan, known: &[Absent]) -> Vec<Assumption> {
    let facts = plan.facts();
    let mut all: Vec<Assumption> = known.iter().map(|absent| Assumption::Out(*absent)).collect();
    for (site, of) in facts.fill_sites.iter().enumerate() {
        let beside = [of.positions.saturating_sub(1), of.positions + 1];
        all.extend(
            (beside.into_iter().filter(|positions| *positions > 0))
                .map(|positions| Assumption::FillPositions { site, positions }),
        );
        all.extend([0.6, 0.8, 1.25].map(|share| Assumption::Fill { site, share }));
    }
    for (tank, of) in facts.drop_tanks.iter().enumerate() {
        let beside = [of.dump_positions.saturating_sub(1), of.dump_positions + 1];
        all.extend(
            (beside.into_iter().filter(|positions| *positions > 0))
                .map(|positions| Assumption::DumpPositions { tank, positions }),
        );
    }
    all.extend([0.5, 0.75, 1.5].map(|share| Assumption::AttackFlow { share }));
    all.extend([0.85, 1.2].map(|times| Assumption::Driving { times }));
    all.extend([0.7, 1.5].map(|times| Assumption::Handling { times }));
    all
}

/// Tries each assumption: those that explain what was poured, the best first.
///
/// - Given: the minutes and what was poured by each, gal; runs of each assumption.
pub fn tried(
    plan: &Plan,
    all: &[Assumption],
    (minutes, poured): (&[f64], &[f64]),
    runs: u64,
    luck: SameLuck,
    control: &Control,
) -> Vec<Tried> {
    let mut found: Vec<Tried> = (all.iter())
        .filter_map(|assumption| {
            let (plan, absent) = changed(plan, *assumption)?;
            let band = band(&plan, &absent, minutes, runs, luck, control)?;
            Some(Tried { assumption: *assumption, fit: band.fit(poured) })
        })
        .collect();
    found.sort_by(|a, b| {
        (b.fit.share_as_far.total_cmp(&a.fit.share_as_far))
            .then(a.fit.furthest.total_cmp(&b.fit.furthest))
    });
    found
}

/// The plan as it would be.
fn changed(plan: &Plan, assumption: Assumption) -> Option<(Plan, Vec<Absent>)> {
    let mut facts: PlanDraft = plan.facts().clone();
    let mut absent = Vec::new();
    match assumption {
        Assumption::FillPositions { site, positions } => {
            facts.fill_sites.get_mut(site)?.positions = positions;
        }
        Assumption::DumpPositions { tank, positions } => {
            facts.drop_tanks.get_mut(tank)?.dump_positions = positions;
        }
        Assumption::Fill { site, share } => {
            let site = facts.fill_sites.get_mut(site)?;
            site.flow *= share;
            // A limit that was below the flow would hide that less comes.
            for tanker in &mut facts.tankers {
                tanker.fill_limit = tanker.fill_limit.map(|limit| limit * share.max(1.0));
            }
        }
        Assumption::AttackFlow { share } => {
            facts.incident.attack_flow.iter_mut().for_each(|step| step.flow *= share);
        }
        Assumption::Driving { times } => {
            for site in &mut facts.fill_sites {
                for leg in [&mut site.out, &mut site.back] {
                    leg.time = leg.time.scaled(times);
                }
            }
        }
        Assumption::Handling { times } => {
            for tanker in &mut facts.tankers {
                let handling = &mut tanker.handling;
                for time in [
                    &mut handling.nurse_connect,
                    &mut handling.nurse_disconnect,
                    &mut handling.dump_position,
                    &mut handling.dump_clear,
                    &mut handling.fill_connect,
                    &mut handling.fill_disconnect,
                ] {
                    *time = time.scaled(times);
                }
            }
        }
        Assumption::Out(one) => absent.push(one),
    }
    Some((Plan::check(facts).ok()?, absent))
}
