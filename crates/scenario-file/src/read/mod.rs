//! From checked values to a checked plan: names resolved, defaults filled in, facts worked out, and
//! mistakes and oddities traced to their place in the text.

pub(crate) mod aid;

pub(crate) mod building;

pub(crate) mod building_flow;

pub(crate) mod checked_plan;

pub(crate) mod crew_and_hose;

mod fact_mistakes;

pub(crate) mod places;

pub(crate) mod plan_draft;

pub(crate) mod reader;

pub(crate) mod tankers_and_sites;

pub(crate) mod warnings;

pub(crate) mod worked_facts;
