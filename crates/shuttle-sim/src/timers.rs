//! What is known to happen, in order.

use crate::moment::{MOMENT_BITS, Moment};

/// Something that will happen at a time already known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Timer {
    /// This tanker leaves a one-lane stretch.
    TankerLeavesLane(u32),
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
            Timer::TankerLeavesLane(tanker) => (0, tanker),
            Timer::TankerLeavesSite(tanker) => (1, tanker),
            Timer::TankerFrees(tanker) => (2, tanker),
            Timer::AttackEngineArrives => (3, 0),
            Timer::FirstWater => (4, 0),
            Timer::AttackFlowSteps(step) => (5, step),
            Timer::SupplyEngineArrives => (6, 0),
            Timer::DropTankArrives(tank) => (7, tank),
            Timer::DropTankReady(tank) => (8, tank),
            Timer::HookedUp => (9, 0),
            Timer::Reprimed => (10, 0),
            Timer::FillSiteReady(site) => (11, site),
            Timer::TankerGoesOn(tanker) => (12, tanker),
        };
        debug_assert!(place < 1 << PLACE_BITS);
        (rank << PLACE_BITS) | u64::from(place)
    }

    /// The timer with this order.
    #[inline]
    fn with_order(order: u64) -> Timer {
        let place = (order & ((1 << PLACE_BITS) - 1)) as u32;
        match order >> PLACE_BITS {
            0 => Timer::TankerLeavesLane(place),
            1 => Timer::TankerLeavesSite(place),
            2 => Timer::TankerFrees(place),
            3 => Timer::AttackEngineArrives,
            4 => Timer::FirstWater,
            5 => Timer::AttackFlowSteps(place),
            6 => Timer::SupplyEngineArrives,
            7 => Timer::DropTankArrives(place),
            8 => Timer::DropTankReady(place),
            9 => Timer::HookedUp,
            10 => Timer::Reprimed,
            11 => Timer::FillSiteReady(place),
            _ => Timer::TankerGoesOn(place),
        }
    }
}

/// Places in a block: few enough to look at all of them.
const BLOCK: usize = 16;
/// Where no timer runs: after all that do.
const NONE: u64 = u64::MAX;
/// Equipment whose timers come one after the other: each has one place.
const SINGLE_PLACES: usize = 4;

/// The timers that are running: at most one for each tanker and each piece of equipment, each with a
/// place of its own.
///
/// A timer is one word: its moment, then its order within that moment. Places lie in blocks, and the
/// least word of each block is kept: to set a timer touches little else, to take the next looks through
/// its block and the least of all blocks, without having to guess where anything belongs. Tankers and
/// equipment have blocks of their own.
#[derive(Debug)]
pub(crate) struct Timers {
    words: Vec<[u64; BLOCK]>,
    least_in: Vec<u64>,
    least: u64,
    /// The first block of equipment, which comes after those of the tankers.
    equipment: usize,
    tanks: usize,
    sites: usize,
}

impl Timers {
    /// Room for the timers of so many tankers, drop tanks, fill sites and steps of the attack flow.
    pub fn new(tankers: usize, tanks: usize, sites: usize, steps: usize) -> Timers {
        let equipment = tankers.div_ceil(BLOCK);
        let blocks = equipment + (SINGLE_PLACES + tanks + sites + steps).div_ceil(BLOCK);
        Timers {
            words: vec![[NONE; BLOCK]; blocks],
            least_in: vec![NONE; blocks],
            least: NONE,
            equipment,
            tanks,
            sites,
        }
    }

    pub fn clear(&mut self) {
        self.words.fill([NONE; BLOCK]);
        self.least_in.fill(NONE);
        self.least = NONE;
    }

    #[inline]
    fn place_of(&self, timer: Timer) -> usize {
        match timer {
            Timer::TankerLeavesLane(tanker)
            | Timer::TankerLeavesSite(tanker)
            | Timer::TankerFrees(tanker)
            | Timer::TankerGoesOn(tanker) => tanker as usize,
            other => self.equipment * BLOCK + self.equipment_place_of(other),
        }
    }

