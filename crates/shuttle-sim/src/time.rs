//! Time in a run: whole ticks of 10 nanoseconds.
//!
//! Sums of whole ticks are exact in any order. So what is due at one time is due at the same moment to
//! the bit, however its time came about. Every time that people state, to a millionth of a second, is a whole
//! number of ticks; half a tick at 1,000 gpm is a ten-millionth of a gallon.

use std::ops::{Add, AddAssign};

/// Ticks in a minute.
const A_MINUTE: f64 = 6e9;

/// 2^52: added to a number from 0 to itself it leaves the nearest whole number in the lowest bits. There is no
/// quicker way to round without asking for a newer processor.
const TWO_TO_52: f64 = 4_503_599_627_370_496.0;

/// A length of time, never negative.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub(crate) struct Ticks(u64);

impl Ticks {
    pub const NONE: Ticks = Ticks(0);

    /// The nearest whole ticks; less than nothing is nothing, and what lasts beyond [`Moment::NEVER`]
    /// lasts until then.
    #[inline]
    pub fn of(minutes: f64) -> Ticks {
        let ticks = minutes * A_MINUTE;
        let most = Moment::NEVER.0 as f64;
        // NaN fails the first comparison, and so lasts for ever as infinity does.
        let ticks = if ticks < most { ticks } else { most };
        let ticks = if ticks > 0.0 { ticks } else { 0.0 };
        Ticks((ticks + TWO_TO_52).to_bits() - TWO_TO_52.to_bits())
    }

    /// The same in minutes, as exact as they can be.
    pub fn minutes(self) -> f64 {
        self.count() / A_MINUTE
    }

    /// The same in minutes, for what flows meanwhile: a multiplication is soon done, and its last bit
    /// is far below a tick.
    #[inline]
    pub fn span(self) -> f64 {
        self.count() * (1.0 / A_MINUTE)
    }

    #[inline]
    fn count(self) -> f64 {
        // Never above 2^50; from a signed number the processor converts in one step.
        self.0 as i64 as f64
    }
}

impl Add for Ticks {
    type Output = Ticks;
    #[inline]
    fn add(self, other: Ticks) -> Ticks {
        Ticks(self.0 + other.0)
    }
}

impl AddAssign for Ticks {
    #[inline]
    fn add_assign(&mut self, other: Ticks) {
        self.0 += other.0;
    }
}

/// A moment of a run, counted from the alarm.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Moment(u64);

impl Moment {
    pub const ALARM: Moment = Moment(0);
    /// Later than anything that happens: about four months. Below 2^52, so that ticks turn into f64 by
    /// their bits.
    pub const NEVER: Moment = Moment((1 << 50) - 1);

    /// So many ticks after the alarm.
    #[inline]
    pub fn at(ticks: u64) -> Moment {
        Moment(ticks)
    }

    /// Ticks after the alarm.
    #[inline]
    pub fn ticks(self) -> u64 {
        self.0
    }

    /// Minutes after the alarm.
    #[inline]
    pub fn minutes(self) -> f64 {
        Ticks(self.0).minutes()
    }

    /// The first moment not before this one that is a whole number of `steps` after the alarm.
    ///
    /// - Given: a step of some length.
    pub fn up_to_whole(self, step: Ticks) -> Moment {
        Moment(self.0.div_ceil(step.0) * step.0)
    }

    /// The moment `minutes` from now, to the nearest tick; never where they do not end.
    #[inline]
    pub fn after(self, minutes: f64) -> Moment {
        self + Ticks::of(minutes)
    }

    /// The moment `minutes` before this one; the alarm, if it was later.
    pub fn before(self, minutes: f64) -> Moment {
        Moment(self.0.saturating_sub(Ticks::of(minutes).0))
    }

    /// How long ago that was; nothing if it is still to come.
    #[inline]
    pub fn since(self, past: Moment) -> Ticks {
        Ticks(self.0.saturating_sub(past.0))
    }
}

impl Add<Ticks> for Moment {
    type Output = Moment;
    #[inline]
    fn add(self, ticks: Ticks) -> Moment {
        Moment((self.0 + ticks.0).min(Moment::NEVER.0))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_people_state_is_whole_and_adds_up_in_any_order() {
        // 0.1 + 0.2 is not 0.3 in binary fractions of a minute.
        assert_ne!(0.1 + 0.2, 0.3);
        assert_eq!(Ticks::of(0.1) + Ticks::of(0.2), Ticks::of(0.3));
        assert_eq!(Moment::ALARM.after(0.1).after(0.2), Moment::ALARM.after(0.3));
        for seconds in 0..100_000 {
            let minutes = f64::from(seconds) / 60.0;
            let ticks = Ticks::of(minutes);
            assert_eq!(ticks.0, u64::from(seconds as u32) * 100_000_000);
            assert_eq!(ticks.minutes(), minutes);
        }
    }

    #[test]
    fn what_does_not_end_never_comes_and_what_is_past_takes_no_time() {
        for endless in [f64::INFINITY, f64::NAN, 1e30, 200_000.0] {
            assert_eq!(Moment::ALARM.after(endless), Moment::NEVER, "{endless}");
        }
        assert_eq!(Moment::NEVER.after(5.0), Moment::NEVER);
        assert_eq!(Ticks::of(-1e-12), Ticks::NONE);
        assert_eq!(Ticks::of(-3.0), Ticks::NONE);
        let (early, late) = (Moment::ALARM.after(1.0), Moment::ALARM.after(2.5));
        assert_eq!(late.since(early).minutes(), 1.5);
        assert_eq!(early.since(late), Ticks::NONE);
    }
}
