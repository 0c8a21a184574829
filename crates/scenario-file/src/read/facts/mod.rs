//! Facts behind the values of a plan: times, hydrant tests, pumps, roads, buildings, and what each value rests on.

pub(crate) mod building;

pub(crate) mod building_flow;

pub(crate) mod rests_on;

pub(crate) mod times;

pub(crate) mod worked_facts;
