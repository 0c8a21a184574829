//! What one run gives.

use crate::causes::{Cause, CauseKind};

/// The parts of a cycle, in the order they happen; a cycle ends at a drop tank or at the attack
/// engine, never both.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[repr(usize)]
pub enum Part {
    /// The road to the fill site.
    TravelOut = 0,
    /// Waiting for a one-lane stretch, either way.
    RoadWait,
    /// Waiting for a fill position.
    FillWait,
    /// Connecting at the fill site.
    FillConnect,
    /// Taking water.
    Fill,
    /// Disconnecting at the fill site.
    FillDisconnect,
    /// The road to the scene.
    TravelBack,
    /// Waiting at the scene for a dump position or an intake.
    SceneWait,
    /// Getting into place at a drop tank.
    DumpPosition,
    /// Dumping.
    Dump,
    /// Pulling clear of the drop tank.
    DumpClear,
    /// Connecting to the attack engine.
    NurseConnect,
    /// Pumping off into the attack engine.
    PumpOff,
    /// Disconnecting from the attack engine.
    NurseDisconnect,
}

impl Part {
    /// All parts, in order.
    pub const ALL: [Part; 14] = [
        Part::TravelOut,
        Part::RoadWait,
        Part::FillWait,
        Part::FillConnect,
        Part::Fill,
        Part::FillDisconnect,
        Part::TravelBack,
        Part::SceneWait,
        Part::DumpPosition,
        Part::Dump,
        Part::DumpClear,
        Part::NurseConnect,
        Part::PumpOff,
        Part::NurseDisconnect,
    ];

    /// The part as a key of the result format.
    pub fn key(self) -> &'static str {
        match self {
            Part::TravelOut => "travel_out",
            Part::RoadWait => "road_wait",
            Part::FillWait => "fill_wait",
            Part::FillConnect => "fill_connect",
            Part::Fill => "fill",
            Part::FillDisconnect => "fill_disconnect",
            Part::TravelBack => "travel_back",
            Part::SceneWait => "scene_wait",
            Part::DumpPosition => "dump_position",
            Part::Dump => "dump",
            Part::DumpClear => "dump_clear",
            Part::NurseConnect => "nurse_connect",
            Part::PumpOff => "pump_off",
            Part::NurseDisconnect => "nurse_disconnect",
        }
    }
}

/// Minutes by [`Part`].
pub type PartMinutes = [f64; Part::ALL.len()];

/// Whom or what something is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Subject {
    /// The attack engine.
    AttackEngine,
    /// The supply engine.
    SupplyEngine,
    /// The drop tank with this place in the list.
    DropTank(usize),
    /// The tanker with this place in the list.
    Tanker(usize),
    /// The fill site with this place in the list.
    FillSite(usize),
    /// The pump that someone brings to the fill site with this place in the list.
    SourcePump(usize),
}

/// A shortfall at the attack lines long enough to count.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Interruption {
    /// When it began, minutes after the alarm.
    pub start: f64,
    /// How long it lasted, minutes.
    pub minutes: f64,
    /// Whether it began before the supply was established.
    pub before_supply: bool,
    /// Why it began.
    pub cause: Cause,
    /// What held within that cause, where it can be told further.
    pub kind: Option<CauseKind>,
    /// Whom or what that is about, where it is one: who was still to come (of several, who should have
    /// come first), whom the draft waited for, which source a tanker waited for.
    pub about: Option<Subject>,
}

/// What one tanker did.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct TankerRecord {
    /// Loads brought in and emptied.
    pub trips: u32,
    /// Whole cycles, from leaving the dump site to clear again; the first arrival is none.
    pub cycles: u32,
    /// Minutes by part, summed over those cycles.
    pub parts: PartMinutes,
    /// Of the minutes of [`Part::Dump`], those it was held up by a full drop tank: beyond what the load takes at
    /// its own rate.
    pub held_up: f64,
    /// Gallons it delivered into drop tanks or the attack engine.
    pub delivered: f64,
}

/// What one run gives. Times count from the alarm; gallons and minutes.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct RunResult {
    /// When the attack began, minutes after the alarm.
    pub first_water: f64,
    /// When the watch ended, minutes after the alarm.
    pub end: f64,
    /// When the supply was established; `None` if it never was within the watch.
    pub established: Option<f64>,
    /// In order of time.
    pub interruptions: Vec<Interruption>,
    /// Minutes short before and after the supply was established, every shortfall counted.
    pub minutes_short: [f64; 2],
    /// Gallons wanted and not delivered, before and after the supply was established.
    pub unmet: [f64; 2],
    /// Gallons delivered to the lines.
    pub delivered: f64,
    /// Gallons wanted by the lines.
    pub wanted: f64,
    /// Whether the attack engine's tank fell below the reserve.
    pub reserve_touched: bool,
    /// Lowest level of the attack engine's tank, gal.
    pub lowest_engine: f64,
    /// Lowest level of each drop tank since the pump first drew, gal; infinite if it never did.
    pub lowest_tanks: Vec<f64>,
    /// One per tanker.
    pub tankers: Vec<TankerRecord>,
    /// Position-minutes held during the watch, one per fill site.
    pub fill_held: Vec<f64>,
    /// Position-minutes held during the watch, one per drop tank.
    pub dump_held: Vec<f64>,
    /// Intake-minutes held during the watch.
    pub intake_held: f64,
    /// Water that came on scene, the attack engine's own tank included, gal.
    pub arrived: f64,
    /// Water spilled or underfilled, gal.
    pub spilled: f64,
    /// Water still on scene at the end, gal.
    pub remaining: f64,
    /// Water carried away again by tankers that pulled clear with a rest, gal.
    pub carried_away: f64,
    /// Gallons taken from each fill site.
    pub taken: Vec<f64>,
    /// Levels at each mark: the drop tanks, then the attack engine; see [`marks`].
    pub levels: Vec<f64>,
    /// Events applied.
    pub events: u64,
}

impl RunResult {
    /// Water that came on scene and is nowhere: zero but for rounding, gal.
    pub fn balance(&self) -> f64 {
        self.arrived - self.delivered - self.spilled - self.remaining - self.carried_away
    }

    /// Minutes from first water to the first interruption.
    pub fn first_interruption(&self) -> Option<f64> {
        Some((self.interruptions.first()?.start - self.first_water).max(0.0))
    }
}

/// The minutes after first water at which levels are noted: whole minutes from 0 to `duration`, or
/// wider apart so that there are no more than 1,441.
pub fn marks(duration: f64) -> impl Iterator<Item = f64> {
    let step = mark_step(duration);
    (0..=(duration / step + 1e-9) as u32).map(move |mark| f64::from(mark) * step)
}

pub(crate) fn mark_step(duration: f64) -> f64 {
    (duration / 1440.0).ceil().max(1.0)
}
