//! How units are called, and what brings what does not come by itself.

use super::time_taken::TimeTaken;

/// When a unit is asked for, how long it takes to reach the scene, and whether it comes at all.
#[derive(Debug, Clone, PartialEq)]
pub struct Call {
    /// Minutes after the alarm.
    pub requested_at: f64,
    /// Minutes from the request to arrival at the scene.
    pub response: TimeTaken,
    /// Chance that it comes at all, 0 to 1; the attack engine always does.
    pub turnout: f64,
}

/// What brings a drop tank to the scene.
#[derive(Debug, Clone, PartialEq)]
pub enum Brought {
    /// The tanker with this place in the list.
    ByTanker(usize),
    /// The attack engine.
    ByAttackEngine,
    /// The supply engine.
    BySupplyEngine,
    /// Its own vehicle.
    Itself(Call),
}

impl Call {
    /// Asked for then, and sure to come.
    pub fn sure(requested_at: f64, response: TimeTaken) -> Call {
        Call { requested_at, response, turnout: 1.0 }
    }
}
