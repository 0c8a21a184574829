//! Options of a scenario: its text changed by JSON Patch (RFC 6902), and read like any other.

pub(crate) mod json_equality;

pub(crate) mod option_findings;

mod patching;

mod pointer_mistakes;

pub(crate) mod scenario_options;
