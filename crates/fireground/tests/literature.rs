//! Values from outside sources: each row carries its source, and a failure names it.
//!
//! "Value from memory" marks what was recalled and not confirmed against the text of the standard; "derived"
//! is arithmetic from a sourced row; "common practice" has no single source.

#[path = "literature/minimum_supply.rs"]
mod minimum_supply;

#[path = "literature/water_wanted.rs"]
mod water_wanted;

#[path = "literature/insurance_flow.rs"]
mod insurance_flow;

#[path = "literature/road.rs"]
mod road;

#[path = "literature/hose.rs"]
mod hose;

#[path = "literature/hydrants.rs"]
mod hydrants;

#[path = "literature/draft.rs"]
mod draft;

#[path = "literature/pipes_and_ponds.rs"]
mod pipes_and_ponds;

#[path = "literature/drop_tanks.rs"]
mod drop_tanks;

/// Fails with the row's source when `got` is farther than `tolerance` from `expected`.
fn close(what: &str, got: f64, expected: f64, tolerance: f64, source: &str) {
    assert!((got - expected).abs() <= tolerance, "{what}: got {got}, {source} gives {expected}");
}
