//! One tanker in a run: what it is doing, since when, with what aboard, and how long each part took.

use crate::luck::UnitDraws;
use crate::results::Part;
use crate::road::Way;
use crate::story::Doing;
use crate::time::{Moment, Ticks};

/// What a tanker is doing, and at which drop tank or fill site.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Phase {
    Responding,
    /// In the line at the scene; `on_deck`: kept for the lines.
    InLine {
        on_deck: bool,
    },
    NurseConnect,
    Nursing,
    NurseDisconnect,
    DumpPosition(usize),
    Dumping(usize),
    DumpClear(usize),
    /// Clear of its drop tank's position, which it gave up for an intake.
    BreakOff(usize),
    /// Ready to leave, later in this instant.
    Leaving,
    Repair,
    OutOfService,
    /// No fill site can serve it.
    StandBy,
    LaneWait {
        lane: usize,
        way: Way,
        site: usize,
    },
    LaneCross {
        lane: usize,
        way: Way,
        site: usize,
    },
    TravelOut(usize),
    FillQueue(usize),
    FillConnect(usize),
    Filling(usize),
    FillDisconnect(usize),
    TravelBack(usize),
}

/// A place that one tanker at a time can hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Place {
    Intake,
    DumpPosition(usize),
    FillPosition(usize),
}

impl Phase {
    /// Which part of the cycle its minutes belong to.
    #[inline]
    fn part(self) -> Option<Part> {
        match self {
            Phase::Responding
            | Phase::Leaving
            | Phase::Repair
            | Phase::OutOfService
            | Phase::StandBy => None,
            Phase::InLine { .. } => Some(Part::SceneWait),
            Phase::NurseConnect => Some(Part::NurseConnect),
            Phase::Nursing => Some(Part::PumpOff),
            Phase::NurseDisconnect => Some(Part::NurseDisconnect),
            Phase::DumpPosition(_) => Some(Part::DumpPosition),
            Phase::Dumping(_) => Some(Part::Dump),
            Phase::DumpClear(_) | Phase::BreakOff(_) => Some(Part::DumpClear),
            Phase::LaneWait { .. } => Some(Part::RoadWait),
            Phase::LaneCross { way: Way::Out, .. } | Phase::TravelOut(_) => Some(Part::TravelOut),
            Phase::LaneCross { way: Way::Back, .. } | Phase::TravelBack(_) => {
                Some(Part::TravelBack)
            }
            Phase::FillQueue(_) => Some(Part::FillWait),
            Phase::FillConnect(_) => Some(Part::FillConnect),
            Phase::Filling(_) => Some(Part::Fill),
            Phase::FillDisconnect(_) => Some(Part::FillDisconnect),
        }
    }

    /// What a person following the run would say it does; nothing for what lasts no time.
    pub fn doing(self) -> Option<Doing> {
        Some(match self {
            Phase::Leaving => return None,
            Phase::Responding => Doing::Responding,
            Phase::InLine { on_deck: false } => Doing::WaitingAtScene,
            Phase::InLine { on_deck: true } => Doing::OnDeck,
            Phase::NurseConnect => Doing::NurseConnecting,
            Phase::Nursing => Doing::PumpingOff,
            Phase::NurseDisconnect => Doing::NurseDisconnecting,
            Phase::DumpPosition(tank) => Doing::Positioning(tank),
            Phase::Dumping(tank) => Doing::Dumping(tank),
            Phase::DumpClear(tank) => Doing::Clearing(tank),
            Phase::BreakOff(tank) => Doing::BreakingOff(tank),
            Phase::Repair => Doing::InRepair,
            Phase::OutOfService => Doing::OutOfService,
            Phase::StandBy => Doing::StandingBy,
            Phase::LaneWait { .. } => Doing::WaitingForRoad,
            Phase::LaneCross { .. } => Doing::CrossingOneLane,
            Phase::TravelOut(site) => Doing::TravelingOut(site),
            Phase::FillQueue(site) => Doing::WaitingToFill(site),
            Phase::FillConnect(site) => Doing::Connecting(site),
            Phase::Filling(site) => Doing::Filling(site),
            Phase::FillDisconnect(site) => Doing::Disconnecting(site),
            Phase::TravelBack(_) => Doing::TravelingBack,
        })
    }

    /// The place it holds, and so keeps from others.
    pub fn place(self) -> Option<Place> {
        match self {
            Phase::NurseConnect | Phase::Nursing | Phase::NurseDisconnect | Phase::BreakOff(_) => {
                Some(Place::Intake)
            }
            Phase::DumpPosition(tank) | Phase::Dumping(tank) | Phase::DumpClear(tank) => {
                Some(Place::DumpPosition(tank))
            }
            Phase::FillConnect(site) | Phase::Filling(site) | Phase::FillDisconnect(site) => {
                Some(Place::FillPosition(site))
            }
            _ => None,
        }
    }

