//! The same plan with something changed, for questions of the kind "what if".
//!
//! Read in this order: plans with other tankers or sites ([`variation`]), what an answer says of a change
//! ([`input`]), the changes that commonly help ([`common_changes`]), those that wait for the cause they cure
//! ([`cures`]), every input moved a little
//! ([`moved_inputs`]), and sets of aid (`aid_sets`).

pub mod variation;

pub mod input;

pub mod common_changes;

pub mod cures;

pub mod moved_inputs;

pub(crate) mod aid_sets;
