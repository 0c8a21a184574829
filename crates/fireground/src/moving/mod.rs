//! Moving water: what hose loses, how it is laid and relayed, how long the road takes.

pub mod hose;

pub mod lay;

pub mod relay;

pub mod long_lay;

pub mod travel;
