//! What is drawn once a fire: the factors it shares, who comes at all, and what fails when.
//!
//! Read on in `who_comes` (unit by unit), `arrivals` (how a run begins, and what opens on its way), `sources` (when
//! fill sites open) and `failures`.

mod arrivals;
mod failures;
mod sources;
pub(crate) mod who_comes;

use crate::luck::{Draws, Factors, Luck, Purpose};
use crate::plan::Brought;
use crate::results::Subject;
use crate::run::calendar::Event;
use crate::run::prepared::PreparedCall;
use crate::run::shuttle::Shuttle;
use crate::story::Happening;
use crate::time::Moment;
use who_comes::Turnout;

impl Shuttle {
    /// Draws what the whole fire shares, and from then on multiplies by it.
    fn share_factors(&mut self, luck: Luck) {
        let fire = &self.prepared.fire;
        let draws = Draws::new(luck);
        let its_own = draws.of(fire.key);
        let factor = |spread, purpose| its_own.factor(spread, purpose);
        let driving = factor(&fire.driving, Purpose::DrivingFactor);
        let handling = factor(&fire.handling, Purpose::HandlingFactor);
        let response = factor(&fire.response, Purpose::ResponseFactor);
        self.luck = draws.multiplied_by(Factors::new(driving, handling, response));
        if (driving, handling, response) != (1.0, 1.0, 1.0) {
            self.note(Happening::WholeFire { driving, handling, response });
        }
    }

    /// A unit is called: at this event it arrives, or is known to stay away.
    ///
    /// - Returns: when that is.
    fn call(&mut self, unit: Subject, event: Event) -> Moment {
        let moment = self.called(unit);
        self.calendar.set(event, moment);
        self.tally.still_to_come += 1;
        moment
    }

    /// The pump of a fill site is called, to there and not to the scene.
    ///
    /// - Returns: when it arrives, or is known to stay away.
    fn call_to_source(&mut self, site: usize) -> Moment {
        self.called(Subject::SourcePump(site))
    }

    /// Draws whether a unit comes, and when it arrives or is known to stay away.
    fn called(&mut self, unit: Subject) -> Moment {
        let call = self.call_of(unit);
        let stays_away =
            self.luck.of(call.turnout_key).happens(1.0 - call.turnout, Purpose::Turnout, 0);
        let (turnout, moment) = if stays_away {
            (Turnout::StaysAway, Moment::ALARM.after(call.expected()))
        } else {
            let response = self.draw_of(call.key, &call.response, Purpose::Response, 0);
            (Turnout::Comes, Moment::ALARM.after(call.requested_at) + response)
        };
        self.callout.set(unit, turnout);
        moment
    }

    /// The call of a unit that is called to the scene.
    pub(crate) fn call_of(&self, unit: Subject) -> &PreparedCall {
        let prepared = &self.prepared;
        let call = match unit {
            Subject::AttackEngine => Some(&prepared.attack_engine),
            Subject::SupplyEngine => prepared.supply_engine.as_ref(),
            Subject::Tanker(tanker) => Some(&prepared.tankers[tanker].call),
            Subject::DropTank(tank) => prepared.tanks[tank].call.as_ref(),
            Subject::SourcePump(site) => {
                prepared.sites[site].pump.as_ref().and_then(|pump| pump.call.as_ref())
            }
            Subject::FillSite(_) => None,
        };
        call.unwrap_or_else(|| unreachable!("{unit:?} is not called"))
    }

    /// Who brings a drop tank; the drop tank itself where it has its own vehicle.
    pub(crate) fn bringer(&self, tank: usize) -> Subject {
        self.bringer_of(&self.prepared.tanks[tank].brought, Subject::DropTank(tank))
    }

    /// Who brings something that is `own` where it has its own vehicle.
    fn bringer_of(&self, brought: &Brought, own: Subject) -> Subject {
        match brought {
            Brought::ByTanker(tanker) => Subject::Tanker(*tanker),
            Brought::ByAttackEngine => Subject::AttackEngine,
            Brought::BySupplyEngine => Subject::SupplyEngine,
            Brought::Itself(_) => own,
        }
    }

    /// The draft stands in the first drop tank in order that comes.
    fn choose_first_tank(&mut self) {
        let comes = |tank: &usize| self.callout.of(self.bringer(*tank)) == Turnout::Comes;
        let first = (0..self.prepared.tanks.len()).find(comes).unwrap_or(0);
        if let Some(tank) = self.prepared.tanks.get(first) {
            self.scene.draft_from(first, tank.restart_level);
        }
    }

    /// When it should have come has passed: now it is known to stay away.
    fn is_missed(&mut self, unit: Subject) {
        self.callout.set(unit, Turnout::KnownAway);
        self.note(Happening::StaysAway(unit));
        self.miss_source_pumps(unit);
        if unit == Subject::SupplyEngine && !self.prepared.has_lay && self.scene.engine.is_here {
            self.draft.arrived = Some(self.now);
        }
        self.hook_up_if_all_is_there();
    }

    /// Who drafts, as far as is known: the supply engine; without it the attack engine, unless a lay lies between.
    pub(crate) fn drafting_unit(&self) -> Option<Subject> {
        let has_supply_engine = self.prepared.supply_engine.is_some();
        if has_supply_engine && self.callout.of(Subject::SupplyEngine) != Turnout::KnownAway {
            Some(Subject::SupplyEngine)
        } else if has_supply_engine && self.prepared.has_lay {
            None
        } else {
            Some(Subject::AttackEngine)
        }
    }

    /// The first drop tank in order that is not known to stay away.
    pub(crate) fn first_tank_expected(&self) -> Option<usize> {
        let known = |tank: usize| self.callout.of(self.bringer(tank)) == Turnout::KnownAway;
        (0..self.prepared.tanks.len()).find(|tank| !known(*tank))
    }

    /// Of those still to come, whoever should have come first; a drop tank that another unit brings is not asked.
    pub(crate) fn should_have_come_first(&self) -> Option<Subject> {
        let supply = self.prepared.supply_engine.as_ref().map(|_| Subject::SupplyEngine);
        let own = (0..self.prepared.tanks.len())
            .filter(|tank| self.prepared.tanks[*tank].call.is_some())
            .map(Subject::DropTank);
        let tankers = (0..self.tankers.len()).map(Subject::Tanker);
        let units = std::iter::once(Subject::AttackEngine).chain(supply).chain(own).chain(tankers);
        units
            .filter(|unit| self.callout.of(*unit) != Turnout::IsHere)
            .min_by(|a, b| self.call_of(*a).expected().total_cmp(&self.call_of(*b).expected()))
    }
}
