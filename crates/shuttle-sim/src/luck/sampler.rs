//! Durations made ready to draw from: one uniform number gives one duration, and a greater number never
//! a shorter one.

use super::lognormal::Lognormal;
use crate::plan::TimeTaken;

/// A [`TimeTaken`] made ready to draw from.
#[derive(Debug, Clone, Copy)]
pub enum Sampler {
    /// Always the same, minutes.
    Fixed(f64),
    /// Lognormal.
    Lognormal {
        /// Mean, minutes.
        mean: f64,
        /// Which of the tables is that of its spread.
        table: u32,
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
    /// One of the measured samples `first..first + count`.
    Samples {
        /// Where they begin in the list of all.
        first: u32,
        /// How many.
        count: u32,
    },
    /// One of the measured times `first..first + count`, each with its weight.
    Weighted {
        /// Where they begin in the list of all.
        first: u32,
        /// How many.
        count: u32,
    },
}

/// What the samplers of a plan look up.
#[derive(Debug, Default)]
pub struct Tables {
    /// Measured durations, minutes.
    samples: Vec<f64>,
    /// Measured durations, minutes, each with its weight and with the sum of weights up to it.
    weighted: Vec<(f64, f64, f64)>,
    /// One for each coefficient of variation.
    lognormals: Vec<Lognormal>,
}

impl Sampler {
    /// Makes a duration ready; what it looks up is added to `tables`.
    pub fn new(time: &TimeTaken, tables: &mut Tables) -> Sampler {
        match time {
            time if !time.has_spread() => Sampler::Fixed(time.mean()),
            TimeTaken::Fixed(minutes) => Sampler::Fixed(*minutes),
            TimeTaken::Lognormal { mean, cv } => {
                Sampler::Lognormal { mean: *mean, table: tables.table_for(*cv) }
            }
            TimeTaken::Exponential { mean } => Sampler::Exponential { mean: *mean },
            TimeTaken::Triangular { low, likely, high } => {
                Sampler::Triangular { low: *low, likely: *likely, high: *high }
            }
            TimeTaken::Uniform { low, high } => Sampler::Uniform { low: *low, high: *high },
            TimeTaken::Samples(measured) => {
                let first = tables.samples.len() as u32;
                tables.samples.extend_from_slice(measured);
                Sampler::Samples { first, count: measured.len() as u32 }
            }
            TimeTaken::Weighted(measured) => {
                let first = tables.weighted.len() as u32;
                let mut up_to = 0.0;
                tables.weighted.extend(measured.iter().map(|(minutes, weight)| {
                    up_to += weight;
                    (*minutes, *weight, up_to)
                }));
                Sampler::Weighted { first, count: measured.len() as u32 }
            }
        }
    }

    /// The duration at this place of its distribution (`u` strictly between 0 and 1), minutes.
    #[inline]
    pub fn at(&self, u: f64, tables: &Tables) -> f64 {
        match *self {
            Sampler::Lognormal { mean, table } => mean * tables.lognormals[table as usize].at(u),
            _ => self.at_without_table(u, tables),
        }
    }

    fn at_without_table(&self, u: f64, tables: &Tables) -> f64 {
        match *self {
            Sampler::Fixed(minutes) => minutes,
            Sampler::Lognormal { mean, .. } => mean,
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
                let place = ((u * f64::from(count)) as usize).min(count as usize - 1);
                tables.samples[first as usize + place]
            }
            Sampler::Weighted { first, count } => {
                let measured = &tables.weighted[first as usize..(first + count) as usize];
                // The last weight's sum may fall short of 1 by rounding.
                let place = measured.partition_point(|(_, _, up_to)| *up_to <= u);
                measured[place.min(measured.len() - 1)].0
            }
        }
    }

    /// The mean, minutes.
    pub(crate) fn mean(&self, tables: &Tables) -> f64 {
        match *self {
            Sampler::Fixed(minutes) => minutes,
            Sampler::Lognormal { mean, .. } | Sampler::Exponential { mean } => mean,
            Sampler::Triangular { low, likely, high } => (low + likely + high) / 3.0,
            Sampler::Uniform { low, high } => f64::midpoint(low, high),
            Sampler::Samples { first, count } => {
                let measured = &tables.samples[first as usize..(first + count) as usize];
                measured.iter().sum::<f64>() / f64::from(count)
            }
            Sampler::Weighted { first, count } => {
                let measured = &tables.weighted[first as usize..(first + count) as usize];
                measured.iter().map(|(minutes, weight, _)| minutes * weight).sum()
            }
        }
    }
}

impl Tables {
    fn table_for(&mut self, cv: f64) -> u32 {
        let place = self.lognormals.iter().position(|other| other.cv() == cv);
        place.unwrap_or_else(|| {
            self.lognormals.push(Lognormal::new(cv));
            self.lognormals.len() - 1
        }) as u32
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_table_serves_all_of_one_spread() {
        let mut tables = Tables::default();
        let lognormal = |mean, cv| TimeTaken::Lognormal { mean, cv };
        for time in [lognormal(5.0, 0.2), lognormal(7.0, 0.2), lognormal(5.0, 0.3)] {
            Sampler::new(&time, &mut tables);
        }
        assert_eq!(tables.lognormals.len(), 2);
    }
}
