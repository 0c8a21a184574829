//! What may be stated at all: a range for each kind of number, in the model's units.
//!
//! Generous on purpose: they catch a slip of the finger and values that no fire ground knows, not
//! an unusual plan. All are judgement unless a source is named.

use std::fmt;

/// A range that a number must lie in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limit {
    /// The lower end.
    pub low: f64,
    /// Whether the lower end itself is too low.
    pub above_low: bool,
    /// The upper end.
    pub high: f64,
    /// Whether the upper end itself is too high.
    pub below_high: bool,
    /// `"gal"`, `"gpm"`, `"min"`, `"mi"` or nothing.
    pub unit: &'static str,
}

impl Limit {
    /// Both ends allowed.
    pub const fn from_to(low: f64, high: f64, unit: &'static str) -> Limit {
        Limit {
            low,
            above_low: false,
            high,
            below_high: false,
            unit,
        }
    }

    /// The lower end itself too low, the upper end allowed.
    pub const fn above_to(low: f64, high: f64, unit: &'static str) -> Limit {
        Limit {
            above_low: true,
            ..Limit::from_to(low, high, unit)
        }
    }

    /// Whether the value is finite and in the range.
    pub fn allows(&self, value: f64) -> bool {
        let low_enough = if self.below_high {
            value < self.high
        } else {
            value <= self.high
        };
        let high_enough = if self.above_low {
            value > self.low
        } else {
            value >= self.low
        };
        value.is_finite() && low_enough && high_enough
    }
}

/// "from 100 to 50,000 gal", "above 0, up to 100,000 gpm", "from 0 to below 1".
impl fmt::Display for Limit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let low = if self.above_low {
            format!("above {},", plain(self.low))
        } else {
            format!("from {}", plain(self.low))
        };
        let high = match (self.above_low, self.below_high) {
            (true, false) => "up to",
            (false, false) => "to",
            (_, true) => "to below",
        };
        write!(f, "{low} {high} {}", with_unit(self.high, self.unit))
    }
}

/// Time: any duration, request or readiness. A week is 10,080 minutes.
pub const MINUTES: Limit = Limit::from_to(0.0, 10_000.0, "min");
/// The time watched.
pub const WATCHED: Limit = Limit::above_to(0.0, 100_000.0, "min");
/// When a step of the attack flow begins.
pub const STEP_FROM: Limit = Limit::from_to(0.0, 100_000.0, "min");
/// A rate that may be nothing: a lull in the attack flow, no refill, no recharge.
pub const FLOW: Limit = Limit::from_to(0.0, 100_000.0, "gpm");
/// A rate at which water must move, or it would never end.
pub const RATE: Limit = Limit::above_to(0.0, 100_000.0, "gpm");
/// A tanker or a drop tank.
pub const CAPACITY: Limit = Limit::from_to(100.0, 50_000.0, "gal");
/// The attack engine's own tank.
pub const ENGINE_TANK: Limit = Limit::above_to(0.0, 50_000.0, "gal");
/// A part of a tank: reserve, unusable water, restart level.
pub const LEVEL: Limit = Limit::from_to(0.0, 50_000.0, "gal");
/// Water that a lay holds.
pub const LAY_VOLUME: Limit = Limit::from_to(0.0, 100_000.0, "gal");
/// Water at a fill site that can run out.
pub const SITE_VOLUME: Limit = Limit::above_to(0.0, 1_000_000_000.0, "gal");
/// One way along the road.
pub const MILES: Limit = Limit::above_to(0.0, 500.0, "mi");
/// Positions and intakes.
pub const COUNT: Limit = Limit::from_to(1.0, 1_000.0, "");
/// A share of which something must be left.
pub const SHARE: Limit = Limit {
    below_high: true,
    ..Limit::from_to(0.0, 1.0, "")
};
/// A chance.
pub const CHANCE: Limit = Limit::from_to(0.0, 1.0, "");
/// Standard deviation divided by the mean.
pub const CV: Limit = Limit::from_to(0.0, 5.0, "");
/// Tankers in all, groups spelled out.
pub const TANKERS: usize = 1_000;
/// Drop tanks, fill sites, or one-lane stretches.
pub const PLACES: usize = 100;
/// Steps of the attack flow.
pub const STEPS: usize = 1_000;
/// Samples of one duration.
pub const SAMPLES: usize = 10_000;
/// Characters of a name or title.
pub const NAME_LENGTH: usize = 200;

/// A number as people write it: thousands separated, at most four significant decimals.
pub(crate) fn plain(value: f64) -> String {
    if !value.is_finite() {
        return if value.is_nan() {
            "not a number".to_string()
        } else {
            "infinite".to_string()
        };
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
    if unit.is_empty() {
        plain(value)
    } else {
        format!("{} {unit}", plain(value))
    }
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
