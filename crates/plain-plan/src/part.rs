//! The parts of a first plan, each with its place in the scenario that is made of it.

use crate::alarms::greater_alarms;
use crate::amount::Amount;
use crate::first_plan::{Engine, FirstPlan, Tanker};

/// A part of a first plan. The numbers are places in its lists.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Part {
    /// What burns, and where.
    Title,
    /// The whole flow.
    Flow,
    /// The flow to begin with.
    StartFlow,
    /// When the whole flow is wanted.
    StartUntil,
    /// How long water is wanted.
    Duration,
    /// What is kept in the engine's tank.
    Reserve,
    /// The attack engine.
    AttackEngine(OfUnit),
    /// The supply engine.
    SupplyEngine(OfUnit),
    /// The name of a second supply engine: in no place of the scenario.
    SecondSupplyEngine,
    /// An own tanker.
    Own(usize, OfUnit),
    /// A tanker that could be asked for.
    Aid(usize, OfUnit),
    /// Who brings a drop tank.
    TankBringer(usize),
    /// What a drop tank holds.
    TankHolds(usize),
    /// A source.
    Source(usize, OfSource),
}

/// What is said of a unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum OfUnit {
    /// Its name.
    Name,
    /// The department that sends it.
    Department,
    /// Whether that comes whole.
    ComesWhole,
    /// The alarm it is on.
    Alarm,
    /// The water it carries.
    Water,
    /// Minutes it takes to dump that.
    Empties,
    /// How often it comes.
    Turnout,
    /// Minutes until it is there.
    Minutes,
    /// When it can be called.
    CalledAt,
}

/// What is said of a source.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum OfSource {
    /// Its name.
    Name,
    /// What it gives.
    Flow,
    /// Tankers hooked up at once.
    Positions,
    /// When it can fill.
    Ready,
    /// Who pumps there.
    PumpedBy,
    /// How often an engine comes that drives there to pump.
    PumpTurnout,
    /// The road to it.
    Road,
    /// The speed on it.
    Speed,
    /// How much of it is gravel.
    Gravel,
    /// The speed on that.
    GravelSpeed,
    /// Water to be had from it.
    Holds,
}

impl Part {
    /// Whether what is wrong at this place of the scenario is this part's; of `tankers[0].response.mean` as of
    /// `tankers[0].response`.
    fn is_at(self, plan: &FirstPlan, place: &str) -> bool {
        self.places(plan).iter().any(|own| {
            place
                .strip_prefix(own.as_str())
                .is_some_and(|rest| rest.is_empty() || rest.starts_with(['.', '[']))
        })
    }

