//! What a file may hold: one description of every object and field, by which texts are checked, read, and
//! described to editors, so that the three cannot disagree.
//!
//! [`description`] has the rows; [`whole_files`] the two kinds of file, with all that hangs below them.
//! Limits are the plan's own ([`shuttle_sim::Plan::LIMITS`]). Defaults are the model's; where silence counts
//! as nothing, what is usual stands beside it.

pub(crate) mod building;

mod crew_and_hose;

pub(crate) mod description;

mod durations;

mod flow_facts;

pub(crate) mod grading;

mod incident_and_supply;

mod options;

mod rests_on;

mod roads;

mod rough_values;

pub(crate) mod schema;

mod shared_fields;

mod shuttle;

pub(crate) mod whole_files;
