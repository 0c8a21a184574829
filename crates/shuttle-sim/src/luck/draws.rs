//! Luck: every draw is found by its key, never taken from a running stream.
//!
//! The key is (seed, replication, who, what for, which trip). Two plans that share a unit meet the
//! same luck for it, so adding a tanker leaves the other tankers' draws untouched and the
//! difference between two plans is sharp with few runs.

use rand::rand_core::{Infallible, TryRng};

use super::factors::Factors;
use super::purpose::Purpose;
use super::sampler::{Duration, Sampler};
use crate::time::Ticks;

/// Where durations come from in one run.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Luck {
    /// Every duration at its mean, every factor 1; everybody comes and nothing breaks down or fails.
    Planned,
    /// Drawn, from this seed, for this replication.
    Drawn {
        /// The batch's seed.
        seed: u64,
        /// Which run of the batch, from 0.
        replication: u64,
    },
}

/// One run's draws.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Draws {
    Planned,
    Drawn { base: u64, factors: Factors },
}

impl Draws {
    pub fn new(luck: Luck) -> Draws {
        match luck {
            Luck::Planned => Draws::Planned,
            Luck::Drawn { seed, replication } => {
                Draws::Drawn { base: base(seed, replication), factors: Factors::NONE }
            }
        }
    }

    /// The same draws, their durations multiplied by what the whole fire shares.
    pub fn multiplied_by(self, shared: Factors) -> Draws {
        match self {
            Draws::Planned => Draws::Planned,
            Draws::Drawn { base, .. } => Draws::Drawn { base, factors: shared },
        }
    }

    /// The draws of the unit with this key.
    pub fn of(self, who: u64) -> UnitDraws {
        match self {
            Draws::Planned => UnitDraws::Planned,
            Draws::Drawn { base, factors } => UnitDraws::Drawn { base: mix(base ^ who), factors },
        }
    }
}

/// One unit's draws in one run.
#[derive(Debug, Clone, Copy)]
pub(crate) enum UnitDraws {
    Planned,
    Drawn { base: u64, factors: Factors },
}

impl UnitDraws {
    /// How long something takes.
    #[inline]
    pub fn time(&self, time: &Duration, purpose: Purpose, trip: u32) -> Ticks {
        Ticks::of(match self {
            UnitDraws::Planned => time.mean,
            UnitDraws::Drawn { base, factors } => {
                let minutes = match &time.sampler {
                    Sampler::Fixed(minutes) => *minutes,
                    sampler => sampler.at(uniform(*base, purpose, trip)),
                };
                minutes * factors.on(purpose)
            }
        })
    }

    /// A factor drawn once a fire; 1 in a planned run.
    pub fn factor(self, spread: &Sampler, purpose: Purpose) -> f64 {
        match self {
            UnitDraws::Planned => 1.0,
            UnitDraws::Drawn { base, .. } => spread.at(uniform(base, purpose, 0)),
        }
    }

    /// Where between 0 and 1 something drawn once a fire lies; half way in a planned run.
    pub fn share(self, purpose: Purpose) -> f64 {
        match self {
            UnitDraws::Planned => 0.5,
            UnitDraws::Drawn { base, .. } => uniform(base, purpose, 0),
        }
    }

    /// The same draws with one more factor on handling: that of one crew.
    pub fn with_crew(self, crew: f64) -> UnitDraws {
        match self {
            UnitDraws::Planned => UnitDraws::Planned,
            UnitDraws::Drawn { base, factors } => {
                UnitDraws::Drawn { base, factors: factors.with_crew(crew) }
            }
        }
    }

    /// Whether something of this chance happens; never in a planned run.
    pub fn happens(self, chance: f64, purpose: Purpose, trip: u32) -> bool {
        match self {
            UnitDraws::Planned => false,
            UnitDraws::Drawn { base, .. } => chance > 0.0 && uniform(base, purpose, trip) < chance,
        }
    }
}

/// What all draws of one run share.
fn base(seed: u64, replication: u64) -> u64 {
    mix(mix(seed) ^ replication.wrapping_mul(GOLDEN))
}

