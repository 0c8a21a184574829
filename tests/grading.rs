//! Grading and reach against what is known without them: fixed times by arithmetic, laws of help, a
//! published choice of source, and a fine grid with many runs.

mod common;

#[path = "grading/best_sets.rs"]
mod best_sets;
#[path = "grading/conditions.rs"]
mod conditions;
#[path = "grading/credited.rs"]
mod credited;
#[path = "grading/sets.rs"]
mod sets;

use common::world::World;
use shuttle_report::batch::{Control, Keep, Runs, run_batch};
use shuttle_report::demand::{Demand, Trial};
use shuttle_report::grade::{GradeAnswer, GradeQuestion, Verdict, grade};
use shuttle_report::grading_rules::{GradingRule, RULES};
use shuttle_report::held_flow::{Look, Search, greatest_step};
use shuttle_report::reach::{Haul, ReachQuestion, distance_for_flow, flow_by_distance};
use shuttle_report::side_by_side::SameLuck;
use shuttle_report::site_sets::Graded;
use shuttle_report::survey::Survey;
use shuttle_sim::{Leg, Plan, TimeTaken};
use statrs::distribution::{ContinuousCDF, Normal};

/// 250 gpm within 5 minutes, more within 15, two hours (ISO water supply evaluation pages, seen).
static TWO_HOURS: &GradingRule = &RULES[0];
/// 200 gpm for 20 minutes (FSRS item 800, seen).
static LESSER: &GradingRule = &RULES[1];

fn question(rule: &GradingRule, step_gpm: f64) -> GradeQuestion {
    GradeQuestion {
        rules: vec![rule.clone()],
        share: 0.95,
        most_runs: 20_000,
        seed: 1,
        threads: 2,
        step_gpm,
    }
}

fn graded(plan: &Plan, rule: &GradingRule, step_gpm: f64) -> GradeAnswer {
    graded_with(plan, &Survey::default(), rule, step_gpm)
}

fn graded_with(plan: &Plan, survey: &Survey, rule: &GradingRule, step_gpm: f64) -> GradeAnswer {
    let place = Graded { everyone: plan.facts(), survey, travel_rule: by_rule };
    grade(&[place], &question(rule, step_gpm), &Control::default())
}

/// Minutes by the travel rule: RAND travel time, ISO rating schedule, T = 0.65 + 1.70 D.
fn by_rule(miles: f64) -> f64 {
    0.65 + 1.70 * miles
}

fn leg(miles: f64, cv: f64) -> Leg {
    let mean = by_rule(miles);
    let time = if cv > 0.0 { TimeTaken::Lognormal { mean, cv } } else { TimeTaken::Fixed(mean) };
    Leg { miles: Some(miles), time }
}

/// Everything but the tankers is there from the start and never in the way: a large drop tank, a pump
/// gated down when water is low, room for all at the fill site and the dump site.
fn roomy() -> World {
    World::new()
        .tolerance(0.0)
        .throttling()
        .engine_tank(300.0)
        .first_tank(|tank| {
            tank.capacity = 50_000.0;
            tank.dump_positions = 8;
        })
        .pond(|site| {
            site.flow = 20_000.0;
            site.positions = 8;
        })
}

/// With fixed times every gallon is known: three tankers of 1,000 gal, one every 4 minutes from
/// minute 0 on, each back 12 minutes later (5 out, 1 fill, 5 back, 1 dump). A flow holds if at every
/// moment the tank of the engine and all that was dumped cover what was wanted; the tightest moments
/// are those at which a dump begins.
#[test]
fn with_fixed_times_the_greatest_flow_is_the_closed_form() {
    let plan = roomy()
        .tanker("Tanker 1", 1000.0, 0.0)
        .tanker("Tanker 2", 1000.0, 4.0)
        .tanker("Tanker 3", 1000.0, 8.0)
        .plan();
    let rule = GradingRule { minimum_gpm: 100.0, ..TWO_HOURS.clone() };
    let (minimum, from, full, end) = (100.0, 5.0, 15.0, 15.0 + 120.0);
    let (engine, load, apart) = (300.0, 1000.0, 4.0);
    let greatest = (0..)
        .map(|dumps| (f64::from(dumps) * apart, engine + load * f64::from(dumps)))
        .take_while(|(begins, _)| *begins <= end)
        .filter(|(begins, _)| *begins > full)
        .map(|(begins, water)| (water - minimum * (full - from)) / (begins - full))
        .fold(f64::INFINITY, f64::min);
    // The steady rate, and what the engine's tank and the first loads can add over two hours.
    assert!(greatest > 3.0 * load / 12.0 && greatest < 3.0 * load / 12.0 + 30.0, "{greatest}");
    let answer = graded(&plan, &rule, 1.0);
    let result = &answer.ranked[0].results[0];
    assert_eq!(result.held_gpm, Some(greatest.floor()), "closed form {greatest}");
    assert_eq!(result.fails_gpm, Some(greatest.floor() + 1.0));
    assert_eq!(result.verdict, Verdict::Pass);
}

