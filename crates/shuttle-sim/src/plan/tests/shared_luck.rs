//! What is drawn once a fire, and what it does to the rest of a plan.

use super::*;

#[test]
fn what_a_whole_fire_shares_lets_runs_differ() {
    let fixed_times = || {
        let mut draft = sound();
        draft.fill_sites[0].out.time = TimeTaken::Fixed(4.0);
        draft.fill_sites[0].back.time = TimeTaken::Fixed(4.0);
        draft
    };
    let places = |draft: &PlanDraft| -> Vec<String> {
        oddities_in(draft).into_iter().map(|odd| way(&odd.place)).collect()
    };
    assert_eq!(places(&fixed_times()), ["title"]);
    type Change = fn(&mut PlanDraft);
    let changes: [Change; 8] = [
        |d| d.whole_fire.driving_cv = 0.1,
        |d| d.whole_fire.handling_cv = 0.1,
        |d| d.whole_fire.response_cv = 0.1,
        |d| d.tankers[1].crew_cv = 0.1,
        |d| d.tankers[1].call.turnout = 0.9,
        |d| d.supply.engine.as_mut().unwrap().call.turnout = 0.9,
        |d| d.supply.failure = failure(0.1, None),
        |d| d.fill_sites[0].failure = failure(0.1, None),
    ];
    for change in changes {
        let mut draft = fixed_times();
        change(&mut draft);
        assert_eq!(places(&draft), [] as [&str; 0]);
    }
}

#[test]
fn a_restart_level_stated_for_one_drop_tank_gives_way_in_another_that_cannot_offer_it() {
    let mut supply = sound().supply;
    supply.restart_level = Some(600.0);
    let level = |capacity, unusable| {
        let tank = DropTank { capacity, unusable, ..sound().drop_tanks[0].clone() };
        supply.restart_level_for(&tank)
    };
    assert_eq!(level(2_500.0, 200.0), 600.0);
    assert_eq!(level(600.0, 200.0), 600.0);
    assert_eq!(level(599.0, 200.0), 500.0);
    assert_eq!(level(2_500.0, 599.5), 899.5);
}
