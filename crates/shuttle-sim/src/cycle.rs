//! How long each part of the cycle takes a tanker, over its whole cycles.

use crate::moment::Ticks;
use crate::results::Part;

/// The place of time that belongs to no part of the cycle.
pub(crate) const NO_PART: usize = Part::ALL.len();
/// Places for the parts and for none.
const PLACES: usize = NO_PART + 1;

/// Time by part of the cycle.
///
/// All time is summed at once. Only when the first time of a new cycle comes is it noted how far the sums
/// were at the end of the last: the end itself costs nothing, and reads nothing that was just written.
#[derive(Debug, Clone, Copy)]
pub(crate) struct CycleTimes {
    sums: [Ticks; PLACES],
    /// The sums at the end of the last whole cycle, once the next has begun.
    of_whole: [Ticks; PLACES],
    /// Whether a cycle has just ended: then `sums` are those of whole cycles.
    has_ended: bool,
    /// Whether the present cycle was seen from its beginning.
    is_whole: bool,
}

impl CycleTimes {
    pub const NONE: CycleTimes = CycleTimes {
        sums: [Ticks::NONE; PLACES],
        of_whole: [Ticks::NONE; PLACES],
        has_ended: false,
        is_whole: false,
    };

    /// So much time for this part, or for [`NO_PART`].
    #[inline(always)]
    pub fn add(&mut self, part: usize, time: Ticks) {
        if time == Ticks::NONE {
            return;
        }
        self.begin_next();
        self.sums[part] += time;
    }

    /// The next cycle begins, if one has just ended: how far the sums were is noted.
    #[inline(always)]
    pub fn begin_next(&mut self) {
        if self.has_ended {
            self.has_ended = false;
            self.of_whole = self.sums;
        }
    }

    /// A cycle ends, and the next begins.
    ///
    /// - Returns: whether it was a whole one.
    #[inline]
    pub fn end_cycle(&mut self) -> bool {
        self.has_ended = true;
        if !self.is_whole {
            self.sums = [Ticks::NONE; PLACES];
        }
        std::mem::replace(&mut self.is_whole, true)
    }

    /// Minutes by part in all whole cycles.
    pub fn of_whole_cycles(&self) -> [f64; NO_PART] {
        let sums = if self.has_ended { &self.sums } else { &self.of_whole };
        std::array::from_fn(|part| sums[part].span())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_whole_cycles_count() {
        let (dump, out) = (Part::Dump as usize, Part::TravelOut as usize);
        let mut times = CycleTimes::NONE;
        times.add(NO_PART, Ticks::of(9.0));
        times.add(dump, Ticks::of(2.0));
        assert!(!times.end_cycle());
        for minutes in [5.0, 6.0] {
            times.add(out, Ticks::of(minutes));
            times.add(dump, Ticks::of(1.5));
            assert!(times.end_cycle());
        }
        assert_eq!(times.of_whole_cycles().iter().sum::<f64>(), 14.0);
        times.add(out, Ticks::of(4.0));
        let minutes = times.of_whole_cycles();
        assert_eq!((minutes[out], minutes[dump]), (11.0, 3.0));
        assert_eq!(minutes.iter().sum::<f64>(), 14.0);
    }
}
