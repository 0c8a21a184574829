//! What the simulation has no use for: crew and hose, what a grading asks for, the names of addresses.

pub(crate) mod address_names;

pub(crate) mod crew_and_hose;

pub(crate) mod grading;
