//! What must hold in every run of every plan, over thousands of plans at random with everything a
//! plan can state.
//!
//! A plan is thrown with a list of numbers between 0 and 1; a failing list is shrunk toward zeros,
//! and zeros mean the plainest plan. What a law is held against is seen from outside: the trace and
//! the result.

mod common;

#[path = "laws/random_plan.rs"]
mod random_plan;

#[path = "laws/itineraries.rs"]
mod itineraries;

#[path = "laws/of_one_run.rs"]
mod of_one_run;

#[path = "laws/of_luck.rs"]
mod of_luck;

#[path = "laws/more_help.rs"]
mod more_help;

#[path = "laws/doctored.rs"]
mod doctored;

#[path = "laws/help_that_hurts.rs"]
mod help_that_hurts;

#[path = "laws/knife_edges.rs"]
mod knife_edges;
