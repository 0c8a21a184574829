//! All Monte Carlo of this crate: one runner of blocks, one accumulator.
//!
//! Read in this order: who asks and who may stop it ([`control`]), jobs on threads with their results merged
//! in order ([`in_order`]), what is counted ([`tally`], [`details`], [`bands`]), one plan many times
//! ([`batch`]), and several plans on common random numbers: all against one ([`side_by_side`]), or any two for a
//! quick guess (`any_two`); and the one in the middle ([`typical`]).
//!
//! Every run is known by its seed and its number and nothing else. So the same runs of two plans are pairs,
//! the first so many runs of a longer batch are the shorter one, and what is said of a plan's base does not
//! depend on what it is compared with.

pub mod control;

pub mod in_order;

pub mod tally;

pub mod details;

pub mod bands;

pub mod batch;

pub mod side_by_side;

pub mod typical;

pub(crate) mod any_two;

#[cfg(test)]
mod tally_tests;