    /// Where it stands in the scenario.
    fn places(self, plan: &FirstPlan) -> Vec<String> {
        let steps = plan.start.is_some();
        let one = match self {
            Part::Title => "title".to_owned(),
            Part::Flow if steps => "incident.attack_flow[1].flow".to_owned(),
            Part::Flow => "incident.attack_flow".to_owned(),
            Part::StartFlow => "incident.attack_flow[0].flow".to_owned(),
            Part::StartUntil => "incident.attack_flow[1].from".to_owned(),
            Part::Duration => "incident.duration".to_owned(),
            Part::Reserve => "incident.reserve".to_owned(),
            Part::AttackEngine(OfUnit::Water) => "attack_engine.tank".to_owned(),
            Part::AttackEngine(of) => format!("attack_engine.{}", of.key()),
            Part::SupplyEngine(of) => format!("supply.engine.{}", of.key()),
            Part::SecondSupplyEngine => return Vec::new(),
            Part::Own(number, of) => format!("tankers[{number}].{}", of.key()),
            Part::Aid(number, OfUnit::CalledAt) if plan.aid[number].alarm.is_some() => {
                // The minute of an alarm stands once, for all that are on it.
                let alarms = greater_alarms(&plan.aid);
                let own = alarms.iter().find(|(_, place, _)| *place == number);
                return own
                    .map(|(alarm, ..)| format!("alarms.{}", alarm.key()))
                    .into_iter()
                    .collect();
            }
            Part::Aid(number, of) => format!("aid[{number}].{}", of.key()),
            Part::TankBringer(number) => format!("drop_tanks[{number}].brought_by"),
            Part::TankHolds(number) => format!("drop_tanks[{number}].capacity"),
            Part::Source(number, of) => {
                let keys: &[&str] = match of {
                    OfSource::Name => &["name"],
                    OfSource::Flow => &["flow"],
                    OfSource::Positions => &["positions"],
                    OfSource::Ready => &["ready", "source_pump.response", "source_pump.setup"],
                    // Before the pump as a whole, which holds it.
                    OfSource::PumpTurnout => &["source_pump.turnout"],
                    OfSource::PumpedBy => &["source_pump"],
                    OfSource::Road => &[
                        "out.miles",
                        "back.miles",
                        "out.km",
                        "back.km",
                        "out.stretches[0].miles",
                        "back.stretches[0].miles",
                        "out.stretches[0].km",
                        "back.stretches[0].km",
                    ],
                    OfSource::Speed => &[
                        "out.mph",
                        "back.mph",
                        "out.kmh",
                        "back.kmh",
                        "out.stretches[0].mph",
                        "back.stretches[0].mph",
                        "out.stretches[0].kmh",
                        "back.stretches[0].kmh",
                    ],
                    OfSource::Gravel => &[
                        "out.stretches[1].miles",
                        "back.stretches[1].miles",
                        "out.stretches[1].km",
                        "back.stretches[1].km",
                    ],
                    OfSource::GravelSpeed => &[
                        "out.stretches[1].mph",
                        "back.stretches[1].mph",
                        "out.stretches[1].kmh",
                        "back.stretches[1].kmh",
                    ],
                    OfSource::Holds => &["volume"],
                };
                return keys.iter().map(|key| format!("fill_sites[{number}].{key}")).collect();
            }
        };
        vec![one]
    }

    /// Every part that a plan can have wrong.
    fn all(plan: &FirstPlan) -> Vec<Part> {
        const UNIT: [OfUnit; 9] = [
            OfUnit::Name,
            OfUnit::Department,
            OfUnit::ComesWhole,
            OfUnit::Alarm,
            OfUnit::Water,
            OfUnit::Empties,
            OfUnit::Turnout,
            OfUnit::Minutes,
            OfUnit::CalledAt,
        ];
        const SOURCE: [OfSource; 11] = [
            OfSource::Name,
            OfSource::Flow,
            OfSource::Positions,
            OfSource::Ready,
            OfSource::PumpTurnout,
            OfSource::PumpedBy,
            OfSource::Road,
            OfSource::Speed,
            OfSource::Gravel,
            OfSource::GravelSpeed,
            OfSource::Holds,
        ];
        let mut all = vec![
            Part::Title,
            Part::StartFlow,
            Part::StartUntil,
            Part::Flow,
            Part::Duration,
            Part::Reserve,
        ];
        all.extend(UNIT.map(Part::AttackEngine));
        all.extend(UNIT.map(Part::SupplyEngine));
        for of in UNIT {
            all.extend((0..plan.own.len()).map(|number| Part::Own(number, of)));
            all.extend((0..plan.aid.len()).map(|number| Part::Aid(number, of)));
        }
        for number in 0..plan.drop_tanks.len() {
            all.extend([Part::TankBringer(number), Part::TankHolds(number)]);
        }
        for of in SOURCE {
            all.extend((0..plan.sources.len()).map(|number| Part::Source(number, of)));
        }
        all
    }

