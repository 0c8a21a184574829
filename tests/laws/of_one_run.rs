//! Laws of one run: water, levels, time, places and turns.

use crate::common::world::World;
use crate::itineraries::misdeeds;
use crate::random_plan::{drafts, plan};
use proptest::prelude::*;
use shuttle_sim::{DumpCurve, Happening, Luck, Plan, RunResult, Shuttle, Trace};
use std::time::Duration;

/// Plans tried by each test.
const PLANS: u32 = 2_500;
/// A run takes less than a thousandth of this.
const LONGEST_RUN: Duration = Duration::from_secs(5);
/// Water may be lost to rounding, gal.
pub const ROUNDING: f64 = 1e-3;

fn config() -> ProptestConfig {
    ProptestConfig {
        cases: PLANS,
        failure_persistence: None,
        rng_seed: proptest::test_runner::RngSeed::Fixed(1),
        max_shrink_iters: 2_000,
        ..ProptestConfig::default()
    }
}

/// Every tenth run as planned, the others drawn.
pub fn lucks() -> impl Strategy<Value = Luck> {
    (0..10u64, 0..1_000u64).prop_map(|(kind, replication)| match kind {
        0 => Luck::Planned,
        seed => Luck::Drawn { seed, replication },
    })
}

/// Runs a plan, and ends all tests with the plan told if the run does not come to its end: nothing
/// else stops it, and its story would fill the memory.
pub fn run_to_its_end(plan: &Plan, luck: Luck) -> (RunResult, Trace) {
    let (tell, hear) = std::sync::mpsc::channel();
    let theirs = plan.clone();
    std::thread::spawn(move || {
        // The one who waits may have given up.
        let _ = tell.send(Shuttle::new(&theirs).run_traced(luck));
    });
    hear.recv_timeout(LONGEST_RUN).unwrap_or_else(|_| {
        eprintln!("this run does not come to its end: {luck:?}, {plan:#?}");
        std::process::exit(101);
    })
}

fn broken_water_laws(plan: &Plan, run: &RunResult) -> Vec<String> {
    let facts = plan.facts();
    let mut broken = Vec::new();
    let mut holds = |law: bool, what: &str| {
        if !law {
            broken.push(what.to_string());
        }
    };
    holds(run.balance().abs() < ROUNDING, &format!("the balance is off by {}", run.balance()));
    holds(run.delivered <= run.wanted + ROUNDING, "more delivered than wanted");
    let unmet: f64 = run.unmet.iter().sum();
    let missing = run.wanted - run.delivered;
    holds((missing - unmet).abs() < ROUNDING, &format!("unmet {unmet}, missing {missing}"));
    holds(run.spilled >= 0.0 && run.remaining >= -ROUNDING, "less than nothing");
    for (site, taken) in facts.fill_sites.iter().zip(&run.taken) {
        if let Some(volume) = site.volume {
            let had = volume + site.recharge * run.end;
            holds(*taken <= had + ROUNDING, &format!("{taken} taken from {had} at {}", site.name));
        }
        holds(*taken <= site.flow * run.end + ROUNDING, "a site gave more than its flow");
    }
    // What the lines and the engine's tank got is what the tankers brought.
    let brought: f64 = run.tankers.iter().map(|tanker| tanker.delivered).sum();
    holds(
        run.delivered <= brought + facts.attack_engine.tank + ROUNDING,
        "more delivered than brought",
    );
    broken
}

fn broken_level_laws(plan: &Plan, run: &RunResult, trace: &Trace) -> Vec<String> {
    let facts = plan.facts();
    let mut broken = Vec::new();
    let tops: Vec<f64> = (facts.drop_tanks.iter().map(|tank| tank.capacity))
        .chain([facts.attack_engine.tank])
        .collect();
    let marks = shuttle_sim::marks(facts.incident.duration).count();
    if run.levels.len() != marks * tops.len() {
        broken.push(format!("{} levels at {marks} marks", run.levels.len()));
    }
    let course = trace.course.iter().flat_map(|(_, levels)| levels);
    for levels in [&run.levels, &trace.levels, &course.copied().collect()] {
        for (level, top) in levels.iter().zip(tops.iter().cycle()) {
            if !(0.0..=*top).contains(level) {
                broken.push(format!("a level of {level} in a tank of {top}"));
            }
        }
    }
    if !(0.0..=facts.attack_engine.tank).contains(&run.lowest_engine) {
        broken.push(format!("lowest engine level {}", run.lowest_engine));
    }
    let noted = run.levels.iter().skip(tops.len() - 1).step_by(tops.len());
    if noted.clone().any(|level| *level < run.lowest_engine - ROUNDING) {
        broken.push("the engine's lowest level is not the lowest".to_string());
    }
    broken
}

