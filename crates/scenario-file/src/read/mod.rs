//! From checked values to a checked plan: names resolved, defaults filled in, facts worked out.

pub(crate) mod address_names;

pub(crate) mod aid;

pub(crate) mod building;

pub(crate) mod building_flow;

pub(crate) mod checked_plan;

pub(crate) mod crew_and_hose;

pub(crate) mod grading;

pub(crate) mod plan_draft;

pub(crate) mod reader;

pub(crate) mod rests_on;

pub(crate) mod tankers_and_sites;

mod times;

pub(crate) mod worked_facts;
