//! Why an interruption began, and what held within its cause.

/// Why an interruption began: where the water was, the first of these that held at that moment.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
#[repr(usize)]
pub enum Cause {
    /// No water on scene but the engine's own, and some unit or drop tank was still to come.
    NotCome = 0,
    /// Water on scene, and the pump not yet hooked up or waiting for its restart level.
    DraftNotUp,
    /// The drafting pump had failed.
    PumpFailed,
    /// The pump drew, and the drop tank had water, but not fast enough for the lines.
    DraftOrLayTooSmall,
    /// The pump had lost its prime.
    PrimeLost,
    /// A tanker waited for a source that was not ready, had run down or had failed.
    SourceNotReady,
    /// A tanker waited for a place at a fill site.
    FillSiteQueue,
    /// A loaded tanker waited at the scene for a place or for room.
    DumpSiteQueue,
    /// A tanker was out of service.
    OutOfService,
    /// Every tanker was moving: the haul is too long for the tankers there are.
    HaulTooLong,
}

impl Cause {
    /// All causes, in the order they are asked about.
    pub const ALL: [Cause; 10] = [
        Cause::NotCome,
        Cause::DraftNotUp,
        Cause::PumpFailed,
        Cause::DraftOrLayTooSmall,
        Cause::PrimeLost,
        Cause::SourceNotReady,
        Cause::FillSiteQueue,
        Cause::DumpSiteQueue,
        Cause::OutOfService,
        Cause::HaulTooLong,
    ];

    /// The cause as a key of the result format.
    pub fn key(self) -> &'static str {
        match self {
            Cause::NotCome => "not_come",
            Cause::DraftNotUp => "draft_not_up",
            Cause::PumpFailed => "pump_failed",
            Cause::DraftOrLayTooSmall => "draft_or_lay_too_small",
            Cause::PrimeLost => "prime_lost",
            Cause::SourceNotReady => "source_not_ready",
            Cause::FillSiteQueue => "fill_site_queue",
            Cause::DumpSiteQueue => "dump_site_queue",
            Cause::OutOfService => "out_of_service",
            Cause::HaulTooLong => "haul_too_long",
        }
    }
}

/// What held within a cause when an interruption began: which of the things that the cause sums up, and so which
/// cure. The first that holds, in this order, of those of the cause.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
#[repr(usize)]
pub enum CauseKind {
    /// Of [`Cause::DraftNotUp`]: a loaded tanker waited, or stood at a full drop tank, while an intake of the attack
    /// engine was free.
    IntakeFree = 0,
    /// Of [`Cause::DraftNotUp`]: the pump, or the drop tank it stands in, was still to come.
    DraftToCome,
    /// Of [`Cause::DraftNotUp`]: both were there, and the drop tank was being set up or the draft hooked up.
    SettingUp,
    /// Of [`Cause::DraftNotUp`]: hooked up, and the drop tank did not hold the restart level.
    BelowRestartLevel,
    /// Of [`Cause::DraftOrLayTooSmall`]: the dry lay was still filling.
    LayFilling,
    /// Of [`Cause::DraftOrLayTooSmall`]: pump and lay gave all they can.
    AtItsLimit,
    /// Of [`Cause::SourceNotReady`]: no site could serve a tanker, which stood by.
    NoneLeft,
    /// Of [`Cause::SourceNotReady`]: the site had failed.
    SourceFailed,
    /// Of [`Cause::SourceNotReady`]: the pump that someone brings there was still to come or to be set up.
    PumpToCome,
    /// Of [`Cause::SourceNotReady`]: it was not ready yet.
    NotReadyYet,
    /// Of [`Cause::SourceNotReady`]: it had run down.
    RunDown,
    /// Of [`Cause::DumpSiteQueue`]: a tanker stood at a full drop tank and waited for room.
    AtFullTank,
    /// Of [`Cause::DumpSiteQueue`]: a place was free, but no drop tank took the whole load of who came next.
    NoRoom,
    /// Of [`Cause::DumpSiteQueue`]: every place was taken.
    NoPlace,
    /// Of [`Cause::OutOfService`]: it was being repaired.
    InRepair,
    /// Of [`Cause::OutOfService`]: it was out for good.
    OutForGood,
}

impl CauseKind {
    /// All, in the order they are asked about.
    pub const ALL: [CauseKind; 16] = [
        CauseKind::IntakeFree,
        CauseKind::DraftToCome,
        CauseKind::SettingUp,
        CauseKind::BelowRestartLevel,
        CauseKind::LayFilling,
        CauseKind::AtItsLimit,
        CauseKind::NoneLeft,
        CauseKind::SourceFailed,
        CauseKind::PumpToCome,
        CauseKind::NotReadyYet,
        CauseKind::RunDown,
        CauseKind::AtFullTank,
        CauseKind::NoRoom,
        CauseKind::NoPlace,
        CauseKind::InRepair,
        CauseKind::OutForGood,
    ];

    /// The cause it is of.
    pub fn cause(self) -> Cause {
        match self {
            CauseKind::IntakeFree
            | CauseKind::DraftToCome
            | CauseKind::SettingUp
            | CauseKind::BelowRestartLevel => Cause::DraftNotUp,
            CauseKind::LayFilling | CauseKind::AtItsLimit => Cause::DraftOrLayTooSmall,
            CauseKind::NoneLeft
            | CauseKind::SourceFailed
            | CauseKind::PumpToCome
            | CauseKind::NotReadyYet
            | CauseKind::RunDown => Cause::SourceNotReady,
            CauseKind::AtFullTank | CauseKind::NoRoom | CauseKind::NoPlace => Cause::DumpSiteQueue,
            CauseKind::InRepair | CauseKind::OutForGood => Cause::OutOfService,
        }
    }

    /// As a key of the result format.
    pub fn key(self) -> &'static str {
        match self {
            CauseKind::IntakeFree => "intake_free",
            CauseKind::DraftToCome => "draft_to_come",
            CauseKind::SettingUp => "setting_up",
            CauseKind::BelowRestartLevel => "below_restart_level",
            CauseKind::LayFilling => "lay_filling",
            CauseKind::AtItsLimit => "at_its_limit",
            CauseKind::NoneLeft => "none_left",
            CauseKind::SourceFailed => "source_failed",
            CauseKind::PumpToCome => "pump_to_come",
            CauseKind::NotReadyYet => "not_ready_yet",
            CauseKind::RunDown => "run_down",
            CauseKind::AtFullTank => "at_full_tank",
            CauseKind::NoRoom => "no_room",
            CauseKind::NoPlace => "no_place",
            CauseKind::InRepair => "in_repair",
            CauseKind::OutForGood => "out_for_good",
        }
    }
}
