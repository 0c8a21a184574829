//! What an input may be, given what it rests on: one place in its distribution gives one duration or number.

use shuttle_sim::{RestsOn, TimeTaken};
use statrs::distribution::{ChiSquared, ContinuousCDF, Normal};

/// The 90% quantile of the standard normal: a guess is off by its factor either way in 80 of 100 cases.
const Z_90: f64 = 1.281_551_565_544_600_4;
/// The most that a drawn coefficient of variation may be: what a plan may state. From three readings a spread
/// without end would follow now and then.
const MOST_CV: f64 = 5.0;

/// The standard normal quantile.
pub(crate) fn normal(u: f64) -> f64 {
    Normal::standard().inverse_cdf(u)
}

/// How many numbers between 0 and 1 one draw of an input takes.
///
/// - Given: a duration that it is about; `None` for a plain number.
pub fn numbers_needed(rests_on: RestsOn, time: Option<&TimeTaken>) -> usize {
    match (rests_on, time) {
        (RestsOn::Readings(_), Some(TimeTaken::Samples(samples))) => samples.len(),
        (RestsOn::Readings(_), _) => 2,
        (RestsOn::Guess(_), _) => 1,
    }
}

/// The standard deviation of the logarithm of a guess with this factor.
pub fn log_sd_of_guess(factor: f64) -> f64 {
    factor.ln() / Z_90
}

/// The factor that a guess is off by: lognormal with median 1, 80% of it from 1 / `factor` to `factor`.
pub fn guessed(factor: f64, u: f64) -> f64 {
    (log_sd_of_guess(factor) * normal(u)).exp()
}

/// The duration under one draw.
///
/// - Given: `numbers`, strictly between 0 and 1, as many as [`numbers_needed`] says.
pub fn time(stated: &TimeTaken, rests_on: RestsOn, numbers: &[f64]) -> TimeTaken {
    match (rests_on, stated) {
        (RestsOn::Guess(factor), _) => stated.scaled(guessed(factor, numbers[0])),
        (RestsOn::Readings(_), TimeTaken::Samples(samples)) => bootstrap(samples, numbers),
        (RestsOn::Readings(readings), TimeTaken::Lognormal { mean, cv }) if *cv > 0.0 => {
            let (mean, cv) = timed(*mean, *cv, readings, numbers[0], numbers[1]);
            TimeTaken::Lognormal { mean, cv }
        }
        // Readings without any spread, or a change that put another duration in place of what was timed.
        (RestsOn::Readings(_), other) => other.clone(),
    }
}

/// Mean and coefficient of variation under one draw, where those stated come from so many readings: a lognormal
/// whose logarithms have a prior flat in their mean and in the logarithm of their standard deviation.
///
/// - Source: Gelman et al., "Bayesian Data Analysis" (3rd ed. 2013), section 3.2: the variance is scaled inverse
///   chi-squared with n - 1 degrees of freedom, the mean normal given it.
/// - Limits: mean and variance of the readings' logarithms are taken from their mean and cv as those of a
///   lognormal; the cv drawn stays below 5.
pub fn timed(mean: f64, cv: f64, readings: u32, u_variance: f64, u_mean: f64) -> (f64, f64) {
    let n = f64::from(readings);
    let of_logs = (cv * cv).ln_1p();
    let center = mean.ln() - 0.5 * of_logs;
    let freedom = ChiSquared::new(n - 1.0).expect("three readings at least");
    let most = (MOST_CV * MOST_CV).ln_1p();
    let variance = ((n - 1.0) * of_logs / freedom.inverse_cdf(1.0 - u_variance)).min(most);
    let mu = center + (variance / n).sqrt() * normal(u_mean);
    ((mu + 0.5 * variance).exp(), variance.exp_m1().sqrt())
}

/// The readings with weights that are uniform over all weights (Dirichlet, all parameters 1): shares of
/// exponential numbers. In rising order.
///
/// - Source: Rubin, "The Bayesian bootstrap", Ann. Statist. 9 (1981), 130-134.
/// - Limits: nothing beyond the readings can ever come, so with few of them the range is too narrow; by how much
///   is told in `tests/VALIDATION.md`.
fn bootstrap(samples: &[f64], numbers: &[f64]) -> TimeTaken {
    let gaps: Vec<f64> = numbers.iter().map(|u| -u.ln()).collect();
    let all: f64 = gaps.iter().sum();
    let mut weighted: Vec<(f64, f64)> =
        samples.iter().zip(&gaps).map(|(minutes, gap)| (*minutes, gap / all)).collect();
    weighted.sort_by(|a, b| a.0.total_cmp(&b.0));
    TimeTaken::Weighted(weighted)
}

#[cfg(test)]
mod tests;
