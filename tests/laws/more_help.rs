//! More help never hurts, on the same luck, where the model guarantees it. Where it does not, see
//! [`crate::help_that_hurts`].
//!
//! All laws here need a scene that does not act back on the tankers and a pump that, once primed,
//! stays so: no nursing, one drop tank that at every moment has room for every load there is, and the
//! operator gates down at low water. Then the line is served from its head by free positions alone
//! (rule 4: the drop tank takes any whole load), a dump takes as long as the tanker's own rate asks, and
//! nobody breaks off or pulls clear with a rest. So when a tanker comes, dumps and goes depends on the
//! other tankers and the road, never on the draft or the lines. Let A(t) be what has been dumped by t, S(t) what has left the draft, D(t) what the lines got, w
//! what they want, C the engine's tank. The scene lets as much through at every moment as these allow:
//!
//! - S grows by at most min(draft limit, w + refill), and not before the first tank holds the restart
//!   level and the draft is hooked up;
//! - S <= A less the unusable water; S less the lay's volume <= D (the engine's tank is no more than
//!   full; it starts full);
//! - D grows by at most w; D <= S less the lay's volume (or 0) + C.
//!
//! Each bound on one of S and D grows with the other, so doing as much as possible at every moment
//! gives the largest S and D that obey them all; and what eases a bound (more A at every moment, an
//! earlier prime, a larger refill, limit or C) gives at least as much D at every moment. The gallons
//! unmet, the integral of w less D, are then no more, and a run without a shortfall stays one. Minutes
//! short may still grow: water that came through earlier is not there later.

use crate::of_one_run::{ROUNDING, lucks, run_to_its_end};
use crate::random_plan::{drafts, plan};
use proptest::prelude::*;
use shuttle_sim::{
    Brought, Call, DropTank, FillOrder, LowWater, Luck, PlanDraft, RunResult, Tanker, TimeTaken,
    Trace,
};

/// Plans tried by each law.
pub const PLANS: u32 = 1_000;
/// The largest that a plan may state, so that few runs fill it, gal.
const AMPLE: f64 = 50_000.0;

fn config() -> ProptestConfig {
    ProptestConfig {
        cases: PLANS,
        failure_persistence: None,
        rng_seed: proptest::test_runner::RngSeed::Fixed(2),
        max_shrink_iters: 2_000,
        ..ProptestConfig::default()
    }
}

/// A plan whose scene does not act back on its tankers.
fn one_way(draft: &PlanDraft) -> PlanDraft {
    let mut draft = draft.clone();
    draft.supply.nurse = false;
    draft.supply.low_water = LowWater::Throttle;
    // A pump that fails must be primed again only if it was primed before: who is slow may save that time.
    draft.supply.failure = None;
    if draft.drop_tanks.is_empty() {
        draft.drop_tanks.push(DropTank {
            listed: 0,
            capacity: AMPLE,
            unusable: 100.0,
            brought: Brought::Itself(Call::sure(0.0, TimeTaken::Fixed(5.0))),
            setup: TimeTaken::NONE,
            dump_positions: 2,
            transfer: 500.0,
        });
    }
    draft.drop_tanks.truncate(1);
    draft.drop_tanks[0].capacity = AMPLE;
    draft
}

/// The same where no tanker shares a place, a flow, a road or the last of a pond with another.
fn no_place_shared(draft: &PlanDraft) -> PlanDraft {
    let mut draft = one_way(draft);
    draft.drop_tanks[0].dump_positions = 100;
    draft.one_lanes.clear();
    for site in &mut draft.fill_sites {
        site.positions = 100;
        site.fill_order = FillOrder::Shared;
        site.flow = 100_000.0;
        (site.volume, site.recharge) = (None, 0.0);
    }
    for tanker in &mut draft.tankers {
        tanker.fill_site = Some(tanker.fill_site.unwrap_or(0));
    }
    draft
}

/// The same with a single position at either end, one tanker after the other.
fn one_place_each(draft: &PlanDraft) -> PlanDraft {
    let mut draft = draft.clone();
    draft.drop_tanks[0].dump_positions = 1;
    draft.fill_sites.iter_mut().for_each(|site| site.positions = 1);
    draft
}

fn with_one_more(draft: &PlanDraft, like: &PlanDraft) -> PlanDraft {
    let mut more = draft.clone();
    let mut extra = like.tankers[0].clone();
    extra.name = "One more".to_string();
    extra.listed = more.tankers.len();
    extra.fill_site = Some(extra.fill_site.unwrap_or(0).min(more.fill_sites.len() - 1));
    more.tankers.push(extra);
    more
}

