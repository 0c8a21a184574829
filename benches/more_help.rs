//! Does help hurt? Ten additions to each of 1,000 sane plans, on the same luck: after how many of them
//! is the chance of an interruption surely worse?
//!
//! `cargo bench -p bucketline-benches --bench more_help` prints the table of `HELP.md` and each surely worse case;
//! `-- --plans 50` takes fewer plans, `-- --show PLAN ADDITION` prints one plan and two stories.

#[path = "more_help/show.rs"]
mod show;

#[path = "more_help/reasons.rs"]
mod reasons;

use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};

use bucketline_benches::random::additions::Addition;
use bucketline_benches::random::pairs::{LOOKS, Look, Remembered, Verdict, compare};
use bucketline_benches::random::sane_plan::{plan, sane_plan};

/// Seed of the plans and of the runs.
pub const SEED: u64 = 20;

struct Found {
    number: u64,
    addition: Addition,
    look: Look,
}

fn main() {
    let arguments: Vec<String> = std::env::args().collect();
    if let Some(place) = arguments.iter().position(|argument| argument == "--show") {
        let number: u64 = arguments[place + 1].parse().expect("the number of a plan");
        let addition: usize = arguments[place + 2].parse().expect("the number of an addition");
        return show::show(number, Addition::ALL[addition]);
    }
    if let Some(place) = arguments.iter().position(|argument| argument == "--reasons") {
        let number: u64 = arguments[place + 1].parse().expect("the number of a plan");
        let addition: usize = arguments[place + 2].parse().expect("the number of an addition");
        return reasons::reasons(number, Addition::ALL[addition]);
    }
    let plans = (arguments.iter().position(|argument| argument == "--plans"))
        .map_or(1_000, |place| arguments[place + 1].parse().expect("a number of plans"));
    let next = AtomicUsize::new(0);
    let found = Mutex::new(Vec::new());
    let thrown = AtomicUsize::new(0);
    let threads = std::thread::available_parallelism().map_or(1, usize::from);
    std::thread::scope(|scope| {
        for _ in 0..threads {
            scope.spawn(|| {
                loop {
                    let number = next.fetch_add(1, Ordering::Relaxed) as u64;
                    if number >= plans {
                        break;
                    }
                    let (draft, throws) = sane_plan(SEED, number);
                    thrown.fetch_add(throws as usize, Ordering::Relaxed);
                    let mut as_it_is = Remembered::new(&plan(&draft), SEED);
                    for addition in Addition::ALL {
                        let (before, after) = addition.to(&draft, SEED, number);
                        let mut other = Remembered::new(&plan(&after), SEED);
                        let look = if before == draft {
                            compare(&mut as_it_is, &mut other)
                        } else {
                            compare(&mut Remembered::new(&plan(&before), SEED), &mut other)
                        };
                        let mut found = found.lock().expect("no thread has failed");
                        found.push(Found { number, addition, look });
                    }
                }
            });
        }
    });
    let mut found = found.into_inner().expect("no thread has failed");
    found.sort_by_key(|one| (one.addition as usize, one.number));
    println!(
        "{plans} plans of {} thrown, seed {SEED}; {} runs a plan, suspects {} and {} fresh ones",
        thrown.into_inner(),
        LOOKS[0],
        LOOKS[1],
        LOOKS[2],
    );
    table(&found);
    for one in found.iter().filter(|one| one.look.verdict == Verdict::Worse) {
        println!(
            "plan {}, {}: {:.2}% before, {:.2}% after ({} worse, {} better of {})",
            one.number,
            one.addition.words(),
            100.0 * one.look.chance_before(),
            100.0 * one.look.chance_after(),
            one.look.only_after,
            one.look.only_before,
            one.look.runs
        );
        show::sums(one.number, one.addition);
        reasons::reasons(one.number, one.addition);
    }
}

fn table(found: &[Found]) {
    println!("| addition | plans | surely better | no difference shown | surely worse |");
    println!("| --- | ---: | ---: | ---: | ---: |");
    let mut sums = [0; 3];
    for addition in Addition::ALL {
        let of = |verdict| {
            (found.iter())
                .filter(|one| one.addition == addition)
                .filter(|one| one.look.verdict == verdict)
                .count()
        };
        let counts = [of(Verdict::Better), of(Verdict::NoDifference), of(Verdict::Worse)];
        let [better, none, worse] = counts;
        let plans = better + none + worse;
        println!("| {} | {plans} | {better} | {none} | {worse} |", addition.words());
        sums.iter_mut().zip(counts).for_each(|(sum, count)| *sum += count);
    }
    let [better, none, worse] = sums;
    println!("| together | {} | {better} | {none} | {worse} |", better + none + worse);
}
