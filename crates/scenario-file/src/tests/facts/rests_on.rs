//! What the inputs rest on, as it is read; the values beside it mean what they mean without.

use shuttle_sim::{Owner, PlanPart as Part, RestsOn, TimeTaken, Unsure};

use crate::tests::{EXAMPLE, changed, read_good};

fn unsure(text: &str) -> Vec<Unsure> {
    read_good(text).plan.facts().unsure.clone()
}

fn one(text: &str) -> (Owner, Vec<Part>, RestsOn) {
    match unsure(text).as_slice() {
        [one] => (one.of.clone(), one.parts.clone(), one.rests_on),
        other => panic!("{other:?}"),
    }
}

#[test]
fn what_says_nothing_is_taken_as_known() {
    assert_eq!(unsure(EXAMPLE), []);
    for known in
        ["{\"value\": 16, \"guess\": false}", "{\"value\": 16, \"guess\": 1}", "{\"value\": 16}"]
    {
        assert_eq!(unsure(&changed("\"ready\": 16", &format!("\"ready\": {known}"))), []);
    }
}

#[test]
fn each_spelling_is_read_and_leaves_the_plan_as_it_is() {
    let plain = read_good(EXAMPLE).plan.facts().clone();
    let site = || Owner::FillSite("Quarry pond".to_string());
    let aid = || Owner::Tankers { name: "Aid tanker".to_string(), listed: 1 };
    let guess = RestsOn::Guess(1.25);
    for (from, to, of, parts, rests_on) in [
        (
            "\"ready\": 16",
            "\"ready\": {\"value\": \"16 min\", \"guess\": true}",
            site(),
            vec![Part::Ready],
            guess,
        ),
        (
            "\"flow\": 900",
            "\"flow\": {\"value\": 900, \"guess\": 1.5}",
            site(),
            vec![Part::Flow],
            RestsOn::Guess(1.5),
        ),
        (
            "{\"mean\": 18, \"cv\": 0.2}",
            "{\"mean\": 18, \"cv\": 0.2, \"timed\": 7}",
            aid(),
            vec![Part::Response],
            RestsOn::Readings(7),
        ),
        (
            "\"capacity\": 3200",
            "\"capacity\": {\"value\": 3200, \"guess\": 1.1}",
            aid(),
            vec![Part::Capacity],
            RestsOn::Guess(1.1),
        ),
        (
            "\"out\": {\"miles\": 2.4, \"mph\": 35, \"cv\": 0.15}",
            "\"out\": {\"miles\": 2.4, \"mph\": 35, \"cv\": 0.15, \"timed\": 12}",
            site(),
            vec![Part::Out],
            RestsOn::Readings(12),
        ),
        (
            "\"draft_limit\": 1000",
            "\"draft_limit\": {\"value\": \"1000 gpm\", \"guess\": true}",
            Owner::Supply,
            vec![Part::DraftLimit],
            guess,
        ),
        (
            "\"setup\": 3.5",
            "\"setup\": {\"value\": 3.5, \"guess\": true}",
            Owner::DropTank(0),
            vec![Part::Setup],
            guess,
        ),
    ] {
        let text = changed(from, to);
        assert_eq!(one(&text), (of, parts, rests_on), "{to}");
        let mut facts = read_good(&text).plan.facts().clone();
        facts.unsure.clear();
        assert_eq!(facts, plain, "{to}");
    }
}

#[test]
fn samples_are_so_many_readings_and_a_single_one_is_a_guess() {
    let with = |times: &str| {
        changed("\"dump_clear\": 0.2", &format!("\"dump_clear\": {{\"samples\": [{times}]}}"))
    };
    let every = Owner::EveryTanker(vec![0, 1]);
    let read = one(&with("0.2, 0.3, 0.2"));
    assert_eq!(read, (every.clone(), vec![Part::DumpClear], RestsOn::Readings(3)));
    assert_eq!(one(&with("0.2")), (every, vec![Part::DumpClear], RestsOn::Guess(1.25)));
}

#[test]
fn a_road_that_is_guessed_alike_both_ways_is_one_guess() {
    let road = |out: &str, back: &str| {
        EXAMPLE
            .replace("35, \"cv\": 0.15", &format!("35, \"cv\": 0.15, \"guess\": {out}"))
            .replace("30, \"cv\": 0.15", &format!("30, \"cv\": 0.15, \"guess\": {back}"))
    };
    let (_, parts, rests_on) = one(&road("true", "1.25"));
    assert_eq!((parts, rests_on), (vec![Part::Out, Part::Back], RestsOn::Guess(1.25)));
    assert_eq!(unsure(&road("true", "1.5")).len(), 2);
}

#[test]
fn handling_in_common_is_that_of_every_tanker_without_its_own() {
    let common = changed("\"dump_clear\": 0.2", "\"dump_clear\": {\"value\": 0.2, \"guess\": 2}");
    let (of, ..) = one(&common);
    assert_eq!(of, Owner::EveryTanker(vec![0, 1]));
    let own = common.replace("\"waste\": 0.05", "\"handling\": {\"dump_clear\": 0.4}");
    let (of, ..) = one(&own);
    assert_eq!(of, Owner::EveryTanker(vec![1]));
    // It moves those tankers and nobody else, whoever stays away.
    let plan = read_good(&own).plan;
    let mut facts = plan.facts().clone();
    facts.tankers.remove(1);
    let moved = plan.facts().unsure[0].redraw(&mut facts, |time| time.scaled(3.0), |value| value);
    assert_eq!(moved, 1);
    let clear: Vec<f64> = facts.tankers.iter().map(|one| one.handling.dump_clear.mean()).collect();
    assert_eq!(clear, [0.4, 3.0 * 0.2]);
    assert_eq!(facts.tankers[0].handling.dump_clear, TimeTaken::Fixed(0.4));
}
