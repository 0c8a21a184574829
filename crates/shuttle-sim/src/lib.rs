//! The tanker shuttle, event by event: tankers go through fill, travel, dump and connect against a
//! drop-tank level and an attack flow. No files, clock, threads or printing; the same plan and luck
//! give the same result, to the bit.
//!
//! Read in this order: `plan` (what is stated, what may run), `results` (what one run gives), `time`,
//! `luck` (keyed draws), `scene` (the water that moves in straight lines), `road` (fill sites, one-lane
//! stretches), `prepared` (the plan made ready), `calendar` (the event list), `story`, `tanker` (what one
//! tanker does), `tally` (what is counted), `boss` (what the tanker boss judges), `shuttle` (what a run is
//! made of); then the rules: `arrivals`, `line` (rules 1 to 4), `dump_site` (rules 3 and 5), `haul` (rules 6
//! to 8), `judge`; and `run`, the loop.

mod plan;

mod results;

mod time;

mod luck;

mod scene;

mod road;

mod prepared;

mod calendar;

mod story;

mod tanker;

mod tally;

mod boss;

mod shuttle;

mod arrivals;

mod line;

mod dump_site;

mod haul;

mod judge;

mod run;

pub use luck::{KeyedStream, Luck, Purpose, Sampler, Tables};
pub use plan::{
    AttackEngine, Brought, Call, DraftLimit, DraftLimitReason, DropTank, DumpCurve, FILL_LIMIT,
    FillOrder, FillSite, FlowStep, Handling, Incident, Leg, Limits, LowWater, Mistake, Near,
    Oddity, OneLane, Plan, PlanDraft, RESTART_ABOVE_UNUSABLE, Supply, SupplyEngine, Tanker,
    TimeTaken, oddities_in,
};
pub use results::{Cause, Interruption, Part, PartMinutes, RunResult, TankerRecord, marks};
pub use shuttle::Shuttle;
pub use story::{Doing, Happening, Note, Trace};
