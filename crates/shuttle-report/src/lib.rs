//! Batches of runs.
