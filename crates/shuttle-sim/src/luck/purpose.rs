//! What a draw is for.

/// What a draw is for. The numbers are part of the meaning of a seed: append, never renumber.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[repr(u8)]
pub enum Purpose {
    /// Response of a unit, or of a drop tank with its own vehicle.
    Response = 1,
    /// First water after arrival.
    WaterOn = 2,
    /// Setting up a drop tank or the draft.
    Setup = 3,
    /// Getting prime back.
    Reprime = 4,
    /// When a fill site can serve.
    Ready = 5,
    /// The road to the fill site.
    TravelOut = 6,
    /// Connecting at the fill site.
    FillConnect = 7,
    /// Disconnecting at the fill site.
    FillDisconnect = 8,
    /// The road to the scene.
    TravelBack = 9,
    /// Getting into place at a drop tank.
    DumpPosition = 10,
    /// Pulling clear of a drop tank.
    DumpClear = 11,
    /// Connecting to the attack engine.
    NurseConnect = 12,
    /// Disconnecting from the attack engine.
    NurseDisconnect = 13,
    /// Whether a trip ends in a breakdown.
    Breakdown = 14,
    /// How long a repair takes.
    Repair = 15,
    /// Crossing a one-lane stretch by the scene, outbound.
    CrossSceneOut = 16,
    /// Crossing a one-lane stretch by the fill site, outbound.
    CrossSiteOut = 17,
    /// Crossing a one-lane stretch by the fill site, inbound.
    CrossSiteBack = 18,
    /// Crossing a one-lane stretch by the scene, inbound.
    CrossSceneBack = 19,
    /// The factor on every driving time of a fire.
    DrivingFactor = 20,
    /// The factor on every handling time of a fire.
    HandlingFactor = 21,
    /// The factor on every response of a fire.
    ResponseFactor = 22,
    /// The factor on the handling of one crew.
    CrewFactor = 23,
    /// Whether a unit comes at all.
    Turnout = 24,
    /// Whether the drafting pump or a fill site fails.
    Failure = 25,
    /// When in the watch it fails.
    FailureMoment = 26,
    /// What an input may be, where it rests on readings or a guess; never drawn within a run.
    Input = 27,
}
