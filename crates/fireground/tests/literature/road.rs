//! The road.

use crate::close;
use fireground::travel::{minutes_per_mile, shuttle_leg_time, travel_time, travel_time_at_speed};

#[test]
fn travel_time_matches_the_rule() {
    let rows = [
        (1.5, 3.2, "ISO rating schedule, response-time considerations: engine company"),
        (2.5, 4.9, "ISO rating schedule, response-time considerations: ladder-service company"),
    ];
    for (miles, minutes, source) in rows {
        close(&format!("{miles} miles"), travel_time(miles).unwrap().value, minutes, 0.051, source);
    }
}

#[test]
fn minutes_per_mile_match_the_table() {
    let source = "NFPA 1142 annex C, X = 60 / mph (value from memory)";
    let rows = [(15.0, 4.0), (20.0, 3.0), (25.0, 2.4), (30.0, 2.0), (35.0, 1.7)];
    for (mph, factor) in rows {
        close(&format!("{mph} mph"), minutes_per_mile(mph).unwrap().value, factor, 0.05, source);
        let five_miles = travel_time_at_speed(5.0, mph).unwrap().value;
        close(&format!("5 miles at {mph} mph"), five_miles, 5.0 * factor, 0.25, source);
    }
}

#[test]
fn legs_give_the_published_tanker_rates() {
    // Q = V / (A + T1 + T2 + B) less 10%.
    let out = shuttle_leg_time(2.10, 35.0).unwrap().value;
    let back = shuttle_leg_time(1.70, 30.0).unwrap().value;
    let rate = 0.9 * 1500.0 / (3.0 + out + back + 4.0);
    close("gpm", rate, 88.0, 0.5, "NFPA 1142 annex C example (value from memory; the 10% seen)");

    // The round trip of 3 miles in the rule once, handling 9 min, 2,250 gal usable.
    let rate = 2250.0 / (travel_time(3.0).unwrap().value + 9.0);
    close("gpm", rate, 153.0, 0.5, "fire journal");

    let once = travel_time(3.0).unwrap().value;
    let each_leg = 2.0 * travel_time(1.5).unwrap().value;
    close("min", each_leg - once, 0.65, 1e-9, "the two readings of the rule (derived)");
}
