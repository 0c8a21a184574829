//! What is known to happen, in order.

use std::cmp::Ordering;
use std::collections::BinaryHeap;

/// Times closer than this are one instant, minutes. Far above rounding (about 1e-13), far below
/// anything an officer could mean.
pub(crate) const SAME_INSTANT: f64 = 1e-9;

/// Something that will happen at a time already known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Timer {
    /// This tanker has disconnected at its fill site, and its position becomes free.
    TankerLeavesSite(u32),
    /// What this tanker is doing is done, and another place becomes free.
    TankerFrees(u32),
    /// The attack engine reaches the scene.
    AttackEngineArrives,
    /// First water: the attack begins.
    FirstWater,
    /// The attack flow takes its step with this number.
    AttackFlowSteps(u32),
    /// The supply engine reaches the scene.
    SupplyEngineArrives,
    /// A drop tank with its own vehicle reaches the scene.
    DropTankArrives(u32),
    /// A drop tank is set up.
    DropTankReady(u32),
    /// The draft is hooked up.
    HookedUp,
    /// Prime is back.
    Reprimed,
    /// A fill site can serve.
    FillSiteReady(u32),
    /// What this tanker is doing is done, and it asks for a place or begins to move water.
    TankerGoesOn(u32),
}

impl Timer {
    /// The order within one instant: places are freed, equipment is made ready, places are asked
    /// for; within each, in the order above and then as listed in the plan.
    fn order(self) -> u64 {
        let (rank, place) = match self {
            Timer::TankerLeavesSite(tanker) => (0, tanker),
            Timer::TankerFrees(tanker) => (1, tanker),
            Timer::AttackEngineArrives => (2, 0),
            Timer::FirstWater => (3, 0),
            Timer::AttackFlowSteps(step) => (4, step),
            Timer::SupplyEngineArrives => (5, 0),
            Timer::DropTankArrives(tank) => (6, tank),
            Timer::DropTankReady(tank) => (7, tank),
            Timer::HookedUp => (8, 0),
            Timer::Reprimed => (9, 0),
            Timer::FillSiteReady(site) => (10, site),
            Timer::TankerGoesOn(tanker) => (11, tanker),
        };
        (rank << 32) | u64::from(place)
    }
}

#[derive(Debug, Clone, Copy)]
struct Entry {
    time: f64,
    order: u64,
    timer: Timer,
}

impl PartialEq for Entry {
    fn eq(&self, other: &Entry) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}
impl Eq for Entry {}
impl PartialOrd for Entry {
    fn partial_cmp(&self, other: &Entry) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}
impl Ord for Entry {
    /// Reversed: the heap gives the greatest, we want the earliest.
    fn cmp(&self, other: &Entry) -> Ordering {
        (other.time.total_cmp(&self.time)).then(other.order.cmp(&self.order))
    }
}

/// The timers that are running.
#[derive(Debug, Default)]
pub(crate) struct Timers {
    heap: BinaryHeap<Entry>,
    /// Those of the present instant, taken out of the heap.
    due: Vec<Entry>,
}

impl Timers {
    pub fn with_capacity(capacity: usize) -> Timers {
        Timers { heap: BinaryHeap::with_capacity(capacity), due: Vec::with_capacity(capacity) }
    }

    pub fn clear(&mut self) {
        self.heap.clear();
        self.due.clear();
    }

    pub fn schedule(&mut self, time: f64, timer: Timer) {
        let order = timer.order();
        self.heap.push(Entry { time, order, timer });
    }

    /// When the next timer runs out.
    pub fn next(&self) -> f64 {
        self.heap.peek().map_or(f64::INFINITY, |entry| entry.time)
    }

    /// The next of those that run out at this instant.
    pub fn take_due(&mut self, now: f64) -> Option<Timer> {
        while self.next() <= now + SAME_INSTANT {
            self.due.extend(self.heap.pop());
        }
        let (place, _) = (self.due.iter().enumerate()).min_by_key(|(_, entry)| entry.order)?;
        Some(self.due.swap_remove(place).timer)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn within_one_instant_places_are_freed_before_they_are_asked_for() {
        let mut timers = Timers::with_capacity(4);
        timers.schedule(0.3, Timer::TankerGoesOn(1));
        timers.schedule(0.1 + 0.2, Timer::TankerFrees(2));
        timers.schedule(0.3, Timer::HookedUp);
        timers.schedule(0.4, Timer::FirstWater);
        let now = timers.next();
        let order = std::iter::from_fn(|| timers.take_due(now)).collect::<Vec<_>>();
        assert_eq!(order, [Timer::TankerFrees(2), Timer::HookedUp, Timer::TankerGoesOn(1)]);
    }
}
