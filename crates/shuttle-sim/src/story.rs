//! The story of one run, event by event.

use crate::results::Subject;
use crate::scene::Scene;
use crate::time::Moment;

/// What a tanker is doing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Doing {
    /// On the way to the scene for the first time.
    Responding,
    /// Waiting in the line at the scene.
    WaitingAtScene,
    /// In the line, kept for the lines: loaded on deck for an intake.
    OnDeck,
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
    /// Standing by at the scene: no fill site can serve it.
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
    /// What this fire multiplies every driving time, handling time and response by; told where it is not 1.
    WholeFire {
        /// On driving.
        driving: f64,
        /// On handling.
        handling: f64,
        /// On responses.
        response: f64,
    },
    /// What the crew of this tanker multiplies its handling by, beside the fire's factor; told where it is not 1.
    Crew(usize, f64),
    /// The attack engine reached the scene.
    AttackEngineArrived,
    /// The attack began.
    FirstWater,
    /// The lines need this flow from now on, gpm.
    FlowWanted(f64),
    /// The supply engine reached the scene.
    SupplyEngineArrived,
    /// This unit should have come by now, and is known to stay away.
    StaysAway(Subject),
    /// This drop tank reached the scene.
    DropTankArrived(usize),
    /// This drop tank is set up.
    DropTankReady(usize),
    /// The draft is hooked up.
    HookedUp,
    /// The pump can draw for the first time: the supply is established, nursing closes.
    Primed,
    /// The first drop tank is down to its unusable level and prime is lost.
    PrimeLost,
    /// The level is back; the pump is priming again.
    Repriming,
    /// Prime is back.
    PrimeBack,
    /// The drafting pump has failed.
    PumpFailed,
    /// The drafting pump works again.
    PumpRepaired,
    /// This fill site has failed and gives nothing.
    FillSiteFailed(usize),
    /// This fill site works again.
    FillSiteRepaired(usize),
    /// This fill site can serve.
    FillSiteReady(usize),
    /// This fill site has gone dry.
    FillSiteDry(usize),
    /// This tanker now does this.
    Tanker(usize, Doing),
    /// This tanker pulls clear of its drop tank with this rest aboard, gal.
    RestAboard(usize, f64),
    /// The lines are short of water, and get this flow, gpm.
    ShortfallBegan(f64),
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
    /// For each of those moments, what the attack lines want and what they are given from then on, gpm.
    pub lines: Vec<(f64, f64)>,
}

impl Trace {
    #[cold]
    fn note(&mut self, now: Moment, happening: Happening, scene: &Scene) {
        self.notes.push(Note { minute: now.minutes(), happening });
        self.levels.extend(scene.levels(now));
    }

    #[cold]
    fn note_turn(&mut self, now: Moment, scene: &Scene) {
        self.course.push((now.minutes(), scene.levels(now).collect()));
        self.lines.push(scene.lines_want_and_have());
    }
}

/// Writes the story down while it is asked for.
#[derive(Debug, Default)]
pub(crate) struct Story {
    trace: Option<Trace>,
}

impl Story {
    /// From now on the story is written down.
    pub fn begin(&mut self) {
        self.trace = Some(Trace::default());
    }

    /// The story as written; nothing is written from now on.
    pub fn take(&mut self) -> Trace {
        self.trace.take().unwrap_or_default()
    }

    /// Whether anyone listens, where what happens would first have to be put into words.
    pub fn is_told(&self) -> bool {
        self.trace.is_some()
    }

    /// This happened, with these levels.
    #[inline]
    pub fn note(&mut self, now: Moment, happening: Happening, scene: &Scene) {
        if let Some(trace) = &mut self.trace {
            trace.note(now, happening, scene);
        }
    }

    /// The flows have changed: a turning point of the levels.
    #[inline]
    pub fn note_turn(&mut self, now: Moment, scene: &Scene) {
        if let Some(trace) = &mut self.trace {
            trace.note_turn(now, scene);
        }
    }
}
