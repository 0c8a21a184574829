//! The range of a figure over draws of the inputs, each known only up to the luck of its runs.

use super::LEVEL;

/// A figure over what the inputs may be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Range {
    /// Its mean.
    pub mean: f64,
    /// Half of it lies below this.
    pub median: f64,
    /// A tenth of it lies below this.
    pub low: f64,
    /// A tenth lies above.
    pub high: f64,
    /// Its variance over the inputs, without that of the runs.
    pub variance: f64,
}

/// Figures by draw, drawn together around their mean so that the luck of the runs does not widen them.
#[derive(Debug, Clone)]
pub struct Figures {
    /// By draw.
    pub values: Vec<f64>,
    /// Over all of them.
    pub range: Range,
}

impl Figures {
    /// - Given: by draw an estimate and the unbiased variance of its noise; noises are independent. At least two.
    /// - Source: Louis, "Estimating a population of parameter values using Bayes and empirical Bayes methods",
    ///   J. Am. Stat. Assoc. 79 (1984), 393-398: estimates shrunk by the root of the share of their variance that
    ///   is not noise have the variance of what they estimate.
    pub fn of(estimates: &[(f64, f64)]) -> Figures {
        let count = estimates.len() as f64;
        let mean = estimates.iter().map(|(value, _)| value).sum::<f64>() / count;
        let seen =
            estimates.iter().map(|(value, _)| (value - mean).powi(2)).sum::<f64>() / (count - 1.0);
        let noise = estimates.iter().map(|(_, noise)| noise).sum::<f64>() / count;
        let variance = (seen - noise).max(0.0);
        let together = if seen > 0.0 { (variance / seen).sqrt() } else { 0.0 };
        let values: Vec<f64> =
            estimates.iter().map(|(value, _)| mean + together * (value - mean)).collect();
        let mut sorted = values.clone();
        sorted.sort_by(f64::total_cmp);
        let tail = 0.5 * (1.0 - LEVEL);
        let [low, median, high] = [tail, 0.5, 1.0 - tail].map(|q| quantile(&sorted, q));
        Figures { values, range: Range { mean, median, low, high, variance } }
    }

    /// Chances, from how many of so many fires ran short.
    pub fn of_chances(hits: &[u64], fires: u64) -> Figures {
        let estimates: Vec<(f64, f64)> = hits.iter().map(|hits| chance(*hits, fires)).collect();
        Figures::of(&estimates)
    }

    /// Differences of chances, the second less the first, of plans that met the same fires.
    pub fn of_differences(pairs: &[Paired], fires: u64) -> Figures {
        let of = fires as f64;
        let estimates: Vec<(f64, f64)> = (pairs.iter())
            .map(|pair| {
                let (more, fewer) = (pair.only_second as f64, pair.only_first as f64);
                let by = (more - fewer) / of;
                (by, ((more + fewer) / of - by * by) / (of - 1.0))
            })
            .collect();
        Figures::of(&estimates)
    }

    /// The share of the draws in which it is at least this.
    pub fn share_at_least(&self, limit: f64) -> f64 {
        let reached = self.values.iter().filter(|value| **value >= limit).count();
        reached as f64 / self.values.len() as f64
    }
}

/// In how many fires of one draw only one of two plans ran short.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Paired {
    /// Only the first did.
    pub only_first: u64,
    /// Only the second did.
    pub only_second: u64,
}

/// A chance and the unbiased variance of its noise.
fn chance(hits: u64, fires: u64) -> (f64, f64) {
    let share = hits as f64 / fires as f64;
    (share, share * (1.0 - share) / (fires as f64 - 1.0))
}

/// The quantile of sorted values, straight between them.
pub(super) fn quantile(sorted: &[f64], q: f64) -> f64 {
    let at = q * (sorted.len() - 1) as f64;
    let below = at.floor() as usize;
    let above = (below + 1).min(sorted.len() - 1);
    sorted[below] + (at - below as f64) * (sorted[above] - sorted[below])
}

#[cfg(test)]
mod tests;
