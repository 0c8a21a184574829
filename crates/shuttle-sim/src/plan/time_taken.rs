//! How long something takes: a fixed time or one of a few shapes of spread.

/// A duration in minutes.
#[derive(Debug, Clone, PartialEq)]
pub enum TimeTaken {
    /// Always the same.
    Fixed(f64),
    /// Lognormal with this mean and coefficient of variation (standard deviation / mean).
    Lognormal {
        /// Mean, minutes.
        mean: f64,
        /// Standard deviation divided by the mean.
        cv: f64,
    },
    /// Exponential with this mean.
    Exponential {
        /// Mean, minutes.
        mean: f64,
    },
    /// Triangular from `low` over `likely` to `high`.
    Triangular {
        /// Least, minutes.
        low: f64,
        /// Most likely, minutes.
        likely: f64,
        /// Greatest, minutes.
        high: f64,
    },
    /// Uniform from `low` to `high`.
    Uniform {
        /// Least, minutes.
        low: f64,
        /// Greatest, minutes.
        high: f64,
    },
    /// One of these, equally likely: measured drill times, minutes.
    Samples(Vec<f64>),
    /// One of these, each with its weight: measured times, minutes, in rising order, under one draw of what they
    /// may have come from. The weights add up to 1.
    Weighted(Vec<(f64, f64)>),
}

impl TimeTaken {
    /// No time at all.
    pub const NONE: TimeTaken = TimeTaken::Fixed(0.0);

    /// The mean, minutes.
    pub fn mean(&self) -> f64 {
        match self {
            TimeTaken::Fixed(minutes) => *minutes,
            TimeTaken::Lognormal { mean, .. } | TimeTaken::Exponential { mean } => *mean,
            TimeTaken::Triangular { low, likely, high } => (low + likely + high) / 3.0,
            TimeTaken::Uniform { low, high } => f64::midpoint(*low, *high),
            TimeTaken::Samples(samples) => samples.iter().sum::<f64>() / samples.len() as f64,
            TimeTaken::Weighted(weighted) => {
                weighted.iter().map(|(minutes, weight)| minutes * weight).sum()
            }
        }
    }

    /// Whether two draws can differ.
    pub fn has_spread(&self) -> bool {
        match self {
            TimeTaken::Fixed(_) => false,
            TimeTaken::Lognormal { mean, cv } => *mean > 0.0 && *cv > 0.0,
            TimeTaken::Exponential { mean } => *mean > 0.0,
            TimeTaken::Triangular { low, high, .. } | TimeTaken::Uniform { low, high } => {
                high > low
            }
            TimeTaken::Samples(samples) => samples.windows(2).any(|pair| pair[0] != pair[1]),
            TimeTaken::Weighted(weighted) => weighted.windows(2).any(|pair| pair[0].0 != pair[1].0),
        }
    }

    /// The same shape with every duration multiplied by `factor`.
    pub fn scaled(&self, factor: f64) -> TimeTaken {
        match self {
            TimeTaken::Fixed(minutes) => TimeTaken::Fixed(minutes * factor),
            TimeTaken::Lognormal { mean, cv } => {
                TimeTaken::Lognormal { mean: mean * factor, cv: *cv }
            }
            TimeTaken::Exponential { mean } => TimeTaken::Exponential { mean: mean * factor },
            TimeTaken::Triangular { low, likely, high } => TimeTaken::Triangular {
                low: low * factor,
                likely: likely * factor,
                high: high * factor,
            },
            TimeTaken::Uniform { low, high } => {
                TimeTaken::Uniform { low: low * factor, high: high * factor }
            }
            TimeTaken::Samples(samples) => {
                TimeTaken::Samples(samples.iter().map(|minutes| minutes * factor).collect())
            }
            TimeTaken::Weighted(weighted) => {
                let scaled = weighted.iter().map(|(minutes, weight)| (minutes * factor, *weight));
                TimeTaken::Weighted(scaled.collect())
            }
        }
    }
}
