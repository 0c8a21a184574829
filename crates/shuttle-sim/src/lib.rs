//! The tanker shuttle, event by event: tankers go through fill, travel, dump and connect against a
//! drop-tank level and an attack flow. No files, clock, threads or printing; the same plan and luck
//! give the same result, to the bit.
//!
//! Read in this order: `time_taken` and `plan` (what is stated), `check` (what may run), `results`
//! and `trace` (what one run gives), `moment` (time), `sampler` and `draws` (luck), `flow` and
//! `dumping` (water that moves in straight lines), `scene` and `fill_site` (the two places where it
//! moves), `one_lane`, `earliest` and `timers` (what comes next), `ready`, `cycle` and `phase` (what a tanker does, and for how long), `road` and `tanker` (the rules
//! of the cycle), `once` and `ends` (what is
//! not the cycle), `engine` (the loop) and `judging`.

mod time_taken;

mod plan;

mod check;

mod results;

mod trace;

mod sampler;

mod draws;

mod moment;

mod flow;

mod dumping;

mod scene;

mod fill_site;

mod one_lane;

mod earliest;

mod timers;

mod ready;

mod cycle;

mod phase;

mod road;

mod tanker;

mod once;

mod ends;

mod engine;

mod judging;

pub use check::{Mistake, Oddity, oddities_in};
pub use draws::{KeyedStream, Luck, Purpose};
pub use engine::Shuttle;
pub use plan::{
    AttackEngine, Brought, Call, DraftLimit, DraftLimitReason, DropTank, DumpCurve, FillOrder,
    FillSite, FlowStep, Handling, Incident, Leg, LowWater, Near, OneLane, Plan, PlanDraft,
    RESTART_ABOVE_UNUSABLE, Supply, SupplyEngine, Tanker,
};
pub use results::{Cause, Interruption, Part, PartMinutes, RunResult, TankerRecord, marks};
pub use sampler::{Sampler, Tables};
pub use time_taken::TimeTaken;
pub use trace::{Doing, Happening, Note, Trace};
