//! What held within a cause: which of the things that a cause sums up.

use crate::common::assert_close;
use crate::common::world::{World, fixed, road};
use shuttle_sim::{Failure, Happening, Luck, Part, Plan, Shuttle};

/// As in the stories of causes: the lines go short at 0:06 (see `short_at_six` there).
fn short_at_six() -> World {
    World::new().throttling().tank_refill(0.0).pond(|site| site.out = road(3.0)).watched(10.0)
}

#[test]
fn y01_who_was_still_to_come_is_said() {
    // E(1000) 500 gpm is empty at 0:02; T1 comes at 0:05, T2 at 0:04.
    let told = World::new()
        .tank_refill(0.0)
        .tanker("T1", 2000.0, 5.0)
        .tanker("T2", 2000.0, 4.0)
        .watched(5.0)
        .told();
    assert_eq!(told.reasons(), "not_come (T2)");
}

#[test]
fn y02_the_draft_waits_for_its_pump_or_for_its_drop_tank() {
    // T1(2000) 0:00 -> [3000] => supply engine 0:04, set-up 2:00 => E(1000) 500 gpm: empty at 0:02.
    let world = World::new().supply_engine(4.0, 2.0).tanker("T1", 2000.0, 0.0).watched(7.0);
    assert_eq!(world.told().interruptions(), "0:02-0:06 draft_not_up, before supply");
    assert_eq!(world.told().reasons(), "draft_not_up: draft_to_come (supply engine)");
    // T1(2000) waits from 0:00 on; T2 brings the drop tank at 0:05.
    let brought = World::new()
        .tanker("T1", 2000.0, 0.0)
        .tanker("T2", 2000.0, 5.0)
        .intakes(1)
        .first_tank(|tank| tank.brought = shuttle_sim::Brought::ByTanker(1))
        .with(|draft| draft.tankers[0].handling.dump_position = fixed(1.0))
        .watched(4.0);
    // While the drop tank is to come T1 stands in the line with an intake free beside it: that comes first.
    assert_eq!(brought.told().reasons(), "draft_not_up: intake_free");
    // With the intake taken: T1 nurses 400 of the 500 gpm and lasts 5 min, the engine 10.
    let nursing = |draft: &mut shuttle_sim::PlanDraft| {
        draft.supply.nurse = true;
        draft.tankers[0].pump_off = 100.0;
        draft.attack_engine.tank_refill = 0.0;
    };
    // The engine loses 400 gpm: empty at 0:02:30.
    let told = brought.with(nursing).told();
    assert_eq!(told.interruptions(), "0:02:30-0:04 draft_not_up, before supply");
    assert_eq!(told.reasons(), "draft_not_up: draft_to_come (T2)");
}

#[test]
fn y03_pump_and_drop_tank_are_there_and_being_set_up() {
    // T1(2000) 0:00 -> [3000] => supply engine there 0:00, set-up 6:00 => E(1000) 500 gpm
    let told = World::new().supply_engine(0.0, 6.0).tanker("T1", 2000.0, 0.0).watched(7.0).told();
    assert_eq!(told.reasons(), "draft_not_up: setting_up");
}

#[test]
fn y04_hooked_up_over_too_little_water() {
    // T1(200) 0:00 -> [3000], drawn from 300 gal on; E(1000) 500 gpm is empty at 0:02.
    let told = World::new().tanker("T1", 200.0, 0.0).watched(4.0).told();
    assert_eq!(told.interruptions(), "0:02-0:04 draft_not_up, before supply");
    assert_eq!(told.reasons(), "draft_not_up: below_restart_level");
}

#[test]
fn y05_a_full_drop_tank_beside_a_free_intake() {
    // T1(2000) 0:00, T2(2000) 0:01 -> [2000] => supply engine there 0:00, set-up 6:00 => E(1000) 500 gpm
    // T1 fills the drop tank by 0:02, when the engine is empty too; T2 stands there with all its load.
    let world = World::new()
        .supply_engine(0.0, 6.0)
        .first_tank(|tank| tank.capacity = 2000.0)
        .tanker("T1", 2000.0, 0.0)
        .tanker("T2", 2000.0, 1.0)
        .watched(7.0);
    assert_eq!(world.told().interruptions(), "0:02-0:06 draft_not_up, before supply");
    assert_eq!(world.told().reasons(), "draft_not_up: intake_free");
    // Nursing is the cure: T1 nurses until 0:04, and the engine lasts until 0:06, when the pump draws.
    assert_eq!(world.nursing().told().interruptions(), "none");
}

