//! Trip wires: at which level of the water on hand, with no load to come for so many minutes, the lines are
//! about to run short.
//!
//! A pump operator sees two things: how much water stands in the drop tanks, and whether a tanker is in sight.
//! Both are read out of every simulated fire, and so is what came of it. `dips` reads one fire, `counted` adds up
//! many and chooses the levels.

mod counted;
mod dips;

#[cfg(test)]
mod tests;

pub use counted::{Cell, Question, TripWires, Wire, trip_wires};
pub use dips::Watched;
