//! What can be wrong with a value, and all that is: one method for each kind of value.

use std::collections::HashSet;

use super::calls::Call;
use super::limits::{self, Bounds, Limit, Measure};
use super::place::{Part, Place};
use super::shared_luck::Failure;
use super::time_taken::TimeTaken;

/// Something in a plan that keeps it from running.
#[derive(Debug, Clone, PartialEq)]
pub struct Mistake {
    /// Where.
    pub place: Place,
    /// What is wrong.
    pub wrong: Wrong,
}

/// What is wrong with a value, with the numbers in it: gallons, gallons a minute, minutes, miles.
#[derive(Debug, Clone, PartialEq)]
pub enum Wrong {
    /// A number that is not finite or not in its range.
    OutOfRange {
        /// What it measures.
        measure: Measure,
        /// The number.
        value: f64,
        /// Its range.
        bounds: Bounds,
    },
    /// The attack engine comes with this chance only.
    AttackEngineMayStay(f64),
    /// A list with too few or too many entries.
    Entries {
        /// Its entries.
        length: usize,
        /// The fewest there may be.
        least: usize,
        /// The most there may be.
        most: usize,
    },
    /// A name without a letter in it.
    EmptyName,
    /// A name of more than this many characters.
    LongName(usize),
    /// A name with a control character in it.
    ControlInName,
    /// A triangular duration whose times do not rise.
    NotRising {
        /// The least.
        low: f64,
        /// The likely one.
        likely: f64,
        /// The greatest.
        high: f64,
    },
    /// A uniform duration whose least time is above its greatest.
    LowAboveHigh {
        /// The least.
        low: f64,
        /// The greatest.
        high: f64,
    },
    /// The reserve is more than the attack engine's tank.
    ReserveAboveTank {
        /// The reserve.
        reserve: f64,
        /// The tank.
        tank: f64,
    },
    /// A step of the attack flow does not begin after the one before it.
    StepOutOfOrder {
        /// When it begins.
        from: f64,
        /// When the one before it begins.
        before: f64,
    },
    /// The lines want no water at all.
    NoAttackFlow,
    /// A dry lay, and nothing that limits how fast it fills.
    DryLayWithoutLimit,
    /// A level that the first drop tank cannot offer.
    RestartLevel {
        /// The level at which the pump is to draw.
        level: f64,
        /// The least it may be.
        least: f64,
        /// What the tank holds.
        capacity: f64,
    },
    /// Neither drop tanks nor nursing.
    NoWayToTheEngine,
    /// Nothing of a drop tank can be drawn.
    AllUnusable {
        /// What cannot be drawn.
        unusable: f64,
        /// What it holds.
        capacity: f64,
    },
    /// A tanker that is not there.
    NoSuchTanker {
        /// Its number, from 1.
        number: usize,
        /// How many there are.
        there: usize,
    },
    /// A fill site that is not there.
    NoSuchFillSite {
        /// Its number, from 1.
        number: usize,
        /// How many there are.
        there: usize,
    },
    /// A supply engine is named and there is none.
    NoSupplyEngine,
    /// Water runs into a volume without end.
    RechargeWithoutVolume,
    /// A way on which a tanker would be everywhere at once.
    LegWithoutTime {
        /// The least mean.
        least: f64,
    },
    /// A one-lane stretch that takes no time to cross.
    CrossingWithoutTime,
    /// A second one-lane stretch at one end of the haul.
    SecondOneLane,
    /// More trips than a run can be asked for.
    TooManyTrips {
        /// Trips over the watch, if nobody ever waits.
        trips: f64,
        /// The most there may be.
        most: f64,
    },
    /// A second unit of this name.
    SecondUnit(String),
    /// A second fill site of this name.
    SecondFillSite(String),
}

/// The mistakes so far, each once: a group of tankers shares one entry of the list.
#[derive(Default)]
pub(super) struct Mistakes {
    pub(super) list: Vec<Mistake>,
    seen: HashSet<(Place, String)>,
}

