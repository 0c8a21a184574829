//! Loads at random moments into a drop tank that is drawn at a steady rate: the M/D/1 workload.
//!
//! A tanker whose whole cycle is one exponential time delivers at the moments of a Poisson process;
//! here the road out is that time, and all else together takes about two hundredths of a minute in two
//! hundred. The drop tank may hold 50,000 gal, a hundred loads: at this load factor a level above
//! that has a chance far below anything a run could show, so it is unbounded in effect. The engine's
//! own tank is a thousandth of a gallon and never refilled, so the lines are dry when the drop tank is.

use crate::common::world::{World, road};
use crate::measure::{growth, mean_level, minutes};
use shuttle_sim::{Leg, RunResult, TimeTaken};

const LOAD: f64 = 500.0;
const TANKERS: usize = 200;
const ROAD_OUT: f64 = 200.0;
const ROAD_BACK: f64 = 0.01;
/// Rate at which a load moves at either end, gpm.
const MOVES_AT: f64 = 100_000.0;
/// The lines' steady draw, gpm.
const DRAWN: f64 = 800.0;

fn shuttle(load: f64) -> World {
    let mut world = World::new()
        .attack_flow(DRAWN)
        .tolerance(0.0)
        .engine_tank(0.001)
        .tank_refill(0.0)
        .throttling()
        .restart_level(1.0)
        .first_tank(|tank| {
            tank.capacity = 50_000.0;
            tank.dump_positions = 1_000;
        })
        .pond(|site| {
            site.flow = MOVES_AT;
            site.positions = 1_000;
            site.out = Leg { miles: None, time: TimeTaken::Exponential { mean: ROAD_OUT } };
            site.back = road(ROAD_BACK);
        });
    for number in 1..=TANKERS {
        world = world.tanker_with(&format!("T{number}"), load, 0.0, |tanker| {
            tanker.fill_limit = Some(MOVES_AT);
            tanker.dump_rate = MOVES_AT;
        });
    }
    world
}

/// Loads a minute, and the share of time in which the tank is drawn.
fn arrivals() -> (f64, f64) {
    let cycle = ROAD_OUT + ROAD_BACK + 2.0 * LOAD / MOVES_AT;
    let loads = TANKERS as f64 / cycle;
    (loads, loads * LOAD / DRAWN)
}

/// Utilization law: the tank is dry for 1 - rho of the time.
fn check_dry_share(world: &World) -> Result<(), String> {
    let (_, rho) = arrivals();
    let short = |run: &RunResult| run.minutes_short.iter().sum();
    growth(world, short, minutes).agrees_with(1.0 - rho, "share of time dry")
}

/// A dry spell ends with a load that finds the tank dry: of Poisson loads the share 1 - rho
/// (Wolff 1982, Poisson arrivals see time averages).
fn check_dry_spells(world: &World) -> Result<(), String> {
    let (loads, rho) = arrivals();
    let spells = |run: &RunResult| run.interruptions.len() as f64;
    growth(world, spells, minutes).agrees_with(loads * (1.0 - rho), "dry spells a minute")
}

/// Pollaczek and Khinchine, M/D/1: the mean workload is rho / (2 (1 - rho)) loads. Not yet in the
/// tank is what is still being dumped: half a load for the time a dump takes, on average.
fn check_level(world: &World) -> Result<(), String> {
    let (loads, rho) = arrivals();
    let workload = LOAD * rho / (2.0 * (1.0 - rho));
    let still_aboard = loads * LOAD / MOVES_AT * LOAD / 2.0;
    mean_level(world).agrees_with(workload - still_aboard, "mean level, gal")
}

#[test]
fn the_tank_is_dry_for_what_the_loads_do_not_cover() {
    check_dry_share(&shuttle(LOAD)).unwrap();
}

#[test]
fn dry_spells_come_as_often_as_a_load_finds_the_tank_dry() {
    check_dry_spells(&shuttle(LOAD)).unwrap();
}

#[test]
fn the_mean_level_is_the_workload_of_a_queue_with_fixed_services() {
    check_level(&shuttle(LOAD)).unwrap();
}

#[test]
fn a_wrong_plan_is_found_out() {
    let longer = shuttle(1.02 * LOAD);
    check_dry_share(&longer).unwrap_err();
    check_dry_spells(&longer).unwrap_err();
    check_level(&longer).unwrap_err();
}
