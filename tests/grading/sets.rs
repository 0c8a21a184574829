//! Sets of fill sites by hand: the case worked by hand, every assignment of small random sets weighed one by one,
//! and that a site more never takes anything away.

use proptest::prelude::*;
use shuttle_report::site_sets::{Graded, Travel};
use shuttle_report::survey::{Aid, SiteSurvey, Survey, TankerSurvey};
use shuttle_report::weighed_sets::weigh;
use shuttle_report::worksheet::assignment::{Shuttling, SiteBound, SiteLimit, Turn};
use shuttle_report::worksheet::unloading::{Unloaded, Unloading};
use shuttle_report::worksheet::worksheet;
use shuttle_sim::{FillSite, Leg, Plan};

use super::best_sets::addresses;
use super::common::world::{World, fixed, road};
use super::{TWO_HOURS, by_rule, graded, graded_with, leg, roomy};
use shuttle_report::district::{Fails, Place};
use shuttle_report::grade::Verdict;
use shuttle_report::grading_rules::{GradingRule, RULES};

/// Five tankers of 2,500 gal: at site A a cycle of 16 minutes, at site B of 24, at either 4 minutes at its one fill
/// position.
pub fn five_at_two_sites() -> World {
    let world = World::new()
        .pond(|site| {
            site.name = "A".to_owned();
            site.flow = 625.0;
            (site.out, site.back) = (road(5.0), road(5.0));
        })
        .fill_site_with("B", 9.0, 9.0, |site| {
            site.flow = 625.0;
            site.positions = 1;
        })
        .first_tank(|tank| tank.dump_positions = 100);
    (1..=5).fold(world, |world, n| {
        world.tanker_with(&format!("Tanker {n}"), 2_500.0, 0.0, |tanker| {
            tanker.fill_limit = Some(625.0);
            tanker.dump_rate = 1_250.0;
        })
    })
}

/// All at A: 5 x 140.6 x 0.8 = 562.5; four at A and one at B: 562.5 + 93.75 = 656 (derived from the rate's own
/// terms); not 703, the sum without the position at A.
#[test]
fn five_tankers_at_two_sites_are_worth_656_and_not_703() {
    let plan = five_at_two_sites().plan();
    let sheet = worksheet(&plan);
    assert!((sheet.passes_gpm - 656.25).abs() < 1e-9, "{}", sheet.passes_gpm);
    assert!((sheet.counts().0 - 656.25).abs() < 1e-9 && sheet.exact);
    let at: Vec<usize> = sheet.site_credits.iter().map(|site| site.tankers).collect();
    assert_eq!(at, [4, 1]);
    let answer = graded(&plan, &RULES[1], 10.0);
    let counts = |sites: &[&str]| {
        (answer.ranked.iter().find(|one| one.sites == sites)).expect("the set").counts_gpm()
    };
    // Minutes by hand: 4 at the fill position, 10 or 18 on the road, 2 to dump.
    assert!((counts(&["A"]) - 5.0 * 2_250.0 / 16.0 * 0.8).abs() < 1e-9);
    assert!((counts(&["B"]) - 5.0 * 2_250.0 / 24.0).abs() < 1e-9);
    assert!((counts(&["A", "B"]) - 656.25).abs() < 1e-9);
}

