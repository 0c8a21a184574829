//! The event list: what is due when, and in which order within one instant.

use std::collections::VecDeque;

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

/// The event list: each event has one place, which holds the moment when it is due.
///
/// The order of places is the order within one instant: what opens, then tankers as listed. What comes due
/// meanwhile, at the same instant, is taken in another round. A look through a few dozen moments is soon
/// done and cannot hold anything stale.
#[derive(Debug)]
pub(crate) struct Calendar {
    /// In the order of places.
    events: Vec<Event>,
    due: Vec<Moment>,
    /// The least of them.
    next: Moment,
    /// Places whose events are due in the present round.
    round: VecDeque<usize>,
    tanks: usize,
    sites: usize,
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
        let places = events.len();
        Calendar {
            due: vec![Moment::NEVER; places],
            events,
            next: Moment::NEVER,
            round: VecDeque::with_capacity(places),
            tanks,
            sites,
        }
    }

    pub fn clear(&mut self) {
        self.due.fill(Moment::NEVER);
        self.next = Moment::NEVER;
        self.round.clear();
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

    /// This is due then, whenever it was due before; [`Moment::NEVER`] takes it off the list.
    pub fn set(&mut self, event: Event, moment: Moment) {
        let place = self.place_of(event);
        let before = std::mem::replace(&mut self.due[place], moment);
        if moment <= self.next {
            self.next = moment;
        } else if before == self.next {
            self.look_through();
        }
    }

    /// When the next event is due.
    pub fn next(&self) -> Moment {
        self.next
    }

    /// The next event that is due at this moment, taken off the list.
    pub fn take_due(&mut self, now: Moment) -> Option<Event> {
        if self.round.is_empty() && self.next <= now {
            self.begin_round(now);
        }
        self.round.pop_front().map(|place| self.events[place])
    }

    /// Takes everything that is due by now off the list.
    fn begin_round(&mut self, now: Moment) {
        let mut next = Moment::NEVER;
        for (place, due) in self.due.iter_mut().enumerate() {
            if *due <= now {
                *due = Moment::NEVER;
                self.round.push_back(place);
            } else {
                next = next.min(*due);
            }
        }
        self.next = next;
    }

    fn look_through(&mut self) {
        self.next = self.due.iter().fold(Moment::NEVER, |least, due| least.min(*due));
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
        calendar.set(Event::Tanker(1), moment(3.0));
        assert_eq!(calendar.next(), moment(2.0));
        calendar.set(Event::FillSiteReady(0), Moment::NEVER);
        assert_eq!(calendar.take_due(moment(3.0)), Some(Event::Tanker(1)));
        assert_eq!(calendar.next(), Moment::NEVER);
    }
}
