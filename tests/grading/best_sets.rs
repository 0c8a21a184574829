//! Which set of fill sites is best: with each kind of aid, and under each rule.

use shuttle_report::batch::Control;
use shuttle_report::district::{DistrictQuestion, Place, district};
use shuttle_report::grade::{Verdict, grade};
use shuttle_report::grading_rules::{Condition, GradingRule};
use shuttle_report::site_sets::Graded;
use shuttle_report::survey::{Aid, Survey, TankerSurvey};
use shuttle_sim::Plan;

use super::common::world::World;
use super::sets::five_at_two_sites;
use super::{TWO_HOURS, by_rule, graded_with, leg, question, roomy};

fn whose(aids: &[Aid]) -> Survey {
    let tanker = |aid: &Aid| TankerSurvey { aid: *aid, ..TankerSurvey::default() };
    Survey { tankers: aids.iter().map(tanker).collect(), ..Survey::default() }
}

/// One own tanker of five: at A it makes 2,250 / 16 = 140.6 and is best there alone. With the four of mutual aid the
/// best set is another one, A and B: 562.5 + 93.75 = 656.25 (derived from the rate's own terms), not the 562.5 of A.
#[test]
fn with_each_kind_of_aid_the_best_set_is_its_own() {
    let plan = five_at_two_sites().plan();
    let survey = whose(&[Aid::Own, Aid::Mutual, Aid::Mutual, Aid::Mutual, Aid::Mutual]);
    let answer = graded_with(&plan, &survey, TWO_HOURS, 10.0);
    let [own, automatic, all] = answer.held_with.as_slice() else { panic!("three kinds of aid") };
    assert!((own.credit_gpm - 2_250.0 / 16.0).abs() < 1e-9, "{}", own.credit_gpm);
    assert_eq!(own.credit_with, ["A"]);
    assert!((automatic.credit_gpm - own.credit_gpm).abs() < 1e-9, "nobody comes on automatic aid");
    assert!((all.credit_gpm - 656.25).abs() < 1e-9, "{}", all.credit_gpm);
    assert_eq!(all.credit_with, ["A", "B"]);
    // And so in the row of an address.
    let place = Place { name: "x".to_owned(), everyone: plan.facts().clone(), survey };
    let row = &addresses(&[place], std::slice::from_ref(TWO_HOURS))[0];
    assert!((row.own_gpm - 140.625).abs() < 1e-9 && (row.all_gpm - 656.25).abs() < 1e-9);
}

pub fn addresses(
    places: &[Place],
    rules: &[GradingRule],
) -> Vec<shuttle_report::district::PlaceRow> {
    let question = DistrictQuestion {
        rules: rules.to_vec(),
        share: 0.95,
        most_runs: 2_000,
        seed: 1,
        threads: 2,
        travel_rule: by_rule,
    };
    district(places, &question, &Control::default()).rows
}

/// Two own tankers of 3,000 gal, half a minute of road each way, a minute for 1,000 gal to fill and to dump: cycle 7,
/// 2 x 2,700 / 7 = 771.4 gpm, the one position busy 6/7 of the time. A third on automatic aid, 1,000 gal at 100 gpm:
/// cycle 12, 75 gpm, busy 10/12; with it the position passes 846.4 / 1.690 = 500.7. The tanker boss leaves it to
/// stand, whosever it is: the credit is 771.4, the same wherever it is told.
#[test]
fn who_would_keep_larger_loads_from_the_water_is_left_to_stand_whosever_it_is() {
    let world = roomy().pond(|site| {
        site.positions = 1;
        let road = || shuttle_sim::Leg { miles: None, time: shuttle_sim::TimeTaken::Fixed(0.5) };
        (site.out, site.back) = (road(), road());
    });
    let world = world.tanker("Own 1", 3_000.0, 0.0).tanker("Own 2", 3_000.0, 0.0);
    let plan =
        world.tanker_with("Slow", 1_000.0, 0.0, |tanker| tanker.fill_limit = Some(100.0)).plan();
    let own = 2.0 * 2_700.0 / 7.0;
    for slow in [Aid::Own, Aid::Mutual] {
        let survey = whose(&[Aid::Own, Aid::Own, slow]);
        let place = Graded { everyone: plan.facts(), survey: &survey, travel_rule: by_rule };
        let hand = place.credit(&[0], TWO_HOURS, None);
        for gpm in [hand.counts_gpm, hand.own_gpm, hand.automatic_gpm, hand.all_gpm] {
            assert!((gpm - own).abs() < 1e-6, "{slow:?}: {gpm}, by hand {own}");
        }
    }
    let survey = whose(&[Aid::Own, Aid::Own, Aid::Automatic]);
    let place = Graded { everyone: plan.facts(), survey: &survey, travel_rule: by_rule };
    let hand = place.credit(&[0], TWO_HOURS, None);
    for (what, gpm) in [
        ("counts", hand.counts_gpm),
        ("own", hand.own_gpm),
        ("with automatic aid", hand.automatic_gpm),
        ("with all", hand.all_gpm),
    ] {
        assert!((gpm - own).abs() < 1e-6, "{what}: {gpm}, by hand {own}");
    }
    assert_eq!(hand.stand_by, ["Slow"]);
    assert!(hand.tankers.iter().all(|one| one.name != "Slow"), "it is credited with nothing");
    assert!((hand.made_gpm - own).abs() < 1e-6);
    // It stands in the table of all at the site, with its own cycle: 0.5 + 10 + 0.5 + 1.
    let slow = &place.everyone_at(0, TWO_HOURS)[2];
    assert!((slow.cycle_min - 12.0).abs() < 1e-9 && (slow.credit_gpm - 75.0).abs() < 1e-9);
}