#[test]
fn y06_what_limits_the_draft_or_a_lay_that_still_fills() {
    // T1(3000) 0:00 -> [3000] => at most 300 gpm => E(1000) 500 gpm
    let limited = World::new().draft_limit(300.0).tanker("T1", 3000.0, 0.0).watched(10.0);
    assert_eq!(limited.told().reasons(), "draft_or_lay_too_small: at_its_limit");
    // The same through a dry lay of 2,000 gal: it takes 300 gpm for 6:40 and more, the engine is empty at 0:02.
    let told = limited.dry_lay(2000.0).told();
    assert_eq!(told.reasons(), "draft_or_lay_too_small: lay_filling");
}

#[test]
fn y07_a_source_that_is_not_ready_has_run_down_or_cannot_serve_at_all() {
    let one = |site: fn(&mut shuttle_sim::FillSite)| short_at_six().pond(site);
    // T1(2000) waits from 0:05.
    let late = one(|site| site.ready = fixed(30.0)).tanker("T1", 2000.0, 0.0).told();
    assert_eq!(late.reasons(), "source_not_ready: not_ready_yet (Pond)");
    // T1 takes 2,000 gpm from 0:05 on out of 1,000 gal: run down at 0:05:30, from then on 10 gpm.
    let run_down = one(|site| {
        (site.flow, site.volume, site.recharge) = (2000.0, Some(1000.0), 10.0);
    })
    .tanker_with("T1", 2000.0, 0.0, |tanker| tanker.fill_limit = Some(2000.0))
    .told();
    assert_eq!(run_down.reasons(), "source_not_ready: run_down (Pond)");
    // 900 gal are less than half of T1: it stands by. Assigned to it, it waits for that one.
    let too_little = one(|site| site.volume = Some(900.0)).tanker("T1", 2000.0, 0.0);
    assert_eq!(too_little.told().reasons(), "source_not_ready: none_left");
    let assigned = too_little.with(|draft| draft.tankers[0].fill_site = Some(0));
    assert_eq!(assigned.told().reasons(), "source_not_ready: run_down (Pond)");
}

#[test]
fn y08_a_source_that_has_failed() {
    // T1(2000) drives from 0:02 to 0:05 and waits at a Pond that failed on its way.
    let world = short_at_six().tanker("T1", 2000.0, 0.0).pond(|site| {
        site.failure = Some(Failure { chance: 1.0, repair: Some(fixed(30.0)) });
    });
    let failed = |told: &crate::common::telling::Telling| {
        let at = told.trace.notes.iter().find(|one| one.happening == Happening::FillSiteFailed(0));
        at.is_some_and(|note| (2.1..5.0).contains(&note.minute))
    };
    let told = world.told_where(failed);
    assert_eq!(told.reasons(), "source_not_ready: source_failed (Pond)");
}

#[test]
fn y09_every_place_is_taken() {
    // T1(2000) 0:00, clear 10:00, holds the only position until 0:12; T2(2000) waits from 0:01.
    let told = short_at_six()
        .tanker("T1", 2000.0, 0.0)
        .tanker("T2", 2000.0, 1.0)
        .handling(|handling| handling.dump_clear = fixed(10.0))
        .told();
    assert_eq!(told.reasons(), "dump_site_queue: no_place");
}

#[test]
fn y10_a_place_is_free_and_the_load_does_not_fit() {
    // T1(2000) 0:00, dumps at 100 gpm; T2(2700) 0:01 -> [3000] 2 positions, drawn from 100 gal on
    // The pump draws from 0:01; the 100 gal and T1's 100 gpm last to 0:01:15, then the engine, down to 500 gal,
    // loses 400 gpm: empty at 0:02:30. T2 wants room for 2,700 less the 1,350 drawn while it dumps; there are
    // 3,000 less T1's rest, 1,350 of them at 0:03:30.
    let told = World::new()
        .throttling()
        .tank_refill(0.0)
        .restart_level(100.0)
        .first_tank(|tank| tank.dump_positions = 2)
        .tanker_with("T1", 2000.0, 0.0, |tanker| tanker.dump_rate = 100.0)
        .tanker("T2", 2700.0, 1.0)
        .watched(5.0)
        .told();
    assert_eq!(told.interruptions(), "0:02:30-0:03:30 dump_site_queue, after supply");
    assert_eq!(told.reasons(), "dump_site_queue: no_room");
}

