//! What is worked out from the figures of a run.

use shuttle_sim::{RunResult, marks};

#[test]
fn water_that_came_and_is_nowhere_is_missing() {
    let run = RunResult {
        arrived: 5_000.0,
        delivered: 2_000.0,
        spilled: 300.0,
        remaining: 1_500.0,
        carried_away: 200.0,
        ..RunResult::default()
    };
    assert_eq!(run.balance(), 1_000.0);
}

#[test]
fn levels_are_marked_by_whole_minutes_and_no_more_than_a_day_of_them() {
    assert_eq!(marks(5.0).collect::<Vec<_>>(), [0.0, 1.0, 2.0, 3.0, 4.0, 5.0]);
    assert_eq!(marks(2.5).collect::<Vec<_>>(), [0.0, 1.0, 2.0]);
    assert_eq!(marks(1_440.0).count(), 1_441);
    // 2,000 minutes are more: every second one.
    let wide: Vec<f64> = marks(2_000.0).collect();
    assert_eq!((wide.len(), wide[1], wide[1_000]), (1_001, 2.0, 2_000.0));
}
