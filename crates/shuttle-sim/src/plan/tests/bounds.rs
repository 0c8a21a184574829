//! What is just allowed, what is just not odd, and the figures that mistakes and oddities tell.

use super::*;
use crate::plan::{Near, Odd, OneLane, SourcePump};

fn told(change: impl FnOnce(&mut PlanDraft)) -> Vec<Wrong> {
    mistakes_after(change).into_iter().map(|mistake| mistake.wrong).collect()
}

fn odd(change: impl FnOnce(&mut PlanDraft)) -> Vec<Odd> {
    let mut draft = sound();
    change(&mut draft);
    assert_eq!(mistakes_in(&draft), []);
    oddities_in(&draft).into_iter().map(|oddity| oddity.odd).collect()
}

fn fixed_roads(draft: &mut PlanDraft, minutes: f64) {
    let site = &mut draft.fill_sites[0];
    site.out.time = TimeTaken::Fixed(minutes);
    site.back.time = TimeTaken::Fixed(minutes);
}

#[test]
fn just_at_a_limit_is_allowed() {
    assert_eq!(told(|d| d.tankers[0].name = "T".repeat(200)), []);
    assert_eq!(told(|d| d.tankers[0].name = "T".repeat(201)), [Wrong::LongName(200)]);
    assert_eq!(told(|d| d.tankers[0].name = "T".repeat(300)), [Wrong::LongName(200)]);
    let even = TimeTaken::Uniform { low: 3.0, high: 3.0 };
    assert_eq!(told(|d| d.fill_sites[0].ready = even), []);
    assert_eq!(told(|d| d.fill_sites[0].out.time = TimeTaken::Fixed(0.01)), []);
}

#[test]
fn a_mistake_tells_the_figures_that_clash() {
    let step = |from| FlowStep { from, flow: 200.0 };
    assert_eq!(
        told(|d| d.incident.attack_flow = vec![step(0.0), step(5.0), step(3.0)]),
        [Wrong::StepOutOfOrder { from: 3.0, before: 5.0 }]
    );
    assert_eq!(
        told(|d| d.supply.restart_level = Some(200.0)),
        [Wrong::RestartLevel { level: 200.0, least: 201.0, capacity: 2_500.0 }]
    );
    // Entries are counted from 1, as people do.
    assert_eq!(
        told(|d| d.drop_tanks[0].brought = Brought::ByTanker(3)),
        [Wrong::NoSuchTanker { number: 4, there: 3 }]
    );
    assert_eq!(
        told(|d| d.tankers[0].fill_site = Some(2)),
        [Wrong::NoSuchFillSite { number: 3, there: 1 }]
    );
    let lane = OneLane { near: Near::FillSite(2), crossing: TimeTaken::Fixed(2.0) };
    assert_eq!(told(|d| d.one_lanes = vec![lane]), [Wrong::NoSuchFillSite { number: 3, there: 1 }]);
}

#[test]
fn too_many_trips_are_counted_by_the_shortest_cycle() {
    // 2 x 0.05 min of road at twice the time, 0.1 and 0.2 to connect and disconnect, 100 gal at the site's 900 gpm,
    // 90 gal at 1,000 gpm: 0.7011 min. Three of these in 100,000 min; each trip counts 10 and one for each site and
    // drop tank, of 1,500,000.
    let wrong = told(|d| {
        d.incident.duration = 100_000.0;
        fixed_roads(d, 0.05);
        for tanker in &mut d.tankers {
            (tanker.capacity, tanker.drive_factor) = (100.0, 2.0);
            tanker.handling.fill_connect = TimeTaken::Fixed(0.1);
            tanker.handling.fill_disconnect = TimeTaken::Fixed(0.2);
        }
        d.fill_sites.push(FillSite {
            name: "Lake".to_string(),
            out: Leg { miles: None, time: TimeTaken::Fixed(30.0) },
            ..d.fill_sites[0].clone()
        });
    });
    let [Wrong::TooManyTrips { trips, most }] = wrong[..] else { panic!("{wrong:?}") };
    let cycle = 2.0 * 2.0 * 0.05 + 0.1 + 0.2 + 100.0 / 900.0 + 90.0 / 1_000.0;
    assert!((trips / (3.0 * 100_000.0 / cycle) - 1.0).abs() < 1e-12, "{trips}");
    assert!((most - 1_500_000.0 / (10.0 + 2.0 + 1.0)).abs() < 1e-6, "{most}");
}

#[test]
fn just_at_a_bound_nothing_is_odd() {
    let none: [Odd; 0] = [];
    assert_eq!(odd(|d| d.incident.tolerance = 5.0), none);
    assert_eq!(odd(|d| d.incident.tolerance = 5.1), [Odd::LongTolerance(5.1)]);
    assert_eq!(odd(|d| d.supply.draft_limits[0].flow = 300.0), none);
    // 2,000 gal less a tenth of waste.
    assert_eq!(odd(|d| d.drop_tanks[0].capacity = 1_800.0), none);
    assert_eq!(odd(|d| (d.drop_tanks[0].unusable, d.supply.restart_level) = (1_250.0, None)), none);
    assert_eq!(odd(|d| d.tankers[0].capacity = 1_000.0), none);
    assert_eq!(odd(|d| d.tankers[0].waste = 0.5), none);
    assert_eq!(odd(|d| d.tankers[0].breakdown_per_trip = 0.2), none);
    // The Pond passes 900 gpm less a tenth.
    assert_eq!(odd(|d| d.incident.attack_flow[1].flow = 810.0), none);
    // Without a drop tank one intake takes one tanker's 500 gpm.
    let nursing = |d: &mut PlanDraft, flow| {
        d.drop_tanks.clear();
        d.supply.engine = None;
        d.incident.attack_flow[1].flow = flow;
    };
    assert_eq!(odd(|d| nursing(d, 500.0)), none);
    assert_eq!(
        odd(|d| nursing(d, 501.0)),
        [Odd::TooFewIntakes { nursed: 500.0, intakes: 1, wanted: 501.0 }]
    );
    // 2 miles in 2 min are 60 mph.
    assert_eq!(odd(|d| d.fill_sites[0].out.time = TimeTaken::Fixed(2.0)), none);
}

