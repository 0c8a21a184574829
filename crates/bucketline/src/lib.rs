//! The command `bucketline`: scenario files in, answers out.
//!
//! Read in this order: `arguments`, `scenario_file`, `commands`, `answers`, then what they lean on:
//! `answer_text`, `output`, `written_file`, `progress`, `asking`, `failure`, `exit_code`.

pub mod arguments;

pub mod commands;

mod answers;

mod answer_text;

pub mod output;

mod give;

pub mod written_file;

mod progress;

mod asking;

pub mod failure;

pub mod exit_code;
