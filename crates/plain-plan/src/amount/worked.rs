//! What is worked out of amounts: the rate of a tanker that empties in so many minutes, and back; sums of road.

use scenario_file::{Measure, Units, bare_number};
use serde_json::Value;

use super::Amount;

/// The most decimals that a rate or a time is worked out to.
const MOST_DECIMALS: i32 = 6;

/// Decimals that a time is said with.
const FEW_DECIMALS: i32 = 2;

impl Amount {
    /// The same with its number so many times as great.
    pub(crate) fn times(&self, factor: f64) -> Option<Amount> {
        let (number, unit) = self.number_and_unit()?;
        Some(of_unit((number * factor * 1e9).round() / 1e9, unit))
    }

    /// Whether its number is at least so much, whatever its unit.
    pub(crate) fn is_at_least(&self, least: f64) -> bool {
        self.number_and_unit().is_some_and(|(number, _)| number >= least)
    }

    /// Whether its number is this, whatever its unit.
    pub(crate) fn is_number_of(&self, number: f64) -> bool {
        self.number_and_unit().is_some_and(|(own, _)| own == number)
    }

    /// Whether it is this number, without a unit.
    pub(crate) fn is_number(&self, number: f64) -> bool {
        self.0.as_f64() == Some(number)
    }

    /// The same in the unit of another, where it has none of its own.
    pub(crate) fn in_unit_of(&self, other: &Amount) -> Amount {
        match other.number_and_unit() {
            Some((_, unit)) if !unit.is_empty() => {
                self.bare_in(unit).unwrap_or_else(|| self.clone())
            }
            _ => self.clone(),
        }
    }

    /// A time as a bare number of minutes; what is no time stays as it is.
    pub(crate) fn in_bare_minutes(&self) -> Amount {
        // Minutes are those of either system.
        bare_number(&self.0, Measure::Time, Units::Us).map_or_else(|| self.clone(), Amount::plain)
    }

    /// This and another together, to a thousandth, both in one unit or both without.
    ///
    /// - Returns: `None` where their units differ.
    pub(crate) fn plus(&self, other: &Amount) -> Option<Amount> {
        let ((one, unit), (more, its)) = (self.number_and_unit()?, other.number_and_unit()?);
        (unit == its).then(|| of_unit(rounded(one + more, 3), unit))
    }

    /// This without another, as [`Amount::plus`]; less than nothing where the other is more.
    pub(crate) fn minus(&self, other: &Amount) -> Option<Amount> {
        self.plus(&other.times(-1.0)?)
    }

    /// The rate at which this much water leaves in so many minutes, in the units of either; what makes no rate is left as
    /// the two words, which a scenario file refuses.
    ///
    /// It has as few decimals as lead back to the same minutes ([`Amount::emptied_at`]): in most cases none.
    pub(crate) fn in_minutes(&self, minutes: &Amount) -> Amount {
        let in_all = minutes.in_bare_minutes().0.as_f64().filter(|minutes| *minutes > 0.0);
        match (self.volume_and_rate_unit(), in_all) {
            (Some((volume, unit)), Some(in_all)) => {
                let leads_back = |decimals: &i32| {
                    let rate = rounded(volume / in_all, *decimals);
                    decimals_of(rate) == *decimals && simplest_minutes(volume, rate) == Some(in_all)
                };
                let decimals = (0..=MOST_DECIMALS).find(leads_back);
                of_unit(rounded(volume / in_all, decimals.unwrap_or(0)), unit)
            }
            _ => Amount(Value::String(format!("{} / {}", self.0, minutes.0))),
        }
    }

    /// The minutes in which this much water leaves at a rate: the inverse of [`Amount::in_minutes`].
    ///
    /// - Returns: bare minutes, with as few decimals as make that rate; `None` where none do, as of a rate in another unit.
    pub(crate) fn emptied_at(&self, rate: &Amount) -> Option<Amount> {
        let (volume, unit) = self.volume_and_rate_unit()?;
        let (rate, _) = rate.number_and_unit().filter(|(_, its)| *its == unit)?;
        simplest_minutes(volume, rate).map(Amount::plain)
    }