/// The hand credit: (tank - 10%) / (fill + round trip + discharge), summed over tankers (ISO water
/// supply evaluation pages, seen). 3,000 gal at 1,000 gpm: 2,700 / (3 + 2 x 4.05 + 3) for 2 miles.
#[test]
fn the_hand_credit_is_summed_tanker_by_tanker() {
    let world = roomy().pond(|site| (site.out, site.back) = (leg(2.0, 0.0), leg(2.0, 0.0)));
    let plan = world.tanker("Tanker 1", 3000.0, 0.0).tanker("Tanker 2", 2000.0, 0.0).plan();
    let answer = graded(&plan, LESSER, 10.0);
    let one = &answer.ranked[0];
    let credit = |tank: f64| 0.9 * tank / (tank / 1000.0 + 2.0 * by_rule(2.0) + tank / 1000.0);
    let hand = one.hand().expect("a credit");
    for (got, tank) in hand.tankers.iter().zip([3000.0, 2000.0]) {
        assert!((got.credit_gpm - credit(tank)).abs() < 1e-9, "{got:?}");
    }
    assert!((hand.made_gpm - credit(3000.0) - credit(2000.0)).abs() < 1e-9);
    assert_eq!(one.site_miles, [Some(2.0)]);
}

/// The clock of the rule is the arrival of the first engine. A crew that needs 6 minutes from there
/// to first water fails whatever the tankers bring; one with spread fails as often as its
/// distribution says.
#[test]
fn a_crew_without_water_in_time_breaks_the_run() {
    let world = roomy().tanker("Tanker 1", 5000.0, 0.0).engine_tank(3000.0);
    let at = |water_on: TimeTaken| {
        let plan = world.clone().with(|draft| draft.attack_engine.water_on = water_on).plan();
        graded(&plan, LESSER, 10.0).ranked[0].results[0].clone()
    };
    assert_eq!(at(TimeTaken::Fixed(5.0)).verdict, Verdict::Pass);
    let late = at(TimeTaken::Fixed(6.0));
    assert_eq!((late.verdict, late.late_share), (Verdict::Fail, 1.0));
    let (mean, cv) = (4.0_f64, 0.3_f64);
    let sigma = (1.0 + cv * cv).ln().sqrt();
    let median = mean.ln() - sigma * sigma / 2.0;
    let chance =
        1.0 - Normal::new(0.0, 1.0).expect("a normal").cdf((5.0_f64.ln() - median) / sigma);
    let spread = at(TimeTaken::Lognormal { mean, cv });
    let look = &spread.search.looks[0];
    let runs = look.replications as f64;
    let off = (look.late as f64 / runs - chance).abs() / (chance * (1.0 - chance) / runs).sqrt();
    assert!(off < 4.0, "late in {} of {runs}, expected a share of {chance}", look.late);
    assert_eq!((spread.verdict, look.broken), (Verdict::Fail, look.late));
}

