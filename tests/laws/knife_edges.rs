//! No knife edges: where times have the spread they have in life, a size that moves by 1% moves the chance
//! of an interruption by a little.
//!
//! The larger search is `cargo bench -p bucketline-benches --bench knife_edges`, and `benches/HELP.md` tells
//! what it finds: of 21,286 moves on 1,000 plans none by more than 20 of 100, and eight by more than 10, all
//! of them moves of the attack flow. So there is no kind of jump to be left out here. The eight are of three
//! kinds:
//!
//! - over a long watch as much water is hauled as is used: 1% of the flow is some hundred gallons by the end;
//! - the draft carries less than the lines want for a while, and the attack engine's tank just makes up for it;
//! - the flow is just what a nurse pumps off. Only where it is more does a second nurse take a free intake
//!   (rule 2c), and then nobody has to connect when the first is empty: the edge of a rule, kept below.
//!
//! Without spread every run of a plan is the same, its chance is 0 or 100, and somewhere between two sizes
//! it goes from one to the other: that is no fault of a rule, and such plans are not thrown (each length of
//! time of a sane plan has a coefficient of variation of 0.15 to 0.3). One of them shows below that a jump is
//! seen where there is one.

use crate::common::world::{World, fixed};
use bucketline_benches::random::nudges::{JUMP, Jump, Size, jumps, plan_to_nudge};
use shuttle_sim::TimeTaken;

/// Seed of the plans and of the runs: not that of the larger search.
const SEED: u64 = 22;
const PLANS: u64 = 40;
/// With fewer, chance alone moves what is near 20 beyond it.
const RUNS: u64 = 100;

#[test]
fn one_percent_moves_no_chance_by_a_fifth() {
    for number in 0..PLANS {
        let found = jumps(&plan_to_nudge(SEED, number), SEED, 0, RUNS);
        assert!(found.is_empty(), "plan {number}: {found:?}");
    }
}

/// The tanker is back with its second load at 19.90, and what it brought before lasts until 20.02.
fn just_in_time() -> World {
    World::new()
        .watched(25.0)
        .attack_flow(100.0)
        .tolerance(0.0)
        .engine_tank(2.0)
        .restart_level(1.0)
        .throttling()
        .tanker("T1", 2_000.0, 0.0)
        .pond(|site| {
            site.out.time = fixed(7.95);
            site.back.time = fixed(7.95);
        })
}

#[test]
fn without_spread_a_chance_jumps_and_is_seen_to() {
    let moved = |found: &[Jump]| found.iter().map(|jump| (jump.size, jump.to)).collect::<Vec<_>>();
    let found = jumps(just_in_time().draft(), SEED, 0, RUNS);
    assert!(found.iter().all(|jump| jump.by() == 100.0), "{found:?}");
    let seen = [(Size::AttackFlow, 1.01), (Size::Tanker(0), 0.99), (Size::Haul(0), 1.01)];
    assert_eq!(moved(&found), seen);
}

#[test]
fn with_the_usual_spread_the_same_plan_does_not_jump() {
    let spread = just_in_time().pond(|site| {
        for leg in [&mut site.out, &mut site.back] {
            leg.time = TimeTaken::Lognormal { mean: leg.time.mean(), cv: 0.15 };
        }
    });
    let found = jumps(spread.draft(), SEED, 0, RUNS);
    assert!(found.is_empty(), "jumps beyond {JUMP} of 100: {found:?}");
}

/// Two tankers that pump off 400 gpm each, two intakes, and 100 gal to bridge the minute of connecting. For
/// 400 gpm one nurse is enough: the second stays on deck and connects when the first is empty, too late.
/// For 404 gpm both are connected from the start.
#[test]
fn a_flow_just_above_what_a_nurse_pumps_off_fares_better() {
    let two_nurses = World::new()
        .nursing()
        .engine_comes(0.0, 2.0)
        .intakes(2)
        .supply_engine(20.0, 0.0)
        .watched(14.0)
        .attack_flow(400.0)
        .engine_tank(100.0)
        .tanker("T1", 3_000.0, 0.0)
        .tanker("T2", 3_000.0, 0.0)
        .every_tanker(|tanker| tanker.pump_off = 400.0)
        .handling(|handling| handling.nurse_connect = fixed(1.0));
    let found = jumps(two_nurses.draft(), SEED, 0, RUNS);
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!((found[0].size, found[0].to), (Size::AttackFlow, 1.01));
    assert_eq!(found[0].of_100, [100.0, 0.0]);
}