/// Every tanker in everything a little quicker: each load then comes no later than it did.
fn quicker(draft: &PlanDraft, to: f64) -> PlanDraft {
    let mut quicker = draft.clone();
    for tanker in &mut quicker.tankers {
        let handling = &mut tanker.handling;
        for time in [
            &mut tanker.call.response,
            &mut handling.dump_position,
            &mut handling.dump_clear,
            &mut handling.fill_connect,
            &mut handling.fill_disconnect,
        ] {
            *time = time.scaled(to);
        }
        tanker.repair = tanker.repair.as_ref().map(|time| time.scaled(to));
        tanker.dump_rate /= to;
        tanker.fill_limit = tanker.fill_limit.map(|limit| limit / to);
    }
    for site in &mut quicker.fill_sites {
        for time in [&mut site.ready, &mut site.out.time, &mut site.back.time] {
            *time = time.scaled(to);
        }
    }
    let tank = &mut quicker.drop_tanks[0];
    tank.setup = tank.setup.scaled(to);
    quicker
}

/// Something that eases the way from the drop tank to the lines. Not an earlier supply engine: it may
/// bring the drop tank, and then the tankers come and go at other times.
fn eased(draft: &PlanDraft, what: usize, by: f64) -> PlanDraft {
    let mut eased = draft.clone();
    let supply = &mut eased.supply;
    match what {
        0 => eased.attack_engine.tank *= by,
        1 => eased.attack_engine.tank_refill = 50.0 + by * eased.attack_engine.tank_refill,
        2 => supply.draft_limits.iter_mut().for_each(|limit| limit.flow *= by),
        3 => {
            supply.setup = supply.setup.scaled(1.0 / by);
            if let Some(engine) = &mut supply.engine {
                engine.setup = engine.setup.scaled(1.0 / by);
            }
        }
        _ => supply.restart_level = Some(eased.drop_tanks[0].unusable + 2.0),
    }
    eased
}

/// The lines want less at every moment.
fn wanting_less(draft: &PlanDraft, shares: [f64; 3]) -> PlanDraft {
    let mut less = draft.clone();
    for (step, share) in less.incident.attack_flow.iter_mut().zip(shares.iter().cycle()) {
        step.flow *= share;
    }
    less
}

fn unmet(run: &RunResult) -> f64 {
    run.unmet.iter().sum()
}

/// Whether the drop tank may have lacked room for a load: all of them are never there at once.
fn may_have_lacked_room(draft: &PlanDraft, trace: &Trace) -> bool {
    let loads: f64 = draft.tankers.iter().map(Tanker::load).sum();
    trace.course.iter().any(|(_, levels)| levels[0] + loads > AMPLE)
}

/// What is wrong with the second run, had with more help than the first.
pub fn harm(before: &RunResult, after: &RunResult) -> Option<String> {
    let (least, most) = (unmet(before), unmet(after));
    (most > least + ROUNDING).then(|| format!("{least} gal unmet, with more help {most}"))
}

/// Both plans run on one luck; `None` where a drop tank may have lacked room, so that the law does not speak.
fn both(one: &PlanDraft, other: &PlanDraft, luck: Luck) -> Option<(RunResult, RunResult)> {
    let (before, story) = run_to_its_end(&plan(one), luck);
    let (after, other_story) = run_to_its_end(&plan(other), luck);
    let lacked = may_have_lacked_room(one, &story) || may_have_lacked_room(other, &other_story);
    (!lacked).then_some((before, after))
}

