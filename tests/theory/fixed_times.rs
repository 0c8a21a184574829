//! Fixed times: the flow is known exactly.

use crate::common::world::{World, fixed, road};
use shuttle_sim::{Luck, Shuttle};

/// Cycle 18 minutes, of which 3.5 at the one fill position: 0.5 connect + 2.5 fill + 0.5 disconnect,
/// 6 back, 2.5 dump, 6 out. Any number can dump at once, and the lines drink it all.
fn shuttle(tankers: usize) -> World {
    let mut world = World::new()
        .attack_flow(20_000.0)
        .throttling()
        .first_tank(|tank| {
            tank.capacity = 50_000.0;
            tank.dump_positions = 100;
        })
        .pond(|site| {
            site.out = road(6.0);
            site.back = road(6.0);
        });
    for number in 1..=tankers {
        world = world.tanker(&format!("T{number}"), LOAD, 0.0);
    }
    world.handling(|handling| {
        handling.fill_connect = fixed(0.5);
        handling.fill_disconnect = fixed(0.5);
    })
}

const LOAD: f64 = 2_500.0;
const CYCLE: f64 = 18.0;
const SERVICE: f64 = 3.5;

/// gpm between two minutes, exact if they lie whole periods apart.
fn flow(world: &World, from: f64, to: f64) -> f64 {
    let delivered = |until: f64| -> f64 {
        let run = Shuttle::new(&world.clone().watched(until).plan()).run(Luck::Planned).clone();
        run.tankers.iter().map(|tanker| tanker.delivered).sum()
    };
    (delivered(to) - delivered(from)) / (to - from)
}

/// Asymptotic bounds, met exactly with fixed times (Denning and Buzen, The operational analysis of
/// queueing network models, 1978): min(n / cycle, positions / service) loads a minute.
fn check(world: &World, tankers: usize) -> Result<(), String> {
    let theory = LOAD * (tankers as f64 / CYCLE).min(1.0 / SERVICE);
    // Once the start is forgotten everything repeats after the longer of a cycle and a whole round
    // of fills. The count begins in the middle of a dump, so that another period shows in gallons.
    let period = CYCLE.max(tankers as f64 * SERVICE);
    let from = 10.0 * period + 1.25;
    let got = flow(world, from, from + 40.0 * period);
    let off = (got / theory - 1.0).abs();
    if off < 1e-9 { Ok(()) } else { Err(format!("{tankers} tankers: {got} gpm, theory {theory}")) }
}

#[test]
fn one_tanker_brings_a_load_a_cycle() {
    check(&shuttle(1), 1).unwrap();
}

#[test]
fn more_tankers_add_up_until_the_fill_position_is_never_free() {
    for tankers in 2..=9 {
        check(&shuttle(tankers), tankers).unwrap();
    }
}

#[test]
fn the_knee_lies_where_a_cycle_holds_just_so_many_fills() {
    // 18 / 3.5 = 5.14 tankers: five add fully, the sixth 14%, the seventh nothing.
    let tankers_worth = |tankers: usize| {
        let period = CYCLE.max(tankers as f64 * SERVICE);
        flow(&shuttle(tankers), 10.0 * period, 50.0 * period) / (LOAD / CYCLE)
    };
    let knee = CYCLE / SERVICE;
    for (tankers, worth) in [(5, 5.0), (6, knee), (7, knee)] {
        let got = tankers_worth(tankers);
        assert!((got - worth).abs() < 1e-9 * worth, "{tankers} tankers are worth {got}");
    }
}

#[test]
fn a_wrong_plan_is_found_out() {
    let longer = |tankers: usize| {
        shuttle(tankers).handling(|handling| handling.fill_connect = fixed(0.5 + 0.02 * SERVICE))
    };
    check(&longer(1), 1).unwrap_err();
    check(&longer(7), 7).unwrap_err();
    check(&shuttle(7).pond(|site| site.positions = 2), 7).unwrap_err();
    check(&shuttle(4), 3).unwrap_err();
}
