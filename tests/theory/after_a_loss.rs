//! The flow that holds once a tanker is lost, held against the conservation of water and the arithmetic of cycles.

use crate::common::world::World;
use shuttle_report::losses::Lost;
use shuttle_report::losses::losses;
use shuttle_report::runs::control::{Control, Runs, SameLuck};
use shuttle_report::tanker_lost::{Question, gone_from_the_start, tanker_lost};
use shuttle_report::turnarounds::turnarounds;
use shuttle_sim::TimeTaken;

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

/// Of two ponds one gives 100 gpm for good and the other all the rest: without the rich one no more than the engine's and
/// the drop tank's water and 100 gpm can be held. Conservation of water.
#[test]
fn what_holds_without_a_source_is_what_the_other_gives() {
    let world = world(3_000.0).with(|draft| draft.fill_sites[0].flow = 1_000.0).fill_site_with(
        "Brook",
        5.0,
        5.0,
        |site| site.flow = 100.0,
    );
    let luck = SameLuck { seed: 1, threads: 1 };
    let question = Question { from: LOST_AT, allowed: 0.05, step: STEP, runs: 160, luck };
    let without = |site: &str| {
        let gone = Lost::FillSite { name: site.to_owned() };
        let loss = losses(&world.plan()).into_iter().find(|loss| loss.lost == gone);
        let plan = loss.and_then(|loss| loss.plan).expect("a plan");
        let found = gone_from_the_start(&plan, &question, &Control::default()).expect("an answer");
        found.holds.map(|(flow, _)| flow)
    };
    let stock = 1_000.0 + 3_000.0 + 3_000.0 + 3_000.0 + 2_000.0;
    let poor = without("Pond").unwrap_or(0.0);
    assert!(poor <= 100.0 + stock / (WATCHED - LOST_AT), "{poor}");
    assert_eq!(without("Brook"), Some(350.0), "the whole flow holds with the rich one alone");
}

/// By hand: 5 minutes out, 3,000 gal at 1,000 gpm, 5 minutes back; and a pond of 9,000 gal is dry with the third load.
#[test]
fn a_tanker_is_away_for_the_road_and_the_filling() {
    let world = World::new()
        .attack_flow(100.0)
        .watched(120.0)
        .tanker("Only", 3_000.0, 0.0)
        .with(|draft| draft.fill_sites[0].volume = Some(9_000.0));
    let runs = Runs { first: 0, count: 16, seed: 1, threads: 1 };
    let found = turnarounds(&world.plan(), runs, &Control::default());
    let away = &found.tankers[0];
    assert_eq!(away.trips, 3 * 16, "three loads and no more: the pond is dry");
    assert!((away.mean().expect("trips") - 13.0).abs() < 1e-6, "{:?}", away.mean());
    let within = away.within(0.95).expect("trips");
    assert!((13.0..=13.1 + 1e-9).contains(&within), "{within}");
    assert_eq!(found.sources[0].runs, 16);
    assert_eq!(found.by_site[0], std::slice::from_ref(away), "all of them from the one source");
}

/// By hand: 13 minutes away for a load from the near source, as above; the far one is 12 minutes each way, 27 in all. The
/// near pond holds one load, so that the next are from the far one.
#[test]
fn a_tanker_that_is_told_no_source_is_away_as_long_as_each_takes() {
    let world =
        World::new().attack_flow(100.0).watched(120.0).tanker("Only", 3_000.0, 0.0).with(|draft| {
            let mut far = draft.fill_sites[0].clone();
            far.name = "Far".to_owned();
            far.out.time = TimeTaken::Fixed(12.0);
            far.back.time = TimeTaken::Fixed(12.0);
            draft.fill_sites[0].volume = Some(3_000.0);
            draft.fill_sites.push(far);
        });
    let runs = Runs { first: 0, count: 16, seed: 1, threads: 1 };
    let found = turnarounds(&world.plan(), runs, &Control::default());
    let [near, far] = found.by_site[0].as_slice() else { panic!("two sources") };
    assert_eq!((near.trips, near.trips + far.trips), (16, found.tankers[0].trips));
    assert!((near.mean().expect("trips") - 13.0).abs() < 1e-6, "{:?}", near.mean());
    assert!((far.mean().expect("trips") - 27.0).abs() < 1e-6, "{:?}", far.mean());
}
