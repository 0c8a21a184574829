//! The request against every set there is, and against the reasons why one set is taken and not another.

use std::sync::atomic::Ordering;

use shuttle_report::batch::Control;
use shuttle_report::departments::Department;
use shuttle_report::fleet_size::Verdict as Side;
use shuttle_report::losses::Lost;
use shuttle_report::request::{
    Cure, LossHeld, MOST_SETS, NotMadeUpFor, RequestAnswer, RequestQuestion, TriedCure,
    smallest_request, smallest_request_of_calls,
};
use shuttle_report::units::Units;
use shuttle_report::variation::with_tankers;
use shuttle_sim::{Brought, Plan, SourcePump, TimeTaken};

use super::common::world::{World, comes_at};
use super::lost::fixed_world;
use super::{BASE, luck, tallies, world};

/// One tanker of its own and five that could be asked for, made up from a number.
fn mutual_aid(number: u64) -> Plan {
    let mut mixed = number;
    let mut pick = |from: f64, to: f64| {
        // A linear congruential generator, for made-up worlds only (Knuth, MMIX constants).
        mixed =
            mixed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        from + (to - from) * ((mixed >> 33) as f64 / (1_u64 << 31) as f64)
    };
    let drive = TimeTaken::Lognormal { mean: 4.0, cv: 0.25 };
    let mut world = World::new()
        .watched(40.0)
        .attack_flow(pick(130.0, 420.0).round())
        .engine_tank(800.0)
        .throttling()
        .pond(|site| {
            site.out.time = drive.clone();
            site.back.time = drive.clone();
        })
        .tanker("Tanker 1", 1200.0, 0.0);
    for place in 1..=5 {
        let (gal, minutes) = (pick(600.0, 2500.0).round(), pick(3.0, 14.0));
        world = world.tanker_with(&format!("Aid {place}"), gal, minutes, |tanker| {
            tanker.call.response = TimeTaken::Lognormal { mean: minutes, cv: 0.2 };
        });
    }
    // Two alike, so that equal units are met too.
    world
        .with(|draft| {
            let twin = draft.tankers[1].clone();
            let last = draft.tankers.len() - 1;
            let name = draft.tankers[last].name.clone();
            draft.tankers[last] = shuttle_sim::Tanker { name, ..twin };
        })
        .plan()
}

const TARGET: f64 = 0.10;

fn requested(plan: &Plan, seed: u64, most_sets: usize) -> RequestAnswer {
    asked(plan, seed, most_sets, false).0
}

/// The request of all but the first tanker, and the fires that were simulated for it in all.
fn asked(plan: &Plan, seed: u64, most_sets: usize, spare: bool) -> (RequestAnswer, u64) {
    let candidates: Vec<usize> = (1..plan.facts().tankers.len()).collect();
    let question = RequestQuestion {
        target: TARGET,
        most_runs: 8000,
        luck: luck(seed),
        most_sets,
        spare,
        units: Units::Us,
    };
    let control = Control::default();
    let found = smallest_request(plan, &candidates, question, &control);
    (found, control.done.load(Ordering::Relaxed))
}

/// Every set there is, by names, with its chance from many runs.
fn brute_force(plan: &Plan) -> Vec<(Vec<String>, f64)> {
    let tankers = &plan.facts().tankers;
    let aid = tankers.len() - 1;
    (0..1_u32 << aid)
        .map(|set| {
            let comes: Vec<bool> =
                (0..tankers.len()).map(|place| place == 0 || set >> (place - 1) & 1 == 1).collect();
            let fleet = with_tankers(plan, &comes).expect("it can work");
            let names = (tankers.iter().zip(&comes).skip(1))
                .filter(|(_, comes)| **comes)
                .map(|(tanker, _)| tanker.name.clone())
                .collect();
            (names, tallies(&[&fleet], 999, 2048)[0].chance())
        })
        .collect()
}

