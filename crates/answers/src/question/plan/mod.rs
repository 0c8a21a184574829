//! What a plan is without luck, and what a day of it was: by hand, a building's flow, one fire told, a drill.

pub mod check;

pub mod flow;

pub mod replay;

pub mod drill;