/// For 750 gpm a strong source at 2 miles beats a 250 gpm hydrant at 1 mile (fire journal, seen).
#[test]
fn a_strong_source_at_two_miles_beats_a_weak_hydrant_at_one() {
    let world = roomy()
        .pond(|site| {
            site.name = "Weak hydrant".to_owned();
            site.flow = 250.0;
            site.positions = 2;
            (site.out, site.back) = (leg(1.0, 0.1), leg(1.0, 0.1));
        })
        .fill_site_with("Strong source", 0.0, 0.0, |site| {
            site.flow = 2000.0;
            site.positions = 2;
            (site.out, site.back) = (leg(2.0, 0.1), leg(2.0, 0.1));
        });
    let fleet = (1..=7).fold(world, |world, n| world.tanker(&format!("Tanker {n}"), 3000.0, 0.0));
    let answer = graded(&fleet.plan(), TWO_HOURS, 10.0);
    let alone = |name: &str| {
        answer.ranked.iter().find(|one| one.sites == [name]).expect("the site alone").clone()
    };
    let (strong, weak) = (alone("Strong source"), alone("Weak hydrant"));
    assert!(strong.results[0].held_gpm >= Some(750.0), "{:?}", strong.results[0].held_gpm);
    assert!(weak.results[0].fails_gpm <= Some(750.0), "{:?}", weak.results[0].fails_gpm);
    let place = |sites: &[String]| answer.ranked.iter().position(|one| one.sites == sites);
    assert!(place(&strong.sites) < place(&weak.sites));
    // By the formula alone the weak hydrant would win on nearness if it gave what tankers can take.
    assert_eq!(weak.results[0].tightest.clone().expect("a cap").1, 250.0);
}

/// Water is kept: what flows in two hours beyond what the fill site passes was in tanks when the fire
/// began, or was brought before the hours count. And no credit is above what the site passes.
#[test]
fn what_holds_above_the_cap_lives_on_first_loads() {
    let (flow, load, engine) = (250.0, 3000.0, 300.0);
    let world = roomy().pond(|site| {
        site.flow = flow;
        site.positions = 2;
        (site.out, site.back) = (leg(1.0, 0.0), leg(1.0, 0.0));
    });
    let fleet = (1..=7).fold(world, |world, n| world.tanker(&format!("Tanker {n}"), load, 0.0));
    let one = graded(&fleet.plan(), TWO_HOURS, 10.0).ranked[0].clone();
    let made = one.hand().expect("a credit").made_gpm;
    assert!(made > flow, "the sum of the credits: {made}");
    assert_eq!(one.counts_gpm(), flow);
    let result = &one.results[0];
    let held = result.held_gpm.expect("some flow holds");
    let gallons = result.first_loads_gal.expect("more holds than the site passes");
    assert!((gallons - (held - flow) * 120.0).abs() < 1e-6);
    let there = 7.0 * load + engine + 15.0 * flow - 10.0 * 250.0;
    assert!(gallons > 0.0 && gallons <= there, "{gallons} of {there}");
    assert!(!result.minimum_above_cap, "the site passes the minimum of 250 gpm for ever");
    // A site that passes more than holds needs no first loads.
    let strong = roomy().tanker("Tanker 1", 5000.0, 0.0).plan();
    let one = graded(&strong, TWO_HOURS, 10.0).ranked[0].clone();
    let made = one.hand().expect("a credit").made_gpm;
    assert_eq!((one.counts_gpm(), one.results[0].first_loads_gal), (made, None));
}

fn reach_question(hauls: Vec<Haul>, seed: u64) -> ReachQuestion {
    ReachQuestion {
        site: 0,
        hauls,
        demand: Demand { minimum: 250.0, minimum_from: 5.0, full_from: 15.0, minutes: 120.0 },
        share: 0.95,
        most_runs: 4_000,
        seed,
        threads: 2,
        step_gpm: 10.0,
    }
}

fn hauls(miles: &[f64]) -> Vec<Haul> {
    let haul = |miles: &f64| Haul { miles: *miles, out: leg(*miles, 0.2), back: leg(*miles, 0.2) };
    miles.iter().map(haul).collect()
}

/// A fleet where nothing at the scene acts back on the tankers and each has its own places: one more
/// tanker or a shorter road then leaves no run worse off (MODEL.md, "When more help cannot hurt").
fn three_of_a_kind() -> Plan {
    let world = roomy().engine_tank(1000.0);
    (1..=3).fold(world, |world, n| world.tanker(&format!("Tanker {n}"), 2000.0, 0.0)).plan()
}