    /// The fill site it is on its way to, or at until it has disconnected.
    pub fn bound_for(self) -> Option<usize> {
        match self {
            Phase::LaneWait { way: Way::Out, site, .. }
            | Phase::LaneCross { way: Way::Out, site, .. }
            | Phase::TravelOut(site)
            | Phase::FillQueue(site)
            | Phase::FillConnect(site)
            | Phase::Filling(site)
            | Phase::FillDisconnect(site) => Some(site),
            _ => None,
        }
    }

    /// Whether its load stands at the scene; while it moves, the scene keeps count.
    pub fn holds_water_at_scene(self) -> bool {
        matches!(
            self,
            Phase::InLine { .. }
                | Phase::NurseConnect
                | Phase::NurseDisconnect
                | Phase::DumpPosition(_)
                | Phase::DumpClear(_)
                | Phase::BreakOff(_)
                | Phase::Leaving
                | Phase::Repair
                | Phase::OutOfService
                | Phase::StandBy
        )
    }
}

/// Held up for less than this is rounding to whole ticks, minutes.
const NO_TIME: f64 = 1e-6;

/// Time by part of the cycle.
type PartTicks = [Ticks; Part::ALL.len()];

/// Where a tanker stands in a run.
#[derive(Debug, Clone, Copy)]
pub(crate) struct TankerState {
    pub phase: Phase,
    /// Since when it does this.
    pub since: Moment,
    /// What it has aboard to deliver, gal; while it moves, the scene keeps count.
    pub load: f64,
    /// What will be spilled of what it carries, gal.
    pub waste: f64,
    /// What its load was when it began to move, gal.
    pub began_with: f64,
    pub draws: UnitDraws,
    pub trips: u32,
    /// Whether the present cycle was seen from its beginning: the first arrival is no cycle.
    is_whole: bool,
    cycle: PartTicks,
    /// Whole cycles, and their time by part.
    pub cycles: u32,
    whole: PartTicks,
    /// Minutes that a full drop tank held it up in the present cycle, and in whole cycles.
    held_up_now: f64,
    pub held_up: f64,
}

impl TankerState {
    pub fn responding(draws: UnitDraws, load: f64, waste: f64) -> TankerState {
        TankerState {
            phase: Phase::Responding,
            since: Moment::ALARM,
            load,
            waste,
            began_with: 0.0,
            draws,
            trips: 0,
            is_whole: false,
            cycle: [Ticks::NONE; Part::ALL.len()],
            cycles: 0,
            whole: [Ticks::NONE; Part::ALL.len()],
            held_up_now: 0.0,
            held_up: 0.0,
        }
    }

    /// Ends what it did and begins something else.
    pub fn enter(&mut self, phase: Phase, now: Moment) {
        if let Some(part) = self.phase.part() {
            self.cycle[part as usize] += now.since(self.since);
        }
        self.phase = phase;
        self.since = now;
    }

    /// Its load moved in this many minutes, and would have in so many with room for it.
    pub fn dumped_in(&mut self, minutes: f64, with_room: f64) {
        let held_up = minutes - with_room;
        if held_up > NO_TIME {
            self.held_up_now += held_up;
        }
    }

    /// A cycle ends, and the next begins.
    pub fn end_cycle(&mut self) {
        let held_up = std::mem::take(&mut self.held_up_now);
        if self.is_whole {
            self.cycles += 1;
            self.held_up += held_up;
            for (whole, part) in self.whole.iter_mut().zip(&self.cycle) {
                *whole += *part;
            }
        }
        self.cycle = [Ticks::NONE; Part::ALL.len()];
        self.is_whole = true;
    }

    /// Minutes by part in all whole cycles.
    pub fn of_whole_cycles(&self) -> [f64; Part::ALL.len()] {
        self.whole.map(Ticks::span)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_whole_cycles_count() {
        let mut tanker = TankerState::responding(UnitDraws::Planned, 0.0, 0.0);
        let at = |minutes| Moment::ALARM.after(minutes);
        tanker.enter(Phase::Dumping(0), at(9.0));
        tanker.enter(Phase::Leaving, at(11.0));
        tanker.end_cycle();
        for start in [11.0, 20.0] {
            tanker.enter(Phase::TravelOut(0), at(start));
            tanker.enter(Phase::Dumping(0), at(start + 5.0));
            tanker.enter(Phase::Leaving, at(start + 7.5));
            tanker.end_cycle();
        }
        tanker.enter(Phase::TravelOut(0), at(30.0));
        let minutes = tanker.of_whole_cycles();
        assert_eq!(tanker.cycles, 2);
        assert_eq!(minutes[Part::TravelOut as usize], 10.0);
        assert_eq!(minutes.iter().sum::<f64>(), 15.0);
    }
}
