//! A gravity dump against Torricelli: the flow through the dump valve goes with the square root of
//! the depth, so dv/dt = -k sqrt(v). The equation is integrated here step by step; the engine solves
//! it in closed form.

use crate::common::world::World;
use shuttle_sim::Doing::{Clearing, Dumping};
use shuttle_sim::{DumpCurve, Happening, Luck, Shuttle};

const CAPACITY: f64 = 3_000.0;
/// Average over the first 90%, gpm, as the apparatus standard states dump rates (NFPA 1901; the 90%
/// is a value from memory).
const AVERAGE: f64 = 250.0;
/// Share at which the driver stops waiting.
const RESIDUAL: f64 = 0.02;
const STEP: f64 = 1e-3;

fn one_dump(rate: f64) -> World {
    // The lines want nothing while it dumps.
    World::new()
        .attack_steps(&[(0.0, 0.0), (59.0, 100.0)])
        .first_tank(|tank| tank.capacity = 5_000.0)
        .tanker_with("T1", CAPACITY, 0.0, |tanker| {
            tanker.dump_rate = rate;
            tanker.dump_curve = DumpCurve::Gravity;
            tanker.residual = RESIDUAL;
        })
        .watched(58.0)
}

/// One Runge-Kutta step of dv/dt = -k sqrt(v).
fn step(v: f64, k: f64, h: f64) -> f64 {
    let slope = |v: f64| -k * v.max(0.0).sqrt();
    let a = slope(v);
    let b = slope(v + 0.5 * h * a);
    let c = slope(v + 0.5 * h * b);
    let d = slope(v + h * c);
    v + h / 6.0 * (a + 2.0 * b + 2.0 * c + d)
}

/// Volume left every `STEP` minutes, gal.
fn drained(k: f64) -> Vec<f64> {
    let left = std::iter::successors(Some(CAPACITY), |v| Some(step(*v, k, STEP)));
    left.take_while(|v| *v > 0.5 * RESIDUAL * CAPACITY).collect()
}

/// Minute at which `left` gal are left, between the steps by a straight line.
fn minute_at(course: &[f64], left: f64) -> f64 {
    let after = course.iter().position(|v| *v <= left).expect("it drains that far");
    let (above, below) = (course[after - 1], course[after]);
    (after as f64 - (left - below) / (above - below)) * STEP
}

/// The valve's k for which the first 90% take as long as the average says, by halving the interval.
fn valve() -> f64 {
    let (mut low, mut high) = (1e-3 * CAPACITY.sqrt(), 10.0 * CAPACITY.sqrt());
    for _ in 0..50 {
        let k = 0.5 * (low + high);
        let takes = minute_at(&drained(k), 0.1 * CAPACITY);
        if takes > 0.9 * CAPACITY / AVERAGE { low = k } else { high = k }
    }
    0.5 * (low + high)
}

fn check(world: &World) -> Result<(), String> {
    let course = drained(valve());
    let (run, trace) = Shuttle::new(&world.plan()).run_traced(Luck::Planned);
    let began = |what| {
        let note = trace.notes.iter().find(|note| note.happening == Happening::Tanker(0, what));
        note.expect("it dumps and pulls clear").minute
    };
    let (got, theory) =
        (began(Clearing(0)) - began(Dumping(0)), minute_at(&course, RESIDUAL * CAPACITY));
    if (got - theory).abs() > 1e-4 {
        return Err(format!("the dump takes {got} min, Torricelli {theory}"));
    }
    for minute in 1..theory as usize {
        let theory = CAPACITY - course[(minute as f64 / STEP).round() as usize];
        let got = run.levels[2 * minute];
        if (got - theory).abs() > 0.01 {
            return Err(format!("after {minute} min {got} gal are dumped, Torricelli {theory}"));
        }
    }
    Ok(())
}

#[test]
fn a_gravity_dump_follows_torricelli() {
    check(&one_dump(AVERAGE)).unwrap();
}

#[test]
fn a_wrong_plan_is_found_out() {
    check(&one_dump(AVERAGE / 1.02)).unwrap_err();
    let steady = one_dump(AVERAGE).every_tanker(|tanker| tanker.dump_curve = DumpCurve::Steady);
    check(&steady).unwrap_err();
}