/// A 20,000-gal cistern over two hours passes no more than 167 gpm, one of 24,000 gal 200, one of 30,000 gal 250
/// (derived). 250 gpm hold at all of them with what the tanks bring full once, 15,300 gal; only the last is credited.
#[test]
fn a_cistern_passes_its_quantity_over_the_rule_s_time() {
    let with = |gallons: f64| {
        let world = roomy().pond(|site| {
            site.volume = Some(gallons);
            (site.out, site.back) = (leg(0.5, 0.0), leg(0.5, 0.0));
        });
        (1..=5).fold(world, |world, n| world.tanker(&format!("Tanker {n}"), 3_000.0, 0.0)).plan()
    };
    for (gallons, gpm, on_first_loads) in
        [(20_000.0, 167.0, true), (24_000.0, 200.0, true), (30_000.0, 250.0, false)]
    {
        let answer = graded(&with(gallons), TWO_HOURS, 10.0);
        let result = &answer.ranked[0].results[0];
        assert_eq!(result.hand.counts_gpm.round(), gpm, "{gallons} gal");
        assert_eq!(result.hand.sites[0].credit.bound, SiteBound::Quantity);
        assert_eq!(result.tightest.clone().expect("a cap").1.round(), gpm);
        assert_eq!(result.minimum_above_cap, on_first_loads, "{gallons} gal");
        assert_eq!(result.flow, Verdict::Pass, "{gallons} gal");
        assert_eq!(result.verdict == Verdict::Pass, !on_first_loads, "{gallons} gal");
        // And so in the row of an address, where nothing needs to be simulated for it.
        let place = Place {
            name: "x".to_owned(),
            everyone: with(gallons).facts().clone(),
            survey: Survey::default(),
        };
        let row = &addresses(&[place], std::slice::from_ref(TWO_HOURS))[0].results[0];
        let too_little = row.fails.iter().any(|fails| matches!(fails, Fails::ByHand(_)));
        assert_eq!((row.verdict == Verdict::Pass, too_little), (!on_first_loads, on_first_loads));
    }
    // The worksheet of `check` takes the time watched, here 60 minutes: twice as much.
    let sheet = worksheet(&with(20_000.0));
    assert_eq!(sheet.passes_gpm.round(), 333.0);
    assert_eq!(sheet.counts().0.round(), 333.0);
    // It holds no more than it has, with the tanks that come full: 20,000 + 5 x 3,000 + 300 gal in 130 minutes.
    let held = graded(&with(20_000.0), TWO_HOURS, 10.0).ranked[0].results[0].held_gpm;
    assert!(held.expect("some flow") <= (20_000.0 + 15_000.0 + 300.0) / 120.0, "{held:?}");
}

fn any_limit() -> impl Strategy<Value = SiteLimit> {
    (1_u32..=2, 100.0..900.0_f64, prop_oneof![Just(f64::INFINITY), 50.0..600.0_f64]).prop_map(
        |(positions, flow_gpm, quantity_gpm)| SiteLimit {
            positions: f64::from(positions),
            flow_gpm,
            quantity_gpm,
        },
    )
}

fn any_turn() -> impl Strategy<Value = Turn> {
    (20.0..250.0_f64, 0.05..0.9_f64).prop_map(|(rate_gpm, busy)| Turn { rate_gpm, busy })
}

fn any_shuttling(tankers: usize, sites: usize) -> impl Strategy<Value = Shuttling> {
    (1..=sites).prop_flat_map(move |sites| {
        let turns = prop::collection::vec(any_turn(), sites);
        (
            prop::collection::vec(any_limit(), sites),
            prop::collection::vec(turns, 1..=tankers),
            // Some tankers are alike: they are counted once by the search and must not be by this test.
            0..3_usize,
            prop::collection::vec((500.0..3_000.0_f64, 1.0..15.0_f64), tankers),
            0..3_u8,
        )
            .prop_map(|(sites, mut turns, alike, loads, scene)| {
                for place in 1..turns.len().min(alike + 1) {
                    turns[place] = turns[0].clone();
                }
                let load = |(gallons, minutes)| Unloaded { gallons, minutes };
                let loads = loads.into_iter().take(turns.len()).map(load).collect();
                let unloading = Unloading { positions: 1.0, draft_gpm: f64::INFINITY, loads };
                Shuttling {
                    sites,
                    turns,
                    scene: (scene == 2).then_some(unloading),
                    may_stand: scene > 0,
                }
            })
    })
}

/// What an assignment passes, written from the rule's words and nothing else.
fn passed(all: &Shuttling, site_of: &[Option<usize>]) -> f64 {
    (0..all.sites.len())
        .map(|site| {
            let limit = &all.sites[site];
            let here = || (0..site_of.len()).filter(|tanker| site_of[*tanker] == Some(site));
            let made: f64 = here().map(|tanker| all.turns[tanker][site].rate_gpm).sum();
            let busy: f64 = here().map(|tanker| all.turns[tanker][site].busy).sum();
            let share = if busy > 0.0 { (limit.positions / busy).min(1.0) } else { 1.0 };
            (made * share).min(limit.flow_gpm).min(limit.quantity_gpm)
        })
        .sum()
}

