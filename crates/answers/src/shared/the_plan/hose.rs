//! Hose in place of tankers.

mod compare;
mod figures;
mod told;

pub use compare::{Cannot, Compared, HoseInstead, compare, of_scenario};
pub use figures::HoseFigures;
pub use told::{in_full, in_short, rests_on};
