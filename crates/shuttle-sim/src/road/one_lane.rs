//! A stretch of road that carries one direction at a time.

use std::collections::VecDeque;

use crate::time::Moment;

/// Which way a tanker goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Way {
    Out,
    Back,
}

/// Who is on the stretch and who waits at either end.
#[derive(Debug)]
pub(crate) struct LaneState {
    /// The way it carries now, while anyone is on it.
    way: Way,
    on_it: u32,
    /// Tanker and when it came, by way.
    out: VecDeque<(usize, Moment)>,
    back: VecDeque<(usize, Moment)>,
}

impl LaneState {
    pub fn new(tankers: usize) -> LaneState {
        LaneState {
            way: Way::Out,
            on_it: 0,
            out: VecDeque::with_capacity(tankers),
            back: VecDeque::with_capacity(tankers),
        }
    }

    pub fn reset(&mut self) {
        self.on_it = 0;
        self.out.clear();
        self.back.clear();
    }

    /// A tanker stands at its end of the stretch.
    pub fn join(&mut self, tanker: usize, way: Way, now: Moment) {
        match way {
            Way::Out => self.out.push_back((tanker, now)),
            Way::Back => self.back.push_back((tanker, now)),
        }
    }

    /// A tanker has left the stretch.
    pub fn leave(&mut self) {
        self.on_it -= 1;
    }

    /// The next that may enter now: while the stretch is taken, whoever goes the same way; once it is clear,
    /// the side that has waited longest, and all who wait with it.
    pub fn next_in(&mut self) -> Option<usize> {
        let since = |line: &VecDeque<(usize, Moment)>| line.front().map_or(Moment::NEVER, |e| e.1);
        if self.on_it == 0 {
            self.way = if since(&self.out) <= since(&self.back) { Way::Out } else { Way::Back };
        }
        let line = match self.way {
            Way::Out => &mut self.out,
            Way::Back => &mut self.back,
        };
        let (tanker, _) = line.pop_front()?;
        self.on_it += 1;
        Some(tanker)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_side_that_waited_longest_goes_next_and_all_of_it() {
        let minute = |minutes| Moment::ALARM.after(minutes);
        let mut lane = LaneState::new(5);
        lane.join(0, Way::Out, minute(0.0));
        assert_eq!(lane.next_in(), Some(0));
        lane.join(1, Way::Back, minute(1.0));
        assert_eq!(lane.next_in(), None);
        lane.join(2, Way::Out, minute(2.0));
        assert_eq!(lane.next_in(), Some(2), "the same way may follow");
        lane.join(3, Way::Back, minute(3.0));
        lane.leave();
        assert_eq!(lane.next_in(), None, "one is still on it");
        lane.leave();
        assert_eq!(lane.next_in(), Some(1));
        assert_eq!(lane.next_in(), Some(3));
        assert_eq!(lane.next_in(), None);
    }
}
