//! What may be stated at all: a range for each kind of number, in the model's units.
//!
//! Generous on purpose: they catch a slip of the finger and values that no fire ground knows, not
//! an unusual plan. All are judgement unless a source is named.

use std::ops::{Bound, RangeBounds};

/// A range, each end with whether it belongs to it. `RangeBounds::contains` tries a value.
pub type Bounds = (Bound<f64>, Bound<f64>);

/// What a number measures, in the model's units: gallons, gallons a minute, minutes, miles.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Measure {
    /// Water.
    Volume,
    /// Water by time.
    Flow,
    /// Time.
    Time,
    /// Road.
    Distance,
    /// How many.
    Count,
    /// A share or chance.
    Share,
    /// Anything else without a unit.
    Plain,
}

/// A range that a number must lie in, with what the number measures.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Limit {
    /// The range.
    pub(crate) bounds: Bounds,
    /// What it measures.
    pub(crate) measure: Measure,
}

impl Limit {
    const fn new(low: Bound<f64>, high: Bound<f64>, measure: Measure) -> Limit {
        Limit { bounds: (low, high), measure }
    }

    const fn from_to(low: f64, high: f64, measure: Measure) -> Limit {
        Limit::new(Bound::Included(low), Bound::Included(high), measure)
    }

    const fn above_to(low: f64, high: f64, measure: Measure) -> Limit {
        Limit::new(Bound::Excluded(low), Bound::Included(high), measure)
    }

    /// Whether the value is finite and in the range.
    pub(crate) fn allows(&self, value: f64) -> bool {
        value.is_finite() && self.bounds.contains(&value)
    }

    /// The value itself if it is allowed, else the nearest that is, or one hardly further in.
    pub(crate) fn nearest(&self, value: f64) -> f64 {
        let hair = |end: f64| 1e-6 * end.abs().max(1.0);
        let low = match self.bounds.0 {
            Bound::Included(low) => low,
            Bound::Excluded(low) => low + hair(low),
            Bound::Unbounded => f64::NEG_INFINITY,
        };
        let high = match self.bounds.1 {
            Bound::Included(high) => high,
            Bound::Excluded(high) => high - hair(high),
            Bound::Unbounded => f64::INFINITY,
        };
        if self.allows(value) { value } else { value.max(low).min(high) }
    }
}

/// The limits on what a plan may state, for whoever reads a plan from elsewhere and wants to say
/// early, in its own words, what is out of range.
#[derive(Debug, Clone, Copy)]
pub struct Limits {
    /// Any duration, request or readiness, minutes.
    pub minutes: Bounds,
    /// The time watched, minutes.
    pub watched: Bounds,
    /// When a step of the attack flow begins, minutes.
    pub step_from: Bounds,
    /// A rate that may be nothing: a lull in the attack flow, no refill, no recharge, gpm.
    pub flow: Bounds,
    /// A rate at which water must move, gpm.
    pub rate: Bounds,
    /// Capacity of a tanker or a drop tank, gal.
    pub capacity: Bounds,
    /// The attack engine's own tank, gal.
    pub engine_tank: Bounds,
    /// A part of a tank: reserve, unusable water, restart level, gal.
    pub level: Bounds,
    /// Water at a fill site that can run out, gal.
    pub site_volume: Bounds,
    /// One way along the road, miles.
    pub miles: Bounds,
    /// Positions and intakes.
    pub count: Bounds,
    /// A share of which something must be left.
    pub share: Bounds,
    /// A chance.
    pub chance: Bounds,
    /// Standard deviation divided by the mean.
    pub cv: Bounds,
    /// How long a tanker drives, beside the times of the roads.
    pub drive_factor: Bounds,
    /// Most tankers in all, groups spelled out.
    pub tankers: usize,
    /// Most drop tanks, fill sites, or one-lane stretches.
    pub places: usize,
    /// Most steps of the attack flow.
    pub steps: usize,
    /// Most samples of one duration.
    pub samples: usize,
    /// Most characters of a name or title.
    pub name_length: usize,
}

/// What a plan may state.
pub(crate) const LIMITS: Limits = Limits {
    minutes: MINUTES.bounds,
    watched: WATCHED.bounds,
    step_from: STEP_FROM.bounds,
    flow: FLOW.bounds,
    rate: RATE.bounds,
    capacity: CAPACITY.bounds,
    engine_tank: ENGINE_TANK.bounds,
    level: LEVEL.bounds,
    site_volume: SITE_VOLUME.bounds,
    miles: MILES.bounds,
    count: COUNT.bounds,
    share: SHARE.bounds,
    chance: CHANCE.bounds,
    cv: CV.bounds,
    drive_factor: DRIVE_FACTOR.bounds,
    tankers: TANKERS,
    places: PLACES,
    steps: STEPS,
    samples: SAMPLES,
    name_length: NAME_LENGTH,
};

