//! Charts over the clock: how a fire, or many, goes minute by minute.

pub mod levels;

pub mod first_interruption;

#[cfg(not(target_arch = "wasm32"))]
pub mod chance_by_minute;

mod run_spans;

pub mod timeline;

pub mod flow_by_minute;

pub mod measured_and_predicted;