    /// Puts a sound value in place of one that is wrong, so that the rest can still be checked. A name is told apart by
    /// its part.
    pub(crate) fn make_sound(self, plan: &mut FirstPlan) {
        let some = || Amount::plain(10.0);
        let name = || format!("{self:?}");
        let tanker = |tanker: &mut Tanker, of| match of {
            OfUnit::Name => tanker.name = name(),
            OfUnit::Department => (tanker.department, tanker.comes_whole) = (None, false),
            OfUnit::ComesWhole => tanker.comes_whole = false,
            OfUnit::Alarm => tanker.alarm = None,
            OfUnit::Water => tanker.water = Amount::plain(2_000.0),
            OfUnit::Empties => tanker.empties_in = None,
            OfUnit::Turnout => tanker.turnout = None,
            OfUnit::Minutes => tanker.minutes = some(),
            OfUnit::CalledAt => (tanker.called_at, tanker.alarm) = (None, None),
        };
        let engine = |engine: &mut Engine, of| match of {
            OfUnit::Name => engine.name = name(),
            OfUnit::Water => engine.water = Some(Amount::plain(5_000.0)),
            OfUnit::Minutes => engine.minutes = some(),
            OfUnit::Department
            | OfUnit::ComesWhole
            | OfUnit::Alarm
            | OfUnit::Empties
            | OfUnit::Turnout
            | OfUnit::CalledAt => {}
        };
        match self {
            Part::Title => plan.title = name(),
            Part::Flow => plan.flow = Amount::plain(400.0),
            Part::StartFlow | Part::StartUntil => plan.start = None,
            Part::Duration => plan.duration = Amount::plain(120.0),
            Part::Reserve => plan.reserve = Amount::plain(0.0),
            Part::AttackEngine(of) => engine(&mut plan.attack_engine, of),
            Part::SupplyEngine(of) => plan.supply_engine.iter_mut().for_each(|one| engine(one, of)),
            Part::SecondSupplyEngine => plan.second_supply_engine = None,
            Part::Own(number, of) => tanker(&mut plan.own[number], of),
            Part::Aid(number, of) => tanker(&mut plan.aid[number], of),
            Part::TankBringer(_) => plan.drop_tanks.clear(),
            // Its bringer may have been put right before, and it with it.
            Part::TankHolds(number) => (plan.drop_tanks.get_mut(number).into_iter())
                .for_each(|tank| tank.holds = Amount::plain(2_500.0)),
            Part::Source(number, of) => {
                let source = &mut plan.sources[number];
                match of {
                    OfSource::Name => source.name = name(),
                    OfSource::Flow => source.flow = Amount::plain(500.0),
                    OfSource::Positions => source.positions = None,
                    OfSource::Ready | OfSource::PumpedBy => {
                        (source.ready, source.pumped_by) = (Some(some()), None);
                        (source.pump_draws_in, source.pump_turnout) = (None, None);
                    }
                    OfSource::Road => source.road = Amount::plain(2.0),
                    OfSource::Speed => {
                        (source.speed, source.gravel, source.gravel_speed) = (None, None, None);
                    }
                    OfSource::Gravel | OfSource::GravelSpeed => {
                        (source.gravel, source.gravel_speed) = (None, None);
                    }
                    OfSource::PumpTurnout => source.pump_turnout = None,
                    OfSource::Holds => source.holds = None,
                }
            }
        }
    }

    /// The part that stands at a place of the scenario made of the plan.
    pub fn at(plan: &FirstPlan, place: &str) -> Option<Part> {
        Part::all(plan).into_iter().find(|part| part.is_at(plan, place))
    }
}

impl OfUnit {
    fn key(self) -> &'static str {
        match self {
            OfUnit::Name => "name",
            OfUnit::Department => "department",
            OfUnit::ComesWhole => "comes_whole",
            OfUnit::Alarm => "alarm",
            OfUnit::Water => "capacity",
            OfUnit::Empties => "dump_rate",
            OfUnit::Turnout => "turnout",
            OfUnit::Minutes => "response",
            OfUnit::CalledAt => "requested_at",
        }
    }
}
