//! A fill site whose flow is shared equally does not feel how the other times spread.

use crate::closed_forms::finite_source;
use crate::common::world::{World, fixed};
use crate::measure::{growth, minutes, trips};
use shuttle_sim::{FillOrder, Leg, Luck, Shuttle, TimeTaken};

const LOAD: f64 = 2_000.0;
/// What the site gives, gpm.
const FLOW: f64 = 600.0;
/// One way on the road, minutes.
const ROAD: f64 = 5.0;
/// Pulling clear of the drop tank, minutes; exponential, see [`shuttle`].
const CLEAR: f64 = 2.0;
const DUMP_RATE: f64 = 100_000.0;
const TANKERS: usize = 5;

/// As many positions as tankers; each takes up to `limit` gpm.
///
/// With every time fixed the tankers would go round in one pack for ever, and no theory of chance
/// applies (see the last test). So pulling clear is exponential throughout.
fn shuttle(one_way: TimeTaken, limit: f64) -> World {
    let leg = || Leg { miles: None, time: one_way.clone() };
    let mut world = World::new()
        .attack_flow(100_000.0)
        .tank_refill(0.0)
        .throttling()
        .first_tank(|tank| {
            tank.capacity = 50_000.0;
            tank.dump_positions = 1_000;
        })
        .pond(|site| {
            site.flow = FLOW;
            site.positions = TANKERS as u32;
            site.out = leg();
            site.back = leg();
        });
    for number in 1..=TANKERS {
        world = world.tanker_with(&format!("T{number}"), LOAD, 0.0, |tanker| {
            tanker.fill_limit = Some(limit);
            tanker.dump_rate = DUMP_RATE;
        });
    }
    world.handling(|handling| handling.dump_clear = TimeTaken::Exponential { mean: CLEAR })
}

/// The closed form for equal sharing, of the means alone (Baskett, Chandy, Muntz and Palacios 1975:
/// a processor-sharing station is insensitive; with limits its rate depends on how many share).
fn check(world: &World, limit: f64) -> Result<(), String> {
    let away = 2.0 * ROAD + CLEAR + LOAD / DUMP_RATE;
    let theory = finite_source(TANKERS, away, |there| FLOW.min(there as f64 * limit) / LOAD);
    growth(world, trips, minutes).agrees_with(theory, &format!("up to {limit} gpm each"))
}

fn one_ways() -> [TimeTaken; 4] {
    [
        fixed(ROAD),
        TimeTaken::Uniform { low: 0.5 * ROAD, high: 1.5 * ROAD },
        TimeTaken::Lognormal { mean: ROAD, cv: 0.6 },
        TimeTaken::Exponential { mean: ROAD },
    ]
}

#[test]
fn only_the_means_count_where_the_site_alone_limits() {
    // One tanker alone can take all the site gives: M/M/1//n by the means.
    for one_way in one_ways() {
        check(&shuttle(one_way, 1_000.0), 1_000.0).unwrap();
    }
}

#[test]
fn only_the_means_count_where_two_tankers_are_needed_to_take_all() {
    // Up to 250 gpm each: one gets 250, two 500, three and more share 600.
    for one_way in one_ways() {
        check(&shuttle(one_way, 250.0), 250.0).unwrap();
    }
}

#[test]
fn a_wrong_plan_is_found_out() {
    let longer = shuttle(fixed(ROAD), 1_000.0).every_tanker(|tanker| tanker.capacity = 1.02 * LOAD);
    check(&longer, 1_000.0).unwrap_err();
    // In turn with a fixed load is not insensitive: it does better than sharing.
    let in_turn = shuttle(fixed(ROAD), 1_000.0).pond(|site| site.fill_order = FillOrder::OneByOne);
    check(&in_turn, 1_000.0).unwrap_err();
    check(&shuttle(fixed(ROAD), 250.0), 300.0).unwrap_err();
}

/// All share from the first moment to the last: n / (away + n x load / flow) loads a minute.
fn check_pack(world: World) -> Result<(), String> {
    let world = world.handling(|handling| handling.dump_clear = fixed(CLEAR));
    let away = 2.0 * ROAD + CLEAR + LOAD / DUMP_RATE;
    let round = away + TANKERS as f64 * LOAD / FLOW;
    // At 0 they dump at once; half a minute after a round they are pulling clear again.
    let rounds = 50.0;
    let plan = world.watched(rounds * round + 0.5 * CLEAR).plan();
    let taken = Shuttle::new(&plan).run(Luck::Planned).taken[0];
    let theory = rounds * TANKERS as f64 * LOAD;
    let off = (taken / theory - 1.0).abs();
    if off < 1e-9 { Ok(()) } else { Err(format!("taken {taken}, theory {theory}")) }
}

#[test]
fn with_every_time_fixed_they_go_round_in_one_pack() {
    check_pack(shuttle(fixed(ROAD), 1_000.0)).unwrap();
}

#[test]
fn a_wrong_pack_is_found_out() {
    let pack = || shuttle(fixed(ROAD), 1_000.0);
    check_pack(pack().pond(|site| site.flow = FLOW / 1.02)).unwrap_err();
    check_pack(pack().pond(|site| site.positions = TANKERS as u32 - 1)).unwrap_err();
    check_pack(pack().tanker("One more", LOAD, 0.0)).unwrap_err();
}
