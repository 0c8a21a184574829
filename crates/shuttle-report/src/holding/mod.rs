//! The greatest flow or distance that still holds in a stated share of runs: gradings, and reach.
//!
//! Read in this order: what is wanted and when ([`demand`]), one flow or distance tried run by run ([`tried`]),
//! the search for the greatest ([`held_flow`]), then what is asked: [`grading`]s, how far from water a flow holds
//! ([`reach`]), what holds from which minute ([`by_minute`]), and
//! those flows one after another ([`stepped_up`]).

pub mod demand;

pub mod tried;

pub mod held_flow;

pub mod grading;

mod start_limit;

pub mod reach;

pub mod by_minute;

pub mod stepped_up;

/// Threads for searches next to each other, and within each of them: many searches run next to each other.
fn shared_out(threads: usize, searches: usize) -> (usize, usize) {
    if searches >= 2 * threads { (threads, 1) } else { (1, threads) }
}