#[test]
fn the_request_is_the_smallest_of_all_sets() {
    let (mut clear, mut sizes) = (0, Vec::new());
    for number in 1..=10 {
        let plan = mutual_aid(number);
        let all = brute_force(&plan);
        // 2,048 runs tell a chance near 10% to 0.7 points; four of these are left aside.
        let surely = |chance: f64| (chance - TARGET).abs() > 0.028;
        let size = |(names, _): &(Vec<String>, f64)| names.len();
        let smallest = all.iter().filter(|set| set.1 < TARGET).map(size).min();
        let counts = |set: &&(Vec<String>, f64)| smallest.is_none_or(|most| size(set) < most);
        let best = smallest.map(|size| {
            let of_size = all.iter().filter(|(names, _)| names.len() == size);
            of_size.map(|(_, chance)| *chance).fold(1.0, f64::min)
        });
        if !all.iter().filter(counts).all(|set| surely(set.1)) || !best.is_none_or(surely) {
            continue;
        }
        clear += 1;
        let found = requested(&plan, 40 + number, MOST_SETS);
        assert!(found.all_sets_tried);
        let answer = found.meets_target.then_some(found.request.len());
        assert_eq!(answer, smallest, "{number}: {found:?}");
        if let (Some(best), true) = (best, found.meets_target) {
            let mut names: Vec<String> =
                found.request.iter().map(|unit| unit.name.clone()).collect();
            names.sort();
            let own = all.iter().find(|(set, _)| *set == names).expect("one of all sets").1;
            assert!(own < best + 0.03, "{number}: {names:?} {own}, the best of its size {best}");
            sizes.push(names.len());
        }
        // One by one: what it names does as well, though it need not be the smallest.
        let greedy = requested(&plan, 40 + number, 1);
        assert!(!greedy.all_sets_tried);
        assert_eq!(greedy.meets_target, smallest.is_some(), "{number}");
        if greedy.meets_target {
            let mut names: Vec<String> =
                greedy.request.iter().map(|unit| unit.name.clone()).collect();
            names.sort();
            let own = all.iter().find(|(set, _)| *set == names).expect("one of all sets").1;
            assert!(own < TARGET + 0.02 && names.len() >= smallest.unwrap_or(0), "{number}: {own}");
        }
    }
    sizes.sort_unstable();
    println!("{clear} worlds with a clear answer; units asked for: {sizes:?}");
    assert!(clear >= 6, "only {clear} worlds have a clear answer");
    sizes.dedup();
    assert!(sizes.len() >= 2, "all answers have the same size: {sizes:?}");
}

#[test]
fn the_request_takes_two_of_a_kind_and_passes_over_those_that_come_too_late() {
    // By hand as below: three of 1,000 gal make the 240 gpm; two with a small one bring at most 12,800 +
    // 150 x (1 + 59 / 10.3) = 13,850 of the 14,400 gal wanted, and one comes when all is over.
    let plan = fixed_world(1, 240.0)
        .tanker("Aid 1", 150.0, 0.0)
        .tanker("Aid 2", 1000.0, 0.0)
        .tanker("Aid 3", 3000.0, 70.0)
        .tanker("Aid 4", 1000.0, 0.0)
        .plan();
    for most_sets in [MOST_SETS, 1] {
        let found = requested(&plan, 1, most_sets);
        let names: Vec<&str> = found.request.iter().map(|unit| unit.name.as_str()).collect();
        assert!(found.meets_target, "{found:?}");
        assert_eq!(names, ["Aid 2", "Aid 4"]);
        assert_eq!(found.add_nothing, ["Aid 1", "Aid 3"]);
    }
}

/// One tanker of its own and eight to ask for that differ only in when they come. All are there, and the drop tank is
/// full, long before first water: none does more than another but by its luck.
fn alike_but_for_when_they_come() -> World {
    let drive = TimeTaken::Lognormal { mean: 4.0, cv: 0.25 };
    let world = World::new()
        .watched(40.0)
        .engine_comes(0.0, 60.0)
        .attack_flow(600.0)
        .throttling()
        .first_tank(|tank| {
            tank.dump_positions = 9;
            tank.capacity = 8000.0;
        })
        .pond(|site| {
            site.positions = 9;
            site.flow = 9000.0;
            site.out.time = drive.clone();
            site.back.time = drive.clone();
        })
        .tanker("Tanker 1", 1200.0, 0.0);
    let comes = [14.0, 6.0, 10.0, 2.0, 12.0, 4.0, 16.0, 8.0];
    comes.into_iter().fold(world, |world, minutes| {
        world.tanker(&format!("There at minute {minutes:02}"), 1200.0, minutes)
    })
}

#[test]
fn of_sets_not_told_apart_the_request_takes_the_one_that_is_there_soonest() {
    let plan = alike_but_for_when_they_come().plan();
    let soonest: Vec<String> =
        (1..=8).map(|one| format!("There at minute {:02}", 2 * one)).collect();
    let mut sizes = Vec::new();
    for (most_sets, spare) in [(MOST_SETS, false), (1, false), (MOST_SETS, true), (1, true)] {
        let found = asked(&plan, 5, most_sets, spare).0;
        assert!(found.meets_target && found.spare.is_some_and(|spare| spare.stands) == spare);
        let mut names: Vec<String> = found.request.iter().map(|unit| unit.name.clone()).collect();
        names.sort();
        assert_eq!(names, soonest[..names.len()], "{most_sets}, {spare}");
        sizes.push(names.len());
    }
    assert!(sizes[0] >= 2 && sizes[2] == sizes[0] + 1, "{sizes:?}");
    assert!(sizes[1] == sizes[0] && sizes[3] == sizes[2], "{sizes:?}");
}