/// A source at 0.7 miles that gives `flow`, and a strong one at 1.4 miles.
fn near_and_far(flow: f64) -> Plan {
    let world: World = roomy()
        .pond(|site| {
            site.flow = flow;
            (site.out, site.back) = (leg(0.7, 0.0), leg(0.7, 0.0));
        })
        .fill_site_with("Far pond", 0.0, 0.0, |site| {
            site.flow = 2_000.0;
            site.positions = 8;
            (site.out, site.back) = (leg(1.4, 0.0), leg(1.4, 0.0));
        });
    (1..=4).fold(world, |world, n| world.tanker(&format!("Tanker {n}"), 3_000.0, 0.0)).plan()
}

fn strict() -> GradingRule {
    let conditions = vec![Condition::SourceWithin(1.0)];
    GradingRule { key: "strict".into(), conditions: conditions.into(), ..TWO_HOURS.clone() }
}

/// Under a rule that wants its sources within a mile nobody fills at 1.4 miles, whatever the set. 100 gpm near by bring
/// 130 x 100 gal, four tanks 12,000 and the engine 300: 25,300 gal, less than 2 hours of 250 gpm.
#[test]
fn a_rule_fills_at_no_source_beyond_its_own_distance() {
    let plan = near_and_far(100.0);
    let answer = graded_with(&plan, &Survey::default(), &strict(), 10.0);
    let pair = answer.ranked.iter().find(|one| one.sites.len() == 2).expect("the pair");
    let result = &pair.results[0];
    assert_eq!(result.held_with, ["Pond"]);
    assert_eq!((result.verdict, result.flow), (Verdict::Fail, Verdict::Fail));
    let place =
        Place { name: "x".to_owned(), everyone: plan.facts().clone(), survey: Survey::default() };
    // Behind a rule under which the far pond is best.
    let row = &addresses(&[place], &[TWO_HOURS.clone(), strict()])[0];
    assert_eq!(row.results[0].verdict, Verdict::Pass);
    assert_eq!(
        (row.results[1].verdict, row.results[1].with.as_slice()),
        (Verdict::Fail, &["Pond".to_owned()][..])
    );
}

/// Each rule has the set that is best under it: the far pond helps under one and does not count under the other.
#[test]
fn each_rule_has_its_own_best_set() {
    let plan = near_and_far(400.0);
    let survey = Survey::default();
    let place = Graded { everyone: plan.facts(), survey: &survey, travel_rule: by_rule };
    let mut question = question(TWO_HOURS, 10.0);
    question.rules.push(strict());
    let answer = grade(&[place], &question, &Control::default());
    let (_, first) = answer.best(0, 0).expect("a set");
    let (set, second) = answer.best(0, 1).expect("a set");
    assert!(first.held_with.iter().any(|site| site == "Far pond"), "{:?}", first.held_with);
    assert_eq!(
        (second.held_with.as_slice(), set.sites.as_slice()),
        (&["Pond".to_owned()][..], &["Pond".to_owned()][..])
    );
    assert_eq!((first.verdict, second.verdict), (Verdict::Pass, Verdict::Pass));
    assert!(first.held_gpm > second.held_gpm);
    assert!(second.hand.counts_gpm <= 400.0, "{}", second.hand.counts_gpm);
}
