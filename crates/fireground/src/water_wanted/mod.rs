//! How much water a fire or a building wants, by each rule, and what carries it to the fire.

pub mod quick_flow_rules;

pub mod minimum_supply;

pub mod insurance_flow;

pub mod canadian_flow;

pub mod surveyed_building;

pub mod side_by_side;

pub mod lost_fire;

pub mod attack_lines;

pub mod heat;
