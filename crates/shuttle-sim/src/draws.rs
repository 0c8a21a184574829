//! Luck: every draw is found by its key, never taken from a running stream.
//!
//! The key is (seed, replication, who, what for, which trip). Two plans that share a unit meet the
//! same luck for it, so adding a tanker leaves the other tankers' draws untouched and the
//! difference between two plans is sharp with few runs.

use rand::rand_core::{Infallible, TryRng};
use statrs::distribution::{ContinuousCDF, Normal};
use std::sync::LazyLock;

use crate::time_taken::TimeTaken;

/// What a draw is for. The numbers are part of the meaning of a seed: append, never renumber.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[repr(u8)]
pub enum Purpose {
    /// Response of a unit, or of a drop tank with its own vehicle.
    Response = 1,
    /// First water after arrival.
    WaterOn = 2,
    /// Setting up a drop tank or the draft.
    Setup = 3,
    /// Getting prime back.
    Reprime = 4,
    /// When a fill site can serve.
    Ready = 5,
    /// The road to the fill site.
    TravelOut = 6,
    /// Connecting at the fill site.
    FillConnect = 7,
    /// Disconnecting at the fill site.
    FillDisconnect = 8,
    /// The road to the scene.
    TravelBack = 9,
    /// Getting into place at a drop tank.
    DumpPosition = 10,
    /// Pulling clear of a drop tank.
    DumpClear = 11,
    /// Connecting to the attack engine.
    NurseConnect = 12,
    /// Disconnecting from the attack engine.
    NurseDisconnect = 13,
    /// Whether a trip ends in a breakdown.
    Breakdown = 14,
    /// How long a repair takes.
    Repair = 15,
    /// Crossing a one-lane stretch by the scene, outbound.
    CrossSceneOut = 16,
    /// Crossing a one-lane stretch by the fill site, outbound.
    CrossSiteOut = 17,
    /// Crossing a one-lane stretch by the fill site, inbound.
    CrossSiteBack = 18,
    /// Crossing a one-lane stretch by the scene, inbound.
    CrossSceneBack = 19,
}

/// Where durations come from in one run.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Luck {
    /// Every duration at its mean, no breakdowns.
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
    Drawn { base: u64 },
}

impl Draws {
    pub fn new(luck: Luck) -> Draws {
        match luck {
            Luck::Planned => Draws::Planned,
            Luck::Drawn { seed, replication } => {
                Draws::Drawn { base: mix(mix(seed) ^ replication.wrapping_mul(GOLDEN)) }
            }
        }
    }

    /// A duration in minutes.
    pub fn minutes(
        self,
        time: &Sampler,
        samples: &[f64],
        who: u64,
        purpose: Purpose,
        trip: u32,
    ) -> f64 {
        if let Sampler::Fixed(minutes) = time {
            return *minutes;
        }
        match self {
            Draws::Planned => time.mean(samples),
            Draws::Drawn { base } => time.at(uniform(base, who, purpose, trip), samples),
        }
    }

    /// Whether something of this chance happens; never in a planned run.
    pub fn happens(self, chance: f64, who: u64, purpose: Purpose, trip: u32) -> bool {
        match self {
            Draws::Planned => false,
            Draws::Drawn { base } => chance > 0.0 && uniform(base, who, purpose, trip) < chance,
        }
    }
}

/// The key of a unit's draws: a hash of its name (64-bit FNV-1a), so that it does not depend on
/// what else is in the list.
pub(crate) fn key_of(kind: &str, name: &str) -> u64 {
    let bytes = kind.bytes().chain([0]).chain(name.bytes());
    bytes.fold(0xcbf2_9ce4_8422_2325, |hash, byte| {
        (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3)
    })
}

/// A number strictly between 0 and 1 for one key.
fn uniform(base: u64, who: u64, purpose: Purpose, trip: u32) -> f64 {
    let what = (u64::from(trip) << 8) | purpose as u64;
    let bits = mix(mix(base ^ who).wrapping_add(what.wrapping_mul(GOLDEN)));
    // 53 bits and a half: never 0 and never 1, so every quantile is finite.
    ((bits >> 11) as f64 + 0.5) * (1.0 / (1u64 << 53) as f64)
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
    who: u64,
    trip: u32,
}

impl KeyedStream {
    /// The stream of the unit called `name` in one replication.
    pub fn new(seed: u64, replication: u64, name: &str) -> KeyedStream {
        KeyedStream {
            base: mix(mix(seed) ^ replication.wrapping_mul(GOLDEN)),
            who: key_of("tanker", name),
            trip: 0,
        }
    }

