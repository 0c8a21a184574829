//! What a whole fire shares, where the chance of an interruption is a closed form: mixtures over who comes, the
//! lognormal law of a shared factor, a moment uniform over the watch.

use crate::common::world::{World, fixed, road};
use shuttle_sim::{Brought, Call, Failure, Luck, Shuttle, TimeTaken, WholeFire};
use statrs::distribution::{ContinuousCDF, Normal};

const RUNS: u64 = 20_000;

/// Chance that a lognormal time or factor of this mean exceeds `x`, by the normal distribution of its
/// logarithm. `log_variance` is that of the logarithm; with a coefficient of variation cv it is ln(1 + cv^2), and
/// that of a product of independent ones the sum of theirs.
fn exceeds(mean: f64, log_variance: f64, x: f64) -> f64 {
    let median = mean.ln() - log_variance / 2.0;
    1.0 - Normal::standard().cdf((x.ln() - median) / log_variance.sqrt())
}

fn log_variance(cv: f64) -> f64 {
    (1.0 + cv * cv).ln()
}

/// - Errors: what is wrong, if the share of interrupted runs lies further from theory than chance explains.
fn agrees(world: &World, theory: f64) -> Result<(), String> {
    let mut shuttle = Shuttle::new(&world.plan());
    let interrupted = |replication| {
        let run = shuttle.run(Luck::Drawn { seed: 7, replication });
        !run.interruptions.is_empty()
    };
    let share = (0..RUNS).map(interrupted).filter(|short| *short).count() as f64 / RUNS as f64;
    let off = (share - theory) / (theory * (1.0 - theory) / RUNS as f64).sqrt();
    let told = format!("{share} of runs, theory {theory}: off by {off:.1} standard errors");
    if off.abs() <= 4.0 { Ok(()) } else { Err(told) }
}

/// Holds a world to its theory, and one that is wrong on purpose not to it.
#[track_caller]
fn assert_agrees(world: &World, theory: f64, wrong: &World) {
    assert!((0.05..0.95).contains(&theory), "a chance of {theory} tells little");
    assert_eq!(agrees(world, theory), Ok(()));
    assert!(agrees(wrong, theory).is_err(), "a wrong world passes");
}

/// E(1000) 100 gpm, no refill, tolerance 0: it lasts 10 minutes. [20000], drawn from 300 gal on, 0.3 minutes after
/// a tanker begins to dump.
fn ten_minutes_to_live() -> World {
    World::new()
        .attack_flow(100.0)
        .tank_refill(0.0)
        .tolerance(0.0)
        .throttling()
        .first_tank(|tank| (tank.capacity, tank.dump_positions) = (20_000.0, 9))
        .watched(15.0)
}

#[test]
fn turnout_mixes_the_fires_with_and_without_the_tanker() {
    // T1 must be there by 9.7, or T2; both late is the product. Of the fires without T1 only T2 counts.
    let late = |mean, cv| exceeds(mean, log_variance(cv), 9.7);
    let (with, without) = (late(9.0, 0.3) * late(10.0, 0.2), late(10.0, 0.2));
    let world = |turnout| {
        ten_minutes_to_live()
            .tanker_with("T1", 2000.0, 0.0, |tanker| {
                tanker.call.response = TimeTaken::Lognormal { mean: 9.0, cv: 0.3 };
                tanker.call.turnout = turnout;
            })
            .tanker_with("T2", 2000.0, 0.0, |tanker| {
                tanker.call.response = TimeTaken::Lognormal { mean: 10.0, cv: 0.2 };
            })
    };
    assert_agrees(&world(0.7), 0.7 * with + 0.3 * without, &world(0.75));
}

#[test]
fn a_department_that_comes_whole_stays_away_whole() {
    // As above, of one department: both come in 0.7 of the fires, or neither.
    let late = |mean, cv| exceeds(mean, log_variance(cv), 9.7);
    let both = late(9.0, 0.3) * late(10.0, 0.2);
    let world = |comes_with: Option<&str>| {
        let one = |world: World, name: &str, mean, cv| {
            world.tanker_with(name, 2000.0, 0.0, |tanker| {
                tanker.call.response = TimeTaken::Lognormal { mean, cv };
                tanker.call.turnout = 0.7;
                tanker.comes_with = comes_with.map(str::to_owned);
            })
        };
        one(one(ten_minutes_to_live(), "T1", 9.0, 0.3), "T2", 10.0, 0.2)
    };
    assert_agrees(&world(Some("Creek")), 0.7 * both + 0.3, &world(None));
}

