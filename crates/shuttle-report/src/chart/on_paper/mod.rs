//! Charts made for a printed page: few words, large, and told apart by shape and place rather than colour.

pub mod hundred_dots;

pub mod pinch;

use super::style::{Hatch, Look, PURPLE, WHITE};

/// The lines run short: hatched so densely that it is dark on any copy.
const SHORT: Look = Look::hatched(PURPLE, Hatch::Crossed, super::style::BLACK);
/// They do not.
const IN_WATER: Look = Look::plain(WHITE);
