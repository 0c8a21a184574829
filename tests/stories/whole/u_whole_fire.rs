//! What a whole fire shares: one factor on all driving, one on all handling, one on all responses.

use crate::common::assert_close;
use crate::common::telling::Telling;
use crate::common::world::{World, comes_at, fixed, open_dump_site};
use shuttle_sim::{Brought, Doing, Happening, Luck, Near, TimeTaken, WholeFire};

const DRIVING: WholeFire = WholeFire { driving_cv: 0.4, handling_cv: 0.0, response_cv: 0.0 };
const HANDLING: WholeFire = WholeFire { driving_cv: 0.0, handling_cv: 0.4, response_cv: 0.0 };
const RESPONSE: WholeFire = WholeFire { driving_cv: 0.0, handling_cv: 0.0, response_cv: 0.4 };

/// E 2:00, water on 1:00     drop tank 3:00, set up 2:00     supply engine 4:00, hook-up 2:00
/// T1, T2(2000) 5:00, 7:00 -> [20000], 9 positions => E(1000) 100 gpm
/// Pond{1000} 5 out 3 back, 9 positions, ready 18:00; one lane by the scene, 1:00
/// position 0:30, clear 0:15, connect 0:45, disconnect 0:20
///
/// Nobody waits for anybody but at the one lane, and all steps have other lengths.
fn night() -> World {
    World::new()
        .attack_flow(100.0)
        .engine_comes(2.0, 1.0)
        .supply_engine(4.0, 2.0)
        .first_tank(|tank| {
            tank.capacity = 20_000.0;
            tank.dump_positions = 9;
            tank.brought = Brought::Itself(comes_at(3.0));
            tank.setup = fixed(2.0);
        })
        .pond(|site| {
            site.back.time = fixed(3.0);
            site.ready = fixed(18.0);
            site.positions = 9;
        })
        .one_lane(Near::Scene, 1.0)
        .tanker("T1", 2000.0, 5.0)
        .tanker("T2", 2000.0, 7.0)
        .handling(|handling| {
            handling.dump_position = fixed(0.5);
            handling.dump_clear = fixed(0.25);
            handling.fill_connect = fixed(0.75);
            handling.fill_disconnect = fixed(1.0 / 3.0);
        })
        .watched(90.0)
}

fn sharing(world: World, fire: WholeFire) -> World {
    world.with(|draft| draft.whole_fire = fire)
}

/// What a fire multiplies driving, handling and responses by; 1 where the story does not tell.
fn factors(told: &Telling) -> [f64; 3] {
    let of_note = |happening| match happening {
        Happening::WholeFire { driving, handling, response } => Some([driving, handling, response]),
        _ => None,
    };
    told.trace.notes.iter().find_map(|note| of_note(note.happening)).unwrap_or([1.0; 3])
}

/// When this first happened, minutes after the alarm.
#[track_caller]
fn minute_of(told: &Telling, what: Happening) -> f64 {
    let note = told.trace.notes.iter().find(|note| note.happening == what);
    note.unwrap_or_else(|| panic!("{what:?} did not happen")).minute
}

/// How long a tanker's first stretch of this took.
#[track_caller]
fn first(told: &Telling, tanker: usize, doing: Doing) -> f64 {
    let mut own = told.trace.notes.iter().filter_map(|note| match note.happening {
        Happening::Tanker(who, doing) if who == tanker => Some((note.minute, doing)),
        _ => None,
    });
    let (begins, _) = own.find(|(_, other)| *other == doing).expect("it does that");
    own.next().expect("it ends").0 - begins
}

/// A fire in which this factor (0: driving, 1: handling, 2: responses) is well above 1.
fn bad(world: &World, which: usize) -> (Telling, f64) {
    let told = world.told_where(|told| factors(told)[which] > 1.2);
    let factor = factors(&told)[which];
    (told, factor)
}

