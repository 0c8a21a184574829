//! Luck that is drawn once a fire: what a bad night spoils for everyone, and what gives out for a while or for
//! good. Independent draws average out over a night; these do not.

use super::time_taken::TimeTaken;

/// How much whole fires differ: coefficients of variation of three factors with mean 1.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct WholeFire {
    /// Of the factor on every driving time: snow, fog, a detour.
    pub driving_cv: f64,
    /// Of the factor on every handling time: cold, darkness, mud.
    pub handling_cv: f64,
    /// Of the factor on every response: the hour, the day of the week.
    pub response_cv: f64,
}

/// Something that may give out in the course of the watch, once.
#[derive(Debug, Clone, PartialEq)]
pub struct Failure {
    /// Chance that it does, 0 to 1.
    pub chance: f64,
    /// Minutes until it works again; `None`: it is down for good.
    pub repair: Option<TimeTaken>,
}

impl WholeFire {
    /// Each coefficient of variation with its key.
    pub fn each(&self) -> [(&'static str, f64); 3] {
        [
            ("driving_cv", self.driving_cv),
            ("handling_cv", self.handling_cv),
            ("response_cv", self.response_cv),
        ]
    }
}
