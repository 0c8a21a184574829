//! What is allowed and odd is noted, and what the rules allow is not.

use super::*;

#[test]
fn what_the_rules_allow_is_not_odd() {
    type Change = fn(&mut PlanDraft);
    let rows: Vec<(&str, Change)> = vec![
        ("gating down is what the format takes where a nursing-only plan is silent", |d| {
            d.supply.engine = None;
            d.supply.low_water = LowWater::Throttle;
            d.drop_tanks.clear();
        }),
        ("half of the tanker is enough to go for", |d| d.fill_sites[0].volume = Some(1_000.0)),
    ];
    for (why, change) in rows {
        let mut draft = sound();
        change(&mut draft);
        assert_eq!(oddities_in(&draft), [], "{why}");
    }
}

#[test]
fn each_odd_value_is_noted_at_its_place() {
    type Change = fn(&mut PlanDraft);
    let rows: Vec<(&str, Change)> = vec![
        ("incident.reserve", |d| d.incident.reserve = 1_000.0),
        ("incident.tolerance", |d| d.incident.tolerance = 6.0),
        ("incident.attack_flow[1].from", |d| d.incident.attack_flow[1].from = 120.0),
        ("supply", |d| d.supply.draft_limits[0].flow = 299.0),
        ("attack_engine.intakes", |d| {
            d.supply.engine = None;
            d.supply.low_water = LowWater::Throttle;
            d.drop_tanks.clear();
            d.tankers.iter_mut().for_each(|t| t.pump_off = 299.0);
        }),
        ("supply.engine", |d| d.drop_tanks.clear()),
        ("supply.failure", |d| {
            d.supply.engine = None;
            d.drop_tanks.clear();
            d.supply.failure = failure(0.1, None);
        }),
        ("supply.engine.turnout", |d| d.supply.engine.as_mut().unwrap().call.turnout = 0.0),
        ("drop_tanks[0].turnout", |d| {
            let own = Call { turnout: 0.0, ..call(5.0) };
            d.drop_tanks[0].brought = Brought::Itself(own);
        }),
        ("tankers[0].turnout", |d| d.tankers[0].call.turnout = 0.0),
        ("supply.low_water", |d| {
            d.supply.engine = None;
            d.drop_tanks.clear();
            d.supply.low_water = LowWater::LosePrime;
        }),
        ("drop_tanks[0].capacity", |d| {
            d.drop_tanks[0].capacity = 1_799.0;
        }),
        ("drop_tanks[0].unusable", |d| {
            d.drop_tanks[0].unusable = 1_300.0;
            d.supply.restart_level = None;
        }),
        ("tankers[0].capacity", |d| d.tankers[0].capacity = 999.0),
        ("tankers[0].waste", |d| d.tankers[0].waste = 0.51),
        ("tankers[0].breakdown_per_trip", |d| d.tankers[0].breakdown_per_trip = 0.3),
        ("tankers[1].response", |d| d.tankers[1].call = call(600.0)),
        ("tankers[0].handling", |d| {
            let none = TimeTaken::NONE;
            d.tankers[0].handling = Handling {
                nurse_connect: none.clone(),
                nurse_disconnect: none.clone(),
                dump_position: none.clone(),
                dump_clear: none.clone(),
                fill_connect: none.clone(),
                fill_disconnect: none,
            };
        }),
        // 333 gpm less 10% is 299.7.
        ("fill_sites", |d| d.fill_sites[0].flow = 333.0),
        ("fill_sites[1]", |d| {
            let mut other = d.fill_sites[0].clone();
            other.name = "Creek".into();
            d.fill_sites.push(other);
            d.tankers.iter_mut().for_each(|t| t.fill_site = Some(0));
        }),
        ("fill_sites[0].volume", |d| {
            let mut other = d.fill_sites[0].clone();
            other.name = "Creek".into();
            d.fill_sites.push(other);
            d.fill_sites[0].volume = Some(999.0);
        }),
        // Enough for half of the other tankers, not of this one.
        ("tankers[0].capacity", |d| {
            d.drop_tanks[0].capacity = 4_000.0;
            d.tankers[0].capacity = 4_000.0;
            d.fill_sites[0].volume = Some(1_999.0);
        }),
        ("tankers[0].fill_site", |d| {
            let mut other = d.fill_sites[0].clone();
            other.name = "Creek".into();
            d.fill_sites.push(other);
            d.drop_tanks[0].capacity = 4_000.0;
            d.tankers[0].capacity = 4_000.0;
            d.tankers[0].fill_site = Some(0);
            d.fill_sites[0].volume = Some(1_999.0);
        }),
        // 2 miles in 1.9 minutes is 63 mph.
        ("fill_sites[0].out", |d| d.fill_sites[0].out.time = TimeTaken::Fixed(1.9)),
        ("title", |d| {
            d.fill_sites[0].out.time = TimeTaken::Fixed(4.0);
            d.fill_sites[0].back.time = TimeTaken::Fixed(4.0);
        }),
    ];
    for (place, change) in rows {
        let mut draft = sound();
        change(&mut draft);
        assert_eq!(mistakes_in(&draft), [], "{place} is to be odd, not wrong");
        let places: Vec<String> = oddities_in(&draft).iter().map(|odd| way(&odd.place)).collect();
        assert_eq!(places, [place]);
    }
}
