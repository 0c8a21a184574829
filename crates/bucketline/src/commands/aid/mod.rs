//! Whom to ask for, and what flow that holds.

pub mod request;

pub mod hold;
