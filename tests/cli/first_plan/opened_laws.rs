//! Laws of a plan that is written and read back, on random plans.

use plain_plan::{
    Amount, DropTank, Engine, FirstPlan, Source, Start, Tanker, ask_to_mend, opened, scenario_text,
};
use proptest::prelude::*;
use proptest::sample::select;
use proptest::strategy::ValueTree;
use proptest::test_runner::TestRunner;
use scenario_file::{Alarm, Units};
use serde_json::{Map, Value, json};

fn typed(texts: &'static [&'static str]) -> impl Strategy<Value = Amount> + Clone {
    select(texts).prop_map(|text| Amount::typed(text).expect("a number"))
}

fn often() -> impl Strategy<Value = Option<Amount>> {
    let texts = select(&["always", "9 in 10", "90%", "0.75", "99%"][..]);
    proptest::option::of(texts.prop_map(|text| Amount::how_often(text).expect("a share")))
}

const WATERS: &[&str] = &["2,000", "2,500 gal", "3000", "11,000 L", "1,800.5"];
const MINUTES: &[&str] = &["9", "12.5", "17 min", "22", "600 s"];
const ROADS: &[&str] = &["2.4", "3.1 mi", "5 km", "2.4567", "2.4 mi"];

prop_compose! {
    fn tanker()(
        water in typed(WATERS),
        minutes in typed(MINUTES),
        empties_in in proptest::option::of(typed(&["2.5", "3 min", "90 s", "4.25", "1,500"])),
        turnout in often(),
        department in proptest::option::of(select(&["Birch Hill", "Creek"][..])),
        of_others in any::<bool>(),
        comes_whole in any::<bool>(),
        alarm in proptest::option::of(select(&Alarm::ALL[..3])),
        called_at in proptest::option::of(typed(&["0", "4", "5 min"])),
    ) -> Tanker {
        let comes_whole = comes_whole && department.is_some();
        let department = department.map(str::to_owned);
        Tanker { name: String::new(), department, of_others, comes_whole, alarm, water, empties_in, minutes, turnout, called_at }
    }
}

prop_compose! {
    fn source()(
        flow in typed(&["750", "1,000 gpm", "3,000 L/min"]),
        positions in proptest::option::of(typed(&["1", "2"])),
        ready in proptest::option::of(typed(&["15", "25 min", "60"])),
        pump in 0..4_usize,
        pump_draws_in in proptest::option::of(typed(&["8", "13.5", "7 min"])),
        pump_turnout in often(),
        road in typed(ROADS),
        speed in proptest::option::of(typed(&["32", "50 km/h"])),
        gravel in proptest::option::of((typed(&["0.3", "0.3 mi", "0", "1 km", "2.4"]), typed(&["20", "30 km/h"]))),
        holds in proptest::option::of(typed(&["30,000", "500 m3"])),
    ) -> (Source, usize) {
        let (gravel, gravel_speed) = gravel.unzip();
        let source = Source {
            name: String::new(), flow, positions, ready, pumped_by: None, pump_draws_in, pump_turnout, road, speed, gravel,
            gravel_speed, holds,
        };
        (source, pump)
    }
}