#[test]
fn y11_loads_stand_at_a_full_drop_tank() {
    // T1(2000) 0:00 dumps in tank 1 and holds its position until 0:12; T2(2000) 0:01 in tank 2 [1000], which passes on
    // 10 gpm: it is full at 0:02, and T2 stands there with 1,000 gal when the lines go short.
    let told = short_at_six()
        .drop_tank_with(1000.0, |tank| tank.transfer = 10.0)
        .tanker_with("T1", 2000.0, 0.0, |tanker| tanker.handling.dump_clear = fixed(10.0))
        .tanker("T2", 2000.0, 1.0)
        .told();
    assert_eq!(told.reasons(), "dump_site_queue: at_full_tank");
}

#[test]
fn y12_what_a_full_drop_tank_holds_up_is_told_apart_from_the_dumping() {
    // T1(3000) 0:00 -> [1000] => E(1000) 500 gpm, no refill     Pond{1000} 1 out 1 back
    // Back with its second load at 9.3 (dump 4.3, out, fill 3:00, back): the drop tank has been empty since 6.3. It
    // dumps 1,000 gpm while 500 leave, so the tank is full after 2 min; the last 1,000 gal follow at 500 gpm.
    // 4 minutes instead of the 3 that the load takes: held up for 1.
    let told = World::new()
        .throttling()
        .tank_refill(0.0)
        .first_tank(|tank| tank.capacity = 1000.0)
        .pond(|site| (site.out, site.back) = (road(1.0), road(1.0)))
        .tanker("T1", 3000.0, 0.0)
        .watched(14.0)
        .told();
    let record = &told.result.tankers[0];
    assert_eq!(record.cycles, 1);
    assert_close(record.parts[Part::Dump as usize], 4.0, "dumping");
    assert_close(record.held_up, 1.0, "held up");
}

#[test]
fn y13_dumping_with_room_is_never_held_up() {
    // T1(2000), by gravity, T2(1500), steady -> [20000] 9 positions: nothing is ever full.
    let plan: Plan = crate::common::world::open_dump_site()
        .tanker_with("T1", 2000.0, 0.0, |tanker| {
            tanker.dump_curve = shuttle_sim::DumpCurve::Gravity;
            tanker.residual = 0.03;
        })
        .tanker("T2", 1500.0, 1.0)
        .watched(120.0)
        .plan();
    let mut shuttle = Shuttle::new(&plan);
    let run = shuttle.run(shuttle_sim::Luck::Planned);
    for tanker in &run.tankers {
        assert!(tanker.cycles > 3);
        assert_eq!(tanker.held_up, 0.0);
    }
}

#[test]
fn y14_a_tanker_is_in_repair_or_out_for_good() {
    // T1(2000) 0:00 breaks down after its first load; the lines go short at 0:06.
    let reasons = |repair| {
        let world = short_at_six().tanker_with("T1", 2000.0, 0.0, |tanker| {
            tanker.breakdown_per_trip = 1.0;
            tanker.repair = repair;
        });
        world.told_with(Luck::Drawn { seed: 1, replication: 0 }).reasons()
    };
    assert_eq!(reasons(None), "out_of_service: out_for_good");
    assert_eq!(reasons(Some(fixed(30.0))), "out_of_service: in_repair");
}

#[test]
fn y15_the_source_named_is_the_one_waited_for() {
    // As y07, T1 assigned to the Lake, 3:00 out, which is not ready: it waits there from 0:05.
    let told = short_at_six()
        .fill_site_with("Lake", 3.0, 5.0, |site| site.ready = fixed(30.0))
        .tanker_with("T1", 2000.0, 0.0, |tanker| tanker.fill_site = Some(1))
        .told();
    assert_eq!(told.reasons(), "source_not_ready: not_ready_yet (Lake)");
}
