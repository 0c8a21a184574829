//! Flows that change along a straight line between events, and when a level meets a bound.
//!
//! Nearly every flow is constant between events. A tanker dumping by gravity is not: its flow falls
//! along a straight line in time, so levels are parabolas and crossings are roots of a quadratic.

use crate::time::Moment;

/// Rates closer than this are the same rate, gpm.
pub(crate) const SAME_RATE: f64 = 1e-9;

/// Levels closer than this are one level, gal: far above rounding, far below any meaning.
pub(crate) const SAME_LEVEL: f64 = 1e-6;

/// The least time after which a flow changes its course, minutes: time always goes on.
pub(crate) const LEAST_TURN: f64 = 2e-9;

/// A flow now, and how fast it changes: gpm and gpm per minute.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) struct Flow {
    pub rate: f64,
    pub slope: f64,
}

impl Flow {
    pub const NONE: Flow = Flow { rate: 0.0, slope: 0.0 };

    pub fn steady(rate: f64) -> Flow {
        Flow { rate, slope: 0.0 }
    }

    /// What passes in the next `minutes`, gal.
    pub fn over(self, minutes: f64) -> f64 {
        (self.rate + 0.5 * self.slope * minutes) * minutes
    }

    /// The same flow as it is `minutes` later.
    pub fn after(self, minutes: f64) -> Flow {
        Flow { rate: self.rate + self.slope * minutes, slope: self.slope }
    }

    pub fn times(self, share: f64) -> Flow {
        Flow { rate: self.rate * share, slope: self.slope * share }
    }

    /// Whether it stays at nothing, but for rounding.
    pub fn passes_nothing(self) -> bool {
        self.slope == 0.0 && self.rate.abs() <= SAME_RATE
    }

    /// Minutes until `volume` has passed; infinite if it never does. A negative volume is reached
    /// by a negative flow.
    #[inline]
    pub fn minutes_to_pass(self, volume: f64) -> f64 {
        if self.slope == 0.0 {
            // Asked before dividing, which takes longer than all else here.
            let passes = self.rate.abs() > SAME_RATE && volume * self.rate > 0.0;
            return if passes { volume / self.rate } else { f64::INFINITY };
        }
        // A rate within rounding of zero is zero: else a level at its bound would meet it again at
        // once, for ever.
        let rate = if self.rate.abs() > SAME_RATE { self.rate } else { 0.0 };
        // slope/2 t^2 + rate t - volume = 0, solved without cancellation.
        let discriminant = rate * rate + 2.0 * self.slope * volume;
        if discriminant < 0.0 {
            return f64::INFINITY;
        }
        let q = -(rate + discriminant.sqrt().copysign(rate));
        let roots = [q / self.slope, -2.0 * volume / q];
        (roots.into_iter().filter(|root| *root > 0.0)).fold(f64::INFINITY, f64::min)
    }

    /// When a level that changes so first meets one of two bounds, and which; never, if it does not.
    /// `left` says how much is left to a bound.
    #[inline]
    pub fn meets(
        self,
        now: Moment,
        up: f64,
        down: f64,
        left: impl Fn(f64) -> f64,
    ) -> (Moment, f64) {
        let at = |bound: f64| (now.after(self.minutes_to_pass(left(bound))), bound);
        if self.slope == 0.0 {
            // Only the one it moves toward.
            return at(if self.rate > 0.0 { up } else { down });
        }
        let (first, other) = (at(up), at(down));
        if other.0 < first.0 { other } else { first }
    }

    /// Whether this is below the other, now or from now on.
    pub fn is_below(self, other: Flow) -> bool {
        let gap = other.rate - self.rate;
        gap > SAME_RATE || (gap > -SAME_RATE && self.slope < other.slope)
    }

    /// Whether this is the lesser from now on, at least for a while.
    fn is_less_than(self, other: Flow) -> bool {
        let gap = other.rate - self.rate;
        if gap.abs() <= SAME_RATE { self.slope <= other.slope } else { gap > 0.0 }
    }
}

impl std::ops::Add for Flow {
    type Output = Flow;
    fn add(self, other: Flow) -> Flow {
        Flow { rate: self.rate + other.rate, slope: self.slope + other.slope }
    }
}

impl std::ops::Sub for Flow {
    type Output = Flow;
    fn sub(self, other: Flow) -> Flow {
        Flow { rate: self.rate - other.rate, slope: self.slope - other.slope }
    }
}

/// The lesser of two flows; `holds_for` is lowered to the minutes until the other becomes the lesser.
pub(crate) fn lesser(a: Flow, b: Flow, holds_for: &mut f64) -> Flow {
    let (less, more) = if a.is_less_than(b) { (a, b) } else { (b, a) };
    let closing = less.slope - more.slope;
    if closing > 0.0 {
        let gap = more.rate - less.rate;
        if gap > SAME_RATE {
            *holds_for = holds_for.min(gap / closing);
        }
    }
    less
}

/// Whether `a` is below `b`, now or from now on; `holds_for` is lowered to when that changes.
pub(crate) fn falls_short(a: Flow, b: Flow, holds_for: &mut f64) -> bool {
    lesser(a, b, holds_for);
    a.is_below(b)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_volume_is_passed_when_the_integral_says_so() {
        for (rate, slope, volume) in [
            (500.0, 0.0, 1000.0),
            (500.0, -20.0, 1000.0),
            (-500.0, 20.0, -1000.0),
            (0.0, 30.0, 60.0),
            (-10.0, 4.0, 5.0),
        ] {
            let flow = Flow { rate, slope };
            let minutes = flow.minutes_to_pass(volume);
            assert!((flow.over(minutes) - volume).abs() < 1e-9, "{flow:?}");
        }
        let falling = Flow { rate: 100.0, slope: -10.0 };
        assert_eq!(falling.minutes_to_pass(501.0), f64::INFINITY);
        assert_eq!(Flow::steady(-5.0).minutes_to_pass(3.0), f64::INFINITY);
    }

    #[test]
    fn the_lesser_flow_holds_until_the_lines_cross() {
        let mut holds_for = f64::INFINITY;
        let falling = Flow { rate: 600.0, slope: -50.0 };
        let less = lesser(falling, Flow::steady(500.0), &mut holds_for);
        assert_eq!(less.rate, 500.0);
        assert!((holds_for - 2.0).abs() < 1e-12);
    }
}