    /// The next number strictly between 0 and 1, as the engine would draw it for `purpose`.
    pub fn next_uniform(&mut self, purpose: Purpose) -> f64 {
        self.trip = self.trip.wrapping_add(1);
        uniform(self.base, self.who, purpose, self.trip)
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

/// A [`TimeTaken`] made ready to draw from: one monotone uniform a draw.
#[derive(Debug, Clone, Copy)]
pub enum Sampler {
    /// Always the same, minutes.
    Fixed(f64),
    /// exp(mu + sigma z).
    Lognormal {
        /// Mean, minutes.
        mean: f64,
        /// Mean of the logarithm.
        mu: f64,
        /// Standard deviation of the logarithm.
        sigma: f64,
    },
    /// Exponential with this mean.
    Exponential {
        /// Mean, minutes.
        mean: f64,
    },
    /// Triangular.
    Triangular {
        /// Least, minutes.
        low: f64,
        /// Most likely, minutes.
        likely: f64,
        /// Greatest, minutes.
        high: f64,
    },
    /// Uniform.
    Uniform {
        /// Least, minutes.
        low: f64,
        /// Greatest, minutes.
        high: f64,
    },
    /// One of `samples[first..first + count]`.
    Samples {
        /// Where they begin in the plan's list of samples.
        first: u32,
        /// How many.
        count: u32,
    },
}

impl Sampler {
    /// Makes a duration ready; measured samples are appended to `samples`.
    pub fn new(time: &TimeTaken, samples: &mut Vec<f64>) -> Sampler {
        match time {
            time if !time.has_spread() => Sampler::Fixed(time.mean()),
            TimeTaken::Fixed(minutes) => Sampler::Fixed(*minutes),
            TimeTaken::Lognormal { mean, cv } => {
                let variance = libm::log1p(cv * cv);
                Sampler::Lognormal {
                    mean: *mean,
                    mu: libm::log(*mean) - variance / 2.0,
                    sigma: variance.sqrt(),
                }
            }
            TimeTaken::Exponential { mean } => Sampler::Exponential { mean: *mean },
            TimeTaken::Triangular { low, likely, high } => {
                Sampler::Triangular { low: *low, likely: *likely, high: *high }
            }
            TimeTaken::Uniform { low, high } => Sampler::Uniform { low: *low, high: *high },
            TimeTaken::Samples(measured) => {
                let first = samples.len() as u32;
                samples.extend_from_slice(measured);
                Sampler::Samples { first, count: measured.len() as u32 }
            }
        }
    }

    /// The duration at this place of its distribution (`u` strictly between 0 and 1), minutes.
    pub fn at(&self, u: f64, samples: &[f64]) -> f64 {
        match *self {
            Sampler::Fixed(minutes) => minutes,
            Sampler::Lognormal { mu, sigma, .. } => libm::exp(mu + sigma * normal_quantile(u)),
            Sampler::Exponential { mean } => -mean * libm::log1p(-u),
            Sampler::Triangular { low, likely, high } => {
                let split = (likely - low) / (high - low);
                if u < split {
                    low + (u * (high - low) * (likely - low)).sqrt()
                } else {
                    high - ((1.0 - u) * (high - low) * (high - likely)).sqrt()
                }
            }
            Sampler::Uniform { low, high } => low + u * (high - low),
            Sampler::Samples { first, count } => {
                samples[first as usize + ((u * f64::from(count)) as usize).min(count as usize - 1)]
            }
        }
    }

    fn mean(&self, samples: &[f64]) -> f64 {
        match *self {
            Sampler::Fixed(minutes) => minutes,
            Sampler::Lognormal { mean, .. } | Sampler::Exponential { mean } => mean,
            Sampler::Triangular { low, likely, high } => (low + likely + high) / 3.0,
            Sampler::Uniform { low, high } => f64::midpoint(low, high),
            Sampler::Samples { first, count } => {
                let measured = &samples[first as usize..(first + count) as usize];
                measured.iter().sum::<f64>() / f64::from(count)
            }
        }
    }
}

/// Cells of the quantile table.
const CELLS: usize = 1024;
/// Cells at either end where the quantile bends too sharply for the table: computed outright.
const TAIL_CELLS: usize = 16;

/// The standard normal quantile and its slope at k / CELLS; the ends are never read.
static NORMAL: LazyLock<Vec<[f64; 2]>> = LazyLock::new(|| {
    let normal = Normal::standard();
    (0..=CELLS)
        .map(|k| {
            let z = normal.inverse_cdf(k as f64 / CELLS as f64);
            let slope = (2.0 * std::f64::consts::PI).sqrt() * libm::exp(z * z / 2.0);
            [z, slope / CELLS as f64]
        })
        .collect()
});

/// The standard normal quantile: cubic between table points, the library's own in the tails.
fn normal_quantile(u: f64) -> f64 {
    let place = u * CELLS as f64;
    let cell = place as usize;
    if !(TAIL_CELLS..CELLS - TAIL_CELLS).contains(&cell) {
        return Normal::standard().inverse_cdf(u);
    }
    let table = &*NORMAL;
    let ([z0, d0], [z1, d1]) = (table[cell], table[cell + 1]);
    let t = place - cell as f64;
    let rise = z1 - z0;
    z0 + t * (d0 + t * ((3.0 * rise - 2.0 * d0 - d1) + t * (d0 + d1 - 2.0 * rise)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_quantile_table_agrees_with_the_library() {
        // statrs' normal quantile is the outside value.
        let normal = Normal::standard();
        for k in 1..200_000 {
            let u = f64::from(k) / 200_000.0;
            let off = (normal_quantile(u) - normal.inverse_cdf(u)).abs();
            assert!(off < 2e-7, "at {u}: off by {off}");
        }
    }

    #[test]
    fn a_draw_depends_on_its_key_and_on_nothing_else() {
        let base = |seed, replication| match Draws::new(Luck::Drawn { seed, replication }) {
            Draws::Drawn { base } => base,
            Draws::Planned => unreachable!(),
        };
        let one = uniform(base(1, 2), 3, Purpose::TravelOut, 4);
        assert_eq!(one, uniform(base(1, 2), 3, Purpose::TravelOut, 4));
        for other in [
            uniform(base(2, 2), 3, Purpose::TravelOut, 4),
            uniform(base(1, 3), 3, Purpose::TravelOut, 4),
            uniform(base(1, 2), 4, Purpose::TravelOut, 4),
            uniform(base(1, 2), 3, Purpose::TravelBack, 4),
            uniform(base(1, 2), 3, Purpose::TravelOut, 5),
        ] {
            assert_ne!(one, other);
        }
    }
}
