//! What `risk` tries against the causes that come up, in worlds worked out by hand: that the right cure is among
//! what was tried and does what it must, and that what never binds is said to.

mod common;

use common::world::{World, comes_at, fixed};
use shuttle_report::batch::Control;
use shuttle_report::changes::input::{Change, Input};
use shuttle_report::cures::cures;
use shuttle_report::losses::{Kind, Lost, losses, what_a_loss_does};
use shuttle_report::side_by_side::SameLuck;
use shuttle_report::units::Units;
use shuttle_report::what_would_help::{Help, RiskAnswer, risk};
use shuttle_sim::{Brought, Cause, CauseKind, Failure, SourcePump, Subject};

const RUNS: u64 = 512;

fn asked(world: &World) -> RiskAnswer {
    let luck = SameLuck { seed: 1, threads: 2 };
    risk(&world.plan(), Units::Us, true, RUNS, luck, &Control::default())
}

fn tried(found: &RiskAnswer, is: impl Fn(&Change) -> bool) -> Option<&Help> {
    found.tried.iter().find(|one| is(&one.change))
}

fn is_of(input: &Input) -> impl Fn(&Change) -> bool {
    move |change| matches!(change, Change::Moved { input: moved, .. } if moved == input)
}

/// T1(2000) 0:00, T2(2000) 0:01 -> [2000] => supply engine there 0:00, set-up 6:00 => E(1000) 500 gpm, watched 7:00
///
/// Nobody nurses: T1 fills the drop tank by 0:02, when the engine is empty, and T2 stands there until 0:06.
fn nobody_nurses() -> World {
    World::new()
        .supply_engine(0.0, 6.0)
        .first_tank(|tank| tank.capacity = 2000.0)
        .tanker("T1", 2000.0, 0.0)
        .tanker("T2", 2000.0, 1.0)
        .watched(7.0)
}

#[test]
fn nursing_is_tried_where_the_draft_is_not_up_and_cures_it() {
    let found = asked(&nobody_nurses());
    assert_eq!(found.summary.interruption_probability, 1.0);
    assert_eq!(found.summary.causes_of_which, [(CauseKind::IntakeFree, 1.0)]);
    // Worked out by hand in the story of the full drop tank beside a free intake.
    let nursing = tried(&found, |one| *one == Change::NurseUntilTheDraft).expect("it is tried");
    assert_eq!((nursing.interruption_probability, nursing.never_binds), (0.0, false));
    assert!(nursing.surely_helps());
    assert!(cures(&nursing.change).contains(&Cause::DraftNotUp));
    // Two minutes quicker is too slow still: the engine is empty at 0:02, the draft up at 0:04.
    let quicker = tried(&found, is_of(&Input::DraftSetup)).expect("it is tried for this cause");
    assert_eq!((quicker.interruption_probability, quicker.never_binds), (1.0, false));
}

#[test]
fn what_changes_nothing_in_any_run_is_known_for_it() {
    // T1 leaves at 0:02 and is at the Pond when the watch ends: how many fill there, and how fast, is all one.
    let found = asked(&nobody_nurses());
    let site = || "Pond".to_owned();
    for input in [Input::FillPositions { site: site() }, Input::SiteFlow { site: site() }] {
        let one = tried(&found, is_of(&input)).expect("it is tried");
        assert!(one.never_binds && !one.surely_helps(), "{input:?}");
    }
}

#[test]
fn a_cure_waits_for_its_cause() {
    // Ask nothing of the draft, and its hook-up is not tried; nor a second pump for one that does not fail.
    let haul = World::new()
        .throttling()
        .supply_engine(0.0, 1.0)
        .nursing()
        .tanker("T1", 2000.0, 0.0)
        .watched(20.0);
    let found = asked(&haul);
    assert!(found.summary.causes.contains_key("haul_too_long"), "{:?}", found.summary.causes);
    assert!(!found.summary.causes.contains_key("draft_not_up"));
    assert!(tried(&found, is_of(&Input::DraftSetup)).is_none());
    assert!(tried(&found, |one| *one == Change::SparePump).is_none());
}

