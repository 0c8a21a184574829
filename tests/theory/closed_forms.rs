//! What theory says of closed queueing networks, computed from the formulas.

/// Throughput of `n` tankers, each away for `away` minutes on average and then at one place that
/// serves at the total rate `rate(k)` while `k` are there; loads a minute.
///
/// The balance of the birth-death chain: p(k) is proportional to the product of
/// (n - j + 1) / away / rate(j) for j = 1..k, and the throughput is the mean of rate(k).
/// With `rate` constant it is the machine-repair model M/M/1//n, with min(k, c) / s M/M/c//n
/// (Gross and Harris, Fundamentals of Queueing Theory, finite-source queues). With equal sharing it
/// holds for any spread of the times (Baskett, Chandy, Muntz and Palacios 1975).
pub fn finite_source(n: usize, away: f64, rate: impl Fn(usize) -> f64) -> f64 {
    let (mut weight, mut weights, mut rates) = (1.0, 1.0, 0.0);
    for k in 1..=n {
        weight *= (n - k + 1) as f64 / away / rate(k);
        weights += weight;
        rates += weight * rate(k);
    }
    rates / weights
}

/// What mean value analysis gives for one number of tankers.
#[derive(Debug)]
pub struct MeanValues {
    /// Loads a minute.
    pub throughput: f64,
    /// Minutes at each station, waiting included.
    pub minutes_at: Vec<f64>,
}

/// Mean value analysis of single-position stations with exponential `services` and `away` minutes
/// without queueing (Reiser and Lavenberg, JACM 27, 1980).
pub fn mean_values(n: usize, away: f64, services: &[f64]) -> MeanValues {
    let mut found = vec![0.0; services.len()];
    let mut values = MeanValues { throughput: 0.0, minutes_at: services.to_vec() };
    for k in 1..=n {
        // Who arrives finds what one tanker fewer would leave there on average.
        values.minutes_at =
            services.iter().zip(&found).map(|(service, found)| service * (1.0 + found)).collect();
        values.throughput = k as f64 / (away + values.minutes_at.iter().sum::<f64>());
        found = values.minutes_at.iter().map(|minutes| values.throughput * minutes).collect();
    }
    values
}

/// How far the two ways are apart for these services, loads a minute.
fn apart(n: usize, by_balance: f64, by_mean_values: f64) -> f64 {
    let balance = finite_source(n, 14.5, |_| 1.0 / by_balance);
    (balance - mean_values(n, 14.5, &[by_mean_values]).throughput).abs()
}

#[test]
fn with_one_station_the_two_ways_agree() {
    for n in 1..=12 {
        assert!(apart(n, 3.5, 3.5) < 1e-12, "{n} tankers");
    }
}

#[test]
fn a_service_longer_in_one_of_them_is_found_out() {
    for n in 1..=12 {
        assert!(apart(n, 3.5, 1.02 * 3.5) > 1e-4, "{n} tankers");
    }
}
