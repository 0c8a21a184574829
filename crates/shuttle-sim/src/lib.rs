//! The tanker shuttle, event by event: tankers go through fill, travel, dump and connect against a
//! drop-tank level and an attack flow. No files, clock, threads or printing; the same plan and luck
//! give the same result, to the bit.
//!
//! Read in this order: `plan` (what is stated, what may run), `results` (what one run gives), `time`,
//! `luck` (keyed draws), `scene` (the water that moves in straight lines), `road` (fill sites, one-lane
//! stretches), `story` (what a run can tell), `run` (the loop and the rules).
//!
//! # One fire by hand
//!
//! An engine with 1,000 gal flows 100 gpm for half an hour. One tanker of 1,000 gal comes five minutes after
//! first water, takes a minute to connect, and nurses; the road is ten minutes each way. The engine lives on
//! its own tank for 6 min, is nursed for 10, and has 400 gal left then: 4 min. So the lines run short from
//! minute 20 on, long before the tanker is back.
//!
//! ```
//! use shuttle_sim::{
//!     AttackEngine, Call, Cause, DumpCurve, FillOrder, FillSite, FlowStep, Handling, Incident, Leg,
//!     LowWater, Luck, Plan, PlanDraft, Shuttle, Supply, Tanker, TimeTaken, WholeFire, Wrong,
//! };
//!
//! let minutes = TimeTaken::Fixed;
//! let call = |response| Call::sure(0.0, minutes(response));
//! let road = || Leg { miles: Some(5.0), time: minutes(10.0) };
//! let draft = PlanDraft {
//!     title: "Chicken house, Mill Road".to_string(),
//!     incident: Incident {
//!         duration: 30.0,
//!         attack_flow: vec![FlowStep { from: 0.0, flow: 100.0 }],
//!         reserve: 0.0,
//!         tolerance: 0.1,
//!     },
//!     attack_engine: AttackEngine {
//!         name: "Engine 1".to_string(),
//!         tank: 1_000.0,
//!         call: call(8.0),
//!         water_on: TimeTaken::NONE,
//!         intakes: 1,
//!         tank_refill: 0.0,
//!     },
//!     supply: Supply {
//!         nurse: true,
//!         engine: None,
//!         setup: TimeTaken::NONE,
//!         draft_limits: vec![],
//!         restart_level: None,
//!         reprime: TimeTaken::NONE,
//!         low_water: LowWater::Throttle,
//!         lay_volume: 0.0,
//!         failure: None,
//!     },
//!     drop_tanks: vec![],
//!     tankers: vec![Tanker {
//!         name: "Tanker 2".to_string(),
//!         listed: 0,
//!         capacity: 1_000.0,
//!         call: call(13.0),
//!         dump_rate: 1_000.0,
//!         dump_curve: DumpCurve::Steady,
//!         pump_off: 500.0,
//!         fill_limit: None,
//!         waste: 0.0,
//!         residual: 0.0,
//!         breakdown_per_trip: 0.0,
//!         repair: None,
//!         fill_site: None,
//!         handling: Handling {
//!             nurse_connect: minutes(1.0),
//!             nurse_disconnect: minutes(1.0),
//!             dump_position: TimeTaken::NONE,
//!             dump_clear: TimeTaken::NONE,
//!             fill_connect: minutes(1.0),
//!             fill_disconnect: minutes(1.0),
//!         },
//!         crew_cv: 0.0,
//!         drive_factor: 1.0,
//!         comes_with: None,
//!         self_fill: None,
//!     }],
//!     fill_sites: vec![FillSite {
//!         name: "Mill pond".to_string(),
//!         flow: 500.0,
//!         pump: None,
//!         positions: 1,
//!         ready: TimeTaken::NONE,
//!         fill_order: FillOrder::OneByOne,
//!         volume: None,
//!         recharge: 0.0,
//!         failure: None,
//!         source_pump: None,
//!         self_fill: false,
//!         out: road(),
//!         back: road(),
//!     }],
//!     one_lanes: vec![],
//!     whole_fire: WholeFire::default(),
//!     unsure: vec![],
//! };
//!
//! let plan = Plan::check(draft).expect("a plan that may run");
//! let result = Shuttle::new(&plan).run(Luck::Planned).clone();
//! let short = &result.interruptions[0];
//! assert!((short.start - result.first_water - 20.0).abs() < 1e-6);
//! assert!((short.minutes - 10.0).abs() < 1e-6);
//! assert_eq!(short.cause, Cause::HaulTooLong);
//!
//! // What cannot be right never comes to a run: every mistake is told at once, with its place.
//! let mut wrong = plan.facts().clone();
//! wrong.tankers[0].waste = 10.0;
//! wrong.fill_sites[0].flow = 0.0;
//! let mistakes = Plan::check(wrong).expect_err("two mistakes");
//! assert_eq!(mistakes.len(), 2);
//! assert!(matches!(mistakes[0].wrong, Wrong::OutOfRange { value: 10.0, .. }));
//! ```

mod causes;
mod luck;
mod plan;
mod results;
mod road;
mod run;
mod scene;
mod story;
mod time;

pub use causes::{Cause, CauseKind};
pub use luck::{KeyedStream, Luck, Purpose, Sampler, Tables};
pub use plan::{
    AttackEngine, Brought, Call, DraftLimit, DraftLimitReason, DropTank, DumpCurve, FILL_LIMIT,
    Failure, FillOrder, FillSite, FlowStep, Handling, Incident, Leg, Limits, LowWater, Measure,
    Mistake, Near, Odd, Oddity, OneLane, Owner, Part as PlanPart, Place, Plan, PlanDraft,
    RESTART_ABOVE_UNUSABLE, RestsOn, SourcePump, Step, Supply, SupplyEngine, Tanker, TimeTaken,
    Unsure, WholeFire, Wrong, oddities_in,
};
pub use results::{Interruption, Part, PartMinutes, RunResult, Subject, TankerRecord, marks};
pub use run::Shuttle;
pub use story::{Doing, Happening, Note, Trace};
