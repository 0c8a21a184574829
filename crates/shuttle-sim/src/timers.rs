//! What is known to happen, in order.

use crate::moment::{MOMENT_BITS, Moment};

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

/// Bits for the place in its list; lists are no longer than [`crate::check::limits`] allows.
const PLACE_BITS: u32 = 10;
/// Bits for rank and place together.
const ORDER_BITS: u32 = 64 - MOMENT_BITS;

impl Timer {
    /// The order within one instant: places are freed, equipment is made ready, places are asked
    /// for; within each, in the order above and then as listed in the plan.
    #[inline]
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
        debug_assert!(place < 1 << PLACE_BITS);
        (rank << PLACE_BITS) | u64::from(place)
    }

    /// The timer with this order.
    #[inline]
    fn with_order(order: u64) -> Timer {
        let place = (order & ((1 << PLACE_BITS) - 1)) as u32;
        match order >> PLACE_BITS {
            0 => Timer::TankerLeavesSite(place),
            1 => Timer::TankerFrees(place),
            2 => Timer::AttackEngineArrives,
            3 => Timer::FirstWater,
            4 => Timer::AttackFlowSteps(place),
            5 => Timer::SupplyEngineArrives,
            6 => Timer::DropTankArrives(place),
            7 => Timer::DropTankReady(place),
            8 => Timer::HookedUp,
            9 => Timer::Reprimed,
            10 => Timer::FillSiteReady(place),
            _ => Timer::TankerGoesOn(place),
        }
    }
}

/// So many steps from the end are taken one by one.
const FEW: usize = 12;

/// The timers that are running: at most one for each tanker and each piece of equipment.
///
/// A list in order, the next first. What is set is mostly due after most others, so it finds its place
/// from the end in a few steps; what has run out is left behind, and swept away once the room is full.
/// Each is one word: its moment, then its order within that moment.
#[derive(Debug, Default)]
pub(crate) struct Timers {
    words: Vec<u64>,
    /// Where those that still run begin.
    first: usize,
    room: usize,
}

impl Timers {
    /// Room for so many timers at once.
    pub fn new(most: usize) -> Timers {
        let room = 4 * most;
        Timers { words: Vec::with_capacity(room), first: 0, room }
    }

    pub fn clear(&mut self) {
        self.words.clear();
        self.first = 0;
    }

    #[inline]
    pub fn schedule(&mut self, moment: Moment, timer: Timer) {
        if moment >= Moment::NEVER {
            return;
        }
        if self.words.len() == self.room {
            self.sweep();
        }
        let word = (moment.ticks() << ORDER_BITS) | timer.order();
        self.words.push(word);
        let running = &mut self.words[self.first..];
        let mut place = running.len() - 1;
        let far = place.saturating_sub(FEW);
        while place > far && running[place - 1] > word {
            running[place] = running[place - 1];
            place -= 1;
        }
        if place == far && far > 0 {
            // Far from the end: the place by halves, and all after it moved at once.
            place = running[..far].partition_point(|other| *other < word);
            running.copy_within(place..far, place + 1);
        }
        running[place] = word;
    }

    #[cold]
    fn sweep(&mut self) {
        self.words.drain(..self.first);
        self.first = 0;
    }

    /// When the next timer runs out.
    #[inline]
    pub fn next(&self) -> Moment {
        let word = self.words.get(self.first);
        word.map_or(Moment::NEVER, |word| Moment::from_ticks(word >> ORDER_BITS))
    }

    /// The next of those that run out at this moment.
    #[inline]
    pub fn take_due(&mut self, now: Moment) -> Option<Timer> {
        let word = *self.words.get(self.first)?;
        if word >> ORDER_BITS > now.ticks() {
            return None;
        }
        self.first += 1;
        Some(Timer::with_order(word & ((1 << ORDER_BITS) - 1)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn within_one_instant_places_are_freed_before_they_are_asked_for() {
        let mut timers = Timers::new(4);
        let moment = |minutes| Moment::ALARM.after(minutes);
        timers.schedule(moment(0.3), Timer::TankerGoesOn(1));
        timers.schedule(moment(0.1).after(0.2), Timer::TankerFrees(2));
        timers.schedule(moment(0.3), Timer::HookedUp);
        timers.schedule(moment(0.4), Timer::FirstWater);
        timers.schedule(moment(f64::INFINITY), Timer::Reprimed);
        let now = timers.next();
        let order = std::iter::from_fn(|| timers.take_due(now)).collect::<Vec<_>>();
        assert_eq!(order, [Timer::TankerFrees(2), Timer::HookedUp, Timer::TankerGoesOn(1)]);
        assert_eq!(timers.next(), moment(0.4));
    }

    #[test]
    fn what_has_run_out_makes_room() {
        let mut timers = Timers::new(3);
        let moment = |minutes: u32| Moment::ALARM.after(f64::from(minutes));
        for minute in 0..2 {
            timers.schedule(moment(minute), Timer::TankerGoesOn(minute));
        }
        for minute in 0..1000 {
            assert_eq!(timers.take_due(moment(minute)), Some(Timer::TankerGoesOn(minute % 2)));
            timers.schedule(moment(minute + 2), Timer::TankerGoesOn(minute % 2));
        }
        assert!(timers.words.capacity() <= 12, "the room is what it was");
    }

    #[test]
    fn a_timer_comes_back_as_it_went_in() {
        let last = (1 << PLACE_BITS) - 1;
        for timer in [
            Timer::TankerLeavesSite(last),
            Timer::TankerFrees(0),
            Timer::AttackEngineArrives,
            Timer::FirstWater,
            Timer::AttackFlowSteps(999),
            Timer::SupplyEngineArrives,
            Timer::DropTankArrives(7),
            Timer::DropTankReady(7),
            Timer::HookedUp,
            Timer::Reprimed,
            Timer::FillSiteReady(99),
            Timer::TankerGoesOn(last),
        ] {
            assert_eq!(Timer::with_order(timer.order()), timer);
        }
    }

    #[test]
    fn every_place_that_a_plan_may_have_fits() {
        let limits = crate::Plan::LIMITS;
        for most in [limits.tankers, limits.places, limits.steps] {
            assert!(most <= 1 << PLACE_BITS);
        }
    }
}
