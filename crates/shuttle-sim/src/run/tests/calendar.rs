//! Every event has a place of its own in the calendar.

use super::super::calendar::{Calendar, Event};
use crate::time::Moment;

#[test]
fn each_event_comes_out_as_it_went_in_and_in_the_models_order() {
    let in_order = [
        Event::AttackEngineArrives,
        Event::FirstWater,
        Event::AttackFlowSteps,
        Event::SupplyEngineArrives,
        Event::DropTank(0),
        Event::DropTank(1),
        Event::FillSiteReady(0),
        Event::FillSiteReady(1),
        Event::FillSiteReady(2),
        Event::Pump,
        Event::PumpFails,
        Event::FillSiteFails(0),
        Event::FillSiteFails(1),
        Event::FillSiteFails(2),
        Event::Tanker(0),
        Event::Tanker(1),
    ];
    let now = Moment::ALARM.after(7.0);
    let mut calendar = Calendar::new(2, 2, 3);
    for event in in_order.iter().rev() {
        calendar.set(*event, now);
    }
    let told: Vec<Event> = std::iter::from_fn(|| calendar.take_due(now)).collect();
    assert_eq!(told, in_order);
    assert_eq!(calendar.next(), Moment::NEVER);
    // Cleared, nothing is due, also of a round that was begun.
    calendar.set(Event::Tanker(0), now);
    calendar.set(Event::Tanker(1), now);
    assert_eq!(calendar.take_due(now), Some(Event::Tanker(0)));
    calendar.set(Event::Pump, now);
    calendar.clear();
    assert_eq!(calendar.next(), Moment::NEVER);
    assert_eq!(calendar.take_due(now), None);
}
