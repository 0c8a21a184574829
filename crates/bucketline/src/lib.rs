//! The command `bucketline`: scenario files in, answers out.

pub mod scenario_file;
