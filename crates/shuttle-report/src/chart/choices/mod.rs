//! Charts of plans beside each other: numbers of tankers, options, losses, sites, distances, and what is in doubt.

pub mod chance_by_tankers;

pub mod chance_in_doubt;

pub mod chances;

pub mod curves;

pub mod differences;

pub mod held_by_sites;

pub mod flow_by_distance;
