//! What fails in the course of the watch, and works again: the drafting pump, fill sites.

use crate::luck::Purpose;
use crate::run::calendar::Event;
use crate::run::prepared::{Duration, PreparedFailure};
use crate::run::shuttle::Shuttle;
use crate::scene::Pump;
use crate::story::Happening;
use crate::time::Moment;

impl Shuttle {
    /// Whatever will fail is on the event list from the start.
    pub(super) fn plan_failures(&mut self) {
        if !self.prepared.tanks.is_empty() {
            self.plan_failure(
                self.prepared.draft_failure,
                self.prepared.draft_key,
                Event::PumpFails,
            );
        }
        for site in 0..self.sites.len() {
            let prepared = &self.prepared.sites[site];
            self.plan_failure(prepared.failure, prepared.key, Event::FillSiteFails(site));
        }
    }

    fn plan_failure(&mut self, failure: Option<PreparedFailure>, who: u64, fails: Event) {
        let (Some(failure), draws) = (failure, self.luck.of(who)) else { return };
        if draws.happens(failure.chance, Purpose::Failure, 0) {
            let into_the_watch =
                draws.share(Purpose::FailureMoment) * self.plan.facts().incident.duration;
            self.calendar.set(fails, self.tally.first_water.after(into_the_watch));
        }
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
        let repair = self.repair_of(self.prepared.draft_failure);
        self.works_again(repair, self.prepared.draft_key, Event::PumpFails);
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
        let repair = self.repair_of(prepared.failure);
        self.works_again(repair, prepared.key, Event::FillSiteFails(site));
    }

    fn works_again(&mut self, repair: Option<Duration>, who: u64, event: Event) {
        if let Some(repair) = repair {
            let time = self.draw_of(who, &repair, Purpose::Repair, 0);
            self.calendar.set(event, self.now + time);
        }
    }

    fn repair_of(&self, failure: Option<PreparedFailure>) -> Option<Duration> {
        failure.and_then(|failure| failure.repair)
    }

    /// When the pump should work again, by means, while it has failed: never if it is down for good.
    pub(crate) fn pump_should_be_repaired(&self) -> Option<Moment> {
        let failed = self.draft.failed?;
        Some(should_be_repaired(failed, self.repair_of(self.prepared.draft_failure)))
    }

    /// When a fill site should work again, by means, while it has failed: never if it is down for good.
    pub(crate) fn site_should_be_repaired(&self, site: usize) -> Option<Moment> {
        let failed = self.sites[site].failed?;
        Some(should_be_repaired(failed, self.repair_of(self.prepared.sites[site].failure)))
    }
}

fn should_be_repaired(failed: Moment, repair: Option<Duration>) -> Moment {
    repair.map_or(Moment::NEVER, |repair| failed.after(repair.mean))
}
