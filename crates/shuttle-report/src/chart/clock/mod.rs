//! Charts over the clock: how a fire, or many, goes minute by minute.

mod marks;

pub mod levels;

pub mod first_interruption;

mod run_spans;

pub mod timeline;

pub mod flow_by_minute;

pub mod measured_and_predicted;
