//! The road and its far end: one-lane stretches and fill sites, each with its own queue.

mod fill_site;

mod one_lane;

pub(crate) use fill_site::SiteState;
pub(crate) use one_lane::{LaneState, Way};
