//! What of a plan is changed, as values: places, the user's names, quantities. The words are for others.

use schemars::JsonSchema;
use serde::Serialize;

use crate::units::{LITRES_PER_GALLON, Units};

/// A quantity with the kind of its unit.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Quantity {
    /// A time, minutes.
    Minutes(f64),
    /// A flow, gpm.
    Gpm(f64),
    /// A volume, gal.
    Gallons(f64),
    /// So many.
    Count(u32),
    /// A share, between 0 and 1.
    Share(f64),
    /// A habit of the pump operator.
    LowWater(Habit),
}

/// What the pump operator does at low water.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Habit {
    /// Gates down in time, and keeps prime.
    GatesDown,
    /// Draws on until prime is lost.
    DrawsOn,
}

/// Which way an input is moved.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Way {
    /// More of it.
    More,
    /// Less of it.
    Less,
    /// Something else in its place, which the amount names.
    Instead,
}

impl Way {
    /// The other one.
    pub fn other(self) -> Way {
        match self {
            Way::More => Way::Less,
            Way::Less => Way::More,
            Way::Instead => Way::Instead,
        }
    }
}

/// An input of a plan. Sites and engines carry the user's names; drop tanks their place in the list.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum Input {
    /// Connecting at the fill site, of every tanker.
    FillConnect,
    /// Disconnecting there.
    FillDisconnect,
    /// Getting into place at the drop tank, of every tanker.
    DumpPosition,
    /// Pulling clear of it.
    DumpClear,
    /// Connecting a nurse tanker.
    NurseConnect,
    /// Disconnecting it.
    NurseDisconnect,
    /// The arrival of every tanker.
    TankersArrive,
    /// The arrival of the supply engine.
    SupplyEngineArrives {
        /// Its name.
        engine: String,
    },
    /// The arrival of drop tanks that come on their own.
    DropTanksArrive,
    /// Setting up the first drop tank.
    FirstDropTankSetup,
    /// Hooking up the draft.
    DraftSetup,
    /// Priming again.
    Reprime,
    /// The drive to a site, each way.
    Drive {
        /// The site's name.
        #[serde(rename = "fill_site")]
        site: String,
    },
    /// Driving on all roads, as a share of the planned speed.
    SpeedOnAllRoads,
    /// What a site gives.
    SiteFlow {
        /// The site's name.
        #[serde(rename = "fill_site")]
        site: String,
    },
    /// How many fill at once at a site.
    FillPositions {
        /// The site's name.
        #[serde(rename = "fill_site")]
        site: String,
    },
    /// When a site is ready.
    SiteReady {
        /// The site's name.
        #[serde(rename = "fill_site")]
        site: String,
    },
    /// The size of a drop tank.
    DropTankSize {
        /// Its place among the drop tanks, from 0; a result counts it from 1.
        #[serde(rename = "number", serialize_with = "from_one")]
        tank: usize,
        /// How many there are.
        of: usize,
    },
    /// How many dump at once into a drop tank.
    DumpPositions {
        /// Its place among the drop tanks, from 0; a result counts it from 1.
        #[serde(rename = "number", serialize_with = "from_one")]
        tank: usize,
        /// How many there are.
        of: usize,
    },
    /// The dump rate of every tanker.
    DumpRate,
    /// The fill rate every tanker takes.
    FillRate,
    /// The rate at which a nurse tanker is pumped off.
    PumpOffRate,
    /// The share of a load that is spilled or not filled.
    Waste,
    /// The flow through pump and lay.
    PumpAndLay,
    /// What the pump operator does at low water.
    LowWater,
    /// The level at which the pump draws.
    RestartLevel,
    /// The flow the lines need at most: the demand itself, which no purchase lowers.
    Demand,
    /// The attack engine's own tank.
    EngineTank,
    /// The reserve kept in it for backing out: it moves no water.
    Reserve,
    /// Intakes of the attack engine that a nurse can take.
    Intakes,
}

/// A place in a list as people count it, from 1.
pub fn from_one<S: serde::Serializer>(place: &usize, to: S) -> Result<S::Ok, S::Error> {
    to.serialize_u64(*place as u64 + 1)
}

/// A change to a plan.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Change {
    /// An input moved by an amount.
    Moved {
        /// Which.
        input: Input,
        /// What it is now.
        now: Quantity,
        /// Which way it is moved.
        way: Way,
        /// By how much.
        by: Quantity,
    },
    /// All aid asked for at the alarm.
    AidAtTheAlarm {
        /// The latest that any is asked for as planned, minutes after the alarm.
        latest_min: f64,
    },
    /// One more tanker.
    OneMoreTanker {
        /// The name of the one it is like.
        like: String,
    },
    /// All tankers to one of the fill sites.
    AllToOneSite {
        /// The site's name.
        site: String,
    },
    /// A site ready from the alarm on.
    SiteReadyAtTheAlarm {
        /// The site's name.
        site: String,
    },
    /// Tankers connect beside each other and load one by one.
    LoadOneByOne {
        /// The site's name.
        site: String,
    },
    /// One more drop tank like the first.
    OneMoreDropTank,
    /// Nursing the engine until the draft is hooked up.
    NurseUntilTheDraft,
    /// The pump operator gates down before prime is lost.
    GateDown,
    /// A second pump that stands by for the one that drafts.
    SparePump,
}

/// A round flow, gpm: `us` gpm, or `metric` L/min for plans in those units.
pub(crate) fn round_flow(units: Units, us: f64, metric: f64) -> f64 {
    match units {
        Units::Us => us,
        Units::Metric => metric / LITRES_PER_GALLON,
    }
}