/// Every assignment of all tankers to these sites, one by one.
fn best_of_all(all: &Shuttling, set: &[usize]) -> f64 {
    let tankers = all.turns.len();
    // Behind the sites a place to stand.
    let choices = set.len() + usize::from(all.may_stand);
    let many = choices.pow(tankers as u32);
    (0..many)
        .map(|number| {
            let site_of: Vec<Option<usize>> = (0..tankers)
                .scan(number, |rest, _| {
                    let site = set.get(*rest % choices).copied();
                    *rest /= choices;
                    Some(site)
                })
                .collect();
            let scene = all.scene.as_ref().map_or(f64::INFINITY, |scene| {
                let driving = || (0..tankers).filter(|tanker| site_of[*tanker].is_some());
                let gallons: f64 = driving().map(|tanker| scene.loads[tanker].gallons).sum();
                let minutes: f64 = driving().map(|tanker| scene.loads[tanker].minutes).sum();
                scene.positions * gallons / minutes
            });
            passed(all, &site_of).min(if scene.is_nan() { 0.0 } else { scene })
        })
        .fold(0.0, f64::max)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn the_best_assignment_is_the_best_of_all(all in any_shuttling(5, 4)) {
        let set: Vec<usize> = (0..all.sites.len()).collect();
        let best = all.best(&set, &[], &[]);
        let known = best_of_all(&all, &set);
        prop_assert!(best.exact);
        prop_assert!((best.gpm - known).abs() < 1e-6, "{} found, {known} there is", best.gpm);
        prop_assert!(passed(&all, &best.site_of) > best.gpm - 1e-6);
    }

    /// With many tankers the larger sets are searched, not weighed in full: a site more must not lose there either.
    #[test]
    fn a_site_more_is_never_worth_less(all in any_shuttling(13, 6)) {
        let sites: Vec<usize> = (0..all.sites.len()).collect();
        let weighed = weigh(&all, &sites);
        prop_assert!(weighed.all_up_to_three);
        for (set, best) in &weighed.sets {
            for (other, less) in &weighed.sets {
                if other.iter().all(|site| set.contains(site)) {
                    prop_assert!(
                        best.gpm >= less.gpm - 1e-9,
                        "{set:?} {} after {other:?} {}", best.gpm, less.gpm,
                    );
                }
            }
        }
    }
}

/// Sets are every site alone, every pair, every three and all: 23 sites make 23 + 253 + 1,771 + 1 of them.
#[test]
fn every_pair_and_every_three_are_weighed_up_to_a_stated_count() {
    let with = |sites: usize| {
        let limit = SiteLimit { positions: 1.0, flow_gpm: 500.0, quantity_gpm: f64::INFINITY };
        let turn = |site: usize| Turn { rate_gpm: 100.0 - site as f64, busy: 0.3 };
        let all = Shuttling {
            sites: vec![limit; sites],
            turns: vec![(0..sites).map(turn).collect(); 4],
            scene: None,
            may_stand: false,
        };
        weigh(&all, &(0..sites).collect::<Vec<_>>())
    };
    let many = with(23);
    assert_eq!((many.sets.len(), many.all_up_to_three), (23 + 253 + 1_771 + 1, true));
    let more = with(40);
    assert!(!more.all_up_to_three, "and it says so");
    // Four tankers, each at a site of its own or two to one site: the best two sites are found all the same.
    let best = |weighed: &shuttle_report::weighed_sets::Weighed| {
        weighed.sets.iter().map(|(_, best)| best.gpm).fold(0.0, f64::max)
    };
    assert!((best(&more) - best(&many)).abs() < 1e-9);
}

/// The same with the flow that holds: a pond added far away is left unused where it takes tankers from a better
/// place, and its distance from the fire is no matter (ISO water supply evaluation pages, seen).
#[test]
fn a_far_pond_more_never_makes_a_set_fail_or_hold_less() {
    let near = roomy().pond(|site| {
        site.positions = 1;
        site.flow = 900.0;
        (site.out, site.back) = (leg(1.0, 0.1), leg(1.0, 0.1));
    });
    let near = (1..=4).fold(near, |world, n| world.tanker(&format!("Tanker {n}"), 2_500.0, 0.0));
    let both = near.clone().fill_site_with("Far pond", 0.0, 0.0, |site| {
        site.positions = 2;
        (site.out, site.back) = (leg(9.0, 0.1), leg(9.0, 0.1));
    });
    let alone = graded(&near.plan(), TWO_HOURS, 10.0).ranked[0].clone();
    let answer = graded(&both.plan(), TWO_HOURS, 10.0);
    let set = answer.ranked.iter().find(|one| one.sites.len() == 2).expect("the pair");
    let pond = answer.ranked.iter().find(|one| one.sites == ["Pond"]).expect("the pond alone");
    assert_eq!(alone.results[0].verdict, Verdict::Pass);
    assert_eq!(set.results[0].verdict, Verdict::Pass);
    assert!(set.results[0].held_gpm >= pond.results[0].held_gpm);
    assert!(set.counts_gpm() >= pond.counts_gpm() - 1e-9);
}

