//! How long each part of the cycle takes a tanker, over its whole cycles.

use crate::moment::Ticks;
use crate::results::Part;

/// The place of time that belongs to no part of the cycle.
pub(crate) const NO_PART: usize = Part::ALL.len();
/// Places for the parts and for none.
const PLACES: usize = NO_PART + 1;
/// More steps than any cycle has, which is 18: four stretches of one-lane road and the waiting for each,
/// two of open road, four at the fill site, four at the scene.
const MOST_STEPS: usize = 20;
/// Bits of a step that say which part it belongs to.
const PART_BITS: u32 = 4;

/// Time by part of the cycle.
///
/// All time is summed at once; what the present cycle has added is noted step by step, and taken off
/// again if the cycle never comes to its end. So the end of a cycle costs nothing.
#[derive(Debug, Clone, Copy)]
pub(crate) struct CycleTimes {
    sums: [Ticks; PLACES],
    /// The time of each and, in its lowest bits, the part: one word, so that little memory is touched.
    steps: [u64; MOST_STEPS],
    count: usize,
    /// Whether the present cycle was seen from its beginning.
    is_whole: bool,
}

impl CycleTimes {
    pub const NONE: CycleTimes = CycleTimes {
        sums: [Ticks::NONE; PLACES],
        steps: [0; MOST_STEPS],
        count: 0,
        is_whole: false,
    };

    /// So much time for this part, or for [`NO_PART`].
    #[inline(always)]
    pub fn add(&mut self, part: usize, time: Ticks) {
        self.sums[part] += time;
        self.steps[self.count] = (time.whole() << PART_BITS) | part as u64;
        self.count += usize::from(part != NO_PART);
    }

    /// So much time for this part in a cycle that is known to come to its end.
    #[inline(always)]
    pub fn add_for_good(&mut self, part: Part, time: Ticks) {
        self.sums[part as usize] += time;
    }

    /// A cycle ends, and the next begins.
    ///
    /// - Returns: whether it was a whole one.
    #[inline]
    pub fn end_cycle(&mut self) -> bool {
        self.count = 0;
        if !self.is_whole {
            self.sums = [Ticks::NONE; PLACES];
        }
        std::mem::replace(&mut self.is_whole, true)
    }

    /// Minutes by part in all whole cycles.
    pub fn of_whole_cycles(&self) -> [f64; NO_PART] {
        let mut sums = self.sums;
        for step in &self.steps[..self.count] {
            let part = (step % (1 << PART_BITS)) as usize;
            sums[part] = sums[part].less(Ticks::from_whole(step >> PART_BITS));
        }
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
        times.add(out, Ticks::of(4.0));
        let minutes = times.of_whole_cycles();
        assert_eq!((minutes[out], minutes[dump]), (11.0, 3.0));
        assert_eq!(minutes.iter().sum::<f64>(), 14.0);
    }
}