/// The key of a unit's draws: a hash of its name (64-bit FNV-1a), so that it does not depend on
/// what else is in the list.
pub(crate) fn key_of(kind: &str, name: &str) -> u64 {
    let bytes = kind.bytes().chain([0]).chain(name.bytes());
    bytes.fold(0xcbf2_9ce4_8422_2325, |hash, byte| {
        (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3)
    })
}

/// A number strictly between 0 and 1 for one key; `base` is the unit's.
#[inline]
fn uniform(base: u64, purpose: Purpose, trip: u32) -> f64 {
    unit(word(base, purpose, trip))
}

/// The word of one key: every bit as good as the toss of a coin.
#[inline]
fn word(base: u64, purpose: Purpose, trip: u32) -> u64 {
    let what = (u64::from(trip) << 8) | purpose as u64;
    mix(base.wrapping_add(what.wrapping_mul(GOLDEN)))
}

/// The number strictly between 0 and 1 that a word stands for: its highest 52 bits and a half. Never 0
/// and never 1, so every quantile is finite; and 1 less this number is that of the word with every bit
/// turned.
#[inline]
pub(crate) fn unit(word: u64) -> f64 {
    let fraction = f64::from_bits(1.0_f64.to_bits() | (word >> 12)) - 1.0;
    fraction + f64::EPSILON / 2.0
}

/// 2^64 divided by the golden ratio, odd: the step of SplitMix64.
const GOLDEN: u64 = 0x9e37_79b9_7f4a_7c15;

/// The output function of SplitMix64 (Steele, Lea and Flood 2014; Stafford's variant 13).
fn mix(mut bits: u64) -> u64 {
    bits = (bits ^ (bits >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    bits = (bits ^ (bits >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    bits ^ (bits >> 31)
}

/// The draws of one key as a generator, trip by trip, for checks with general-purpose samplers.
#[derive(Debug, Clone)]
pub struct KeyedStream {
    base: u64,
    trip: u32,
}

impl KeyedStream {
    /// The stream of the unit called `name` in one replication.
    pub fn new(seed: u64, replication: u64, name: &str) -> KeyedStream {
        KeyedStream { base: mix(base(seed, replication) ^ key_of("tanker", name)), trip: 0 }
    }

    /// The next number strictly between 0 and 1, as the engine would draw it for `purpose`.
    pub fn next_uniform(&mut self, purpose: Purpose) -> f64 {
        self.trip = self.trip.wrapping_add(1);
        uniform(self.base, purpose, self.trip)
    }
}

impl TryRng for KeyedStream {
    type Error = Infallible;
    fn try_next_u32(&mut self) -> Result<u32, Infallible> {
        Ok((self.try_next_u64()? >> 32) as u32)
    }
    fn try_next_u64(&mut self) -> Result<u64, Infallible> {
        // Two draws of 32 good high bits each make one word.
        let high = (self.next_uniform(Purpose::TravelOut) * 4_294_967_296.0) as u64;
        let low = (self.next_uniform(Purpose::TravelBack) * 4_294_967_296.0) as u64;
        Ok((high << 32) | low)
    }
    fn try_fill_bytes(&mut self, bytes: &mut [u8]) -> Result<(), Infallible> {
        for chunk in bytes.chunks_mut(8) {
            let word = self.try_next_u64()?.to_le_bytes();
            chunk.copy_from_slice(&word[..chunk.len()]);
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_draw_depends_on_its_key_and_on_nothing_else() {
        let draw = |seed, replication, who, purpose, trip| {
            uniform(mix(base(seed, replication) ^ who), purpose, trip)
        };
        let one = draw(1, 2, 3, Purpose::TravelOut, 4);
        assert_eq!(one, draw(1, 2, 3, Purpose::TravelOut, 4));
        for other in [
            draw(2, 2, 3, Purpose::TravelOut, 4),
            draw(1, 3, 3, Purpose::TravelOut, 4),
            draw(1, 2, 4, Purpose::TravelOut, 4),
            draw(1, 2, 3, Purpose::TravelBack, 4),
            draw(1, 2, 3, Purpose::TravelOut, 5),
        ] {
            assert_ne!(one, other);
        }
    }
}
