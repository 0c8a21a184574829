//! What a file may hold: one description of every object and field, by which texts are checked, read, and
//! described to editors, so that the three cannot disagree.
//!
//! [`description`] has what a table is made of, [`takes`] and [`rows`] the same in types: a row is stated once, and its
//! reader asks for it by name and gets what its type says. [`whole_files`] the two kinds of file, with all that hangs below them: [`fire`], [`haul`],
//! what stands [`beside`] the simulation, and the [`values`] they state.
//! Limits are the plan's own ([`shuttle_sim::Plan::LIMITS`]). Defaults are the model's; where silence counts
//! as nothing, what is usual stands beside it.

pub(crate) mod description;

pub(crate) mod rows;

pub(crate) mod tables;

pub(crate) mod takes;

pub(crate) mod whole_files;

pub(crate) mod options;

pub(crate) mod fire;

pub(crate) mod haul;

pub(crate) mod beside;

pub(crate) mod values;

pub(crate) mod shared_fields;

pub(crate) mod schema;
