//! Roads at other distances, driven as the scenario drives its own.

use fireground::travel::travel_time;
use shuttle_report::reach::Haul;
use shuttle_report::units::{KM_PER_MILE, Units};
use shuttle_sim::{Leg, Plan, TimeTaken};

/// Distances of the table, one way: miles, or km in metric scenarios.
const MILES: [f64; 11] = [0.5, 1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0];
const KILOMETRES: [f64; 11] = [1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 9.0, 10.0, 12.0];
/// Distances tried for a wanted flow: this far apart, and the farthest, in miles and in km.
const FINE_MILES: (f64, f64) = (0.1, 12.0);
const FINE_KILOMETRES: (f64, f64) = (0.2, 20.0);

/// The distances to try, one way, miles, rising: those of the table, or a fine grid.
pub fn distances(units: Units, fine: bool) -> Vec<f64> {
    let grid = |(apart, most): (f64, f64)| {
        let steps = (most / apart).round() as u32;
        (1..=steps).map(|step| f64::from(step) * apart).collect::<Vec<f64>>()
    };
    match (units, fine) {
        (Units::Us, false) => MILES.to_vec(),
        (Units::Us, true) => grid(FINE_MILES),
        (Units::Metric, false) => KILOMETRES.iter().map(|km| km / KM_PER_MILE).collect(),
        (Units::Metric, true) => grid(FINE_KILOMETRES).iter().map(|km| km / KM_PER_MILE).collect(),
    }
}

/// The road at another distance, driven as the plan drives it.
pub fn haul(plan: &Plan, site: usize, miles: f64) -> Haul {
    let site = &plan.facts().fill_sites[site];
    Haul { miles, out: leg(&site.out, miles), back: leg(&site.back, miles) }
}

/// How a leg's minutes follow from miles.
fn leg(stated: &Leg, miles: f64) -> Leg {
    let mean = speed(stated).map_or_else(|| by_rule(miles), |mph| 60.0 / mph * miles);
    let stated_mean = stated.time.mean();
    let time = if stated_mean > 0.0 {
        stated.time.scaled(mean / stated_mean)
    } else {
        TimeTaken::Fixed(mean)
    };
    Leg { miles: Some(miles), time }
}

/// Minutes by the travel rule, which covers every distance tried here.
fn by_rule(miles: f64) -> f64 {
    travel_time(miles).map_or(0.0, |worked| worked.value)
}

/// The average speed a leg is driven at, mph; `None` where the rule gave its minutes, or no
/// distance is stated.
fn speed(leg: &Leg) -> Option<f64> {
    let miles = leg.miles?;
    let minutes = leg.time.mean();
    let is_rule = (minutes - by_rule(miles)).abs() < 1e-9;
    (!is_rule && minutes > 0.0).then(|| 60.0 * miles / minutes)
}

/// Average speeds out and back, mph; `None`: by the travel rule, at least one way.
pub fn driven(plan: &Plan, site: usize) -> Option<[f64; 2]> {
    let site = &plan.facts().fill_sites[site];
    Some([speed(&site.out)?, speed(&site.back)?])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_leg_is_driven_as_the_scenario_drives_it() {
        let leg_of =
            |miles, minutes| Leg { miles, time: TimeTaken::Lognormal { mean: minutes, cv: 0.2 } };
        // 2 miles in 4 minutes are 30 mph: 3 miles take 6 minutes.
        let by_speed = leg(&leg_of(Some(2.0), 4.0), 3.0);
        assert_eq!(by_speed.time, TimeTaken::Lognormal { mean: 6.0, cv: 0.2 });
        // RAND travel time, ISO rating schedule: 1.5 mi 3.2 min, 2.5 mi 4.9 min.
        for stated in [leg_of(Some(1.5), 3.2), leg_of(None, 7.0)] {
            assert!((leg(&stated, 2.5).time.mean() - 4.9).abs() < 1e-9);
        }
        assert_eq!(leg(&Leg { miles: None, time: TimeTaken::NONE }, 2.5).time.mean(), 4.9);
    }

    #[test]
    fn distances_rise() {
        for (units, fine) in
            [(Units::Us, false), (Units::Us, true), (Units::Metric, false), (Units::Metric, true)]
        {
            let miles = distances(units, fine);
            assert!(miles.windows(2).all(|pair| pair[0] < pair[1]) && miles[0] > 0.0);
        }
    }
}