#[test]
fn a_shared_response_factor_makes_late_together() {
    // Both would come at 0:08: with one factor on both they are late in the same fires.
    let fire = |cv| {
        ten_minutes_to_live()
            .tanker("T1", 2000.0, 8.0)
            .tanker("T2", 2000.0, 8.0)
            .with(|draft| draft.whole_fire = WholeFire { response_cv: cv, ..WholeFire::default() })
    };
    let theory = exceeds(8.0, log_variance(0.3), 9.7);
    let apart = ten_minutes_to_live()
        .tanker("T1", 2000.0, 8.0)
        .tanker("T2", 2000.0, 8.0)
        .every_tanker(|tanker| {
            tanker.call.response = TimeTaken::Lognormal { mean: 8.0, cv: 0.3 };
        });
    assert_agrees(&fire(0.3), theory, &apart);
}

#[test]
fn a_shared_driving_factor_stretches_the_whole_way() {
    // T1 dumps 2,000 gal by 0:02 and brings as many after 10 out, 2 to fill and 10 back. 3,000 gal at 100 gpm last
    // for 30 minutes: too late with a factor above 26 / 20. Separate factors out and back would partly cancel.
    let trip = |world: World| {
        world.tank_refill(500.0).watched(31.0).tanker("T1", 2000.0, 0.0).pond(|site| {
            (site.out, site.back) = (road(10.0), road(10.0));
        })
    };
    let shared = trip(ten_minutes_to_live()).with(|draft| {
        draft.whole_fire = WholeFire { driving_cv: 0.3, ..WholeFire::default() };
    });
    let apart = trip(ten_minutes_to_live()).pond(|site| {
        let way = TimeTaken::Lognormal { mean: 10.0, cv: 0.3 };
        (site.out.time, site.back.time) = (way.clone(), way);
    });
    assert_agrees(&shared, exceeds(1.0, log_variance(0.3), 26.0 / 20.0), &apart);
}

#[test]
fn the_factors_of_fire_and_crew_multiply() {
    // T1, there at 0:00, takes 7 minutes times both factors to get into place.
    let world = |fire, crew| {
        ten_minutes_to_live()
            .tanker_with("T1", 2000.0, 0.0, |tanker| {
                tanker.handling.dump_position = fixed(7.0);
                tanker.crew_cv = crew;
            })
            .with(|draft| {
                draft.whole_fire = WholeFire { handling_cv: fire, ..WholeFire::default() }
            })
    };
    let theory = exceeds(7.0, log_variance(0.3) + log_variance(0.4), 9.7);
    assert_agrees(&world(0.3, 0.4), theory, &world(0.3, 0.3));
}

#[test]
fn a_pump_that_fails_at_any_moment_of_the_watch_leaves_the_engine_its_own_tank() {
    // T1 is there at 0:00 with 10,000 gal, and the engine has 970 gal when the pump draws: failed for good with
    // more than 9.7 minutes of 60 to go, the lines run dry.
    let world = |chance| {
        ten_minutes_to_live().watched(60.0).tanker("T1", 10_000.0, 0.0).with(|draft| {
            draft.supply.failure = Some(Failure { chance, repair: None });
        })
    };
    assert_agrees(&world(0.4), 0.4 * (60.0 - 9.7) / 60.0, &world(0.37));
}

#[test]
fn a_repair_bridged_by_the_engines_tank_is_none() {
    // As above, and repaired after an exponential time of 8 minutes in the mean, primed at once: short where that
    // takes more than 9.7 and the failure comes early enough.
    let world = |mean| {
        ten_minutes_to_live().watched(60.0).tanker("T1", 10_000.0, 0.0).with(|draft| {
            let repair = Some(TimeTaken::Exponential { mean });
            draft.supply.failure = Some(Failure { chance: 1.0, repair });
        })
    };
    let theory = (60.0 - 9.7) / 60.0 * (-9.7_f64 / 8.0).exp();
    assert_agrees(&world(8.0), theory, &world(8.8));
}

#[test]
fn a_drop_tank_that_comes_late_is_worse_than_one_that_is_missed() {
    // The first drop tank should come at 0:09, with a chance of 0.8; T1 has dumped into the second. If it comes, the
    // draft waits for it and for 300 gal at 500 gpm from the second: too late after 9.4. If not, it is missed at
    // 0:09, and the draft begins in the second at once.
    let world = |turnout| {
        ten_minutes_to_live().tanker("T1", 2000.0, 0.0).drop_tank(3000.0).first_tank(|tank| {
            let response = TimeTaken::Lognormal { mean: 9.0, cv: 0.3 };
            tank.brought = Brought::Itself(Call { requested_at: 0.0, response, turnout });
        })
    };
    assert_agrees(&world(0.8), 0.8 * exceeds(9.0, log_variance(0.3), 9.4), &world(0.85));
}
