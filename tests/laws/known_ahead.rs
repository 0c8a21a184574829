//! What the engine knows ahead, or works out the short way, gives the bits of the plain way.
//!
//! While the story of a run is told the engine goes event by event and works out every flow in full;
//! else it takes what short ways a plan allows. Random plans seldom allow them all, so each plan is also
//! tried with what stands in their way taken out, a part at a time.

use proptest::strategy::{Strategy, ValueTree};
use proptest::test_runner::TestRunner;
use shuttle_sim::{DumpCurve, FillOrder, Luck, PlanDraft, Shuttle, TimeTaken};

use crate::random_plan::{drafts, plan};

const PLANS: usize = 1_500;
/// Each of these many drafts must be met, so that no short way goes untested.
const FEWEST: usize = 300;

/// The draft without what the bits of `parts` name.
fn plainer(draft: &PlanDraft, parts: u32) -> PlanDraft {
    let mut draft = draft.clone();
    if parts & 1 != 0 {
        draft.one_lanes.clear();
        draft.fill_sites.iter_mut().for_each(|site| (site.volume, site.recharge) = (None, 0.0));
    }
    if parts & 2 != 0 {
        draft.drop_tanks.truncate(1);
        draft.drop_tanks.iter_mut().for_each(|tank| tank.dump_positions = 1);
        draft.tankers.iter_mut().for_each(|tanker| tanker.dump_curve = DumpCurve::Steady);
    }
    if parts & 4 != 0 {
        draft.fill_sites.iter_mut().for_each(|site| site.positions = 1);
        draft.tankers.iter_mut().for_each(|tanker| tanker.fill_site = Some(0));
    }
    if parts & 8 != 0 && !draft.drop_tanks.is_empty() {
        draft.supply.nurse = false;
    }
    if parts & 16 != 0 {
        // The pump waits until the drop tank is full.
        draft.supply.restart_level = draft.drop_tanks.first().map(|tank| tank.capacity);
    }
    draft
}

/// The draft with every time and amount in round numbers, so that much happens at one instant and levels
/// meet their bounds just then.
fn rounded(draft: &PlanDraft) -> PlanDraft {
    let time = |time: &TimeTaken, least: f64| {
        TimeTaken::Fixed(((2.0 * time.mean()).round() / 2.0).max(least))
    };
    let amount = |gallons: f64| ((gallons / 500.0).round() * 500.0).max(500.0);
    let mut draft = draft.clone();
    draft.attack_engine.tank = amount(draft.attack_engine.tank);
    draft.attack_engine.call.response = time(&draft.attack_engine.call.response, 0.0);
    draft.attack_engine.water_on = time(&draft.attack_engine.water_on, 0.0);
    draft.incident.reserve = 0.0;
    draft.incident.attack_flow.iter_mut().for_each(|step| step.flow = amount(step.flow));
    draft.supply.reprime = time(&draft.supply.reprime, 0.0);
    draft.supply.setup = time(&draft.supply.setup, 0.0);
    draft.supply.restart_level = None;
    for tank in &mut draft.drop_tanks {
        (tank.capacity, tank.unusable) = (amount(tank.capacity), 0.0);
        tank.setup = time(&tank.setup, 0.0);
    }
    for tanker in &mut draft.tankers {
        tanker.call.requested_at = 0.0;
        tanker.call.response = time(&tanker.call.response, 0.0);
        (tanker.capacity, tanker.waste, tanker.residual) = (amount(tanker.capacity), 0.0, 0.0);
        (tanker.dump_rate, tanker.fill_limit) =
            (amount(tanker.dump_rate), amount(tanker.fill_limit));
        let handling = &mut tanker.handling;
        for taken in [
            &mut handling.dump_position,
            &mut handling.dump_clear,
            &mut handling.fill_connect,
            &mut handling.fill_disconnect,
            &mut handling.nurse_connect,
            &mut handling.nurse_disconnect,
        ] {
            *taken = time(taken, 0.0);
        }
    }
    for site in &mut draft.fill_sites {
        site.flow = amount(site.flow);
        site.ready = time(&site.ready, 0.0);
        site.out.time = time(&site.out.time, 0.5);
        site.back.time = time(&site.back.time, 0.5);
    }
    draft
}

