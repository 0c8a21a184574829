//! The attack engine's own tank between events.

use super::engine_tank::EngineTank;
use super::flow::Flow;
use crate::plan::{AttackEngine, Call, TimeTaken};

fn engine() -> EngineTank {
    let facts = AttackEngine {
        name: "Engine 1".to_string(),
        tank: 1_000.0,
        call: Call::sure(0.0, TimeTaken::NONE),
        water_on: TimeTaken::NONE,
        intakes: 3,
        tank_refill: 500.0,
    };
    EngineTank::new(&facts, 3)
}

/// The lowest level in so many minutes from 500 gal, with this net flow.
fn lowest(rate: f64, slope: f64, minutes: f64) -> f64 {
    let mut engine = engine();
    (engine.level, engine.net) = (500.0, Flow { rate, slope });
    engine.lowest_within(minutes)
}

#[test]
fn the_lowest_level_is_where_a_falling_level_turns_or_at_an_end() {
    // 500 - 100 t + 10 t^2: 250 at t = 5, 500 again at 10.
    assert_eq!(lowest(-100.0, 20.0, 10.0), 250.0);
    assert_eq!(lowest(-100.0, 20.0, 8.0), 250.0);
    // Before it turns: 500 - 200 + 40.
    assert_eq!(lowest(-100.0, 20.0, 2.0), 340.0);
    // One that rises has been lowest at the start, one that falls is at the end.
    assert_eq!(lowest(100.0, 20.0, 10.0), 500.0);
    assert_eq!(lowest(-20.0, -10.0, 4.0), 340.0);
    // 500 + 100 t - 10 t^2 rises, turns and falls: 500 - 75 at t = 10.7...; at 12, 260.
    assert_eq!(lowest(100.0, -20.0, 12.0), 260.0);
    assert_eq!(lowest(-100.0, 0.0, 9.0), 0.0, "never below nothing");
}

#[test]
fn what_belongs_to_a_part_of_a_tick_leaves_a_level_at_its_bound() {
    let mut engine = engine();
    for (level, after) in [(1_000.0, 1_000.0), (0.0, 0.0), (400.0, 400.25)] {
        (engine.level, engine.gallons) = (level, level);
        engine.change_by(0.25);
        assert_eq!((engine.level, engine.gallons), (after, level + 0.25));
    }
}

#[test]
fn those_who_connect_stand_as_listed() {
    let mut engine = engine();
    [2, 0, 1].into_iter().for_each(|tanker| engine.take_intake(tanker));
    assert_eq!(engine.connecting, [0, 1, 2]);
    assert_eq!(engine.free_intakes, 0);
}
