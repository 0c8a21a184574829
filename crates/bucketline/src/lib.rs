//! The command `bucketline`: scenario files in, answers out.
//!
//! Read in this order: `arguments`, `scenario_file`, `commands`, `answers`, then what they lean on:
//! `answer_text`, `output`, `watching`, `failure`, `exit_code`.

pub mod arguments;

pub mod scenario_file;

pub mod commands;

mod answers;

mod answer_text;

pub mod output;

mod watching;

pub mod failure;

pub mod exit_code;
