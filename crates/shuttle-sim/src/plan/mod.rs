//! What is stated and what may run: facts, their check, and the plan that passed it.
//!
//! [`Plan::check`] is the only way to a [`Plan`], and the engine takes nothing else.

mod time_taken;

mod shared_luck;

mod rests_on;

mod calls;

mod facts;

mod fill_sites;

mod limits;

mod place;

mod mistakes;

mod check;

mod oddities;

pub use calls::{Brought, Call};
pub use facts::{
    AttackEngine, DraftLimit, DraftLimitReason, DropTank, DumpCurve, FILL_LIMIT, FlowStep,
    Handling, Incident, LowWater, PlanDraft, RESTART_ABOVE_UNUSABLE, Supply, SupplyEngine, Tanker,
};
pub use fill_sites::{FillOrder, FillSite, Leg, Near, OneLane, SourcePump};
pub use limits::{Limits, Measure};
pub use mistakes::{Mistake, Wrong};
pub use oddities::{Odd, Oddity, oddities_in};
pub use place::{Part, Place, Step};
pub use rests_on::{Owner, RestsOn, Unsure};
pub use shared_luck::{Failure, WholeFire};
pub use time_taken::TimeTaken;

/// A plan that may run: every value has been checked.
#[derive(Debug, Clone, PartialEq)]
pub struct Plan {
    draft: PlanDraft,
}

impl Plan {
    /// What [`Plan::check`] allows.
    pub const LIMITS: Limits = limits::LIMITS;

    /// Checks every value of a draft.
    ///
    /// - Errors: all mistakes at once, each with its place, the value and the limit.
    pub fn check(draft: PlanDraft) -> Result<Plan, Vec<Mistake>> {
        let mistakes = check::mistakes_in(&draft);
        if mistakes.is_empty() { Ok(Plan { draft }) } else { Err(mistakes) }
    }

    /// A plan under another draw of its inputs.
    ///
    /// - Given: `draft`, the facts of a checked plan with no change but those of [`Unsure::redraw`], which keeps
    ///   every value within its limits. It may have more trips than a plan may state by as much as a draw is off.
    pub fn redrawn(draft: PlanDraft) -> Plan {
        debug_assert!(
            (check::mistakes_in(&draft).iter())
                .all(|mistake| matches!(mistake.wrong, Wrong::TooManyTrips { .. })),
            "a draw went beyond the limits"
        );
        Plan { draft }
    }

    /// The checked facts; clone and change them to try something else.
    pub fn facts(&self) -> &PlanDraft {
        &self.draft
    }

    /// The level of the first drop tank at which the pump can draw, gal.
    pub fn restart_level(&self) -> Option<f64> {
        let first = self.draft.drop_tanks.first()?;
        Some(self.draft.supply.restart_level_for(first))
    }

    /// The greatest flow the draft can take, gpm; infinite where nothing limits it.
    pub fn draft_limit(&self) -> f64 {
        self.draft.supply.draft_limit()
    }
}
