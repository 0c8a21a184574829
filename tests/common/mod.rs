//! What several test files share: a small world to build plans from, and the telling of a run in
//! lines of text.
//!
//! A test file takes it in with `#[path = "../common/mod.rs"] mod common;` (or `mod common;` beside
//! it). Each test binary uses its own part of it.

#![allow(dead_code)]

pub mod telling;
pub mod world;

/// Holds two numbers to be equal but for rounding; the failure names what they are.
#[track_caller]
pub fn assert_close(got: f64, expected: f64, what: &str) {
    let allowed = 1e-6 * expected.abs().max(1.0);
    assert!((got - expected).abs() <= allowed, "{what}: got {got}, expected {expected}");
}
