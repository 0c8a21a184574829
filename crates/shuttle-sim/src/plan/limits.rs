//! What may be stated at all: a range for each kind of number, in the model's units.
//!
//! Generous on purpose: they catch a slip of the finger and values that no fire ground knows, not
//! an unusual plan. All are judgement unless a source is named.

use std::fmt;
use std::ops::{Bound, RangeBounds};

/// A range, each end with whether it belongs to it. `RangeBounds::contains` tries a value.
pub type Bounds = (Bound<f64>, Bound<f64>);

/// A range that a number must lie in, with its unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Limit {
    /// The range.
    pub(crate) bounds: Bounds,
    /// `"gal"`, `"gpm"`, `"min"`, `"mi"` or nothing.
    pub(crate) unit: &'static str,
}

impl Limit {
    const fn new(low: Bound<f64>, high: Bound<f64>, unit: &'static str) -> Limit {
        Limit { bounds: (low, high), unit }
    }

    const fn from_to(low: f64, high: f64, unit: &'static str) -> Limit {
        Limit::new(Bound::Included(low), Bound::Included(high), unit)
    }

    const fn above_to(low: f64, high: f64, unit: &'static str) -> Limit {
        Limit::new(Bound::Excluded(low), Bound::Included(high), unit)
    }

    /// Whether the value is finite and in the range.
    pub(crate) fn allows(&self, value: f64) -> bool {
        value.is_finite() && self.bounds.contains(&value)
    }
}

/// "from 100 to 50,000 gal", "above 0, up to 100,000 gpm", "from 0 to below 1".
impl fmt::Display for Limit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (low, to) = match self.bounds.0 {
            Bound::Included(low) => (format!("from {}", plain(low)), "to"),
            Bound::Excluded(low) => (format!("above {},", plain(low)), "up to"),
            Bound::Unbounded => (String::new(), "up to"),
        };
        let (high, to) = match self.bounds.1 {
            Bound::Included(high) => (with_unit(high, self.unit), to),
            Bound::Excluded(high) => (with_unit(high, self.unit), "to below"),
            Bound::Unbounded => return write!(f, "{low}"),
        };
        write!(f, "{low} {to} {high}")
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
    tankers: TANKERS,
    places: PLACES,
    steps: STEPS,
    samples: SAMPLES,
    name_length: NAME_LENGTH,
};

/// Time: any duration, request or readiness. A week is 10,080 minutes.
pub(crate) const MINUTES: Limit = Limit::from_to(0.0, 10_000.0, "min");
/// The time watched.
pub(crate) const WATCHED: Limit = Limit::above_to(0.0, 100_000.0, "min");
/// When a step of the attack flow begins.
pub(crate) const STEP_FROM: Limit = Limit::from_to(0.0, 100_000.0, "min");
/// A rate that may be nothing: a lull in the attack flow, no refill, no recharge.
pub(crate) const FLOW: Limit = Limit::from_to(0.0, 100_000.0, "gpm");
/// A rate at which water must move, or it would never end.
pub(crate) const RATE: Limit = Limit::above_to(0.0, 100_000.0, "gpm");
/// A tanker or a drop tank.
pub(crate) const CAPACITY: Limit = Limit::from_to(100.0, 50_000.0, "gal");
/// The attack engine's own tank.
pub(crate) const ENGINE_TANK: Limit = Limit::above_to(0.0, 50_000.0, "gal");
/// A part of a tank: reserve, unusable water, restart level.
pub(crate) const LEVEL: Limit = Limit::from_to(0.0, 50_000.0, "gal");
/// Water that a lay holds.
pub(crate) const LAY_VOLUME: Limit = Limit::from_to(0.0, 100_000.0, "gal");
/// Water at a fill site that can run out.
pub(crate) const SITE_VOLUME: Limit = Limit::above_to(0.0, 1_000_000_000.0, "gal");
/// One way along the road.
pub(crate) const MILES: Limit = Limit::above_to(0.0, 500.0, "mi");
/// Positions and intakes.
pub(crate) const COUNT: Limit = Limit::from_to(1.0, 1_000.0, "");
/// A share of which something must be left.
pub(crate) const SHARE: Limit = Limit::new(Bound::Included(0.0), Bound::Excluded(1.0), "");
/// A chance.
pub(crate) const CHANCE: Limit = Limit::from_to(0.0, 1.0, "");
/// Standard deviation divided by the mean.
pub(crate) const CV: Limit = Limit::from_to(0.0, 5.0, "");
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

/// A number as people write it: thousands separated, at most four significant decimals.
pub(crate) fn plain(value: f64) -> String {
    if !value.is_finite() {
        return if value.is_nan() { "not a number".to_string() } else { "infinite".to_string() };
    }
    let size = value.abs();
    if size >= 1e12 || (size > 0.0 && size < 1e-4) {
        return format!("{value:e}");
    }
    let text = format!("{size:.4}");
    let (whole, decimals) = text.split_once('.').unwrap_or((&text, ""));
    let mut grouped = String::new();
    for (index, digit) in whole.chars().enumerate() {
        if index > 0 && (whole.len() - index).is_multiple_of(3) {
            grouped.push(',');
        }
        grouped.push(digit);
    }
    let decimals = decimals.trim_end_matches('0');
    let sign = if value < 0.0 { "-" } else { "" };
    if decimals.is_empty() {
        format!("{sign}{grouped}")
    } else {
        format!("{sign}{grouped}.{decimals}")
    }
}

/// The number with its unit, if it has one.
pub(crate) fn with_unit(value: f64, unit: &str) -> String {
    if unit.is_empty() { plain(value) } else { format!("{} {unit}", plain(value)) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_read_as_people_write_them() {
        let rows = [
            (0.0, "0"),
            (-5.0, "-5"),
            (1234567.0, "1,234,567"),
            (100.25, "100.25"),
            (0.1, "0.1"),
            (1e300, "1e300"),
            (f64::NAN, "not a number"),
        ];
        for (value, expected) in rows {
            assert_eq!(plain(value), expected);
        }
    }

    #[test]
    fn a_limit_says_which_of_its_ends_belong_to_it() {
        assert_eq!(RATE.to_string(), "above 0, up to 100,000 gpm");
        assert_eq!(CAPACITY.to_string(), "from 100 to 50,000 gal");
        assert_eq!(SHARE.to_string(), "from 0 to below 1");
        assert!(!RATE.allows(0.0) && RATE.allows(100_000.0));
        assert!(SHARE.allows(0.0) && !SHARE.allows(1.0));
        assert!(!MINUTES.allows(f64::NAN) && !MINUTES.allows(f64::INFINITY));
    }
}
