//! How long the road takes.

use crate::fact_checks::more_than_zero;
use crate::told::{Part, Unit, given_bare, given_of, told};
use crate::{FactError, Told, Worked};

/// Fixed minutes of a run, independent of distance: getting up to speed and slowing down. Source: RAND
/// travel time study, as used in the ISO rating schedule.
pub const START_MIN: f64 = 0.65;

/// Minutes for each mile in the same rule (about 35 mph).
pub const RULE_MIN_PER_MILE: f64 = 1.70;

/// Distances the rule was validated for, miles. Source: ISO rating schedule, response-time considerations.
const RULE_RANGE_MILES: (f64, f64) = (0.5, 8.0);

/// Average speed beyond which a warning is due, mph. Assumed: laden tankers rarely average it.
const FAST_AVERAGE_MPH: f64 = 55.0;

const RULE_SOURCE: &str = "RAND travel time, ISO rating schedule: T = 0.65 + 1.70 D";
const STANDARD_SOURCE: &str =
    "NFPA 1142 annex C: T = 0.65 + X D, X = 60 / mph (values from memory)";

/// A stretch of road driven at one average speed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stretch {
    /// Length of the stretch, miles, more than 0.
    pub distance_miles: f64,
    /// Average speed on it, mph, more than 0.
    pub speed_mph: f64,
}

/// A route of several stretches.
#[derive(Debug, Clone, PartialEq)]
pub struct Route {
    /// Time for all of it, min.
    pub time: Worked,
    /// Length of all of it, miles.
    pub distance_miles: f64,
    /// Average speed over all of it, mph.
    pub average_mph: f64,
}

fn check_speed(speed_mph: f64) -> Result<f64, FactError> {
    more_than_zero("speed_mph", speed_mph)
}

fn too_fast(speed_mph: f64) -> Told {
    told![
        "an average of ",
        given_of(speed_mph, Unit::Mph),
        " is more than a laden ",
        Part::Tanker,
        " should count on: posted limits, and slower in curves",
    ]
}

/// 1.70 min for a mile are 1.06 for a km (1.609344 km).
const RULE_WORDS: Part = Part::Constant { us: "0.65 + 1.70 x ", metric: "0.65 + 1.06 x " };

/// "35 mph x 2.4 mi = 4.1 min".
fn road_words(speed_mph: f64, distance_miles: f64, minutes: f64) -> Told {
    told![
        given_of(speed_mph, Unit::Mph),
        " x ",
        given_of(distance_miles, Unit::Miles),
        " = ",
        Part::Of(minutes, Unit::Minutes, 1),
    ]
}

/// Travel time of fire apparatus over a one-way road distance, by the rule.
///
/// - Given: `distance_miles`, miles, more than 0.
/// - Returns: minutes = 0.65 + 1.70 x distance, start to stop, not rounded.
/// - Errors: not finite, negative or zero distance.
/// - Source: RAND travel time, ISO rating schedule.
/// - Limits: validated from 0.5 to 8.0 miles; a warning outside. Fitted to responding apparatus that average
///   35 mph, not to laden tankers on grades. Some texts put the whole round trip in once, others each leg:
///   the two are 0.65 min apart, so say which was used. Here it is one leg.
pub fn travel_time(distance_miles: f64) -> Result<Worked, FactError> {
    more_than_zero("distance_miles", distance_miles)?;
    let time = START_MIN + RULE_MIN_PER_MILE * distance_miles;
    let how = told![
        RULE_WORDS,
        given_bare(distance_miles, Unit::Miles),
        " = ",
        Part::Of(time, Unit::Minutes, 1),
    ];
    let (low, high) = RULE_RANGE_MILES;
    Ok(Worked::new(time, "min", how, RULE_SOURCE)?.warn_if(
        distance_miles < low || high < distance_miles,
        || {
            told![
                given_of(distance_miles, Unit::Miles),
                ": the rule was validated for ",
                Part::Bare(low, Unit::Miles, 1),
                " to ",
                Part::Of(high, Unit::Miles, 1),
                "; drive it or use a speed",
            ]
        },
    ))
}

/// Minutes for a mile at an average speed.
///
/// - Given: `speed_mph`, mph, more than 0.
/// - Returns: min/mile = 60 / mph.
/// - Errors: not finite, negative or zero speed.
/// - Source: NFPA 1142 annex C, factor X (values from memory).
pub fn minutes_per_mile(speed_mph: f64) -> Result<Worked, FactError> {
    check_speed(speed_mph)?;
    let minutes = 60.0 / speed_mph;
    let how = told![
        "60 / ",
        given_of(speed_mph, Unit::Mph),
        " = ",
        Part::Number(minutes, 2),
        " min/mile",
    ];
    Worked::new(minutes, "min/mile", how, STANDARD_SOURCE)
}

