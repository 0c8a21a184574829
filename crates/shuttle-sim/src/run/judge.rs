//! What is judged at the end of an instant: prime, shortfall, and why the lines are short.

use crate::causes::{Cause, CauseKind};
use crate::luck::Purpose;
use crate::results::{Interruption, Subject};
use crate::run::calendar::Event;
use crate::run::shuttle::Shuttle;
use crate::run::tanker::Phase;
use crate::scene::{Pump, TankState};
use crate::story::Happening;
use crate::time::Moment;

/// A shortfall shorter than this is no shortfall, minutes: rounding, not water.
const NO_LENGTH: f64 = 1e-6;

/// A shortfall that lacks less than this is as long as the tolerance, minutes.
const NEARLY: f64 = 1e-9;

/// A shortfall that lasts.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Shortfall {
    began: Moment,
    cause: Cause,
    kind: Option<CauseKind>,
    about: Option<Subject>,
}

impl Shuttle {
    /// Whether the pump gains prime, or begins to prime again, now that the level is there.
    ///
    /// - Returns: whether it did.
    pub(crate) fn prime(&mut self) -> bool {
        match self.scene.pump {
            Pump::NotHookedUp | Pump::Primed | Pump::Repriming => false,
            _ if self.draft.failed.is_some() || !self.scene.holds_restart_level() => false,
            Pump::WaitingForWater => {
                self.scene.touch(self.now);
                self.scene.pump = Pump::Primed;
                self.note(Happening::Primed);
                self.supply_is_established();
                true
            }
            Pump::PrimeLost => {
                self.scene.touch(self.now);
                self.scene.pump = Pump::Repriming;
                self.note(Happening::Repriming);
                let (key, trip) = (self.prepared.draft_key, self.draft.primes_lost);
                let time = self.draw_of(key, &self.prepared.reprime, Purpose::Reprime, trip);
                self.calendar.set(Event::Pump, self.now + time);
                true
            }
        }
    }

    /// The pump can draw for the first time; without drop tanks, the first nurse is connected.
    pub(crate) fn supply_is_established(&mut self) {
        if self.tally.established.is_none() {
            self.scene.touch(self.now);
            self.tally.established = Some(self.now);
            self.scene.meter.is_established = true;
            self.scene.tanks.iter_mut().for_each(TankState::note_level);
        }
    }

    /// Works out the flows anew where anything moved; prime may be lost by it.
    ///
    /// - Returns: whether those at the scene are new.
    pub(crate) fn work_out_flows(&mut self) -> bool {
        let at_scene = self.scene.is_touched();
        if at_scene {
            if self.scene.solve(self.now) {
                self.prime_is_lost();
            }
            self.story.note_turn(self.now, &self.scene);
        }
        self.sites_next = Moment::NEVER;
        for site in &mut self.sites {
            site.solve(self.now);
            self.sites_next = self.sites_next.min(site.next);
        }
        at_scene
    }

    pub(crate) fn prime_is_lost(&mut self) {
        self.draft.primes_lost += 1;
        self.note(Happening::PrimeLost);
    }

    pub(crate) fn judge_shortfall(&mut self) {
        let is_short = self.scene.is_short;
        if is_short == self.scene.meter.is_short {
            return;
        }
        self.scene.meter.is_short = is_short;
        if is_short {
            let cause = self.cause();
            let kind = self.kind(cause);
            let about = self.about(cause, kind);
            self.tally.shortfall = Some(Shortfall { began: self.now, cause, kind, about });
            self.note(Happening::ShortfallBegan(self.scene.given_flow()));
        } else {
            self.close_shortfall();
            self.note(Happening::ShortfallEnded);
        }
    }

    /// The present shortfall, if there is one, ends now; it counts if it was long enough.
    pub(crate) fn close_shortfall(&mut self) {
        let Some(shortfall) = self.tally.shortfall.take() else { return };
        let Shortfall { began, cause, kind, about } = shortfall;
        let minutes = self.now.since(began).minutes();
        if self.counts(minutes) {
            let established = self.tally.established;
            self.tally.result.interruptions.push(Interruption {
                start: began.minutes(),
                minutes,
                before_supply: established.is_none_or(|established: Moment| began < established),
                cause,
                kind,
                about,
            });
        }
    }