#[test]
fn an_oddity_tells_what_it_is_about() {
    let speed = |minutes, mph, fast| Odd::Speed { miles: 2.0, minutes, mph, fast };
    let drive = |minutes| odd(move |d| d.fill_sites[0].out.time = TimeTaken::Fixed(minutes));
    assert_eq!(drive(1.0), [speed(1.0, 120.0, true)]);
    assert_eq!(drive(60.0), [speed(60.0, 2.0, false)]);
    // First water 8 + 1 min after the alarm, and one more as the engine is asked for late: the watch ends at 130.
    let late = |response: f64| {
        odd(move |d| {
            d.attack_engine.call.requested_at = 1.0;
            d.tankers[1].call = call(response);
        })
    };
    assert_eq!(late(129.9), []);
    assert_eq!(late(130.0), [Odd::ComesTooLate { arrives: 130.0, end: 130.0 }]);
    let small = |is_first| Odd::SmallDropTank {
        holds: 1_700.0,
        load: 1_800.0,
        tanker: "Aid 2".to_string(),
        is_first,
    };
    assert_eq!(odd(|d| d.drop_tanks[0].capacity = 1_700.0), [small(true)]);
    let second = |d: &mut PlanDraft| {
        d.drop_tanks.push(DropTank { capacity: 1_700.0, listed: 1, ..d.drop_tanks[0].clone() });
    };
    assert_eq!(odd(second), [small(false)]);
    // Two positions at 300 gpm each, less a tenth.
    let weak = odd(|d| {
        d.tankers.iter_mut().for_each(|tanker| tanker.fill_limit = Some(300.0));
        d.fill_sites[0].positions = 2;
        d.incident.attack_flow[1].flow = 600.0;
    });
    assert_eq!(weak, [Odd::SitesTooWeak { pass: 540.0, wanted: 600.0 }]);
}

#[test]
fn handling_that_a_plan_never_asks_for_is_not_counted() {
    let only_dumps = |d: &mut PlanDraft| {
        let handling = &mut d.tankers[0].handling;
        for time in [
            &mut handling.nurse_connect,
            &mut handling.nurse_disconnect,
            &mut handling.fill_connect,
            &mut handling.fill_disconnect,
        ] {
            *time = TimeTaken::NONE;
        }
    };
    assert_eq!(odd(only_dumps), []);
    let nursed = odd(|d| {
        only_dumps(d);
        d.drop_tanks.clear();
        d.supply.engine = None;
    });
    assert_eq!(nursed, [Odd::HandlesInNoTime { tanker: "Tanker 1".to_string() }]);
}

#[test]
fn chance_alone_lets_runs_differ_and_a_chance_of_nothing_does_not() {
    let varies = |change: fn(&mut PlanDraft)| {
        !odd(|d| {
            fixed_roads(d, 4.0);
            change(d);
        })
        .contains(&Odd::NothingVaries)
    };
    assert!(!varies(|_| {}));
    assert!(varies(|d| d.tankers[0].breakdown_per_trip = 0.1));
    assert!(!varies(|d| d.fill_sites[0].failure = failure(0.0, None)));
    // Its own vehicle may not turn out with a drop tank.
    assert!(varies(|d| {
        let mut own = call(9.0);
        own.turnout = 0.9;
        d.drop_tanks[0].brought = Brought::Itself(own);
    }));
}

#[test]
fn facts_worked_out_from_a_plan() {
    let mut draft = sound();
    assert_eq!(Plan::check(draft.clone()).expect("sound").restart_level(), Some(600.0));
    // Where nothing is stated a tanker takes what the pump at the source can give it.
    draft.fill_sites[0].pump = Some(1_500.0);
    assert_eq!(draft.greatest_fill_limit(&draft.tankers[0]), 1_500.0);
    draft.tankers[0].fill_limit = Some(700.0);
    assert_eq!(draft.greatest_fill_limit(&draft.tankers[0]), 700.0);
    draft.tankers[0].drive_factor = 1.5;
    assert_eq!(draft.tankers[0].drive_to(&draft.fill_sites[0]), [6.0, 6.0]);
    let site = &mut draft.fill_sites[0];
    site.self_fill = true;
    site.source_pump = Some(SourcePump {
        name: "Portable pump".to_string(),
        brought: Brought::ByTanker(0),
        setup: TimeTaken::NONE,
    });
    site.never_serves();
    // Longer than anything that may be stated: 10,000 min.
    assert_eq!(site.ready, TimeTaken::Fixed(10_000.0));
    assert!(site.source_pump.is_none() && !site.self_fill);
}
