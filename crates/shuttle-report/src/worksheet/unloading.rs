//! Where loads come off, by hand.

/// Where loads come off at the scene.
#[derive(Debug, Clone, PartialEq)]
pub struct Unloading {
    /// Loads that come off at once.
    pub positions: f64,
    /// Most that is drawn from there, whoever comes, gpm; infinite where nothing limits.
    pub draft_gpm: f64,
    /// By tanker.
    pub loads: Vec<Unloaded>,
}

/// A load that comes off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unloaded {
    /// Gallons that are counted.
    pub gallons: f64,
    /// Minutes for which it holds a place.
    pub minutes: f64,
}

impl Unloading {
    /// Positions x the sum of loads / the sum of minutes, over the tankers that drive, gpm; infinite where none does.
    pub fn positions_gpm(&self, drives: impl Fn(usize) -> bool) -> f64 {
        let (mut gallons, mut minutes) = (0.0, 0.0);
        for (_, load) in self.loads.iter().enumerate().filter(|(tanker, _)| drives(*tanker)) {
            gallons += load.gallons;
            minutes += load.minutes;
        }
        if minutes > 0.0 { self.positions * gallons / minutes } else { f64::INFINITY }
    }
}
