//! The command `bucketline`: scenario files in, answers out. What an answer says is the crate `answers`; here
//! are arguments, files, progress and how the program ends.
//!
//! Read in this order: `arguments`, `commands`, `give`, then what they lean on: `output`, `written_file`,
//! `progress`, `failure`, `exit_code`.

pub mod arguments;

pub mod commands;

mod address_table;

mod give;

pub mod output;

pub mod written_file;

mod progress;

mod today;

pub mod failure;

pub mod exit_code;
