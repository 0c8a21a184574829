//! What a tanker can be doing, and where one stands in a run.

use crate::cycle::{CycleTimes, NO_PART};
use crate::draws::{Purpose, UnitDraws};
use crate::moment::Moment;
use crate::one_lane::Way;
use crate::ready::ReadyTanker;
use crate::results::Part;
use crate::trace::Doing;

/// What a tanker is doing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Phase {
    Responding,
    SceneQueue,
    NurseConnect,
    Nursing,
    NurseDisconnect,
    DumpPosition {
        tank: usize,
    },
    Dumping {
        tank: usize,
    },
    DumpClear {
        tank: usize,
    },
    Repair,
    OutOfService,
    /// No fill site can give half its capacity.
    StandBy,
    LaneWait {
        lane: usize,
        way: Way,
        site: usize,
    },
    LaneCross {
        lane: usize,
        way: Way,
        site: usize,
    },
    TravelOut {
        site: usize,
    },
    FillQueue {
        site: usize,
    },
    FillConnect {
        site: usize,
    },
    Filling {
        site: usize,
    },
    FillDisconnect {
        site: usize,
    },
    TravelBack {
        site: usize,
    },
}

impl Phase {
    /// Which part of the cycle its minutes belong to.
    pub fn part(self) -> Option<Part> {
        match self {
            Phase::Responding | Phase::Repair | Phase::OutOfService | Phase::StandBy => None,
            Phase::SceneQueue => Some(Part::SceneWait),
            Phase::NurseConnect => Some(Part::NurseConnect),
            Phase::Nursing => Some(Part::PumpOff),
            Phase::NurseDisconnect => Some(Part::NurseDisconnect),
            Phase::DumpPosition { .. } => Some(Part::DumpPosition),
            Phase::Dumping { .. } => Some(Part::Dump),
            Phase::DumpClear { .. } => Some(Part::DumpClear),
            Phase::LaneWait { .. } => Some(Part::RoadWait),
            Phase::LaneCross { way: Way::Out, .. } | Phase::TravelOut { .. } => {
                Some(Part::TravelOut)
            }
            Phase::LaneCross { way: Way::Back, .. } | Phase::TravelBack { .. } => {
                Some(Part::TravelBack)
            }
            Phase::FillQueue { .. } => Some(Part::FillWait),
            Phase::FillConnect { .. } => Some(Part::FillConnect),
            Phase::Filling { .. } => Some(Part::Fill),
            Phase::FillDisconnect { .. } => Some(Part::FillDisconnect),
        }
    }

    /// Whether the load it carries has come on scene; while it moves, dumper or nurse counts it.
    pub fn holds_water_at_scene(self) -> bool {
        matches!(self, Phase::SceneQueue | Phase::NurseConnect | Phase::DumpPosition { .. })
    }

    pub fn doing(self) -> Doing {
        match self {
            Phase::Responding => Doing::Responding,
            Phase::SceneQueue => Doing::WaitingAtScene,
            Phase::NurseConnect => Doing::NurseConnecting,
            Phase::Nursing => Doing::PumpingOff,
            Phase::NurseDisconnect => Doing::NurseDisconnecting,
            Phase::DumpPosition { tank } => Doing::Positioning(tank),
            Phase::Dumping { tank } => Doing::Dumping(tank),
            Phase::DumpClear { tank } => Doing::Clearing(tank),
            Phase::Repair => Doing::InRepair,
            Phase::OutOfService => Doing::OutOfService,
            Phase::StandBy => Doing::StandingBy,
            Phase::LaneWait { .. } => Doing::WaitingForRoad,
            Phase::LaneCross { .. } => Doing::CrossingOneLane,
            Phase::TravelOut { site } => Doing::TravelingOut(site),
            Phase::FillQueue { site } => Doing::WaitingToFill(site),
            Phase::FillConnect { site } => Doing::Connecting(site),
            Phase::Filling { site } => Doing::Filling(site),
            Phase::FillDisconnect { site } => Doing::Disconnecting(site),
            Phase::TravelBack { .. } => Doing::TravelingBack,
        }
    }

    /// Whether a place is held from here on: those that hold it after come from these.
    pub fn takes_a_place(self) -> bool {
        matches!(self, Phase::NurseConnect | Phase::DumpPosition { .. } | Phase::FillConnect { .. })
    }

    /// Whether a place is held, and so kept from others.
    pub fn held(self) -> Option<Held> {
        match self {
            Phase::NurseConnect | Phase::Nursing | Phase::NurseDisconnect => Some(Held::Intake),
            Phase::DumpPosition { tank } | Phase::Dumping { tank } | Phase::DumpClear { tank } => {
                Some(Held::DumpPosition(tank))
            }
            Phase::FillConnect { site }
            | Phase::Filling { site }
            | Phase::FillDisconnect { site } => Some(Held::FillPosition(site)),
            _ => None,
        }
    }
}

/// A place that one tanker at a time can hold.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Held {
    Intake,
    DumpPosition(usize),
    FillPosition(usize),
}

/// Where a tanker stands in a run.
#[derive(Debug, Clone, Copy)]
pub(crate) struct TankerState {
    pub phase: Phase,
    /// Since when it does this.
    pub since: Moment,
    /// Since when it holds its place.
    pub held_since: Moment,
    /// What it will deliver, gal; while it moves, dumper or nurse keeps count.
    pub load: f64,
    /// What will be spilled of what it carries, gal.
    pub waste: f64,
    /// What its present load was when it began to move, gal.
    pub emptying: f64,
    pub draws: UnitDraws,
    pub trips: u32,
    /// The part its minutes now belong to.
    pub part: usize,
    pub cycle: CycleTimes,
}

impl TankerState {
    pub fn responding(draws: UnitDraws, load: f64, waste: f64) -> TankerState {
        TankerState {
            phase: Phase::Responding,
            since: Moment::ALARM,
            held_since: Moment::ALARM,
            load,
            waste,
            emptying: 0.0,
            draws,
            trips: 0,
            part: NO_PART,
            cycle: CycleTimes::NONE,
        }
    }

    /// Ends what it did and begins something else.
    // Inlined, the questions about the phase are answered when it is compiled.
    #[inline(always)]
    pub fn enter(&mut self, phase: Phase, now: Moment) {
        self.cycle.add(self.part, now.since(self.since));
        self.begin(phase, now);
    }

    /// Begins something else, once the time of all before is counted.
    #[inline(always)]
    pub fn begin(&mut self, phase: Phase, now: Moment) {
        self.part = phase.part().map_or(NO_PART, |part| part as usize);
        if phase.takes_a_place() {
            self.held_since = now;
        }
        self.phase = phase;
        self.since = now;
    }

    /// Whether its present trip ends in a breakdown.
    #[inline]
    pub fn breaks_down(&self, ready: &ReadyTanker) -> bool {
        self.draws.happens(ready.breakdown_per_trip, Purpose::Breakdown, self.trips)
    }
}
