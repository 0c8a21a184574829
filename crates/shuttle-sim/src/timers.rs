//! What is known to happen, in order.

use crate::earliest::Earliest;
use crate::moment::{MOMENT_BITS, Moment};

/// What is over for a tanker at a time already known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Turn {
    /// It leaves a one-lane stretch.
    LeavesLane = 0,
    /// It has disconnected at its fill site, and its position becomes free.
    LeavesSite = 1,
    /// What it is doing is done, and another place becomes free.
    Frees = 2,
    /// What it is doing is done, and it asks for a place or begins to move water.
    GoesOn = 12,
}

/// What comes once, or a few times, at a time already known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Once {
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
}

/// Whose time has come.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Due {
    /// The tanker with this number: it knows what it did.
    Tanker(usize),
    /// Something else.
    Once(Once),
}

/// Bits for the place in its list; lists are no longer than [`crate::check::limits`] allows.
const PLACE_BITS: u32 = 10;
/// Bits for rank and place together.
const ORDER_BITS: u32 = 64 - MOMENT_BITS;
/// The place within an order.
const PLACE: u64 = (1 << PLACE_BITS) - 1;

/// The order within one instant: places are freed, equipment is made ready, places are asked for;
/// within each by rank, and then as listed in the plan.
#[inline]
fn order(rank: u64, place: u32) -> u64 {
    debug_assert!(u64::from(place) <= PLACE);
    (rank << PLACE_BITS) | u64::from(place)
}

impl Once {
    fn order(self) -> u64 {
        let (rank, place) = match self {
            Once::AttackEngineArrives => (3, 0),
            Once::FirstWater => (4, 0),
            Once::AttackFlowSteps(step) => (5, step),
            Once::SupplyEngineArrives => (6, 0),
            Once::DropTankArrives(tank) => (7, tank),
            Once::DropTankReady(tank) => (8, tank),
            Once::HookedUp => (9, 0),
            Once::Reprimed => (10, 0),
            Once::FillSiteReady(site) => (11, site),
        };
        order(rank, place)
    }

    /// The one with this order.
    fn with_order(order: u64) -> Once {
        let place = (order & PLACE) as u32;
        match order >> PLACE_BITS {
            3 => Once::AttackEngineArrives,
            4 => Once::FirstWater,
            5 => Once::AttackFlowSteps(place),
            6 => Once::SupplyEngineArrives,
            7 => Once::DropTankArrives(place),
            8 => Once::DropTankReady(place),
            9 => Once::HookedUp,
            10 => Once::Reprimed,
            _ => Once::FillSiteReady(place),
        }
    }
}

/// Equipment whose timers come one after the other: each has one place.
const SINGLE_PLACES: usize = 4;

/// The timers that are running: at most one for each tanker and each piece of equipment, each with a
/// place of its own. A timer is one word: its moment, then its order within that moment.
#[derive(Debug)]
pub(crate) struct Timers {
    of_tankers: Earliest,
    of_equipment: Earliest,
    tanks: usize,
    sites: usize,
}

impl Timers {
    /// Room for the timers of so many tankers, drop tanks, fill sites and steps of the attack flow.
    pub fn new(tankers: usize, tanks: usize, sites: usize, steps: usize) -> Timers {
        Timers {
            of_tankers: Earliest::new(tankers),
            of_equipment: Earliest::new(SINGLE_PLACES + tanks + sites + steps),
            tanks,
            sites,
        }
    }

    pub fn clear(&mut self) {
        self.of_tankers.clear();
        self.of_equipment.clear();
    }

    fn place_of(&self, once: Once) -> usize {
        let (tanks, sites) = (self.tanks, self.sites);
        match once {
            Once::AttackEngineArrives => 0,
            Once::FirstWater => 1,
            Once::SupplyEngineArrives => 2,
            Once::HookedUp | Once::Reprimed => 3,
            Once::DropTankArrives(tank) | Once::DropTankReady(tank) => {
                SINGLE_PLACES + tank as usize
            }
            Once::FillSiteReady(site) => SINGLE_PLACES + tanks + site as usize,
            Once::AttackFlowSteps(step) => SINGLE_PLACES + tanks + sites + step as usize,
        }
    }

