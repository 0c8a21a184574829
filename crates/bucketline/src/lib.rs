//! The command `bucketline`: scenario files in, answers out.
//!
//! Read in this order: `arguments`, `scenario_file`, `commands`, `answers`, then what they lean on:
//! `answer_text`, `output`, `progress`, `failure`, `exit_code`.

pub mod arguments;

pub mod commands;

mod answers;

mod answer_text;

pub mod output;

mod give;

mod progress;

pub mod failure;

pub mod exit_code;
