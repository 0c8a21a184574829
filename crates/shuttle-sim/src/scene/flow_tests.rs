//! Flows against the roots of the quadratics they come from.

use super::flow::{Flow, falls_short, lesser};
use crate::time::Moment;

fn flow(rate: f64, slope: f64) -> Flow {
    Flow { rate, slope }
}

#[test]
fn a_share_of_a_flow_is_that_share_of_its_change_too() {
    assert_eq!(flow(200.0, -40.0).times(0.25), flow(50.0, -10.0));
}

#[test]
fn nothing_passes_where_the_flow_is_nothing_and_stays_so() {
    assert!(Flow::NONE.passes_nothing());
    assert!(Flow::steady(-1e-10).passes_nothing());
    for some in [flow(0.0, 1.0), flow(0.0, -1.0), Flow::steady(5.0), Flow::steady(-5.0)] {
        assert!(!some.passes_nothing(), "{some:?}");
    }
}

#[test]
fn a_flow_that_dies_down_just_passes_what_it_has_in_it() {
    // 100 gpm falling by 10 a minute: 100 t - 5 t^2 gal, at most 500, at t = 10.
    let dying = flow(100.0, -10.0);
    assert_eq!(dying.minutes_to_pass(500.0), 10.0);
    assert_eq!(dying.minutes_to_pass(500.1), f64::INFINITY);
    // 100 t - 5 t^2 = 375 at t = 5 and at 15: the first.
    assert!((dying.minutes_to_pass(375.0) - 5.0).abs() < 1e-12);
    // A negative volume only once the flow has turned: 100 t - 5 t^2 = -525 at t = 10 + sqrt 205.
    let turned = 10.0 + 205.0_f64.sqrt();
    assert!((dying.minutes_to_pass(-525.0) - turned).abs() < 1e-9);
}

#[test]
fn a_slope_that_hardly_is_one_costs_no_accuracy() {
    // 500 t - 5e-10 t^2 = 1000: t = 2 + 4e-12 and no more.
    assert!((flow(500.0, -1e-9).minutes_to_pass(1000.0) - 2.0).abs() < 1e-10);
    assert!((flow(-500.0, 1e-9).minutes_to_pass(-1000.0) - 2.0).abs() < 1e-10);
}

#[test]
fn the_first_of_two_bounds_is_met_also_by_a_level_that_turns() {
    let meets = |rate, slope, level: f64| {
        let (moment, bound) = flow(rate, slope).meets(Moment::ALARM, 150.0, 0.0, |b| b - level);
        (moment.minutes(), bound)
    };
    // 120 gal, -100 t + 25 t^2: down to 20 at 0:02, up again to 150 at t = 2 + sqrt 5.2.
    let (minute, bound) = meets(-100.0, 50.0, 120.0);
    assert!((minute - (2.0 + 5.2_f64.sqrt())).abs() < 1e-9 && bound == 150.0, "{minute}, {bound}");
    // 50 gal, -100 t + 5 t^2: empty at t = 10 - sqrt 90, long before it would be full.
    let (minute, bound) = meets(-100.0, 10.0, 50.0);
    assert!((minute - (10.0 - 90.0_f64.sqrt())).abs() < 1e-9 && bound == 0.0, "{minute}, {bound}");
    // 50 gal, 100 t - 5 t^2: up to 150 at t = 10 - sqrt 80.
    let (minute, bound) = meets(100.0, -10.0, 50.0);
    assert!(
        (minute - (10.0 - 80.0_f64.sqrt())).abs() < 1e-9 && bound == 150.0,
        "{minute}, {bound}"
    );
    // Steady, only the one it moves toward.
    assert_eq!(meets(50.0, 0.0, 50.0), (2.0, 150.0));
    assert_eq!(meets(-50.0, 0.0, 50.0), (1.0, 0.0));
}

#[test]
fn of_equal_flows_the_one_that_falls_is_the_lesser_and_holds() {
    let (falling, steady) = (flow(500.0, -50.0), Flow::steady(500.0));
    let mut holds_for = f64::INFINITY;
    assert_eq!(lesser(steady, falling, &mut holds_for), falling);
    assert_eq!(lesser(falling, steady, &mut holds_for), falling);
    assert_eq!(holds_for, f64::INFINITY, "they part, and never meet again");
    // 400 rising by 25 a minute meets 500 after 4 min; 600 rising by 50 and 500 rising by 70 after 5.
    assert_eq!(lesser(flow(400.0, 25.0), steady, &mut holds_for), flow(400.0, 25.0));
    assert_eq!(holds_for, 4.0);
    holds_for = f64::INFINITY;
    assert_eq!(lesser(flow(600.0, 50.0), flow(500.0, 70.0), &mut holds_for), flow(500.0, 70.0));
    assert_eq!(holds_for, 5.0);
}

#[test]
fn a_flow_falls_short_of_another_now_or_from_now_on() {
    let mut holds_for = f64::INFINITY;
    assert!(falls_short(Flow::steady(400.0), Flow::steady(500.0), &mut holds_for));
    assert!(!falls_short(Flow::steady(500.0), Flow::steady(500.0), &mut holds_for));
    assert!(falls_short(flow(500.0, -1.0), Flow::steady(500.0), &mut holds_for));
    assert!(!falls_short(flow(500.0, 1.0), Flow::steady(500.0), &mut holds_for));
    assert_eq!(holds_for, f64::INFINITY);
    // 600 falling by 50 a minute does not yet, and does after 2 min.
    assert!(!falls_short(flow(600.0, -50.0), Flow::steady(500.0), &mut holds_for));
    assert_eq!(holds_for, 2.0);
}

#[test]
fn flows_together_have_both_rates_and_both_slopes() {
    let (one, other) = (flow(500.0, -20.0), flow(300.0, 5.0));
    assert_eq!(one + other, flow(800.0, -15.0));
    assert_eq!(one - other, flow(200.0, -25.0));
}
