//! A case to be looked at: the plan in a few lines, what changes on average, and two stories of one fire.

use shuttle_sim::{Cause, Luck, Part, PlanDraft, Shuttle};

use bucketline_benches::random::additions::Addition;
use bucketline_benches::random::described::{described, print_apart};
use bucketline_benches::random::sane_plan::{plan, sane_plan};

use crate::SEED;

/// Runs averaged.
const RUNS: u64 = 4_000;

/// What one plan does on average.
struct Means {
    fires: f64,
    causes: [u64; Cause::ALL.len()],
    before_supply: f64,
    established: f64,
    arrived: f64,
    carried: f64,
    trips: f64,
    parts: [f64; Part::ALL.len()],
}

fn means(draft: &PlanDraft) -> Means {
    let mut shuttle = Shuttle::new(&plan(draft));
    shuttle.keep_levels(false);
    let mut means = Means {
        fires: 0.0,
        causes: [0; Cause::ALL.len()],
        before_supply: 0.0,
        established: 0.0,
        arrived: 0.0,
        carried: 0.0,
        trips: 0.0,
        parts: [0.0; Part::ALL.len()],
    };
    let (mut fires, mut before_supply, mut cycles) = (0, 0, 0);
    for replication in 0..RUNS {
        let run = shuttle.run(Luck::Drawn { seed: SEED, replication });
        if let Some(first) = run.interruptions.first() {
            fires += 1;
            before_supply += u64::from(first.before_supply);
            means.causes[first.cause as usize] += 1;
        }
        means.established += run.established.unwrap_or(run.end) / RUNS as f64;
        means.arrived += run.arrived / RUNS as f64;
        means.carried += run.carried_away / RUNS as f64;
        for tanker in &run.tankers {
            means.trips += f64::from(tanker.trips) / RUNS as f64;
            cycles += tanker.cycles;
            means.parts.iter_mut().zip(tanker.parts).for_each(|(sum, part)| *sum += part);
        }
    }
    means.fires = fires as f64 / RUNS as f64;
    means.before_supply = before_supply as f64 / RUNS as f64;
    means.parts.iter_mut().for_each(|part| *part /= f64::from(cycles.max(1)));
    means
}

/// What the addition changes on average, in a few lines.
pub fn sums(number: u64, addition: Addition) {
    let draft = sane_plan(SEED, number).0;
    let (before, after) = addition.to(&draft, SEED, number);
    let (was, is) = (means(&before), means(&after));
    println!(
        "    first short before the supply {:.3} -> {:.3}, after {:.3} -> {:.3}; up {:.2} -> {:.2} min; \
         on scene {:.0} -> {:.0} gal, carried away {:.0} -> {:.0}; trips {:.2} -> {:.2}",
        was.before_supply,
        is.before_supply,
        was.fires - was.before_supply,
        is.fires - is.before_supply,
        was.established,
        is.established,
        was.arrived,
        is.arrived,
        was.carried,
        is.carried,
        was.trips,
        is.trips,
    );
    let causes: Vec<String> = (Cause::ALL.into_iter())
        .map(|cause| (cause, was.causes[cause as usize], is.causes[cause as usize]))
        .filter(|(_, was, is)| was != is)
        .map(|(cause, was, is)| format!("{} {was} -> {is}", cause.key()))
        .collect();
    let parts: Vec<String> = (Part::ALL.into_iter())
        .map(|part| (part, was.parts[part as usize], is.parts[part as usize]))
        .filter(|(_, was, is)| (was - is).abs() > 0.02)
        .map(|(part, was, is)| format!("{} {was:.2} -> {is:.2}", part.key()))
        .collect();
    println!("    of {RUNS}: {}; {}", causes.join(", "), parts.join(", "));
}

/// Prints a plan and both stories of the first fire that only the addition loses.
pub fn show(number: u64, addition: Addition) {
    let draft = sane_plan(SEED, number).0;
    let (before, after) = addition.to(&draft, SEED, number);
    println!("plan {number}, {}", addition.words());
    print!("{}", described(&after));
    sums(number, addition);
    print_apart(&before, &after, SEED, RUNS);
}