#[test]
fn a_second_pump_cures_one_that_fails() {
    // [15000] holds 9,000 gal, 100 gpm: the watch of 60 min is covered unless the pump fails for good.
    let found = asked(
        &World::new()
            .attack_flow(100.0)
            .tank_refill(0.0)
            .first_tank(|tank| tank.capacity = 15_000.0)
            .tanker_with("T1", 9000.0, 0.0, |tanker| tanker.dump_rate = 10_000.0)
            .draft_setup(0.5)
            .watched(60.0)
            .with(|draft| draft.supply.failure = Some(Failure { chance: 1.0, repair: None })),
    );
    // The engine's 1,000 gal last 10 min: it is short if the pump fails before 0:50, in five fires of six.
    let short = found.summary.interruption_probability;
    assert!((short - 5.0 / 6.0).abs() < 4.0 * (5.0 / 36.0 / RUNS as f64).sqrt(), "{short}");
    let spare = tried(&found, |one| *one == Change::SparePump).expect("it is tried");
    assert_eq!(spare.interruption_probability, 0.0);
}

#[test]
fn all_to_another_site_is_tried_where_one_is_not_ready() {
    // T1(2000) 0:00 is assigned to the Pond, which is ready only after the watch. E(1000) 100 gpm.
    let found = asked(
        &World::new()
            .throttling()
            .tank_refill(0.0)
            .attack_flow(100.0)
            .pond(|site| (site.ready, site.positions) = (fixed(60.0), 1))
            .fill_site("Lake", 5.0, 5.0)
            .tanker_with("T1", 2000.0, 0.0, |tanker| tanker.fill_site = Some(0))
            .watched(40.0),
    );
    assert_eq!(found.summary.interruption_probability, 1.0);
    let lake = Change::AllToOneSite { site: "Lake".to_owned() };
    // What there is lasts to 0:30; from the Lake (out 5, fill 2, back 5) T1 brings 2,000 gal more at 0:14.
    let one = tried(&found, |change| *change == lake).expect("it is tried");
    assert_eq!(one.interruption_probability, 0.0);
}

#[test]
fn the_engine_at_the_source_is_lost_like_any_other() {
    let world = World::new()
        .attack_flow(100.0)
        .throttling()
        .tanker("T1", 2000.0, 0.0)
        .tanker("T2", 2000.0, 0.0)
        .watched(60.0)
        .pond(|site| {
            site.source_pump = Some(SourcePump {
                name: "Engine 12".to_owned(),
                brought: Brought::Itself(comes_at(5.0)),
                setup: fixed(2.0),
            });
        });
    let lost = |brought_by: Option<&str>| Lost::SourcePump {
        name: "Engine 12".to_owned(),
        site: "Pond".to_owned(),
        brought_by: brought_by.map(str::to_owned),
    };
    let all = losses(&world.plan());
    assert!(all.iter().any(|one| one.lost == lost(None)));
    let luck = SameLuck { seed: 1, threads: 2 };
    let found = what_a_loss_does(&world.plan(), &[], 0.05, RUNS, luck, &Control::default());
    assert_eq!(found.whole.interruption_probability, 0.0);
    // 5,000 gal last 50 of the 60 min.
    let row = found.losses.iter().find(|row| row.kind == Some(Kind::SourcePump)).expect("a row");
    assert_eq!(row.interruption_probability, 1.0);
    // A pump that a tanker brings is lost with it.
    let brought = world.with(|draft| {
        let pump = draft.fill_sites[0].source_pump.as_mut().expect("a pump");
        pump.brought = Brought::ByTanker(1);
    });
    assert!(losses(&brought.plan()).iter().any(|one| one.lost == lost(Some("T2"))));
    let without = losses(&brought.plan())
        .into_iter()
        .find(|one| matches!(&one.lost, Lost::OneTankerOf { names, .. } if names[0] == ["T2"]));
    let plan = without.and_then(|one| one.plan).expect("a loss of its own");
    let site = &plan.facts().fill_sites[0];
    assert!(site.source_pump.is_none() && site.ready.mean() >= 60.0);
}

#[test]
fn whom_the_lines_waited_for_is_in_the_figures() {
    let found = asked(&World::new().supply_engine(4.0, 2.0).tanker("T1", 2000.0, 0.0).watched(7.0));
    assert_eq!(found.summary.causes_of_which, [(CauseKind::DraftToCome, 1.0)]);
    assert_eq!(found.summary.causes_about, [(Cause::DraftNotUp, Subject::SupplyEngine, 1.0)]);
}
