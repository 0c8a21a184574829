//! The greatest flow or distance that still holds in a stated share of runs: gradings, and reach.
//!
//! Read in this order: what is wanted and when ([`demand`]), one flow or distance tried run by run ([`tried`]),
//! the search for the greatest ([`held_flow`]), then what is asked: gradings ([`grading_rules`], what is stated
//! for them in [`survey`], their [`conditions`], [`site_sets`] by hand, [`grade`], [`evidence`]) and how far
//! from water a flow holds ([`reach`]).

pub mod demand;

pub mod tried;

pub mod held_flow;

pub mod grading_rules;

pub mod survey;

pub mod conditions;

pub mod site_sets;

pub mod grade;

pub mod evidence;

pub mod reach;
