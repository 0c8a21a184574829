//! Benchmarks; see `batches.rs`.