impl Mistakes {
    pub(super) fn wrong(&mut self, place: Place, wrong: Wrong) {
        // Two numbers that are none differ, so mistakes are told apart by how they read.
        if self.seen.insert((place.clone(), format!("{wrong:?}"))) {
            self.list.push(Mistake { place, wrong });
        }
    }

    pub(super) fn number(&mut self, place: Place, value: f64, limit: Limit) {
        if !limit.allows(value) {
            let Limit { measure, bounds } = limit;
            self.wrong(place, Wrong::OutOfRange { measure, value, bounds });
        }
    }

    pub(super) fn count(&mut self, place: Place, count: u32) {
        self.number(place, f64::from(count), limits::COUNT);
    }

    pub(super) fn entries(&mut self, place: Place, length: usize, least: usize, most: usize) {
        if !(least..=most).contains(&length) {
            self.wrong(place, Wrong::Entries { length, least, most });
        }
    }

    pub(super) fn name(&mut self, place: Place, name: &str) {
        if name.trim().is_empty() {
            self.wrong(place, Wrong::EmptyName);
        } else if name.chars().count() > limits::NAME_LENGTH {
            self.wrong(place, Wrong::LongName(limits::NAME_LENGTH));
        } else if name.chars().any(char::is_control) {
            self.wrong(place, Wrong::ControlInName);
        }
    }

    pub(super) fn call(&mut self, place: &Place, call: &Call) {
        self.number(place.at(Part::RequestedAt), call.requested_at, limits::MINUTES);
        self.time(place.at(Part::Response), &call.response);
        self.number(place.at(Part::Turnout), call.turnout, limits::CHANCE);
    }

    /// The failure of what has this place.
    pub(super) fn failure(&mut self, place: &Place, failure: Option<&Failure>) {
        let Some(Failure { chance, repair }) = failure else { return };
        let place = place.at(Part::Failure);
        self.number(place.at(Part::Chance), *chance, limits::CHANCE);
        if let Some(repair) = repair {
            self.time(place.at(Part::Repair), repair);
        }
    }

    pub(super) fn time(&mut self, place: Place, time: &TimeTaken) {
        let mut minutes =
            |part: Part, value: f64| self.number(place.at(part), value, limits::MINUTES);
        match time {
            TimeTaken::Fixed(value) => self.number(place, *value, limits::MINUTES),
            TimeTaken::Exponential { mean } => minutes(Part::Mean, *mean),
            TimeTaken::Lognormal { mean, cv } => {
                minutes(Part::Mean, *mean);
                self.number(place.at(Part::Cv), *cv, limits::CV);
            }
            TimeTaken::Triangular { low, likely, high } => {
                minutes(Part::Low, *low);
                minutes(Part::Likely, *likely);
                minutes(Part::High, *high);
                if !(low <= likely && likely <= high) {
                    let (low, likely, high) = (*low, *likely, *high);
                    self.wrong(place, Wrong::NotRising { low, likely, high });
                }
            }
            TimeTaken::Uniform { low, high } => {
                minutes(Part::Low, *low);
                minutes(Part::High, *high);
                if low > high {
                    self.wrong(place, Wrong::LowAboveHigh { low: *low, high: *high });
                }
            }
            TimeTaken::Samples(samples) => {
                let place = place.at(Part::Samples);
                let allowed = |value: &f64| limits::MINUTES.allows(*value);
                for (index, value) in samples.iter().enumerate().filter(|(_, one)| !allowed(one)) {
                    self.number(place.entry(index), *value, limits::MINUTES);
                }
                self.entries(place, samples.len(), 1, limits::SAMPLES);
            }
            TimeTaken::Weighted(weighted) => {
                let place = place.at(Part::Samples);
                for (index, (minutes, weight)) in weighted.iter().enumerate() {
                    self.number(place.entry(index), *minutes, limits::MINUTES);
                    self.number(place.entry(index), *weight, limits::CHANCE);
                }
                self.entries(place, weighted.len(), 1, limits::SAMPLES);
            }
        }
    }
}
