//! Files to work with: a first plan, one from spreadsheets, the planner page.

pub mod new;

pub mod import;

pub mod page;
