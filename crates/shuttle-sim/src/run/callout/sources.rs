//! When fill sites open: by themselves, or once a pump has been brought and set up.

use crate::luck::Purpose;
use crate::results::Subject;
use crate::run::calendar::Event;
use crate::run::callout::Turnout;
use crate::run::shuttle::Shuttle;
use crate::story::Happening;
use crate::time::{Moment, Ticks};

impl Shuttle {
    /// A site without a pump to come is ready by itself; a pump with its own vehicle is called; one that another
    /// unit brings waits for that.
    pub(super) fn await_fill_site(&mut self, site: usize) {
        let prepared = &self.prepared.sites[site];
        let Some(pump) = &prepared.pump else {
            let ready = self.draw_of(prepared.key, &prepared.ready, Purpose::Ready, 0);
            self.calendar.set(Event::FillSiteReady(site), Moment::ALARM + ready);
            return;
        };
        if pump.call.is_some() {
            let arrives = self.call_to_source(site);
            let comes = self.callout.of(Subject::SourcePump(site)) == Turnout::Comes;
            let setup = if comes { self.source_setup(site) } else { Ticks::NONE };
            self.calendar.set(Event::FillSiteReady(site), arrives + setup);
        }
    }

    /// What brings the pump to a site; the pump itself where it has its own vehicle, and where nothing brings one.
    pub(crate) fn brings_pump(&self, site: usize) -> Subject {
        let own = Subject::SourcePump(site);
        match &self.prepared.sites[site].pump {
            None => own,
            Some(pump) => self.bringer_of(&pump.brought, own),
        }
    }

    /// A unit has reached the scene: the pumps that it brings are set up.
    pub(super) fn set_up_source_pumps(&mut self, unit: Subject) {
        for site in 0..self.sites.len() {
            if self.prepared.sites[site].pump.is_some() && self.brings_pump(site) == unit {
                let setup = self.source_setup(site);
                self.calendar.set(Event::FillSiteReady(site), self.now + setup);
            }
        }
    }

    /// A unit is known to stay away, and so are the pumps that it would have brought.
    pub(super) fn miss_source_pumps(&mut self, unit: Subject) {
        for site in 0..self.sites.len() {
            if self.prepared.sites[site].pump.is_some() && self.brings_pump(site) == unit {
                self.sites[site].is_without_pump = true;
            }
        }
    }

    fn source_setup(&self, site: usize) -> Ticks {
        let prepared = &self.prepared.sites[site];
        let setup = prepared.pump.as_ref().map(|pump| &pump.setup);
        setup.map_or(Ticks::NONE, |time| self.draw_of(prepared.key, time, Purpose::Setup, 0))
    }

    /// A fill site can serve, or the pump with its own vehicle should have come and is known to stay away.
    pub(crate) fn fill_site_is_due(&mut self, site: usize) {
        let pump = Subject::SourcePump(site);
        let is_called = self.prepared.sites[site].pump.as_ref().is_some_and(|it| it.call.is_some());
        if is_called && self.callout.of(pump) == Turnout::StaysAway {
            self.callout.set(pump, Turnout::KnownAway);
            self.note(Happening::StaysAway(pump));
            return self.miss_source_pumps(pump);
        }
        self.sites[site].is_ready = true;
        self.may_begin_to_fill = true;
        self.note(Happening::FillSiteReady(site));
    }
}