fn broken_time_laws(plan: &Plan, run: &RunResult, trace: &Trace) -> Vec<String> {
    let facts = plan.facts();
    let mut broken = Vec::new();
    let mut holds = |law: bool, what: &str| {
        if !law {
            broken.push(what.to_string());
        }
    };
    let duration = facts.incident.duration;
    let mut since = run.first_water;
    for one in &run.interruptions {
        holds(one.start >= since - 1e-9, "interruptions overlap or are out of order");
        holds(one.minutes > 0.0, "an interruption of no length");
        holds(one.minutes >= facts.incident.tolerance - 1e-6, "one shorter than the tolerance");
        let before = run.established.is_none_or(|established| one.start < established);
        holds(one.before_supply == before, "an interruption on the wrong side");
        since = one.start + one.minutes;
    }
    holds(since <= run.end + 1e-9, "an interruption beyond the watch");
    let short: f64 = run.minutes_short.iter().sum();
    let interrupted: f64 = run.interruptions.iter().map(|one| one.minutes).sum();
    holds(short <= duration + 1e-6, "short for longer than was watched");
    holds(interrupted <= short + 1e-6, "interrupted for longer than short");
    holds((run.end - run.first_water - duration).abs() < 1e-9, "not watched for the duration");
    let told = short_in_trace(trace, run.end);
    holds((told - short).abs() < 1e-6, &format!("short {short} min, the trace tells {told}"));
    holds(less_comes_in_a_shortfall(trace), "a shortfall in which all that is wanted comes");
    let held = (facts.fill_sites.iter().map(|site| site.positions).zip(&run.fill_held))
        .chain(facts.drop_tanks.iter().map(|tank| tank.dump_positions).zip(&run.dump_held))
        .chain([(facts.attack_engine.intakes, &run.intake_held)]);
    for (positions, minutes) in held {
        let share = minutes / (f64::from(positions) * duration);
        holds((0.0..=1.0 + 1e-9).contains(&share), &format!("a busy share of {share}"));
    }
    for tanker in &run.tankers {
        holds(tanker.parts.iter().all(|minutes| *minutes >= -1e-9), "a part of less than no time");
        holds(tanker.cycles <= tanker.trips, "more cycles than trips");
        holds(tanker.parts.iter().sum::<f64>() <= run.end + 1e-6, "cycles longer than the run");
    }
    broken
}

/// Minutes between the beginnings and ends of shortfalls as the trace tells them.
fn short_in_trace(trace: &Trace, end: f64) -> f64 {
    let (mut since, mut short) = (None, 0.0);
    for note in &trace.notes {
        match note.happening {
            Happening::ShortfallBegan(_) => since = Some(note.minute),
            Happening::ShortfallEnded => {
                short += since.take().map_or(f64::NAN, |since: f64| note.minute - since);
            }
            _ => {}
        }
    }
    short + since.map_or(0.0, |since| end - since)
}

/// Whether in every shortfall, as it begins, less comes than the lines want.
fn less_comes_in_a_shortfall(trace: &Trace) -> bool {
    let mut wanted = 0.0;
    trace.notes.iter().all(|note| match note.happening {
        Happening::FlowWanted(gpm) => {
            wanted = gpm;
            true
        }
        Happening::ShortfallBegan(given) => (0.0..wanted).contains(&given),
        _ => true,
    })
}

/// Every law that this run breaks, told from its result and its trace.
pub fn broken_laws(plan: &Plan, run: &RunResult, trace: &Trace) -> Vec<String> {
    let mut broken = broken_water_laws(plan, run);
    broken.extend(broken_level_laws(plan, run, trace));
    broken.extend(broken_time_laws(plan, run, trace));
    broken.extend(misdeeds(plan, trace));
    broken
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn every_run_keeps_its_water_its_bounds_its_order_and_its_turns(
        draft in drafts(),
        luck in lucks(),
    ) {
        let plan = plan(&draft);
        let (run, trace) = run_to_its_end(&plan, luck);
        let broken = broken_laws(&plan, &run, &trace);
        prop_assert!(broken.is_empty(), "{}", broken.join("\n"));
    }
}

/// The laws are no use if the plans at random are all alike.
#[test]
fn the_plans_at_random_meet_all_that_can_happen() {
    use proptest::strategy::ValueTree;
    use proptest::test_runner::TestRunner;
    use shuttle_sim::Doing::*;
    let mut runner = TestRunner::deterministic();
    let mut met = std::collections::BTreeMap::new();
    for replication in 0..500 {
        let draft = drafts().new_tree(&mut runner).unwrap().current();
        let (_, trace) =
            Shuttle::new(&plan(&draft)).run_traced(Luck::Drawn { seed: 1, replication });
        for note in &trace.notes {
            let what = match note.happening {
                Happening::PrimeLost => "prime lost",
                Happening::PrimeBack => "prime back",
                Happening::FillSiteDry(_) => "fill site dry",
                Happening::ShortfallEnded => "shortfall ended",
                Happening::Tanker(_, PumpingOff) => "nursing",
                Happening::Tanker(_, Dumping(1..)) => "dumping into another drop tank",
                Happening::Tanker(_, Filling(1..)) => "filling at another site",
                Happening::Tanker(_, InRepair) => "in repair",
                Happening::Tanker(_, OutOfService) => "out of service",
                Happening::Tanker(_, StandingBy) => "standing by",
                Happening::Tanker(_, WaitingForRoad) => "waiting for the road",
                _ => continue,
            };
            *met.entry(what).or_insert(0) += 1;
        }
    }
    assert_eq!(met.len(), 11, "{met:?}");
    assert!(met.values().all(|times| *times >= 10), "{met:?}");
}

/// A load poured by gravity trickles out; here it trickles into a drop tank that it fills to the brim
/// while nothing is drawn.
#[test]
fn a_gravity_load_that_just_fills_the_drop_tank_comes_to_its_end() {
    for gal in [1_000.0, 2_000.0, 3_000.0, 3_500.0] {
        for rate in [250.0, 750.0, 1_000.0, 1_100.0] {
            let world = World::new()
                .attack_steps(&[(0.0, 0.0), (30.0, 100.0)])
                .first_tank(|tank| tank.capacity = gal)
                .tanker_with("T1", gal, 7.3, |tanker| {
                    tanker.dump_curve = DumpCurve::Gravity;
                    tanker.dump_rate = rate;
                });
            let (run, _) = run_to_its_end(&world.plan(), Luck::Planned);
            assert!(run.balance().abs() < ROUNDING, "{gal} gal at {rate} gpm");
        }
    }
}
