//! A plan by hand, a building's flow, one fire told, a drill.

pub mod check;

pub mod flow;

pub mod replay;

pub mod drill;
