//! The tanker shuttle, event by event: tankers go through fill, travel, dump and connect against a
//! drop-tank level and an attack flow. No files, clock, threads or printing; the same plan and luck
//! give the same result, to the bit.
//!
//! Read in this order: `plan` (what is stated, what may run), `results` (what one run gives), `time`,
//! `luck` (keyed draws), `scene` (the water that moves in straight lines), `road` (fill sites, one-lane
//! stretches), `story` (what a run can tell), `run` (the loop and the rules).

mod luck;
mod plan;
mod results;
mod road;
mod run;
mod scene;
mod story;
mod time;

pub use luck::{KeyedStream, Luck, Purpose, Sampler, Tables};
pub use plan::{
    AttackEngine, Brought, Call, DraftLimit, DraftLimitReason, DropTank, DumpCurve, FILL_LIMIT,
    Failure, FillOrder, FillSite, FlowStep, Handling, Incident, Leg, Limits, LowWater, Mistake,
    Near, Oddity, OneLane, Plan, PlanDraft, RESTART_ABOVE_UNUSABLE, Supply, SupplyEngine, Tanker,
    TimeTaken, WholeFire, oddities_in,
};
pub use results::{
    Cause, Interruption, Part, PartMinutes, RunResult, Subject, TankerRecord, marks,
};
pub use run::Shuttle;
pub use story::{Doing, Happening, Note, Trace};
