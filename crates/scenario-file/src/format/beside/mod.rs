//! What the simulation has no use for: what a grading asks for, people, hose in place of tankers.

pub(crate) mod addresses;

pub(crate) mod crew_and_hose;

pub(crate) mod grading;
