//! What many readings of a step say, and which of them stand out.

use crate::course::Course;
use crate::steps::{Reading, Step};

/// What many readings say, minutes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Figures {
    /// How many.
    pub readings: usize,
    /// The middle one.
    pub median: f64,
    /// The least.
    pub low: f64,
    /// The greatest.
    pub high: f64,
    /// Their mean.
    pub mean: f64,
    /// Their standard deviation (n - 1); 0 for a single one.
    pub deviation: f64,
}

/// The figures of these minutes; `None` of none.
pub fn figures(minutes: &[f64]) -> Option<Figures> {
    let count = minutes.len() as f64;
    let median = middle(minutes.to_vec())?;
    let mean = minutes.iter().sum::<f64>() / count;
    let squares: f64 = minutes.iter().map(|one| (one - mean).powi(2)).sum();
    Some(Figures {
        readings: minutes.len(),
        median,
        low: minutes.iter().copied().fold(f64::INFINITY, f64::min),
        high: minutes.iter().copied().fold(f64::NEG_INFINITY, f64::max),
        mean,
        deviation: if minutes.len() > 1 { (squares / (count - 1.0)).sqrt() } else { 0.0 },
    })
}

/// The median; of an even number the mean of the two in the middle.
pub(crate) fn middle(mut values: Vec<f64>) -> Option<f64> {
    values.sort_by(f64::total_cmp);
    let (above, below) = (*values.get(values.len() / 2)?, values[(values.len() - 1) / 2]);
    Some(f64::midpoint(above, below))
}

/// A reading that stands out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Outlier {
    /// Its place among the readings.
    pub reading: usize,
    /// What is usual for such a load, minutes: the median of the others like it.
    pub usual: f64,
}

/// Readings that stand out from those like it (the same step; of drives and fills the same site; fills and dumps
/// by the load): modified z-score above 3.5, on logarithms because times are skewed.
///
/// - Source: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.17, which gives the score and the limit
///   after Iglewicz and Hoaglin (1993).
pub fn outliers(readings: &[Reading], course: &Course, grain: f64) -> Vec<Outlier> {
    /// The limit of the score.
    const LIMIT: f64 = 3.5;
    /// The score's factor: 0.6745 is the upper quartile of the normal distribution.
    const QUARTILE: f64 = 0.6745;
    /// Of fewer readings nothing stands out.
    const ENOUGH: usize = 5;
    /// Whole minutes hide the spread of short steps, and with it what stands out; so many times the usual, and so
    /// many minutes more, is asked about anyway. Judgement.
    const FAR: f64 = 5.0;
    const FAR_MINUTES: f64 = 3.0;
    /// Times within a fifth of each other never do. Judgement.
    const LEAST_SPREAD: f64 = 0.06;
    let scale = |one: &Reading| match one.step {
        Step::Fill | Step::Dump => course.tankers[one.tanker].load,
        _ => 1.0,
    };
    let mut groups: Vec<(Step, Option<usize>)> =
        readings.iter().map(|one| (one.step, one.site)).collect();
    groups.sort_unstable();
    groups.dedup();
    let mut found = Vec::new();
    for group in groups {
        let own: Vec<usize> = (0..readings.len())
            .filter(|place| (readings[*place].step, readings[*place].site) == group)
            .collect();
        if own.len() < ENOUGH {
            continue;
        }
        // A time shorter than what it was written to is not known any closer.
        let least = grain / 2.0;
        let logs = |place: usize| {
            let one = &readings[place];
            (one.minutes.max(least) / scale(one)).ln()
        };
        let Some(median) = middle(own.iter().map(|place| logs(*place)).collect()) else { continue };
        let away = middle(own.iter().map(|place| (logs(*place) - median).abs()).collect());
        for place in own {
            let usual = median.exp() * scale(&readings[place]);
            // What the reading error alone does.
            let of_grain = grain / 6.0_f64.sqrt() / usual.max(least);
            let spread = away.unwrap_or(0.0).max(LEAST_SPREAD).max(QUARTILE * of_grain);
            let is_far = readings[place].minutes > FAR * usual.max(grain)
                && readings[place].minutes - usual > FAR_MINUTES;
            if is_far || QUARTILE * (logs(place) - median).abs() / spread > LIMIT {
                found.push(Outlier { reading: place, usual });
            }
        }
    }
    found.sort_by_key(|one| one.reading);
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::course::{CourseTanker, Site};

    #[test]
    fn the_handbooks_middle_of_an_even_and_an_odd_number() {
        assert_eq!(middle(vec![3.0, 1.0, 2.0]), Some(2.0));
        assert_eq!(middle(vec![4.0, 1.0, 2.0, 3.0]), Some(2.5));
        assert_eq!(middle(vec![]), None);
        // NIST/SEMATECH e-Handbook, Michelson's rule of n - 1: deviations of 1, 2, 3, 4 are sqrt(5/3).
        let found = figures(&[1.0, 2.0, 3.0, 4.0]).expect("figures");
        assert!((found.deviation - (5.0_f64 / 3.0).sqrt()).abs() < 1e-12);
    }

    #[test]
    fn what_stands_out_is_found_and_what_is_a_larger_load_is_not() {
        let course = Course {
            tankers: [1_000.0, 3_000.0]
                .map(|load| CourseTanker { name: String::new(), load, site: None })
                .to_vec(),
            sites: vec![Site { name: String::new(), positions: 1, one_at_a_time: true }],
            dump_positions: 1,
        };
        let dump = |tanker, minutes, row| Reading {
            step: Step::Dump,
            tanker,
            site: None,
            row,
            minutes,
            marked: false,
        };
        let mut readings: Vec<Reading> =
            (0..5).map(|row| dump(0, 1.0 + 0.05 * row as f64, row)).collect();
        readings.extend((5..10).map(|row| dump(1, 3.0 + 0.1 * row as f64, row)));
        assert_eq!(outliers(&readings, &course, 1.0 / 60.0), []);
        readings.push(dump(0, 3.0, 10));
        let found = outliers(&readings, &course, 1.0 / 60.0);
        assert_eq!(found.iter().map(|one| one.reading).collect::<Vec<_>>(), [10]);
        assert!((found[0].usual - 1.15).abs() < 0.1, "{found:?}");
    }
}