prop_compose! {
    fn plan()(
        units in select(&[Units::Us, Units::Metric][..]),
        flow in typed(&["400", "500 gpm", "1,500 L/min"]),
        start in proptest::option::of((typed(&["150 gpm", "300 L/min"]), typed(&["8", "10 min"]))),
        duration in typed(&["120", "2 h", "90 min"]),
        water in typed(&["1,250 gal", "4,000 L"]),
        reserve in typed(&["0", "300 gal", "1,000 L"]),
        supply in proptest::option::of(typed(MINUTES)),
        drafting in proptest::option::of(select(vec![json!("2000 gpm"), Value::Null])),
        own in proptest::collection::vec(tanker(), 1..4),
        aid in proptest::collection::vec(tanker(), 0..5),
        tanks in proptest::collection::vec(typed(&["3,500 gal", "2,000", "9,500 L"]), 0..3),
        sources in proptest::collection::vec(source(), 1..4),
        notes in proptest::collection::vec(select(&["Timed in May.", "Ask Creek again."][..]), 0..2),
    ) -> FirstPlan {
        let engine = |name: &str, water: Option<Amount>, minutes: Amount| Engine { name: name.to_owned(), water, minutes };
        let named = |mut list: Vec<Tanker>, whose: &str| {
            for (place, one) in list.iter_mut().enumerate() {
                one.name = format!("{whose} {}", place + 1);
            }
            list
        };
        let mut own = named(own, "Tanker");
        // What is said of aid alone.
        own.iter_mut().for_each(|one| (one.comes_whole, one.alarm) = (false, None));
        let mut aid = named(aid, "Aid");
        for one in &mut aid {
            one.of_others = true;
            one.called_at = match one.alarm {
                Some(Alarm::First) => None,
                // As often as not another on it says the minute.
                Some(_) => one.called_at.take().or(Some(Amount::plain(6.0))),
                None => one.called_at.take(),
            };
        }
        let sources = sources.into_iter().enumerate().map(|(place, (source, pump))| {
            let engine = format!("Engine 1{place}");
            let is_brought = matches!(pump, 1 | 2);
            let source = Source {
                // Of a unit that brings the pump 60 min is later than any is there.
                ready: source.ready.filter(|ready| !is_brought || *ready == Amount::plain(60.0)).or_else(|| {
                    (!is_brought).then(|| Amount::plain(15.0))
                }),
                pump_turnout: source.pump_turnout.filter(|often| pump == 3 && *often != Amount::plain(1.0)),
                speed: source.speed.or_else(|| source.gravel.as_ref().map(|_| Amount::plain(30.0))),
                ..source
            };
            let pumped_by = [None, Some("tanker  1".to_owned()), Some("ENGINE 4".to_owned()), Some(engine)][pump].clone();
            Source { name: format!("Pond {place}"), pumped_by, ..source }
        });
        FirstPlan {
            units,
            title: "Shed".to_owned(),
            flow,
            start: start.map(|(flow, until)| Start { flow, until }),
            duration,
            reserve,
            attack_engine: engine("Engine 4", Some(water), Amount::plain(9.0)),
            // What a supply engine carries is not asked.
            supply_engine: supply.map(|minutes| engine("Engine 8", Some(Amount::plain(500.0)), minutes)),
            second_supply_engine: None,
            // As a second supply engine leaves it, or a file that says nothing of it.
            drafting: drafting.map(|value| ("draft_limit".to_owned(), value)).into_iter().collect(),
            own,
            aid,
            drop_tanks: tanks.into_iter().map(|holds| DropTank { brought_by: "Tanker 1".to_owned(), holds }).collect(),
            sources: sources.collect(),
            notes: notes.into_iter().map(str::to_owned).collect(),
            beside: Map::from_iter([("crew".to_owned(), Value::Object(Map::new()))]),
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(150))]

    /// A plan that is sound is read back from its scenario as it was said, and makes the same scenario.
    #[test]
    fn a_plan_is_read_back_as_it_was_said(plan in plan()) {
        let text = scenario_text(&plan);
        prop_assume!(text.is_ok());
        let text = text.unwrap_or_default();
        let settled = plan.settled();
        prop_assert_eq!(scenario_text(&settled), Ok(text.clone()));
        prop_assert_eq!(opened(&text), Ok(settled));
    }

    /// Whatever is named, with Enter at each of its questions: nothing is changed.
    #[test]
    fn enter_changes_nothing(plan in plan(), named in 1..8_usize) {
        let text = scenario_text(&plan);
        prop_assume!(text.is_ok());
        let plan = opened(&text.unwrap_or_default()).expect("it opens");
        let answers = format!("{named}{}yes\n", "\n".repeat(30));
        let mut shown = Vec::new();
        let mended = ask_to_mend(&plan, answers.as_bytes(), &mut shown, true).expect("it ends");
        prop_assert_eq!(mended, None, "{}", String::from_utf8_lossy(&shown));
    }
}

/// Enough of the random plans are sound, as one in two: else the laws would say little.
#[test]
fn half_of_the_random_plans_are_sound() {
    let mut runner = TestRunner::deterministic();
    let sound = (0..200).filter(|_| {
        let plan = plan().new_tree(&mut runner).expect("a plan").current();
        scenario_text(&plan).is_ok()
    });
    let sound = sound.count();
    assert!(sound > 100, "{sound} of 200");
}