    /// A volume's number, and the unit of a rate that goes with its own.
    fn volume_and_rate_unit(&self) -> Option<(f64, &'static str)> {
        let (volume, unit) = self.number_and_unit()?;
        let rate_unit = match unit {
            "" => "",
            "gal" => "gpm",
            "L" | "l" => "L/min",
            _ => return None,
        };
        Some((volume, rate_unit))
    }
}

/// Of the minutes in which a volume leaves at a rate, as exactly as that is written, the plainest: those of a few decimals
/// that make the very rate, else those with the fewest.
fn simplest_minutes(volume: f64, rate: f64) -> Option<f64> {
    if rate <= 0.0 {
        return None;
    }
    let near = |places: i32, decimals: i32| {
        let minutes = rounded(volume / rate, places);
        let is_it = minutes > 0.0 && rounded(volume / minutes, decimals) == rate;
        is_it.then_some(minutes)
    };
    let exact = (0..=FEW_DECIMALS).find_map(|places| near(places, MOST_DECIMALS));
    exact.or_else(|| (0..=MOST_DECIMALS).find_map(|places| near(places, decimals_of(rate))))
}

fn rounded(number: f64, decimals: i32) -> f64 {
    let scale = 10_f64.powi(decimals);
    (number * scale).round() / scale
}

fn decimals_of(number: f64) -> i32 {
    (0..MOST_DECIMALS)
        .find(|decimals| rounded(number, *decimals) == number)
        .unwrap_or(MOST_DECIMALS)
}

/// A number with its unit, or without where that is empty.
fn of_unit(number: f64, unit: &str) -> Amount {
    let bare = Amount::plain(number);
    if unit.is_empty() { bare } else { bare.in_unit(unit) }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;

    fn typed(text: &str) -> Amount {
        Amount::typed(text).expect("a number")
    }

    #[test]
    fn a_load_that_leaves_in_so_many_minutes_makes_a_rate() {
        let rate = |water: &str, minutes: &str| typed(water).in_minutes(&typed(minutes)).json();
        // 1,500 gal in 4 minutes; 2,000 gal in a minute and a half are 1,333.3 gpm.
        assert_eq!(rate("1500", "4"), json!(375));
        assert_eq!(rate("1,500 gal", "4 min"), json!("375 gpm"));
        assert_eq!(rate("9,000 L", "3"), json!("3000 L/min"));
        assert_eq!(rate("2000", "90 s"), json!(1333));
        assert_eq!(rate("1500", "0"), json!("1500 / 0"));
    }

    /// What was said of a tanker can be read in the file it is made into.
    #[test]
    fn a_rate_leads_back_to_the_minutes_it_was_made_of() {
        for water in ["800", "2,000", "2,500 gal", "3,000", "11,000 L", "4,950"] {
            for hundredths in 1..=2_000 {
                let minutes = Amount::plain(f64::from(hundredths) / 100.0);
                let rate = typed(water).in_minutes(&minutes);
                assert_eq!(typed(water).emptied_at(&rate), Some(minutes), "{water} at {rate:?}");
            }
            for minutes in [25.0, 1_500.0, 9_999.0] {
                let rate = typed(water).in_minutes(&Amount::plain(minutes));
                assert_eq!(typed(water).emptied_at(&rate), Some(Amount::plain(minutes)), "{water}");
            }
        }
        // A rate of another system, and none at all.
        assert_eq!(typed("2,000").emptied_at(&typed("800 L/min")), None);
        assert_eq!(typed("2,000").emptied_at(&typed("0")), None);
    }

    #[test]
    fn a_road_is_the_sum_of_its_stretches() {
        assert_eq!(typed("1.9").plus(&typed("0.5")), Some(typed("2.4")));
        assert_eq!(typed("2.4 mi").minus(&typed("0.3 mi")), Some(typed("2.1 mi")));
        assert_eq!(typed("2.4 mi").minus(&typed("2.5 mi")), Some(typed("-0.1 mi")));
        assert_eq!(typed("2.4 mi").plus(&typed("1 km")), None);
    }
}