/// Travel by stated speeds beside 0.65 + 1.70 x miles for each leg (RAND travel time, ISO rating schedule, seen):
/// 2,500 gal at 2 miles, 2.5 minutes to fill and to dump, at 60 mph 2 minutes a leg, by the rule 4.05.
#[test]
fn the_credit_stands_by_stated_speeds_and_by_the_travel_rule() {
    let at_speed = Leg { miles: Some(2.0), time: fixed(2.0) };
    let world = roomy().pond(|site| (site.out, site.back) = (at_speed.clone(), at_speed.clone()));
    let hand = |world: World| {
        let plan = world.tanker("Tanker 1", 2_500.0, 0.0).plan();
        graded(&plan, TWO_HOURS, 10.0).ranked[0].results[0].hand.clone()
    };
    let both = hand(world);
    assert!((both.by_speeds_gpm - 2_250.0 / (5.0 + 4.0)).abs() < 1e-9);
    let by_t = both.by_travel_rule_gpm.expect("the distance is stated");
    assert!((by_t - 2_250.0 / (5.0 + 2.0 * 4.05)).abs() < 1e-9, "{by_t}");
    // The body reckons by the rule: the lower is what counts.
    assert!((both.counts_gpm - by_t).abs() < 1e-9 && both.travel == Travel::Rule);
    let road = both.tankers[0].by_travel_rule.expect("the distance is stated").road_min;
    assert!(road.iter().all(|minutes| (minutes - 4.05).abs() < 1e-9), "{road:?}");
    // Slower than the rule, 6 minutes a leg, the speeds stated are the lower; and a body that does not reckon so takes
    // them anyway.
    let slow = Leg { miles: Some(2.0), time: fixed(6.0) };
    let world = roomy().pond(|site| (site.out, site.back) = (slow.clone(), slow.clone()));
    let stated = hand(world);
    assert!((stated.counts_gpm - 2_250.0 / (5.0 + 12.0)).abs() < 1e-9);
    assert_eq!(stated.travel, Travel::Stated);
    let fast = roomy().pond(|site| (site.out, site.back) = (at_speed.clone(), at_speed.clone()));
    let rule = GradingRule { travels_by_rule: false, ..TWO_HOURS.clone() };
    let plan = fast.tanker("Tanker 1", 2_500.0, 0.0).plan();
    let counts = with_survey(&plan, &Survey::default(), &rule).counts_gpm;
    assert!((counts - 2_250.0 / 9.0).abs() < 1e-9, "{counts}");
    assert_eq!(hand(roomy()).by_travel_rule_gpm, None, "no distance, no travel rule");
}

fn with_survey(
    plan: &Plan,
    survey: &Survey,
    rule: &GradingRule,
) -> shuttle_report::site_sets::HandCredit {
    Graded { everyone: plan.facts(), survey, travel_rule: by_rule }.credit(&[0], rule, None)
}

/// A sealed vacuum tank has no 10% off where the rule accepts it (practitioners, informal, seen); the Canadian
/// notices say nothing of it.
#[test]
fn a_sealed_tank_counts_whole_where_the_rule_accepts_it() {
    let plan = roomy().tanker("Sealed", 3_000.0, 0.0).tanker("Open", 3_000.0, 0.0).plan();
    let sealed = TankerSurvey { vacuum: true, ..TankerSurvey::default() };
    let survey = Survey { tankers: vec![sealed, TankerSurvey::default()], ..Survey::default() };
    // Both cycles: 3 + 3 minutes and twice the pond's 5.
    let us = with_survey(&plan, &survey, TWO_HOURS);
    let credits: Vec<f64> = us.tankers.iter().map(|one| one.credit_gpm).collect();
    assert!((credits[0] - 3_000.0 / 16.0).abs() < 1e-9, "{credits:?}");
    assert!((credits[1] - 2_700.0 / 16.0).abs() < 1e-9, "{credits:?}");
    let canada = GradingRule::named("canada-dwelling").expect("the rule");
    let canada = with_survey(&plan, &survey, canada);
    assert!(canada.tankers.iter().all(|one| (one.credit_gpm - 2_700.0 / 16.0).abs() < 1e-9));
}

