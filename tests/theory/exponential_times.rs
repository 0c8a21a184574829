//! Exponential times: the machine-repair model and mean value analysis.

use crate::closed_forms::{finite_source, mean_values};
use crate::common::world::World;
use crate::measure::{growth, minutes, trips};
use shuttle_sim::{Leg, Part, RunResult, TimeTaken};

/// Minutes at a fill position, at a dump position where there is only one, and one way on the road.
const FILL: f64 = 3.5;
const DUMP: f64 = 2.0;
const ROAD: f64 = 7.0;
/// Each load moves in a thousandth of a minute at either end: 100 gal at 100,000 gpm. The theory
/// takes it in: at the fill position it is so small a part of the service that what it takes off the
/// spread (0.06%) is far below what the seeds can tell, elsewhere any spread is allowed.
const MOVE: f64 = 100.0 / 100_000.0;

fn exponential(mean: f64) -> TimeTaken {
    TimeTaken::Exponential { mean }
}

/// Tankers that queue at the fill positions; the connection takes the whole exponential service.
fn shuttle(tankers: usize, positions: u32, fill: f64) -> World {
    let leg = || Leg { miles: None, time: exponential(ROAD) };
    let mut world = World::new()
        .attack_flow(100_000.0)
        .tank_refill(0.0)
        .throttling()
        .first_tank(|tank| {
            tank.capacity = 50_000.0;
            tank.dump_positions = 1_000;
        })
        .pond(|site| {
            site.flow = 100_000.0;
            site.positions = positions;
            site.out = leg();
            site.back = leg();
        });
    for number in 1..=tankers {
        world = world.tanker_with(&format!("T{number}"), 100.0, 0.0, |tanker| {
            tanker.fill_limit = Some(100_000.0);
            tanker.dump_rate = 100_000.0;
        });
    }
    world.handling(|handling| handling.fill_connect = exponential(fill - MOVE))
}

/// The same with one dump position, held for an exponential time.
fn two_queues(tankers: usize, fill: f64) -> World {
    shuttle(tankers, 1, fill)
        .first_tank(|tank| tank.dump_positions = 1)
        .handling(|handling| handling.dump_position = exponential(DUMP - MOVE))
}

fn check_repair_model(world: &World, tankers: usize, positions: usize) -> Result<(), String> {
    let away = 2.0 * ROAD + MOVE;
    let theory = finite_source(tankers, away, |there| there.min(positions) as f64 / FILL);
    let what = format!("{tankers} tankers, {positions} positions, loads a minute");
    growth(world, trips, minutes).agrees_with(theory, &what)
}

fn check_mean_values(world: &World, tankers: usize) -> Result<(), String> {
    let theory = mean_values(tankers, 2.0 * ROAD, &[FILL, DUMP]);
    let sum_of = |parts: &'static [Part]| {
        move |run: &RunResult| -> f64 {
            let each = |part: &Part| {
                run.tankers.iter().map(|tanker| tanker.parts[*part as usize]).sum::<f64>()
            };
            parts.iter().map(each).sum()
        }
    };
    let cycles = |run: &RunResult| run.tankers.iter().map(|one| f64::from(one.cycles)).sum();
    let at_fill = sum_of(&[Part::FillWait, Part::FillConnect, Part::Fill]);
    let at_dump = sum_of(&[Part::SceneWait, Part::DumpPosition, Part::Dump]);
    growth(world, trips, minutes)
        .agrees_with(theory.throughput, &format!("{tankers} tankers, loads a minute"))?;
    growth(world, at_fill, cycles)
        .agrees_with(theory.minutes_at[0], &format!("{tankers} tankers, minutes at the fill"))?;
    growth(world, at_dump, cycles)
        .agrees_with(theory.minutes_at[1], &format!("{tankers} tankers, minutes at the dump"))
}

#[test]
fn one_fill_position_is_the_machine_repair_model() {
    for tankers in 1..=12 {
        check_repair_model(&shuttle(tankers, 1, FILL), tankers, 1).unwrap();
    }
}

#[test]
fn several_fill_positions_are_the_model_with_several_repairers() {
    for (tankers, positions) in [(6, 2), (10, 2), (12, 3)] {
        check_repair_model(&shuttle(tankers, positions as u32, FILL), tankers, positions).unwrap();
    }
}

#[test]
fn fill_and_dump_positions_follow_mean_value_analysis() {
    for tankers in [1, 2, 4, 6, 9] {
        check_mean_values(&two_queues(tankers, FILL), tankers).unwrap();
    }
}

#[test]
fn a_wrong_plan_is_found_out() {
    check_repair_model(&shuttle(10, 1, 1.02 * FILL), 10, 1).unwrap_err();
    check_repair_model(&shuttle(6, 2, FILL), 6, 1).unwrap_err();
    check_repair_model(&shuttle(12, 3, FILL), 12, 2).unwrap_err();
    check_mean_values(&two_queues(9, 1.02 * FILL), 9).unwrap_err();
    let roomier = two_queues(6, FILL).first_tank(|tank| tank.dump_positions = 2);
    check_mean_values(&roomier, 6).unwrap_err();
}