/// Travel time at an average speed, nothing added.
///
/// - Given: `distance_miles`, miles, and `speed_mph`, the average from start to stop, mph, both more than 0.
/// - Returns: minutes = 60 / mph x distance.
/// - Errors: not finite, negative or zero values.
/// - Source: arithmetic.
pub fn travel_time_at_speed(distance_miles: f64, speed_mph: f64) -> Result<Worked, FactError> {
    more_than_zero("distance_miles", distance_miles)?;
    check_speed(speed_mph)?;
    let time = 60.0 / speed_mph * distance_miles;
    let how = told!["60 / "].and(road_words(speed_mph, distance_miles, time));
    Ok(Worked::new(time, "min", how, "arithmetic: distance / speed")?
        .warn_if(speed_mph > FAST_AVERAGE_MPH, || too_fast(speed_mph)))
}

/// Travel time of one leg of a shuttle at a safe constant speed, with the time to start and stop.
///
/// - Given: `distance_miles`, miles, and `speed_mph`, the safe constant speed on the road, mph, both more than 0.
/// - Returns: minutes = 0.65 + 60 / mph x distance.
/// - Errors: not finite, negative or zero values.
/// - Source: NFPA 1142 annex C (values from memory).
pub fn shuttle_leg_time(distance_miles: f64, speed_mph: f64) -> Result<Worked, FactError> {
    more_than_zero("distance_miles", distance_miles)?;
    check_speed(speed_mph)?;
    let time = START_MIN + 60.0 / speed_mph * distance_miles;
    let how = told!["0.65 + 60 / "].and(road_words(speed_mph, distance_miles, time));
    Ok(Worked::new(time, "min", how, STANDARD_SOURCE)?
        .warn_if(speed_mph > FAST_AVERAGE_MPH, || too_fast(speed_mph)))
}

/// Travel time of a route of stretches, each at its own average speed.
///
/// - Given: `stretches`, one or more.
/// - Returns: the time, length and average speed ([`Route`]): the sum of 60 / mph x distance.
/// - Errors: no stretch; not finite, negative or zero values.
/// - Source: arithmetic.
pub fn route_time(stretches: &[Stretch]) -> Result<Route, FactError> {
    if stretches.is_empty() {
        return Err(FactError::Empty {
            field: "stretches",
            cure: "give the length and speed of each stretch of road",
        });
    }
    let mut minutes = 0.0;
    let mut distance = 0.0;
    let mut how = Told::default();
    let mut warnings = Vec::new();
    for stretch in stretches {
        let part = travel_time_at_speed(stretch.distance_miles, stretch.speed_mph)?;
        minutes += part.value;
        distance += stretch.distance_miles;
        let between = if how.0.is_empty() { "" } else { " + " };
        how = how.and(told![
            between,
            given_of(stretch.distance_miles, Unit::Miles),
            " at ",
            given_of(stretch.speed_mph, Unit::Mph),
            ": ",
            Part::Number(part.value, 1),
        ]);
        warnings.extend(part.warnings);
    }
    if !distance.is_finite() {
        return Err(FactError::TooLarge { unit: "miles" });
    }
    let how = how.and(told![" = ", Part::Of(minutes, Unit::Minutes, 1)]);
    let mut time = Worked::new(minutes, "min", how, "arithmetic: distance / speed")?;
    time.warnings = warnings;
    Ok(Route { time, distance_miles: distance, average_mph: distance / minutes * 60.0 })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn outside_half_a_mile_to_eight_the_rule_warns() {
        for (miles, warnings) in [(0.49, 1), (0.5, 0), (8.0, 0), (8.01, 1)] {
            assert_eq!(travel_time(miles).unwrap().warnings.len(), warnings, "{miles} miles");
        }
    }

    #[test]
    fn an_average_over_55_mph_warns() {
        for (mph, warnings) in [(55.0, 0), (56.0, 1)] {
            assert_eq!(travel_time_at_speed(2.0, mph).unwrap().warnings.len(), warnings);
            assert_eq!(shuttle_leg_time(2.0, mph).unwrap().warnings.len(), warnings);
        }
    }

    #[test]
    fn a_route_adds_up_and_its_average_is_by_time_not_by_length() {
        let route = route_time(&[
            Stretch { distance_miles: 1.0, speed_mph: 20.0 },
            Stretch { distance_miles: 1.0, speed_mph: 60.0 },
        ])
        .unwrap();
        assert!((route.time.value - 4.0).abs() < 1e-12);
        assert!((route.average_mph - 30.0).abs() < 1e-12);
        assert_eq!(route.distance_miles, 2.0);
        assert_eq!(route.time.warnings.len(), 1);
        assert_eq!(route.time.how.to_string(), "1 mi at 20 mph: 3 + 1 mi at 60 mph: 1 = 4 min");
        assert!(matches!(route_time(&[]), Err(FactError::Empty { .. })));
    }
}