#[test]
fn a_longer_road_never_holds_more_and_one_more_tanker_never_less() {
    let plan = three_of_a_kind();
    for seed in 1..=3 {
        let question = reach_question(hauls(&[0.5, 2.0, 4.0]), seed);
        let answer = flow_by_distance(&plan, &question, &Control::default());
        let held = |row: usize, tankers: usize| {
            answer.rows[row].cells[tankers - 1].held_gpm.expect("some flow holds")
        };
        for row in 0..3 {
            assert!(held(row, 1) <= held(row, 2) && held(row, 2) <= held(row, 3), "seed {seed}");
        }
        for tankers in 1..=3 {
            assert!(held(0, tankers) > held(1, tankers), "seed {seed}");
            assert!(held(1, tankers) > held(2, tankers), "seed {seed}");
        }
    }
}

/// By hand the road counts once out and once back: 2,000 gal, filled and dumped at 1,000 gpm, over
/// 2 + 2 minutes and both legs by the travel rule; the roomy world wastes nothing and has no cap.
#[test]
fn the_hand_flow_counts_both_legs() {
    let mut question = reach_question(hauls(&[1.0, 3.0]), 1);
    question.most_runs = 64;
    let answer = flow_by_distance(&three_of_a_kind(), &question, &Control::default());
    for row in &answer.rows {
        for cell in &row.cells {
            let expected = cell.tankers as f64 * 2000.0 / (4.0 + 2.0 * by_rule(row.miles));
            assert!((cell.hand_gpm - expected).abs() < 1e-9, "{cell:?}: {expected}");
        }
    }
}

/// The two questions are one: the flow that holds at a distance holds up to that distance.
#[test]
fn flow_by_distance_and_distance_for_flow_agree() {
    let plan = three_of_a_kind();
    let at = |miles: f64| {
        let answer =
            flow_by_distance(&plan, &reach_question(hauls(&[miles]), 1), &Control::default());
        answer.rows[0].cells[2].clone()
    };
    let there = at(2.0);
    let held = there.held_gpm.expect("some flow holds");
    let miles: Vec<f64> = (1..=40).map(|step| f64::from(step) * 0.1).collect();
    let question = reach_question(hauls(&miles), 1);
    let answer = distance_for_flow(&plan, &question, held, &Control::default());
    let row = &answer.distances[2];
    let far = row.held_miles.expect("it holds at 2 miles");
    // Between the two one flow step, and what neither could tell from the runs allowed.
    let open = row.not_clear_up_to_miles.unwrap_or(far);
    assert!(far >= 1.9 - 1e-9 && at(open + 0.2).held_gpm.expect("some") < held + 1.0, "{row:?}");
    assert!(
        at(far).not_clear_up_to_gpm.unwrap_or(0.0).max(at(far).held_gpm.unwrap_or(0.0)) >= held
    );
}

/// A tanker that comes half an hour after the engine: what breaks breaks before it is there, and a longer road changes
/// nothing. With all there from the start the road is the limit.
#[test]
fn reach_knows_where_the_start_is_the_limit() {
    let cells = |response: f64| {
        let world = roomy().engine_tank(600.0);
        let plan = world.tanker("Tanker 1", 3_000.0, response).plan();
        let question = reach_question(hauls(&[1.0, 4.0]), 1);
        let answer = flow_by_distance(&plan, &question, &Control::default());
        answer.rows.iter().map(|row| row.cells[0].clone()).collect::<Vec<_>>()
    };
    let late = cells(40.0);
    assert!(late.iter().all(|cell| cell.start_is_the_limit()), "{late:?}");
    assert_eq!(late[0].held_gpm, late[1].held_gpm, "the road is no matter");
    let there = cells(0.0);
    assert!(there.iter().all(|cell| !cell.start_is_the_limit()), "{there:?}");
    assert!(there[0].held_gpm > there[1].held_gpm);
}