#[test]
fn u01_one_factor_on_all_driving() {
    let (told, factor) = bad(&sharing(night(), DRIVING), 0);
    for tanker in [0, 1] {
        assert_close(first(&told, tanker, Doing::CrossingOneLane), factor, "1 min to cross");
        assert_close(first(&told, tanker, Doing::TravelingOut(0)), 5.0 * factor, "5 min out");
        assert_close(first(&told, tanker, Doing::TravelingBack), 3.0 * factor, "3 min back");
    }
    // Neither handling nor responses take part.
    assert_eq!(
        told.arrivals(),
        "attack engine 0:02 | first water 0:03 | drop tank 1 there 0:03 | supply engine 0:04 \
         | drop tank 1 ready 0:05"
    );
    assert_close(first(&told, 0, Doing::Positioning(0)), 0.5, "to position");
    assert_close(first(&told, 0, Doing::Connecting(0)), 0.75, "to connect");
}

#[test]
fn u02_one_factor_on_all_handling_setting_up_and_priming_too() {
    let lost = sharing(night(), HANDLING).reprime(2.0).attack_flow(500.0).with(|draft| {
        draft.attack_engine.tank_refill = 0.0;
        draft.tankers.truncate(1);
    });
    let (told, factor) = bad(&lost, 1);
    let since = |begin, end| minute_of(&told, end) - minute_of(&told, begin);
    assert_close(
        since(Happening::AttackEngineArrived, Happening::FirstWater),
        factor,
        "1 min until water is on",
    );
    assert_close(
        since(Happening::DropTankArrived(0), Happening::DropTankReady(0)),
        2.0 * factor,
        "2 min to set up the drop tank",
    );
    // The supply engine has been there since 0:04.
    assert_close(
        since(Happening::DropTankReady(0), Happening::HookedUp),
        2.0 * factor,
        "2 min to hook up",
    );
    assert_close(since(Happening::Repriming, Happening::PrimeBack), 2.0 * factor, "2 min to prime");
    for (doing, minutes) in [
        (Doing::Positioning(0), 0.5),
        (Doing::Clearing(0), 0.25),
        (Doing::Connecting(0), 0.75),
        (Doing::Disconnecting(0), 1.0 / 3.0),
    ] {
        assert_close(first(&told, 0, doing), minutes * factor, &format!("{doing:?}"));
    }
    // Neither driving nor responses take part.
    assert_close(first(&told, 0, Doing::TravelingOut(0)), 5.0, "out");
    assert_close(first(&told, 0, Doing::TravelingBack), 3.0, "back");
    assert_close(minute_of(&told, Happening::SupplyEngineArrived), 4.0, "supply engine");
}

#[test]
fn u03_nursing_is_handling() {
    // T1(2000) 0:00, connect 1:00 ) 500 gpm ) E, disconnect 0:30
    let world = sharing(World::new(), HANDLING).no_drop_tank().tanker("T1", 2000.0, 0.0);
    let world = world.handling(|handling| {
        (handling.nurse_connect, handling.nurse_disconnect) = (fixed(1.0), fixed(0.5));
    });
    let (told, factor) = bad(&world, 1);
    assert_close(first(&told, 0, Doing::NurseConnecting), factor, "to connect");
    assert_close(first(&told, 0, Doing::NurseDisconnecting), 0.5 * factor, "to disconnect");
}

#[test]
fn u04_one_factor_on_every_response_counted_from_the_request() {
    // T2 is asked for at 0:03.
    let late = sharing(night(), RESPONSE).with(|draft| draft.tankers[1].call.requested_at = 3.0);
    let (told, factor) = bad(&late, 2);
    assert_close(minute_of(&told, Happening::AttackEngineArrived), 2.0 * factor, "E");
    assert_close(minute_of(&told, Happening::SupplyEngineArrived), 4.0 * factor, "supply engine");
    assert_close(minute_of(&told, Happening::DropTankArrived(0)), 3.0 * factor, "drop tank");
    assert_close(told.began("T1", Doing::WaitingAtScene)[0], 5.0 * factor, "T1");
    assert_close(told.began("T2", Doing::WaitingAtScene)[0], 3.0 + 7.0 * factor, "T2");
    assert_close(first(&told, 0, Doing::TravelingOut(0)), 5.0, "out");
    assert_close(first(&told, 0, Doing::Positioning(0)), 0.5, "to position");
}