/// Time: any duration, request or readiness. A week is 10,080 minutes.
pub(crate) const MINUTES: Limit = Limit::from_to(0.0, MOST_MINUTES, Measure::Time);
/// The longest time that may be stated, minutes.
pub(crate) const MOST_MINUTES: f64 = 10_000.0;
/// The time watched.
pub(crate) const WATCHED: Limit = Limit::above_to(0.0, 100_000.0, Measure::Time);
/// When a step of the attack flow begins.
pub(crate) const STEP_FROM: Limit = Limit::from_to(0.0, 100_000.0, Measure::Time);
/// A rate that may be nothing: a lull in the attack flow, no refill, no recharge.
pub(crate) const FLOW: Limit = Limit::from_to(0.0, 100_000.0, Measure::Flow);
/// A rate at which water must move, or it would never end: a tap gives more than the least of it.
pub(crate) const RATE: Limit = Limit::from_to(1.0, 100_000.0, Measure::Flow);
/// What a drop tank passes on: next to nothing is allowed, as when its siphon is left out.
pub(crate) const TRANSFER: Limit = Limit::above_to(0.0, 100_000.0, Measure::Flow);
/// A tanker or a drop tank.
pub(crate) const CAPACITY: Limit = Limit::from_to(100.0, 50_000.0, Measure::Volume);
/// The attack engine's own tank.
pub(crate) const ENGINE_TANK: Limit = Limit::above_to(0.0, 50_000.0, Measure::Volume);
/// A part of a tank: reserve, unusable water, restart level.
pub(crate) const LEVEL: Limit = Limit::from_to(0.0, 50_000.0, Measure::Volume);
/// Water that a lay holds.
pub(crate) const LAY_VOLUME: Limit = Limit::from_to(0.0, 100_000.0, Measure::Volume);
/// Water at a fill site that can run out.
pub(crate) const SITE_VOLUME: Limit = Limit::above_to(0.0, 1_000_000_000.0, Measure::Volume);
/// One way along the road.
pub(crate) const MILES: Limit = Limit::above_to(0.0, 500.0, Measure::Distance);
/// The least mean time of a leg, minutes: a tanker that is everywhere at once drives without end.
pub(crate) const LEAST_LEG: f64 = 0.01;
/// Positions and intakes.
pub(crate) const COUNT: Limit = Limit::from_to(1.0, 1_000.0, Measure::Count);
/// A share of which something must be left.
pub(crate) const SHARE: Limit =
    Limit::new(Bound::Included(0.0), Bound::Excluded(1.0), Measure::Share);
/// A chance.
pub(crate) const CHANCE: Limit = Limit::from_to(0.0, 1.0, Measure::Share);
/// Standard deviation divided by the mean.
pub(crate) const CV: Limit = Limit::from_to(0.0, 5.0, Measure::Plain);
/// How long a tanker drives, beside the times of the roads. Judgement: beyond it the roads are another's.
pub(crate) const DRIVE_FACTOR: Limit = Limit::from_to(0.5, 3.0, Measure::Plain);
/// Work in one run: trips, each times what a tanker may choose from (fill sites, drop tanks) and a share of its
/// own. Measured: about a microsecond each, so that a run ends within seconds.
pub(crate) const WORK: f64 = 1_500_000.0;
/// A trip is at least as much work as choosing among so many places.
pub(crate) const WORK_OF_A_TRIP: f64 = 10.0;
/// Tankers in all, groups spelled out.
pub(crate) const TANKERS: usize = 1_000;
/// Drop tanks, fill sites, or one-lane stretches.
pub(crate) const PLACES: usize = 100;
/// Steps of the attack flow.
pub(crate) const STEPS: usize = 1_000;
/// Samples of one duration.
pub(crate) const SAMPLES: usize = 10_000;
/// Characters of a name or title.
pub(crate) const NAME_LENGTH: usize = 200;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_limit_knows_which_of_its_ends_belong_to_it() {
        assert!(!RATE.allows(0.0) && !RATE.allows(5e-324) && RATE.allows(1.0));
        assert!(!ENGINE_TANK.allows(0.0) && ENGINE_TANK.allows(50_000.0));
        assert!(SHARE.allows(0.0) && !SHARE.allows(1.0));
        assert!(!MINUTES.allows(f64::NAN) && !MINUTES.allows(f64::INFINITY));
    }

    #[test]
    fn the_nearest_value_is_allowed() {
        for (limit, given, nearest) in [
            (RATE, 0.2, 1.0),
            (RATE, 500.0, 500.0),
            (CV, 7.0, 5.0),
            (MINUTES, f64::INFINITY, 10_000.0),
            (SHARE, 1.3, 0.999_999),
            (TRANSFER, 0.0, 1e-6),
        ] {
            let got = limit.nearest(given);
            assert!(limit.allows(got) && (got - nearest).abs() < 1e-9, "{given}: {got}");
        }
    }
}
