//! The command `bucketline`: scenario files in, answers out.
//!
//! Read in this order: `arguments`, `scenario_file`, `commands`, then what they lean on: `output`,
//! `watching`, `failure`, `exit_code`.

pub mod arguments;

pub mod scenario_file;

pub mod commands;

pub mod output;

pub mod watching;

pub mod failure;

pub mod exit_code;