    /// Whether a shortfall of this length is an interruption.
    fn counts(&self, minutes: f64) -> bool {
        minutes >= (self.plan.facts().incident.tolerance - NEARLY).max(NO_LENGTH)
    }

    /// The cause of the first interruption, if there was one or the present shortfall is one by `until`, when
    /// it still lasts.
    pub(crate) fn broken_by(&self, until: Moment) -> Option<Cause> {
        if let Some(first) = self.tally.result.interruptions.first() {
            return Some(first.cause);
        }
        let Shortfall { began, cause, .. } = self.tally.shortfall?;
        self.counts(until.since(began).minutes()).then_some(cause)
    }

    /// Why the lines go short now: where the water is. The first that holds.
    fn cause(&self) -> Cause {
        let water_on_tankers = self.any_tanker(|phase, load| match phase {
            Phase::Nursing | Phase::Dumping(_) => true,
            phase => phase.holds_water_at_scene() && load > 0.0,
        });
        let water_here = water_on_tankers || self.scene.has_water_somewhere();
        if self.tally.still_to_come > 0 && !water_here {
            Cause::NotCome
        } else if matches!(self.scene.pump, Pump::NotHookedUp | Pump::WaitingForWater)
            && !self.scene.tanks.is_empty()
            && water_here
        {
            Cause::DraftNotUp
        } else if self.draft.failed.is_some() {
            Cause::PumpFailed
        } else if self.scene.pump == Pump::Primed && self.scene.has_usable_water() {
            Cause::DraftOrLayTooSmall
        } else if matches!(self.scene.pump, Pump::PrimeLost | Pump::Repriming) {
            Cause::PrimeLost
        } else if (0..self.tankers.len()).any(|tanker| self.waits_for_source(tanker)) {
            Cause::SourceNotReady
        } else if self.any_tanker(|phase, _| matches!(phase, Phase::FillQueue(_))) {
            Cause::FillSiteQueue
        } else if self.any_tanker(|phase, load| self.waits_to_deliver(phase, load)) {
            Cause::DumpSiteQueue
        } else if self.any_tanker(|phase, _| matches!(phase, Phase::Repair | Phase::OutOfService)) {
            Cause::OutOfService
        } else {
            Cause::HaulTooLong
        }
    }

    fn any_tanker(&self, is: impl Fn(Phase, f64) -> bool) -> bool {
        self.tankers.iter().any(|tanker| is(tanker.phase, tanker.load))
    }

    /// What holds within a cause: the first of its kinds.
    fn kind(&self, cause: Cause) -> Option<CauseKind> {
        match cause {
            Cause::DraftNotUp if self.an_intake_goes_unused() => Some(CauseKind::IntakeFree),
            Cause::DraftNotUp if self.draft_waits_for().is_some() => Some(CauseKind::DraftToCome),
            Cause::DraftNotUp if self.scene.pump == Pump::NotHookedUp => Some(CauseKind::SettingUp),
            Cause::DraftNotUp => Some(CauseKind::BelowRestartLevel),
            Cause::DraftOrLayTooSmall if self.scene.lay_is_filling() => Some(CauseKind::LayFilling),
            Cause::DraftOrLayTooSmall => Some(CauseKind::AtItsLimit),
            Cause::SourceNotReady => Some(match self.source_waited_for() {
                None => CauseKind::NoneLeft,
                Some(site) if self.sites[site].failed.is_some() => CauseKind::SourceFailed,
                Some(site) if self.pump_is_to_come(site) => CauseKind::PumpToCome,
                Some(site) if !self.sites[site].is_ready => CauseKind::NotReadyYet,
                Some(_) => CauseKind::RunDown,
            }),
            Cause::DumpSiteQueue => Some(self.kind_of_queue()),
            Cause::OutOfService => {
                let in_repair = self.any_tanker(|phase, _| phase == Phase::Repair);
                Some(if in_repair { CauseKind::InRepair } else { CauseKind::OutForGood })
            }
            Cause::NotCome
            | Cause::PumpFailed
            | Cause::PrimeLost
            | Cause::FillSiteQueue
            | Cause::HaulTooLong => None,
        }
    }

