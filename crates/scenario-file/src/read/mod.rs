//! From checked values to a checked plan: names resolved, defaults filled in, facts worked out.

pub(crate) mod aid;

pub(crate) mod beside;

pub(crate) mod checked_plan;

pub(crate) mod facts;

pub(crate) mod plan_draft;

pub(crate) mod reader;

pub(crate) mod tankers_and_sites;