/// Whether visits to some fill site are known when a tanker comes.
fn knows_visits(draft: &PlanDraft) -> bool {
    let most = draft.tankers.iter().map(|tanker| tanker.fill_limit).fold(0.0, f64::max);
    draft.one_lanes.is_empty()
        && draft.fill_sites.iter().any(|site| {
            let each_its_own = site.fill_order == FillOrder::Shared
                && most <= site.flow / f64::from(site.positions);
            site.volume.is_none() && (site.positions == 1 || each_its_own)
        })
}

/// Whether pulling clear is known when a load is gone.
fn knows_clearing(draft: &PlanDraft) -> bool {
    draft.one_lanes.is_empty()
        && draft.drop_tanks.len() == 1
        && draft.drop_tanks[0].dump_positions == 1
        && draft.tankers.iter().all(|tanker| tanker.fill_site.is_some())
}

/// Whether loads may be taken whole.
fn knows_loads(draft: &PlanDraft) -> bool {
    let all_endless = draft.fill_sites.iter().all(|site| site.volume.is_none());
    let one_position = draft.fill_sites.iter().all(|site| site.positions == 1);
    knows_clearing(draft) && is_steady(draft) && all_endless && one_position
}

/// Whether every flow is steady while nobody nurses.
fn is_steady(draft: &PlanDraft) -> bool {
    draft.drop_tanks.len() == 1
        && draft.tankers.iter().all(|tanker| tanker.dump_curve == DumpCurve::Steady)
}

/// The draft with its watch ended at the very moment of something that happens.
fn endings(draft: &PlanDraft) -> Vec<PlanDraft> {
    let (result, trace) = Shuttle::new(&plan(draft)).run_traced(Luck::Planned);
    let moments = trace.course.iter().map(|(minute, _)| minute - result.first_water);
    let within = moments.filter(|minutes| *minutes > 1.0 && *minutes < draft.incident.duration);
    within
        .map(|duration| {
            let mut draft = draft.clone();
            draft.incident.duration = duration;
            draft.incident.attack_flow.retain(|step| step.from < duration);
            draft
        })
        .collect()
}

fn assert_same_bits(draft: &PlanDraft, what: &str) {
    let mut shuttle = Shuttle::new(&plan(draft));
    // Levels are noted minute by minute, which must not change what happens.
    let mut bare = Shuttle::new(&plan(draft));
    bare.keep_levels(false);
    for luck in [0, 1, 2].map(|run| match run {
        0 => Luck::Planned,
        replication => Luck::Drawn { seed: 1, replication },
    }) {
        let short = format!("{:?}", shuttle.run(luck));
        let mut plain = shuttle.run_traced(luck).0;
        assert_eq!(short, format!("{plain:?}"), "{what}, {luck:?}");
        plain.levels.clear();
        assert_eq!(format!("{:?}", bare.run(luck)), format!("{plain:?}"), "{what}, {luck:?}, bare");
    }
}

#[test]
fn short_ways_give_the_bits_of_the_plain_way() {
    let mut runner = TestRunner::deterministic();
    let (mut visits, mut clearings, mut steady, mut loads) = (0, 0, 0, 0);
    for place in 0..PLANS {
        let thrown = drafts().new_tree(&mut runner).expect("a plan").current();
        for parts in [0, 1, 3, 7, 11, 15, 31] {
            let draft = plainer(&thrown, parts);
            visits += usize::from(knows_visits(&draft));
            clearings += usize::from(knows_clearing(&draft));
            steady += usize::from(is_steady(&draft));
            assert_same_bits(&draft, &format!("plan {place} without parts {parts}"));
            loads += usize::from(knows_loads(&draft));
            if matches!(parts, 0 | 7 | 15) {
                let what = format!("plan {place} without parts {parts}, rounded");
                assert_same_bits(&rounded(&draft), &what);
            }
            if parts == 15 && place % 5 == 0 {
                for ending in endings(&draft) {
                    assert_same_bits(&ending, &format!("plan {place}, ended at an event"));
                }
            }
        }
    }
    for (what, met) in [
        ("visits", visits),
        ("clearing", clearings),
        ("steady flows", steady),
        ("whole loads", loads),
    ] {
        assert!(met >= FEWEST, "{what} known ahead in {met} drafts alone");
    }
}
