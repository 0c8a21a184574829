//! What fails in the course of the watch, and works again: the drafting pump, fill sites.

use crate::luck::{Duration, Purpose};
use crate::run::calendar::Event;
use crate::run::prepared::PreparedFailure;
use crate::run::shuttle::Shuttle;
use crate::scene::Pump;
use crate::story::Happening;
use crate::time::Moment;

impl Shuttle {
    /// Whatever will fail is on the event list from the start.
    pub(super) fn plan_failures(&mut self) {
        if !self.prepared.tanks.is_empty() {
            let fails = self.fails(&self.prepared.draft_failure, self.prepared.draft_key);
            self.calendar.set(Event::PumpFails, fails);
        }
        for site in 0..self.sites.len() {
            let prepared = &self.prepared.sites[site];
            let fails = self.fails(&prepared.failure, prepared.key);
            self.calendar.set(Event::FillSiteFails(site), fails);
        }
    }

    fn fails(&self, failure: &Option<PreparedFailure>, who: u64) -> Moment {
        let (Some(failure), draws) = (failure, self.luck.of(who)) else { return Moment::NEVER };
        if !draws.happens(failure.chance, Purpose::Failure, 0) {
            return Moment::NEVER;
        }
        let into_the_watch = draws.share(Purpose::FailureMoment);
        self.tally.first_water.after(into_the_watch * self.plan.facts().incident.duration)
    }

    fn works_again(&self, failure: &Option<PreparedFailure>, who: u64) -> Moment {
        let repair = repair_of(failure);
        repair.map_or(Moment::NEVER, |it| self.now + self.draw_of(who, it, Purpose::Repair, 0))
    }

    /// The drafting pump fails, and loses prime if it had any; or it works again.
    pub(crate) fn pump_fails_or_is_repaired(&mut self) {
        if self.draft.failed.take().is_some() {
            self.note(Happening::PumpRepaired);
            self.nobody_is_on_deck();
            return;
        }
        self.head_may_go();
        self.draft.failed = Some(self.now);
        self.note(Happening::PumpFailed);
        if matches!(self.scene.pump, Pump::Primed | Pump::Repriming) {
            self.calendar.take_off(Event::Pump);
            self.scene.touch(self.now);
            self.scene.pump = Pump::PrimeLost;
            self.prime_is_lost();
        }
        let works = self.works_again(&self.prepared.draft_failure, self.prepared.draft_key);
        self.calendar.set(Event::PumpFails, works);
    }

    /// A fill site fails, and gives nothing; or it works again.
    pub(crate) fn fill_site_fails_or_is_repaired(&mut self, site: usize) {
        if self.sites[site].failed.is_some() {
            self.sites[site].set_failed(self.now, None);
            self.note(Happening::FillSiteRepaired(site));
            return;
        }
        self.sites[site].set_failed(self.now, Some(self.now));
        self.note(Happening::FillSiteFailed(site));
        let prepared = &self.prepared.sites[site];
        let works = self.works_again(&prepared.failure, prepared.key);
        self.calendar.set(Event::FillSiteFails(site), works);
    }

    /// When the pump should work again, by means, while it has failed: never if it is down for good.
    pub(crate) fn pump_should_be_repaired(&self) -> Option<Moment> {
        let failed = self.draft.failed?;
        Some(should_be_repaired(failed, &self.prepared.draft_failure))
    }

    /// When a fill site should work again, by means, while it has failed: never if it is down for good.
    pub(crate) fn site_should_be_repaired(&self, site: usize) -> Option<Moment> {
        let failed = self.sites[site].failed?;
        Some(should_be_repaired(failed, &self.prepared.sites[site].failure))
    }
}

fn repair_of(failure: &Option<PreparedFailure>) -> Option<&Duration> {
    failure.as_ref()?.repair.as_ref()
}

fn should_be_repaired(failed: Moment, failure: &Option<PreparedFailure>) -> Moment {
    repair_of(failure).map_or(Moment::NEVER, |repair| failed.after(repair.mean))
}
