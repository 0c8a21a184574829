//! The flow that holds once a tanker is lost, held against the conservation of water and the arithmetic of cycles.

use crate::common::world::World;
use shuttle_report::losses::Lost;
use shuttle_report::runs::control::{Control, SameLuck};
use shuttle_report::tanker_lost::{Question, tanker_lost};

const LOST_AT: f64 = 30.0;
const WATCHED: f64 = 240.0;
const STEP: f64 = 10.0;

/// Three tankers on a road of five minutes each way, filled and emptied at 1,000 gpm, every time fixed.
fn world(second: f64) -> World {
    World::new()
        .attack_flow(350.0)
        .tolerance(0.0)
        .throttling()
        .watched(WATCHED)
        .tanker("Big", 3_000.0, 0.0)
        .tanker("Second", second, 0.0)
        .tanker("Third", 2_000.0, 0.0)
}

/// A load over the minutes of a cycle: fill, back, dump, out.
fn brings(gallons: f64) -> f64 {
    gallons / (2.0 * gallons / 1_000.0 + 10.0)
}

/// - Returns: who is missed most, and the flow that holds without him.
fn found(world: &World) -> (Lost, f64) {
    let luck = SameLuck { seed: 1, threads: 1 };
    let question = Question { from: LOST_AT, allowed: 0.05, step: STEP, runs: 160, luck };
    let found = tanker_lost(&world.plan(), &question, &Control::default()).expect("an answer");
    (found.lost, found.holds.expect("a flow that holds").0)
}

/// No less than the two that are left can bring, but for a step; no more than that with all that may stand in tanks and
/// on wheels when one is lost, spread over the rest of the watch. Conservation of water; a cycle's rate as in NFPA 1142
/// annex C, load over minutes.
fn agrees(left: [f64; 2], flow: f64) -> bool {
    let rate: f64 = left.into_iter().map(brings).sum();
    // The engine's 1,000 gal, the drop tank's 3,000, and a load of each of the three.
    let stock = 1_000.0 + 3_000.0 + 3_000.0 + left.iter().sum::<f64>();
    (rate - 2.0 * STEP..=rate + stock / (WATCHED - LOST_AT)).contains(&flow)
}

#[test]
fn what_holds_after_a_loss_is_what_those_left_can_bring() {
    let (lost, flow) = found(&world(2_000.0));
    let big = vec![vec!["Big".to_owned()]];
    assert_eq!(lost, Lost::OneTankerOf { names: big, drop_tanks: 0 }, "the largest is missed most");
    assert!(agrees([2_000.0, 2_000.0], flow), "{flow}");
    // With a second tanker of half that size the same comparison fails.
    let (_, less) = found(&world(1_000.0));
    assert!(!agrees([2_000.0, 2_000.0], less) && agrees([1_000.0, 2_000.0], less), "{less}");
}
