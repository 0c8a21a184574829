//! The simulation against what is known without it: queueing theory, Torricelli and the arithmetic of
//! the trade.
//!
//! Every expected value is computed here from the formula of the source named beside it. Random
//! results are means over independent seeds and must lie within four standard errors. Each family
//! also runs a plan that is wrong on purpose (a service 2% longer, one position more) and holds that
//! the same comparison then fails: a check that would let that pass would tell nothing.

mod common;

#[path = "theory/closed_forms.rs"]
mod closed_forms;

#[path = "theory/measure.rs"]
mod measure;

#[path = "theory/shuttle_arithmetic.rs"]
mod shuttle_arithmetic;

#[path = "theory/fixed_times.rs"]
mod fixed_times;

#[path = "theory/exponential_times.rs"]
mod exponential_times;

#[path = "theory/shared_flow.rs"]
mod shared_flow;

#[path = "theory/steady_draw.rs"]
mod steady_draw;

#[path = "theory/gravity_dump.rs"]
mod gravity_dump;

#[path = "theory/operational_laws.rs"]
mod operational_laws;

#[path = "theory/shared_luck.rs"]
mod shared_luck;

#[path = "theory/after_a_loss.rs"]
mod after_a_loss;
