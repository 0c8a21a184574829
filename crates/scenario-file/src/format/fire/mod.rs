//! The fire and the engines at it, and the building behind a flow.

pub(crate) mod building;

pub(crate) mod incident_and_supply;
