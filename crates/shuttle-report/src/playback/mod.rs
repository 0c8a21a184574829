//! A day played back: what was poured beside what the plan would have poured, and which assumption explains the
//! difference.
//!
//! Read in this order: `poured` (loads, and the curve they add up to), `band` (the curves of many runs, and how
//! far another strays from them), `assumptions` (what may have been otherwise that day).

pub mod assumptions;

pub mod band;

pub mod poured;
