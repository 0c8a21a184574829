//! Who comes, unit by unit.

use crate::results::Subject;

/// Whether a unit comes, and whether the tanker boss still reckons with it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Turnout {
    Comes,
    /// It is on scene.
    IsHere,
    /// It does not come, and nobody knows yet.
    StaysAway,
    /// It does not come: when it should have come has passed.
    KnownAway,
}

/// Who comes, unit by unit.
#[derive(Debug)]
pub(crate) struct Callout {
    /// It always comes.
    attack_engine: Turnout,
    supply_engine: Turnout,
    tankers: Vec<Turnout>,
    /// Of drop tanks that come by themselves.
    drop_tanks: Vec<Turnout>,
    /// Of pumps that come to fill sites by themselves.
    source_pumps: Vec<Turnout>,
}

impl Callout {
    pub fn new(tankers: usize, drop_tanks: usize, fill_sites: usize) -> Callout {
        Callout {
            attack_engine: Turnout::Comes,
            supply_engine: Turnout::Comes,
            tankers: vec![Turnout::Comes; tankers],
            drop_tanks: vec![Turnout::Comes; drop_tanks],
            source_pumps: vec![Turnout::Comes; fill_sites],
        }
    }

    /// How it stands with this unit.
    pub fn of(&self, unit: Subject) -> Turnout {
        match unit {
            Subject::AttackEngine => self.attack_engine,
            Subject::SupplyEngine => self.supply_engine,
            Subject::Tanker(tanker) => self.tankers[tanker],
            Subject::DropTank(tank) => self.drop_tanks[tank],
            Subject::SourcePump(site) => self.source_pumps[site],
            Subject::FillSite(_) => unreachable!("{unit:?} is not called"),
        }
    }

    pub fn set(&mut self, unit: Subject, turnout: Turnout) {
        match unit {
            Subject::AttackEngine => self.attack_engine = turnout,
            Subject::SupplyEngine => self.supply_engine = turnout,
            Subject::Tanker(tanker) => self.tankers[tanker] = turnout,
            Subject::DropTank(tank) => self.drop_tanks[tank] = turnout,
            Subject::SourcePump(site) => self.source_pumps[site] = turnout,
            Subject::FillSite(_) => unreachable!("{unit:?} is not called"),
        }
    }
}
