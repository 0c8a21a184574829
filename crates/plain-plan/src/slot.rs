//! The number that a part is, in its plan.

use crate::amount::Amount;
use crate::first_plan::{FirstPlan, Tanker};
use crate::part::{OfSource, OfUnit, Part};

/// Where a number stands in a plan.
enum Slot<'a> {
    /// It is always stated.
    Sure(&'a mut Amount),
    /// It may be left out.
    Free(&'a mut Option<Amount>),
    /// The part is no number, or what it is of is not there.
    Nowhere,
}

impl Part {
    /// The number it is, where it is one and is stated.
    pub(crate) fn amount(self, plan: &mut FirstPlan) -> Option<&mut Amount> {
        match self.slot(plan) {
            Slot::Sure(amount) => Some(amount),
            Slot::Free(amount) => amount.as_mut(),
            Slot::Nowhere => None,
        }
    }

    /// The same, to be looked at.
    pub(crate) fn said(self, plan: &FirstPlan) -> Option<Amount> {
        self.amount(&mut plan.clone()).cloned()
    }

    /// Puts a number there; nothing only where it may be left out.
    pub(crate) fn put(self, plan: &mut FirstPlan, amount: Option<Amount>) {
        match (self.slot(plan), amount) {
            (Slot::Sure(there), Some(amount)) => *there = amount,
            (Slot::Free(there), amount) => *there = amount,
            (Slot::Sure(_), None) | (Slot::Nowhere, _) => {}
        }
    }

    fn slot(self, plan: &mut FirstPlan) -> Slot<'_> {
        let start = plan.start.as_mut();
        match self {
            Part::Title | Part::TankBringer(_) | Part::SecondSupplyEngine => Slot::Nowhere,
            Part::Flow => Slot::Sure(&mut plan.flow),
            Part::StartFlow => start.map_or(Slot::Nowhere, |start| Slot::Sure(&mut start.flow)),
            Part::StartUntil => start.map_or(Slot::Nowhere, |start| Slot::Sure(&mut start.until)),
            Part::Duration => Slot::Sure(&mut plan.duration),
            Part::Reserve => Slot::Sure(&mut plan.reserve),
            Part::AttackEngine(OfUnit::Water) => Slot::Free(&mut plan.attack_engine.water),
            Part::AttackEngine(OfUnit::Minutes) => Slot::Sure(&mut plan.attack_engine.minutes),
            Part::SupplyEngine(OfUnit::Minutes) => {
                let engine = plan.supply_engine.as_mut();
                engine.map_or(Slot::Nowhere, |engine| Slot::Sure(&mut engine.minutes))
            }
            Part::AttackEngine(_) | Part::SupplyEngine(_) => Slot::Nowhere,
            Part::Own(place, of) => of_tanker(&mut plan.own[place], of),
            Part::Aid(place, of) => of_tanker(&mut plan.aid[place], of),
            Part::TankHolds(place) => Slot::Sure(&mut plan.drop_tanks[place].holds),
            Part::Source(place, of) => {
                let source = &mut plan.sources[place];
                match of {
                    OfSource::Name | OfSource::PumpedBy => Slot::Nowhere,
                    OfSource::Flow => Slot::Sure(&mut source.flow),
                    OfSource::Positions => Slot::Free(&mut source.positions),
                    OfSource::Ready => Slot::Free(&mut source.ready),
                    OfSource::PumpTurnout => Slot::Free(&mut source.pump_turnout),
                    OfSource::Road => Slot::Sure(&mut source.road),
                    OfSource::Speed => Slot::Free(&mut source.speed),
                    OfSource::Gravel => Slot::Free(&mut source.gravel),
                    OfSource::GravelSpeed => Slot::Free(&mut source.gravel_speed),
                    OfSource::Holds => Slot::Free(&mut source.holds),
                }
            }
        }
    }
}

fn of_tanker(tanker: &mut Tanker, of: OfUnit) -> Slot<'_> {
    match of {
        OfUnit::Water => Slot::Sure(&mut tanker.water),
        OfUnit::Minutes => Slot::Sure(&mut tanker.minutes),
        OfUnit::Empties => Slot::Free(&mut tanker.empties_in),
        OfUnit::CalledAt => Slot::Free(&mut tanker.called_at),
        OfUnit::Turnout => Slot::Free(&mut tanker.turnout),
        OfUnit::Name | OfUnit::Department | OfUnit::ComesWhole | OfUnit::Alarm => Slot::Nowhere,
    }
}