/// Every fire that is simulated for a request, in all: there are thirty calls to choose from, ten times three of the
/// least, and a billion sets.
#[test]
fn a_request_of_many_calls_is_found_with_few_fires() {
    let fires = |calls: usize| {
        let world = (0..calls).fold(alike_but_for_when_they_come(), |world, place| {
            let minutes = 20.0 + place as f64 / 2.0;
            world.tanker(&format!("Later {place}"), 1000.0 + 20.0 * place as f64, minutes)
        });
        let (found, fires) = asked(&world.plan(), 5, 1, true);
        assert!(found.spare.is_some_and(|spare| spare.stands));
        fires
    };
    let (few, many) = (fires(2), fires(22));
    println!("{few} fires with ten calls, {many} with thirty");
    assert!(many < 8 * few && many < 220_000, "{few}, {many}");
}

/// The pump that comes to the one source is lost as well: nobody makes up for it where no other source is left, and where
/// there is one, what it takes is asked for.
#[test]
fn a_request_with_something_to_spare_stands_the_loss_of_a_pump_at_a_source() {
    let pump = SourcePump {
        name: "Portable pump".to_owned(),
        brought: Brought::Itself(comes_at(1.0)),
        setup: TimeTaken::NONE,
    };
    let one = alike_but_for_when_they_come().pond(|site| site.source_pump = Some(pump));
    let two = one.clone().fill_site_with("Creek", 5.0, 5.0, |site| {
        site.positions = 9;
        site.flow = 9000.0;
    });
    let lost = Lost::SourcePump {
        name: "Portable pump".to_owned(),
        site: "Pond".to_owned(),
        brought_by: None,
    };
    for (world, is_made_up_for) in [(one, false), (two, true)] {
        let spare = asked(&world.plan(), 5, MOST_SETS, true).0.spare.expect("asked for");
        let aside = spare.not_made_up_for.iter().find(|one| one.lost == lost);
        assert_eq!(aside.is_some(), !is_made_up_for, "{spare:?}");
        // With a second pump there nothing is lost.
        let cure = Cure::SecondPump { fill_site: "Pond".to_owned() };
        assert!(aside.is_none_or(|one| one.tried[0].cure == cure), "{aside:?}");
        assert!(aside.is_none_or(|one| one.tried[0].verdict == Side::Below), "{aside:?}");
        let held = spare.losses.iter().find(|loss| loss.lost == lost);
        assert_eq!(held.is_some(), is_made_up_for, "{spare:?}");
        assert!(held.is_none_or(|loss| loss.verdict == Side::Below), "{held:?}");
    }
}

/// The refusal of a department that comes whole is one loss, and more is asked for to stand it; tankers that have no more
/// than its name in common are not asked to be spared together, and what they all do is told.
#[test]
fn a_request_stands_the_refusal_of_a_department_that_comes_whole() {
    // By hand as above: it takes three of these tankers. With one of its own and the two of Maple Ford there are three,
    // with any one to spare four, and with Maple Ford to spare five.
    let own = fixed_world(1, 240.0).fill_site_with("Hydrant", 5.0, 5.0, |site| {
        site.positions = 5;
        site.flow = 5000.0;
    });
    let names = ["Maple Ford 1", "Maple Ford 2", "Birch Hill 1", "Birch Hill 2"];
    let plan = names.iter().fold(own, |world, name| world.tanker(name, 1000.0, 0.0)).plan();
    let asked = |comes_whole: bool| {
        let calls: &[Vec<usize>] = if comes_whole {
            &[vec![1, 2], vec![3], vec![4]]
        } else {
            &[vec![1], vec![2], vec![3], vec![4]]
        };
        let department = Department {
            name: "Maple Ford".to_owned(),
            tankers: names[..2].iter().map(|name| (*name).to_owned()).collect(),
            comes_whole,
        };
        let question = RequestQuestion {
            target: TARGET,
            most_runs: 4000,
            luck: luck(3),
            most_sets: MOST_SETS,
            spare: true,
            units: Units::Us,
        };
        let control = Control::default();
        smallest_request_of_calls(&plan, calls, &[department], question, &control)
    };
    let is_it = |one: &&LossHeld| matches!(one.lost, Lost::Department { .. });
    let whole = asked(true);
    assert_eq!(whole.request.len(), 4, "{whole:?}");
    let spare = whole.spare.expect("asked for");
    assert!(spare.stands && spare.departments.is_empty(), "{spare:?}");
    let held = spare.losses.iter().find(is_it).expect("one of the losses");
    assert_eq!((held.verdict, held.interruption_probability), (Side::Below, 0.0));
    let named = asked(false);
    assert_eq!(named.request.len(), 3, "{named:?}");
    let spare = named.spare.expect("asked for");
    assert!(spare.stands && spare.losses.iter().find(is_it).is_none(), "{spare:?}");
    let all_at_home = spare.departments.first().expect("told");
    assert_eq!((all_at_home.verdict, all_at_home.interruption_probability), (Side::Above, 1.0));
}

