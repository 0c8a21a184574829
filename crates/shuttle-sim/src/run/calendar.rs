//! The event list: what is due when, and in which order within one instant.

use crate::time::Moment;

/// What comes due by the clock.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Event {
    /// The attack engine reaches the scene.
    AttackEngineArrives,
    /// First water: the attack begins.
    FirstWater,
    /// The attack flow takes its next step.
    AttackFlowSteps,
    /// The supply engine reaches the scene, or should have.
    SupplyEngineArrives,
    /// A drop tank arrives by itself, or should have; or it is set up.
    DropTank(usize),
    /// A fill site can serve.
    FillSiteReady(usize),
    /// The draft is hooked up, or prime is back.
    Pump,
    /// The drafting pump fails, or works again.
    PumpFails,
    /// A fill site fails, or works again.
    FillSiteFails(usize),
    /// What a tanker was doing is done: its phase says what.
    Tanker(usize),
}

/// Events that are one of a kind, before those of drop tanks, fill sites, pump, failures and tankers.
const SINGLE: usize = 4;

/// The event list. Each kind of event, and each tanker, tank and site, has one place.
///
/// The order of places is the order within one instant: what opens, then tankers as listed. What comes due
/// meanwhile, at the same instant, is taken in another round.
#[derive(Debug)]
pub(crate) struct Calendar {
    /// In the order of places.
    events: Vec<Event>,
    /// What is to come, the next last; each place at most once.
    pending: Vec<Pending>,
    /// When the next is due.
    next: Moment,
    /// The last instant at which anything was taken, and its present round.
    now: Moment,
    round: u32,
    tanks: usize,
    sites: usize,
}

/// An event to come: moment, round of that instant and place in one number, which gives their order at once.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Pending(u128);

impl Pending {
    fn new(moment: Moment, round: u32, place: usize) -> Pending {
        Pending(u128::from(moment.ticks()) << 64 | u128::from(round) << 32 | place as u128)
    }

    fn moment(self) -> Moment {
        Moment::at((self.0 >> 64) as u64)
    }

    fn round(self) -> u32 {
        (self.0 >> 32) as u32
    }

    fn place(self) -> usize {
        self.0 as u32 as usize
    }
}

impl Calendar {
    pub fn new(tankers: usize, tanks: usize, sites: usize) -> Calendar {
        let single = [
            Event::AttackEngineArrives,
            Event::FirstWater,
            Event::AttackFlowSteps,
            Event::SupplyEngineArrives,
        ];
        let events: Vec<Event> = (single.into_iter())
            .chain((0..tanks).map(Event::DropTank))
            .chain((0..sites).map(Event::FillSiteReady))
            .chain([Event::Pump, Event::PumpFails])
            .chain((0..sites).map(Event::FillSiteFails))
            .chain((0..tankers).map(Event::Tanker))
            .collect();
        let pending = Vec::with_capacity(events.len());
        let (now, next) = (Moment::ALARM, Moment::NEVER);
        Calendar { events, pending, next, now, round: 0, tanks, sites }
    }

    pub fn clear(&mut self) {
        self.pending.clear();
        self.next = Moment::NEVER;
        self.now = Moment::ALARM;
        self.round = 0;
    }

    fn place_of(&self, event: Event) -> usize {
        let (tanks, sites) = (self.tanks, self.sites);
        match event {
            Event::AttackEngineArrives => 0,
            Event::FirstWater => 1,
            Event::AttackFlowSteps => 2,
            Event::SupplyEngineArrives => 3,
            Event::DropTank(tank) => SINGLE + tank,
            Event::FillSiteReady(site) => SINGLE + tanks + site,
            Event::Pump => SINGLE + tanks + sites,
            Event::PumpFails => SINGLE + tanks + sites + 1,
            Event::FillSiteFails(site) => SINGLE + tanks + sites + 2 + site,
            Event::Tanker(tanker) => SINGLE + tanks + 2 * sites + 2 + tanker,
        }
    }

    /// This is due then; it is not on the list.
    pub fn set(&mut self, event: Event, moment: Moment) {
        if moment < Moment::NEVER {
            // What comes due in this instant comes after all that is due in the present round.
            let round = if moment <= self.now { self.round + 1 } else { 0 };
            let pending = Pending::new(moment, round, self.place_of(event));
            let mut place = self.pending.len();
            self.pending.push(pending);
            while place > 0 && self.pending[place - 1] < pending {
                self.pending[place] = self.pending[place - 1];
                place -= 1;
            }
            self.pending[place] = pending;
            self.next = self.next.min(moment);
        }
    }

    /// Takes this off the list, if it is there.
    pub fn take_off(&mut self, event: Event) {
        let place = self.place_of(event);
        self.pending.retain(|pending| pending.place() != place);
        self.note_next();
    }

    #[inline]
    fn note_next(&mut self) {
        self.next = self.pending.last().map_or(Moment::NEVER, |pending| pending.moment());
    }

    /// When the next event is due.
    #[inline]
    pub fn next(&self) -> Moment {
        self.next
    }

    /// The next event that is due at this moment, taken off the list.
    #[inline]
    pub fn take_due(&mut self, now: Moment) -> Option<Event> {
        if self.next > now {
            return None;
        }
        let next = self.pending.pop()?;
        self.note_next();
        (self.now, self.round) = (now, next.round());
        Some(self.events[next.place()])
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn within_one_instant_what_opens_comes_before_tankers_and_these_as_listed() {
        let mut calendar = Calendar::new(3, 1, 1);
        let moment = |minutes| Moment::ALARM.after(minutes);
        calendar.set(Event::Tanker(2), moment(0.1).after(0.2));
        calendar.set(Event::Tanker(0), moment(0.3));
        calendar.set(Event::Pump, moment(0.3));
        calendar.set(Event::FirstWater, moment(0.4));
        let now = calendar.next();
        assert_eq!(calendar.take_due(now), Some(Event::Pump));
        assert_eq!(calendar.take_due(now), Some(Event::Tanker(0)));
        // Due again at once: after the others of this round.
        calendar.set(Event::Tanker(0), now);
        assert_eq!(calendar.take_due(now), Some(Event::Tanker(2)));
        assert_eq!(calendar.take_due(now), Some(Event::Tanker(0)));
        assert_eq!(calendar.take_due(now), None);
        assert_eq!(calendar.next(), moment(0.4));
    }

    #[test]
    fn what_is_put_off_or_taken_off_is_not_due() {
        let mut calendar = Calendar::new(2, 0, 1);
        let moment = |minutes| Moment::ALARM.after(minutes);
        calendar.set(Event::Tanker(1), moment(1.0));
        calendar.set(Event::FillSiteReady(0), moment(2.0));
        calendar.take_off(Event::Tanker(1));
        calendar.set(Event::Tanker(1), moment(3.0));
        calendar.set(Event::Tanker(0), Moment::NEVER);
        assert_eq!(calendar.next(), moment(2.0));
        calendar.take_off(Event::FillSiteReady(0));
        assert_eq!(calendar.take_due(moment(3.0)), Some(Event::Tanker(1)));
        assert_eq!(calendar.next(), Moment::NEVER);
    }
}
