//! Whole-program benches.
