//! What a source gives: a hydrant, a pump at draft with its suction, a pond.

pub mod hydrant;

pub mod pump;

pub mod suction;

pub mod pond;
