//! Departments that stay home with all their tankers.
//!
//! One that comes whole or not at all may refuse as one, so that this is a loss like that of a unit. Where tankers have
//! no more than the name of their department in common each may stay home by itself; what it does if all do is worth
//! knowing, and is more than one loss.

use shuttle_sim::{Brought, Plan};

use super::losses::{Loss, Lost};
use crate::changes::variation::with_tankers;

/// A department and its tankers.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Department {
    /// Its name.
    pub name: String,
    /// The names of its tankers, whether or not a plan has them.
    pub tankers: Vec<String>,
    /// Whether it comes whole or not at all.
    pub comes_whole: bool,
}

/// Each department of which a plan has several tankers, with all of them at home.
pub fn department_losses(plan: &Plan, departments: &[Department]) -> Vec<Loss> {
    let facts = plan.facts();
    (departments.iter())
        .filter_map(|of| {
            let comes: Vec<bool> =
                facts.tankers.iter().map(|one| !of.tankers.contains(&one.name)).collect();
            let stay_home = |place: usize| !comes[place];
            let tankers: Vec<String> = (facts.tankers.iter().enumerate())
                .filter(|(place, _)| stay_home(*place))
                .map(|(_, one)| one.name.clone())
                .collect();
            // A single one is a unit like any other.
            if tankers.len() < 2 {
                return None;
            }
            let drop_tanks = (facts.drop_tanks.iter())
                .filter(|tank| matches!(tank.brought, Brought::ByTanker(by) if stay_home(by)))
                .count();
            let lost = Lost::Department {
                name: of.name.clone(),
                tankers,
                comes_whole: of.comes_whole,
                drop_tanks,
            };
            Some(Loss { lost, plan: with_tankers(plan, &comes).ok() })
        })
        .collect()
}