/// Credit without aid, with automatic aid, with all (automatic aid is included in the credit: ISO water supply
/// evaluation pages, seen): tankers of 1,000, 2,000 and 3,000 gal, 10 minutes on the road, a minute for each
/// 1,000 gal to fill and to dump.
#[test]
fn own_tankers_automatic_aid_and_all_aid_stand_apart() {
    let plan = roomy()
        .tanker("Own", 1_000.0, 0.0)
        .tanker("Automatic", 2_000.0, 0.0)
        .tanker("Mutual", 3_000.0, 0.0)
        .plan();
    let aid = |aid: Aid| TankerSurvey { aid, ..TankerSurvey::default() };
    let survey = Survey {
        tankers: [Aid::Own, Aid::Automatic, Aid::Mutual].map(aid).to_vec(),
        ..Survey::default()
    };
    let hand = with_survey(&plan, &survey, TWO_HOURS);
    let (own, automatic, mutual) = (900.0 / 12.0, 1_800.0 / 14.0, 2_700.0 / 16.0);
    assert!((hand.own_gpm - own).abs() < 1e-9);
    assert!((hand.automatic_gpm - own - automatic).abs() < 1e-9);
    assert!((hand.all_gpm - own - automatic - mutual).abs() < 1e-9);
    assert!((hand.counts_gpm - hand.automatic_gpm).abs() < 1e-9, "mutual aid does not count");
    // A rule that counts own apparatus alone.
    let rule = GradingRule::named("own-30min").expect("the rule");
    assert!((with_survey(&plan, &survey, rule).counts_gpm - own).abs() < 1e-9);
    // And so in the simulation: what holds with the own tanker alone is less than with all three.
    let answer = graded_with(&plan, &survey, TWO_HOURS, 10.0);
    let held: Vec<f64> = answer.held_with.iter().map(|one| one.held_gpm.unwrap_or(0.0)).collect();
    assert_eq!(answer.held_with.iter().map(|one| one.tankers).collect::<Vec<_>>(), [1, 2, 3]);
    assert!(held[0] < held[1] && held[1] < held[2], "{held:?}");
    assert_eq!(answer.ranked[0].results[0].held_gpm, Some(held[1]), "automatic aid counts");
}

/// A source that is stated not to be there all year gives no credit, and a set leaves it unused.
#[test]
fn a_source_that_is_not_credited_is_left_unused() {
    let world = roomy()
        .pond(|site| (site.out, site.back) = (leg(0.5, 0.0), leg(0.5, 0.0)))
        .fill_site_with("River", 0.0, 0.0, |site: &mut FillSite| {
            (site.out, site.back) = (leg(2.0, 0.0), leg(2.0, 0.0));
            site.positions = 8;
            site.flow = 20_000.0;
        });
    let fleet = (1..=3).fold(world, |world, n| world.tanker(&format!("Tanker {n}"), 3_000.0, 0.0));
    let dries_up = SiteSurvey { all_year: Some(false), ..SiteSurvey::default() };
    let survey = Survey { sites: vec![dries_up, SiteSurvey::default()], ..Survey::default() };
    let answer = graded_with(&fleet.plan(), &survey, TWO_HOURS, 10.0);
    let of = |sites: &[&str]| {
        answer.ranked.iter().find(|one| one.sites == sites).expect("the set").results[0].clone()
    };
    let (pond, river, both) = (of(&["Pond"]), of(&["River"]), of(&["Pond", "River"]));
    assert_eq!(
        (pond.verdict, pond.flow, pond.hand.counts_gpm),
        (Verdict::Fail, Verdict::Pass, 0.0)
    );
    assert_eq!((river.verdict, both.verdict), (Verdict::Pass, Verdict::Pass));
    assert_eq!(both.held_with, ["River"]);
    assert!((both.hand.counts_gpm - river.hand.counts_gpm).abs() < 1e-9);
}
