//! What moves the water: drop tanks, tankers, fill sites, roads.

pub(crate) mod alarms;

pub(crate) mod drop_tanks;

pub(crate) mod fill_sites;

pub(crate) mod roads;

pub(crate) mod tankers;