/// What is lost with nobody to make up for it: a cure that was run, or the flow that then holds.
#[test]
fn what_no_request_makes_up_for_has_a_cure_that_was_run() {
    // The drop tank comes with the one tanker of its own. On another it feeds the lines as before: of four tankers three
    // are left, which make 240 gpm; two, by hand as above, do not.
    let plan = |aid: usize| {
        (1..=aid)
            .fold(fixed_world(1, 240.0), |world, place| {
                world.tanker(&format!("Aid {place}"), 1000.0, 0.0)
            })
            .first_tank(|tank| tank.brought = Brought::ByTanker(0))
            .plan()
    };
    let lost = |found: RequestAnswer, wanted: &str| {
        let spare = found.spare.expect("asked for");
        let is_it = |one: &NotMadeUpFor| match &one.lost {
            Lost::OneTankerOf { names, .. } => names[0][0] == wanted,
            Lost::FillSite { name } => name == wanted,
            _ => false,
        };
        spare.not_made_up_for.into_iter().find(is_it).expect("nobody makes up for it")
    };
    let tank = lost(asked(&plan(3), 3, MOST_SETS, true).0, "Tanker 1");
    assert_eq!((tank.verdict, tank.interruption_probability), (Side::CannotWork, 1.0));
    let best = &tank.tried[0];
    assert_eq!(best.cure, Cure::DropTankOn { tanker: "Aid 1".to_owned() }, "{tank:?}");
    assert_eq!((best.verdict, best.interruption_probability, best.helps), (Side::Below, 0.0, true));
    // One more tanker without a drop tank has nowhere to dump.
    let one_more = Cure::OneMoreTanker { like: "Tanker 1".to_owned() };
    assert!(tank.tried.iter().all(|one| one.cure != one_more), "{tank:?}");
    assert!(tank.holds.is_none(), "no water comes: {tank:?}");
    // The one source: another like it, and nothing of the one that is lost. What first loads bring is 4,000 gal, with the
    // engine's 1,000 gal 5,000 gal: over an hour 83 gpm, so that of flows 25 gpm apart 75 gpm holds.
    let pond = lost(asked(&plan(3), 3, MOST_SETS, true).0, "Pond");
    assert_eq!(pond.interruption_probability, 1.0);
    let enough: Vec<&Cure> =
        (pond.tried.iter()).filter(|one| one.verdict == Side::Below).map(|one| &one.cure).collect();
    assert_eq!(enough, [&Cure::SecondSource { like: "Pond".to_owned() }], "{pond:?}");
    let of_the_pond = |one: &TriedCure| matches!(&one.cure, Cure::Change { change } if format!("{change:?}").contains("Pond"));
    assert!(!pond.tried.iter().any(of_the_pond), "{pond:?}");
    assert_eq!(pond.holds.map(|holds| holds.flow), Some(75.0), "{pond:?}");
}

#[test]
fn the_request_keeps_to_the_target_on_both_sides_of_it() {
    let plan = world(BASE).tanker("Tanker 3", 1000.0, 0.0).plan();
    let two = with_tankers(&plan, &[true, true, false]).expect("it can work");
    let chance = tallies(&[&two], 77, 40_000)[0].chance();
    assert!((0.02..0.6).contains(&chance), "{chance}");
    for (target, units) in [(chance / 1.3, 2), (chance * 1.3, 1)] {
        let question = RequestQuestion {
            target,
            most_runs: 20_000,
            luck: luck(6),
            most_sets: MOST_SETS,
            spare: false,
            units: Units::Us,
        };
        let found = smallest_request(&plan, &[1, 2], question, &Control::default());
        assert!(found.meets_target && found.request.len() == units, "{target}: {found:?}");
        if units == 2 {
            // Either of the two left out leaves the plan with two tankers, seen on the same luck: the share
            // of runs that the table of sizes has of it, or what the difference makes it where that has more.
            let row = found.sizes.iter().find(|row| row.names.len() == 1).expect("one was tried");
            for unit in &found.request {
                let around = unit.without_it.as_ref().expect("tried");
                let expected = if around.replications == row.replications {
                    tallies(&[&two], 6, around.replications)[0].chance()
                } else {
                    found.interruption_probability + around.higher_by.by
                };
                assert!((around.interruption_probability - expected).abs() < 1e-12, "{around:?}");
                assert!(around.replications >= row.replications, "{around:?}, {row:?}");
            }
        }
    }
}