#[test]
fn u05_repair_and_a_sites_readiness_are_not_touched() {
    let fire = WholeFire { driving_cv: 0.4, handling_cv: 0.4, response_cv: 0.4 };
    let world = sharing(night(), fire).every_tanker(|tanker| {
        tanker.breakdown_per_trip = 1.0;
        tanker.repair = Some(fixed(4.0));
    });
    let told = world.told_where(|told| factors(told).iter().all(|factor| *factor > 1.1));
    assert_close(first(&told, 0, Doing::InRepair), 4.0, "repair");
    assert_close(minute_of(&told, Happening::FillSiteReady(0)), 18.0, "ready");
}

#[test]
fn u06_a_crew_has_a_factor_of_its_own_beside_the_fires() {
    let world = sharing(night(), HANDLING).with(|draft| draft.tankers[0].crew_cv = 0.4);
    let crew = |told: &Telling| {
        told.trace.notes.iter().find_map(|note| match note.happening {
            Happening::Crew(0, factor) => Some(factor),
            _ => None,
        })
    };
    let told = world
        .told_where(|told| factors(told)[1] > 1.2 && crew(told).is_some_and(|crew| crew < 0.8));
    let (fire, crew) = (factors(&told)[1], crew(&told).unwrap());
    assert_close(first(&told, 0, Doing::Positioning(0)), 0.5 * fire * crew, "T1 positions");
    assert_close(first(&told, 0, Doing::Connecting(0)), 0.75 * fire * crew, "T1 connects");
    assert_close(first(&told, 1, Doing::Connecting(0)), 0.75 * fire, "T2 connects");
    // Setting up is nobody's own.
    let setup = minute_of(&told, Happening::DropTankReady(0)) - 3.0;
    assert_close(setup, 2.0 * fire, "the drop tank");
    assert_close(first(&told, 0, Doing::TravelingOut(0)), 5.0, "T1 drives");
}

#[test]
fn u07_as_planned_every_factor_is_1() {
    let fire = WholeFire { driving_cv: 0.4, handling_cv: 0.4, response_cv: 0.4 };
    let shared = sharing(night(), fire).every_tanker(|tanker| tanker.crew_cv = 0.4).told();
    let plain = night().told();
    assert_eq!(shared.trace, plain.trace);
    assert_eq!(shared.result, plain.result);
}

#[test]
fn u08_the_boss_reckons_by_the_plan_however_bad_the_fire() {
    // Pond 5 out 3 back, ready 18:00; Lake 4 out 4:30 back, ready 0:00. T1 leaves at 7:45: by the plan it would be
    // back from the Pond at 18:00 + 3:05 + 3:00 and from the Lake at 7:45 + 4:00 + 3:05 + 4:30, which is sooner. With
    // driving x 3 and more it would not be: 8 times the factor against 8.5.
    let world = sharing(night(), WholeFire { driving_cv: 1.5, ..DRIVING });
    let world = world.fill_site_with("Lake", 4.0, 4.5, |site| site.positions = 9);
    let told = world.told_where(|told| factors(told)[0] > 3.0);
    assert!(told.tanker("T1").contains("| clear -0:07:45 | cross"), "{}", told.tanker("T1"));
    let lake = told.began("T1", Doing::TravelingOut(1))[0];
    let pond = told.began("T1", Doing::TravelingOut(0)).first().copied();
    assert!(pond.is_none_or(|pond| lake < pond), "Lake at {lake}, Pond at {pond:?}");
}

