//! Laws of luck: the same luck gives the same run, whoever works it out and beside whatever else.

use crate::of_one_run::run_to_its_end;
use crate::random_plan::{drafts, plan};
use proptest::prelude::*;
use shuttle_report::batch::{Control, Keep, Runs, run_batch};
use shuttle_sim::{
    Brought, Doing, Failure, Happening, Luck, PlanDraft, Shuttle, TimeTaken, Trace, WholeFire,
};

fn config(cases: u32) -> ProptestConfig {
    ProptestConfig {
        cases,
        failure_persistence: None,
        rng_seed: proptest::test_runner::RngSeed::Fixed(1),
        ..ProptestConfig::default()
    }
}

/// What one tanker met by its own luck.
#[derive(Debug, PartialEq)]
struct Draws {
    /// When it reached the scene, to the bit.
    arrived: Option<u64>,
    /// Each whole drive out: to which site, and how long.
    roads: Vec<(usize, f64)>,
    /// Each whole repair.
    repairs: Vec<f64>,
}

fn draws_of(trace: &Trace, tanker: usize) -> Draws {
    let mut draws = Draws { arrived: None, roads: vec![], repairs: vec![] };
    let mut last: Option<(f64, Doing)> = None;
    for note in &trace.notes {
        let Happening::Tanker(who, doing) = note.happening else { continue };
        if who != tanker {
            continue;
        }
        match last {
            None => draws.arrived = Some(note.minute.to_bits()),
            Some((since, Doing::TravelingOut(site))) => {
                draws.roads.push((site, note.minute - since));
            }
            Some((since, Doing::InRepair)) => draws.repairs.push(note.minute - since),
            Some(_) => {}
        }
        last = Some((note.minute, doing));
    }
    draws
}

/// Where the draws of one run differ from those of another, as far as both went.
fn differences(one: &Draws, other: &Draws) -> Vec<String> {
    let mut found = Vec::new();
    if let (Some(a), Some(b)) = (one.arrived, other.arrived)
        && a != b
    {
        found.push(format!("on scene at {} and {}", f64::from_bits(a), f64::from_bits(b)));
    }
    for ((site, minutes), (elsewhere, others)) in one.roads.iter().zip(&other.roads) {
        // Another site may be the nearer one in other company.
        if site == elsewhere && (minutes - others).abs() > 1e-9 {
            found.push(format!("{minutes} and {others} minutes on the road to site {site}"));
        }
    }
    for (minutes, others) in one.repairs.iter().zip(&other.repairs) {
        if (minutes - others).abs() > 1e-9 {
            found.push(format!("{minutes} and {others} minutes in repair"));
        }
    }
    found
}

fn with_one_more(draft: &PlanDraft, place: usize) -> PlanDraft {
    let mut more = draft.clone();
    let mut extra = more.tankers[0].clone();
    extra.name = "One more".to_string();
    extra.listed = more.tankers.len();
    extra.call.response = TimeTaken::Exponential { mean: 5.0 };
    more.tankers.insert(place, extra);
    // Whoever brings a drop tank still does.
    for tank in &mut more.drop_tanks {
        if let shuttle_sim::Brought::ByTanker(by) = &mut tank.brought
            && *by >= place
        {
            *by += 1;
        }
    }
    more
}

/// Sets everything that a whole fire may share.
fn with_shared_luck(
    draft: &PlanDraft,
    cv: f64,
    turnout: f64,
    failure: Option<&Failure>,
) -> PlanDraft {
    let mut draft = draft.clone();
    draft.whole_fire = WholeFire { driving_cv: cv, handling_cv: cv, response_cv: cv };
    for tanker in &mut draft.tankers {
        tanker.crew_cv = cv;
        tanker.call.turnout = turnout;
    }
    if let Some(engine) = &mut draft.supply.engine {
        engine.call.turnout = turnout;
    }
    for tank in &mut draft.drop_tanks {
        if let Brought::Itself(call) = &mut tank.brought {
            call.turnout = turnout;
        }
    }
    draft.supply.failure = failure.cloned();
    for site in &mut draft.fill_sites {
        site.failure = failure.cloned();
    }
    draft
}