    /// This tanker will be done then.
    #[inline]
    pub fn schedule_tanker(&mut self, moment: Moment, turn: Turn, tanker: usize) {
        if moment < Moment::NEVER {
            let order = order(turn as u64, tanker as u32);
            self.of_tankers.set(tanker, (moment.ticks() << ORDER_BITS) | order);
        }
    }

    /// This will come then.
    pub fn schedule(&mut self, moment: Moment, once: Once) {
        if moment < Moment::NEVER {
            let word = (moment.ticks() << ORDER_BITS) | once.order();
            self.of_equipment.set(self.place_of(once), word);
        }
    }

    /// When the next timer runs out.
    #[inline]
    pub fn next(&self) -> Moment {
        let word = self.of_tankers.least().min(self.of_equipment.least());
        Moment::from_ticks(word >> ORDER_BITS)
    }

    /// The next of those that run out at this moment.
    #[inline]
    pub fn take_due(&mut self, now: Moment) -> Option<Due> {
        if self.next() > now {
            return None;
        }
        let word = self.of_tankers.least();
        if word < self.of_equipment.least() {
            let tanker = (word & PLACE) as usize;
            self.of_tankers.unset(tanker);
            return Some(Due::Tanker(tanker));
        }
        Some(Due::Once(self.take_once()))
    }

    #[cold]
    fn take_once(&mut self) -> Once {
        let once = Once::with_order(self.of_equipment.least() & ((1 << ORDER_BITS) - 1));
        self.of_equipment.unset(self.place_of(once));
        once
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn within_one_instant_places_are_freed_before_they_are_asked_for() {
        let mut timers = Timers::new(3, 0, 0, 0);
        let moment = |minutes| Moment::ALARM.after(minutes);
        timers.schedule_tanker(moment(0.3), Turn::GoesOn, 1);
        timers.schedule_tanker(moment(0.1).after(0.2), Turn::Frees, 2);
        timers.schedule(moment(0.3), Once::HookedUp);
        timers.schedule(moment(0.4), Once::FirstWater);
        timers.schedule(moment(f64::INFINITY), Once::Reprimed);
        let now = timers.next();
        let order = std::iter::from_fn(|| timers.take_due(now)).collect::<Vec<_>>();
        assert_eq!(order, [Due::Tanker(2), Due::Once(Once::HookedUp), Due::Tanker(1)]);
        assert_eq!(timers.next(), moment(0.4));
    }

    #[test]
    fn many_timers_come_in_the_order_of_a_sorted_list() {
        // A general-purpose sort says what the order is.
        for tankers in [1, 8, 9, 64, 65, 1000] {
            let mut timers = Timers::new(tankers, 3, 2, 40);
            let mut words = Vec::new();
            for tanker in 0..tankers {
                let moment = Moment::ALARM.after((tanker * 7919 % 101) as f64 / 3.0);
                let turn = if tanker % 5 == 0 { Turn::Frees } else { Turn::GoesOn };
                timers.schedule_tanker(moment, turn, tanker);
                words.push((moment, order(turn as u64, tanker as u32), Due::Tanker(tanker)));
            }
            for step in 0..40 {
                let moment = Moment::ALARM.after(f64::from(step) / 3.0);
                let once = Once::AttackFlowSteps(step);
                timers.schedule(moment, once);
                words.push((moment, once.order(), Due::Once(once)));
            }
            words.sort_by_key(|(moment, order, _)| (*moment, *order));
            for (moment, _, due) in words {
                assert_eq!(timers.next(), moment);
                assert_eq!(timers.take_due(moment), Some(due));
            }
            assert_eq!(timers.next(), Moment::NEVER);
        }
    }

    #[test]
    fn a_timer_comes_back_as_it_went_in() {
        for once in [
            Once::AttackEngineArrives,
            Once::FirstWater,
            Once::AttackFlowSteps(999),
            Once::SupplyEngineArrives,
            Once::DropTankArrives(7),
            Once::DropTankReady(7),
            Once::HookedUp,
            Once::Reprimed,
            Once::FillSiteReady(99),
        ] {
            assert_eq!(Once::with_order(once.order()), once);
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
