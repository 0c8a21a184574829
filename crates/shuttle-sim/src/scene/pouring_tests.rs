//! A pour by gravity that empties 2,000 gal in 10 minutes, worked out by hand: the root of what is left falls
//! evenly, so after t minutes 2000 (1 - t/10)^2 gal are left, and the flow is 400 - 40 t gpm.

use super::flow::Flow;
use super::pouring::{Pour, Pouring};

/// By gravity as above: 0.9 x 2000 / (average x (1 - sqrt 0.1)) = 10 min.
fn ten_minutes(residual: f64) -> Pour {
    Pour::by_gravity(2000.0, residual, 180.0 / (1.0 - 0.1_f64.sqrt()))
}

fn pouring(load: f64, pour: Pour) -> Pouring {
    let mut pouring = Pouring::new(2);
    assert!(pouring.is_idle());
    pouring.add(0, load, pour);
    assert!(!pouring.is_idle());
    pouring
}

fn close(got: f64, right: f64) {
    assert!((got - right).abs() < 1e-9 * right.abs().max(1.0), "{got}, by hand {right}");
}

#[test]
fn what_is_poured_and_what_is_left_follow_the_parabola() {
    let poured = pouring(2000.0, ten_minutes(0.0));
    close(poured.unhindered().rate, 400.0);
    close(poured.unhindered().slope, -40.0);
    close(poured.poured_in(5.0), 1500.0);
    close(poured.minutes_for(1500.0), 5.0);
    let (_, rest) = poured.rests_after(5.0).next().expect("one pours");
    close(rest, 500.0);
    // The driver stops at a residual of 80 gal, a fifth of the root: after 8 min. At 4 min 720 gal are left, 640 of
    // them to deliver.
    let mut stops = pouring(1920.0, ten_minutes(80.0));
    close(stops.first_rest().expect("one pours").0, 8.0);
    stops.run(4.0);
    close(stops.first_rest().expect("one pours").1, 640.0);
    close(stops.first_rest().expect("one pours").0, 4.0);
    close(stops.unhindered().rate, 400.0 - 40.0 * 4.0);
}

#[test]
fn a_full_tank_stays_full_until_so_little_could_be_poured() {
    let held_for = |rate, slope| pouring(2000.0, ten_minutes(0.0)).held_for(Flow { rate, slope });
    // 200 gpm leave: with 500 gal left no more than 200 gpm could be poured; 1,500 gal take 7.5 min.
    close(held_for(200.0, 0.0), 7.5);
    // 100 + 20 t leave, 100 t + 10 t^2 by then: 400^2 - 4 x 20 (100 t + 10 t^2) = (100 + 20 t)^2.
    close(held_for(100.0, 20.0), 150.0_f64.sqrt() - 5.0);
    // 300 - 10 t leave: 300 t^2 - 18000 t + 70000 = 0, the first.
    close(held_for(300.0, -10.0), (18_000.0 - 240e6_f64.sqrt()) / 600.0);
    // 300 - 40 t leave: what could be poured falls no faster.
    assert_eq!(held_for(300.0, -40.0), f64::INFINITY);
    assert_eq!(held_for(0.0, 0.0), f64::INFINITY);
    assert_eq!(held_for(0.0, -10.0), f64::INFINITY);
}

#[test]
fn a_steady_pour_holds_a_full_tank_until_more_leaves_than_it_gives() {
    let held_for =
        |rate, slope| pouring(2000.0, Pour::Steady { rate: 500.0 }).held_for(Flow { rate, slope });
    // 100 + 20 t are 500 after 20 min.
    close(held_for(100.0, 20.0), 20.0);
    assert_eq!(held_for(100.0, 0.0), f64::INFINITY);
    // 300 - 10 t never are.
    assert_eq!(held_for(300.0, -10.0), f64::INFINITY);
}

#[test]
fn of_a_pour_as_strong_as_what_leaves_the_slopes_decide() {
    let holds = |rate, slope| pouring(2000.0, ten_minutes(0.0)).is_held_to(Flow { rate, slope });
    assert!(holds(399.0, 0.0));
    assert!(!holds(401.0, -100.0));
    assert!(holds(400.0, -40.5));
    assert!(!holds(400.0, -39.5));
    assert!(!holds(400.0, 39.5));
    let steady = pouring(2000.0, Pour::Steady { rate: 400.0 });
    assert!(steady.is_held_to(Flow::steady(400.0)));
    assert!(!steady.is_held_to(Flow { rate: 400.0, slope: 1.0 }));
    assert!(steady.is_held_to(Flow { rate: 400.0, slope: -1.0 }));
}
