//! Charts made for a printed page: few words, large, and told apart by shape and place rather than colour.

pub mod alarm_clock;

pub mod hundred_dots;

pub mod pinch;

use crate::chart::elements::style::{Look, WHITE};

/// The lines run short, as on every chart.
use crate::chart::elements::style::SHORT;

/// They do not.
const IN_WATER: Look = Look::plain(WHITE);
