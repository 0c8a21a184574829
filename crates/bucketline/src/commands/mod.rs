//! One module a command. Each loads, runs, and turns the figures into an answer.

mod plan;

mod chance;

mod aid;

mod sources;

mod paper;

mod files;

pub use aid::{hold, request};
pub use chance::{compare, levers, lose, risk, size};
pub use files::{import, new, page};
pub use paper::{card, handout, report};
pub use plan::{check, drill, flow, replay};
pub use sources::{grade, reach};