proptest! {
    #![proptest_config(config(1_000))]

    #[test]
    fn shared_luck_that_changes_nothing_changes_no_bit(
        draft in drafts(),
        seed in any::<u64>(),
    ) {
        let luck = Luck::Drawn { seed, replication: 0 };
        // What never fails may still be said to be down for good.
        let never = Failure { chance: 0.0, repair: None };
        let silent = run_to_its_end(&plan(&with_shared_luck(&draft, 0.0, 1.0, None)), luck);
        let stated = run_to_its_end(&plan(&with_shared_luck(&draft, 0.0, 1.0, Some(&never))), luck);
        prop_assert_eq!(format!("{silent:?}"), format!("{stated:?}"));
    }

    #[test]
    fn the_planned_run_knows_nothing_of_shared_luck(draft in drafts(), turnout in 0.0..1.0f64) {
        let sure = Failure { chance: 1.0, repair: None };
        let silent = plan(&with_shared_luck(&draft, 0.0, 1.0, None));
        let stated = plan(&with_shared_luck(&draft, 0.5, turnout, Some(&sure)));
        let told = |plan| format!("{:?}", run_to_its_end(plan, Luck::Planned));
        prop_assert_eq!(told(&silent), told(&stated));
    }

    #[test]
    fn shared_luck_leaves_each_draw_where_it_was(draft in drafts(), seed in any::<u64>()) {
        // One factor far from 1 on driving alone: every other draw is the same.
        let luck = Luck::Drawn { seed, replication: 0 };
        let silent = with_shared_luck(&draft, 0.0, 1.0, None);
        let mut slow = silent.clone();
        slow.whole_fire.driving_cv = 0.5;
        let (one, other) = (run_to_its_end(&plan(&silent), luck).1, run_to_its_end(&plan(&slow), luck).1);
        let factor = other.notes.iter().find_map(|note| match note.happening {
            Happening::WholeFire { driving, handling: 1.0, response: 1.0 } => Some(driving),
            _ => None,
        });
        let factor = factor.expect("driving is spread, and nothing else");
        for tanker in 0..draft.tankers.len() {
            let (one, mut other) = (draws_of(&one, tanker), draws_of(&other, tanker));
            other.roads.iter_mut().for_each(|(_, minutes)| *minutes /= factor);
            let found = differences(&one, &other);
            prop_assert!(found.is_empty(), "tanker {}: {:?}", tanker, found);
        }
    }

    #[test]
    fn the_same_luck_gives_the_same_run_to_the_bit(
        draft in drafts(),
        seed in any::<u64>(),
        replication in 0..1_000u64,
    ) {
        let plan = plan(&draft);
        let luck = Luck::Drawn { seed, replication };
        let once = format!("{:?}", run_to_its_end(&plan, luck).0);
        // In a shuttle that has run before, with and without telling the story.
        let mut used = Shuttle::new(&plan);
        used.run(Luck::Drawn { seed: seed ^ 1, replication });
        prop_assert_eq!(&format!("{:?}", used.run(luck)), &once);
        prop_assert_eq!(&format!("{:?}", used.run_traced(luck).0), &once);
        prop_assert_eq!(&format!("{:?}", used.run(luck)), &once);
    }

    #[test]
    fn another_tanker_leaves_the_draws_of_the_others_alone(
        draft in drafts(),
        seed in any::<u64>(),
        place in 0..6usize,
    ) {
        let place = place.min(draft.tankers.len());
        let luck = Luck::Drawn { seed, replication: 0 };
        let without = run_to_its_end(&plan(&draft), luck).1;
        let with = run_to_its_end(&plan(&with_one_more(&draft, place)), luck).1;
        for tanker in 0..draft.tankers.len() {
            let now = if tanker >= place { tanker + 1 } else { tanker };
            let found = differences(&draws_of(&without, tanker), &draws_of(&with, now));
            prop_assert!(found.is_empty(), "tanker {}: {:?}", tanker, found);
        }
    }
}

proptest! {
    #![proptest_config(config(25))]

    #[test]
    fn a_batch_is_the_same_on_any_number_of_threads(draft in drafts(), seed in any::<u64>()) {
        let plan = plan(&draft);
        let told = |threads| {
            let runs = Runs { first: 3, count: 700, seed, threads };
            let batch = run_batch(&plan, runs, Keep::Levels, &Control::default());
            // As text every number is written out to its last bit.
            (format!("{:?}", batch.tally), format!("{:?}", batch.bands))
        };
        let (sums, levels) = told(1);
        for threads in [2, 8] {
            let (others, other_levels) = told(threads);
            prop_assert!(sums == others, "the sums differ on {} threads", threads);
            prop_assert!(levels == other_levels, "the levels differ on {} threads", threads);
        }
    }
}

/// The comparison of draws is no use if it cannot tell other luck.
#[test]
fn other_luck_is_told_apart() {
    use proptest::strategy::ValueTree;
    let mut runner = proptest::test_runner::TestRunner::deterministic();
    let (mut told_apart, mut plans) = (0, 0);
    for _ in 0..200 {
        let mut draft = drafts().new_tree(&mut runner).unwrap().current();
        for site in &mut draft.fill_sites {
            site.out.time = TimeTaken::Exponential { mean: 4.0 };
        }
        let plan = plan(&draft);
        let trace = |seed| Shuttle::new(&plan).run_traced(Luck::Drawn { seed, replication: 0 }).1;
        let (one, other) = (draws_of(&trace(1), 0), draws_of(&trace(2), 0));
        if !one.roads.is_empty() && !other.roads.is_empty() {
            plans += 1;
            told_apart += usize::from(!differences(&one, &other).is_empty());
        }
    }
    assert!(plans > 100 && told_apart as f64 > 0.95 * plans as f64, "{told_apart} of {plans}");
}