    #[cold]
    fn equipment_place_of(&self, timer: Timer) -> usize {
        let (tanks, sites) = (self.tanks, self.sites);
        match timer {
            Timer::TankerLeavesLane(_)
            | Timer::TankerLeavesSite(_)
            | Timer::TankerFrees(_)
            | Timer::TankerGoesOn(_) => 0,
            Timer::AttackEngineArrives => 0,
            Timer::FirstWater => 1,
            Timer::SupplyEngineArrives => 2,
            Timer::HookedUp | Timer::Reprimed => 3,
            Timer::DropTankArrives(tank) | Timer::DropTankReady(tank) => {
                SINGLE_PLACES + tank as usize
            }
            Timer::FillSiteReady(site) => SINGLE_PLACES + tanks + site as usize,
            Timer::AttackFlowSteps(step) => SINGLE_PLACES + tanks + sites + step as usize,
        }
    }

    #[inline]
    pub fn schedule(&mut self, moment: Moment, timer: Timer) {
        if moment >= Moment::NEVER {
            return;
        }
        let word = (moment.ticks() << ORDER_BITS) | timer.order();
        let place = self.place_of(timer);
        let block = place / BLOCK;
        self.words[block][place % BLOCK] = word;
        if word < self.least_in[block] {
            self.least_in[block] = word;
            self.least = self.least.min(word);
        }
    }

    /// When the next timer runs out.
    #[inline]
    pub fn next(&self) -> Moment {
        Moment::from_ticks(self.least >> ORDER_BITS)
    }

    /// When the next timer of equipment runs out: of engines, drop tanks, the draft, fill sites and steps
    /// of the attack flow.
    #[inline]
    pub fn next_of_equipment(&self) -> Moment {
        let least =
            self.least_in[self.equipment..].iter().fold(NONE, |least, word| least.min(*word));
        Moment::from_ticks(least >> ORDER_BITS)
    }

    /// The next of those that run out at this moment.
    #[inline]
    pub fn take_due(&mut self, now: Moment) -> Option<Timer> {
        if self.next() > now {
            return None;
        }
        let timer = Timer::with_order(self.least & ((1 << ORDER_BITS) - 1));
        let place = self.place_of(timer);
        let block = place / BLOCK;
        self.words[block][place % BLOCK] = NONE;
        self.least_in[block] = least_of(&self.words[block]);
        self.least = self.least_in.iter().fold(NONE, |least, word| least.min(*word));
        Some(timer)
    }
}

#[inline]
fn least_of(words: &[u64; BLOCK]) -> u64 {
    // Four side by side, so that none waits for all before it.
    let mut four = [words[0], words[1], words[2], words[3]];
    for next in words.chunks_exact(4).skip(1) {
        for (least, word) in four.iter_mut().zip(next) {
            *least = (*least).min(*word);
        }
    }
    four[0].min(four[1]).min(four[2].min(four[3]))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn within_one_instant_places_are_freed_before_they_are_asked_for() {
        let mut timers = Timers::new(3, 0, 0, 0);
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
    fn many_timers_come_in_the_order_of_a_sorted_list() {
        // A general-purpose sort says what the order is.
        let mut timers = Timers::new(100, 3, 2, 40);
        let mut words = Vec::new();
        for tanker in 0..100 {
            let moment = Moment::ALARM.after(f64::from(tanker * 7919 % 101) / 3.0);
            timers.schedule(moment, Timer::TankerGoesOn(tanker));
            words.push((moment, Timer::TankerGoesOn(tanker).order(), Timer::TankerGoesOn(tanker)));
        }
        for step in 0..40 {
            let moment = Moment::ALARM.after(f64::from(step) / 3.0);
            timers.schedule(moment, Timer::AttackFlowSteps(step));
            words.push((
                moment,
                Timer::AttackFlowSteps(step).order(),
                Timer::AttackFlowSteps(step),
            ));
        }
        words.sort_by_key(|(moment, order, _)| (*moment, *order));
        for (moment, _, timer) in words {
            assert_eq!(timers.next(), moment);
            assert_eq!(timers.take_due(moment), Some(timer));
        }
        assert_eq!(timers.next(), Moment::NEVER);
    }

    #[test]
    fn a_timer_comes_back_as_it_went_in() {
        let last = (1 << PLACE_BITS) - 1;
        for timer in [
            Timer::TankerLeavesLane(3),
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
