//! The story of one run, event by event.

use crate::engine::Shuttle;
use crate::phase::Phase;

/// What a tanker is doing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Doing {
    /// On the way to the scene for the first time.
    Responding,
    /// Waiting in the scene queue.
    WaitingAtScene,
    /// Connecting to the attack engine.
    NurseConnecting,
    /// Pumping off into the attack engine.
    PumpingOff,
    /// Disconnecting from the attack engine.
    NurseDisconnecting,
    /// Getting into place at this drop tank.
    Positioning(usize),
    /// Dumping into this drop tank.
    Dumping(usize),
    /// Pulling clear of this drop tank.
    Clearing(usize),
    /// Giving up this drop tank's position for an intake.
    BreakingOff(usize),
    /// Broken down, to be repaired.
    InRepair,
    /// Out of service for good.
    OutOfService,
    /// Standing by: no fill site can give half its capacity.
    StandingBy,
    /// Waiting for a one-lane stretch.
    WaitingForRoad,
    /// Crossing a one-lane stretch.
    CrossingOneLane,
    /// On the road to this fill site.
    TravelingOut(usize),
    /// In line at this fill site.
    WaitingToFill(usize),
    /// Connecting at this fill site.
    Connecting(usize),
    /// Taking water at this fill site.
    Filling(usize),
    /// Disconnecting at this fill site.
    Disconnecting(usize),
    /// On the road to the scene.
    TravelingBack,
}

/// Something a person following the run would note.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Happening {
    /// The attack engine reached the scene.
    AttackEngineArrived,
    /// The attack began.
    FirstWater,
    /// The lines need this flow from now on, gpm.
    FlowWanted(f64),
    /// The supply engine reached the scene.
    SupplyEngineArrived,
    /// This drop tank reached the scene.
    DropTankArrived(usize),
    /// This drop tank is set up.
    DropTankReady(usize),
    /// The draft is hooked up; nursing closes.
    HookedUp,
    /// The pump drew for the first time: the supply is established.
    Primed,
    /// The first drop tank is down to its unusable level and prime is lost.
    PrimeLost,
    /// The level is back; the pump is priming again.
    Repriming,
    /// Prime is back.
    PrimeBack,
    /// This fill site can serve.
    FillSiteReady(usize),
    /// This fill site has gone dry.
    FillSiteDry(usize),
    /// This tanker now does this.
    Tanker(usize, Doing),
    /// The lines are short of water.
    ShortfallBegan,
    /// The lines have their flow again.
    ShortfallEnded,
    /// The watch is over.
    WatchEnded,
}

/// One line of the story.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Note {
    /// Minutes after the alarm.
    pub minute: f64,
    /// What happened.
    pub happening: Happening,
}

/// The story of one run.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Trace {
    /// In order of time.
    pub notes: Vec<Note>,
    /// For each note, the levels of the drop tanks and then of the attack engine, gal.
    pub levels: Vec<f64>,
    /// Levels at every moment a flow changed: minute, then the levels as above.
    pub course: Vec<(f64, Vec<f64>)>,
}

impl Shuttle {
    /// Writes a line of the story, if one is being told.
    #[inline(always)]
    pub(crate) fn note(&mut self, happening: Happening) {
        if self.trace.is_some() {
            self.write_note(happening);
        }
    }

    #[cold]
    pub(crate) fn write_note(&mut self, happening: Happening) {
        if let Some(trace) = &mut self.trace {
            trace.notes.push(Note { minute: self.now.minutes(), happening });
            self.scene.levels_at(self.now, &mut trace.levels);
        }
    }

    #[inline(always)]
    pub(crate) fn note_tanker(&mut self, tanker: usize, phase: Phase) {
        if self.trace.is_some() {
            self.write_note(Happening::Tanker(tanker, phase.doing()));
        }
    }

    #[cold]
    pub(crate) fn note_course(&mut self) {
        if let Some(trace) = &mut self.trace {
            let mut levels = Vec::new();
            self.scene.levels_at(self.now, &mut levels);
            trace.course.push((self.now.minutes(), levels));
        }
    }
}
