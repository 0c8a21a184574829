//! Who held a place, and when one was free: waiting told apart from work.
//!
//! A place is held from when a tanker begins to take it until it leaves. Whoever was served before and had not
//! left yet when a tanker came made it wait, once there were as many of them as places. Where a time is missing
//! there are an earliest and a latest answer; only where they agree can waiting be told apart. Of a tanker that nobody
//! saw at a place in a trip, between trips that were seen, it is taken that it was there at some time; of a row that
//! is missing altogether nothing can be known.

use crate::log::{Log, Trip};
use crate::stamp::Stamp;

/// The stamps between which a kind of place is held.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Stay {
    /// It comes to the place.
    pub arrived: Stamp,
    /// It has taken it: connected, dumping.
    pub taken: Stamp,
    /// It leaves it.
    pub left: Stamp,
}

/// At the fill site.
pub(crate) const FILL: Stay =
    Stay { arrived: Stamp::ArrivedAtFill, taken: Stamp::Connected, left: Stamp::LeftFill };
/// At the drop tank.
pub(crate) const DUMP: Stay =
    Stay { arrived: Stamp::ArrivedAtScene, taken: Stamp::StartedDump, left: Stamp::LeftScene };

/// Earliest and latest, minutes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Between {
    pub earliest: f64,
    pub latest: f64,
}

/// A stay at a place, as far as it is known.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Held {
    /// Which trip, by its place in the log.
    pub trip: usize,
    pub arrived: Between,
    pub taken: Between,
    pub left: Between,
}

/// Every stay at the places of one kind that `is_there` says are the same. A trip without any time there was there
/// only if its tanker was seen before and after: it may have come loaded, or the drill may have ended.
pub(crate) fn stays(log: &Log, stay: Stay, is_there: impl Fn(&Trip) -> bool) -> Vec<Held> {
    (0..log.trips.len())
        .filter(|trip| is_there(&log.trips[*trip]))
        .map(|trip| {
            let own = &log.trips[trip];
            let seen =
                own.at[stay.arrived as usize..=stay.left as usize].iter().any(Option::is_some);
            let held = Held {
                trip,
                arrived: bounds(log, trip, stay.arrived),
                taken: bounds(log, trip, stay.taken),
                left: bounds(log, trip, stay.left),
            };
            (held, seen)
        })
        .filter(|(held, seen)| {
            *seen || (held.taken.earliest.is_finite() && held.left.latest.is_finite())
        })
        .map(|(held, _)| held)
        .collect()
}

impl Between {
    fn is_known(self) -> bool {
        self.earliest == self.latest
    }
}

impl Held {
    /// Whether it surely held a place before a tanker that came and had its place at these times. With one place
    /// the order in which it was taken tells. With several a slow one may have its place before and be connected
    /// after: whoever came first was served first.
    fn is_surely_before(&self, arrived: f64, taken: f64, positions: u32) -> bool {
        if positions == 1 {
            self.taken.latest < taken
        } else {
            self.arrived.is_known() && self.arrived.latest < arrived
        }
    }

    /// Whether it may have, as far as the log tells.
    pub fn is_perhaps_before(&self, arrived: f64, taken: f64, positions: u32) -> bool {
        let came_later = self.arrived.is_known() && self.arrived.earliest > arrived;
        let had_it_first = self.taken.earliest < taken && (self.taken.is_known() || !came_later);
        had_it_first || (positions > 1 && self.arrived.earliest <= arrived)
    }
}

/// The minute of a stamp, or the times around it.
fn bounds(log: &Log, trip: usize, stamp: Stamp) -> Between {
    let own = &log.trips[trip];
    if let Some(at) = own.time(stamp) {
        return Between { earliest: at, latest: at };
    }
    let place = stamp as usize;
    let same = |other: &&Trip| other.tanker == own.tanker;
    let before = own.at[..place].iter().rev().flatten().next().copied().or_else(|| {
        log.trips[..trip]
            .iter()
            .rev()
            .take_while(same)
            .find_map(|one| one.at.iter().rev().flatten().next().copied())
    });
    let behind = own.at[place + 1..].iter().flatten().next().copied().or_else(|| {
        log.trips[trip + 1..]
            .iter()
            .take_while(same)
            .find_map(|one| one.at.iter().flatten().next().copied())
    });
    Between {
        earliest: before.unwrap_or(f64::NEG_INFINITY),
        latest: behind.unwrap_or(f64::INFINITY),
    }
}

/// When a tanker that came at `arrived` and had taken its place by `taken` could begin to take it.
pub(crate) fn turn(
    trip: usize,
    arrived: f64,
    taken: f64,
    stays: &[Held],
    positions: u32,
) -> Between {
    let freed = |ends: Vec<f64>| -> f64 {
        let mut ends: Vec<f64> = ends.into_iter().filter(|end| *end > arrived).collect();
        ends.sort_by(|a, b| b.total_cmp(a));
        ends.get(positions as usize - 1).copied().unwrap_or(arrived)
    };
    let others = || stays.iter().filter(|other| other.trip != trip);
    let surely = others()
        .filter(|other| other.is_surely_before(arrived, taken, positions))
        .map(|other| other.left.earliest);
    let perhaps = others()
        .filter(|other| other.is_perhaps_before(arrived, taken, positions))
        .map(|other| other.left.latest);
    Between { earliest: freed(surely.collect()), latest: freed(perhaps.collect()) }
}
