//! Gradings of hauled water.
//!
//! Read in this order: the rules as data ([`grading_rules`]), what a scenario states for them ([`survey`]), whether
//! their [`conditions`] are met, sets of fill sites by hand ([`site_sets`]), whether a rule's flow holds
//! ([`rule_held`]); then what is asked: the fill sites of a place ([`grade`]), many places ([`district`]), and
//! the evidence a survey wants ([`evidence`]).

pub mod grading_rules;

pub mod survey;

pub mod conditions;

pub mod site_sets;

pub mod rule_held;

pub mod grade;

pub mod district;

pub mod evidence;