    /// A site waits for a pump that someone brings: it has not come, stays away, or is being set up.
    fn pump_is_to_come(&self, site: usize) -> bool {
        !self.sites[site].is_ready && self.prepared.sites[site].pump.is_some()
    }

    /// What those who have water at the scene wait for: room, or a place.
    fn kind_of_queue(&self) -> CauseKind {
        let at_full_tank = |phase, _| match phase {
            Phase::Dumping(tank) => self.scene.tanks[tank].is_full(),
            _ => false,
        };
        if self.any_tanker(at_full_tank) {
            CauseKind::AtFullTank
        } else if self.scene.tanks.iter().any(TankState::is_open) {
            CauseKind::NoRoom
        } else {
            CauseKind::NoPlace
        }
    }

    /// A tanker that could pump into the attack engine waits, or stands at a full drop tank, and an intake is free.
    fn an_intake_goes_unused(&self) -> bool {
        self.scene.an_intake_is_free()
            && self.any_tanker(|phase, load| self.waits_to_deliver(phase, load))
    }

    /// Which of the pump and the drop tank it stands in is still to come; of both, who is expected last.
    fn draft_waits_for(&self) -> Option<Subject> {
        let pump = self.drafting_unit().unwrap_or(Subject::SupplyEngine);
        let pump = self.draft.arrived.is_none().then_some(pump);
        let tank = self.first_tank_expected().unwrap_or(self.scene.first);
        let tank = self.scene.tanks[tank].arrived.is_none().then(|| self.bringer(tank));
        let waits = self.scene.pump == Pump::NotHookedUp && self.draft.began.is_none();
        (pump.into_iter().chain(tank))
            .filter(|_| waits)
            .max_by(|a, b| self.call_of(*a).expected().total_cmp(&self.call_of(*b).expected()))
    }

    /// The source that a tanker waits for; `None` where whoever stands by was assigned to none.
    fn source_waited_for(&self) -> Option<usize> {
        (0..self.tankers.len()).filter(|tanker| self.waits_for_source(*tanker)).find_map(|tanker| {
            match self.tankers[tanker].phase {
                Phase::StandBy => self.prepared.tankers[tanker].fill_site,
                phase => phase.bound_for(),
            }
        })
    }

    /// Whom or what a cause is about, where it is one.
    fn about(&self, cause: Cause, kind: Option<CauseKind>) -> Option<Subject> {
        match cause {
            Cause::NotCome => self.should_have_come_first(),
            Cause::DraftNotUp if kind == Some(CauseKind::DraftToCome) => self.draft_waits_for(),
            Cause::SourceNotReady => self.source_waited_for().map(Subject::FillSite),
            _ => None,
        }
    }

    /// It waits for water at a source that is not ready, has run down or has failed, or stands by for one.
    fn waits_for_source(&self, tanker: usize) -> bool {
        let prepared = &self.prepared.tankers[tanker];
        match self.tankers[tanker].phase {
            Phase::StandBy => true,
            Phase::FillQueue(site) | Phase::Filling(site) if prepared.fills[site].itself => {
                self.sites[site].is_dry()
            }
            Phase::FillQueue(site) | Phase::Filling(site) => self.sites[site].gives_less(),
            _ => false,
        }
    }

    /// It has water at the scene and waits for a place, or for room.
    fn waits_to_deliver(&self, phase: Phase, load: f64) -> bool {
        match phase {
            Phase::InLine { .. } => load > 0.0,
            Phase::Dumping(tank) => self.scene.tanks[tank].is_full(),
            _ => false,
        }
    }
}
