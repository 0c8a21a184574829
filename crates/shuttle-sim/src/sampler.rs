//! Durations made ready to draw from: one uniform number gives one duration, and a greater number never
//! a shorter one.

use statrs::distribution::{ContinuousCDF, Normal};
use std::sync::LazyLock;

use crate::time_taken::TimeTaken;

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
}

/// What the samplers of a plan look up.
#[derive(Debug, Default)]
pub struct Tables {
    /// Measured durations, minutes.
    samples: Vec<f64>,
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
                Sampler::Lognormal { mean: *mean, table: tables.lognormal(*cv) }
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
        }
    }
}

impl Tables {
    fn lognormal(&mut self, cv: f64) -> u32 {
        let place = self.lognormals.iter().position(|other| other.cv == cv);
        place.unwrap_or_else(|| {
            self.lognormals.push(Lognormal::new(cv));
            self.lognormals.len() - 1
        }) as u32
    }
}

/// Cells of a table.
const CELLS: usize = 1024;
/// Cells at either end where the curve bends too sharply for the table: computed outright.
const TAIL_CELLS: usize = 16;

/// The lognormal of mean 1 and this coefficient of variation: cubic between the points of a table, the
/// library's normal quantile in the tails.
#[derive(Debug)]
struct Lognormal {
    cv: f64,
    /// Mean and standard deviation of the logarithm.
    mu: f64,
    sigma: f64,
    /// The quantile at k / CELLS and its rise over a cell; the ends are never read.
    points: Vec<[f64; 2]>,
}

/// The standard normal quantile at k / CELLS: shared by all tables.
static NORMAL: LazyLock<Vec<f64>> = LazyLock::new(|| {
    (0..=CELLS).map(|k| Normal::standard().inverse_cdf(k as f64 / CELLS as f64)).collect()
});

impl Lognormal {
    fn new(cv: f64) -> Lognormal {
        let variance = libm::log1p(cv * cv);
        let (mu, sigma) = (-variance / 2.0, variance.sqrt());
        let root = (2.0 * std::f64::consts::PI).sqrt();
        let point = |z: &f64| {
            let value = libm::exp(mu + sigma * z);
            [value, value * sigma * root * libm::exp(z * z / 2.0) / CELLS as f64]
        };
        Lognormal { cv, mu, sigma, points: NORMAL.iter().map(point).collect() }
    }

    #[inline]
    fn at(&self, u: f64) -> f64 {
        let place = u * CELLS as f64;
        let cell = place as u32;
        // Below the first of them it wraps to far above the last.
        if cell.wrapping_sub(TAIL_CELLS as u32) >= (CELLS - 2 * TAIL_CELLS) as u32 {
            return self.in_a_tail(u);
        }
        let Some(&[[v0, d0], [v1, d1]]) = self.points[cell as usize..].first_chunk() else {
            return self.in_a_tail(u);
        };
        let t = place - f64::from(cell);
        let rise = v1 - v0;
        v0 + t * (d0 + t * ((3.0 * rise - 2.0 * d0 - d1) + t * (d0 + d1 - 2.0 * rise)))
    }

    #[cold]
    fn in_a_tail(&self, u: f64) -> f64 {
        libm::exp(self.mu + self.sigma * Normal::standard().inverse_cdf(u))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_tables_agree_with_the_library() {
        // statrs' lognormal quantile is the outside value.
        for (cv, allowed) in [(0.05, 1e-7), (0.3, 1e-7), (1.0, 5e-7), (5.0, 2e-6)] {
            let ours = Lognormal::new(cv);
            let theirs = statrs::distribution::LogNormal::new(ours.mu, ours.sigma).expect("sound");
            for k in 1..100_000 {
                let u = f64::from(k) / 100_000.0;
                let (got, right) = (ours.at(u), theirs.inverse_cdf(u));
                assert!((got / right - 1.0).abs() < allowed, "cv {cv} at {u}: {got}, not {right}");
            }
        }
    }

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
