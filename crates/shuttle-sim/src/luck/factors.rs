//! The factors that a whole fire shares, and which of them a duration takes.

use super::purpose::Purpose;

/// What kind of work a duration is.
#[derive(Debug, Clone, Copy)]
#[repr(usize)]
enum Work {
    Driving = 0,
    Handling,
    Response,
    /// Repairs, and a site's readiness: no factor touches them.
    Other,
}

/// What one fire multiplies durations by, work by work.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Factors([f64; 4]);

impl Factors {
    /// Nothing is changed, to the last bit.
    pub const NONE: Factors = Factors([1.0; 4]);

    pub fn new(driving: f64, handling: f64, response: f64) -> Factors {
        let mut factors = Factors::NONE;
        factors.0[Work::Driving as usize] = driving;
        factors.0[Work::Handling as usize] = handling;
        factors.0[Work::Response as usize] = response;
        factors
    }

    /// The same with one more factor on handling: that of one crew.
    pub fn with_crew(mut self, crew: f64) -> Factors {
        self.0[Work::Handling as usize] *= crew;
        self
    }

    /// What a duration drawn for this is multiplied by.
    #[inline]
    pub fn on(&self, purpose: Purpose) -> f64 {
        self.0[work_of(purpose) as usize]
    }
}

#[inline]
fn work_of(purpose: Purpose) -> Work {
    match purpose {
        Purpose::Response => Work::Response,
        Purpose::TravelOut
        | Purpose::TravelBack
        | Purpose::CrossSceneOut
        | Purpose::CrossSiteOut
        | Purpose::CrossSiteBack
        | Purpose::CrossSceneBack => Work::Driving,
        Purpose::WaterOn
        | Purpose::Setup
        | Purpose::Reprime
        | Purpose::FillConnect
        | Purpose::FillDisconnect
        | Purpose::DumpPosition
        | Purpose::DumpClear
        | Purpose::NurseConnect
        | Purpose::NurseDisconnect => Work::Handling,
        Purpose::Ready
        | Purpose::Breakdown
        | Purpose::Repair
        | Purpose::DrivingFactor
        | Purpose::HandlingFactor
        | Purpose::ResponseFactor
        | Purpose::CrewFactor
        | Purpose::Turnout
        | Purpose::Failure
        | Purpose::FailureMoment
        | Purpose::Input => Work::Other,
    }
}
