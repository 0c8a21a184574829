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
/// meanwhile, at the same instant, is taken in another round. Only what is to come stands on the list, seldom
/// more than one moment a tanker: to look through it takes less than to keep it sorted.
#[derive(Debug)]
pub(crate) struct Calendar {
    /// In the order of places.
    events: Vec<Event>,
    /// What is to come, when and at which place, in no order; each place at most once.
    pending: Vec<(Moment, usize)>,
    /// The first moment of these.
    next: Moment,
    /// Places whose events are still to be taken in the present round, the last first.
    round: Vec<usize>,
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
            pending: Vec::with_capacity(places),
            events,
            next: Moment::NEVER,
            round: Vec::with_capacity(places),
            tanks,
            sites,
        }
    }

    pub fn clear(&mut self) {
        self.pending.clear();
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
        if let Some(before) = self.pending.iter().position(|(_, other)| *other == place) {
            self.pending.swap_remove(before);
            let moments = self.pending.iter().map(|(moment, _)| *moment);
            self.next = moments.min().unwrap_or(Moment::NEVER);
        }
        if moment < Moment::NEVER {
            self.pending.push((moment, place));
            self.next = self.next.min(moment);
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
        self.round.pop().map(|place| self.events[place])
    }

    /// Takes everything that is due by now off the list.
    fn begin_round(&mut self, now: Moment) {
        self.next = Moment::NEVER;
        let mut looked_at = 0;
        while let Some(&(moment, place)) = self.pending.get(looked_at) {
            if moment <= now {
                self.pending.swap_remove(looked_at);
                self.round.push(place);
            } else {
                self.next = self.next.min(moment);
                looked_at += 1;
            }
        }
        self.round.sort_unstable_by(|a, b| b.cmp(a));
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
