//! Knife edges: where does a chance jump by more than 20 of 100 when one size moves by 1%?
//!
//! `cargo bench -p bucketline-benches --bench knife_edges` goes through 1,000 sane plans and prints each move
//! by more than 10 that 1,000 fresh runs confirm, then how much the chances move at all; `-- --plans 50` takes fewer,
//! `-- --show PLAN` prints one.

use std::sync::Mutex;
use std::sync::atomic::{AtomicU64, Ordering};

use bucketline_benches::random::described::{described, print_apart};
use bucketline_benches::random::nudges::{JUMP, Size, nudged, of_100, plan_to_nudge, sizes};
use shuttle_sim::PlanDraft;

/// Seed of the plans and of the runs.
const SEED: u64 = 21;
/// Runs of the first look and of the one that confirms it.
const RUNS: [u64; 2] = [100, 1_000];
/// A chance that moves by more than this in the first look is looked at again.
const SUSPECT: f64 = 7.0;
/// What moves a chance by more than this is printed.
const FAR: f64 = 10.0;

fn main() {
    let arguments: Vec<String> = std::env::args().collect();
    if let Some(place) = arguments.iter().position(|argument| argument == "--show") {
        let number = arguments[place + 1].parse().expect("the number of a plan");
        print!("{}", described(&plan_to_nudge(SEED, number)));
        let draft = plan_to_nudge(SEED, number);
        moves_of(number);
        for to in [0.99, 1.01] {
            let other = nudged(&draft, Size::AttackFlow, to);
            println!("attack flow to {to}");
            print_apart(&draft, &other, SEED, RUNS[1]);
        }
        return;
    }
    let plans = (arguments.iter().position(|argument| argument == "--plans"))
        .map_or(1_000, |place| arguments[place + 1].parse().expect("a number of plans"));
    let next = AtomicU64::new(0);
    let moved = Mutex::new(Vec::new());
    let threads = std::thread::available_parallelism().map_or(1, usize::from);
    std::thread::scope(|scope| {
        for _ in 0..threads {
            scope.spawn(|| {
                loop {
                    let number = next.fetch_add(1, Ordering::Relaxed);
                    if number >= plans {
                        break;
                    }
                    let of_plan = moves_of(number);
                    moved.lock().expect("no thread has failed").extend(of_plan);
                }
            });
        }
    });
    let moved = moved.into_inner().expect("no thread has failed");
    println!("{plans} plans, seed {SEED}; {} moves of 1%", moved.len());
    for least in [2.0, 5.0, 10.0, 15.0, JUMP] {
        let count = moved.iter().filter(|by| **by > least).count();
        println!("by more than {least} of 100: {count}");
    }
}

/// By how much of 100 each move of one plan's sizes moves its chance; prints what moves it far.
fn moves_of(number: u64) -> Vec<f64> {
    let draft = plan_to_nudge(SEED, number);
    let look = |draft: &PlanDraft, look: usize| {
        let first = if look == 0 { 0 } else { RUNS[0] };
        of_100(draft, SEED, first, RUNS[look])
    };
    let (was, mut was_surely) = (look(&draft, 0), None);
    let mut moved = Vec::new();
    for (size, to) in sizes(&draft).into_iter().flat_map(|size| [(size, 0.99), (size, 1.01)]) {
        let other = nudged(&draft, size, to);
        let mut by = look(&other, 0) - was;
        if by.abs() > SUSPECT {
            let was = *was_surely.get_or_insert_with(|| look(&draft, 1));
            by = look(&other, 1) - was;
            if by.abs() > FAR {
                println!("plan {number}, {size:?} to {to}: {was:.1} of 100, then {:.1}", was + by);
            }
        }
        moved.push(by.abs());
    }
    moved
}
