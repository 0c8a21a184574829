//! Where in a plan something stands, as values: whoever shows it to a person words it.

/// A place in a plan: the way to it from the whole.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Place(pub Vec<Step>);

/// One step on the way to a place.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Step {
    /// A part or value of what is around it.
    Part(Part),
    /// One entry of a list, from 0; of tankers, their place in the scenario's list.
    Entry(usize),
}

/// Parts of a plan and of what it holds, named as the facts are.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[allow(missing_docs, reason = "each is the fact of this name")]
pub enum Part {
    Title,
    Incident,
    Duration,
    Tolerance,
    Reserve,
    AttackFlow,
    From,
    Flow,
    AttackEngine,
    Name,
    Tank,
    RequestedAt,
    Response,
    WaterOn,
    Intakes,
    TankRefill,
    Supply,
    Engine,
    Setup,
    DraftLimit,
    Pump,
    Rated,
    Lay,
    Reprime,
    RestartLevel,
    LowWater,
    DropTanks,
    Capacity,
    Unusable,
    BroughtBy,
    DumpPositions,
    Transfer,
    Tankers,
    DumpRate,
    PumpOff,
    FillLimit,
    Waste,
    Residual,
    BreakdownPerTrip,
    Repair,
    FillSite,
    Handling,
    NurseConnect,
    NurseDisconnect,
    DumpPosition,
    DumpClear,
    FillConnect,
    FillDisconnect,
    FillSites,
    Positions,
    Ready,
    Volume,
    Recharge,
    Out,
    Back,
    Miles,
    Minutes,
    OneLane,
    Crossing,
    Near,
    Mean,
    Cv,
    Low,
    Likely,
    High,
    Samples,
    Turnout,
    Failure,
    Chance,
    CrewCv,
    DriveFactor,
    SelfFill,
    SourcePump,
    WholeFire,
    DrivingCv,
    HandlingCv,
    ResponseCv,
}

impl Place {
    /// A part of a part, from the whole plan on.
    pub(crate) fn of<const N: usize>(parts: [Part; N]) -> Place {
        Place(parts.map(Step::Part).to_vec())
    }

    /// This part of it.
    pub(crate) fn at(&self, part: Part) -> Place {
        self.then(Step::Part(part))
    }

    /// This entry of it, from 0.
    pub(crate) fn entry(&self, index: usize) -> Place {
        self.then(Step::Entry(index))
    }

    fn then(&self, step: Step) -> Place {
        Place(self.0.iter().copied().chain([step]).collect())
    }
}

/// An entry of one of the plan's lists.
pub(crate) fn listed(list: Part, index: usize) -> Place {
    Place(vec![Step::Part(list), Step::Entry(index)])
}