/// Over many seeds: no more than one search in twenty may say a wrong word of any step, told from a chance
/// known from many runs of other luck; and it must say enough to be of use.
#[test]
fn a_search_says_a_wrong_word_in_at_most_one_case_of_twenty() {
    let world = roomy().pond(|site| (site.out, site.back) = (leg(2.5, 0.25), leg(2.5, 0.25)));
    let fleet = (1..=3).fold(world, |world, n| world.tanker(&format!("Tanker {n}"), 2000.0, 3.0));
    let plan = fleet.plan();
    // A short watch: many seeds in little time.
    let demand = Demand { minimum: 100.0, minimum_from: 5.0, full_from: 15.0, minutes: 30.0 };
    let flow = |step: u32| 10.0 * f64::from(step);
    let (allowed, top, seeds) = (0.05, 100, 300);
    let truth: Vec<(f64, f64)> = (0..=top)
        .map(|step| {
            let Some(flow) = Some(flow(step)).filter(|flow| (300.0..900.0).contains(flow)) else {
                return (if step < 30 { 0.0 } else { 1.0 }, 0.0);
            };
            let trial = Trial::new(&plan, demand, flow).expect("a plan");
            let runs = Runs { first: 0, count: 20_000, seed: 77, threads: 2 };
            let tally = run_batch(&trial.plan, runs, Keep::Counts, &Control::default()).tally;
            let chance = tally.chance();
            (chance, (chance * (1.0 - chance) / tally.runs as f64).sqrt())
        })
        .collect();
    assert!(truth[31].0 < 0.01 && truth[89].0 > 0.5, "the steps span the answer: {truth:?}");
    let (mut wrong, mut steps_unclear) = (0, 0);
    for seed in 0..seeds {
        let search = Search {
            share: 1.0 - allowed,
            most_runs: 4_000,
            luck: SameLuck { seed: 1_000 + seed, threads: 2 },
            searches: 1,
            to_be_exact: 0,
            within: 0.0,
        };
        let found = greatest_step(45, None, top, search, &Control::default(), |step| {
            Trial::new(&plan, demand, flow(step)).ok()
        });
        let is_wrong = |look: &Look| {
            let (chance, error) = truth[look.step as usize];
            (look.holds() && chance > allowed + 2.0 * error)
                || (look.fails() && chance < allowed - 2.0 * error)
        };
        wrong += u32::from(found.looks.iter().any(is_wrong));
        let holds = found.holds.expect("some step holds");
        steps_unclear += found.unclear_up_to().map_or(0, |last| last - holds);
    }
    println!(
        "{wrong} of {seeds} searches say a wrong word; {steps_unclear} steps are left unclear"
    );
    assert!(f64::from(wrong) <= 0.05 * seeds as f64, "{wrong} of {seeds} say a wrong word");
    assert!(u64::from(steps_unclear) <= 2 * seeds, "{steps_unclear} unclear steps");
}

/// The search answers what a fine grid with many runs of other luck says.
#[test]
fn the_search_equals_a_fine_grid_with_many_runs() {
    let world = roomy().pond(|site| (site.out, site.back) = (leg(2.5, 0.25), leg(2.5, 0.25)));
    let fleet = (1..=4).fold(world, |world, n| world.tanker(&format!("Tanker {n}"), 2000.0, 3.0));
    let plan = fleet.plan();
    let answer = graded(&plan, TWO_HOURS, 10.0);
    let result = &answer.ranked[0].results[0];
    let held = result.held_gpm.expect("some flow holds");
    let open = result.not_clear_up_to_gpm.unwrap_or(held);
    let demand = TWO_HOURS.demand();
    let runs = Runs { first: 0, count: 4_000, seed: 77, threads: 2 };
    let share = |flow: f64| {
        let trial = Trial::new(&plan, demand, flow).expect("a plan");
        let tally = run_batch(&trial.plan, runs, Keep::Sums, &Control::default()).tally;
        1.0 - tally.interrupted as f64 / tally.runs as f64
    };
    let grid: Vec<f64> = (-5..=5).map(|step| held + 10.0 * f64::from(step)).collect();
    let shares: Vec<f64> = grid.iter().map(|flow| share(*flow)).collect();
    assert!(shares[0] > 0.96 && shares[10] < 0.94, "the grid spans the answer: {shares:?}");
    // Four standard errors of a share near 95% from 4,000 runs.
    let noise = 4.0 * (0.95 * 0.05 / 4_000.0_f64).sqrt();
    for (flow, share) in grid.iter().zip(&shares) {
        if *flow <= held {
            assert!(*share > 0.95 - noise, "{flow} gpm holds in {share}, answer {held}");
        } else if *flow > open {
            assert!(*share < 0.95 + noise, "{flow} gpm holds in {share}, answer {held} to {open}");
        }
    }
}
