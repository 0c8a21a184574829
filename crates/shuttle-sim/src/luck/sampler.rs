//! Durations made ready to draw from: one uniform number gives one duration, and a greater number never
//! a shorter one.

use std::sync::Arc;

use super::lognormal::Lognormal;
use crate::plan::TimeTaken;

/// A [`TimeTaken`] made ready to draw from.
#[derive(Debug, Clone)]
pub enum Sampler {
    /// Always the same, minutes.
    Fixed(f64),
    /// Lognormal.
    Lognormal {
        /// Mean, minutes.
        mean: f64,
        /// That of its spread.
        table: Arc<Lognormal>,
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
    /// One of these measured durations, minutes.
    Samples(Box<[f64]>),
    /// One of these measured durations, minutes, each with the sum of weights up to it.
    Weighted(Box<[(f64, f64)]>),
}

/// A duration to draw, and its mean.
#[derive(Debug)]
pub(crate) struct Duration {
    pub sampler: Sampler,
    /// Minutes.
    pub mean: f64,
}

/// The tables that the samplers of a plan share: one for each coefficient of variation.
#[derive(Debug, Default)]
pub struct Tables(Vec<Arc<Lognormal>>);

impl Sampler {
    /// Makes a duration ready; a table that it needs is added to `tables`.
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
            TimeTaken::Samples(measured) => Sampler::Samples(measured.as_slice().into()),
            TimeTaken::Weighted(measured) => {
                let mut up_to = 0.0;
                let summed = measured.iter().map(|(minutes, weight)| {
                    up_to += weight;
                    (*minutes, up_to)
                });
                Sampler::Weighted(summed.collect())
            }
        }
    }

    /// The duration at this place of its distribution (`u` strictly between 0 and 1), minutes.
    #[inline]
    pub fn at(&self, u: f64) -> f64 {
        match self {
            Sampler::Fixed(minutes) => *minutes,
            Sampler::Lognormal { mean, table } => mean * table.at(u),
            _ => self.at_without_table(u),
        }
    }

    fn at_without_table(&self, u: f64) -> f64 {
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
            Sampler::Samples(ref measured) => {
                let place = (u * measured.len() as f64) as usize;
                measured[place.min(measured.len() - 1)]
            }
            Sampler::Weighted(ref measured) => {
                // The last weight's sum may fall short of 1 by rounding.
                let place = measured.partition_point(|(_, up_to)| *up_to <= u);
                measured[place.min(measured.len() - 1)].0
            }
        }
    }
}

impl Tables {
    fn table_for(&mut self, cv: f64) -> Arc<Lognormal> {
        let place = self.0.iter().position(|other| other.cv() == cv);
        let place = place.unwrap_or_else(|| {
            self.0.push(Arc::new(Lognormal::new(cv)));
            self.0.len() - 1
        });
        Arc::clone(&self.0[place])
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
        assert_eq!(tables.0.len(), 2);
    }
}
