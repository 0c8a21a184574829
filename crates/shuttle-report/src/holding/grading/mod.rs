//! Gradings of hauled water.
//!
//! Read in this order: the rules as data ([`grading_rules`]), what a scenario states for them ([`survey`]), whether
//! their [`conditions`] are met, sets of fill sites by hand ([`weighed_sets`], [`site_sets`]), whether a rule's flow holds
//! ([`rule_held`]); then what is asked: the fill sites of a place ([`grade`]), many places ([`district`]), and
//! the evidence a survey wants ([`evidence`]).

pub mod grading_rules;

pub mod survey;

pub mod conditions;

pub mod weighed_sets;

pub mod site_sets;

pub mod rule_held;

pub mod by_aid;

mod simulated_sets;

pub mod grade;

pub mod district;

pub mod evidence;