#[test]
fn u09_the_fire_is_the_same_whoever_else_is_in_the_plan() {
    let fire = WholeFire { driving_cv: 0.4, handling_cv: 0.3, response_cv: 0.2 };
    let crewed = |world: World| world.every_tanker(|tanker| tanker.crew_cv = 0.3);
    let alone = crewed(sharing(night(), fire));
    let more = crewed(
        sharing(night(), fire)
            .tanker("T0", 1500.0, 3.0)
            .drop_tank(3000.0)
            .with(|draft| draft.tankers.rotate_right(1)),
    );
    let position = |world: &World, name: &str, luck| {
        let told = world.told_with(luck);
        let tanker = world.draft().tankers.iter().position(|tanker| tanker.name == name);
        (factors(&told), first(&told, tanker.unwrap(), Doing::Positioning(0)))
    };
    for replication in 0..20 {
        let luck = Luck::Drawn { seed: 2026, replication };
        let (ours, theirs) = (position(&alone, "T1", luck), position(&more, "T1", luck));
        assert_eq!(ours.0, theirs.0);
        assert_close(ours.1, theirs.1, "T1 positions");
        let next = Luck::Drawn { seed: 2026, replication: replication + 1 };
        assert_ne!(position(&alone, "T1", next).0, ours.0, "another fire, other factors");
    }
}

#[test]
fn u10_factors_have_mean_1_and_the_stated_spread_and_go_each_its_own_way() {
    const RUNS: u64 = 4000;
    let fire = WholeFire { driving_cv: 0.2, handling_cv: 0.2, response_cv: 0.2 };
    let world = sharing(World::new(), fire).tanker("T1", 2000.0, 0.0).watched(1.0);
    let plan = world.plan();
    let mut shuttle = shuttle_sim::Shuttle::new(&plan);
    let mut drawn: [Vec<f64>; 3] = Default::default();
    for replication in 0..RUNS {
        let (result, trace) = shuttle.run_traced(Luck::Drawn { seed: 2026, replication });
        let told = Telling::new(&plan, result, trace);
        for (all, factor) in drawn.iter_mut().zip(factors(&told)) {
            all.push(factor);
        }
    }
    let n = RUNS as f64;
    let mean = |values: &[f64]| values.iter().sum::<f64>() / n;
    for values in &drawn {
        // Within 4 standard errors: 0.2 / sqrt(n) of the mean, about 0.2 / sqrt(2 n) of the spread.
        assert!((mean(values) - 1.0).abs() < 4.0 * 0.2 / n.sqrt(), "mean {}", mean(values));
        let squares: Vec<f64> = values.iter().map(|factor| (factor - 1.0).powi(2)).collect();
        let spread = mean(&squares).sqrt();
        assert!((spread - 0.2).abs() < 4.0 * 0.2 / (2.0 * n).sqrt() * 1.2, "spread {spread}");
    }
    for (one, other) in [(0, 1), (0, 2), (1, 2)] {
        let products: Vec<f64> = (drawn[one].iter().zip(&drawn[other]))
            .map(|(a, b)| (a - 1.0) * (b - 1.0) / 0.04)
            .collect();
        let correlation = mean(&products);
        assert!(correlation.abs() < 4.0 / n.sqrt(), "{one} with {other}: {correlation}");
    }
}

#[test]
fn u11_a_fixed_time_is_as_much_longer_as_a_drawn_one() {
    // T1(2000) 0:00 -> [20000]: a fixed 5 min out, and back 5 min but for a hair. On one fire both take the same factor.
    let world = open_dump_site()
        .with(|draft| draft.whole_fire.driving_cv = 0.5)
        .pond(|site| site.back.time = TimeTaken::Uniform { low: 5.0, high: 5.000_001 })
        .tanker("T1", 2000.0, 0.0)
        .watched(90.0);
    for replication in 0..20 {
        let told = world.told_with(Luck::Drawn { seed: 3, replication });
        let out =
            told.began("T1", Doing::Filling(0))[0] - told.began("T1", Doing::TravelingOut(0))[0];
        let back =
            told.began("T1", Doing::Dumping(0))[1] - told.began("T1", Doing::TravelingBack)[0];
        assert!((out / back - 1.0).abs() < 1e-6, "{out} out, {back} back");
    }
}