proptest! {
    #![proptest_config(config())]

    /// Each goes to its own fill site and finds a free place everywhere, so the tankers that were there come
    /// and go as before, and A grows by what the added one dumps.
    #[test]
    fn an_added_tanker_that_shares_no_place_leaves_no_more_unmet(
        draft in drafts(),
        like in drafts(),
        luck in lucks(),
    ) {
        let draft = no_place_shared(&draft);
        if let Some((before, after)) = both(&draft, &with_one_more(&draft, &like), luck) {
            prop_assert_eq!(harm(&before, &after), None);
        }
    }

    /// The same draws take shorter, and nobody waits for anybody: every load comes no later.
    #[test]
    fn quicker_tankers_that_share_no_place_leave_no_more_unmet(
        draft in drafts(),
        to in 0.3..1.0f64,
        luck in lucks(),
    ) {
        let draft = no_place_shared(&draft);
        if let Some((before, after)) = both(&draft, &quicker(&draft, to), luck) {
            prop_assert_eq!(harm(&before, &after), None);
        }
    }

    /// With a place for each nobody waits, so every load comes as early as road and handling let it, and no
    /// plan brings it earlier. (One place more is another matter: who comes earlier for it may now come
    /// before somebody else, and hold that one up.)
    #[test]
    fn a_place_for_everyone_leaves_no_more_unmet(draft in drafts(), luck in lucks()) {
        let enough = no_place_shared(&draft);
        if let Some((before, after)) = both(&one_place_each(&enough), &enough, luck) {
            prop_assert_eq!(harm(&before, &after), None);
        }
    }

    /// The tankers may queue for what they like: A is the same, and a bound on S or D is eased.
    #[test]
    fn an_easier_way_to_the_lines_leaves_no_more_unmet(
        draft in drafts(),
        what in 0..5usize,
        by in 1.0..3.0f64,
        luck in lucks(),
    ) {
        let draft = one_way(&draft);
        if let Some((before, after)) = both(&draft, &eased(&draft, what, by), luck) {
            prop_assert_eq!(harm(&before, &after), None);
        }
    }

    /// A and the prime are the same. While less is wanted, S is no more than it was: while the tank
    /// has water the draft takes less, and the drop tank never has less in it. Nor has the engine's
    /// tank: with water in the drop tank its net inflow min(limit - w, refill) is no less, and the
    /// drop tank is empty only where the other was. So whenever the lines are short, they were, by
    /// as much: minutes short are no more either.
    #[test]
    fn a_smaller_attack_flow_leaves_no_more_unmet_and_no_more_minutes_short(
        draft in drafts(),
        shares in prop::array::uniform3(0.1..1.0f64),
        luck in lucks(),
    ) {
        let mut draft = one_way(&draft);
        // A dry lay fills at the rate the engine would take, so with less wanted it fills later, and
        // the minutes short may grow.
        draft.supply.lay_volume = 0.0;
        if let Some((before, after)) = both(&draft, &wanting_less(&draft, shares), luck) {
            prop_assert_eq!(harm(&before, &after), None);
            let (least, most) = (minutes_short(&before), minutes_short(&after));
            prop_assert!(most <= least + 1e-6, "{} min short, with less wanted {}", least, most);
        }
    }
}

fn minutes_short(run: &RunResult) -> f64 {
    run.minutes_short.iter().sum()
}

/// The laws are no use if they hardly ever speak, or of runs that lack nothing.
#[test]
fn the_laws_of_help_speak_of_many_runs_in_which_water_is_short() {
    use proptest::strategy::ValueTree;
    let mut runner = proptest::test_runner::TestRunner::deterministic();
    let (mut spoken_of, mut short, mut helped) = (0, 0, 0);
    for replication in 0..300 {
        let mut draw = || drafts().new_tree(&mut runner).unwrap().current();
        let (draft, like) = (no_place_shared(&draw()), draw());
        let luck = Luck::Drawn { seed: 1, replication };
        if let Some((before, after)) = both(&draft, &with_one_more(&draft, &like), luck) {
            spoken_of += 1;
            short += usize::from(unmet(&before) > 1.0);
            helped += usize::from(unmet(&after) < unmet(&before) - 1.0);
        }
    }
    assert!(spoken_of > 200 && short > 100 && helped > 100, "{spoken_of}, {short}, {helped}");
}

/// The comparison finds harm: the runs the other way round.
#[test]
fn a_tanker_taken_away_is_told_as_harm() {
    use proptest::strategy::ValueTree;
    let mut runner = proptest::test_runner::TestRunner::deterministic();
    let mut told = 0;
    for replication in 0..100 {
        let mut draw = || drafts().new_tree(&mut runner).unwrap().current();
        let (draft, like) = (no_place_shared(&draw()), draw());
        let luck = Luck::Drawn { seed: 1, replication };
        if let Some((without, with)) = both(&draft, &with_one_more(&draft, &like), luck) {
            told += usize::from(harm(&with, &without).is_some());
        }
    }
    assert!(told > 30, "{told}");
}

/// The laws need their conditions: in plans at random as they are, an added tanker now and then does
/// harm, and the comparison tells of it.
#[test]
fn without_the_conditions_an_added_tanker_now_and_then_does_harm() {
    use proptest::strategy::ValueTree;
    let mut runner = proptest::test_runner::TestRunner::deterministic();
    let (mut told, plans) = (0, 1_000);
    for replication in 0..plans {
        let mut draw = || drafts().new_tree(&mut runner).unwrap().current();
        let (draft, like) = (draw(), draw());
        let luck = Luck::Drawn { seed: 1, replication };
        let before = run_to_its_end(&plan(&draft), luck).0;
        let after = run_to_its_end(&plan(&with_one_more(&draft, &like)), luck).0;
        told += usize::from(harm(&before, &after).is_some());
    }

    assert!(told >= 10, "{told} of {plans}");
}
