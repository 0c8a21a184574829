//! How often the lines run short, and what changes it.

pub mod risk;

pub mod size;

pub mod lose;

pub mod levers;

pub mod compare;
