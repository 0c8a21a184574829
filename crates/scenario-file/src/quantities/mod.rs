//! Numbers with units: what a file may write, what a bare number means, and how messages show a value.
//!
//! Internally everything is in US units (gal, gpm, min, mi, mph, ft, in, psi).

pub(crate) mod bare_number;

pub(crate) mod figures;

pub(crate) mod quantity;

pub(crate) mod slips;

pub(crate) mod unit_sizes;

pub(crate) mod worked;

pub(crate) mod written_number;
